//! The section of a need: the face with its layers, the piece, and where both come to be.

use grounds_draw::{
    ControlLine, Dimension, FaceKind, FinishPlane, Hatch, Landing, PieceForm, Section,
    SectionLayer, SectionPiece, State,
};
use grounds_fit::net::PointId;
use grounds_lines::{
    answers::{Answer, wanted_words},
    lines::{FaceLine, Lines, NeedKind, Plane, Source, Wanted},
    said,
};
use grounds_model::{FaceKind as Kind, Id, LayerKey, Material, Piece, Target};
use grounds_site::{Subject, words};

use super::{Drawing, layers, plain, ref_of, structure_hatch, verdict};
use crate::marks::hatch;

/// How much of a structure is drawn, in millimetres; its depth is not known here.
const STRUCTURE: f64 = 60.0;

/// The depth that a piece is drawn with while nobody has said it, in millimetres.
const DEEP: f64 = 12.0;

/// The width that a piece is drawn with while nobody has said it, in millimetres.
const WIDE: f64 = 60.0;

/// Further than this from its plane nothing is drawn to scale with it, in millimetres.
const FAR: f64 = 400.0;

/// A face that is being drawn.
struct Face<'a> {
    place: &'a Id,
    key: &'a Id,
    kind: Kind,
    line: &'a FaceLine,
    /// What positions are counted from.
    origin: PointId,
    control: Option<ControlLine>,
}

impl Drawing<'_> {
    /// The sections that show a need; none where there is nothing to cut through.
    pub(crate) fn sections(&self, wanted: &Wanted, answer: &Answer) -> Vec<Section> {
        if answer.figures.is_none() {
            return Vec::new();
        }
        match wanted.kind {
            NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal | NeedKind::Clear => {
                self.at_piece(wanted, answer).into_iter().collect()
            }
            NeedKind::Threshold => self.at_threshold(wanted, answer),
            NeedKind::ByHand => self.by_hand(wanted, answer).into_iter().collect(),
            NeedKind::AboveFloor
            | NeedKind::Centred
            | NeedKind::Width
            | NeedKind::Height
            | NeedKind::Rise => Vec::new(),
        }
    }

    /// The face that a piece sits in, or that it is judged by.
    fn face_of(&self, piece: &Piece) -> Option<(Id, Id)> {
        let own = piece
            .face
            .as_ref()
            .map(|face| (piece.place.clone(), face.clone()));
        own.or_else(|| {
            piece
                .align
                .iter()
                .find_map(|align| match self.lines.job.resolve(&align.with)? {
                    Target::Face { place, face } => Some((place, face)),
                    Target::Layer(key) => Some((key.place, key.face)),
                    _ => None,
                })
        })
    }

    fn face<'b>(&'b self, at: &'b (Id, Id)) -> Option<Face<'b>> {
        let (place, key) = at;
        let found = self.lines.job.face(place.as_str(), key.as_str())?;
        let line = self.lines.faces.get(at)?;
        let mut face = Face {
            place,
            key,
            kind: found.kind,
            line,
            origin: line.structure,
            control: None,
        };
        let from = found
            .structure
            .as_ref()
            .and_then(|structure| structure.from.as_ref());
        let mark = match from.map(|from| self.lines.job.resolve(from)) {
            Some(Some(Target::Control(id))) => {
                let name = &self.lines.job.controls.get(&id)?.name;
                let name = words::plain(name);
                self.lines.mark_in(&id, place).map(|mark| (mark, name))
            }
            None if found.kind == Kind::Floor => {
                let level = &self.lines.job.places.get(place)?.level;
                let name = &self.lines.job.levels.get(level)?.name;
                let name = format!("finished level, {}", words::plain(name).to_lowercase());
                self.lines.level(level).map(|mark| (mark, name))
            }
            _ => None,
        };
        if let Some((mark, words)) = mark
            && self.out(line.sign, mark, line.structure).is_some()
        {
            face.origin = mark;
            face.control = Some(ControlLine { at: 0.0, words });
        }
        Some(face)
    }

    fn at_piece(&self, wanted: &Wanted, answer: &Answer) -> Option<Section> {
        let Some(Target::Piece(id)) = self.lines.job.resolve(&wanted.about) else {
            return None;
        };
        let piece = self.lines.job.pieces.get(&id)?;
        let at = self.face_of(piece)?;
        let face = self.face(&at)?;
        let line = self.lines.pieces.get(&id)?;
        let (front, within) = self.out(face.line.sign, face.origin, line.front)?;
        let mut section = self.cut(&face)?;
        let back = self.out(face.line.sign, face.origin, line.back);
        let back = back
            .map(|(mean, _)| mean)
            .filter(|back| *back < front - 0.5);
        let finish = section.layers.last().map_or(front, |layer| layer.to);
        let judged = match wanted.kind {
            NeedKind::Clear => back.unwrap_or(front),
            _ => front,
        };
        let mean = answer.figures?.mean;
        let plane = judged - mean;
        if (judged - finish).abs() > FAR || (plane - finish).abs() > FAR {
            return None;
        }
        section.pieces.push(SectionPiece {
            name: plain(&wanted.subject),
            form: form(piece),
            hatch: piece.material.map_or(Hatch::Void, hatch),
            from: back.unwrap_or(front - DEEP),
            to: front,
            width: piece
                .size
                .map_or(WIDE, |size| size.first().mm())
                .clamp(15.0, 400.0),
            gap: 0.0,
            covered: self.is_covered(piece, &at) && front < finish - 1.0,
            state: self.piece_state(&id),
        });
        section.landings.push(Landing {
            piece: Some(0),
            lands: judged,
            wanted: plane + target(answer),
            words: self.lands(wanted, mean),
            note: format!("wanted {}", wanted_words(self.lines, wanted)),
            verdict: verdict(answer.verdict),
        });
        if let Some(control) = &section.control
            && (front - control.at).abs() > 1.0
        {
            let (from, to) = (control.at.min(front), control.at.max(front));
            section.strings.push(vec![Dimension {
                from,
                to,
                figure: self.figure(to - from),
                tolerance: self.within(within),
            }]);
        }
        section.title = format!(
            "{}, {}",
            words::capital(&said_face(self.lines, &at)),
            plain(&wanted.subject)
        );
        section.said = answer.said.clone();
        Some(section)
    }

    /// Both floors of a passage, each against the finished level.
    fn at_threshold(&self, wanted: &Wanted, answer: &Answer) -> Vec<Section> {
        let Some(Target::Passage(id)) = self.lines.job.resolve(&wanted.about) else {
            return Vec::new();
        };
        let Some(passage) = self.lines.job.passages.get(&id) else {
            return Vec::new();
        };
        let [first, second] = &passage.between;
        let floors = [(first, None), (second, Some((wanted.need.from, answer)))];
        let drawn = floors.into_iter().filter_map(|(place, judged)| {
            let at = self.floor(place)?;
            let face = self.face(&at)?;
            let mut section = self.cut(&face)?;
            section.title = words::capital(&said_face(self.lines, &at));
            section.said = answer.said.clone();
            if let Some((plane, answer)) = judged {
                let (plane, _) = self.out(face.line.sign, face.origin, plane)?;
                let mean = answer.figures?.mean;
                section.landings.push(Landing {
                    piece: None,
                    lands: plane + mean,
                    wanted: plane + target(answer),
                    words: self.lands(wanted, mean),
                    note: format!("wanted {}", wanted_words(self.lines, wanted)),
                    verdict: verdict(answer.verdict),
                });
            }
            Some(section)
        });
        drawn.collect()
    }

    /// The floor of a place: the face called floor, else its first.
    fn floor(&self, place: &Id) -> Option<(Id, Id)> {
        let faces = &self.lines.job.places.get(place)?.faces;
        let mut floors = faces.iter().filter(|(_, face)| face.kind == Kind::Floor);
        let named = faces.get_key_value("floor").map(|(key, _)| key);
        let key = named.or_else(|| floors.next().map(|(key, _)| key))?;
        Some((place.clone(), key.clone()))
    }

    /// A line by hand, each link from one point to the next as a layer.
    fn by_hand(&self, wanted: &Wanted, answer: &Answer) -> Option<Section> {
        let (id, _) = wanted.key.split_once('.')?;
        let line = self.lines.job.lines.get(id)?;
        let mean = answer.figures?.mean;
        let origin = wanted.need.from;
        let at = |point: PointId| self.adjusted.distance(origin, point).map(|(mean, _)| mean);
        let links = answer.parts.iter().filter_map(|part| {
            let link = self.lines.net.links.get(part.link.index())?;
            let (from, to) = (at(link.from)?, at(link.to)?);
            Some((from.min(to), from.max(to), part))
        });
        let mut links: Vec<_> = links.collect();
        // What ends first is drawn first: most of the parts stand side by side then, and only what
        // spans several of them is left to a dimension string.
        links.sort_by(|a, b| a.1.total_cmp(&b.1).then(b.0.total_cmp(&a.0)));
        let mut section = self.blank(Kind::Wall);
        let mut spans = Vec::new();
        for (from, to, part) in links {
            let over = |span: &(f64, f64)| span.0 < to - 0.1 && span.1 > from + 0.1;
            if to - from < 0.1 {
                continue;
            }
            if spans.iter().any(over) {
                section.strings.push(vec![Dimension {
                    from,
                    to,
                    figure: self.figure(to - from),
                    tolerance: self.within(part.tolerance.0.max(part.tolerance.1)),
                }]);
                continue;
            }
            spans.push((from, to));
            let solid = part.name.contains("thickness");
            section.layers.push(SectionLayer {
                name: plain(&part.name),
                hatch: if solid { Hatch::Timber } else { Hatch::Void },
                from,
                to,
                figure: self.figure(to - from),
                tolerance: self.within(part.tolerance.0.max(part.tolerance.1)),
                state: match part.source {
                    Source::Reading { .. } => State::Done,
                    Source::Design => State::ToCome,
                },
            });
        }
        section.title = words::capital(&words::plain(&line.name));
        section.said = answer.said.clone();
        section.landings.push(Landing {
            piece: None,
            lands: mean,
            wanted: answer.limits.0.or(answer.limits.1).unwrap_or(mean),
            words: format!("{}: {}", plain(&wanted.subject), self.figure(mean)),
            note: format!("wanted {}", wanted_words(self.lines, wanted)),
            verdict: verdict(answer.verdict),
        });
        Some(section)
    }

    fn blank(&self, kind: Kind) -> Section {
        Section {
            title: String::new(),
            said: String::new(),
            kind: match kind {
                Kind::Wall => FaceKind::Wall,
                Kind::Floor => FaceKind::Floor,
                Kind::Ceiling | Kind::Soffit => FaceKind::Ceiling,
            },
            units: self.units(),
            layers: Vec::new(),
            pieces: Vec::new(),
            finish: None,
            control: None,
            landings: Vec::new(),
            strings: Vec::new(),
        }
    }

    /// A face with its layers and its finish plane.
    fn cut(&self, face: &Face<'_>) -> Option<Section> {
        let mut section = self.blank(face.kind);
        let (structure, _) = self.out(face.line.sign, face.origin, face.line.structure)?;
        let designs = layers(self.lines, face.place, face.key);
        section.layers.push(SectionLayer {
            name: "structure".to_owned(),
            hatch: structure_hatch(&designs),
            from: structure - STRUCTURE,
            to: structure,
            figure: String::new(),
            tolerance: String::new(),
            state: State::Done,
        });
        let mut under = (face.line.structure, structure);
        for plane in &face.line.planes {
            if plane.at == under.0 {
                continue;
            }
            let (at, _) = self.out(face.line.sign, face.origin, plane.at)?;
            if let Some(layer) = self.layer(plane, under.1, at) {
                section.layers.push(layer);
            }
            under = (plane.at, at);
        }
        let (at, within) = self.out(face.line.sign, face.origin, face.line.finish())?;
        section.finish = Some(FinishPlane {
            at,
            minus: within,
            plus: within,
            words: match &face.control {
                Some(_) => format!("finish plane {} {}", self.signed(at), self.within(within)),
                None => format!("finish plane {}", self.within(within)),
            },
            note: match &face.control {
                Some(control) => format!(
                    "from the {}; the band holds nineteen in twenty",
                    lower(&control.words)
                ),
                None => "the band holds nineteen in twenty".to_owned(),
            },
        });
        section.control = face.control.clone();
        Some(section)
    }

    fn signed(&self, mm: f64) -> String {
        super::bare(&said::signed(mm, self.lines.units()))
    }

    fn layer(&self, plane: &Plane, from: f64, to: f64) -> Option<SectionLayer> {
        let design = self.lines.job.layer(&plane.layer)?;
        let tie = plane.links.first().and_then(|link| self.lines.tie(*link));
        // A label has no room for how it is put on.
        let name = words::plain(&design.name);
        let name = name.split(',').next().unwrap_or_default();
        let read = tie.filter(|tie| matches!(tie.source, Source::Reading { .. }));
        let name = match read.and_then(|tie| tie.designed) {
            Some(drawn) => format!(
                "{}, read {} (drawn {})",
                lower(name),
                self.figure(to - from),
                self.figure(drawn)
            ),
            None => lower(name),
        };
        Some(SectionLayer {
            name,
            hatch: hatch(design.material),
            from,
            to,
            figure: self.figure(to - from),
            tolerance: self.within(self.tolerance(&plane.links)),
            state: self.layer_state(&plane.layer),
        })
    }

    /// Whether a layer of the face goes on over a piece.
    fn is_covered(&self, piece: &Piece, at: &(Id, Id)) -> bool {
        let of_face = |key: &LayerKey| (&key.place, &key.face) == (&at.0, &at.1);
        piece.before.iter().any(|before| {
            matches!(self.lines.job.resolve(before), Some(Target::Layer(key)) if of_face(&key))
        })
    }

    fn piece_state(&self, id: &Id) -> State {
        self.state(&Subject::Piece(id.clone()))
    }

    /// How something lands, in a few words.
    fn lands(&self, wanted: &Wanted, mean: f64) -> String {
        let figure = self.figure(mean);
        let nothing = figure == self.figure(0.0);
        let thing = plain(&wanted.subject);
        match wanted.kind {
            _ if nothing && wanted.kind != NeedKind::Clear => format!("{thing} flush"),
            NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal => {
                let side = if mean < 0.0 { "shy" } else { "proud" };
                format!("{thing} {figure} {side}")
            }
            NeedKind::Clear if mean < 0.0 => format!("{thing} {figure} too near"),
            NeedKind::Clear => format!("{thing} {figure} clear"),
            NeedKind::Threshold => {
                let side = if mean < 0.0 { "low" } else { "high" };
                format!("{figure} {side}")
            }
            _ => format!("{thing} {figure}"),
        }
    }
}

/// The middle of what is wanted, or its one limit.
fn target(answer: &Answer) -> f64 {
    match answer.limits {
        (Some(least), Some(most)) => f64::midpoint(least, most),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => 0.0,
    }
}

fn lower(name: &str) -> String {
    let mut chars = name.chars();
    chars
        .next()
        .map_or_else(String::new, |c| c.to_lowercase().chain(chars).collect())
}

fn said_face(lines: &Lines<'_>, (place, face): &(Id, Id)) -> String {
    let job = lines.job;
    let found = job.face(place.as_str(), face.as_str());
    let name = found
        .and_then(|face| face.name.clone())
        .unwrap_or_else(|| face.as_str().replace('-', " "));
    let place_name = job
        .places
        .get(place)
        .map_or_else(|| ref_of(place).to_string(), |it| words::plain(&it.name));
    format!("{place_name}, {}", lower(&words::plain(&name)))
}

/// What a piece looks like cut through, by what it is called and made of.
fn form(piece: &Piece) -> PieceForm {
    let name = piece.name.to_lowercase();
    let says = |words: &[&str]| words.iter().any(|word| name.contains(word));
    if says(&["grille", "register", "slot"]) {
        PieceForm::Grille
    } else if says(&["box", "valve", "socket", "switch", "light", "lamp", "niche"]) {
        PieceForm::Box
    } else if says(&["track", "channel", "drain", "gutter"]) {
        PieceForm::Track
    } else if piece.material == Some(Material::Glass) && !says(&["frame"]) {
        PieceForm::Glass
    } else if says(&["frame", "hatch", "panel"]) {
        PieceForm::Frame
    } else {
        PieceForm::Solid
    }
}
