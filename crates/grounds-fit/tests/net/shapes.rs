//! Even and triangular links, and unequal tolerances.

use grounds_fit::net::{Need, NeedId, Net, Shape};
use grounds_fit::prior::prior;
use grounds_fit::sample::sample;

use crate::{built, close, need, net, shaped};

fn chance(links: Vec<grounds_fit::net::Link>, limits: Need) -> f64 {
    let points = links.len() + 1;
    prior(&net(points, links, vec![limits])).unwrap().needs[0]
        .unwrap()
        .chance
}

/// The even distribution, exactly.
#[test]
fn an_even_link_alone_is_met_in_proportion() {
    for (most, should) in [
        (-1.0, 0.0),
        (-0.5, 0.25),
        (0.0, 0.5),
        (0.9, 0.95),
        (1.0, 1.0),
        (7.0, 1.0),
    ] {
        let link = shaped(0, 1, 0.0, (1.0, 1.0), Shape::Even);
        close(
            chance(vec![link], need(0, 1, None, Some(most))),
            should,
            1e-9,
        );
    }
}

/// A triangle over 0 to 4 with its peak at 1: the chance below x is x²/4 up to the peak and
/// 1 − (4 − x)²/12 beyond it [published].
#[test]
fn a_triangle_alone_is_met_as_its_areas_say() {
    let link = shaped(0, 1, 1.0, (1.0, 3.0), Shape::Triangle);
    for (most, should) in [
        (0.5, 0.0625),
        (1.0, 0.25),
        (2.0, 1.0 - 4.0 / 12.0),
        (3.5, 1.0 - 0.25 / 12.0),
    ] {
        close(
            chance(vec![link], need(0, 1, None, Some(most))),
            should,
            1e-4,
        );
    }
}

/// The sum of n even numbers from 0 to 1 (Irwin and Hall [published]): below 0.5 with two of them
/// 1/8, below 1 with three of them 1/6, below 0.5 with four of them 1/384.
#[test]
fn sums_of_few_even_links_follow_irwin_and_hall() {
    for (count, most, should) in [(2, 0.5, 0.125), (3, 1.0, 1.0 / 6.0), (4, 0.5, 1.0 / 384.0)] {
        let links = (0..count).map(|at| shaped(at, at + 1, 0.5, (0.5, 0.5), Shape::Even));
        close(
            chance(links.collect(), need(0, count, None, Some(most))),
            should,
            1e-5,
        );
    }
}

/// Mean and variance of a triangle with ends a, b and peak c: (a + b + c)/3 and
/// (a² + b² + c² − ab − ac − bc)/18 [published].
#[test]
fn unequal_tolerances_shift_the_mean() {
    let of = |shape| {
        let net = net(
            2,
            vec![shaped(0, 1, 10.0, (1.0, 4.0), shape)],
            vec![need(0, 1, None, None)],
        );
        let it = prior(&net).unwrap().needs[0].unwrap();
        close(it.nominal, 10.0, 1e-12);
        assert_eq!(
            it.worst.map(|worst| (worst.low, worst.high)),
            Some((9.0, 14.0))
        );
        (it.mean, it.spread)
    };
    let (mean, spread) = of(Shape::Triangle);
    let (a, b, c) = (9.0_f64, 14.0, 10.0);
    close(mean, (a + b + c) / 3.0, 1e-12);
    let variance = (a * a + b * b + c * c - a * b - a * c - b * c) / 18.0;
    close(spread, variance.sqrt(), 1e-9);
    let (mean, spread) = of(Shape::Even);
    close(mean, 11.5, 1e-12);
    close(spread, 5.0 / 12.0_f64.sqrt(), 1e-12);
    let (mean, spread) = of(Shape::Normal);
    close(mean, 11.5, 1e-12);
    close(spread, 5.0 / 6.0, 1e-12);
}

fn mixed() -> Net {
    let links = vec![
        shaped(0, 1, 12.0, (1.0, 3.0), Shape::Triangle),
        shaped(2, 1, -5.0, (2.0, 0.5), Shape::Triangle),
        shaped(2, 3, 90.0, (3.0, 3.0), Shape::Even),
        built(3, 4, 20.0, 1.0),
    ];
    let needs = [(113.0, 120.0), (117.0, 118.0), (121.0, 140.0)];
    let needs = needs.map(|(least, most)| need(0, 4, Some(least), Some(most)));
    net(5, links, needs.to_vec())
}

/// Three standard errors of 200,000 draws, √(p(1 − p)/n), and the thousandth that is promised.
#[test]
fn drawn_distances_agree_with_mean_spread_and_chance() {
    let net = mixed();
    let prior = prior(&net).unwrap();
    for (index, limits) in net.needs.iter().enumerate() {
        let known = prior.needs[index].unwrap();
        let runs = 200_000;
        let drawn = sample(
            &net,
            &prior.working(NeedId::from(index)),
            runs,
            41 + index as u64,
        );
        let error = known.spread / (runs as f64).sqrt();
        close(drawn.mean(), known.mean, 4.0 * error);
        close(drawn.spread(), known.spread, 4.0 * error);
        let share = 3.0 * (known.chance * (1.0 - known.chance) / runs as f64).sqrt() + 1e-3;
        close(drawn.met(limits), known.chance, share);
    }
}

#[test]
fn the_same_seed_draws_the_same_distances() {
    let net = mixed();
    let working = prior(&net).unwrap().working(NeedId(0));
    assert_eq!(
        sample(&net, &working, 100, 3),
        sample(&net, &working, 100, 3)
    );
    assert_ne!(
        sample(&net, &working, 100, 3),
        sample(&net, &working, 100, 4)
    );
}
