//! What must line up: each relation of a piece as a need.

use grounds_fit::net::{Need, PointId};
use grounds_measure::Length;
use grounds_model::{Align, Id, Material, Piece, Ref, Relation, Target};
use grounds_site::words;

use super::{
    Lines, NeedKind, Sign, Wanted, key_ref, outward, pieces::headed, planes::moves_the_face,
    seen_by_eye,
};
use crate::said;

/// One side of a need that is being stated.
struct Side<'a> {
    id: &'a Id,
    piece: &'a Piece,
    align: &'a Align,
}

impl Lines<'_> {
    /// The needs of every piece.
    pub(super) fn add_alignments(&mut self) {
        let job = self.job;
        for (id, piece) in &job.pieces {
            for align in &piece.align {
                self.add_alignment(&Side { id, piece, align });
            }
        }
    }

    fn add_alignment(&mut self, side: &Side<'_>) {
        match side.align.how {
            Relation::Flush => self.want_plane(side, NeedKind::Flush),
            Relation::InPlane => self.want_plane(side, NeedKind::InPlane),
            Relation::Reveal => match self.job.resolve(&side.align.with) {
                Some(Target::Opening(opening)) => self.want_edges(side, &opening, true),
                _ => self.want_plane(side, NeedKind::Reveal),
            },
            Relation::Clear => match self.job.resolve(&side.align.with) {
                Some(Target::Opening(opening)) => self.want_edges(side, &opening, false),
                _ => self.want_clear(side),
            },
            Relation::Centred | Relation::EqualGaps => self.want_centred(side),
            Relation::AboveFloor => self.want_above_floor(side),
        }
    }

    /// The piece's own face against a plane: flush, set back by a reveal, in one plane.
    fn want_plane(&mut self, side: &Side<'_>, kind: NeedKind) {
        let Some((plane, line)) = self.plane_and_piece(side) else {
            return;
        };
        let units = self.units();
        let by = side.align.by.unwrap_or_default();
        let (by, within) = match kind {
            // A reveal is set back: shy of the plane. A joint shows what is a quarter of it.
            NeedKind::Reveal => (-by, Length::from_units(by.abs().units() / 4)),
            _ => (by, seen_by_eye(units)),
        };
        let within = side.align.within.unwrap_or(within);
        let (from, to) = outward(line.0, plane, line.1);
        // Against the axis both ends are swapped, so that outwards stays above zero.
        let need = Need {
            from,
            to,
            least: Some((by - within).mm()),
            most: Some((by + within).mm()),
        };
        let against = self.with_said(&side.align.with);
        let piece = said::piece(self.job, side.id);
        let name = match kind {
            NeedKind::Reveal => format!("{} set back from {against}", headed(&piece)),
            NeedKind::InPlane => format!("{} in plane with {against}", headed(&piece)),
            _ if by.is_positive() => format!("{} proud of {against}", headed(&piece)),
            _ if by.is_negative() => format!("{} shy of {against}", headed(&piece)),
            _ => format!("{} flush with {against}", headed(&piece)),
        };
        let word = match kind {
            NeedKind::Reveal => "reveal",
            NeedKind::InPlane => "in-plane",
            _ => "flush",
        };
        self.push(side, word, name, kind, need, against);
    }

    /// The plane lined up with, and the sign and face of the piece.
    fn plane_and_piece(&mut self, side: &Side<'_>) -> Option<(PointId, (Sign, PointId))> {
        let plane = self.plane_of(&side.align.with, &side.piece.place)?;
        let line = self.pieces.get(side.id)?;
        let front = line.front;
        let sign = match side.piece.face {
            Some(_) => line.sign,
            None => self.sign_of(&side.align.with).unwrap_or(line.sign),
        };
        Some((plane, (sign, front)))
    }

    /// Its back clear of a plane in front of which it stands.
    fn want_clear(&mut self, side: &Side<'_>) {
        let Some(plane) = self.plane_of(&side.align.with, &side.piece.place) else {
            return;
        };
        let Some(line) = self.pieces.get(side.id) else {
            return;
        };
        let (from, to) = outward(line.sign, plane, line.back);
        let need = Need {
            from,
            to,
            least: Some(side.align.by.unwrap_or_default().mm()),
            most: None,
        };
        let against = self.with_said(&side.align.with);
        let name = format!(
            "{} clear of {against}",
            headed(&said::piece(self.job, side.id))
        );
        self.push(side, "clear", name, NeedKind::Clear, need, against);
    }

    fn want_centred(&mut self, side: &Side<'_>) {
        let Some(line) = self.pieces.get(side.id) else {
            return;
        };
        let within = side.align.within.unwrap_or(seen_by_eye(self.units()));
        let equal = side.align.how == Relation::EqualGaps;
        // Two gaps differ by twice what the centre is off.
        let within = if equal {
            within.mm() / 2.0
        } else {
            within.mm()
        };
        let need = Need {
            from: line.centres.0,
            to: line.centres.1,
            least: Some(-within),
            most: Some(within),
        };
        let against = self.with_said(&side.align.with);
        let piece = headed(&said::piece(self.job, side.id));
        let (word, name) = if equal {
            (
                "equal-gaps",
                format!("{piece} with equal gaps in {against}"),
            )
        } else {
            ("centred", format!("{piece} centred on {against}"))
        };
        self.push(side, word, name, NeedKind::Centred, need, against);
    }

    fn want_above_floor(&mut self, side: &Side<'_>) {
        let place = &side.piece.place;
        let floor = match self.job.resolve(&side.align.with) {
            Some(Target::Face { .. } | Target::Layer(_)) => self.plane_of(&side.align.with, place),
            _ => self.floor_of(place).map(|floor| floor.finish()),
        };
        let (Some(floor), Some(line)) = (floor, self.pieces.get(side.id)) else {
            return;
        };
        let by = side.align.by.unwrap_or_default();
        let within = side.align.within.unwrap_or(seen_by_eye(self.units()));
        let need = Need {
            from: floor,
            to: line.bottom,
            least: Some((by - within).mm()),
            most: Some((by + within).mm()),
        };
        let against = self.with_said(&side.align.with);
        let name = format!(
            "{} {} over {against}",
            headed(&said::piece(self.job, side.id)),
            said::exact(by.mm(), self.units())
        );
        self.push(
            side,
            "above-floor",
            name,
            NeedKind::AboveFloor,
            need,
            against,
        );
    }

    /// The gap at each edge of an opening: of one width, or no less than so much.
    fn want_edges(&mut self, side: &Side<'_>, opening: &Id, reveal: bool) {
        let by = side.align.by.unwrap_or_default();
        let quarter = Length::from_units(by.units() / 4);
        let within = side.align.within.unwrap_or(quarter);
        let (least, most) = if reveal {
            (by - within, Some(by + within))
        } else {
            (by, None)
        };
        self.want_play(opening, Some(side.id), least, most);
    }

    /// What a piece lines up with, as it stands in a sentence.
    pub(crate) fn with_said(&self, with: &Ref) -> String {
        match self.job.resolve(with) {
            Some(Target::Face { place, face }) => self.finish_said(&place, &face),
            Some(Target::Layer(key)) => {
                grounds_site::name(self.job, &grounds_site::Subject::Layer(key))
            }
            Some(Target::Piece(id)) => said::piece(self.job, &id),
            Some(Target::Opening(id)) => {
                said::called(self.job.openings.get(&id).map(|it| it.name.as_str()), &id)
            }
            Some(Target::Control(id)) => {
                said::called(self.job.controls.get(&id).map(|it| it.name.as_str()), &id)
            }
            _ => words::plain(with.as_str()),
        }
    }

    /// What the eye meets on a face: `the plaster of the walls in the hall`; else the face by name.
    pub(super) fn finish_said(&self, place: &Id, face: &Id) -> String {
        let found = self.job.face(place.as_str(), face.as_str());
        let layers = found
            .and_then(|face| self.job.build_up(face))
            .map_or(&[][..], |build_up| &build_up.layers);
        let outer = layers.iter().rev().find(|layer| moves_the_face(layer));
        match outer.map(|layer| layer.material) {
            Some(material) if matches!(face.as_str(), "floor" | "walls") => format!(
                "the {} in {}",
                finish_word(material),
                said::place(self.job, place)
            ),
            Some(material) => format!(
                "the {} of {}",
                finish_word(material),
                said::face(self.job, place, face)
            ),
            None => said::face(self.job, place, face),
        }
    }

    fn push(
        &mut self,
        side: &Side<'_>,
        word: &str,
        name: String,
        kind: NeedKind,
        need: Need,
        against: String,
    ) {
        let wanted = Wanted {
            key: format!("{}.{word}", side.id),
            name,
            about: key_ref(side.id),
            kind,
            need,
            subject: said::piece(self.job, side.id),
            against,
            orders: vec![side.id.clone()],
            id: None,
            missing: Vec::new(),
        };
        self.want(wanted);
    }
}

/// What a finish is called.
fn finish_word(material: Material) -> &'static str {
    match material {
        Material::Lime => "lime plaster",
        Material::Timber => "boards",
        Material::Tile => "tiles",
        Material::Fabric => "covering",
        Material::Sheet | Material::Membrane => "sheet",
        other => other.name(),
    }
}
