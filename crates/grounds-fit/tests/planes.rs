//! Pieces that must line up across rooms and levels.

use grounds_fit::plane::{Can, Held, Mark, PlaneFault, Seat, best_plane, plane_in_space, shim};
use proptest::prelude::*;

fn mark(along: f64, up: f64, off: f64) -> Mark {
    Mark { along, up, off }
}

#[test]
fn a_tower_of_boxes_is_fitted_plumb_or_leaning() -> Result<(), PlaneFault> {
    // Offsets that lean 1 mm in 3 m, no turn: worked by hand.
    let marks = [
        mark(0.0, 0.0, 0.0),
        mark(600.0, 3000.0, 1.0),
        mark(0.0, 6000.0, 2.0),
        mark(600.0, 6000.0, 2.0),
    ];
    let free = best_plane(&marks, Held::Free)?;
    assert!(free.spread < 1e-9 && (free.plane.lean - 1.0 / 3000.0).abs() < 1e-12);
    let parallel = best_plane(&marks, Held::Parallel)?;
    assert!((parallel.plane.at - 1.25).abs() < 1e-12);
    assert_eq!(parallel.seen(1.0), [0]);
    let through = best_plane(&marks, Held::LevelLine { up: 0.0, off: 0.0 })?;
    assert!(through.spread < 1e-9);
    let turned = best_plane(
        &marks[..2],
        Held::PlumbLine {
            along: 0.0,
            off: 0.0,
        },
    )?;
    assert!((turned.plane.off(600.0, 9000.0) - 1.0).abs() < 1e-12);
    Ok(())
}

#[test]
fn marks_in_a_line_do_not_settle_a_free_plane() {
    let line = [
        mark(0.0, 0.0, 0.0),
        mark(0.0, 1000.0, 1.0),
        mark(0.0, 2000.0, 2.0),
    ];
    assert_eq!(best_plane(&line, Held::Free), Err(PlaneFault::Loose));
    assert_eq!(best_plane(&line, Held::Plumb), Err(PlaneFault::Loose));
    assert!(best_plane(&line, Held::Parallel).is_ok());
    assert_eq!(best_plane(&[], Held::Parallel), Err(PlaneFault::Count));
    assert_eq!(
        best_plane(&[mark(f64::NAN, 0.0, 0.0)], Held::Parallel),
        Err(PlaneFault::NotANumber)
    );
    let points = [[0.0, 0.0, 0.0], [1.0, 1.0, 1.0], [2.0, 2.0, 2.0]];
    assert_eq!(plane_in_space(&points), Err(PlaneFault::Loose));
}

#[test]
fn boxes_that_are_covered_hold_the_others() -> Result<(), PlaneFault> {
    let seat = |piece, up, off, can| Seat {
        piece,
        mark: mark(0.0, up, off),
        can,
    };
    let seats = [
        seat(0, 0.0, 3.0, Can::Stay(0.5)),
        seat(1, 3000.0, 1.0, Can::Shim(6.0)),
        seat(2, 6000.0, 0.0, Can::Shim(6.0)),
    ];
    let shimmed = shim(&seats, Held::Parallel)?;
    assert!((shimmed.plane.at - 2.5).abs() < 1e-3);
    assert!((shimmed.left[0] - 0.5).abs() < 1e-3);
    assert!((shimmed.total - 4.0).abs() < 1e-2);
    // Shims of 1 mm cannot bring the last one out that far.
    let thin = seats.map(|seat| match seat.can {
        Can::Shim(_) => Seat {
            can: Can::Shim(1.0),
            ..seat
        },
        Can::Stay(_) => seat,
    });
    let fault = shim(&thin, Held::Parallel).expect_err("too thin");
    assert!(
        matches!(fault, PlaneFault::NoneFits { by } if (by - 0.75).abs() < 1e-3),
        "{fault}"
    );
    assert_eq!(
        fault.to_string(),
        "no common plane: fixed pieces or shims would have to give way by 0.75 mm"
    );
    Ok(())
}

fn marks() -> impl Strategy<Value = Vec<Mark>> {
    let one = (0.0..8000.0_f64, 0.0..9000.0_f64, -12.0..12.0_f64);
    prop::collection::vec(one, 4..20)
        .prop_map(|all| all.into_iter().map(|(a, u, o)| mark(a, u, o)).collect())
}

proptest! {
    #[test]
    fn residuals_of_a_free_plane_are_balanced(marks in marks()) {
        let fitted = best_plane(&marks, Held::Free).expect("spread out");
        let sum: f64 = fitted.residuals.iter().sum();
        let turning: f64 = fitted.residuals.iter().zip(&marks).map(|(r, m)| r * m.along).sum();
        prop_assert!(sum.abs() < 1e-6 && turning.abs() < 1e-2);
    }

    #[test]
    fn no_other_plane_fits_better(marks in marks(), at in -1.0..1.0_f64, lean in -1e-3..1e-3_f64) {
        for held in [Held::Free, Held::Plumb, Held::Parallel] {
            let fitted = best_plane(&marks, held).expect("spread out");
            let mut other = fitted.plane;
            other.at += at;
            if held == Held::Free { other.lean += lean; }
            let squares: f64 = marks.iter().map(|m| other.residual(m).powi(2)).sum();
            let best: f64 = fitted.residuals.iter().map(|r| r * r).sum();
            prop_assert!(squares >= best - 1e-9);
        }
    }

    #[test]
    fn shims_are_never_below_zero_and_bring_all_faces_into_one_plane(marks in marks()) {
        let seats: Vec<Seat> = marks.iter().enumerate()
            .map(|(piece, mark)| Seat { piece, mark: *mark, can: Can::Shim(100.0) }).collect();
        let mut totals = Vec::new();
        for held in [Held::Free, Held::Plumb, Held::Parallel] {
            let shimmed = shim(&seats, held).expect("shims thick enough");
            for (seat, shim) in seats.iter().zip(&shimmed.shims) {
                prop_assert!(*shim >= 0.0);
                let face = Mark { off: seat.mark.off + shim, ..seat.mark };
                prop_assert!(shimmed.plane.residual(&face).abs() < 1e-6);
            }
            totals.push(shimmed.total);
        }
        // A plane that is freer never needs more.
        prop_assert!(totals[0] <= totals[1] + 1e-2 && totals[1] <= totals[2] + 1e-2, "{totals:?}");
        let most = marks.iter().map(|mark| mark.off).fold(f64::MIN, f64::max);
        let parallel: f64 = marks.iter().map(|mark| most - mark.off).sum();
        prop_assert!((totals[2] - parallel).abs() < 1e-2);
    }

    #[test]
    fn a_plane_in_space_is_found_again_after_turning(
        a in -1.0..1.0_f64, b in -1.0..1.0_f64, c in -1000.0..1000.0_f64,
        places in prop::collection::vec((-2000.0..2000.0_f64, -2000.0..2000.0_f64), 6..20),
    ) {
        let points: Vec<[f64; 3]> = places.iter().map(|(x, y)| [*x, *y, a * x + b * y + c]).collect();
        let plane = plane_in_space(&points).expect("spread out");
        prop_assert!(plane.spread < 1e-3);
        let long = (1.0 + a * a + b * b).sqrt();
        prop_assert!((plane.normal[0] * plane.normal[2].signum() + a / long).abs() < 1e-6);
        prop_assert!(points.iter().all(|point| plane.residual(*point).abs() < 1e-6));
    }
}
