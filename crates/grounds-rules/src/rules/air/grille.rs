//! A grille or register: its free area, how fast the air comes through, how loud that is.

use crate::rules::{air::make_up_air::AIRFLOW, prelude::*};

pub(crate) const AREA: Input<Area> =
    asked("grille-area", "the whole area of the grille", Who::Drawings).between("5 cm2", "4 m2");
pub(crate) const FREE: Input<Ratio> =
    asked("free-share", "the free share of the grille", Who::Maker)
        .between("5 %", "100 %")
        .guessed(
            "60 %",
            "50 %",
            "75 %",
            "Bars and slots 60 to 80 %, stamped 50 to 60 %, wood 40 to 60 %",
        );
pub(crate) const USE: Input<Word> = word(
    "grille-use",
    "what the grille is for",
    &["supply", "return", "filter", "bath", "intake"],
    Who::Drawings,
);

pub(crate) static RULE: Rule = Rule {
    name: "grille",
    title: "Free area of a grille",
    family: Family::Air,
    question: "Is the grille large enough for its air to come through slowly and quietly?",
    inputs: &[AIRFLOW.spec, AREA.spec, FREE.spec, USE.spec],
    formula: &["v = Q / (area × free share)"],
    sources: &[practice(
        "Face speeds: returns 400 to 500 fpm, filters 300, supplies 500 to 700, baths 300 to 400, intakes 500",
    )],
    caution: "The maker's table of noise and throw goes before this. Leave access to balance it, and mask it while \
              others work.",
    way_out: "A larger grille, one with more free area, or a second one.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let flow = w.take(&AIRFLOW)?;
    let area = w.take(&AREA)?;
    let share = w.take(&FREE)?;
    let free = w.step("Free area", &[&area, &"×", &share], area * share);
    let speed = w.step("Air speed through it", &[&flow, &"/", &free], flow / free);
    let most = match w.word(&USE)? {
        "supply" => "700 fpm",
        "filter" => "300 fpm",
        "bath" => "400 fpm",
        _ => "500 fpm",
    };
    w.at_most("the air speed", speed, fixed(most));
    w.say(loudness(speed));
    Ok(())
}

/// How loud a grille is, roughly.
fn loudness(speed: Speed) -> &'static str {
    match speed {
        slow if slow <= fixed("300 fpm") => "Below 300 fpm: hardly heard.",
        middling if middling <= fixed("500 fpm") => {
            "From 300 to 500 fpm: heard in a quiet bedroom."
        }
        fast if fast <= fixed("700 fpm") => "From 500 to 700 fpm: heard in a living room.",
        _ => "Over 700 fpm: it hisses.",
    }
}
