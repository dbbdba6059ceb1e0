//! The last known state for walking: places in order, each with its faces, pieces and holds.

use std::collections::BTreeMap;

use grounds_model::{FaceKind, Id, LayerKey};
use grounds_schedule::ActivityId;
use grounds_sequence::words::{lower_first, upper_first};
use grounds_site::{Seen, State, Subject, walking_order};
use jiff::Timestamp;
use serde::Serialize;

use super::sort::{Says, Sort, Standing};
use crate::{
    assets, marks, say,
    visit::{NOBODY_SAID, Visit},
};

/// The longest words of trouble that are repeated, in characters.
const LONGEST_TROUBLE: usize = 90;

/// What a phone knows of a job.
#[derive(Debug, Serialize)]
pub(crate) struct Known {
    /// The job's key.
    job: String,
    /// What it is called.
    name: String,
    /// `metric` or `imperial`.
    units: &'static str,
    /// Which plan it is of.
    edition: u64,
    /// Which version of the pages it is for.
    stamp: &'static str,
    /// The time on site.
    now: Timestamp,
    /// The time zone the house stands in.
    zone: String,
    /// Who writes, if that was said.
    #[serde(skip_serializing_if = "Option::is_none")]
    who: Option<String>,
    /// What may be said of each sort of thing.
    says: BTreeMap<Sort, Says>,
    /// The layers of each build-up, structure side first: a face names its build-up.
    stacks: BTreeMap<Id, Vec<Design>>,
    /// The places, in the order of the walk.
    places: Vec<Place>,
    /// Decisions that are open.
    decisions: Vec<Thing>,
}

/// A layer as it is designed, wherever it is put on.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Design {
    /// Its key in the face.
    pub(crate) id: String,
    /// What the trade calls it.
    pub(crate) name: String,
    /// Its hatch.
    hatch: &'static str,
    /// Its thickness in whole millimetres, for the drawing.
    #[serde(skip_serializing_if = "is_nothing")]
    mm: u32,
}

/// A place on the walk.
#[derive(Debug, Serialize)]
pub(crate) struct Place {
    /// Its key.
    pub(crate) key: String,
    /// What everyone calls it.
    pub(crate) name: String,
    /// Its level, with the height: `Mill floor +1.30`.
    pub(crate) level: String,
    /// What is next there, for the middle of a sentence.
    pub(crate) next: String,
    /// Its faces.
    pub(crate) faces: Vec<Face>,
    /// Pieces, holds and openings that belong there.
    pub(crate) things: Vec<Thing>,
}

/// A face: a stack of layers, structure side first.
#[derive(Debug, Serialize)]
pub(crate) struct Face {
    /// What a note about it is about; a layer adds `/` and its own key.
    pub(crate) about: String,
    /// What everyone calls it.
    pub(crate) name: String,
    /// Its build-up.
    of: Id,
    /// Its layers.
    pub(crate) layers: Vec<Layer>,
}

/// A layer of a face.
#[derive(Debug, Serialize)]
pub(crate) struct Layer {
    /// What it is: told once for its build-up.
    #[serde(skip)]
    pub(crate) design: Design,
    /// How far it has got.
    #[serde(flatten)]
    pub(crate) how: How,
}

/// A piece, a hold, an opening or a decision.
#[derive(Debug, Serialize)]
pub(crate) struct Thing {
    /// What a note about it is about.
    pub(crate) about: String,
    /// What sort of thing it is.
    pub(crate) sort: Sort,
    /// What everyone calls it.
    pub(crate) name: String,
    /// What a hold wants to see.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(crate) wants: Vec<String>,
    #[serde(flatten)]
    pub(crate) how: How,
}

/// How far a thing has got.
#[derive(Debug, Default, Serialize)]
pub(crate) struct How {
    /// How far.
    #[serde(skip_serializing_if = "Standing::is_to_come")]
    pub(crate) is: Standing,
    /// The share that is finished, in percent, while in hand.
    #[serde(skip_serializing_if = "Option::is_none")]
    share: Option<u8>,
    /// The state in words.
    pub(crate) say: String,
    /// What is wrong, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) trouble: Option<String>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it over so")]
fn is_nothing(number: &u32) -> bool {
    *number == 0
}

impl Known {
    /// The job as a visit sees it.
    pub(crate) fn of(visit: &Visit) -> Self {
        let job = &visit.picture.job;
        let open = job.decisions.keys().map(|id| decision(visit, id));
        Self {
            job: visit.key.clone(),
            name: job.job.name.clone(),
            units: match job.job.units {
                grounds_measure::Units::Metric => "metric",
                grounds_measure::Units::Imperial => "imperial",
            },
            edition: visit.picture.edition,
            stamp: assets::STAMP,
            now: visit.now,
            zone: job.job.zone.clone(),
            who: Some(visit.who.clone()).filter(|who| who != NOBODY_SAID),
            says: Says::all(),
            stacks: stacks(visit),
            places: walking_order(job)
                .iter()
                .filter_map(|id| Place::of(visit, id))
                .collect(),
            decisions: open
                .filter(|thing| thing.how.is != Standing::Done)
                .collect(),
        }
    }
}

impl Place {
    /// A place of the job.
    pub(crate) fn of(visit: &Visit, id: &Id) -> Option<Self> {
        let job = &visit.picture.job;
        let design = job.places.get(id)?;
        let level = job.levels.get(&design.level);
        let level = level.map_or_else(String::new, |level| {
            format!(
                "{} {}",
                level.name,
                say::height(level.height, job.job.units)
            )
        });
        let pieces = job.pieces.iter().filter(|(_, piece)| piece.place == *id);
        let holds = job.holds.iter().filter(|(_, hold)| hold.place == *id);
        let openings = job
            .openings
            .iter()
            .filter(|(_, opening)| opening.place == *id);
        let things = pieces
            .map(|(key, _)| piece(visit, key))
            .chain(holds.map(|(key, _)| hold(visit, key)))
            .chain(openings.map(|(key, opening)| Thing {
                about: key.to_string(),
                sort: Sort::Opening,
                name: opening.name.clone(),
                wants: Vec::new(),
                how: measured(visit, &Subject::Opening(key.clone())),
            }))
            .collect();
        Some(Self {
            key: id.to_string(),
            name: design.name.clone(),
            level,
            next: crate::pages::next_in(visit, id),
            faces: faces(visit, id),
            things,
        })
    }
}

/// The faces of a place: floor last, since one stands on it.
fn faces(visit: &Visit, place: &Id) -> Vec<Face> {
    let Some(design) = visit.picture.job.places.get(place) else {
        return Vec::new();
    };
    let mut faces: Vec<_> = design.faces.iter().collect();
    let rank = |kind: FaceKind| match kind {
        FaceKind::Wall => 0,
        FaceKind::Ceiling | FaceKind::Soffit => 1,
        FaceKind::Floor => 2,
    };
    faces.sort_by_key(|(key, face)| (rank(face.kind), *key));
    faces
        .into_iter()
        .map(|(key, face)| Face {
            about: format!("{place}.{key}"),
            name: upper_first(
                &face
                    .name
                    .clone()
                    .unwrap_or_else(|| key.as_str().replace('-', " ")),
            ),
            of: face.build_up.clone(),
            layers: layers(visit, place, key),
        })
        .collect()
}

/// The layers of every build-up that a face of the job gets.
fn stacks(visit: &Visit) -> BTreeMap<Id, Vec<Design>> {
    let job = &visit.picture.job;
    let faces = job.places.values().flat_map(|place| place.faces.values());
    faces
        .filter_map(|face| {
            let layers = &job.build_up(face)?.layers;
            Some((face.build_up.clone(), layers.iter().map(design).collect()))
        })
        .collect()
}

fn design(layer: &grounds_model::Layer) -> Design {
    let thick = layer
        .thickness
        .map_or(0.0, |thickness| thickness.nominal().mm());
    Design {
        id: layer.id.to_string(),
        name: layer.name.clone(),
        hatch: marks::hatch(layer.material).stem(),
        mm: whole(thick),
    }
}

fn layers(visit: &Visit, place: &Id, face: &Id) -> Vec<Layer> {
    let job = &visit.picture.job;
    job.layers_of(place, face)
        .into_iter()
        .filter_map(|key| {
            Some(Layer {
                design: design(job.layer(&key)?),
                how: layer(visit, key),
            })
        })
        .collect()
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held between nothing and a thousand just before"
)]
fn whole(mm: f64) -> u32 {
    mm.round().clamp(0.0, 1000.0) as u32
}

fn layer(visit: &Visit, key: LayerKey) -> How {
    let task = visit.picture.layer_tasks.get(&key).copied();
    let state = visit.picture.site.state(&Subject::Layer(key));
    match (state.done, task) {
        (Some(done), _) => finished(visit, &state, "done", Some(done)),
        (None, Some(id)) => worked(visit, id, &state, "done"),
        (None, None) => How::default(),
    }
}

fn piece(visit: &Visit, id: &Id) -> Thing {
    let design = visit.picture.job.pieces.get(id);
    let state = visit.picture.site.state(&Subject::Piece(id.clone()));
    let task = visit.picture.outlook.network.find(id.as_str());
    let mut how = match (state.done, task) {
        (Some(done), _) => finished(visit, &state, "set", Some(done)),
        (None, Some(task)) => worked(visit, task, &state, "set"),
        (None, None) => How::default(),
    };
    if matches!(how.is, Standing::ToCome | Standing::Next) {
        let (is, say) = on_the_way(
            visit,
            &state,
            design.is_some_and(|d| d.lead.is_some()),
            &how,
        );
        (how.is, how.say) = (is, say);
    }
    Thing {
        about: id.to_string(),
        sort: Sort::Piece,
        name: design.map_or_else(|| id.to_string(), |design| design.name.clone()),
        wants: Vec::new(),
        how,
    }
}

/// A piece that is not set yet: whether it is here, and when it goes in.
fn on_the_way(visit: &Visit, state: &State, is_bought: bool, how: &How) -> (Standing, String) {
    let goes_in = match how.is {
        Standing::Next => "can be set".to_owned(),
        _ => format!("goes in {}", how.say),
    };
    if let Some(arrived) = state.arrived {
        return (
            Standing::OnSite,
            format!("on site since {}; {goes_in}", day(visit, arrived.at)),
        );
    }
    let waits = match (&state.promised, state.ordered, is_bought) {
        (Some((when, _)), ..) => format!("promised {}", when.date.strftime("%a %-d %B")),
        (None, Some(_), _) => "ordered".to_owned(),
        (None, None, true) => "not ordered".to_owned(),
        (None, None, false) => return (how.is, goes_in),
    };
    (Standing::ToCome, format!("{waits}; {goes_in}"))
}

fn hold(visit: &Visit, id: &Id) -> Thing {
    let design = visit.picture.job.holds.get(id);
    let state = visit.picture.site.state(&Subject::Hold(id.clone()));
    let task = visit.picture.outlook.network.find(id.as_str());
    let mut how = match (state.done, task) {
        (Some(done), _) => finished(visit, &state, "passed", Some(done)),
        (None, Some(task)) => worked(visit, task, &state, "passed"),
        (None, None) => How::default(),
    };
    if let (None, Some(failed)) = (state.done, state.failed) {
        how.is = Standing::Failed;
        how.say = match state.mended {
            Some(_) => format!(
                "failed {}, put right; again {}",
                day(visit, failed.at),
                how.say
            ),
            None => format!("failed {}", day(visit, failed.at)),
        };
    } else if state.done.is_none() {
        how.say = due(
            &state,
            design
                .and_then(|design| design.notice)
                .map(|n| n.to_string()),
            &how,
        );
    }
    Thing {
        about: id.to_string(),
        sort: Sort::Hold,
        name: design.map_or_else(|| id.to_string(), |design| design.name.clone()),
        wants: design
            .filter(|_| how.is != Standing::Done)
            .map_or_else(Vec::new, |design| design.evidence.clone()),
        how,
    }
}

/// When a hold is due, and whether it is booked.
fn due(state: &State, notice: Option<String>, how: &How) -> String {
    let due = match how.is {
        Standing::InHand => format!("{}, read it", how.say),
        Standing::Next => "can be done now".to_owned(),
        _ => format!("due {}", how.say),
    };
    match (&state.promised, notice) {
        (Some((when, _)), _) => format!("booked for {}", when.date.strftime("%a %-d %B")),
        (None, Some(notice)) => format!("{due}; to be booked {notice} ahead"),
        (None, None) => due,
    }
}

fn decision(visit: &Visit, id: &Id) -> Thing {
    let design = visit.picture.job.decisions.get(id);
    let state = visit.picture.site.state(&Subject::Decision(id.clone()));
    let task = visit.picture.outlook.network.find(id.as_str());
    let how = match (state.done, task) {
        (Some(done), _) => finished(visit, &state, "decided", Some(done)),
        (None, Some(task)) => worked(visit, task, &state, "decided"),
        (None, None) => How::default(),
    };
    let by = design.map_or("", |design| design.by.as_str());
    Thing {
        about: id.to_string(),
        sort: Sort::Decision,
        name: design.map_or_else(|| id.to_string(), |design| design.name.clone()),
        wants: Vec::new(),
        how: How {
            say: format!("by {}", lower_first(by)),
            ..how
        },
    }
}

/// What was read of a thing.
fn measured(visit: &Visit, subject: &Subject) -> How {
    let state = visit.picture.site.state(subject);
    let say = match state.measured {
        Some(seen) => format!("measured {}", day(visit, seen.at)),
        None => "not measured".to_owned(),
    };
    How {
        say,
        trouble: trouble(&state),
        ..How::default()
    }
}

fn finished(visit: &Visit, state: &State, word: &str, seen: Option<Seen>) -> How {
    let since = seen.map_or_else(String::new, |seen| format!(" {}", day(visit, seen.at)));
    How {
        is: Standing::Done,
        share: None,
        say: format!("{word}{since}"),
        trouble: trouble(state),
    }
}

/// Work that is not finished, by the plan.
fn worked(visit: &Visit, id: ActivityId, state: &State, word: &str) -> How {
    let start = visit.picture.outlook.plan.starts[id.index()];
    let (is, share, say) = match marks::state(&visit.picture, id) {
        grounds_draw::State::Done => (Standing::Done, None, word.to_owned()),
        grounds_draw::State::InHand { percent } => {
            let since = state.started.map_or_else(String::new, |seen| {
                format!(" since {}", day(visit, seen.at))
            });
            let share = Some(percent).filter(|share| *share > 0);
            let far = share.map_or_else(String::new, |share| format!(", {share} % done"));
            (Standing::InHand, share, format!("in hand{since}{far}"))
        }
        grounds_draw::State::Next => (Standing::Next, None, "can start".to_owned()),
        grounds_draw::State::ToCome => (Standing::ToCome, None, visit.words().when(start)),
    };
    How {
        is,
        share,
        say,
        trouble: trouble(state),
    }
}

fn trouble(state: &State) -> Option<String> {
    if state.damaged.is_some() {
        return Some("damaged".to_owned());
    }
    let problem = state.problems.last()?;
    Some(say::cut(&problem.words, LONGEST_TROUBLE))
}

/// `Tue 8 June`
fn day(visit: &Visit, at: Timestamp) -> String {
    at.to_zoned_datetime(visit.picture.zone().clone())
        .strftime("%a %-d %B")
        .to_string()
}
