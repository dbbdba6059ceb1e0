//! Risers, balusters and tiles, to the sixteenth.

use grounds_fit::spacing::{
    Course, Flight, Limits, Pads, SpacingFault, Start, Target, finished, pads, riser_count,
    rough_for, space,
};
use grounds_measure::{Length, Step};
use proptest::prelude::*;

const SIXTEENTH: Step = Step::SIXTEENTH_INCH;

/// Inches as decimals or fractions; nothing, which no test expects, where it is no number.
fn inches(text: &str) -> Length {
    format!("{text} in").parse().unwrap_or_default()
}

fn short_at_the_foot() -> Flight {
    let mut risers = vec![inches("7 1/2"); 14];
    risers[0] = inches("6 3/4");
    Flight { risers }
}

#[test]
fn boards_at_the_foot_shorten_the_first_riser_and_pads_share_it_out() {
    // IRC R311.7.5.1 [published]: at most 7 3/4 in, at most 3/8 in between highest and lowest.
    let rough = Flight {
        risers: vec![inches("7 1/2"); 14],
    };
    let flight = finished(&rough, inches("3/4"), &[], Length::ZERO);
    assert_eq!(flight, short_at_the_foot());
    assert_eq!(flight.spread(), inches("3/4"));
    assert!(flight.highest() <= Limits::IRC.highest && !flight.keeps(Limits::IRC));

    let fewest = Pads::fewest(&flight, Limits::IRC, SIXTEENTH).expect("pads that keep the limit");
    assert_eq!(fewest.pads, [inches("3/4"), inches("3/8")]);
    assert_eq!(
        fewest.flight.risers[..4],
        ["7 1/2", "7 1/8", "7 1/8", "7 1/2"].map(inches)
    );
    for (count, spread) in [(2, "3/8"), (3, "1/4"), (6, "1/8")] {
        assert_eq!(
            pads(&flight, count, SIXTEENTH).flight.spread(),
            inches(spread)
        );
    }
    // The rail stood 34 1/4 in above the nosings: over the first four pads it is below 34 in.
    let six = pads(&flight, 6, SIXTEENTH);
    let rail: Vec<Length> = six.pads.iter().map(|pad| inches("34 1/4") - *pad).collect();
    assert_eq!(rail[0], inches("33 1/2"));
    assert_eq!(
        rail.iter().filter(|height| **height < inches("34")).count(),
        4
    );
}

#[test]
fn equal_rough_risers_fail_once_three_finishes_are_on() {
    // 110.5 in, 15 risers; finishes 3/8 at the foot, 1 on treads, 3/4 at the head [worked by hand].
    let equal = rough_for(
        inches("110.5"),
        15,
        Length::ZERO,
        Length::ZERO,
        Length::ZERO,
        Step::TENTH_MM,
    )
    .expect("a flight");
    let flight = finished(&equal, inches("3/8"), &[inches("1")], inches("3/4"));
    let near = |is: Length, should: f64| assert!((is.mm() / 25.4 - should).abs() < 0.003, "{is}");
    near(flight.risers[0], 7.992);
    near(flight.risers[14], 7.117);
    near(flight.spread(), 0.875);
    assert!(!flight.keeps(Limits::IRC));

    let rough = rough_for(
        inches("110.5"),
        15,
        inches("3/8"),
        inches("1"),
        inches("3/4"),
        Step::TENTH_MM,
    )
    .expect("a flight");
    near(rough.risers[0], 6.767);
    near(rough.risers[7], 7.392);
    near(rough.risers[14], 7.642);
    assert_eq!(rough.rise(), inches("110.5"));
    let flight = finished(&rough, inches("3/8"), &[inches("1")], inches("3/4"));
    assert!(flight.spread() <= Step::TENTH_MM.length() && flight.keeps(Limits::IRC));
}

#[test]
fn risers_are_as_few_as_the_highest_allows() {
    assert_eq!(riser_count(inches("110.5"), Limits::IRC.highest), Some(15));
    assert_eq!(
        riser_count(Length::from_mm(2860), Length::from_mm(220)),
        Some(13)
    );
    assert_eq!(riser_count(Length::ZERO, Limits::IRC.highest), None);
    assert_eq!(riser_count(Length::LONGEST, Length::from_64ths(1)), None);
}

fn leaning_wall() -> Course {
    Course {
        from: inches("60 7/16"),
        to: inches("61 5/16"),
        piece: inches("12"),
        joint: inches("1/16"),
        edge: Length::ZERO,
    }
}

#[test]
fn a_sliver_that_widens_becomes_two_wide_cuts() -> Result<(), SpacingFault> {
    let wall = leaning_wall();
    let whole = wall.laid(Start::Whole, &[])?;
    assert_eq!(
        (whole.cuts.last_near, whole.cuts.last_far),
        (inches("1/8"), inches("1"))
    );
    assert_eq!(whole.whole, 5);
    let best = wall.best(inches("6"), &[])?;
    assert_eq!(best.start, Start::Balanced);
    assert_eq!(best.whole, 4);
    assert_eq!(
        (best.cuts.first, best.cuts.last_near, best.cuts.last_far),
        (inches("6 1/16"), inches("6 1/16"), inches("6 15/16"))
    );
    Ok(())
}

#[test]
fn a_register_can_be_centred_on_a_joint() -> Result<(), SpacingFault> {
    let row = Course {
        from: Length::from_mm(3000),
        to: Length::from_mm(3000),
        piece: Length::from_mm(600),
        joint: Length::from_mm(3),
        edge: Length::from_mm(5),
    };
    let register = Target {
        at: Length::from_mm(1000),
        within: Length::from_mm(1),
    };
    let whole = row.laid(Start::Whole, &[register])?;
    assert_eq!(whole.hits, [false]);
    let best = row.best(Length::from_mm(150), &[register])?;
    assert_eq!(best.hits, [true]);
    assert!(best.cuts.shortest() >= Length::from_mm(150));
    Ok(())
}

#[test]
fn rows_that_make_no_sense_are_refused() {
    assert_eq!(
        space(Length::ZERO, inches("1"), inches("4"), SIXTEENTH),
        Err(SpacingFault::NotAbove)
    );
    assert_eq!(
        space(Length::LONGEST, inches("1"), inches("4"), SIXTEENTH),
        Err(SpacingFault::TooMany)
    );
    let thin = Course {
        piece: Length::from_units(1),
        ..leaning_wall()
    };
    let thin = Course {
        joint: Length::ZERO,
        ..thin
    };
    assert_eq!(thin.laid(Start::Whole, &[]), Err(SpacingFault::TooMany));
    let none = Course {
        piece: Length::ZERO,
        ..leaning_wall()
    };
    assert_eq!(none.best(Length::ZERO, &[]), Err(SpacingFault::NotAbove));
}

proptest! {
    #[test]
    fn balusters_and_gaps_sum_to_the_row_and_no_ball_passes(
        clear in 2..400_i64, piece in 8..400_i64,
    ) {
        let (clear, piece) = (Length::from_inches(clear), Length::from_64ths(piece));
        let ball = Length::from_inches(4);
        match space(clear, piece, ball, SIXTEENTH) {
            Ok(row) => {
                let pieces = i64::try_from(row.pieces()).expect("few");
                prop_assert_eq!(row.gaps.iter().sum::<Length>() + piece * pieces, clear);
                prop_assert!(row.gaps.iter().all(|gap| *gap < ball && !gap.is_negative()));
                // One fewer would let the ball pass.
                if pieces > 0 {
                    let free = clear - piece * (pieces - 1);
                    prop_assert!(free + SIXTEENTH.length() * pieces >= ball * pieces);
                }
            }
            Err(fault) => prop_assert_eq!(fault, SpacingFault::Full),
        }
    }

    #[test]
    fn a_course_fills_its_row_exactly_up_to_a_joint(
        row in 1..200_000_i64, piece in 50..20_000_i64, joint in 0..150_i64, edge in 0..200_i64,
        at in 0..100_000_i64, kind in 0..4_u8,
    ) {
        let tenths = Length::from_tenths_mm;
        let (from, at) = (tenths(row), tenths(at));
        let course = Course { from, to: from, piece: tenths(piece), joint: tenths(joint), edge: tenths(edge) };
        let start = match kind {
            0 => Start::Whole,
            1 => Start::Balanced,
            2 => Start::JointAt(at),
            _ => Start::PieceAt(at),
        };
        let free = from - course.edge * 2;
        let Ok(laid) = course.laid(start, &[]) else {
            prop_assert!(!free.is_positive());
            return Ok(());
        };
        let cuts = laid.cuts;
        prop_assert!(cuts.first.is_positive() && cuts.first <= course.piece);
        prop_assert!(cuts.last_near <= course.piece && !cuts.last_near.is_negative());
        if free > course.piece * 2 {
            let ends = [cuts.first, cuts.last_near].iter().filter(|cut| **cut == course.piece).count();
            let between = i64::try_from(laid.whole - ends).expect("few");
            let used = cuts.first + cuts.last_near + (course.piece + course.joint) * between + course.joint;
            prop_assert!(used <= free && free - used <= course.joint, "{used} in {free}");
            if start == Start::Balanced && cuts.first < course.piece {
                prop_assert!((cuts.first - cuts.last_near).abs() <= Length::from_units(1));
                prop_assert!(cuts.first * 2 + course.joint * 2 >= course.piece);
            }
        }
    }

    #[test]
    fn finished_risers_are_equal_to_a_step_and_sum_to_the_rise(
        rise in 500..4000_i64, count in 1..25_usize, foot in 0..40_i64, tread in 0..40_i64, head in 0..40_i64,
    ) {
        let [rise, foot, tread, head] = [rise, foot, tread, head].map(Length::from_mm);
        let rough = rough_for(rise, count, foot, tread, head, Step::MM).expect("a flight");
        prop_assert_eq!(rough.rise(), rise);
        let flight = finished(&rough, foot, &[tread], head);
        prop_assert_eq!(flight.rise(), rise + head - foot);
        prop_assert!(flight.spread() <= Step::MM.length());
    }
}
