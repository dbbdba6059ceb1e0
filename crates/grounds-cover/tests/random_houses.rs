//! Random houses: nothing that lies behind a covering is absent from the register, and neither the
//! order of notes nor repeats change it.

#![allow(
    clippy::unwrap_used,
    reason = "a house that cannot be drawn is a fault of the test"
)]

mod house;

use std::{collections::BTreeSet, fmt::Write};

use grounds_cover::{closes, hides};
use grounds_model::{Job, Target};
use grounds_site::{Kind, Subject};
use house::House;
use proptest::prelude::*;

const HEAD: &str = r#"
format = 1
[job]
name = "A drawn house"
units = "metric"
zone = "Europe/London"
begins = "2027-06-01"
calendar = "crews"
[calendars.crews]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]
[trades.crew]
name = "Crew"
crews = 2
[levels.ground]
name = "Ground floor"
height = "0 m"
[places.room]
name = "Room"
level = "ground"
entrance = true
crews = 6
"#;

/// Everything that a layer may be of.
const MATERIALS: [&str; 21] = [
    "board",
    "plaster",
    "lime",
    "screed",
    "concrete",
    "masonry",
    "stone",
    "tile",
    "grout",
    "adhesive",
    "timber",
    "sheet",
    "metal",
    "glass",
    "membrane",
    "insulation",
    "paint",
    "finish",
    "fabric",
    "service",
    "void",
];

/// Names by which open work and fixings are known, and one by which nothing is.
const NAMES: [&str; 4] = ["Layer", "Battens", "Blocking", "Channel fixed"];

/// A layer: material, name, whether it is thick, between, protective.
type Layer = (usize, usize, bool, bool, bool);

/// A piece or a hold: its face, the layer it sits on, the layer it comes before.
type Before = (usize, usize, usize);

fn layer() -> impl Strategy<Value = Layer> {
    (
        0..MATERIALS.len(),
        0..NAMES.len(),
        any::<bool>(),
        prop::bool::weighted(0.15),
        prop::bool::weighted(0.1),
    )
}

fn document(faces: &[Vec<Layer>], pieces: &[Before], holds: &[Before]) -> String {
    let mut text = HEAD.to_owned();
    for face in 0..faces.len() {
        let kind = ["floor", "wall", "ceiling"][face % 3];
        writeln!(
            text,
            "faces.f{face} = {{ kind = \"{kind}\", build_up = \"b{face}\", area = \"4 m2\" }}"
        )
        .unwrap();
    }
    for (face, layers) in faces.iter().enumerate() {
        writeln!(text, "[build_ups.b{face}]\nname = \"B{face}\"").unwrap();
        for (index, (material, name, thick, between, protective)) in layers.iter().enumerate() {
            let (material, name) = (MATERIALS[*material], NAMES[*name]);
            writeln!(
                text,
                "[[build_ups.b{face}.layers]]\nid = \"l{index}\"\nname = \"{name} {index}\"\n\
                 material = \"{material}\"\ntrade = \"crew\"\ntakes = \"1 h\"\n\
                 between = {between}\nprotective = {protective}"
            )
            .unwrap();
            if *thick {
                writeln!(text, "thickness = \"10 mm\"").unwrap();
            }
        }
    }
    let pair = |(face, after, before): &Before| {
        let face = face % faces.len();
        let count = faces[face].len();
        let after = after % count;
        let before = (after + 1 + before % count).min(count - 1);
        (face, after, before)
    };
    for (index, piece) in pieces.iter().enumerate() {
        let (face, after, before) = pair(piece);
        if after < before {
            writeln!(
                text,
                "[pieces.p{index}]\nname = \"Piece {index}\"\ntrade = \"crew\"\nplace = \"room\"\n\
                 face = \"f{face}\"\nafter = [\"room.f{face}/l{after}\"]\n\
                 before = [\"room.f{face}/l{before}\"]\ntakes = \"1 h\""
            )
            .unwrap();
        }
    }
    for (index, hold) in holds.iter().enumerate() {
        let (face, after, before) = pair(hold);
        if after < before {
            writeln!(
                text,
                "[holds.h{index}]\nname = \"Hold {index}\"\nkind = \"own-check\"\nplace = \"room\"\n\
                 after = [\"room.f{face}/l{after}\"]\nbefore = [\"room.f{face}/l{before}\"]"
            )
            .unwrap();
        }
    }
    text
}

/// Everything that lies behind something: layers under a layer that closes, pieces and holds before a
/// layer.
fn lies_behind(job: &Job) -> BTreeSet<Subject> {
    let mut all = BTreeSet::new();
    for face in job.places["room"].faces.keys() {
        let keys = job.layers_of(&"room".into(), face);
        for (at, key) in keys.iter().enumerate() {
            let over = keys[at + 1..].iter().filter_map(|over| job.layer(over));
            let is_protection = job.layer(key).is_some_and(|layer| layer.protective);
            if !is_protection && over.into_iter().any(closes) {
                all.insert(Subject::Layer(key.clone()));
            }
        }
    }
    let is_layer = |about| matches!(job.resolve(about), Some(Target::Layer(_)));
    let pieces = job
        .pieces
        .iter()
        .filter(|(_, piece)| piece.before.iter().any(is_layer));
    all.extend(pieces.map(|(id, _)| Subject::Piece(id.clone())));
    let holds = job
        .holds
        .iter()
        .filter(|(_, hold)| hold.before.iter().any(is_layer));
    all.extend(holds.map(|(id, _)| Subject::Hold(id.clone())));
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn nothing_that_lies_behind_a_covering_is_absent(
        faces in prop::collection::vec(prop::collection::vec(layer(), 1..8), 1..4),
        pieces in prop::collection::vec((0..4usize, 0..8usize, 0..8usize), 0..4),
        holds in prop::collection::vec((0..4usize, 0..8usize, 0..8usize), 0..4),
        noted in prop::collection::vec((0..4usize, 0..8usize, 0..6usize), 0..20),
        turn in 0..20usize,
    ) {
        let mut house = House::new(&document(&faces, &pieces, &holds));
        let kinds = [Kind::Started, Kind::Done, Kind::Undone, Kind::Decided, Kind::Remark, Kind::Measured];
        for (index, (face, layer, kind)) in noted.iter().enumerate() {
            let face = face % faces.len();
            let layer = layer % faces[face].len();
            let about = format!("room.f{face}/l{layer}");
            let at = format!("2027-06-{:02}T{:02}:00", 1 + index / 5, 8 + index % 5);
            house = house.note(&at, &about, kinds[*kind], |note| note.with_photo("a.jpg"));
        }
        let look = house.clone().at("2027-06-08T08:00");

        let register: BTreeSet<Subject> = look
            .register
            .coverings
            .iter()
            .flat_map(|covering| &covering.hides)
            .flat_map(|hidden| hidden.subjects.iter().cloned())
            .collect();
        for subject in lies_behind(&look.job) {
            prop_assert!(register.contains(&subject), "{} is hidden and not in the register", subject);
        }
        // What was hidden is hidden once: no other layer of its face covers it again.
        for subject in look.job.layer_keys().map(Subject::Layer) {
            let by = hides(&look.job);
            prop_assert!(by.covers_of(&subject).len() <= 1 + holds.len(), "{}", subject);
        }

        let mut turned = house;
        let at = turn % turned.notes.len().max(1);
        turned.notes.rotate_left(at);
        let repeats = turned.notes.clone();
        turned.notes.extend(repeats);
        prop_assert_eq!(look.register, turned.at("2027-06-08T08:00").register);
    }
}
