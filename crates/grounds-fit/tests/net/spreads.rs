//! What holds of every net.

use grounds_fit::adjust::adjust;
use grounds_fit::net::{LinkId, LinkKind, NeedId};
use grounds_fit::prior::{Term, prior};
use proptest::prelude::*;

use crate::drawn::{Plan, net};
use crate::{close, read};

fn plan() -> impl Strategy<Value = (Plan, u64)> {
    let sizes = (1..4_usize, 2..20_usize, 0..20_usize, 0..8_usize);
    (sizes, 0.0..0.3, any::<u64>()).prop_map(
        |((groups, points, readings, loops), settings, seed)| {
            let plan = Plan {
                groups,
                points,
                readings,
                loops,
                needs: 6,
                settings,
                shaped: 0.3,
            };
            (plan, seed)
        },
    )
}

fn shares(working: &[Term]) -> f64 {
    working.iter().map(|term| term.share).sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn adding_a_reading_never_widens_a_spread((plan, seed) in plan(), at in 0.0..1.0, sigma in 0.01..50.0) {
        let before = net(plan, seed);
        let mut after = before.clone();
        let like = before.links[((before.links.len() as f64) * at) as usize];
        after.links.push(read(like.from.0, like.to.0, like.kind.nominal() + 3.0, sigma));
        let open = matches!(like.kind, LinkKind::Set { chosen: None, .. });
        prop_assume!(!open);
        let (before, after) = (adjust(&before).unwrap(), adjust(&after).unwrap());
        for (before, after) in before.needs.iter().zip(&after.needs) {
            let (before, after) = (before.unwrap(), after.unwrap());
            prop_assert!(after.spread <= before.spread * (1.0 + 1e-9) + 1e-9);
        }
    }

    #[test]
    fn shares_sum_to_one_and_coefficients_make_the_distance((plan, seed) in plan()) {
        let net = net(plan, seed);
        let (prior, adjusted) = (prior(&net).unwrap(), adjust(&net).unwrap());
        for index in 0..net.needs.len() {
            let need = NeedId::from(index);
            let known = prior.needs[index].unwrap();
            let working = prior.working(need);
            prop_assert!((shares(&working) - 1.0).abs() < 1e-9);
            prop_assert!((shares(&adjusted.working(need)) - 1.0).abs() < 1e-9);
            let sum = |of: fn(LinkKind) -> f64| -> f64 {
                let of = |term: &Term| term.coefficient * of(net.links[term.link.index()].kind);
                working.iter().map(of).sum()
            };
            prop_assert!((sum(LinkKind::nominal) - known.nominal).abs() < 1e-6);
            prop_assert!((sum(LinkKind::mean) - known.mean).abs() < 1e-6);
            let squares = working.iter().map(|term| {
                term.coefficient.powi(2) * net.links[term.link.index()].kind.variance()
            });
            prop_assert!((squares.sum::<f64>().sqrt() - known.spread).abs() < 1e-6);
            prop_assert!((0.0..=1.0).contains(&known.chance));
            prop_assert!(known.worst.unwrap().low <= known.nominal + 1e-6 || plan.loops > 0);
        }
    }

    #[test]
    fn redundancies_sum_to_the_degrees_of_freedom((plan, seed) in plan()) {
        let net = net(plan, seed);
        let adjusted = adjust(&net).unwrap();
        let sum: f64 = adjusted.links.iter().flatten().map(|link| link.redundancy).sum();
        prop_assert!((sum - adjusted.agreement.freedom as f64).abs() < 1e-6);
    }
}

#[test]
fn a_setting_whose_ends_are_read_has_no_say() {
    let links = vec![crate::set(0, 1, 0.0, 100.0, 0.5), read(0, 1, 93.0, 0.5)];
    let net = crate::net(2, links, vec![crate::need(0, 1, Some(92.0), Some(94.0))]);
    let adjusted = adjust(&net).unwrap();
    assert!(adjusted.links[0].is_none());
    close(adjusted.needs[0].unwrap().mean, 93.0, 1e-12);
    assert!(adjusted.outliers.is_empty());
    let told: Vec<_> = adjusted
        .working(NeedId(0))
        .iter()
        .map(|term| term.link)
        .collect();
    assert_eq!(told, [LinkId(1)]);
    close(prior(&net).unwrap().needs[0].unwrap().mean, 50.0, 1e-12);
}

#[test]
fn a_chain_of_a_hundred_thousand_layers_is_no_trouble() {
    let count = 100_000;
    let links = (0..count)
        .map(|at| crate::built(at, at + 1, 1.0, 0.3))
        .collect();
    let net = crate::net(
        count as usize + 1,
        links,
        vec![crate::need(0, count, None, None)],
    );
    close(prior(&net).unwrap().needs[0].unwrap().mean, 100_000.0, 1e-6);
}
