//! A leaf of solid timber gets wider and narrower over the year; its gaps must take it up.
//!
//! Figures: USDA Wood Handbook (FPL-GTR-282, 2021), chapter 13, equation 13-2 with its own example
//! (published): white fir, sawn flat, 232 mm wide, from 8 to 11 %, grows by 1.7 mm; table 13-5 (published):
//! white oak 0.00365 flat, 0.00180 to quarter; table 4-2 (from memory): 70 °F and 60 % make 11.0 %, 30 %
//! make 6.2 %. The house is made up.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

use grounds_lines::{
    answers::{Answer, Answers, Part},
    lines::Lines,
};
use grounds_model::Job;
use grounds_site::fold;

const HALL: &str = r#"
format = 1

[job]
name = "Hall"
units = "metric"
zone = "Europe/London"
begins = "2027-06-01"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[trades.joinery]
name = "Joinery"

[levels.ground]
name = "Ground floor"
height = "0 m"

[places.hall]
name = "Hall"
level = "ground"
entrance = true

[pieces.flap]
name = "Flap"
material = "timber"
trade = "joinery"
place = "hall"
takes = "1 h"
size = "232 x 600 mm"
FIGURES

[openings.hatch]
name = "Hatch"
place = "hall"
rough = "236 x 604 mm"
piece = "flap"
clearance = "1 mm"
"#;

fn play(figures: &str) -> Answer {
    let job = Job::from_toml(&HALL.replace("FIGURES", figures))
        .unwrap_or_else(|faults| panic!("{faults}"));
    let site = fold(&job, &[], "2027-06-07T06:00:00Z".parse().unwrap());
    let lines = Lines::of(&job, &site);
    Answers::of(&lines)
        .unwrap()
        .get("flap.width")
        .unwrap()
        .clone()
}

fn movement(answer: &Answer) -> Option<&Part> {
    answer
        .parts
        .iter()
        .find(|part| part.name.contains("moves over the year"))
}

const FIR: &str = r#"figures = { wood = "white-fir", room-temperature = "70 F", humidity-driest = "30 %", humidity-dampest = "60 %" }"#;

#[test]
fn a_flap_of_fir_grows_as_in_the_handbooks_example() {
    let answer = play(FIR);
    let moves = movement(&answer).unwrap();
    let (shrinks, grows) = moves.tolerance;
    assert!((grows - 1.7).abs() < 0.05, "{grows}");
    // 8 to 6.2 %: 232 × 0.00245 × 1.8.
    assert!((shrinks - 1.02).abs() < 0.05, "{shrinks}");
    assert_eq!(
        moves.name,
        "what the flap moves over the year, white fir sawn flat, 6.2 to 11.0 % of moisture"
    );
}

#[test]
fn timber_without_a_name_and_what_is_no_timber_stay_as_made() {
    for figures in ["", r#"figures = { humidity-driest = "30 %" }"#] {
        assert_eq!(movement(&play(figures)), None);
    }
    let steel = FIR.replace("white-fir", "steel");
    assert_eq!(movement(&play(&steel)), None);
}

#[test]
fn a_gap_that_holds_for_a_dry_board_is_tight_for_one_that_swells() {
    // Four millimetres of play, two wanted: without movement it holds; 232 mm of white oak sawn flat grow
    // by 232 × 0.00365 × (11.0 − 8) = 2.5 mm in the dampest weeks, and leave 1.5.
    assert!(play("").figures.unwrap().chance > 0.99);
    let oak = play(&FIR.replace("white-fir", "white-oak"));
    let figures = oak.figures.unwrap();
    assert!(figures.chance < 0.95, "{}", figures.chance);
    let worst = figures.worst.unwrap();
    assert!((worst.low - 1.5).abs() < 0.1, "{worst:?}");
}

#[test]
fn sawn_to_quarter_it_moves_half_and_glued_crosswise_a_fifth() {
    let with = |more: &str| {
        let figures = FIR
            .replace("white-fir", "white-oak")
            .replace("{ wood", &format!("{{ {more}wood"));
        movement(&play(&figures)).unwrap().tolerance.1
    };
    let flat = with("");
    assert!((with("sawn = \"quarter\", ") / flat - 0.00180 / 0.00365).abs() < 1e-9);
    assert!((with("board-make = \"engineered\", ") / flat - 0.2).abs() < 1e-9);
}
