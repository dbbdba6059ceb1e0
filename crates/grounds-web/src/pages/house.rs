//! The house by level: each place with how far each of its faces has got.

use grounds_draw::{House, HouseLevel, Link, Room, State};
use grounds_model::{Id, Place};
use grounds_schedule::ActivityId;
use grounds_sequence::{TaskState, Work, words::lower_first};
use maud::{Markup, PreEscaped, html};

use crate::{
    marks,
    pages::survey,
    say,
    visit::{Visit, encode},
};

/// The page.
pub(crate) fn house(visit: &Visit) -> Markup {
    html! {
        header class="opening" {
            h1 { (how_far(visit)) }
            p class="lead soft" {
                "Each room as a section: walls, floor and ceiling, the structure outside and the \
                 finish inside."
            }
        }
        (survey::line(visit))
        (PreEscaped(grounds_draw::house(&drawn(visit))))
        details class="fold" {
            summary { "What the lines and hatches mean" }
            (PreEscaped(grounds_draw::sheet_key(&grounds_draw::Hatch::ALL)))
        }
    }
}

/// `312 of 640 layers are on, and 40 of 118 pieces are in.`
fn how_far(visit: &Visit) -> String {
    let (mut layers, mut pieces) = ((0, 0), (0, 0));
    for task in &visit.picture.outlook.network.tasks {
        let done = usize::from(task.state == TaskState::Done);
        match &task.work {
            Work::Layer(keys) => layers = (layers.0 + done * keys.len(), layers.1 + keys.len()),
            Work::Set(_) => pieces = (pieces.0 + done, pieces.1 + 1),
            _ => {}
        }
    }
    let on = format!(
        "{} of {} on",
        layers.0,
        say::counted(layers.1, "layer is", "layers are")
    );
    match pieces.1 {
        0 => format!("{on}."),
        n => format!(
            "{on}, and {} of {} in.",
            pieces.0,
            say::counted(n, "piece is", "pieces are")
        ),
    }
}

fn drawn(visit: &Visit) -> House {
    let job = &visit.picture.job;
    let mut designs: Vec<_> = job.levels.iter().collect();
    designs.sort_by_key(|(id, level)| (std::cmp::Reverse(level.height), *id));
    let levels = designs.into_iter().map(|(id, level)| HouseLevel {
        name: level.name.clone(),
        height: say::height(level.height, job.job.units),
        rooms: job
            .places
            .iter()
            .filter(|(_, place)| place.level == *id)
            .map(|(key, place)| room(visit, key, place))
            .collect(),
    });
    House {
        levels: levels.filter(|level| !level.rooms.is_empty()).collect(),
    }
}

fn room(visit: &Visit, key: &Id, place: &Place) -> Room {
    let address = format!("/j/{}/weeks?place={}", visit.key, encode(key.as_str(), ""));
    Room {
        name: place.name.clone(),
        next: next_in(visit, key),
        href: Link::new(&address),
        faces: place
            .faces
            .keys()
            .filter_map(|face| marks::face(&visit.picture, key, face))
            .collect(),
    }
}

/// What is next in a place: what is in hand, else what can start, else what the plan starts first.
pub(crate) fn next_in(visit: &Visit, place: &Id) -> String {
    let outlook = &visit.picture.outlook;
    let rank = |id: &ActivityId| match marks::state(&visit.picture, *id) {
        State::InHand { .. } => 0,
        State::Next => 1,
        _ => 2,
    };
    let here = outlook.network.open().filter(|id| {
        let task = &outlook.network.tasks[id.index()];
        task.place.as_ref() == Some(place) && matches!(task.work, Work::Layer(_) | Work::Set(_))
    });
    let Some(first) = here.min_by_key(|id| (rank(id), outlook.plan.starts[id.index()], *id)) else {
        return "finished".to_owned();
    };
    let name = lower_first(&outlook.network.tasks[first.index()].name);
    match rank(&first) {
        0 => format!("{name} in hand"),
        1 => format!("{name} can start"),
        _ => format!(
            "{name}, {}",
            visit.words().when(outlook.plan.starts[first.index()])
        ),
    }
}
