//! Invented faces, openings and flights of the mill.

use grounds_draw::{
    ControlLine, Dimension, FaceKind, FinishPlane, Hatch, Landing, Medium, PieceForm, Section,
    SectionLayer, SectionPiece, State, Units, Verdict, fit_section,
};

/// Every drawing with its name.
pub(crate) fn drawings(medium: Medium) -> Vec<(&'static str, String)> {
    vec![
        ("glass frame", fit_section(&glass_frame(), medium)),
        (
            "grille in a ceiling",
            fit_section(&ceiling_grille(), medium),
        ),
        ("sluice bath floor", fit_section(&bath_floor(), medium)),
        (
            "valve box in a tiled wall",
            fit_section(&valve_wall(), medium),
        ),
        ("pocket of the pantry door", fit_section(&pocket(), medium)),
    ]
}

/// Layers one on the other from `start`: name, hatch, thickness, figure, tolerance, state.
type Given = (&'static str, Hatch, f64, &'static str, &'static str, State);

fn layers(start: f64, given: &[Given]) -> Vec<SectionLayer> {
    let mut from = start;
    given
        .iter()
        .map(|(name, hatch, thickness, figure, tolerance, state)| {
            let layer = SectionLayer {
                name: (*name).into(),
                hatch: *hatch,
                from,
                to: from + thickness,
                figure: (*figure).into(),
                tolerance: (*tolerance).into(),
                state: *state,
            };
            from = layer.to;
            layer
        })
        .collect()
}

pub(crate) fn glass_frame() -> Section {
    Section {
        title: "Stair hall, wall to the tower, at the glass frame".into(),
        said: "The frame lands 1.5 mm behind the plaster; wanted flush, up to 1 mm proud".into(),
        kind: FaceKind::Wall,
        units: Units::Millimetres,
        layers: layers(
            0.0,
            &[
                ("stud", Hatch::Timber, 38.0, "38", "±1.5", State::Done),
                ("board", Hatch::Board, 15.0, "15", "±0.4", State::Done),
                (
                    "base coat, read 11.5 (drawn 10)",
                    Hatch::Plaster,
                    11.5,
                    "11.5",
                    "±0.5",
                    State::Done,
                ),
                (
                    "finish coat",
                    Hatch::Plaster,
                    3.0,
                    "3",
                    "±0.5",
                    State::ToCome,
                ),
            ],
        ),
        pieces: vec![SectionPiece {
            name: "glass frame".into(),
            form: PieceForm::Frame,
            hatch: Hatch::Metal,
            from: 53.0,
            to: 66.0,
            width: 25.0,
            gap: 0.0,
            covered: false,
            state: State::Done,
        }],
        finish: Some(FinishPlane {
            at: 67.5,
            minus: 1.6,
            plus: 1.6,
            words: "finish plane 67.5 ±1.6".into(),
            note: "from the stud's back; the band holds nineteen in twenty".into(),
        }),
        control: Some(ControlLine {
            at: -5.3,
            words: "control line, tower".into(),
        }),
        landings: vec![Landing {
            piece: Some(0),
            lands: 66.0,
            wanted: 67.5,
            words: "frame 1.5 behind the plaster".into(),
            note: "wanted: flush, up to 1 proud".into(),
            verdict: Verdict::Fails,
        }],
        strings: vec![vec![Dimension {
            from: -5.3,
            to: 67.5,
            figure: "72.8".into(),
            tolerance: "±1.6".into(),
        }]],
    }
}

pub(crate) fn ceiling_grille() -> Section {
    Section {
        title: "Bin loft, ceiling, at the long grille".into(),
        said: "The grille lands flush with the skim, half a millimetre to spare".into(),
        kind: FaceKind::Ceiling,
        units: Units::Millimetres,
        layers: layers(
            0.0,
            &[
                ("joist", Hatch::Timber, 220.0, "220", "±3", State::Done),
                (
                    "hangers and battens",
                    Hatch::Metal,
                    28.0,
                    "28",
                    "±1",
                    State::Done,
                ),
                (
                    "board, first sheet",
                    Hatch::Board,
                    12.5,
                    "12.5",
                    "±0.4",
                    State::Done,
                ),
                (
                    "board, second sheet",
                    Hatch::Board,
                    12.5,
                    "12.5",
                    "±0.4",
                    State::Next,
                ),
                ("skim", Hatch::Plaster, 2.5, "2.5", "±0.5", State::ToCome),
                (
                    "paint, three coats",
                    Hatch::Paint,
                    0.25,
                    "0.25",
                    "",
                    State::ToCome,
                ),
            ],
        ),
        pieces: vec![SectionPiece {
            name: "long grille".into(),
            form: PieceForm::Grille,
            hatch: Hatch::Metal,
            from: 248.0,
            to: 275.0,
            width: 110.0,
            gap: 3.0,
            covered: false,
            state: State::ToCome,
        }],
        finish: Some(FinishPlane {
            at: 275.75,
            minus: 1.1,
            plus: 1.1,
            words: "finish plane 275.8 ±1.1".into(),
            note: "below the joist's top".into(),
        }),
        control: None,
        landings: vec![Landing {
            piece: Some(0),
            lands: 275.0,
            wanted: 275.75,
            words: "grille 0.8 shy".into(),
            note: "wanted: flush or 1 shy".into(),
            verdict: Verdict::Tight,
        }],
        strings: vec![],
    }
}

pub(crate) fn bath_floor() -> Section {
    let inch = 25.4;
    Section {
        title: "Sluice bath, floor, at the linear drain".into(),
        said: "Ten layers from the deck to the tile; the drain's frame lands 1/16 below the tile"
            .into(),
        kind: FaceKind::Floor,
        units: Units::Inches,
        layers: layers(
            0.0,
            &[
                (
                    "joist and deck",
                    Hatch::Timber,
                    11.0 * inch,
                    "11",
                    "±1/8",
                    State::Done,
                ),
                (
                    "sound mat",
                    Hatch::Fabric,
                    0.25 * inch,
                    "1/4",
                    "",
                    State::Done,
                ),
                (
                    "tubes in screed",
                    Hatch::Screed,
                    1.75 * inch,
                    "1-3/4",
                    "±1/8",
                    State::Done,
                ),
                (
                    "slope mortar",
                    Hatch::Concrete,
                    0.75 * inch,
                    "3/4",
                    "±1/8",
                    State::InHand { percent: 40 },
                ),
                ("primer", Hatch::Paint, 0.2, "", "", State::ToCome),
                (
                    "membrane, first coat",
                    Hatch::Membrane,
                    0.8,
                    "1/32",
                    "",
                    State::ToCome,
                ),
                (
                    "membrane, second coat",
                    Hatch::Membrane,
                    0.8,
                    "1/32",
                    "",
                    State::ToCome,
                ),
                (
                    "thin-set bed",
                    Hatch::Plaster,
                    0.1875 * inch,
                    "3/16",
                    "±1/16",
                    State::ToCome,
                ),
                (
                    "tile",
                    Hatch::Tile,
                    0.375 * inch,
                    "3/8",
                    "±1/32",
                    State::ToCome,
                ),
            ],
        ),
        pieces: vec![SectionPiece {
            name: "linear drain, track".into(),
            form: PieceForm::Track,
            hatch: Hatch::Metal,
            from: 11.5 * inch,
            to: 14.35 * inch,
            width: 2.75 * inch,
            gap: 0.125 * inch,
            covered: false,
            state: State::Done,
        }],
        finish: Some(FinishPlane {
            at: 14.375 * inch,
            minus: 4.0,
            plus: 4.0,
            words: "tile face 14-3/8 ±5/32".into(),
            note: "above the joist's foot".into(),
        }),
        control: Some(ControlLine {
            at: 14.375 * inch + 1000.0,
            words: "metre line, 39-3/8 above the finished floor".into(),
        }),
        landings: vec![Landing {
            piece: Some(0),
            lands: 14.35 * inch,
            wanted: 14.375 * inch,
            words: "drain 1/32 below the tile".into(),
            note: "wanted: 1/32 to 1/8 below".into(),
            verdict: Verdict::Holds,
        }],
        strings: vec![],
    }
}

pub(crate) fn valve_wall() -> Section {
    let inch = 25.4;
    Section {
        title: "Sluice bath, valve wall".into(),
        said: "The valve box is set 1/4 too deep for the tile".into(),
        kind: FaceKind::Wall,
        units: Units::Inches,
        layers: layers(
            0.0,
            &[
                (
                    "stud 5-1/2",
                    Hatch::Timber,
                    5.5 * inch,
                    "5-1/2",
                    "±1/16",
                    State::Done,
                ),
                (
                    "backer board",
                    Hatch::Board,
                    0.5 * inch,
                    "1/2",
                    "±1/32",
                    State::Done,
                ),
                ("membrane", Hatch::Membrane, 1.2, "3/64", "", State::Done),
                (
                    "thin-set",
                    Hatch::Plaster,
                    0.25 * inch,
                    "1/4",
                    "±1/16",
                    State::Next,
                ),
                (
                    "wall tile",
                    Hatch::Tile,
                    0.3125 * inch,
                    "5/16",
                    "±1/32",
                    State::ToCome,
                ),
                ("sealer", Hatch::Paint, 0.05, "", "", State::ToCome),
            ],
        ),
        pieces: vec![
            SectionPiece {
                name: "blocking".into(),
                form: PieceForm::Solid,
                hatch: Hatch::Timber,
                from: 4.0 * inch,
                to: 5.5 * inch,
                width: 1.5 * inch,
                gap: 0.0,
                covered: true,
                state: State::Done,
            },
            SectionPiece {
                name: "valve box".into(),
                form: PieceForm::Box,
                hatch: Hatch::Metal,
                from: 3.25 * inch,
                to: 6.35 * inch,
                width: 5.0 * inch,
                gap: 0.125 * inch,
                covered: false,
                state: State::Done,
            },
        ],
        finish: Some(FinishPlane {
            at: 6.61 * inch,
            minus: 2.2,
            plus: 2.2,
            words: "tile face 6-5/8 ±3/32".into(),
            note: "from the stud's back".into(),
        }),
        control: Some(ControlLine {
            at: -1219.2,
            words: "control line, 4 ft off the wall, through the wheel room".into(),
        }),
        landings: vec![Landing {
            piece: Some(1),
            lands: 6.35 * inch,
            wanted: 6.61 * inch,
            words: "box 1/4 behind the tile".into(),
            note: "wanted: flush to 1/8 behind; a longer ring brings it out".into(),
            verdict: Verdict::Fails,
        }],
        strings: vec![vec![Dimension {
            from: -1219.2,
            to: 6.61 * inch,
            figure: "4 ft 6-5/8".into(),
            tolerance: "±1/8".into(),
        }]],
    }
}

pub(crate) fn pocket() -> Section {
    let inch = 25.4;
    Section {
        title: "Pantry, glass leaf in its pocket".into(),
        said: "A half-inch leaf in five eighths clear: a sixteenth on each side".into(),
        kind: FaceKind::Wall,
        units: Units::Inches,
        layers: layers(
            0.0,
            &[
                (
                    "plaster, kitchen side",
                    Hatch::Plaster,
                    0.125 * inch,
                    "1/8",
                    "",
                    State::ToCome,
                ),
                (
                    "board, kitchen side",
                    Hatch::Board,
                    0.5 * inch,
                    "1/2",
                    "±1/64",
                    State::Done,
                ),
                (
                    "stud",
                    Hatch::Metal,
                    0.75 * inch,
                    "3/4",
                    "±1/32",
                    State::Done,
                ),
                (
                    "clear",
                    Hatch::Void,
                    0.625 * inch,
                    "5/8",
                    "±1/32",
                    State::Done,
                ),
                (
                    "stud",
                    Hatch::Metal,
                    0.75 * inch,
                    "3/4",
                    "±1/32",
                    State::Done,
                ),
                (
                    "board",
                    Hatch::Board,
                    0.5 * inch,
                    "1/2",
                    "±1/64",
                    State::Done,
                ),
                (
                    "plaster",
                    Hatch::Plaster,
                    0.125 * inch,
                    "1/8",
                    "",
                    State::ToCome,
                ),
            ],
        ),
        pieces: vec![SectionPiece {
            name: "glass leaf 1/2".into(),
            form: PieceForm::Glass,
            hatch: Hatch::Glass,
            from: 1.4375 * inch,
            to: 1.9375 * inch,
            width: 2.0 * inch,
            gap: 0.0,
            covered: true,
            state: State::ToCome,
        }],
        finish: None,
        control: None,
        landings: vec![Landing {
            piece: Some(0),
            lands: 1.9375 * inch,
            wanted: 2.0 * inch,
            words: "1/16 clear on each side".into(),
            note: "wanted: at least 1/16".into(),
            verdict: Verdict::Tight,
        }],
        strings: vec![],
    }
}
