//! Fit as drawn: true to scale, nothing on anything else, nothing off the sheet, told without colour.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot read its drawing has failed"
)]

mod advances;
mod house_of_tests;
mod marks;
#[path = "../examples/gallery/fit.rs"]
mod mill;

use grounds_draw::{
    FaceKind, FinishPlane, Hatch, Landing, Medium, PieceForm, Scale, Section, SectionLayer,
    SectionPiece, State, Units, Verdict, bands, cut_layout, fit_section, opening_sheet,
    plane_layout, section_dxf, spacing_layout, stair_layout,
};
use house_of_tests::{has_class, read, with_class};
use marks::{around, lettering, marks, view};
use proptest::prelude::*;

const MEDIA: [Medium; 5] = [
    Medium::Phone,
    Medium::Desk,
    Medium::Paper(Scale::Full),
    Medium::Paper(Scale::Half),
    Medium::Paper(Scale::Fifth),
];

fn size(medium: Medium) -> f64 {
    if matches!(medium, Medium::Paper(_)) {
        12.0
    } else {
        15.0
    }
}

/// Fails if lettering meets lettering, or anything is off the sheet.
fn assert_tidy(drawing: &str, medium: Medium) {
    read(drawing, |document| {
        let (width, height) = view(document);
        let words = lettering(document, size(medium));
        for (index, one) in words.iter().enumerate() {
            assert!(
                one.is_within(width, height),
                "{medium:?}: {one:?} is off {width} × {height}"
            );
            for other in &words[index + 1..] {
                assert!(
                    !one.meets(other),
                    "{medium:?}: {one:?} meets {other:?}\n{drawing}"
                );
            }
        }
        for mark in marks(document) {
            assert!(
                mark.is_within(width, height),
                "{medium:?}: {mark:?} is off {width} × {height}\n{drawing}"
            );
        }
    });
}

#[test]
fn every_drawing_of_the_mill_is_tidy_on_every_medium() {
    for medium in MEDIA {
        for (name, drawing) in mill::drawings(medium) {
            if name != "needs" {
                assert_tidy(&drawing, medium);
            }
        }
    }
}

#[test]
fn every_drawing_says_what_it_shows_and_brings_no_colour() {
    for medium in MEDIA {
        for (name, drawing) in mill::drawings(medium) {
            assert!(
                drawing.contains("<title>") && drawing.contains("<desc>"),
                "{name}"
            );
            let bare = drawing.replace("url(#h-", "").replace("&#39;", "");
            assert!(!bare.contains('#'), "{name}");
            assert!(
                !drawing.contains("style=") && !drawing.contains("rgb"),
                "{name}"
            );
        }
    }
}

#[test]
fn the_mill_as_drawn_for_the_phone() {
    for (name, drawing) in mill::drawings(Medium::Phone) {
        let file = name.replace(' ', "_");
        insta::assert_snapshot!(format!("fit_{file}"), drawing.replace("><", ">\n<"));
    }
}

#[test]
fn a_face_on_paper_as_drawn() {
    let drawing = fit_section(&mill::glass_frame(), Medium::Paper(Scale::Full));
    insta::assert_snapshot!("fit_glass_frame_on_paper", drawing.replace("><", ">\n<"));
}

/// Read back by `checks/dxf.py` with a library of others.
#[test]
fn faces_as_files_for_the_shop() {
    let files = [
        ("glass_frame.dxf", mill::glass_frame()),
        ("ceiling_grille.dxf", mill::ceiling_grille()),
        ("valve_wall.dxf", mill::valve_wall()),
    ];
    for (name, section) in files {
        insta::assert_binary_snapshot!(name, section_dxf(&section).into_bytes());
    }
}

/// 96 px of CSS are 25.4 mm (published: CSS Values and Units).
const PX_PER_MM: f64 = 96.0 / 25.4;

#[test]
fn fifteen_millimetres_of_board_are_fifteen_on_paper_and_three_at_one_to_five() {
    for (scale, divisor) in [(Scale::Full, 1.0), (Scale::Half, 2.0), (Scale::Fifth, 5.0)] {
        let drawing = fit_section(&mill::glass_frame(), Medium::Paper(scale));
        read(&drawing, |document| {
            let svg = document
                .root()
                .descendants()
                .find(|node| node.has_tag_name("svg"))
                .unwrap();
            let millimetres: f64 = svg
                .attribute("width")
                .unwrap()
                .trim_end_matches("mm")
                .parse()
                .unwrap();
            let px_per_mm = view(document).0 / millimetres;
            assert!(
                (px_per_mm - PX_PER_MM).abs() < 1e-4,
                "a pixel is a pixel on paper"
            );
            let board = around(&with_class(document, "fit-layer")[1]);
            let on_paper = (board.right - board.left) / px_per_mm;
            assert!(
                (on_paper - 15.0 / divisor).abs() < 0.06,
                "{on_paper} at 1:{divisor}"
            );
            assert!(drawing.contains(&format!("Scale 1:{divisor} on paper")));
        });
    }
}

#[test]
fn a_face_too_deep_for_its_scale_takes_the_next_and_says_so() {
    let mut deep = mill::glass_frame();
    for layer in &mut deep.layers {
        (layer.from, layer.to) = (layer.from * 12.0, layer.to * 12.0);
    }
    deep.pieces.clear();
    let drawing = fit_section(&deep, Medium::Paper(Scale::Full));
    assert!(!drawing.contains("Scale 1:1 ") && drawing.contains("Scale 1:"));
    assert_tidy(&drawing, Medium::Paper(Scale::Full));
}

#[test]
fn what_is_built_is_solid_and_what_is_to_come_is_light() {
    read(
        &fit_section(&mill::glass_frame(), Medium::Phone),
        |document| {
            let layers = with_class(document, "fit-layer");
            let is = |class: &str| {
                layers
                    .iter()
                    .map(|layer| has_class(layer, class))
                    .collect::<Vec<_>>()
            };
            assert_eq!(is("built"), [true, true, true, false]);
            assert_eq!(is("coming"), [false, false, false, true]);
            assert_eq!(with_class(document, "fit-outline").len(), 1);
            assert_eq!(
                with_class(document, "fit-plane").len(),
                2,
                "the plane and its sample"
            );
        },
    );
}

#[test]
fn a_layer_thinner_than_the_pen_is_filled() {
    read(
        &fit_section(&mill::valve_wall(), Medium::Phone),
        |document| {
            // Membrane and sealer, and the wall of the box.
            assert!(with_class(document, "fit-thin").len() >= 3);
        },
    );
}

#[test]
fn a_small_miss_is_drawn_as_small_as_it_is() {
    // 1.5 mm of 15 mm of board: a tenth of the board's width, arrows from outside, nothing enlarged.
    read(
        &fit_section(&mill::glass_frame(), Medium::Desk),
        |document| {
            let board = around(&with_class(document, "fit-layer")[1]);
            let witness = with_class(document, "fit-witness");
            let apart = (around(&witness[0]).left - around(&witness[1]).left).abs();
            assert!(
                (apart / (board.right - board.left) - 0.1).abs() < 0.005,
                "{apart}"
            );
            assert_eq!(with_class(document, "fit-arrow").len(), 2);
        },
    );
}

#[test]
fn a_need_is_told_by_shape() {
    for need in mill::needs() {
        read(&bands(&need), |document| {
            let cross = with_class(document, "bands-cross").len();
            assert_eq!(
                cross,
                usize::from(need.verdict == Verdict::Fails),
                "{}",
                need.said
            );
            let outside = need.least.is_some_and(|least| need.likely.0 < least)
                || need.most.is_some_and(|most| need.likely.1 > most);
            assert_eq!(
                !with_class(document, "bands-out").is_empty(),
                outside,
                "{}",
                need.said
            );
            let (width, height) = view(document);
            for mark in marks(document) {
                assert!(mark.is_within(width, height), "{mark:?}");
            }
        });
    }
}

#[test]
fn a_reading_to_take_again_and_one_still_to_take_are_marked() {
    read(&opening_sheet(&mill::screen(), Medium::Phone), |document| {
        assert_eq!(with_class(document, "fit-mark-again").len(), 1);
        assert_eq!(with_class(document, "to-take").len(), 1);
        assert_eq!(with_class(document, "fit-tape").len(), 6);
        assert_eq!(with_class(document, "fit-diagonal-tape").len(), 2);
    });
}

#[test]
fn the_low_rise_is_as_low_as_it_is() {
    // 6-3/4 against 7-1/2 is 0.9; the rods' ticks stand at finished heights.
    read(
        &stair_layout(&mill::lower_flight(), Medium::Phone),
        |document| {
            let pole: Vec<f64> = with_class(document, "fit-pole")
                .iter()
                .map(|tick| around(tick).top)
                .collect();
            let ends: Vec<f64> = with_class(document, "fit-tick")
                .iter()
                .map(|tick| around(tick).top)
                .collect();
            assert_eq!(pole.len(), 13);
            let (first, next) = (ends[0] - pole[0], pole[0] - pole[1]);
            assert!((first / next - 0.9).abs() < 0.01, "{first} / {next}");
            assert_eq!(with_class(document, "fit-mark").len(), 1);
        },
    );
}

#[test]
fn nothing_to_draw_is_no_drawing() {
    let mut empty = mill::glass_frame();
    empty.layers.clear();
    assert_eq!(fit_section(&empty, Medium::Phone), "");
    let mut stair = mill::lower_flight();
    stair.rises[3].height = f64::NAN;
    assert_eq!(stair_layout(&stair, Medium::Phone), "");
    let mut opening = mill::screen();
    opening.corners[2].0 = f64::INFINITY;
    assert_eq!(opening_sheet(&opening, Medium::Phone), "");
}

fn words(longest: usize) -> impl Strategy<Value = String> {
    prop::collection::vec("[a-z]{1,9}", 1..=longest).prop_map(|words| words.join(" "))
}

fn a_state() -> impl Strategy<Value = State> {
    prop::sample::select(vec![State::Done, State::Next, State::ToCome])
}

prop_compose! {
    fn a_layer()(
        name in words(4),
        hatch in prop::sample::select(Hatch::ALL.to_vec()),
        thick in prop_oneof![0.05..2.0_f64, 2.0..30.0_f64, 30.0..120.0_f64],
        figure in "[1-9]{1,2}(-[1-7]/[1-8])?",
        tolerance in prop_oneof![Just(String::new()), Just("±1/16".to_owned())],
        state in a_state(),
    ) -> SectionLayer {
        SectionLayer { name, hatch, from: 0.0, to: thick, figure, tolerance, state }
    }
}

prop_compose! {
    fn a_piece()(
        name in words(4),
        form in prop::sample::select(vec![
            PieceForm::Solid, PieceForm::Box, PieceForm::Track,
            PieceForm::Grille, PieceForm::Glass, PieceForm::Frame,
        ]),
        seat in 0.0..1.0_f64,
        depth in 0.1..1.2_f64,
        width in 1.0..400.0_f64,
        gap in 0.0..6.0_f64,
        covered in any::<bool>(),
        state in a_state(),
    ) -> SectionPiece {
        SectionPiece {
            name, form, hatch: Hatch::Metal, from: seat, to: seat + depth, width, gap, covered, state,
        }
    }
}

prop_compose! {
    fn a_section()(
        kind in prop::sample::select(vec![FaceKind::Wall, FaceKind::Floor, FaceKind::Ceiling]),
        mut layers in prop::collection::vec(a_layer(), 1..11),
        mut pieces in prop::collection::vec(a_piece(), 0..3),
        control in prop::option::of(-3000.0..3000.0_f64),
        band in 0.0..5.0_f64,
        off in -6.0..6.0_f64,
        note in words(9),
        verdict in prop::sample::select(vec![Verdict::Holds, Verdict::Tight, Verdict::Fails]),
    ) -> Section {
        let mut at = 0.0;
        for layer in &mut layers {
            (layer.from, layer.to) = (at, at + layer.to);
            at = layer.to;
        }
        for piece in &mut pieces {
            (piece.from, piece.to) = (piece.from * at, piece.to * at);
        }
        let landings = (0..=pieces.len())
            .map(|index| Landing {
                piece: index.checked_sub(1),
                lands: at + off,
                wanted: at,
                words: note.clone(),
                note: note.clone(),
                verdict,
            })
            .collect();
        Section {
            title: note.clone(),
            said: note.clone(),
            kind,
            units: Units::Inches,
            layers,
            pieces,
            finish: Some(FinishPlane {
                at, minus: band, plus: band, words: note.clone(), note,
            }),
            control: control.map(|at| grounds_draw::ControlLine { at, words: "control line".into() }),
            landings,
            strings: vec![],
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::with_cases(150)
    })]

    #[test]
    fn any_face_is_drawn_tidy(section in a_section(), medium in prop::sample::select(MEDIA.to_vec())) {
        assert_tidy(&fit_section(&section, medium), medium);
    }

    #[test]
    fn any_face_is_drawn_to_one_scale(section in a_section(), medium in prop::sample::select(MEDIA.to_vec())) {
        let drawing = fit_section(&section, medium);
        read(&drawing, |document| {
            // The structure may be cut short; every layer after it has the scale of the thickest of them.
            let drawn: Vec<f64> = document
                .descendants()
                .filter(|node| has_class(node, "fit-layer") || is_thin_layer(node))
                .map(|node| around(&node))
                .map(|spot| match section.kind {
                    FaceKind::Wall => spot.right - spot.left,
                    _ => spot.foot - spot.top,
                })
                .take(section.layers.len())
                .collect();
            let pairs: Vec<(f64, f64)> = section.layers.iter().map(|layer| layer.to - layer.from).zip(drawn).skip(1).collect();
            let Some((mm, px)) = pairs.iter().copied().max_by(|a, b| a.0.total_cmp(&b.0)) else { return };
            let scale = px / mm;
            for (mm, px) in pairs {
                assert!((px - mm * scale).abs() < 0.25 + 0.25 * mm * scale / px.max(1.0), "{px} px for {mm} mm at {scale}");
            }
        });
    }

    #[test]
    fn any_face_is_a_file_of_pairs(section in a_section()) {
        let file = section_dxf(&section);
        let lines: Vec<&str> = file.lines().collect();
        prop_assert_eq!(lines.len() % 2, 0);
        prop_assert!(lines.chunks(2).all(|pair| pair[0].trim().parse::<u16>().is_ok()));
        prop_assert_eq!(&lines[lines.len() - 2..], &["0", "EOF"]);
    }
}

/// Thin layers are drawn before any piece, with the state in their class.
fn is_thin_layer(node: &roxmltree::Node<'_, '_>) -> bool {
    has_class(node, "fit-thin")
}

#[test]
fn names_that_are_markup_stay_names_in_every_drawing_of_fit() {
    let hostile = "</text><script>alert(1)</script>\"'\u{202e}";
    let mut section = mill::valve_wall();
    section.title = hostile.into();
    section.said = hostile.into();
    section
        .layers
        .iter_mut()
        .for_each(|layer| (layer.name, layer.figure) = (hostile.into(), hostile.into()));
    section
        .pieces
        .iter_mut()
        .for_each(|piece| piece.name = hostile.into());
    let mut opening = mill::screen();
    opening.order_words = hostile.into();
    opening.widths[0].words = hostile.into();
    let mut stair = mill::lower_flight();
    stair.rises[0].words = hostile.into();
    let mut tiles = mill::tiles();
    tiles.parts[0].words = hostile.into();
    let mut stock = mill::skirting();
    stock.stocks[0].words = hostile.into();
    let mut plane = mill::grilles();
    plane.pieces[0].name = hostile.into();
    for medium in MEDIA {
        for drawing in [
            fit_section(&section, medium),
            opening_sheet(&opening, medium),
            stair_layout(&stair, medium),
            spacing_layout(&tiles, medium),
            cut_layout(&stock, medium),
            plane_layout(&plane, medium),
        ] {
            assert!(!drawing.contains("<script") && !drawing.contains('\u{202e}'));
            read(&drawing, |_| ());
        }
    }
    assert!(section_dxf(&section).is_ascii());
}
