//! Which points are joined by links, in whatever way.

/// Groups of points that grow together.
#[derive(Clone, Debug)]
pub(crate) struct Joined(Vec<usize>);

impl Joined {
    pub(crate) fn new(points: usize) -> Self {
        Self((0..points).collect())
    }

    /// Joins the groups of two points; false where they were one already.
    pub(crate) fn join(&mut self, a: usize, b: usize) -> bool {
        let (a, b) = (self.group(a), self.group(b));
        self.0[a.max(b)] = a.min(b);
        a != b
    }

    pub(crate) fn together(&mut self, a: usize, b: usize) -> bool {
        self.group(a) == self.group(b)
    }

    /// The first point of the group.
    pub(crate) fn group(&mut self, mut point: usize) -> usize {
        while self.0[point] != point {
            self.0[point] = self.0[self.0[point]];
            point = self.0[point];
        }
        point
    }
}
