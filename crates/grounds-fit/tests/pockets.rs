//! Pieces that go between two faces.

use grounds_fit::pocket::{Depth, Faces, Piece, PocketFault, narrowest, straight_clear};
use proptest::prelude::*;

const INCH: f64 = 25.4;

fn bare(thickness: f64) -> Piece {
    Piece {
        thickness,
        thicker: 0.0,
        seals: 0.0,
        play: 0.0,
    }
}

#[test]
fn a_half_inch_leaf_in_a_five_eighths_pocket_has_a_sixteenth_at_each_side()
-> Result<(), PocketFault> {
    // Common practice.
    let passage = bare(INCH / 2.0).between(INCH * 5.0 / 8.0, 0.0)?;
    assert!((passage.each_side - INCH / 16.0).abs() < 1e-12);
    assert_eq!(passage.chance, 1.0);
    Ok(())
}

#[test]
fn a_refrigerator_is_stopped_by_the_narrowest_place() -> Result<(), PocketFault> {
    // 35 1/2, 35 5/8 and 35 3/4 in clear; 35 5/8 in wide with 1/8 in of air each side [worked by hand].
    let inches = [35.5, 35.625, 35.75].map(|width| width * INCH);
    let body = Piece {
        play: INCH / 8.0,
        ..bare(35.625 * INCH)
    };
    let passage = body.between(narrowest(&inches)?, 0.5)?;
    assert!((passage.spare / INCH + 3.0 / 8.0).abs() < 1e-9);
    assert!(passage.chance < 1e-6);
    // Quarter-inch board on both cheeks wins 3/4 in.
    let after = body.between(narrowest(&inches)? + 0.75 * INCH, 0.5)?;
    assert!((after.spare / INCH - 3.0 / 8.0).abs() < 1e-9);
    // On one cheek it is just enough, which is an even chance.
    let one = body.between(narrowest(&inches)? + 0.375 * INCH, 0.5)?;
    assert!((one.chance - 0.5).abs() < 1e-6);
    Ok(())
}

#[test]
fn new_stone_does_not_slide_under_old_tile() -> Result<(), PocketFault> {
    // Gaps of 1 1/2, 1 7/16, 1 1/2, 1 9/16, 1 3/8 in; stone 1 1/4 ± 1/16 on a build-up of
    // 1/4 ± 1/32, shims to 1/8, a joint of 1/8 in [worked by hand].
    let gap = narrowest(&[1.5, 1.4375, 1.5, 1.5625, 1.375])?;
    let stacked = Piece {
        thicker: 1.0 / 16.0 + 1.0 / 32.0 + 0.125,
        ..bare(1.5)
    };
    assert_eq!(stacked.between(gap, 0.0)?.spare, -0.125);
    assert_eq!(stacked.between(gap, 0.0)?.spare_at_worst, -11.0 / 32.0);
    let joint = Piece {
        seals: 0.125,
        ..stacked
    };
    assert_eq!(joint.between(gap, 0.0)?.spare_at_worst, -15.0 / 32.0);
    let thin = Piece {
        thicker: 1.0 / 16.0 + 0.125,
        ..bare(1.25)
    };
    assert_eq!(thin.between(gap, 0.0)?.spare_at_worst, -1.0 / 16.0);
    Ok(())
}

#[test]
fn a_leaf_needs_depth_behind_it() {
    let depth = Depth {
        pocket: 40.0 * INCH,
        stop: INCH,
        leaf: 40.0 * INCH,
        stands_out: 2.0 * INCH,
    };
    assert!((depth.spare() - INCH).abs() < 1e-9);
}

#[test]
fn nothing_is_said_from_nothing() {
    assert_eq!(narrowest(&[]), Err(PocketFault::NoReading));
    assert_eq!(straight_clear(&[]), Err(PocketFault::NoReading));
    assert_eq!(narrowest(&[f64::NAN]), Err(PocketFault::NotANumber));
    assert_eq!(bare(-1.0).between(1.0, 0.0), Err(PocketFault::BelowZero));
}

proptest! {
    #[test]
    fn a_straight_slot_is_never_wider_than_the_narrowest_place_and_beats_every_tried_direction(
        readings in prop::collection::vec((0.0..900.0_f64, -5.0..5.0_f64, 14.0..20.0_f64), 1..6),
        aside in -0.02..0.02_f64,
    ) {
        let faces: Vec<Faces> = readings.iter()
            .map(|&(depth, near, wide)| Faces { depth, near, far: near + wide }).collect();
        let clear = straight_clear(&faces).expect("sound readings");
        let widths: Vec<f64> = readings.iter().map(|reading| reading.2).collect();
        prop_assert!(clear <= narrowest(&widths).expect("sound readings") + 1e-9);
        let far = faces.iter().map(|f| f.far - aside * f.depth).fold(f64::INFINITY, f64::min);
        let near = faces.iter().map(|f| f.near - aside * f.depth).fold(f64::NEG_INFINITY, f64::max);
        prop_assert!(clear >= far - near - 1e-9);
    }
}
