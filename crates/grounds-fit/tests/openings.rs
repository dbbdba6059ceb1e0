//! Openings, from readings to what goes in.

use grounds_fit::opening::{
    Clearance, Handling, Judgement, Lean, Made, OpeningFault, Outline, Pane, Point, Reading,
    Readings, Survey, Way, What, largest_rectangle, order, room_around,
};
use grounds_measure::{Length, Step};
use proptest::prelude::*;

type Checked = Result<(), OpeningFault>;

const INCH: f64 = 25.4;

fn read(at: f64, read: f64) -> Reading {
    Reading { at, read }
}

fn plumb(over: f64) -> Option<Lean> {
    Some(Lean { over, off: 0.0 })
}

fn outline(corners: &[(f64, f64)]) -> Result<Outline, OpeningFault> {
    let corners = corners.iter().map(|&(x, y)| Point { x, y }).collect();
    Outline::new(corners)
}

/// Left side plumb, head and sill level, heights 2000, and these widths in inches.
fn plumb_at_left(widths: &[(f64, f64)], height: f64) -> Readings {
    let widths = widths
        .iter()
        .map(|&(at, wide)| read(at * INCH, wide * INCH))
        .collect();
    let heights = vec![read(1.0, height * INCH), read(800.0, height * INCH)];
    Readings {
        left: plumb(height * INCH),
        sill: plumb(600.0),
        head: plumb(600.0),
        spread: 0.2,
        bow: 0.2,
        ..Readings::new(widths, heights)
    }
}

#[test]
fn the_smallest_width_governs_a_recess_with_cheeks_that_are_not_parallel() -> Checked {
    // 35 1/2 at the floor, 35 5/8 at the waist, 35 3/4 at the head: 35 1/2 goes in [worked by hand].
    let survey = Survey::of(&plumb_at_left(
        &[(0.0, 35.5), (36.0, 35.625), (72.0, 35.75)],
        72.0,
    ))?;
    let found = largest_rectangle(survey.outline())
        .expect("a recess")
        .rectangle;
    assert!((found.width / INCH - 35.5).abs() < 0.01, "{found:?}");
    assert!((found.height / INCH - 72.0).abs() < 0.01);
    // A body of 35 5/8 with 1/8 of air each side is short by 3/8 in all, which is 3/16 each side.
    let body = Made {
        width: 35.625 * INCH,
        height: 60.0 * INCH,
        spread: 0.0,
    };
    let air = Clearance {
        left: INCH / 8.0,
        right: INCH / 8.0,
        ..Clearance::default()
    };
    let fit = body.fits(&survey, air, 7);
    assert_eq!(fit.chance, 0.0);
    // Standing on the floor it lacks 3/8; higher up it would lack less, so room is asked at all edges.
    assert!(
        fit.spare < -0.1 * INCH && fit.spare > -3.0 / 16.0 * INCH - 0.1,
        "{fit:?}"
    );
    let thinner = Made {
        width: 35.125 * INCH,
        ..body
    };
    assert!(thinner.fits(&survey, air, 7).chance > 0.9);
    Ok(())
}

#[test]
fn a_shower_opening_is_ordered_to_its_smallest_width() -> Checked {
    // 60 1/16 at the bottom, 60 1/8, 60 1/4 at the top [worked by hand].
    let survey = Survey::of(&plumb_at_left(
        &[(0.0, 60.0625), (38.0, 60.125), (76.0, 60.25)],
        76.0,
    ))?;
    let gaps = Clearance {
        left: INCH / 8.0,
        right: 3.0 / 16.0 * INCH,
        ..Clearance::default()
    };
    let ordered = order(&survey, gaps, Step::SIXTEENTH_INCH).expect("a panel");
    let largest = Length::from_64ths(60 * 64 + 4 - 20);
    assert!(ordered.width <= largest && largest - ordered.width <= Step::SIXTEENTH_INCH.length());
    let tapered = survey
        .tapered(gaps, Step::SIXTEENTH_INCH, Judgement::GLASS)
        .expect("a panel");
    let wider = tapered.edges[1] - tapered.edges[0];
    assert!(
        (wider - Length::from_64ths(12)).abs() <= Step::SIXTEENTH_INCH.length(),
        "{wider}"
    );
    assert_eq!(tapered.way, Way::Tapered);
    Ok(())
}

#[test]
fn a_wall_seven_eighths_out_of_plumb_is_mended_first() -> Checked {
    // 60 7/16 at the bottom, 61 5/16 at 80 in: over a panel of 76 in that is 0.831 in [worked by hand].
    let survey = Survey::of(&plumb_at_left(&[(0.0, 60.4375), (80.0, 61.3125)], 80.0))?;
    let lean = survey.figures().leans.right / INCH;
    assert!((lean - 0.875).abs() < 0.01, "{lean}");
    assert!((lean * 76.0 / 80.0 - 0.831).abs() < 0.01);
    let tapered = survey
        .tapered(Clearance::all(3.0), Step::MM, Judgement::GLASS)
        .expect("a panel");
    assert_eq!(tapered.way, Way::MendFirst);
    Ok(())
}

#[test]
fn a_reading_that_disagrees_is_named_with_how_far_it_is_off() -> Checked {
    let (wide, high) = (1200.0_f64, 2307.0_f64);
    let mut readings = Readings::new(
        vec![read(20.0, wide), read(2290.0, wide)],
        vec![
            read(20.0, high),
            read(600.0, high),
            read(1180.0, high + 11.0),
        ],
    );
    readings.rising = Some(wide.hypot(high));
    readings.falling = Some(wide.hypot(high));
    (readings.left, readings.right) = (plumb(high), plumb(high));
    (readings.sill, readings.head) = (plumb(wide), plumb(wide));
    let survey = Survey::of(&readings)?;
    let doubtful = survey.doubtful().expect("a reading in doubt");
    assert_eq!(doubtful.what, What::Height(2));
    let off = doubtful.against_others.expect("checked by others");
    assert!((off - 11.0).abs() < 1.5, "{off}");
    // Without the slip nobody is in doubt.
    readings.heights[2].read = high;
    assert!(Survey::of(&readings)?.doubtful().is_none());
    Ok(())
}

#[test]
fn diagonals_show_what_is_out_of_square() -> Checked {
    // Sheared by 12 over 2000: diagonals of a parallelogram.
    let (wide, high, shear) = (900.0_f64, 2000.0_f64, 12.0_f64);
    let mut readings = Readings::new(
        vec![read(0.0, wide), read(high, wide)],
        vec![read(0.0, high), read(wide, high)],
    );
    readings.rising = Some((wide + shear).hypot(high));
    readings.falling = Some((wide - shear).hypot(high));
    (readings.sill, readings.head) = (plumb(wide), plumb(wide));
    readings.spread = 0.1;
    let survey = Survey::of(&readings)?;
    let figures = survey.figures();
    let apart = (wide + shear).hypot(high) - (wide - shear).hypot(high);
    assert!((figures.out_of_square - apart).abs() < 0.05);
    assert!((figures.leans.left - shear).abs() < 0.5, "{figures:?}");
    let found = largest_rectangle(survey.outline())
        .expect("an opening")
        .rectangle;
    assert!((found.width - (wide - shear)).abs() < 0.5, "{found:?}");
    Ok(())
}

#[test]
fn a_side_that_bows_in_narrows_what_goes_in() -> Checked {
    let mut readings = plumb_at_left(&[(0.0, 36.0), (39.0, 35.75), (78.0, 36.0)], 78.0);
    readings.bow = 4.0;
    let survey = Survey::of(&readings)?;
    let found = largest_rectangle(survey.outline()).expect("an opening");
    assert!(found.proven);
    assert!(
        (found.rectangle.width / INCH - 35.75).abs() < 0.01,
        "{found:?}"
    );
    assert!((found.rectangle.height / INCH - 78.0).abs() < 0.01);
    let bows = survey.figures().bows;
    assert!(
        (bows.left + bows.right - INCH / 4.0).abs() < 0.2,
        "{bows:?}"
    );
    Ok(())
}

#[test]
fn more_readings_make_the_chance_surer() -> Checked {
    let few = Readings::new(vec![read(1000.0, 910.0)], vec![read(450.0, 2010.0)]);
    let leaf = Made {
        width: 900.0,
        height: 2000.0,
        spread: 0.5,
    };
    let vague = leaf.fits(&Survey::of(&few)?, Clearance::all(2.0), 1);
    let mut many = Readings::new(
        vec![read(20.0, 910.0), read(1000.0, 910.0), read(1990.0, 910.0)],
        vec![read(20.0, 2010.0), read(450.0, 2010.0), read(890.0, 2010.0)],
    );
    (many.left, many.right) = (plumb(2000.0), plumb(2000.0));
    (many.sill, many.head) = (plumb(900.0), plumb(900.0));
    let sure = leaf.fits(&Survey::of(&many)?, Clearance::all(2.0), 1);
    assert!((vague.spare - 3.0).abs() < 0.01 && (sure.spare - 3.0).abs() < 0.01);
    assert!(
        sure.chance > 0.95 && vague.chance < 0.8,
        "{vague:?} {sure:?}"
    );
    assert_eq!(sure, leaf.fits(&Survey::of(&many)?, Clearance::all(2.0), 1));
    Ok(())
}

#[test]
fn the_chance_of_a_plain_fit_is_the_normal_one() -> Checked {
    // Sides and head known to be straight and plumb: only one width read to 1 mm is open, and the
    // spare is 1.5 mm: the normal distribution gives 93.3 %.
    let mut readings = Readings::new(vec![read(0.0, 903.5); 4], vec![read(0.0, 2100.0); 4]);
    readings.spread = 2.0;
    readings.bow = 0.001;
    (readings.left, readings.right) = (
        Some(Lean {
            over: 1e7,
            off: 0.0,
        }),
        Some(Lean {
            over: 1e7,
            off: 0.0,
        }),
    );
    (readings.sill, readings.head) = (
        Some(Lean {
            over: 1e7,
            off: 0.0,
        }),
        Some(Lean {
            over: 1e7,
            off: 0.0,
        }),
    );
    let leaf = Made {
        width: 902.0,
        height: 2000.0,
        spread: 0.0,
    };
    let fit = leaf.fits(&Survey::of(&readings)?, Clearance::default(), 3);
    assert!((fit.chance - 0.933).abs() < 0.02, "{fit:?}");
    Ok(())
}

#[test]
fn nothing_is_said_from_readings_that_make_no_sense() {
    let wide = || vec![read(10.0, 900.0)];
    let fault = |readings: Readings| Survey::of(&readings).expect_err("no sense");
    assert_eq!(fault(Readings::new(vec![], wide())), OpeningFault::NoWidth);
    assert_eq!(fault(Readings::new(wide(), vec![])), OpeningFault::NoHeight);
    assert_eq!(
        fault(Readings::new(vec![read(10.0, -1.0)], wide())),
        OpeningFault::NotAbove
    );
    assert_eq!(
        fault(Readings::new(vec![read(9999.0, 900.0)], wide())),
        OpeningFault::NotAbove
    );
    assert_eq!(
        fault(Readings::new(vec![read(1.0, f64::NAN)], wide())),
        OpeningFault::NotAbove
    );
    assert_eq!(
        fault(Readings::new(vec![read(1.0, 900.0); 100], wide())),
        OpeningFault::TooMany
    );
    let bow_tie = [(0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0)].map(|(x, y)| Point { x, y });
    assert_eq!(
        Outline::new(bow_tie.to_vec()),
        Err(OpeningFault::BadOutline)
    );
}

#[test]
fn glass_weighs_what_tables_say() {
    // EN 572-1: 2500 kg/m³ [published]; a shower door of 34 × 80 in in 10 mm weighs 43.9 kg.
    let door = |glass| Pane {
        width: 34.0 * INCH,
        height: 80.0 * INCH,
        glass,
        between: 0.0,
    };
    assert!((door(10.0).weight() - 43.9).abs() < 0.05);
    assert!((door(9.525).weight() / 0.453_592_37 - 92.1).abs() < 0.1);
    let laminate = Pane {
        width: 1000.0,
        height: 1000.0,
        glass: 12.0,
        between: 1.52,
    };
    assert!((laminate.weight() - 31.6).abs() < 0.05);
    assert_eq!(door(4.0).handling(), Handling::One);
    assert_eq!(door(25.0).handling(), Handling::Lifter);
}

#[test]
fn an_l_shaped_outline_gives_its_larger_arm() -> Checked {
    let corners = [
        (0.0, 0.0),
        (1000.0, 0.0),
        (1000.0, 400.0),
        (500.0, 400.0),
        (500.0, 1500.0),
        (0.0, 1500.0),
    ];
    let found = largest_rectangle(&outline(&corners)?).expect("an arm");
    assert!(found.proven);
    assert!(
        (found.rectangle.area() - 750_000.0).abs() < 1.0,
        "{found:?}"
    );
    // The notch of a U is outside, however large.
    let corners = [
        (0.0, 0.0),
        (1000.0, 0.0),
        (1000.0, 900.0),
        (900.0, 900.0),
        (900.0, 100.0),
        (100.0, 100.0),
        (100.0, 900.0),
        (0.0, 900.0),
    ];
    let found = largest_rectangle(&outline(&corners)?).expect("a foot");
    assert!(
        (found.rectangle.area() - 100_000.0).abs() < 1.0,
        "{found:?}"
    );
    Ok(())
}

/// The largest area by trying lower and upper edges on a grid, refined around the best.
fn by_trying(outline: &Outline) -> f64 {
    let corners = outline.corners();
    let least = corners.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let most = corners
        .iter()
        .map(|p| p.y)
        .fold(f64::NEG_INFINITY, f64::max);
    let (mut lower, mut upper, mut best) = ((least, most), (least, most), 0.0);
    let mut at = (least, most);
    for _ in 0..14 {
        for i in 0..=40 {
            for j in 0..=40 {
                let low = lower.0 + (lower.1 - lower.0) * f64::from(i) / 40.0;
                let high = upper.0 + (upper.1 - upper.0) * f64::from(j) / 40.0;
                let area = (high - low) * width_between(corners, low, high);
                if high > low && area > best {
                    (best, at) = (area, (low, high));
                }
            }
        }
        let around = |x: f64, (a, b): (f64, f64)| {
            (
                (x - (b - a) / 6.0).max(least),
                (x + (b - a) / 6.0).min(most),
            )
        };
        (lower, upper) = (around(at.0, lower), around(at.1, upper));
    }
    best
}

/// The width between both heights of a convex outline.
fn width_between(corners: &[Point], low: f64, high: f64) -> f64 {
    let chord = |y: f64| {
        let (mut left, mut right) = (f64::INFINITY, f64::NEG_INFINITY);
        for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            if (a.y - y) * (b.y - y) <= 0.0 && a.y != b.y {
                let x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
                (left, right) = (left.min(x), right.max(x));
            }
        }
        (left, right)
    };
    let (a, b) = (chord(low), chord(high));
    (a.1.min(b.1) - a.0.max(b.0)).max(0.0)
}

fn quadrilateral(off: f64) -> impl Strategy<Value = Outline> {
    prop::collection::vec(-off..off, 8).prop_filter_map("crossing edges", |o| {
        outline(&[
            (o[0], o[1]),
            (900.0 + o[2], o[3]),
            (900.0 + o[4], 2000.0 + o[5]),
            (o[6], 2000.0 + o[7]),
        ])
        .ok()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]
    #[test]
    fn the_largest_rectangle_is_what_trying_finds(outline in prop_oneof![quadrilateral(15.0), quadrilateral(200.0)]) {
        let found = largest_rectangle(&outline).expect("an opening");
        prop_assert!(found.proven);
        let tried = by_trying(&outline);
        let area = found.rectangle.area();
        prop_assert!(area >= tried * (1.0 - 1e-9), "{area} {tried}");
        prop_assert!(area <= tried * (1.0 + 1e-4), "{area} {tried}");
    }

    #[test]
    fn the_largest_rectangle_lies_in_its_outline(outline in quadrilateral(150.0), bows in prop::collection::vec(-60.0..60.0_f64, 4)) {
        // A corner between every two, in or out.
        let corners = outline.corners();
        let mut bent = Vec::new();
        for ((a, b), bow) in corners.iter().zip(corners.iter().cycle().skip(1)).zip(&bows) {
            bent.push(*a);
            let aside = if (a.x - b.x).abs() < (a.y - b.y).abs() { (*bow, 0.0) } else { (0.0, *bow) };
            bent.push(Point { x: (a.x + b.x) / 2.0 + aside.0, y: (a.y + b.y) / 2.0 + aside.1 });
        }
        let bent = Outline::new(bent).expect("sound");
        let found = largest_rectangle(&bent).expect("an opening");
        prop_assert!(found.proven);
        let r = found.rectangle;
        for i in 0..=20 {
            for (x, y) in [(f64::from(i) / 20.0, 0.0), (f64::from(i) / 20.0, 1.0), (0.0, f64::from(i) / 20.0), (1.0, f64::from(i) / 20.0)] {
                let inside = Point {
                    x: r.left + 1e-5 + x * (r.width - 2e-5),
                    y: r.bottom + 1e-5 + y * (r.height - 2e-5),
                };
                prop_assert!(bent.holds(inside), "{inside:?}");
            }
        }
        let (room, _) = room_around(&bent, r.width, r.height).expect("a place");
        prop_assert!(room > -1e-5, "{room}");
    }

    #[test]
    fn rounding_down_never_eats_into_a_clearance(
        wide in 600.0..1500.0_f64, high in 1500.0..2500.0_f64, lean in -15.0..15.0_f64,
        gaps in prop::collection::vec(0.0..20.0_f64, 4), sixteenths in any::<bool>(),
    ) {
        let mut readings = Readings::new(
            vec![read(0.0, wide), read(high, wide + lean)], vec![read(0.0, high), read(wide * 0.9, high)],
        );
        readings.left = plumb(high);
        let survey = Survey::of(&readings).expect("sound");
        let clearance = Clearance { left: gaps[0], right: gaps[1], sill: gaps[2], head: gaps[3] };
        let step = if sixteenths { Step::SIXTEENTH_INCH } else { Step::MM };
        let ordered = order(&survey, clearance, step).expect("a piece");
        let made = Made { width: ordered.width.mm(), height: ordered.height.mm(), spread: 0.0 };
        prop_assert!(made.width + gaps[0] + gaps[1] <= ordered.opening.width + 2e-5);
        prop_assert!(made.height + gaps[2] + gaps[3] <= ordered.opening.height + 2e-5);
        let (room, _) = room_around(
            survey.outline(), made.width + gaps[0] + gaps[1], made.height + gaps[2] + gaps[3],
        ).expect("a place");
        prop_assert!(room > -1e-4, "{room}");
        // One step more would not go in.
        prop_assert!(made.width + step.length().mm() + gaps[0] + gaps[1] > ordered.opening.width);
    }
}
