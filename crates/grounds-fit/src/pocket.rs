//! Leaves that slide into pockets, glass that stands in channels, tops that slide under tile.
//!
//! Two questions: does the piece pass between both faces all the way, and does it go in far enough.
//! All lengths are millimetres.

use statrs::distribution::{ContinuousCDF, Normal};
use thiserror::Error;

/// Readings of a pocket that nothing can be said from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum PocketFault {
    /// There is no reading.
    #[error("no reading of the clear width: give one, better three from mouth to back")]
    NoReading,
    /// A reading, a thickness or a spread is not a number.
    #[error("a reading or thickness of the pocket is not a number")]
    NotANumber,
    /// A thickness, a seal, a play or a spread is below zero.
    #[error("a thickness, seal, play or spread of the pocket is below zero")]
    BelowZero,
}

/// Both faces of a pocket at one depth, measured from one straight line beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Faces {
    /// From the mouth.
    pub depth: f64,
    /// To the near face.
    pub near: f64,
    /// To the far face.
    pub far: f64,
}

/// The piece that goes in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Its thickness.
    pub thickness: f64,
    /// How much thicker it may come.
    pub thicker: f64,
    /// What seals, brushes or bumpers of both faces take up together.
    pub seals: f64,
    /// The play asked for at each face.
    pub play: f64,
}

/// How a piece stands in its pocket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passage {
    /// The clear width that counts.
    pub clear: f64,
    /// What is left at each face beside seals, if the piece runs in the middle; below zero where it
    /// jams.
    pub each_side: f64,
    /// What is left beyond the play asked for, of both faces together; below zero where it is short.
    pub spare: f64,
    /// The same with the piece as thick as it may come.
    pub spare_at_worst: f64,
    /// The chance that the play is there, with the clear width known to `spread` and the piece
    /// thicker or thinner by a third of `thicker` as a normal spread (both independent).
    pub chance: f64,
}

/// The least of clear widths taken at several depths. The piece is rigid, so that the narrowest
/// place decides; where the pocket is bent as well, take both faces: [`straight_clear`].
///
/// # Errors
/// When there is no reading or one is not a number.
pub fn narrowest(widths: &[f64]) -> Result<f64, PocketFault> {
    if widths.iter().any(|width| !width.is_finite()) {
        return Err(PocketFault::NotANumber);
    }
    widths
        .iter()
        .copied()
        .reduce(f64::min)
        .ok_or(PocketFault::NoReading)
}

/// The width of the widest straight slot between both faces, over all directions of the slot: what
/// a rigid, straight leaf really finds in a pocket that is bent or tapers. Below zero where no
/// straight line passes.
///
/// With a slot running aside by m per mm of depth its width is min(far − m·depth) −
/// max(near − m·depth), which is concave in m: the best m lies where one of the straight pieces
/// ends, and all those places are tried (exact).
///
/// # Errors
/// When there is no reading or one is not a number.
///
/// ```
/// use grounds_fit::pocket::{Faces, straight_clear};
/// // 16 mm wide everywhere, but the middle stands 3 mm aside.
/// let bent = [(0.0, 0.0), (400.0, 3.0), (800.0, 0.0)]
///     .map(|(depth, near)| Faces { depth, near, far: near + 16.0 });
/// assert_eq!(straight_clear(&bent), Ok(13.0));
/// ```
pub fn straight_clear(faces: &[Faces]) -> Result<f64, PocketFault> {
    let sound = |face: &Faces| {
        [face.depth, face.near, face.far]
            .iter()
            .all(|x| x.is_finite())
    };
    if !faces.iter().all(sound) {
        return Err(PocketFault::NotANumber);
    }
    let width = |aside: f64| {
        let least = |of: fn(&Faces) -> f64| {
            faces
                .iter()
                .map(|face| of(face) - aside * face.depth)
                .fold(f64::INFINITY, f64::min)
        };
        let most = |of: fn(&Faces) -> f64| {
            faces
                .iter()
                .map(|face| of(face) - aside * face.depth)
                .fold(f64::NEG_INFINITY, f64::max)
        };
        least(|face| face.far) - most(|face| face.near)
    };
    let slopes = faces.iter().enumerate().flat_map(|(i, a)| {
        faces.iter().skip(i + 1).flat_map(move |b| {
            let along = b.depth - a.depth;
            [(b.far - a.far) / along, (b.near - a.near) / along]
        })
    });
    std::iter::once(0.0)
        .chain(slopes.filter(|slope| slope.is_finite()))
        .map(width)
        .filter(|width| width.is_finite())
        .reduce(f64::max)
        .ok_or(PocketFault::NoReading)
}

impl Piece {
    /// How the piece stands between faces that are `clear` apart, known with a standard spread.
    ///
    /// # Errors
    /// When a figure is not a number or one of the piece's or the spread is below zero.
    ///
    /// ```
    /// use grounds_fit::pocket::Piece;
    /// // Half-inch glass in five-eighths clear: 1/16 in at each face (common practice).
    /// let glass = Piece { thickness: 12.7, thicker: 0.0, seals: 0.0, play: 1.5875 };
    /// let passage = glass.between(15.875, 0.5)?;
    /// assert!((passage.each_side - 25.4 / 16.0).abs() < 1e-9);
    /// # Ok::<(), grounds_fit::pocket::PocketFault>(())
    /// ```
    pub fn between(&self, clear: f64, spread: f64) -> Result<Passage, PocketFault> {
        let own = [self.thickness, self.thicker, self.seals, self.play, spread];
        if !clear.is_finite() || own.iter().any(|x| !x.is_finite()) {
            return Err(PocketFault::NotANumber);
        }
        if own.iter().any(|x| *x < 0.0) {
            return Err(PocketFault::BelowZero);
        }
        let left = clear - self.thickness - self.seals;
        let spare = left - 2.0 * self.play;
        Ok(Passage {
            clear,
            each_side: left / 2.0,
            spare,
            spare_at_worst: spare - self.thicker,
            chance: chance_above_zero(spare, spread.hypot(self.thicker / 3.0)),
        })
    }
}

/// The chance that a normal figure of this mean and spread is not below zero. What computing leaves
/// of a zero counts as zero.
pub(crate) fn chance_above_zero(mean: f64, spread: f64) -> f64 {
    const NOTHING: f64 = 1e-9;
    match Normal::new(mean, spread) {
        Ok(normal) if spread > NOTHING => 1.0 - normal.cdf(0.0),
        _ => f64::from(u8::from(mean >= -NOTHING)),
    }
}

/// How far a leaf goes into its pocket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Depth {
    /// Mouth to the back of the pocket.
    pub pocket: f64,
    /// What the stop at the back takes up.
    pub stop: f64,
    /// Width of the leaf.
    pub leaf: f64,
    /// How much of the leaf is meant to stand out when open, for the hand.
    pub stands_out: f64,
}

impl Depth {
    /// What is left behind the open leaf; below zero by how much it stands out more than meant.
    ///
    /// ```
    /// use grounds_fit::pocket::Depth;
    /// let depth = Depth { pocket: 900.0, stop: 20.0, leaf: 920.0, stands_out: 35.0 };
    /// assert_eq!(depth.spare(), -5.0);
    /// ```
    #[must_use]
    pub fn spare(&self) -> f64 {
        self.pocket - self.stop - (self.leaf - self.stands_out)
    }
}
