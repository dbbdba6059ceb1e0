//! What to measure first.

use grounds_fit::adjust::adjust;
use grounds_fit::measure_first::{Candidate, candidates, measure_first};
use grounds_fit::net::{LinkKind, NeedId, PointId};

use crate::{built, close, drawn, need, net, read};

fn across(from: u32, to: u32, sigma: f64) -> Candidate {
    Candidate {
        from: PointId(from),
        to: PointId(to),
        sigma,
    }
}

#[test]
fn the_least_sure_layer_of_a_need_in_doubt_is_measured_first() {
    let links = vec![
        built(0, 1, 12.5, 0.5),
        built(1, 2, 12.0, 4.0),
        built(0, 3, 25.0, 1.0),
        built(4, 5, 90.0, 9.0),
    ];
    let needs = vec![
        need(2, 3, Some(0.0), Some(1.5)),
        need(4, 5, Some(0.0), Some(400.0)),
    ];
    let net = net(6, links, needs);
    let adjusted = adjust(&net).unwrap();
    let gains = measure_first(&net, &adjusted, &candidates(&net, 0.5));
    // Across the whole need, which says more than any of its layers; then the thick coat.
    let pairs: Vec<_> = gains
        .iter()
        .map(|it| (it.candidate.from.0, it.candidate.to.0))
        .collect();
    assert_eq!(pairs[..2], [(2, 3), (1, 2)]);
    assert_eq!(gains[0].needs[0].need, NeedId(0));
    assert!(gains[0].doubt > gains[1].doubt && gains[1].doubt > gains[2].doubt);
    // Nothing is in doubt about the wide room, though nothing is less sure.
    let wide = gains
        .iter()
        .find(|it| it.candidate.from == PointId(4))
        .unwrap();
    assert!(wide.doubt < 1e-12 && wide.variance > 0.0);
}

/// The closed form against the adjustment of a net that has the reading.
#[test]
fn the_spread_after_is_the_spread_of_the_net_with_the_reading() {
    let plan = drawn::Plan {
        groups: 2,
        points: 12,
        readings: 8,
        loops: 3,
        needs: 8,
        settings: 0.1,
        shaped: 0.0,
    };
    for seed in 0..8 {
        let mut net = drawn::net(plan, seed);
        // An open setting that a reading joins would lose its say.
        for link in &mut net.links {
            if let LinkKind::Set {
                low, high, chosen, ..
            } = &mut link.kind
            {
                *chosen = Some(f64::midpoint(*low, *high));
            }
        }
        let adjusted = adjust(&net).unwrap();
        for gain in measure_first(&net, &adjusted, &candidates(&net, 0.7)) {
            let Candidate { from, to, sigma } = gain.candidate;
            let mut with = net.clone();
            with.links.push(read(from.0, to.0, 1.0, sigma));
            let after = adjust(&with).unwrap();
            for told in &gain.needs {
                let should = after.needs[told.need.index()].unwrap().spread;
                close(told.spread_after, should, 1e-6);
                assert!(told.spread_after <= told.spread);
                assert!(told.doubt_after <= told.doubt);
            }
        }
    }
}

/// With the need even between met and missed and a perfect reading, no doubt is left.
#[test]
fn a_perfect_reading_across_a_need_takes_nearly_all_doubt() {
    let net = net(
        2,
        vec![built(0, 1, 10.0, 3.0)],
        vec![need(0, 1, Some(10.0), None)],
    );
    let adjusted = adjust(&net).unwrap();
    let gains = measure_first(&net, &adjusted, &[across(0, 1, 1e-6), across(0, 1, 1.0)]);
    close(gains[0].needs[0].doubt, 0.5, 1e-12);
    close(gains[0].needs[0].doubt_after, 0.0, 1e-3);
    // Of two normal numbers with correlation ρ the signs differ with chance arccos(ρ)/π [published];
    // here ρ² = 1/2, and the chance is a quarter.
    close(gains[1].needs[0].doubt_after, 0.25, 2e-3);
}

#[test]
fn readings_that_cannot_be_taken_are_left_out() {
    let net = net(
        3,
        vec![built(0, 1, 10.0, 3.0)],
        vec![need(0, 1, Some(10.0), None)],
    );
    let adjusted = adjust(&net).unwrap();
    let none = [
        across(0, 2, 1.0),
        across(0, 9, 1.0),
        across(0, 1, 0.0),
        across(0, 1, f64::NAN),
    ];
    assert!(measure_first(&net, &adjusted, &none).is_empty());
}
