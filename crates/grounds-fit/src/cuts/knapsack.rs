//! The pieces of the highest worth that go into one stock length.

/// The most steps of one search; past it the bound still holds.
const MOST: usize = 200_000;

/// What was found.
pub(super) struct Packed {
    pub(super) counts: Vec<usize>,
    pub(super) worth: f64,
    /// No packing is worth more than this.
    pub(super) at_most: f64,
}

struct Search<'a> {
    lengths: &'a [i64],
    worths: &'a [f64],
    limits: &'a [usize],
    /// Kinds of any worth, the most worth per length first.
    order: Vec<usize>,
    counts: Vec<usize>,
    best: Vec<usize>,
    best_worth: f64,
    steps: usize,
}

/// Takes whole pieces, no more of a kind than its limit, up to `room` (branch and bound, kinds by
/// worth per length, as many as possible first).
pub(super) fn pack(room: i64, lengths: &[i64], worths: &[f64], limits: &[usize]) -> Packed {
    let mut order: Vec<usize> = (0..lengths.len())
        .filter(|kind| worths[*kind] > 0.0 && limits[*kind] > 0 && lengths[*kind] <= room)
        .collect();
    order.sort_by(|a, b| {
        per_length(worths, lengths, *b).total_cmp(&per_length(worths, lengths, *a))
    });
    let mut search = Search {
        lengths,
        worths,
        limits,
        order,
        counts: vec![0; lengths.len()],
        best: vec![0; lengths.len()],
        best_worth: 0.0,
        steps: 0,
    };
    let at_most = search.at_most(0, room);
    search.from(0, room, 0.0);
    Packed {
        at_most: if search.steps > MOST {
            at_most
        } else {
            search.best_worth
        },
        worth: search.best_worth,
        counts: search.best,
    }
}

#[expect(clippy::cast_precision_loss, reason = "lengths lie below 2^53")]
fn per_length(worths: &[f64], lengths: &[i64], kind: usize) -> f64 {
    worths[kind] / lengths[kind] as f64
}

impl Search<'_> {
    /// No more than this is worth what goes into the room from a kind on.
    #[expect(clippy::cast_precision_loss, reason = "lengths lie below 2^53")]
    fn at_most(&self, from: usize, mut room: i64) -> f64 {
        let mut worth = 0.0;
        for kind in self.order.iter().skip(from) {
            let fit = self.fit(*kind, room);
            worth += fit as f64 * self.worths[*kind];
            room -= self.length_of(*kind, fit);
            if fit < self.limits[*kind] {
                return worth + per_length(self.worths, self.lengths, *kind) * room as f64;
            }
        }
        worth
    }

    fn fit(&self, kind: usize, room: i64) -> usize {
        let fit = usize::try_from(room / self.lengths[kind]).unwrap_or(0);
        fit.min(self.limits[kind])
    }

    fn length_of(&self, kind: usize, count: usize) -> i64 {
        i64::try_from(count).unwrap_or(i64::MAX) * self.lengths[kind]
    }

    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    fn from(&mut self, place: usize, room: i64, worth: f64) {
        self.steps += 1;
        if worth > self.best_worth + 1e-12 {
            self.best_worth = worth;
            self.best.clone_from(&self.counts);
        }
        let Some(&kind) = self.order.get(place) else {
            return;
        };
        for count in (0..=self.fit(kind, room)).rev() {
            let left = room - self.length_of(kind, count);
            let gained = worth + count as f64 * self.worths[kind];
            if self.steps > MOST
                || gained + self.at_most(place + 1, left) <= self.best_worth + 1e-12
            {
                break;
            }
            self.counts[kind] = count;
            self.from(place + 1, left, gained);
        }
        self.counts[kind] = 0;
    }
}
