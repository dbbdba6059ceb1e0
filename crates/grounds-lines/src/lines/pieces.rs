//! Where pieces stand: back on the layer they sit on, or set to a figure.

use grounds_fit::net::{LinkKind, PointId, Shape};
use grounds_measure::Length;
use grounds_model::{Along, Id, LayerKey, Piece, Ref, Setting, Target};
use grounds_site::{Subject, words};

use super::{FaceLine, Lines, Missing, Sign, built, design, key_ref, maker_of, outward};
use crate::said;

/// The planes of one piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceLine {
    /// Whether its face looks along the axis.
    pub sign: Sign,
    /// The layer it sits on, where it sits on one.
    pub seat: Option<(LayerKey, PointId)>,
    /// Its back.
    pub back: PointId,
    /// Its own face.
    pub front: PointId,
    /// Its bottom, on the upright axis.
    pub bottom: PointId,
    /// The centre it is set to, and its own.
    pub centres: (PointId, PointId),
}

impl Lines<'_> {
    /// Every piece that must line up, is set to a figure, or is spoken of by one that must.
    pub(super) fn add_pieces(&mut self) {
        let job = self.job;
        for (id, piece) in &job.pieces {
            self.add_piece_points(id, piece);
        }
        for (id, piece) in &job.pieces {
            self.place_out(id, piece);
            self.place_up(id, piece);
            self.place_across(id, piece);
        }
    }

    fn add_piece_points(&mut self, id: &Id, piece: &Piece) {
        let name = said::piece(self.job, id);
        let seat = self.seat_of(piece);
        let back = match &seat {
            Some((_, at)) if setting(piece, Along::Out).is_none() => *at,
            _ => self.point(format!("the back of {name}"), key_ref(id)),
        };
        let front = self.point(format!("the face of {name}"), key_ref(id));
        let bottom = self.point(format!("the bottom of {name}"), key_ref(id));
        let aim = self.point(format!("the centre that {name} is set to"), key_ref(id));
        let centre = self.point(format!("the centre of {name}"), key_ref(id));
        let face = piece.face.as_ref();
        let line = face.and_then(|face| self.faces.get(&(piece.place.clone(), face.clone())));
        let sign = line.map_or(Sign::Along, |line| line.sign);
        let made = PieceLine {
            sign,
            seat,
            back,
            front,
            bottom,
            centres: (aim, centre),
        };
        self.pieces.insert(id.clone(), made);
    }

    /// The layer that a piece sits on: of its own face, the outermost that it comes after.
    fn seat_of(&self, piece: &Piece) -> Option<(LayerKey, PointId)> {
        let face = piece.face.as_ref()?;
        let line = self.faces.get(&(piece.place.clone(), face.clone()))?;
        let after: Vec<LayerKey> = piece
            .after
            .iter()
            .filter_map(|after| match self.job.resolve(after) {
                Some(Target::Layer(key)) => Some(key),
                _ => None,
            })
            .collect();
        let plane = line
            .planes
            .iter()
            .rev()
            .find(|plane| after.contains(&plane.layer))?;
        Some((plane.layer.clone(), plane.at))
    }

    /// Out of its face: set to a figure, or back on its seat and as thick as it is.
    fn place_out(&mut self, id: &Id, piece: &Piece) {
        let Some(line) = self.pieces.get(id).cloned() else {
            return;
        };
        let name = said::piece(self.job, id);
        let about = key_ref(id);
        let body = outward(line.sign, line.back, line.front);
        let reads = self.readings.of_named(&about, "thickness");
        if !reads.is_empty() {
            for read in &reads {
                self.add_reading(body, read, &format!("the thickness of {name}"), &about);
            }
        } else if let Some(thick) = piece.thickness {
            let kind = built(thick.nominal(), thick.minus(), thick.plus());
            let tie = design(format!("the thickness of {name}"), about.clone(), false);
            self.tie_points(body, kind, tie);
        } else if setting(piece, Along::Out).is_none() {
            let missing = Missing {
                what: format!("the thickness of {name}"),
                who: maker_of(self, id),
                about: about.clone(),
            };
            self.gap(body, missing);
        }
        // Where it was read to stand counts, not where it was to be set.
        if self.read_out(id, &line, &name) {
            return;
        }
        let Some(set) = setting(piece, Along::Out).cloned() else {
            return;
        };
        let from = match &set.from {
            Some(from) => self.plane_of(from, &piece.place),
            None => line.seat.as_ref().map(|(_, at)| *at),
        };
        let Some(from) = from else { return };
        let ends = outward(line.sign, from, line.front);
        self.add_setting(ends, &set, id, &format!("setting {name}"));
    }

    /// Readings of where the face of a piece stands, and whether there are any.
    fn read_out(&mut self, id: &Id, line: &PieceLine, name: &str) -> bool {
        let before = self.net.links.len();
        let about = key_ref(id);
        let Some(piece) = self.job.pieces.get(id) else {
            return false;
        };
        if let Some((_, seat)) = &line.seat {
            let from_seat = setting(piece, Along::Out).filter(|set| set.from.is_none());
            let designed = from_seat.and_then(|set| set.at).map(Length::mm);
            for read in self.readings.of_named(&about, "depth") {
                let ends = outward(line.sign, *seat, line.front);
                let link = self.add_reading(ends, &read, name, &about);
                if let Some(tie) = self.ties.get_mut(link.index()) {
                    tie.designed = designed;
                }
            }
        }
        for (control, read, to) in self.readings.taken_from_elsewhere(&about, |_| line.front) {
            if let Some(mark) = self.mark(&control, &piece.place) {
                self.add_reading(outward(line.sign, mark, to), &read, name, &about);
            }
        }
        let proud = self.readings.of_named(&about, "proud");
        let with = piece
            .align
            .iter()
            .find_map(|align| self.face_of(&align.with));
        if let Some(with) = with.cloned() {
            for read in &proud {
                let plane = with.as_of(read.at);
                self.add_reading(outward(line.sign, plane, line.front), read, name, &about);
            }
        }
        self.net.links.len() > before
    }

    /// The face that a reference names, or the face of its layer.
    pub(super) fn face_of(&self, reference: &Ref) -> Option<&FaceLine> {
        match self.job.resolve(reference)? {
            Target::Face { place, face } => self.faces.get(&(place, face)),
            Target::Layer(key) => self.faces.get(&(key.place, key.face)),
            _ => None,
        }
    }

    /// A distance that is set by hand; a gap if nobody has said to what.
    pub(super) fn add_setting(
        &mut self,
        ends: (PointId, PointId),
        set: &Setting,
        id: &Id,
        name: &str,
    ) {
        let done = self.site.state(&Subject::Piece(id.clone())).done.is_some();
        let tie = design(name.to_owned(), key_ref(id), !done);
        let kind = match (set.at, set.least, set.most) {
            (Some(at), ..) if done => set_to(at, at, Some(at), set),
            (at, Some(least), Some(most)) => set_to(least, most, at, set),
            (Some(at), ..) => set_to(at, at, Some(at), set),
            _ => {
                let missing = Missing {
                    what: format!("the figure for {name}"),
                    who: self
                        .job
                        .pieces
                        .get(id)
                        .map_or_else(said::site_lead, |piece| said::trade(self.job, &piece.trade)),
                    about: key_ref(id),
                };
                return self.gap(ends, missing);
            }
        };
        self.tie_points(ends, kind, tie);
    }

    /// Its bottom over the floor.
    fn place_up(&mut self, id: &Id, piece: &Piece) {
        let Some(line) = self.pieces.get(id).cloned() else {
            return;
        };
        let name = said::piece(self.job, id);
        let about = key_ref(id);
        for read in self.readings.of_named(&about, "above floor") {
            if let Some(today) = self
                .floor_of(&piece.place)
                .map(|floor| floor.as_of(read.at))
            {
                self.add_reading((today, line.bottom), &read, &name, &about);
            }
        }
        let set = setting(piece, Along::Up).cloned();
        let from = match set.as_ref().and_then(|set| set.from.as_ref()) {
            Some(from) => self.plane_of(from, &piece.place),
            None => self.floor_of(&piece.place).map(FaceLine::finish),
        };
        let Some(from) = from else { return };
        let set = set.unwrap_or_default();
        let name = format!("setting the bottom of {name}");
        self.add_setting((from, line.bottom), &set, id, &name);
    }

    /// Its centre.
    fn place_across(&mut self, id: &Id, piece: &Piece) {
        let Some(line) = self.pieces.get(id).cloned() else {
            return;
        };
        let name = said::piece(self.job, id);
        let about = key_ref(id);
        let (aim, centre) = line.centres;
        let reads = self.readings.of_named(&about, "off centre");
        if !reads.is_empty() {
            for read in &reads {
                self.add_reading((aim, centre), read, &name, &about);
            }
            return;
        }
        match setting(piece, Along::Across).cloned() {
            Some(set) => {
                let set = Setting {
                    at: set.at.or(Some(Length::ZERO)),
                    ..set
                };
                let name = format!("setting the centre of {name}");
                self.add_setting((aim, centre), &set, id, &name);
            }
            None => {
                let missing = Missing {
                    what: format!("how truly {name} is set to its centre"),
                    who: said::trade(self.job, &piece.trade),
                    about,
                };
                self.gap((aim, centre), missing);
            }
        }
    }

    /// The floor of a place: the face called floor, else its first.
    pub(super) fn floor_of(&self, place: &Id) -> Option<&FaceLine> {
        let key = self.floor_key(place)?;
        self.faces.get(&(place.clone(), key))
    }

    /// The key of the floor of a place.
    pub(super) fn floor_key(&self, place: &Id) -> Option<Id> {
        let here = self.job.places.get(place)?;
        let mut floors = here
            .faces
            .iter()
            .filter(|(_, face)| face.kind == grounds_model::FaceKind::Floor);
        let named = here
            .faces
            .get_key_value("floor")
            .map(|(key, _)| key.clone());
        named.or_else(|| floors.next().map(|(key, _)| key.clone()))
    }
}

/// How a piece is set that way.
pub(super) fn setting(piece: &Piece, along: Along) -> Option<&Setting> {
    piece.set.iter().find(|set| set.along == along)
}

fn set_to(low: Length, high: Length, chosen: Option<Length>, set: &Setting) -> LinkKind {
    LinkKind::Set {
        low: low.mm(),
        high: high.mm(),
        chosen: chosen.map(Length::mm),
        within: set.within.unwrap_or_default().mm(),
        shape: Shape::Normal,
    }
}

/// The name of a piece for the head of a sentence.
pub(super) fn headed(name: &str) -> String {
    words::capital(name)
}
