//! Invented faces, openings and flights of the mill.

use grounds_draw::{
    Bands, ControlLine, CutLayout, Dimension, EdgeClearances, FaceKind, FinishPlane, FloorFinish,
    Hatch, Landing, Medium, OpeningSheet, PieceForm, PlaneLayout, PlanePiece, Rectangle, Rise,
    Section, SectionLayer, SectionPiece, SpacingKind, SpacingLayout, SpacingPart, StairLayout,
    State, StockCut, StockLength, TapeReading, Units, Verdict, bands, cut_layout, fit_section,
    opening_sheet, plane_layout, spacing_layout, stair_layout,
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
        ("needs", needs().iter().map(bands).collect()),
        ("wheel room screen", opening_sheet(&screen(), medium)),
        ("lower flight", stair_layout(&lower_flight(), medium)),
        ("loft balusters", spacing_layout(&balusters(), medium)),
        ("tile along the back wall", spacing_layout(&tiles(), medium)),
        ("oak skirting", cut_layout(&skirting(), medium)),
        ("plane of the grilles", plane_layout(&grilles(), medium)),
    ]
}

pub(crate) fn needs() -> Vec<Bands> {
    let need = |said: &str, least, most, lands, likely, worst, verdict| Bands {
        said: said.into(),
        least,
        most,
        lands,
        likely,
        worst,
        verdict,
    };
    vec![
        need(
            "Reveal at the stair glass",
            Some(6.0),
            Some(10.0),
            8.1,
            (7.2, 9.0),
            (6.6, 9.6),
            Verdict::Holds,
        ),
        need(
            "Grille flush with the skim",
            Some(-1.0),
            Some(0.0),
            -0.75,
            (-1.5, 0.0),
            (-2.2, 0.7),
            Verdict::Tight,
        ),
        need(
            "Glass frame flush with the plaster",
            Some(0.0),
            Some(1.0),
            -1.5,
            (-3.1, 0.1),
            (-4.0, 1.1),
            Verdict::Fails,
        ),
        need(
            "Leaf clear of the pocket",
            Some(1.6),
            None,
            2.4,
            (1.9, 3.2),
            (1.2, 4.0),
            Verdict::Tight,
        ),
    ]
}

pub(crate) fn screen() -> OpeningSheet {
    let reading = |at: f64, words: &str, doubtful| TapeReading {
        at,
        words: words.into(),
        doubtful,
    };
    OpeningSheet {
        title: "Wheel room, glazed screen".into(),
        said: "Order 1,184 by 2,307; the opening is 6 mm wider at the head and leans 4 mm".into(),
        units: Units::Millimetres,
        corners: [(0.0, 0.0), (1192.0, 3.0), (1196.0, 2318.0), (-2.0, 2316.0)],
        widths: vec![
            reading(2300.0, "1,198", false),
            reading(1150.0, "1,195", false),
            reading(20.0, "1,192", false),
        ],
        heights: vec![
            reading(20.0, "2,316", false),
            reading(600.0, "2,327", true),
            reading(1170.0, "", false),
        ],
        rising_diagonal: "2,605".into(),
        falling_diagonal: "2,601".into(),
        plumb_and_level: vec![
            "left side leans out 2 over its height".into(),
            "sill rises 3 to the right".into(),
        ],
        largest: Some(Rectangle {
            left: 0.0,
            foot: 3.0,
            width: 1192.0,
            height: 2313.0,
        }),
        order: Some(Rectangle {
            left: 4.0,
            foot: 6.0,
            width: 1184.0,
            height: 2307.0,
        }),
        order_words: "1,184 × 2,307".into(),
        clear: EdgeClearances {
            left: "4".into(),
            right: "4".into(),
            head: "3".into(),
            foot: "3".into(),
        },
    }
}

pub(crate) fn lower_flight() -> StairLayout {
    let inch = 25.4;
    let finish = |words: &str, thickness: f64, hatch| FloorFinish {
        words: words.into(),
        thickness: thickness * inch,
        hatch,
    };
    let rises = (0..14)
        .map(|step| Rise {
            height: if step == 0 { 6.75 * inch } else { 7.5 * inch },
            words: if step == 0 {
                "6-3/4".into()
            } else {
                "7-1/2".into()
            },
            marked: step == 0,
        })
        .collect();
    StairLayout {
        title: "Lower flight, mill floor to stone floor".into(),
        said: "Fourteen rises; the lowest is 6-3/4, the others 7-1/2".into(),
        rises,
        going: 10.5 * inch,
        going_words: "10-1/2".into(),
        below: finish("oak boards 3/4 on the slab", 0.75, Hatch::Timber),
        above: finish("as it is", 0.75, Hatch::Timber),
        treads: finish("oak 1", 1.0, Hatch::Timber),
        total_words: "104-1/4 floor to floor".into(),
        difference_words: "largest less smallest 3/4; at most 3/8".into(),
        verdict: Verdict::Fails,
    }
}

pub(crate) fn balusters() -> SpacingLayout {
    let (wide, gap) = (18.0, 93.5);
    let mut parts = Vec::new();
    let mut at = 0.0;
    for index in 0..27 {
        parts.push(SpacingPart {
            kind: SpacingKind::Gap,
            from: at,
            to: at + gap,
            words: "93.5".into(),
        });
        at += gap;
        if index < 26 {
            parts.push(SpacingPart {
                kind: SpacingKind::Whole,
                from: at,
                to: at + wide,
                words: "18".into(),
            });
            at += wide;
        }
    }
    SpacingLayout {
        title: "Bin loft, balusters".into(),
        said: "26 balusters, 27 gaps of 93.5".into(),
        units: Units::Millimetres,
        run: at,
        run_words: "2,992.5".into(),
        hatch: Hatch::Metal,
        parts,
        notes: vec!["26 balusters of 18, 27 gaps of 93.5, each less than 100".into()],
    }
}

pub(crate) fn tiles() -> SpacingLayout {
    let inch = 25.4;
    let given = [
        (SpacingKind::Cut, 6.0625, "6-1/16"),
        (SpacingKind::Whole, 12.0, "12"),
        (SpacingKind::Whole, 12.0, "12"),
        (SpacingKind::Whole, 12.0, "12"),
        (SpacingKind::Whole, 12.0, "12"),
        (SpacingKind::Cut, 6.0625, "6-1/16"),
    ];
    let mut parts = Vec::new();
    let mut at = 0.0;
    for (index, (kind, wide, words)) in given.into_iter().enumerate() {
        if index > 0 {
            parts.push(SpacingPart {
                kind: SpacingKind::Gap,
                from: at,
                to: at + 0.0625 * inch,
                words: String::new(),
            });
            at += 0.0625 * inch;
        }
        parts.push(SpacingPart {
            kind,
            from: at,
            to: at + wide * inch,
            words: words.into(),
        });
        at += wide * inch;
    }
    SpacingLayout {
        title: "Sluice bath, back wall, wall tile".into(),
        said: "Four whole tiles and a cut of 6-1/16 at both ends".into(),
        units: Units::Inches,
        run: at,
        run_words: "60-7/16".into(),
        hatch: Hatch::Tile,
        parts,
        notes: vec![
            "4 whole tiles, joints 1/16, a cut of 6-1/16 at both ends".into(),
            "the right cut grows to 6-15/16 at the head".into(),
        ],
    }
}

pub(crate) fn skirting() -> CutLayout {
    let cut = |length: f64, words: &str| StockCut {
        length,
        words: words.into(),
    };
    CutLayout {
        title: "Oak skirting, stone floor".into(),
        said: "Four lengths of 4,800".into(),
        hatch: Hatch::Timber,
        kerf: 3.0,
        stocks: vec![
            StockLength {
                words: "2 lengths of 4,800".into(),
                length: 4800.0,
                cuts: vec![cut(2318.0, "2,318"), cut(2318.0, "2,318")],
                offcut_words: "left 158".into(),
            },
            StockLength {
                words: "1 length of 4,800".into(),
                length: 4800.0,
                cuts: vec![
                    cut(1840.0, "1,840 hall"),
                    cut(1620.0, "1,620 pantry"),
                    cut(640.0, "640"),
                    cut(420.0, "420"),
                    cut(90.0, "90"),
                ],
                offcut_words: "left 175".into(),
            },
            StockLength {
                words: "1 length of 3,600".into(),
                length: 3600.0,
                cuts: vec![cut(2950.0, "2,950 mill hall")],
                offcut_words: "left 647".into(),
            },
        ],
    }
}

pub(crate) fn grilles() -> PlaneLayout {
    let piece =
        |name: &str, off: f64, off_words: &str, shim: f64, shim_words: &str, verdict| PlanePiece {
            name: name.into(),
            off,
            off_words: off_words.into(),
            shim,
            shim_words: shim_words.into(),
            verdict,
        };
    PlaneLayout {
        title: "Tower wall, the four grilles above each other".into(),
        said: "The grille on the stone floor stands 2.6 behind the plane".into(),
        plane_words: "plane of the grilles".into(),
        pieces: vec![
            piece("bin loft", 0.4, "0.4 proud", 0.0, "", Verdict::Holds),
            piece(
                "stone floor, landing",
                -1.1,
                "1.1 behind",
                1.0,
                "shim 1",
                Verdict::Tight,
            ),
            piece(
                "stone floor, hall",
                -2.6,
                "2.6 behind",
                2.5,
                "shim 2.5",
                Verdict::Fails,
            ),
            piece("mill floor", 0.2, "0.2 proud", 0.0, "", Verdict::Holds),
        ],
        limit: Some(1.5),
        limit_words: "the light band is what the eye forgives, 1.5 to each side".into(),
    }
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
