//! Tiles, boards, pavers and panels in a row with joints: where to begin so that no cut is a
//! sliver, and so that registers and outlets sit on joints or in the middle of a tile.

use grounds_measure::Length;

use super::gaps::SpacingFault;

/// The most whole pieces in a row.
const MOST: i64 = 100_000;

/// A row between two ends. Where the ends are not parallel the row is `from` long at its near edge
/// and `to` at its far edge; the beginning of the row is the true end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Course {
    /// Length of the row at its near edge.
    pub from: Length,
    /// Length of the row at its far edge.
    pub to: Length,
    /// Length of a piece along the row.
    pub piece: Length,
    /// Joint between two pieces.
    pub joint: Length,
    /// Gap left at both ends, for movement.
    pub edge: Length,
}

/// How a row begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// With a whole piece at the beginning.
    Whole,
    /// With the same cut at both ends of the shorter edge.
    Balanced,
    /// With a joint centred here, from the beginning.
    JointAt(Length),
    /// With a piece centred here.
    PieceAt(Length),
}

/// Something that should sit centred on a joint or on a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Target {
    /// Its centre, from the beginning of the row.
    pub at: Length,
    /// How far it may miss.
    pub within: Length,
}

/// The pieces at both ends. A piece as long as a whole one is no cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cuts {
    /// The piece at the beginning.
    pub first: Length,
    /// The piece at the end of the near edge.
    pub last_near: Length,
    /// The piece at the end of the far edge.
    pub last_far: Length,
}

impl Cuts {
    /// The shortest of them.
    #[must_use]
    pub fn shortest(self) -> Length {
        self.first.min(self.last_near).min(self.last_far)
    }
}

/// A row as laid.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Laid {
    /// How it begins.
    pub start: Start,
    /// Whole pieces beside the cuts, at the near edge.
    pub whole: usize,
    /// The cuts.
    pub cuts: Cuts,
    /// Which targets are hit.
    pub hits: Vec<bool>,
}

impl Course {
    /// The row laid from a start.
    ///
    /// # Errors
    /// When the piece or the row is not above zero, a joint or edge is below zero, or there are more
    /// than 100,000 pieces.
    ///
    /// ```
    /// use grounds_fit::spacing::{Course, Start};
    /// use grounds_measure::Length;
    /// let wall = Course {
    ///     from: "60 7/16 in".parse()?,
    ///     to: "61 5/16 in".parse()?,
    ///     piece: "12 in".parse()?,
    ///     joint: "1/16 in".parse()?,
    ///     edge: Length::ZERO,
    /// };
    /// // A sliver that widens from 1/8 to 1 in, against two cuts of half a tile.
    /// assert_eq!(wall.laid(Start::Whole, &[])?.cuts.last_near, "1/8 in".parse()?);
    /// assert_eq!(wall.laid(Start::Balanced, &[])?.cuts.shortest(), "6 1/16 in".parse()?);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn laid(&self, start: Start, targets: &[Target]) -> Result<Laid, SpacingFault> {
        self.check()?;
        let first = self.first(start)?;
        let near = self.after(first, self.from)?;
        let far = self.after(first, self.to)?;
        let wholes = near.0 + i64::from(first == self.piece) + i64::from(near.1 == self.piece);
        Ok(Laid {
            start,
            whole: usize::try_from(wholes).unwrap_or_default(),
            cuts: Cuts {
                first,
                last_near: near.1,
                last_far: far.1,
            },
            hits: targets
                .iter()
                .map(|target| self.misses_by(first, target.at).abs() <= target.within)
                .collect(),
        })
    }

    /// The best of all starts: with no cut below `shortest` if that can be, then with the most
    /// targets hit, then with the longest shortest cut.
    ///
    /// # Errors
    /// As for [`Course::laid`].
    pub fn best(&self, shortest: Length, targets: &[Target]) -> Result<Laid, SpacingFault> {
        let whole = self.laid(Start::Whole, targets)?;
        let others = std::iter::once(Start::Balanced).chain(
            targets
                .iter()
                .flat_map(|target| [Start::JointAt(target.at), Start::PieceAt(target.at)]),
        );
        let mut best = whole;
        for start in others {
            let laid = self.laid(start, targets)?;
            if laid.worth(shortest) > best.worth(shortest) {
                best = laid;
            }
        }
        Ok(best)
    }

    fn check(&self) -> Result<(), SpacingFault> {
        let sound = self.piece.is_positive()
            && !self.joint.is_negative()
            && !self.edge.is_negative()
            && (self.from.min(self.to) - self.edge * 2).is_positive();
        if !sound {
            return Err(SpacingFault::NotAbove);
        }
        match self.from.max(self.to).divide_by(self.pitch()) {
            Some((count, _)) if count <= MOST => Ok(()),
            _ => Err(SpacingFault::TooMany),
        }
    }

    fn pitch(&self) -> Length {
        self.piece + self.joint
    }

    /// The length of the first piece, above zero and no more than a whole one or the row.
    fn first(&self, start: Start) -> Result<Length, SpacingFault> {
        let row = self.from.min(self.to) - self.edge * 2;
        let first = match start {
            Start::Whole => self.piece,
            Start::Balanced => return self.balanced(row),
            // A joint is centred here: the first piece ends half a joint before one of them.
            Start::JointAt(at) => self.first_ending_at(at - self.edge - self.half_joint())?,
            Start::PieceAt(at) => {
                self.first_ending_at(at - self.edge + Length::from_units(self.piece.units() / 2))?
            }
        };
        Ok(first.min(row))
    }

    /// The first piece of a row in which one piece ends here, from its beginning.
    fn first_ending_at(&self, end: Length) -> Result<Length, SpacingFault> {
        let (_, rest) = end.divide_by(self.pitch()).ok_or(SpacingFault::NotAbove)?;
        // Within a joint nothing of a piece is left: a whole one, a little aside, stands there.
        Ok(if rest.is_positive() && rest <= self.piece {
            rest
        } else {
            self.piece
        })
    }

    /// Half of what whole pieces leave, as long as can be below a whole piece.
    fn balanced(&self, row: Length) -> Result<Length, SpacingFault> {
        let (count, rest) = (row + self.joint)
            .divide_by(self.pitch())
            .ok_or(SpacingFault::NotAbove)?;
        if rest == Length::ZERO || count == 0 {
            return Ok(self.piece.min(row));
        }
        // One whole piece fewer, so that both cuts together are longer than one piece.
        let ends = row - self.pitch() * (count - 1) - self.joint;
        Ok(Length::from_units(ends.units() / 2))
    }

    /// Whole pieces after the first that do not touch the end, and the last piece.
    fn after(&self, first: Length, row: Length) -> Result<(i64, Length), SpacingFault> {
        let left = row - self.edge * 2 - first - self.joint;
        if !left.is_positive() {
            return Ok((0, first));
        }
        let (count, rest) = left.divide_by(self.pitch()).ok_or(SpacingFault::NotAbove)?;
        Ok(if rest == Length::ZERO && count > 0 {
            // The row ends on a joint, which opens at the wall: the last piece is whole.
            (count - 1, self.piece)
        } else {
            (count, rest.min(self.piece))
        })
    }

    fn half_joint(&self) -> Length {
        Length::from_units(self.joint.units() / 2)
    }

    /// How far a place is from the nearest middle of a joint or of a piece.
    fn misses_by(&self, first: Length, at: Length) -> Length {
        let half_pitch = Length::from_units(self.pitch().units() / 2);
        let from_joint = at - self.edge - first - self.half_joint();
        let Some((_, rest)) = half_pitch
            .is_positive()
            .then(|| from_joint.divide_by(half_pitch))
            .flatten()
        else {
            return Length::ZERO;
        };
        rest.min(half_pitch - rest)
    }
}

impl Laid {
    /// What makes one start better than another.
    fn worth(&self, shortest: Length) -> (bool, usize, Length) {
        let hit = self.hits.iter().filter(|hit| **hit).count();
        let least = self.cuts.shortest();
        (least >= shortest, hit, least)
    }
}
