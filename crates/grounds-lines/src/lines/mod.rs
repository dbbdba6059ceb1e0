//! The lines of a house: every face, piece, opening, threshold and flight as points and links.
//!
//! Positions run out of the structure into the room; on floors, levels and heights they run up. A
//! ceiling, a soffit and the far side of a wall run the other way, so their links are turned round
//! and everything that is placed by one control line stands on one axis.

mod align;
mod flights;
mod floors;
mod hand;
mod openings;
mod pieces;
mod planes;
mod ties;
mod timber;

use std::collections::BTreeMap;

use grounds_fit::net::{Link, LinkId, LinkKind, Need, NeedId, Net, PointId, Shape};
use grounds_measure::{Length, Units};
use grounds_model::{Id, Job, LayerKey, Ref};
use grounds_site::Site;
use jiff::Timestamp;
use uuid::Uuid;

use crate::{readings::Readings, said};

pub use openings::OpeningLine;
pub use pieces::PieceLine;
pub(crate) use planes::moves_the_face;
pub use planes::{FaceLine, Plane};

/// What a point stands for in the house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Point {
    /// What it is, for the middle of a sentence: `the finish of the walls in the mill hall`.
    pub name: String,
    /// What in the house it belongs to.
    pub about: Ref,
}

/// Where the figure of a link comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Source {
    /// The job document: what is designed.
    Design,
    /// Somebody read it.
    Reading {
        /// The note.
        note: Uuid,
        /// Who.
        by: String,
        /// When.
        at: Timestamp,
    },
}

/// What a link stands for in the house. Its figures are in [`Net::links`].
#[derive(Clone, Debug, PartialEq)]
pub struct Tie {
    /// What it is, for the middle of a sentence: `the skim coat on the walls in the mill hall`.
    pub name: String,
    /// What in the house it belongs to.
    pub about: Ref,
    /// Where its figure comes from.
    pub source: Source,
    /// Whether it can still be changed: work that is not done yet.
    pub open: bool,
    /// What was designed where a reading has taken its place, in millimetres.
    pub designed: Option<f64>,
}

/// A figure that nobody has given yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// What is missing, for the middle of a sentence: `the thickness of the dining glass`.
    pub what: String,
    /// Who has it, or can read it.
    pub who: String,
    /// What in the house it belongs to.
    pub about: Ref,
}

/// A link that there would be if its figure were known.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Gap {
    pub(crate) ends: (PointId, PointId),
    pub(crate) missing: Missing,
}

/// What kind of need it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NeedKind {
    /// In the finish plane, or proud or shy of it by so much.
    Flush,
    /// Set back by a reveal, or a gap of one width.
    Reveal,
    /// In one plane with something elsewhere.
    InPlane,
    /// Centred, or with equal gaps.
    Centred,
    /// Clear by at least.
    Clear,
    /// Its bottom at a height over the finished floor.
    AboveFloor,
    /// Its width in its opening: the play on both sides together.
    Width,
    /// Its height in its opening: the play at head and foot together.
    Height,
    /// Two finished floors at a passage.
    Threshold,
    /// One rise of a flight against the others.
    Rise,
    /// A need of a line by hand.
    ByHand,
}

/// A need, and what it stands for in the house.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// Its key, steady from day to day: `stair-glass.flush`, `boot-tower.threshold`.
    pub key: String,
    /// What is wanted, for the head of a list: `The stair glass flush with the wall`.
    pub name: String,
    /// The piece, passage, opening, place or line that it is a need of.
    pub about: Ref,
    /// What kind of need.
    pub kind: NeedKind,
    /// The points, the least and the most, in millimetres.
    pub need: Need,
    /// The thing that must come right, for the middle of a sentence: `the grille`.
    pub subject: String,
    /// What it is judged by, for the middle of a sentence: `the plaster`.
    pub against: String,
    /// The pieces whose order rests on it.
    pub orders: Vec<Id>,
    /// Its place in [`Net::needs`]; nothing while figures are missing.
    pub id: Option<NeedId>,
    /// The figures that are missing; then nobody can tell.
    pub missing: Vec<Missing>,
}

/// All lines of a house, as they stand at a moment.
#[derive(Clone, Debug)]
pub struct Lines<'j> {
    /// The job.
    pub job: &'j Job,
    /// The site.
    pub site: &'j Site,
    /// Points, links and needs, for reckoning.
    pub net: Net,
    /// What each point of the net stands for.
    pub points: Vec<Point>,
    /// What each link of the net stands for.
    pub ties: Vec<Tie>,
    /// Every need, those that cannot be told yet among them, by key.
    pub wanted: Vec<Wanted>,
    /// The planes of every face that has any.
    pub faces: BTreeMap<(Id, Id), FaceLine>,
    /// The planes of every piece that is placed.
    pub pieces: BTreeMap<Id, PieceLine>,
    /// The edges of every opening.
    pub openings: BTreeMap<Id, OpeningLine>,
    /// Readings that could not be used, each with the reason, as questions.
    pub unused: Vec<(Uuid, String)>,
    pub(crate) gaps: Vec<Gap>,
    pub(crate) readings: Readings,
    pub(crate) levels: BTreeMap<Id, PointId>,
    pub(crate) controls: BTreeMap<Id, PointId>,
    pub(crate) marks: BTreeMap<(Id, Id), PointId>,
    datum: PointId,
}

impl<'j> Lines<'j> {
    /// The lines of a job as it stands on site.
    #[must_use]
    pub fn of(job: &'j Job, site: &'j Site) -> Self {
        let mut lines = Self {
            job,
            site,
            net: Net::default(),
            points: Vec::new(),
            ties: Vec::new(),
            wanted: Vec::new(),
            faces: BTreeMap::new(),
            pieces: BTreeMap::new(),
            openings: BTreeMap::new(),
            unused: Vec::new(),
            gaps: Vec::new(),
            readings: Readings::default(),
            levels: BTreeMap::new(),
            controls: BTreeMap::new(),
            marks: BTreeMap::new(),
            datum: PointId(0),
        };
        (lines.readings, lines.unused) = Readings::of(job, site);
        lines.datum = lines.point("the datum", "job");
        lines.add_levels();
        lines.add_faces();
        lines.add_structures();
        lines.add_openings();
        lines.add_pieces();
        lines.add_alignments();
        lines.add_thresholds();
        lines.add_flights();
        lines.add_hand_lines();
        lines.settle();
        lines
    }

    /// The need of that key.
    #[must_use]
    pub fn wanted(&self, key: &str) -> Option<&Wanted> {
        self.wanted.iter().find(|wanted| wanted.key == key)
    }

    /// What a link stands for.
    #[must_use]
    pub fn tie(&self, id: LinkId) -> Option<&Tie> {
        self.ties.get(id.index())
    }

    /// What a point stands for.
    #[must_use]
    pub fn stands_for(&self, id: PointId) -> Option<&Point> {
        self.points.get(id.index())
    }

    /// The units of the job.
    #[must_use]
    pub fn units(&self) -> Units {
        self.job.job.units
    }

    /// Everything that was read.
    #[must_use]
    pub fn readings(&self) -> &Readings {
        &self.readings
    }

    /// The mark of a control line in a place, or the line itself where it has no marks of its own.
    #[must_use]
    pub fn mark_in(&self, control: &Id, place: &Id) -> Option<PointId> {
        let mark = self.marks.get(&(control.clone(), place.clone()));
        mark.or_else(|| self.controls.get(control)).copied()
    }

    /// The finished floor level of a storey.
    #[must_use]
    pub fn level(&self, level: &Id) -> Option<PointId> {
        self.levels.get(level).copied()
    }

    fn point(&mut self, name: impl Into<String>, about: impl Into<Ref>) -> PointId {
        let id = PointId::from(self.net.points);
        self.net.points += 1;
        self.points.push(Point {
            name: name.into(),
            about: about.into(),
        });
        id
    }

    fn tie_points(&mut self, ends: (PointId, PointId), kind: LinkKind, tie: Tie) -> LinkId {
        // One plane measured against itself says nothing.
        let ends = if ends.0 == ends.1 {
            (ends.0, self.point(tie.name.clone(), tie.about.clone()))
        } else {
            ends
        };
        let id = LinkId::from(self.net.links.len());
        self.net.links.push(Link {
            from: ends.0,
            to: ends.1,
            kind,
        });
        self.ties.push(tie);
        id
    }

    fn gap(&mut self, ends: (PointId, PointId), missing: Missing) {
        self.gaps.push(Gap { ends, missing });
    }

    /// States a need. Where both ends are one plane its distance is nothing, and it is tied so.
    fn want(&mut self, mut wanted: Wanted) {
        if wanted.need.from == wanted.need.to {
            let at = self.point(wanted.subject.clone(), wanted.about.clone());
            let tie = design(
                format!("{} on {}", wanted.subject, wanted.against),
                wanted.about.clone(),
                false,
            );
            let kind = built(Length::ZERO, Length::ZERO, Length::ZERO);
            self.tie_points((wanted.need.from, at), kind, tie);
            wanted.need.to = at;
        }
        self.wanted.push(wanted);
    }

    /// Puts the needs in order, numbers them, and finds what is missing for each.
    fn settle(&mut self) {
        let mut wanted = std::mem::take(&mut self.wanted);
        wanted.sort_by(|a, b| a.key.cmp(&b.key));
        number_alike(&mut wanted);
        let ways = ties::Ways::of(self);
        for want in &mut wanted {
            want.missing = ways.missing(self, &want.need);
            if want.missing.is_empty() {
                want.id = Some(NeedId::from(self.net.needs.len()));
                self.net.needs.push(want.need);
            }
        }
        self.wanted = wanted;
    }
}

/// Keys that are alike get a number, so that each names one need.
fn number_alike(wanted: &mut [Wanted]) {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for want in wanted {
        let count = seen.entry(want.key.clone()).or_default();
        *count += 1;
        if *count > 1 {
            want.key = format!("{}-{count}", want.key);
        }
    }
}

/// The two ends of a distance that runs out of a face, in the order of the axis.
fn outward(sign: Sign, inner: PointId, outer: PointId) -> (PointId, PointId) {
    match sign {
        Sign::Along => (inner, outer),
        Sign::Against => (outer, inner),
    }
}

/// Whether a face looks along its axis or against it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Along it: walls, floors.
    Along,
    /// Against it: ceilings, soffits, the far side of a wall.
    Against,
}

/// A distance that is built with a tolerance, in millimetres.
fn built(nominal: Length, minus: Length, plus: Length) -> LinkKind {
    LinkKind::Built {
        nominal: nominal.mm(),
        minus: minus.mm(),
        plus: plus.mm(),
        shape: Shape::Normal,
    }
}

fn design(name: impl Into<String>, about: impl Into<Ref>, open: bool) -> Tie {
    Tie {
        name: name.into(),
        about: about.into(),
        source: Source::Design,
        open,
        designed: None,
    }
}

/// How far something may be out where the job does not say: 1/32 in, which is what the eye sees in
/// a joint of 1/8 in (common practice); a whole millimetre in a metric job.
fn seen_by_eye(units: Units) -> Length {
    match units {
        Units::Metric => Length::from_mm(1),
        Units::Imperial => Length::from_64ths(2),
    }
}

fn layer_ref(key: &LayerKey) -> Ref {
    Ref(key.to_string())
}

fn key_ref(key: &Id) -> Ref {
    Ref(key.0.clone())
}

/// Who sets or makes a piece, as somebody to ask.
fn maker_of(lines: &Lines<'_>, piece: &Id) -> String {
    let found = lines.job.pieces.get(piece);
    match found.and_then(|piece| piece.supplier.as_deref()) {
        Some(supplier) => grounds_site::words::plain(supplier),
        None => found.map_or_else(String::new, |piece| said::trade(lines.job, &piece.trade)),
    }
}
