//! Openings: rough, lined and finished, and the play of what goes in.

use grounds_fit::net::{Need, PointId};
use grounds_measure::Length;
use grounds_model::{Id, LayerKey, Opening, Ref, Target};
use grounds_site::Subject;
use jiff::Timestamp;

use super::{
    Lines, Missing, NeedKind, Wanted, built, design, key_ref, maker_of, pieces::headed,
    planes::moves_the_face,
};
use crate::{readings::Read, said};

/// The edges of an opening across one way: width from left to right, height from sill to head.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Edges {
    /// The near edge (left, sill) as framed and as finished.
    pub near: (PointId, PointId),
    /// The far edge (right, head) as finished and as framed.
    pub far: (PointId, PointId),
    /// The far edge of the piece that goes in, its near edge held against the finish.
    pub piece: Option<PointId>,
}

/// The edges of an opening both ways.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpeningLine {
    /// From left to right.
    pub width: Edges,
    /// From sill to head.
    pub height: Edges,
}

/// One way across an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Width,
    Height,
}

impl Way {
    fn word(self) -> &'static str {
        match self {
            Self::Width => "width",
            Self::Height => "height",
        }
    }
}

/// What lies between framing and finish on one side.
struct Lining {
    keys: Vec<LayerKey>,
}

impl Lines<'_> {
    /// Every opening, with what lines it and what goes in.
    pub(super) fn add_openings(&mut self) {
        let job = self.job;
        for (id, opening) in &job.openings {
            let width = self.add_edges(id, opening, Way::Width);
            let height = self.add_edges(id, opening, Way::Height);
            let line = OpeningLine { width, height };
            self.openings.insert(id.clone(), line);
            if let (Some(piece), Some(clearance)) = (&opening.piece, opening.clearance) {
                self.want_play(id, Some(&piece.clone()), clearance, opening.most);
            }
        }
    }

    fn add_edges(&mut self, id: &Id, opening: &Opening, way: Way) -> Edges {
        let name = said::called(Some(&opening.name), id);
        let (near_word, far_word) = match way {
            Way::Width => ("left", "right"),
            Way::Height => ("sill", "head"),
        };
        let lined = opening.lined.clone().unwrap_or_default();
        let (near_lining, far_lining) = match way {
            Way::Width => (lined.left, lined.right),
            Way::Height => (lined.sill, lined.head),
        };
        let near_rough = self.point(format!("the {near_word} of {name} as framed"), key_ref(id));
        let far_rough = self.point(format!("the {far_word} of {name} as framed"), key_ref(id));
        let near_lining = self.lining(near_lining.as_ref());
        let far_lining = self.lining(far_lining.as_ref());
        let near = self.line_side(near_rough, &near_lining, true, id, near_word);
        let far = self.line_side(far_rough, &far_lining, false, id, far_word);
        self.add_span(id, opening, way, (near_rough, far_rough), &near, &far);
        let piece = opening
            .piece
            .as_ref()
            .and_then(|piece| self.add_piece_across(piece, way, near.finish));
        Edges {
            near: (near_rough, near.finish),
            far: (far.finish, far_rough),
            piece,
        }
    }

    /// The layers that line a side, structure side first.
    fn lining(&self, lining: Option<&Ref>) -> Lining {
        let (place, face, upto) = match lining.and_then(|lining| self.job.resolve(lining)) {
            Some(Target::Face { place, face }) => (place, face, None),
            Some(Target::Layer(key)) => (key.place, key.face, Some(key.layer)),
            _ => return Lining { keys: Vec::new() },
        };
        let mut keys = self.job.layers_of(&place, &face);
        if let Some(upto) = upto
            && let Some(at) = keys.iter().position(|key| key.layer == upto)
        {
            keys.truncate(at + 1);
        }
        Lining { keys }
    }

    /// Lines one side: from its framing inwards to its finish.
    fn line_side(
        &mut self,
        rough: PointId,
        lining: &Lining,
        near: bool,
        id: &Id,
        word: &str,
    ) -> Side {
        let mut at = rough;
        let mut steps = vec![(None, rough)];
        for key in &lining.keys {
            let Some(layer) = self.job.layer(key).cloned() else {
                continue;
            };
            if moves_the_face(&layer) {
                let name = grounds_site::name(self.job, &Subject::Layer(key.clone()));
                let next = self.point(format!("{name}, {word} of the opening"), key_ref(id));
                let ends = if near { (at, next) } else { (next, at) };
                self.add_thickness(ends, &layer, key, &name);
                at = next;
            }
            let state = self.site.state(&Subject::Layer(key.clone()));
            // When something went on that nobody saw, nobody knows: it was there before any reading.
            let on = match state.presumed {
                Some(_) => Some(Timestamp::MIN),
                None => state.done.map(|seen| seen.at),
            };
            steps.push((on, at));
        }
        Side { finish: at, steps }
    }

    /// How far the two sides are apart: what was read, else what is set, else as framed.
    fn add_span(
        &mut self,
        id: &Id,
        opening: &Opening,
        way: Way,
        rough: (PointId, PointId),
        near: &Side,
        far: &Side,
    ) {
        let name = format!(
            "the {} of {}",
            way.word(),
            said::called(Some(&opening.name), id)
        );
        let about = key_ref(id);
        let mut groups = self.readings.across(&about, way.word());
        if way == Way::Width
            && let Some(piece) = &opening.piece
        {
            let plain = self.readings.plain(&key_ref(piece));
            if !plain.is_empty() {
                groups.push(plain);
            }
        }
        // What is narrow in one place is not made wider by another: the narrowest decides.
        let narrowest = groups.iter().min_by(|a, b| mean(a).total_cmp(&mean(b)));
        if let Some(group) = narrowest {
            for read in group {
                let ends = (near.as_of(read.at), far.as_of(read.at));
                self.add_reading(ends, read, &name, &about);
            }
            return;
        }
        let side = |size: grounds_measure::Size| match way {
            Way::Width => size.first(),
            Way::Height => size.second(),
        };
        let within = opening.within.unwrap_or_default();
        let (ends, length, words) = match opening.finished {
            Some(finished) => ((near.finish, far.finish), side(finished), "finished"),
            None => (rough, side(opening.rough), "as framed"),
        };
        let tie = design(format!("{name} {words}"), about, false);
        self.tie_points(ends, built(length, within, within), tie);
    }

    /// The far edge of a piece whose near edge is held against the finish; of timber, over the year.
    fn add_piece_across(&mut self, piece: &Id, way: Way, near: PointId) -> Option<PointId> {
        let found = self.job.pieces.get(piece)?;
        let name = said::piece(self.job, piece);
        let about = key_ref(piece);
        let far = self.point(format!("the far edge of {name}"), about.clone());
        let label = format!("the {} of {name}", way.word());
        let reads = self.readings.of_named(&about, way.word());
        if !reads.is_empty() {
            for read in &reads {
                self.add_reading((near, far), read, &label, &about);
            }
            return Some(self.moved(piece, way, mean(&reads), far));
        }
        let size = found.ordered.or(found.size);
        let Some(size) = size else {
            let missing = Missing {
                what: label,
                who: maker_of(self, piece),
                about,
            };
            self.gap((near, far), missing);
            return Some(far);
        };
        let length = match way {
            Way::Width => size.first(),
            Way::Height => size.second(),
        };
        let within = found.size_within.unwrap_or_default();
        let ordered = if found.ordered.is_some() {
            format!("{label} as ordered")
        } else {
            label
        };
        self.tie_points(
            (near, far),
            built(length, within, within),
            design(ordered, about, false),
        );
        Some(self.moved(piece, way, length.mm(), far))
    }

    /// Timber moves across its grain, which runs up; lengthwise it hardly does.
    fn moved(&mut self, piece: &Id, way: Way, width: f64, far: PointId) -> PointId {
        match way {
            Way::Width => self.over_the_year(piece, width, far),
            Way::Height => far,
        }
    }

    /// The play of a piece in an opening: at each edge no less than `least`, no more than `most`.
    pub(super) fn want_play(
        &mut self,
        opening: &Id,
        piece: Option<&Id>,
        least: Length,
        most: Option<Length>,
    ) {
        let Some(line) = self.openings.get(opening).cloned() else {
            return;
        };
        let Some(piece) = piece else { return };
        let against = said::called(
            self.job.openings.get(opening).map(|it| it.name.as_str()),
            opening,
        );
        let subject = said::piece(self.job, piece);
        for (way, edges) in [(Way::Width, line.width), (Way::Height, line.height)] {
            let Some(far) = edges.piece else { continue };
            let (kind, word) = match way {
                Way::Width => (NeedKind::Width, "side to side"),
                Way::Height => (NeedKind::Height, "head and foot together"),
            };
            let need = Need {
                from: far,
                to: edges.far.0,
                least: Some(2.0 * least.mm()),
                most: most.map(|most| 2.0 * most.mm()),
            };
            self.want(Wanted {
                key: format!("{piece}.{}", way.word()),
                name: format!("{} in {against}, {word}", headed(&subject)),
                about: key_ref(piece),
                kind,
                need,
                subject: subject.clone(),
                against: against.clone(),
                orders: vec![piece.clone()],
                id: None,
                missing: Vec::new(),
            });
        }
    }
}

/// One side of an opening.
struct Side {
    finish: PointId,
    /// The edge after each layer, with when that layer went on.
    steps: Vec<(Option<Timestamp>, PointId)>,
}

impl Side {
    /// The edge that could be read at a moment.
    fn as_of(&self, at: Timestamp) -> PointId {
        let mut edge = self.finish;
        for (layer, (done, point)) in self.steps.iter().enumerate() {
            if layer == 0 || done.is_some_and(|done| done <= at) {
                edge = *point;
            }
        }
        edge
    }
}

#[expect(clippy::cast_precision_loss, reason = "a handful of readings")]
fn mean(reads: &[Read]) -> f64 {
    let sum: f64 = reads.iter().map(|read| read.figure.mm()).sum();
    sum / reads.len().max(1) as f64
}
