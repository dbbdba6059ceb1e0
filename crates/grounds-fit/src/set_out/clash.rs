//! Needs that cannot all be met: an irreducible set, found by leaving out one after the other.
//!
//! Source: the deletion filter (Chinneck and Dravnieks 1991 \[published\]), begun from the needs with
//! a share in the proof that the linear program gives by its duals (Farkas \[published\]).

use super::program::{Ask, Program};
use super::{Clash, SLACK};
use crate::net::{LinkId, NeedId};

/// Duals above this belong to the proof.
const PROVES: f64 = 1e-6;

/// Clashes that share no need, until the rest can be met.
pub(super) fn clashes(program: &Program, link: impl Fn(usize) -> LinkId) -> Vec<Clash> {
    let mut left: Vec<usize> = program.rows.iter().map(|row| row.need).collect();
    left.dedup();
    let mut found = Vec::new();
    while let Some(needs) = clash(program, &left) {
        left.retain(|need| !needs.contains(need));
        found.extend(told(program, &needs, &link));
    }
    found
}

fn asks(program: &Program, needs: &[usize]) -> Vec<Ask> {
    let rows = program.rows.iter();
    rows.map(|row| {
        if needs.contains(&row.need) {
            Ask::Most
        } else {
            Ask::Nothing
        }
    })
    .collect()
}

/// Some of the needs that cannot be met together, none of them without use; none if all can.
fn clash(program: &Program, needs: &[usize]) -> Option<Vec<usize>> {
    let mut clash = proof(program, needs)?;
    let mut at = 0;
    while at < clash.len() && clash.len() > 1 {
        let mut fewer = clash.clone();
        fewer.remove(at);
        match proof(program, &fewer) {
            Some(smaller) => clash = smaller,
            None => at += 1,
        }
    }
    Some(clash)
}

/// The needs with a share in the proof that not all can be met; none if they can.
fn proof(program: &Program, needs: &[usize]) -> Option<Vec<usize>> {
    if needs.is_empty() {
        return None;
    }
    let best = program.most(&asks(program, needs))?;
    if best.margin >= -SLACK {
        return None;
    }
    let shares = |need: usize| {
        let rows = program.rows.iter().zip(&best.weight);
        rows.filter(|(row, _)| row.need == need)
            .any(|(_, weight)| *weight > PROVES)
    };
    Some(needs.iter().copied().filter(|need| shares(*need)).collect())
}

fn told(program: &Program, needs: &[usize], link: impl Fn(usize) -> LinkId) -> Option<Clash> {
    let best = program.most(&asks(program, needs))?;
    let stops = program.settings.iter().zip(&best.stops);
    Some(Clash {
        needs: needs.iter().map(|need| NeedId::from(*need)).collect(),
        settings: stops
            .filter(|(_, stop)| **stop > PROVES)
            .map(|(at, _)| link(*at))
            .collect(),
        short: -best.margin,
    })
}
