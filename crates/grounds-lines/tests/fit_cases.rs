//! Situations met on site, each a job folder with its right answer.
//!
//! The figures of the answers are arithmetic, shown beside each. Limits of stairs and rails: IRC
//! R311.7.5.1 (greatest less smallest rise at most 3/8 in) and R311.7.8.1 (rail 34 to 38 in above
//! the nosings) \[published; local code decides\].

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

mod house;

use grounds_fit::spacing::{Course, Flight, Limits, Pads, Start, pads};
use grounds_lines::answers::Verdict;
use grounds_measure::{Length, Step};
use house::{House, assert_is, assert_says};

fn length(text: &str) -> Length {
    text.parse().unwrap()
}

#[test]
fn the_bottom_step_is_short_by_the_boards() {
    let house = House::case("bottom-step");
    let first = house.answer("flight.first-rise");

    // 7 1/2 less the boards of 3/4.
    assert_is(first.figures.unwrap().mean, "6 3/4 in");
    assert_eq!(first.verdict, Verdict::Fails);
    assert_says(
        &first.said,
        &["comes to 6 3/4\"", "no case", "boards, nailed"],
    );
    let last = house.answer("flight.last-rise");
    assert_is(last.figures.unwrap().mean, "7 1/2 in");
    assert_eq!(last.verdict, Verdict::Holds);
}

#[test]
fn two_pads_share_the_short_step_out_to_the_limit_and_six_to_an_eighth() {
    let mut risers = vec![length("7 1/2 in"); 14];
    risers[0] = length("6 3/4 in");
    let flight = Flight { risers };

    assert_eq!(flight.spread(), length("3/4 in"));
    let fewest = Pads::fewest(&flight, Limits::IRC, Step::SIXTEENTH_INCH).unwrap();
    assert_eq!(fewest.pads.len(), 2);
    for (count, spread) in [(2, "3/8 in"), (3, "1/4 in"), (6, "1/8 in")] {
        let padded = pads(&flight, count, Step::SIXTEENTH_INCH);
        assert_eq!(padded.flight.spread(), length(spread), "{count} pads");
    }
}

#[test]
fn pads_lift_the_nosing_towards_a_rail_that_is_fixed() {
    // The lowest pad is 3/4 in: 34 1/4 less 3/4, half an inch under what is wanted.
    let house = House::case_with(
        "bottom-step",
        &[(
            "name = \"Treads planed\"\nmaterial = \"timber\"\ntrade = \"stairs\"\n",
            "name = \"Treads planed\"\nmaterial = \"timber\"\ntrade = \"stairs\"\ntakes = \"4 h\"\n\n\
             [[build_ups.treads.layers]]\nid = \"pad\"\nname = \"Pad\"\nmaterial = \"timber\"\n\
             trade = \"stairs\"\nthickness = \"3/4 in\"\n",
        )],
    );
    let rail = house.answer("rail.above-floor");

    assert_is(rail.figures.unwrap().mean, "33 1/2 in");
    assert_eq!(rail.verdict, Verdict::Fails);
    let raise = rail.limits.0.unwrap() - rail.figures.unwrap().mean;
    assert_is(raise, "1/2 in");
    assert_eq!(
        House::case("bottom-step")
            .answer("rail.above-floor")
            .verdict,
        Verdict::Holds
    );
}

#[test]
fn the_recess_is_as_narrow_as_its_narrowest_height() {
    let fridge = House::case("fridge-recess").answer("fridge.width");
    let figures = fridge.figures.unwrap();

    // 35 1/2 at the floor against a body of 35 5/8, and 1/8 of air wanted on each side.
    assert_is(figures.mean, "-1/8 in");
    assert_is(fridge.limits.0.unwrap() - figures.mean, "3/8 in");
    assert_eq!(fridge.verdict, Verdict::Fails);
    assert_says(&fridge.said, &["1/8\" too large", "no case"]);
}

#[test]
fn thin_board_on_both_cheeks_wins_the_room_and_skirting_takes_it_back() {
    let thin = ("thickness = \"5/8 in\"", "thickness = \"1/4 in\"");
    let both = House::case_with("fridge-recess", &[thin]).answer("fridge.width");
    // 36 1/4 at the floor; 3/8 over the 35 7/8 that are needed.
    assert_is(both.figures.unwrap().mean, "5/8 in");
    assert_is(
        both.figures.unwrap().mean - both.limits.0.unwrap(),
        "3/8 in",
    );
    assert_eq!(both.verdict, Verdict::Holds);

    let skirting = "thickness = \"1/4 in\"\ntakes = \"4 h\"\n\n[[build_ups.cheek.layers]]\n\
                    id = \"skirting\"\nname = \"Skirting\"\nmaterial = \"timber\"\n\
                    trade = \"fitter\"\nthickness = \"1/2 in\"";
    let house = House::case_with("fridge-recess", &[(thin.0, skirting)]);
    let returned = house.answer("fridge.width");
    // 35 1/4 between the skirtings.
    assert_is(returned.figures.unwrap().mean, "-3/8 in");
    assert_eq!(returned.verdict, Verdict::Fails);
}

#[test]
fn thin_board_on_one_cheek_leaves_exactly_the_need_and_no_margin() {
    let house = House::case_with(
        "fridge-recess",
        &[
            ("left = \"kitchen.cheeks\"", "left = \"kitchen.thin-cheek\""),
            (
                "faces.cheeks",
                "faces.thin-cheek = { kind = \"wall\", build_up = \"thin\", area = \"20 sq ft\" }\nfaces.cheeks",
            ),
            (
                "[pieces.fridge]",
                "[build_ups.thin]\nname = \"Thin cheek\"\n\n[[build_ups.thin.layers]]\nid = \"board\"\n\
                 name = \"Thin board\"\nmaterial = \"board\"\ntrade = \"board\"\nthickness = \"1/4 in\"\n\
                 takes = \"4 h\"\n\n[pieces.fridge]",
            ),
        ],
    );
    let one = house.answer("fridge.width");

    assert_is(one.figures.unwrap().mean - one.limits.0.unwrap(), "0 in");
    assert_eq!(one.verdict, Verdict::Tight);
    assert_says(&one.said, &["only every second case"]);
}

#[test]
fn boxes_are_packed_level_from_the_high_point_of_the_floor() {
    let house = House::case("base-units");
    let packing = [
        "3/4 in", "1 in", "1 3/8 in", "1 5/8 in", "1 7/8 in", "2 1/8 in",
    ];
    for (at, packing) in packing.iter().enumerate() {
        let answer = house.answer(&format!("run.packing-{}", 2 * at));
        assert_is(answer.figures.unwrap().mean, packing);
    }
}

#[test]
fn a_level_appliance_is_governed_by_its_low_side() {
    let house = House::case("base-units");
    let mean = |key: &str| house.answer(key).figures.unwrap().mean;

    // Dishwasher: 34 1/2 less (34 3/4 less 1 1/8); cooker: 36 less (36 3/4 less 1 3/8).
    assert_is(mean("run.dishwasher-gap"), "7/8 in");
    assert_is(mean("run.cooker"), "5/8 in");
    assert_is(mean("run.kick"), "5 7/8 in");
    assert_is(mean("run.dishwasher-gap-no-boards"), "1 5/8 in");
    assert_eq!(house.answer("run.cooker").verdict, Verdict::Fails);
}

#[test]
fn boxes_trimmed_by_five_eighths_bring_the_cooker_level() {
    let house = House::case_with(
        "base-units",
        &[("is = \"34 1/2 in\"", "is = \"33 7/8 in\"")],
    );
    let mean = |key: &str| house.answer(key).figures.unwrap().mean;

    assert_is(mean("run.dishwasher-gap"), "1/4 in");
    assert_is(mean("run.cooker"), "0 in");
}

#[test]
fn a_sliver_of_tile_is_balanced_into_two_wide_cuts() {
    let course = Course {
        from: length("60 7/16 in"),
        to: length("61 5/16 in"),
        piece: length("12 in"),
        joint: length("1/16 in"),
        edge: Length::ZERO,
    };
    let whole = course.laid(Start::Whole, &[]).unwrap();
    // 5 tiles and 5 joints are 60 5/16.
    assert_eq!(whole.cuts.last_near, length("1/8 in"));
    assert_eq!(whole.cuts.last_far, length("1 in"));

    let balanced = course.best(length("6 in"), &[]).unwrap();
    assert_eq!(balanced.cuts.first, length("6 1/16 in"));
    assert_eq!(balanced.cuts.last_near, length("6 1/16 in"));
    assert_eq!(balanced.cuts.last_far, length("6 15/16 in"));
}

#[test]
fn a_wall_that_leans_seven_eighths_takes_no_hinge() {
    let hinge = House::case("tile-sliver").answer("right-wall.hinge");
    let lean = hinge.figures.unwrap().mean;

    assert_is(lean, "7/8 in");
    assert_eq!(hinge.verdict, Verdict::Fails);
    // The edge of a panel of 76 in tapers by 76/80 of it: 0.831 in.
    assert!((lean * 76.0 / 80.0 / 25.4 - 0.831).abs() < 0.0005);
}

#[test]
fn a_stock_jamb_is_short_in_every_case_on_paper() {
    let house = House::case("jamb-depth");
    let jamb = house.answer("jamb.flush");
    let figures = jamb.figures.unwrap();
    let worst = figures.worst.unwrap();

    // Wall 4 3/4 nominal, 4.594 to 4.969 at worst; jamb 4 9/16.
    assert_is(figures.nominal, "-3/16 in");
    assert_is(worst.high, "-1/32 in");
    assert_is(worst.low, "-13/32 in");
    // Root sum of squares of 1/16, 2 × 1/64 and 2 × 3/64 about the middle: 4.781 ± 0.094.
    let stock = 4.5625;
    assert!((stock - figures.mean / 25.4 - 4.78125).abs() < 1e-9);
    assert!((3.0 * figures.spread / 25.4 - 0.094).abs() < 0.0005);
    assert_eq!(jamb.verdict, Verdict::Fails);
    assert_says(&jamb.said, &["shy of the plaster in the study"]);
}

#[test]
fn the_extension_of_a_jamb_tapers_with_the_wall() {
    let house = House::case("jamb-depth");
    for (key, extension) in [
        ("head", "3/16 in"),
        ("middle", "1/2 in"),
        ("foot", "13/16 in"),
    ] {
        let answer = house.answer(&format!("opening.{key}"));
        assert_is(answer.figures.unwrap().mean, extension);
        assert_eq!(answer.verdict, Verdict::Fails);
    }
}

#[test]
fn a_jamb_that_is_short_holds_its_order() {
    let held = House::case("jamb-depth").holdups();
    let held = held.iter().find(|held| held.need == "jamb.flush").unwrap();
    assert_eq!(held.order.as_ref().map(|id| id.as_str()), Some("jamb"));
    assert_eq!(held.overruled, None);
}

#[test]
fn stone_that_fits_exactly_on_paper_does_not_go_in() {
    let top = House::case("stone-under-tile").answer("top.height");
    let figures = top.figures.unwrap();

    // Built up it is 1 1/2 against 1 3/8 at the tightest of five places; at worst 1 23/32.
    assert_is(figures.nominal, "-1/8 in");
    let low = figures.worst.unwrap().low;
    assert!((low / 25.4 + 11.0 / 32.0).abs() < 0.002, "{low}");
    let short = top.limits.0.unwrap() - low;
    assert!((short / 25.4 - 15.0 / 32.0).abs() < 0.002, "{short}");
    assert_eq!(top.verdict, Verdict::Fails);
}

#[test]
fn without_the_build_up_the_stone_must_be_picked_thin() {
    let without = ("thickness = \"1/4 in ±1/32 in\"\n", "");
    let top = House::case_with("stone-under-tile", &[without]).answer("top.height");
    let figures = top.figures.unwrap();

    // 1 1/4 in 1 3/8 leaves the joint; 1 5/16 and 1/8 of shims are 1/16 too much.
    assert_is(figures.nominal, "1/8 in");
    let low = figures.worst.unwrap().low;
    assert!((low / 25.4 + 1.0 / 16.0).abs() < 0.002, "{low}");
    assert_ne!(top.verdict, Verdict::Holds);
}

#[test]
fn a_grille_off_its_duct_is_seen_before_the_boards_are_nailed() {
    let house = House::case("flush-grille");
    let frame = house.answer("grille-frame.centred");
    let off = frame.figures.unwrap().mean;

    assert_is(off, "2 1/8 in");
    assert_eq!(frame.verdict, Verdict::Fails);
    // What is open of 4 in: 46.9 %. Air of 100 cfm through it at 65 % free area: 1,182 ft/min.
    let open = 1.0 - off / 25.4 / 4.0;
    assert!((open - 0.469).abs() < 0.0005);
    let speed = 100.0 / (4.0 * 10.0 / 144.0 * 0.65 * open);
    assert!((speed - 1182.0).abs() < 0.5, "{speed}");
    let held = house.holdups();
    let held = held
        .iter()
        .find(|held| held.need == "grille-frame.centred")
        .unwrap();
    assert_eq!(
        held.cover.as_ref().map(|it| it.as_str()),
        Some("dining-room.floor/boards")
    );
}

#[test]
fn a_face_of_five_and_a_half_does_not_cover_a_hole_of_five_and_five_eighths() {
    let house = House::case("flush-grille");
    assert_is(
        house
            .answer("second-hole.covers-wide")
            .figures
            .unwrap()
            .mean,
        "-1/8 in",
    );
    assert_eq!(
        house.answer("second-hole.covers-wide").verdict,
        Verdict::Fails
    );
    // 11 1/2 covers 10 1/4 by 5/8 at each end.
    assert_is(
        house
            .answer("second-hole.covers-long")
            .figures
            .unwrap()
            .mean,
        "1 1/4 in",
    );
    assert_eq!(
        house.answer("second-hole.covers-long").verdict,
        Verdict::Holds
    );
}
