//! Worked examples of tolerance stacks.

use grounds_fit::net::{Interval, Net};
use grounds_fit::prior::{NeedPrior, prior};

use crate::{built, close, need, net};

fn first(net: &Net) -> NeedPrior {
    prior(net).unwrap().needs[0].unwrap()
}

/// Links end to end, with one need from the first point to the last.
fn chain(links: &[(f64, f64)]) -> NeedPrior {
    let count = u32::try_from(links.len()).unwrap();
    let links = (0..count)
        .zip(links)
        .map(|(at, (nominal, tolerance))| built(at, at + 1, *nominal, *tolerance));
    first(&net(
        links.len() + 1,
        links.collect(),
        vec![need(0, count, None, None)],
    ))
}

fn is(interval: Interval, low: f64, high: f64, within: f64) {
    close(interval.low, low, within);
    close(interval.high, high, within);
}

/// Housing 4.020 ± 0.005 with parts 2.000 ± 0.005, 1.500 ± 0.003 and 0.500 ± 0.002 in it: gap 0.020,
/// worst case 0.005 to 0.035, root sum of squares ± 0.00794, 0.01206 to 0.02794 [published:
/// engineering article on stack-ups].
#[test]
fn three_parts_in_a_housing_leave_the_published_gap() {
    let parts = vec![
        built(0, 1, 2.0, 0.005),
        built(1, 2, 1.5, 0.003),
        built(2, 3, 0.5, 0.002),
        built(0, 4, 4.02, 0.005),
    ];
    let gap = first(&net(5, parts, vec![need(3, 4, Some(0.0), None)]));
    close(gap.nominal, 0.02, 1e-12);
    close(gap.mean, 0.02, 1e-12);
    is(gap.worst.unwrap(), 0.005, 0.035, 1e-12);
    is(gap.rss, 0.01206, 0.02794, 5e-6);
    close(gap.rss.half(), 0.00794, 5e-6);
    close(gap.spread, 0.00794 / 3.0, 2e-6);
}

/// Parts ± 0.005, ± 0.003 and ± 0.002 come to ± 0.00616 [published: the same].
#[test]
fn the_parts_alone_come_to_the_published_root_sum_of_squares() {
    close(
        chain(&[(2.0, 0.005), (1.5, 0.003), (0.5, 0.002)])
            .rss
            .half(),
        0.00616,
        5e-6,
    );
}

/// Ten parts ± 0.1: worst case ± 1.0, root sum of squares ± 0.316 [published: article].
#[test]
fn ten_equal_parts_add_up_to_one_or_to_a_third() {
    let ten = chain(&[(10.0, 0.1); 10]);
    close(ten.worst.unwrap().half(), 1.0, 1e-9);
    close(ten.rss.half(), 0.316, 5e-4);
}

/// Framing ± 1/8, board ± 1/32, plaster ± 1/16, trim ± 1/32 in: ± 0.250, ± 0.147 and, inflated by
/// 1.5, ± 0.220 in (computed by hand from the published formulas; 1.5 from memory).
#[test]
fn a_reveal_of_framing_board_plaster_and_trim_may_be_a_quarter_inch_off() {
    let inch = 25.4;
    let reveal = chain(&[
        (1000.0, inch / 8.0),
        (12.7, inch / 32.0),
        (12.0, inch / 16.0),
        (19.0, inch / 32.0),
    ]);
    close(reveal.worst.unwrap().half() / inch, 0.250, 5e-4);
    close(reveal.rss.half() / inch, 0.147, 5e-4);
    close(reveal.inflated.half() / inch, 0.220, 5e-4);
}

/// ± 3, 1, 2, 1.5 mm: worst case 7.5, root sum of squares 4.03 (computed by hand from the published
/// formulas).
#[test]
fn four_layers_in_millimetres() {
    let stack = chain(&[(90.0, 3.0), (12.5, 1.0), (10.0, 2.0), (8.0, 1.5)]);
    close(stack.worst.unwrap().half(), 7.5, 1e-9);
    close(stack.rss.half(), 4.03, 5e-3);
}

/// A chain of n joints each ± t drifts by t·√n (common practice, from the same formula).
#[test]
fn a_running_dimension_drifts_with_the_root_of_the_joints() {
    close(chain(&[(300.0, 2.0); 16]).rss.half(), 8.0, 1e-9);
}

/// 1, 2 and 3 standard deviations hold 68.27, 95.45 and 99.73 per cent [published: statistics].
#[test]
fn a_need_of_one_two_and_three_spreads_is_met_as_tables_say() {
    for (spreads, percent) in [
        (1.0, 68.27),
        (2.0, 95.45),
        (3.0, 99.73),
        (1.645, 90.0),
        (1.96, 95.0),
    ] {
        let limits = need(0, 1, Some(100.0 - spreads), Some(100.0 + spreads));
        let met = first(&net(2, vec![built(0, 1, 100.0, 3.0)], vec![limits]));
        close(100.0 * met.chance, percent, 5e-3);
    }
}
