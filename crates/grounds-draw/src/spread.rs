//! Moves labels apart along a line, each as little as may be.

/// What wants a place on a line: where its middle wants to be, and how long it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wish {
    pub(crate) middle: f64,
    pub(crate) long: f64,
}

/// The middles at which none overlaps its neighbour, in the order given, within `from..to` if all have room there; the
/// sum of squared moves is least. The order given is that of their wished places.
///
/// Less the lengths before it, every start must be no less than the one before: an isotonic regression, solved by
/// pooling neighbours that violate it (Ayer et al. 1955, published).
pub(crate) fn spread(wishes: &[Wish], gap: f64, from: f64, to: f64) -> Vec<f64> {
    let mut before = 0.0;
    let mut pools: Vec<(f64, f64)> = Vec::new();
    for wish in wishes {
        pools.push((wish.middle - wish.long / 2.0 - before, 1.0));
        before += wish.long + gap;
        while let [.., (one, n), (other, m)] = pools.as_slice() {
            if one <= other {
                break;
            }
            let pooled = ((one * n + other * m) / (n + m), n + m);
            pools.truncate(pools.len() - 2);
            pools.push(pooled);
        }
    }
    let last = (to - (before - gap).max(0.0)).max(from);
    let starts = pools
        .iter()
        .flat_map(|(start, count)| std::iter::repeat_n(start.clamp(from, last), *count as usize));
    let mut before = 0.0;
    wishes
        .iter()
        .zip(starts)
        .map(|(wish, start)| {
            let middle = start + before + wish.long / 2.0;
            before += wish.long + gap;
            middle
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wish(middle: f64) -> Wish {
        Wish { middle, long: 10.0 }
    }

    #[test]
    fn what_has_room_stays() {
        assert_eq!(
            spread(&[wish(10.0), wish(40.0)], 2.0, 0.0, 100.0),
            [10.0, 40.0]
        );
    }

    #[test]
    fn two_at_one_place_share_the_move() {
        assert_eq!(
            spread(&[wish(50.0), wish(50.0)], 2.0, 0.0, 100.0),
            [44.0, 56.0]
        );
    }

    #[test]
    fn none_leaves_the_line() {
        assert_eq!(
            spread(&[wish(0.0), wish(0.0)], 2.0, 0.0, 100.0),
            [5.0, 17.0]
        );
        assert_eq!(
            spread(&[wish(99.0), wish(100.0)], 2.0, 0.0, 100.0),
            [83.0, 95.0]
        );
    }
}
