//! Worst cases along chains and round loops.

use grounds_fit::net::{LinkId, LinkKind, NeedId, Shape};
use grounds_fit::prior::prior;
use grounds_fit::sample::sample;

use crate::{built, close, drawn, need, net, read};

#[test]
fn a_second_way_round_narrows_the_worst_case() {
    // Wall to wall 1000 ± 3; or by three parts that come to 1000 ± 6, off by two.
    let links = vec![
        built(0, 3, 1000.0, 3.0),
        built(0, 1, 300.0, 2.0),
        built(1, 2, 400.0, 2.0),
        built(2, 3, 302.0, 2.0),
    ];
    let needs = vec![
        need(0, 3, None, None),
        need(1, 2, None, None),
        need(3, 0, None, None),
    ];
    let prior = prior(&net(4, links, needs)).unwrap();
    let worst = |need: usize| prior.needs[need].unwrap().worst.unwrap();
    // 996 to 1008 by the parts, 997 to 1003 by the wall.
    close(worst(0).low, 997.0, 1e-9);
    close(worst(0).high, 1003.0, 1e-9);
    close(worst(2).low, -1003.0, 1e-9);
    // The middle part is what is left: at most 1003 − 298 − 300, but it is 402 at most by itself.
    close(worst(1).low, 398.0, 1e-9);
    close(worst(1).high, 402.0, 1e-9);
}

#[test]
fn a_loop_that_cannot_close_names_its_links() {
    let links = vec![
        built(0, 1, 500.0, 1.0),
        built(1, 2, 500.0, 1.0),
        built(0, 2, 1010.0, 1.0),
        built(2, 3, 5.0, 1.0),
    ];
    let prior = prior(&net(
        4,
        links,
        vec![need(0, 2, None, None), need(2, 3, None, None)],
    ))
    .unwrap();
    assert_eq!(prior.contradictions.len(), 1);
    let mut links = prior.contradictions[0].links.clone();
    links.sort_unstable();
    assert_eq!(links, [LinkId(0), LinkId(1), LinkId(2)]);
    close(prior.contradictions[0].gap, 7.0, 1e-6);
    assert!(prior.needs[0].unwrap().worst.is_none());
    assert!(prior.needs[1].unwrap().worst.is_some());
}

/// Every case drawn from limits that are never exceeded lies within the worst case.
#[test]
fn the_worst_case_contains_every_drawn_case() {
    let plan = drawn::Plan {
        groups: 8,
        points: 14,
        readings: 0,
        loops: 0,
        needs: 10,
        settings: 0.2,
        shaped: 1.0,
    };
    for seed in 0..20 {
        let mut net = drawn::net(plan, seed);
        for link in &mut net.links {
            if let LinkKind::Set { shape, .. } = &mut link.kind {
                *shape = Shape::Even;
            }
        }
        let prior = prior(&net).unwrap();
        for (index, known) in prior.needs.iter().enumerate() {
            let worst = known.unwrap().worst.unwrap();
            let drawn = sample(&net, &prior.working(NeedId::from(index)), 200, seed);
            let (least, most) = (drawn.distances[0], drawn.distances[199]);
            assert!(worst.low - 1e-9 <= least && most <= worst.high + 1e-9);
        }
    }
}

/// In loops a drawn case is one whose loops close: points are placed at random, and every link that
/// is drawn keeps its limits, so that each distance must lie in its worst case.
#[test]
fn the_worst_case_of_loops_contains_every_case_that_closes() {
    let plan = drawn::Plan {
        groups: 5,
        points: 12,
        readings: 0,
        loops: 10,
        needs: 12,
        settings: 0.0,
        shaped: 0.5,
    };
    for seed in 0..30 {
        let mut net = drawn::net(plan, seed);
        let mut dice = drawn::Dice::new(900 + seed);
        let places: Vec<f64> = (0..net.points)
            .map(|_| dice.between(-900.0, 900.0))
            .collect();
        let way = |from: usize, to: usize| places[to] - places[from];
        for link in &mut net.links {
            let true_way = way(link.from.index(), link.to.index());
            if let LinkKind::Built {
                nominal,
                minus,
                plus,
                ..
            } = &mut link.kind
            {
                *nominal = true_way + dice.between(-*plus, *minus);
            }
        }
        let prior = prior(&net).unwrap();
        assert!(prior.contradictions.is_empty());
        for (need, known) in net.needs.iter().zip(&prior.needs) {
            let worst = known.unwrap().worst.unwrap();
            let here = way(need.from.index(), need.to.index());
            assert!(worst.low - 1e-6 <= here && here <= worst.high + 1e-6);
        }
    }
}

#[test]
fn readings_count_before_they_are_weighed_only_where_nothing_else_joins() {
    let links = vec![
        built(0, 1, 10.0, 1.0),
        read(0, 1, 12.0, 0.5),
        read(1, 2, 50.0, 0.5),
        read(1, 2, 51.0, 0.5),
    ];
    let prior = prior(&net(3, links, vec![need(0, 2, None, None)])).unwrap();
    let it = prior.needs[0].unwrap();
    close(it.nominal, 60.5, 1e-9);
    let told: Vec<_> = prior
        .working(NeedId(0))
        .iter()
        .map(|term| term.link)
        .collect();
    assert_eq!(told, [LinkId(0), LinkId(2), LinkId(3)]);
}
