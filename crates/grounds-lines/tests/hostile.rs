//! Names that try everything, readings of anything: nothing breaks, and no figure moves for a name.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod house;

use std::sync::LazyLock;

use grounds_fit::{adjust::adjust, net::LinkKind};
use grounds_lines::{
    advice::advice,
    answers::{Answers, HOLDS, Verdict, in_short, set_out},
    holdups::holdups,
    lines::{Lines, Source},
    take::{Take, takes},
};
use house::House;
use proptest::prelude::*;

/// The house of the example, read once.
static MILL: LazyLock<House> = LazyLock::new(|| House::example("alder-sluice"));

/// Every reading that the mill asks for.
static TAKES: LazyLock<Vec<Take>> = LazyLock::new(|| {
    let site = MILL.site();
    let lines = Lines::of(&MILL.job, &site);
    let answers = Answers::of(&lines).unwrap();
    let all = answers.answers.iter();
    all.flat_map(|answer| takes(&lines, answer)).collect()
});

fn mill() -> House {
    House {
        job: MILL.job.clone(),
        notes: MILL.notes.clone(),
    }
}

/// The mill with every name that a sentence can hold exchanged.
fn called(name: &str) -> House {
    let mut house = mill();
    let job = &mut house.job;
    let name = || name.to_owned();
    job.pieces.values_mut().for_each(|it| it.name = name());
    job.openings.values_mut().for_each(|it| it.name = name());
    job.places.values_mut().for_each(|it| it.name = name());
    job.levels.values_mut().for_each(|it| it.name = name());
    job.controls.values_mut().for_each(|it| it.name = name());
    job.trades.values_mut().for_each(|it| it.name = name());
    for place in job.places.values_mut() {
        for face in place.faces.values_mut() {
            face.name = Some(name());
        }
    }
    for build_up in job.build_ups.values_mut() {
        build_up.layers.iter_mut().for_each(|it| it.name = name());
    }
    house
}

#[test]
fn no_figure_moves_for_a_name() {
    let mill_site = MILL.site();
    let mill_lines = Lines::of(&MILL.job, &mill_site);
    let honest = Answers::of(&mill_lines).unwrap();
    let names = [
        "<script>alert(1)</script>",
        "\u{0}\u{1b}[2J\r\n  0\nENDSEC",
        "",
        "   ",
        "\u{202e}desrever\u{2066}",
        "the thickness of the width of ",
        "setting , , ,",
        &"long ".repeat(2_000),
    ];
    for name in names {
        let house = called(name);
        let site = house.site();
        let lines = Lines::of(&house.job, &site);
        let answers = Answers::of(&lines).unwrap();
        assert_eq!(answers.answers.len(), honest.answers.len());
        for answer in &answers.answers {
            let was = honest.get(&answer.key).unwrap();
            assert_eq!(answer.verdict, was.verdict, "{}", answer.key);
            assert_eq!(answer.figures, was.figures, "{}", answer.key);
            assert_eq!(in_short(&lines, answer), in_short(&mill_lines, was));
            let _ = (takes(&lines, answer), advice(&lines, &answers, answer));
        }
        assert_eq!(answers.set_outs.len(), honest.set_outs.len());
        let _ = holdups(&lines, &answers);
    }
}

#[test]
fn a_reading_that_is_none_says_why_and_changes_nothing() {
    let honest = mill().answers();
    for figure in [
        "",
        "twelve",
        "<b>12</b>",
        "1e999 mm",
        "∞",
        "\u{0}",
        "12 mm ±0",
        "-",
    ] {
        let house = mill().read_off(
            "2027-06-10T07:00:00+01:00",
            "wheel-opening",
            "width in the middle",
            figure,
        );
        let site = house.site();
        let lines = Lines::of(&house.job, &site);
        let note = house.notes.last().unwrap().id;
        let unused = lines
            .unused
            .iter()
            .any(|(id, why)| *id == note && !why.is_empty());
        assert!(unused, "{figure:?} counts, or is passed over in silence");
        let answers = Answers::of(&lines).unwrap();
        for (answer, was) in answers.answers.iter().zip(&honest.answers) {
            assert_eq!(answer.figures, was.figures, "{figure}");
        }
    }
}

#[test]
fn every_case_within_the_tolerances_lies_within_the_worst() {
    // Each part at a limit or between, as the bits of a number say: the corners are where a sum of
    // ranges is widest.
    let answers = mill().answers();
    let mut seen = 0;
    for answer in &answers.answers {
        let read = |part: &grounds_lines::answers::Part| part.source != Source::Design;
        let Some(figures) = answer.figures.filter(|_| !answer.parts.iter().any(read)) else {
            continue;
        };
        let Some(worst) = figures.worst else { continue };
        for case in 0_u32..64 {
            let sum: f64 = answer
                .parts
                .iter()
                .enumerate()
                .map(|(at, part)| {
                    let (minus, plus) = part.tolerance;
                    let off = match (case >> (at % 6)) & 1 {
                        0 => -minus,
                        _ => plus,
                    };
                    part.coefficient * (part.figure + off)
                })
                .sum();
            assert!(
                worst.low - 1e-6 <= sum && sum <= worst.high + 1e-6,
                "{}: {sum}",
                answer.key
            );
        }
        seen += 1;
    }
    assert!(seen > 20, "{seen}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn whatever_is_read_the_answers_stand(
        reads in prop::collection::vec((any::<prop::sample::Index>(), -40_000_i32..400_000), 1..5)
    ) {
        let mut house = mill();
        for (which, tenths) in reads {
            let take = which.get(TAKES.as_slice());
            let what = if take.what.is_empty() { "thickness" } else { take.what.as_str() };
            let figure = format!("{}.{} mm", tenths / 10, (tenths % 10).abs());
            let at = "2027-06-10T07:00:00+01:00";
            house = house.read_off(at, take.about.as_str(), what, &figure);
        }
        let site = house.site();
        let lines = Lines::of(&house.job, &site);
        let answers = Answers::of(&lines).unwrap();
        for answer in &answers.answers {
            let Some(figures) = answer.figures else {
                prop_assert_eq!(answer.verdict, Verdict::CannotTell);
                continue;
            };
            prop_assert!((0.0..=1.0).contains(&figures.chance), "{}", answer.key);
            prop_assert_eq!(answer.verdict == Verdict::Holds, figures.chance >= HOLDS);
            prop_assert!(figures.likely.low <= figures.mean && figures.mean <= figures.likely.high);
            prop_assert!(figures.spread.is_finite() && figures.spread >= 0.0);
            let _ = (advice(&lines, &answers, answer), takes(&lines, answer));
        }
        let _ = holdups(&lines, &answers);
    }

    #[test]
    fn what_is_set_out_meets_every_need_that_does_not_clash(
        reads in prop::collection::vec((any::<prop::sample::Index>(), -60_i32..60), 0..4)
    ) {
        let mut house = mill();
        for (which, off) in reads {
            let take = which.get(TAKES.as_slice());
            let what = if take.what.is_empty() { "thickness" } else { take.what.as_str() };
            let at = "2027-06-10T07:00:00+01:00";
            let figure = format!("{}.{} mm", 20 + off / 10, (off % 10).abs());
            house = house.read_off(at, take.about.as_str(), what, &figure);
        }
        let site = house.site();
        let lines = Lines::of(&house.job, &site);
        let (outs, clashes) = set_out(&lines);
        let mut net = lines.net.clone();
        for out in &outs {
            if let LinkKind::Set { chosen, .. } = &mut net.links[out.link.index()].kind {
                *chosen = Some(out.value);
            }
        }
        let adjusted = adjust(&net).unwrap();
        let answers = Answers::of(&lines).unwrap();
        for answer in &answers.answers {
            let set = answer.parts.iter().filter(|part| outs.iter().any(|out| out.link == part.link));
            let set = u32::try_from(set.count()).unwrap();
            let clash = clashes.iter().any(|clash| clash.needs.contains(&answer.key));
            let Some(wanted) = lines.wanted(&answer.key).filter(|_| set > 0 && !clash) else {
                continue;
            };
            let (mean, _) = adjusted.distance(wanted.need.from, wanted.need.to).unwrap();
            // Each setting is rounded to a mark of the tape: half a millimetre at most.
            let room = 0.5 * f64::from(set) + 1e-6;
            prop_assert!(wanted.need.margin(mean) >= -room, "{}: {mean}", answer.key);
        }
    }
}
