//! Where a millimetre of the face comes to be on the sheet: one scale throughout, with what is long and empty left out.

use crate::fit_section::Section;
use crate::medium::{Enlargement, Medium};

/// Left out between a far control line and the face, in pixels.
const GAP: f64 = 46.0;
/// Blank before the first and after the last thing along the axis, in pixels.
const BLANK: f64 = 20.0;
/// A control line nearer than this to the face is drawn where it is, in pixels.
const NEAR: f64 = 60.0;

/// The axis of a section on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Axis {
    /// The scale of all that is drawn without a break.
    pub(crate) enlargement: Enlargement,
    /// The part of the face that is drawn, in millimetres.
    pub(crate) from: f64,
    to: f64,
    /// Where `from` comes to be, in pixels.
    start: f64,
    /// Whether the structure goes on behind `from`.
    pub(crate) is_cut: bool,
    /// A control line too far off to be drawn where it is, in millimetres and pixels.
    far: Option<(f64, f64)>,
    /// Length along the axis in pixels.
    pub(crate) long: f64,
}

impl Axis {
    /// The axis of a section with `room` pixels along it, at most `most` pixels for a millimetre; none if there is no
    /// layer that could be drawn.
    pub(crate) fn of(section: &Section, medium: Medium, room: f64, most: f64) -> Option<Self> {
        let structure = section.layers.first()?;
        let (low, high) = extent(section)?;
        let pieces = section.pieces.iter().map(|piece| piece.from);
        let back = pieces.fold(structure.to, f64::min);
        let kept = (back - 0.4 * (high - back).max(10.0)).max(low);
        let control = section.control.as_ref().map(|line| line.at);
        let whole = Self::between(control, (low, high), false, medium, room, most);
        let cut = Self::between(control, (kept, high), true, medium, room, most);
        let saves = (high - kept) < 0.75 * (high - low);
        let is_larger = cut.enlargement.px > whole.enlargement.px * 1.05;
        Some(if saves && is_larger { cut } else { whole })
    }

    fn between(
        control: Option<f64>,
        (low, high): (f64, f64),
        is_cut: bool,
        medium: Medium,
        room: f64,
        most: f64,
    ) -> Self {
        let bare = medium.enlargement(high - low, room - 2.0 * BLANK, most);
        let is_far = |at: f64| {
            let off = if at < low { low - at } else { at - high };
            off * bare.px > NEAR || (is_cut && at < low)
        };
        let far = control.filter(|at| is_far(*at));
        let near = control.filter(|at| !is_far(*at));
        let (from, to) = (
            near.map_or(low, |at| at.min(low)),
            near.map_or(high, |at| at.max(high)),
        );
        let gap = if far.is_some() { GAP } else { 0.0 };
        let enlargement = medium.enlargement(to - from, room - 2.0 * BLANK - gap, most);
        let is_behind = far.is_some_and(|at| at < low);
        let start = BLANK + if is_behind { gap } else { 0.0 };
        let end = start + (to - from) * enlargement.px;
        let far = far.map(|at| (at, if is_behind { BLANK } else { end + gap }));
        let long = end
            + BLANK
            + if far.is_some() && !is_behind {
                gap
            } else {
                0.0
            };
        Self {
            enlargement,
            from: if is_cut { low.max(from) } else { from },
            to,
            start,
            is_cut,
            far,
            long,
        }
    }

    /// Pixels along the axis of a place of the face. What is behind the cut is on it.
    pub(crate) fn at(&self, mm: f64) -> f64 {
        if let Some((far, px)) = self.far
            && (far - mm).abs() < 1e-9
        {
            return px;
        }
        self.start + (mm.clamp(self.from, self.to) - self.from) * self.enlargement.px
    }

    /// Whether a stretch is drawn shorter than it is.
    pub(crate) fn shortens(&self, from: f64, to: f64) -> bool {
        let is_far = |mm: f64| self.far.is_some_and(|(far, _)| (far - mm).abs() < 1e-9);
        from < self.from - 1e-9 || is_far(from) || is_far(to)
    }
}

/// From the back of the structure to the last thing before the face, in millimetres.
fn extent(section: &Section) -> Option<(f64, f64)> {
    let layers = section
        .layers
        .iter()
        .flat_map(|layer| [layer.from, layer.to]);
    let pieces = section
        .pieces
        .iter()
        .flat_map(|piece| [piece.from, piece.to]);
    let finish = section
        .finish
        .iter()
        .flat_map(|finish| [finish.at - finish.minus, finish.at + finish.plus]);
    let landings = section
        .landings
        .iter()
        .flat_map(|landing| [landing.lands, landing.wanted]);
    let all = layers.chain(pieces).chain(finish).chain(landings);
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), mm| {
        (low.min(mm), high.max(mm))
    });
    (low < high).then_some((low, high))
}
