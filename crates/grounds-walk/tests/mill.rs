//! What a walker says of the demo house, and which thing of its document is meant. The house is
//! invented; the ways of saying are common practice.

#![allow(clippy::expect_used, reason = "a test stops at the first surprise")]

use grounds_model::Job;
use grounds_walk::{Vocabulary, from_job, read, transcript};
use jiff::civil::date;

fn mill() -> Vocabulary {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../examples/alder-sluice/job.toml"
    );
    let text = std::fs::read_to_string(path).expect("the demo house is here");
    let job: Job = grounds_model::read("job.toml", &text).expect("the demo house is right");
    from_job(&job, date(2027, 6, 8))
}

/// A sentence and the ids that a careful reader would take it for: one, or several that are
/// equally good.
const SAID: [(&str, &[&str]); 46] = [
    (
        "Kitchen. The stone floor is laid.",
        &["kitchen.floor/stone"],
    ),
    ("Kitchen. Island's in.", &["kitchen-island"]),
    ("Kitchen. Range cooker came.", &["range-cooker"]),
    (
        "Kitchen. Splashback tile's on.",
        &["kitchen.splashback/tile"],
    ),
    ("Kitchen. Worktop isn't here.", &["kitchen-worktop"]),
    ("Kitchen. Ceiling's skimmed.", &["kitchen.ceiling/skim"]),
    ("Kitchen. Heating pipe test passed.", &["kitchen-pipe-test"]),
    ("Kitchen. The hood's up.", &["kitchen-hood"]),
    (
        "Kitchen. Shadow gap bead is in.",
        &["kitchen.ceiling/gap-bead"],
    ),
    ("Kitchen. Built in fridge arrived.", &["kitchen-fridge"]),
    ("Mill hall. Front door is hung.", &["front-door"]),
    ("Mill hall. Hopper pendant is here.", &["hall-pendant"]),
    ("Mill hall. Floor's been sanded.", &["mill-hall.floor/sand"]),
    (
        "Mill hall. Walls have had the scratch coat.",
        &["mill-hall.walls/scratch"],
    ),
    (
        "Mill hall. Slate threshold is cracked.",
        &["hall-threshold"],
    ),
    ("Mill hall. Floor grilles came.", &["hall-grilles"]),
    ("Mill hall. The millstone table isn't here.", &["millstone"]),
    ("Wheel room. Viewing glass is scratched.", &["wheel-screen"]),
    ("Wheel room. Pit rail isn't fitted.", &["wheel-rail"]),
    (
        "Wheel room. Flags are relaid.",
        &["wheel-room.floor/lay", "wheel-room.floor/lift"],
    ),
    ("Wheel room. Fan heater's in.", &["wheel-room-heater"]),
    ("Plant room. Heat pump came.", &["heat-pump"]),
    ("Plant room. Cylinder is in.", &["hot-water-cylinder"]),
    (
        "Plant room. Fuse board isn't labelled.",
        &["distribution-board"],
    ),
    ("Washing room. Flood test passed.", &["wash-flood"]),
    ("Washing room. Trough basin is here.", &["wash-basin"]),
    ("Washing room. Stone bench is chipped.", &["wash-bench"]),
    ("Dining room. Sideboard is in.", &["dining-sideboard"]),
    (
        "Dining room. Ceiling slats are oiled.",
        &["dining.ceiling/oil"],
    ),
    (
        "Dining room. Track and spots aren't wired.",
        &["dining-lights"],
    ),
    ("Hearth room. Stove's in.", &["hearth-stove"]),
    ("Hearth room. Hearth slab came.", &["hearth-slab"]),
    (
        "Hearth room. Beams are oiled.",
        &["hearth-room.ceiling/beam-oil"],
    ),
    (
        "Counting room. Wallpaper's hung.",
        &["counting-room.walls/paper", "counting-paper"],
    ),
    ("Counting room. Desk came.", &["counting-desk"]),
    ("Main bathroom. The tub's in.", &["main-bath"]),
    ("Main bathroom. Vanity top isn't here.", &["vanity-top"]),
    (
        "Main bathroom. Shower flood test passed.",
        &["main-shower-flood"],
    ),
    ("Main bathroom. Towel rails are on.", &["main-towel-rail"]),
    ("Middle tower stair. Stair glass came.", &["stair-glass"]),
    (
        "Middle tower stair. Treads are sanded.",
        &["stair-middle.treads/sand"],
    ),
    ("Gallery. Bookcases are in.", &["bookcases"]),
    ("Laundry. Washer and dryer arrived.", &["laundry-machines"]),
    ("Bin landing. Balustrade isn't up.", &["bin-balustrade"]),
    ("Roof terrace. Terrace guard came.", &["terrace-guard"]),
    ("Studio. Rooflight blinds aren't up.", &["studio-blinds"]),
];

/// What each sentence came to: the ids that were offered, the best first, and whether they are
/// ambiguous. The sentences are read as one walk, a minute apart.
fn matched(vocabulary: &Vocabulary, said: &[&str]) -> Vec<Option<(Vec<String>, bool)>> {
    let talk: Vec<String> = said
        .iter()
        .enumerate()
        .map(|(minute, said)| format!("[{minute}:30] {said}"))
        .collect();
    let talk = transcript::read(&talk.join("\n")).expect("it has talk");
    let walk = read(&talk, vocabulary);
    (0..said.len())
        .map(|cue| {
            let proposal = walk.proposals.iter().find(|it| it.cue == cue)?;
            let ids = proposal
                .matches
                .iter()
                .filter_map(|at| vocabulary.things.get(*at))
                .map(|thing| thing.id.clone())
                .collect();
            Some((ids, proposal.ambiguous))
        })
        .collect()
}

#[test]
fn what_is_said_of_the_mill_is_matched_with_what_the_mill_has() {
    let vocabulary = mill();
    let mut wrong = Vec::new();
    let all: Vec<&str> = SAID.iter().map(|(said, _)| *said).collect();
    let found = matched(&vocabulary, &all);
    for ((said, wanted), found) in SAID.iter().zip(found) {
        let right = found.as_ref().is_some_and(|(ids, ambiguous)| {
            ids.first().is_some_and(|id| wanted.contains(&id.as_str()))
                || *ambiguous && wanted.iter().any(|want| ids.iter().any(|id| id == want))
        });
        let best = found
            .as_ref()
            .is_some_and(|(ids, _)| ids.first().is_some_and(|id| wanted.contains(&id.as_str())));
        if !best {
            println!(
                "{said}: {found:?}, wanted {wanted:?}{}",
                if right { " (asked)" } else { "" }
            );
            wrong.push(*said);
        }
    }
    assert!(
        wrong.len() * 10 <= SAID.len(),
        "{} of {} wrong: {wrong:#?}",
        wrong.len(),
        SAID.len()
    );
}

#[test]
fn what_could_be_two_things_is_said_to_be_ambiguous() {
    let said = [
        // Walls and ceiling are both skimmed there.
        "Kitchen. It's skimmed, the skim is on.",
        // Boards are on the ceiling and on the wall.
        "Guest room. Plasterboard is up.",
        // A first and a second coat of the membrane, on the floor, the walls and the ceiling.
        "Steam room. The waterproof membrane is on.",
        "Guest room. Mist coat's on.",
        "Kitchen. Range cooker came.",
    ];
    let found = matched(&mill(), &said);
    let ambiguous: Vec<bool> = found
        .iter()
        .map(|it| it.as_ref().is_some_and(|(_, ambiguous)| *ambiguous))
        .collect();
    assert_eq!(ambiguous, [true, true, true, true, false], "{found:?}");
}
