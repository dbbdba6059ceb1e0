//! What to set by.

use grounds_fit::adjust::adjust;
use grounds_fit::net::{LinkId, LinkKind, NeedId, Net};
use grounds_fit::prior::prior;
use grounds_fit::set_out::{Measure, SetOuts, set_outs};
use proptest::prelude::*;

use crate::drawn::{self, Plan};
use crate::{built, close, need, net, read, set};

fn out(net: &Net, measure: Measure) -> SetOuts {
    set_outs(net, measure, 1.0).unwrap()
}

/// The net with every setting chosen as proposed.
fn chosen(net: &Net, out: &SetOuts) -> Net {
    let mut net = net.clone();
    for setting in &out.settings {
        if let LinkKind::Set { chosen, .. } = &mut net.links[setting.link.index()].kind {
            *chosen = Some(setting.value);
        }
    }
    net
}

#[test]
fn a_track_between_two_finishes_is_set_in_the_middle_of_its_room() {
    // Finishes stand 20 ± 2 and 120 ± 2 from the control line; the track must keep 30 to each.
    let links = vec![
        built(0, 1, 20.0, 2.0),
        built(0, 2, 120.0, 2.0),
        set(0, 3, 40.0, 100.0, 0.5),
    ];
    let needs = vec![need(1, 3, Some(30.0), None), need(3, 2, Some(30.0), None)];
    let out = out(&net(4, links, needs), Measure::WorstCase);
    close(out.settings[0].exact, 70.0, 1e-4);
    assert_eq!(out.settings[0].value, 70.0);
    close(out.margins[0].unwrap().rounded, 17.5, 1e-9);
    close(out.margins[1].unwrap().rounded, 17.5, 1e-9);
    assert!(out.clashes.is_empty());
}

#[test]
fn in_spreads_the_surer_side_leaves_room_to_the_other() {
    // Both sides are 50 away; the one ± 6, the other ± 3, the hand ± 0.
    let links = vec![
        built(0, 1, 0.0, 6.0),
        built(0, 2, 100.0, 3.0),
        set(0, 3, 0.0, 100.0, 0.0),
    ];
    let needs = vec![need(1, 3, Some(0.0), None), need(3, 2, Some(0.0), None)];
    let out = out(&net(4, links, needs), Measure::Spreads);
    // Spreads 2 and 1: a value s with s/2 = 100 − s.
    close(out.settings[0].exact, 200.0 / 3.0, 1e-3);
    close(out.margins[0].unwrap().exact, 100.0 / 3.0, 1e-3);
}

#[test]
fn a_need_that_can_have_more_room_gets_it_though_another_is_tight() {
    let links = vec![set(0, 1, 0.0, 10.0, 0.0), set(0, 2, 0.0, 100.0, 0.0)];
    let needs = vec![
        need(0, 1, Some(4.0), Some(6.0)),
        need(1, 2, Some(10.0), Some(30.0)),
        need(0, 2, Some(0.0), Some(90.0)),
    ];
    let out = out(&net(3, links, needs), Measure::WorstCase);
    close(out.settings[0].exact, 5.0, 1e-4);
    close(out.settings[1].exact, 25.0, 1e-4);
    for (margin, should) in out.margins.iter().zip([1.0, 10.0, 25.0]) {
        close(margin.unwrap().exact, should, 1e-3);
    }
}

#[test]
fn needs_that_clash_are_named_and_no_others() {
    // The grille is to sit flush with the plaster, and its box is to clear the duct: 3 mm too much.
    let links = vec![
        built(0, 1, 20.0, 0.5),
        built(0, 2, 8.0, 0.5),
        set(0, 3, 0.0, 60.0, 0.0),
        set(0, 4, 0.0, 60.0, 0.0),
    ];
    let needs = vec![
        need(1, 3, Some(-0.5), Some(0.5)),
        need(2, 3, Some(15.0), None),
        need(0, 3, Some(0.0), Some(60.0)),
        need(0, 4, Some(10.0), Some(20.0)),
    ];
    let out = out(&net(5, links, needs), Measure::WorstCase);
    assert_eq!(out.clashes.len(), 1);
    assert_eq!(out.clashes[0].needs, [NeedId(0), NeedId(1)]);
    assert!(out.clashes[0].settings.is_empty());
    // At most 20.0, at least 23.5, shared evenly.
    close(out.clashes[0].short, 1.75, 1e-4);
    close(out.settings[0].exact, 21.75, 1e-3);
    close(out.settings[1].exact, 15.0, 1e-3);
}

#[test]
fn a_range_that_stands_in_the_way_is_named() {
    let links = vec![built(0, 1, 50.0, 1.0), set(0, 2, 10.0, 40.0, 0.0)];
    let out = out(
        &net(3, links, vec![need(1, 2, Some(0.0), None)]),
        Measure::WorstCase,
    );
    assert_eq!(out.clashes[0].needs, [NeedId(0)]);
    assert_eq!(out.clashes[0].settings, [LinkId(1)]);
    close(out.clashes[0].short, 11.0, 1e-4);
}

#[test]
fn a_need_that_no_setting_can_help_is_told_alone() {
    let links = vec![built(0, 1, 50.0, 4.0)];
    let out = out(
        &net(2, links, vec![need(0, 1, Some(48.0), Some(52.0))]),
        Measure::WorstCase,
    );
    assert_eq!(out.clashes.len(), 2, "at both of its limits");
    assert!(out.clashes.iter().all(|clash| clash.needs == [NeedId(0)]));
}

#[test]
fn two_settings_in_a_row_stay_near_their_middles() {
    let links = vec![set(0, 1, 0.0, 20.0, 0.0), set(1, 2, 0.0, 20.0, 0.0)];
    let out = out(
        &net(3, links, vec![need(0, 2, Some(22.0), Some(26.0))]),
        Measure::WorstCase,
    );
    close(out.settings[0].exact, 12.0, 1e-3);
    close(out.settings[1].exact, 12.0, 1e-3);
}

#[test]
fn a_sixteenth_of_an_inch_is_kept_to_the_marks_of_the_tape() {
    let tape = 25.4 / 16.0;
    let links = vec![built(0, 1, 33.3, 1.0), set(0, 2, 0.0, 80.0, 0.5)];
    let out = set_outs(
        &net(3, links, vec![need(1, 2, Some(3.0), Some(9.0))]),
        Measure::Spreads,
        tape,
    );
    let value = out.unwrap().settings[0].value;
    close(value / tape, (value / tape).round(), 1e-9);
    close(value, 39.3, tape / 2.0);
}

#[test]
fn a_range_without_a_mark_keeps_its_exact_value() {
    let out = out(
        &net(2, vec![set(0, 1, 3.2, 3.8, 0.0)], vec![]),
        Measure::WorstCase,
    );
    close(out.settings[0].value, 3.5, 1e-9);
}

#[test]
fn readings_move_the_set_out() {
    let mut links = vec![built(0, 1, 12.0, 3.0), set(0, 2, 0.0, 60.0, 0.5)];
    let needs = vec![need(1, 2, Some(0.0), Some(4.0))];
    let before = out(&net(3, links.clone(), needs.clone()), Measure::Spreads);
    close(before.settings[0].exact, 14.0, 1e-3);
    links.push(read(0, 1, 9.0, 0.1));
    let after = out(&net(3, links, needs), Measure::Spreads);
    close(after.settings[0].exact, 11.0, 0.05);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// The claim is checked by computing the needs anew with the values chosen.
    #[test]
    fn set_outs_meet_every_need_they_claim_to(seed in any::<u64>(), loops in 0..3_usize) {
        let plan = Plan {
            groups: 2,
            points: 8,
            readings: 3,
            loops,
            needs: 5,
            settings: 0.5,
            shaped: 0.2,
        };
        let net = drawn::net(plan, seed);
        for measure in [Measure::WorstCase, Measure::Spreads] {
            let out = out(&net, measure);
            let set = chosen(&net, &out);
            let (prior, adjusted) = (prior(&set).unwrap(), adjust(&set).unwrap());
            for (index, need) in net.needs.iter().enumerate() {
                let Some(margin) = out.margins[index] else { continue };
                let anew = match measure {
                    Measure::WorstCase => need.margin_of(prior.needs[index].unwrap().worst.unwrap()),
                    Measure::Spreads => {
                        let it = adjusted.needs[index].unwrap();
                        need.margin(it.mean) / it.spread
                    }
                };
                prop_assert!((anew - margin.rounded).abs() < 1e-6, "{anew} {margin:?}");
            }
            let short = out.margins.iter().flatten().any(|margin| margin.exact < -1e-5);
            prop_assert_eq!(short, !out.clashes.is_empty());
            let least = |set: &SetOuts| {
                set.margins.iter().flatten().map(|it| it.exact).fold(f64::INFINITY, f64::min)
            };
            prop_assert!(least(&out) >= least(&middles(&net, measure)) - 1e-5);
        }
    }
}

/// Margins with every setting in the middle of its range, which no set-out may fall behind.
fn middles(net: &Net, measure: Measure) -> SetOuts {
    let mut fixed = net.clone();
    for link in &mut fixed.links {
        if let LinkKind::Set { low, high, .. } = &mut link.kind {
            (*low, *high) = (f64::midpoint(*low, *high), f64::midpoint(*low, *high));
        }
    }
    out(&fixed, measure)
}
