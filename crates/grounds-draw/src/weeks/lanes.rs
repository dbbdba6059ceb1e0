//! Packs spans into as few lanes as they need without any two colliding.

/// From where to where something reaches, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Span {
    pub(crate) from: f64,
    pub(crate) to: f64,
}

/// Air kept between two spans of a lane, in pixels.
pub(crate) const GAP: f64 = 2.0;

/// The lane of each span, counted from 0, and how many lanes there are. Spans are placed in order of their beginning, each
/// in the first lane that is free by then, which needs the fewest lanes possible (interval partitioning).
pub(crate) fn pack(spans: &[Span]) -> (Vec<usize>, usize) {
    let mut order: Vec<usize> = (0..spans.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (spans.get(*a), spans.get(*b));
        let key = |span: Option<&Span>| span.map_or((0.0, 0.0), |span| (span.from, span.to));
        key(a)
            .partial_cmp(&key(b))
            .unwrap_or(std::cmp::Ordering::Equal)
    });
    let mut ends: Vec<f64> = Vec::new();
    let mut lanes = vec![0; spans.len()];
    for index in order {
        let Some(span) = spans.get(index) else {
            continue;
        };
        let lane = ends
            .iter()
            .position(|end| end + GAP <= span.from + 1e-6)
            .unwrap_or(ends.len());
        match ends.get_mut(lane) {
            Some(end) => *end = span.to,
            None => ends.push(span.to),
        }
        if let Some(place) = lanes.get_mut(index) {
            *place = lane;
        }
    }
    (lanes, ends.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spans(ends: &[(f64, f64)]) -> Vec<Span> {
        ends.iter()
            .map(|(from, to)| Span {
                from: *from,
                to: *to,
            })
            .collect()
    }

    #[test]
    fn work_that_follows_work_shares_its_lane() {
        assert_eq!(
            pack(&spans(&[(0.0, 10.0), (12.0, 20.0), (22.0, 30.0)])),
            (vec![0, 0, 0], 1)
        );
    }

    #[test]
    fn work_at_the_same_time_takes_a_lane_of_its_own() {
        assert_eq!(
            pack(&spans(&[(0.0, 10.0), (5.0, 20.0), (12.0, 30.0)])),
            (vec![0, 1, 0], 2)
        );
    }

    #[test]
    fn no_more_lanes_than_are_busy_at_once() {
        let many: Vec<(f64, f64)> = (0..60)
            .map(|i| (f64::from(i * 7 % 40), f64::from(i * 7 % 40 + 3 + i % 9)))
            .collect();
        let spans = spans(&many);
        let (lanes, count) = pack(&spans);
        let busiest = spans
            .iter()
            .map(|at| {
                spans
                    .iter()
                    .filter(|span| span.from <= at.from && at.from < span.to + GAP)
                    .count()
            })
            .max()
            .unwrap_or(0);
        assert_eq!(count, busiest);
        for (i, a) in spans.iter().enumerate() {
            for (j, b) in spans.iter().enumerate().skip(i + 1) {
                assert!(lanes[i] != lanes[j] || a.to + GAP <= b.from || b.to + GAP <= a.from);
            }
        }
    }
}
