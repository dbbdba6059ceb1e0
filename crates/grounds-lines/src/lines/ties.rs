//! What ties two points together, and which figures are missing where nothing does.

use std::collections::VecDeque;

use grounds_fit::net::{Need, PointId};
use grounds_model::Ref;

use super::{Lines, Missing};
use crate::said;

/// The points with the links and gaps between them, as a graph.
pub(super) struct Ways {
    /// For each point: its neighbours, with the gap that lies between if there is one.
    next: Vec<Vec<(usize, Option<usize>)>>,
    /// For each point: which net of links it belongs to.
    net: Vec<usize>,
}

impl Ways {
    pub(super) fn of(lines: &Lines<'_>) -> Self {
        let mut next: Vec<Vec<(usize, Option<usize>)>> = vec![Vec::new(); lines.net.points];
        let mut join = |a: PointId, b: PointId, gap: Option<usize>| {
            let (a, b) = (a.index(), b.index());
            if let Some(list) = next.get_mut(a) {
                list.push((b, gap));
            }
            if let Some(list) = next.get_mut(b) {
                list.push((a, gap));
            }
        };
        for link in &lines.net.links {
            join(link.from, link.to, None);
        }
        for (at, gap) in lines.gaps.iter().enumerate() {
            join(gap.ends.0, gap.ends.1, Some(at));
        }
        let mut ways = Self {
            net: vec![usize::MAX; next.len()],
            next,
        };
        ways.number();
        ways
    }

    /// Numbers the nets that links alone hold together.
    fn number(&mut self) {
        for start in 0..self.next.len() {
            if self.net.get(start).is_none_or(|net| *net != usize::MAX) {
                continue;
            }
            let mut todo = vec![start];
            while let Some(at) = todo.pop() {
                match self.net.get_mut(at) {
                    Some(net) if *net == usize::MAX => *net = start,
                    _ => continue,
                }
                let ways = self.next.get(at).into_iter().flatten();
                todo.extend(ways.filter(|(_, gap)| gap.is_none()).map(|(to, _)| *to));
            }
        }
    }

    /// Whether links tie two points together.
    pub(super) fn tied(&self, a: PointId, b: PointId) -> bool {
        let net = self.net.get(a.index());
        net.is_some() && net == self.net.get(b.index())
    }

    /// The figures that are missing between the points of a need: none if links tie them together,
    /// else those on the way with the fewest.
    pub(super) fn missing(&self, lines: &Lines<'_>, need: &Need) -> Vec<Missing> {
        if self.tied(need.from, need.to) {
            return Vec::new();
        }
        let (from, to) = (need.from.index(), need.to.index());
        match self.fewest_gaps(from, to) {
            Some(gaps) => gaps
                .into_iter()
                .filter_map(|gap| lines.gaps.get(gap))
                .map(|gap| gap.missing.clone())
                .collect(),
            None => vec![Missing {
                what: format!(
                    "how far {} is from {}: nothing ties the two together",
                    said::point(lines, need.from),
                    said::point(lines, need.to)
                ),
                who: said::site_lead(),
                about: lines
                    .stands_for(need.to)
                    .map_or_else(|| Ref::from("job"), |point| point.about.clone()),
            }],
        }
    }

    fn fewest_gaps(&self, from: usize, to: usize) -> Option<Vec<usize>> {
        let mut best: Vec<Option<(usize, usize, Option<usize>)>> = vec![None; self.next.len()];
        *best.get_mut(from)? = Some((0, from, None));
        let mut todo = VecDeque::from([from]);
        while let Some(at) = todo.pop_front() {
            let count = best.get(at).copied().flatten()?.0;
            for (next, gap) in self.next.get(at).into_iter().flatten() {
                let reached = count + usize::from(gap.is_some());
                let slot = best.get_mut(*next)?;
                if slot.is_none_or(|(known, ..)| reached < known) {
                    *slot = Some((reached, at, *gap));
                    if gap.is_some() {
                        todo.push_back(*next);
                    } else {
                        todo.push_front(*next);
                    }
                }
            }
        }
        let mut gaps = Vec::new();
        let mut at = to;
        while at != from {
            let (_, before, gap) = best.get(at).copied().flatten()?;
            gaps.extend(gap);
            at = before;
        }
        gaps.reverse();
        Some(gaps)
    }
}
