//! The planes of a face: structure, the outside of each layer, the finish.

use grounds_fit::net::{LinkId, LinkKind, PointId};
use grounds_measure::Length;
use grounds_model::{Face, FaceKind, Id, Layer, LayerKey, Ref, Target};
use grounds_site::Subject;
use jiff::Timestamp;

use super::{Lines, Missing, Sign, Source, Tie, built, design, key_ref, layer_ref, outward};
use crate::{readings::Read, said};

/// The outside of one layer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plane {
    /// The layer.
    pub layer: LayerKey,
    /// Where its outside is. Layers without a thickness share the point of the one under them.
    pub at: PointId,
    /// What says how thick it is: its design, or the readings of it. None for a layer without a thickness.
    pub links: Vec<LinkId>,
    /// When it went on; nothing while it is not.
    pub done: Option<Timestamp>,
}

/// The planes of one face.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FaceLine {
    /// Whether it looks along its axis.
    pub sign: Sign,
    /// The structure before anything is put on it.
    pub structure: PointId,
    /// The outside of each layer, structure side first.
    pub planes: Vec<Plane>,
}

impl FaceLine {
    /// The finish plane.
    #[must_use]
    pub fn finish(&self) -> PointId {
        self.planes.last().map_or(self.structure, |plane| plane.at)
    }

    /// The plane that could be read at a moment: the outside of the outermost layer that was on.
    #[must_use]
    pub fn as_of(&self, at: Timestamp) -> PointId {
        let on = |plane: &&Plane| plane.done.is_some_and(|done| done <= at);
        let done = self.planes.iter().rev().find(on);
        done.map_or(self.structure, |plane| plane.at)
    }

    /// The outside of a layer.
    #[must_use]
    pub fn outside(&self, layer: &Id) -> Option<PointId> {
        let plane = self.planes.iter().find(|plane| plane.layer.layer == *layer);
        plane.map(|plane| plane.at)
    }
}

impl Lines<'_> {
    /// The levels, each at its height over the datum; and the level lines.
    pub(super) fn add_levels(&mut self) {
        for (key, level) in &self.job.levels {
            let name = format!(
                "the finished floor level, {}",
                said::plain_lower(&level.name)
            );
            let at = self.point(name.clone(), "job");
            let within = level.within.unwrap_or_default();
            let kind = built(level.height, within, within);
            let tie = design(format!("the height of {name}"), "job", false);
            self.tie_points((self.datum, at), kind, tie);
            self.levels.insert(key.clone(), at);
        }
        for (key, control) in &self.job.controls {
            let name = grounds_site::words::with_article(&control.name);
            let at = self.point(name.clone(), key_ref(key));
            self.controls.insert(key.clone(), at);
            if let Some(level) = control
                .level
                .as_ref()
                .and_then(|level| self.levels.get(level))
            {
                let height = control.height.unwrap_or_default();
                let tie = design(format!("the height of {name}"), key_ref(key), false);
                let kind = built(height, Length::ZERO, Length::ZERO);
                self.tie_points((*level, at), kind, tie);
            }
        }
    }

    /// The mark of a control line in a place.
    pub(super) fn mark(&mut self, control: &Id, place: &Id) -> Option<PointId> {
        let at = *self.controls.get(control)?;
        let design_of = self.job.controls.get(control)?;
        let Some(within) = design_of.within else {
            return Some(at);
        };
        let key = (control.clone(), place.clone());
        if let Some(mark) = self.marks.get(&key) {
            return Some(*mark);
        }
        let name = format!(
            "the mark of {} in {}",
            grounds_site::words::with_article(&design_of.name),
            said::place(self.job, place)
        );
        let mark = self.point(name.clone(), key_ref(control));
        let tie = design(format!("carrying {name}"), key_ref(control), false);
        self.tie_points((at, mark), built(Length::ZERO, within, within), tie);
        self.marks.insert(key, mark);
        Some(mark)
    }

    /// Every face with its layers.
    pub(super) fn add_faces(&mut self) {
        let job = self.job;
        for (place, here) in &job.places {
            for (key, face) in &here.faces {
                self.add_face(place, key, face);
            }
        }
    }

    fn add_face(&mut self, place: &Id, key: &Id, face: &Face) {
        let reversed = face.structure.as_ref().is_some_and(|s| s.reversed);
        let down = matches!(face.kind, FaceKind::Ceiling | FaceKind::Soffit);
        let sign = if down == reversed {
            Sign::Along
        } else {
            Sign::Against
        };
        let face_said = said::face(self.job, place, key);
        let about = Ref(format!("{place}.{key}"));
        let structure = self.point(format!("the structure of {face_said}"), about);
        let mut line = FaceLine {
            sign,
            structure,
            planes: Vec::new(),
        };
        let layers = self.job.build_up(face).map_or(&[][..], |it| &it.layers);
        for layer in layers {
            let layer_key = LayerKey {
                place: place.clone(),
                face: key.clone(),
                layer: layer.id.clone(),
            };
            let plane = self.add_layer(&line, layer, layer_key);
            line.planes.push(plane);
        }
        self.faces.insert((place.clone(), key.clone()), line);
    }

    fn add_layer(&mut self, line: &FaceLine, layer: &Layer, key: LayerKey) -> Plane {
        let under = line.finish();
        let state = self.site.states.get(&Subject::Layer(key.clone()));
        // When something went on that nobody saw, nobody knows: it was there before any reading.
        let done = match state {
            Some(state) if state.presumed.is_some() => Some(Timestamp::MIN),
            state => state.and_then(|state| state.done).map(|seen| seen.at),
        };
        if !moves_the_face(layer) {
            return Plane {
                layer: key,
                at: under,
                links: Vec::new(),
                done,
            };
        }
        let name = grounds_site::name(self.job, &Subject::Layer(key.clone()));
        let at = self.point(format!("the outside of {name}"), layer_ref(&key));
        let links = self.add_thickness(outward(line.sign, under, at), layer, &key, &name);
        let about = layer_ref(&key);
        for read in self.readings.of_named(&about, "from structure") {
            self.add_reading(outward(line.sign, line.structure, at), &read, &name, &about);
        }
        Plane {
            layer: key,
            at,
            links,
            done,
        }
    }

    /// The thickness of a layer between two points: what was read of it, else its design.
    pub(super) fn add_thickness(
        &mut self,
        ends: (PointId, PointId),
        layer: &Layer,
        key: &LayerKey,
        name: &str,
    ) -> Vec<LinkId> {
        let about = layer_ref(key);
        let mut reads = self.readings.plain(&about);
        reads.extend(self.readings.of_named(&about, "thickness"));
        if reads.is_empty() {
            let Some(thick) = layer.thickness else {
                return Vec::new();
            };
            let state = self.site.states.get(&Subject::Layer(key.clone()));
            let open = state.is_none_or(|state| state.done.is_none());
            let kind = built(thick.nominal(), thick.minus(), thick.plus());
            return vec![self.tie_points(ends, kind, design(name, about, open))];
        }
        let designed = layer.thickness.map(|thick| thick.nominal().mm());
        let mut links = Vec::new();
        for read in &reads {
            let link = self.add_reading(ends, read, name, &about);
            if let Some(tie) = self.ties.get_mut(link.index()) {
                tie.designed = designed;
            }
            links.push(link);
        }
        links
    }

    /// A reading of the distance between two points.
    pub(super) fn add_reading(
        &mut self,
        ends: (PointId, PointId),
        read: &Read,
        name: &str,
        about: &Ref,
    ) -> LinkId {
        let kind = LinkKind::Measured {
            reading: read.figure.mm(),
            sigma: read.sigma,
        };
        let tie = Tie {
            name: name.to_owned(),
            about: about.clone(),
            source: Source::Reading {
                note: read.note,
                by: read.by.clone(),
                at: read.at,
            },
            open: false,
            designed: None,
        };
        self.tie_points(ends, kind, tie)
    }

    /// Where the structure of each face stands.
    pub(super) fn add_structures(&mut self) {
        let job = self.job;
        for (place, here) in &job.places {
            for (key, face) in &here.faces {
                self.add_structure(place, key, face, &here.level);
                self.add_face_readings(place, key);
            }
        }
    }

    fn add_structure(&mut self, place: &Id, key: &Id, face: &Face, level: &Id) {
        let Some(line) = self.faces.get(&(place.clone(), key.clone())).cloned() else {
            return;
        };
        let about = Ref(format!("{place}.{key}"));
        let name = format!("the structure of {}", said::face(self.job, place, key));
        let given = face.structure.as_ref();
        let from = match given.and_then(|given| given.from.as_ref()) {
            Some(from) => self.plane_of(from, place),
            None if face.kind == FaceKind::Floor => self.levels.get(level).copied(),
            None => None,
        };
        let Some(from) = from else { return };
        let ends = outward(line.sign, from, line.structure);
        let reads = self.readings.of_named(&about, "structure");
        if !reads.is_empty() {
            let designed = given.and_then(|given| given.at).map(Length::mm);
            for read in &reads {
                let link = self.add_reading(ends, read, &name, &about);
                if let Some(tie) = self.ties.get_mut(link.index()) {
                    tie.designed = designed;
                }
            }
            return;
        }
        if self.is_read_bare(&about, &line, from, place) {
            return;
        }
        let built_on = given
            .and_then(|given| given.from.as_ref())
            .and_then(|from| self.job.resolve(from))
            .is_some_and(|target| !matches!(target, Target::Control(_)));
        let at = given.and_then(|given| given.at);
        let Some(at) = at.or(built_on.then_some(Length::ZERO)) else {
            let missing = Missing {
                what: format!("where {name} stands"),
                who: said::site_lead(),
                about,
            };
            return self.gap(ends, missing);
        };
        let within = given.and_then(|given| given.within).unwrap_or_default();
        self.tie_points(ends, built(at, within, within), design(name, about, false));
    }

    /// Whether a structure was read, bare, from where it is placed: then the drawing does not count.
    fn is_read_bare(&self, about: &Ref, line: &FaceLine, from: PointId, place: &Id) -> bool {
        let found = self
            .readings
            .taken_from_elsewhere(about, |at| line.as_of(at));
        found.iter().any(|(control, _, to)| {
            let mark = self.mark_in(control, place);
            let mark = mark.or_else(|| self.level(control));
            *to == line.structure && mark == Some(from)
        })
    }

    /// Readings of a face as it stood that day: from a control line, or its level.
    fn add_face_readings(&mut self, place: &Id, key: &Id) {
        let Some(line) = self.faces.get(&(place.clone(), key.clone())).cloned() else {
            return;
        };
        let about = Ref(format!("{place}.{key}"));
        let mut found = self
            .readings
            .taken_from_elsewhere(&about, |at| line.as_of(at));
        for plane in &line.planes {
            let about = layer_ref(&plane.layer);
            found.extend(self.readings.taken_from_elsewhere(&about, |_| plane.at));
        }
        for (control, read, to) in found {
            let (from, level) = match self.mark(&control, place) {
                Some(mark) => (mark, false),
                None => match self.levels.get(&control) {
                    Some(level) => (*level, true),
                    None => continue,
                },
            };
            let face = said::face(self.job, place, key);
            let name = if level {
                format!("the level of {face}")
            } else {
                format!("where {face} stands")
            };
            let ends = outward(line.sign, from, to);
            let link = self.add_reading(ends, &read, &name, &about);
            let designed = self.designed(place, key, &control, to);
            if let Some(tie) = self.ties.get_mut(link.index()) {
                tie.designed = designed;
            }
        }
    }

    /// Where a plane of a face was to stand, from the control line or level it is placed by.
    fn designed(&self, place: &Id, key: &Id, control: &Id, to: PointId) -> Option<f64> {
        let face = self.job.face(place.as_str(), key.as_str())?;
        let given = face.structure.as_ref()?;
        let placed_by = match &given.from {
            Some(from) => from.as_str() == control.as_str(),
            None => self.job.places.get(place)?.level == *control,
        };
        let mut at = placed_by.then_some(given.at?)?;
        let line = self.faces.get(&(place.clone(), key.clone()))?;
        let under = line.planes.iter().take_while(|plane| {
            // Up to the plane that was read, whose layers share its point.
            plane.at <= to
        });
        for plane in under {
            let layer = self
                .job
                .layer(&plane.layer)
                .filter(|layer| moves_the_face(layer));
            at += layer
                .and_then(|layer| layer.thickness)
                .map_or(Length::ZERO, |it| it.nominal());
        }
        Some(at.mm())
    }

    /// The plane that a reference stands for, seen from a place: the finish of a face, the outside
    /// of a layer, the face of a piece, the mark of a control line.
    pub(crate) fn plane_of(&mut self, reference: &Ref, place: &Id) -> Option<PointId> {
        match self.job.resolve(reference)? {
            Target::Face { place, face } => self.faces.get(&(place, face)).map(FaceLine::finish),
            Target::Layer(key) => self
                .faces
                .get(&(key.place.clone(), key.face.clone()))?
                .outside(&key.layer),
            Target::Piece(id) => self.pieces.get(&id).map(|piece| piece.front),
            Target::Control(id) => self.mark(&id, place),
            Target::Opening(id) => {
                let opening = self.job.openings.get(&id)?;
                let face = opening.face.clone()?;
                let face = self.faces.get(&(opening.place.clone(), face))?;
                Some(face.finish())
            }
            _ => None,
        }
    }

    /// Which way a reference's face looks.
    pub(super) fn sign_of(&self, reference: &Ref) -> Option<Sign> {
        let face = |place: &Id, face: &Id| {
            let line = self.faces.get(&(place.clone(), face.clone()));
            line.map(|line| line.sign)
        };
        match self.job.resolve(reference)? {
            Target::Face { place, face: key } => face(&place, &key),
            Target::Layer(key) => face(&key.place, &key.face),
            Target::Piece(id) => self.pieces.get(&id).map(|piece| piece.sign),
            _ => None,
        }
    }
}

/// Whether a layer brings the face further out.
pub(crate) fn moves_the_face(layer: &Layer) -> bool {
    layer.thickness.is_some() && !layer.between
}
