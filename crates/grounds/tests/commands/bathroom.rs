//! The commands on the small example house.

use crate::running::{Ended, example, grounds, grounds_reading, house};
use serde_json::Value;

const MORNING: &str = "2027-06-10T07:10";

fn bathroom(command: &[&str]) -> Ended {
    let (name, rest) = command.split_first().unwrap();
    let mut arguments = vec![(*name).to_owned(), example("one-bathroom")];
    arguments.extend(rest.iter().map(|text| (*text).to_owned()));
    if *name != "verify" {
        arguments.extend(["--at".to_owned(), MORNING.to_owned()]);
    }
    grounds(&arguments)
}

#[test]
fn now_says_what_is_in_hand_and_what_holds_the_rest() {
    let now = bathroom(&["now"]);
    assert_eq!(now.code, Some(0), "{}", now.err);
    assert_eq!(now.err, "");
    for part in [
        "Thu 10 June 2027, 7:10",
        "In hand",
        "Tiling",
        "Wall tile",
        "What holds the rest",
        "Forecast",
    ] {
        assert!(now.out.contains(part), "{part} is missing in:\n{}", now.out);
    }
}

#[test]
fn pages_keep_to_eighty_columns_and_carry_no_colour_into_a_file() {
    for command in [
        &["now"][..],
        &["weeks", "--weeks", "9"],
        &["weeks", "--by", "place"],
        &["why", "shower-glass"],
        &["fit", "--all"],
        &["fit", "shower-glass.width"],
    ] {
        let page = bathroom(command);
        assert_eq!(page.code, Some(0), "{}", page.err);
        for line in page.out.lines() {
            assert!(line.chars().count() <= 80, "{command:?}: {line}");
            assert!(!line.contains('\u{1b}'), "{command:?}: {line}");
        }
    }
}

#[test]
fn the_glass_waits_for_its_grout_and_the_way_back_to_the_tiler_is_told() {
    let why = bathroom(&["why", "shower-glass"]);
    assert_eq!(why.code, Some(0), "{}", why.err);
    let at = |part: &str| {
        why.out
            .find(part)
            .unwrap_or_else(|| panic!("{part}:\n{}", why.out))
    };
    assert!(at("Shower glass, bathroom: starts") < at("from now to its start go"));
    assert!(at("from now to its start go") < at("Measure shower glass"));
    assert!(at("Measure shower glass") < at("The causes"));
    assert!(at("Wall tile, bathroom walls: in hand") > at("The causes"));
}

#[test]
fn the_weeks_say_what_drives_a_date_and_what_can_wait() {
    let weeks = bathroom(&["weeks", "--weeks", "9"]);
    assert!(weeks.out.contains("(drives a date)"), "{}", weeks.out);
    assert!(weeks.out.contains("(can wait "), "{}", weeks.out);
}

#[test]
fn ways_to_win_time_back_are_told_with_what_they_cost() {
    let options = bathroom(&["options"]);
    assert_eq!(options.code, Some(0), "{}", options.err);
    assert!(
        options
            .out
            .contains("What would bring the last finish forward")
    );
    assert!(options.out.contains("Nothing is done until you do it."));
    let unknown = bathroom(&["options", "--milestone", "moon"]);
    assert_eq!(unknown.code, Some(2));
    assert!(unknown.err.contains("moon"), "{}", unknown.err);
}

#[test]
fn what_if_a_delivery_is_late_is_told_before_it_is() {
    let late = bathroom(&["what-if", "vanity", "arrives", "2027-09-24"]);
    assert_eq!(late.code, Some(0), "{}", late.err);
    assert!(late.out.contains("later"), "{}", late.out);
    let unknown = bathroom(&["what-if", "vanity", "explodes"]);
    assert_eq!(unknown.code, Some(2));
    assert!(unknown.err.contains("write one of"), "{}", unknown.err);
}

#[test]
fn fits_say_what_is_tight_and_what_to_measure_before_it_is_covered() {
    let fit = bathroom(&["fit"]);
    assert_eq!(fit.code, Some(0), "{}{}", fit.out, fit.err);
    let at = |part: &str| {
        fit.out
            .find(part)
            .unwrap_or_else(|| panic!("{part}:\n{}", fit.out))
    };
    assert!(at("Tight") < at("shower-glass.width"));
    assert!(at("shower-glass.width") < at("Measure this week"));
    assert!(at("Measure this week") < at("All fits"));
    assert!(
        fit.sentences().contains("One is tight and two hold."),
        "{}",
        fit.out
    );
    assert!(!fit.out.contains("shower-valve.flush"), "{}", fit.out);
    let all = bathroom(&["fit", "--all"]);
    assert!(all.out.contains("shower-valve.flush"), "{}", all.out);
}

#[test]
fn one_fit_is_shown_with_its_working_line_by_line() {
    let glass = bathroom(&["fit", "shower-glass.width"]);
    assert_eq!(glass.code, Some(0), "{}", glass.err);
    for part in [
        "is tight",
        "Working",
        "1042 mm",
        "worst cases",
        "Where the doubt comes from",
        "Measure first",
    ] {
        assert!(glass.out.contains(part), "{part}:\n{}", glass.out);
    }
    let valve = bathroom(&["fit", "valve flush"]);
    assert!(valve.out.contains(": holds"), "{}{}", valve.out, valve.err);
}

#[test]
fn a_fit_that_is_not_there_gets_the_nearest_names() {
    let slip = bathroom(&["fit", "shower-glas.widht"]);
    assert_eq!(slip.code, Some(2));
    assert!(
        slip.sentences().contains("did you mean shower-glass.width"),
        "{}",
        slip.err
    );
    assert!(slip.sentences().contains("--all` lists"), "{}", slip.err);
    let several = bathroom(&["fit", "glass"]);
    assert_eq!(several.code, Some(2));
    assert!(
        several.err.contains("shower-glass.height"),
        "{}",
        several.err
    );
}

#[test]
fn fits_in_json_have_their_figures_in_millimetres() {
    let fit: Value = serde_json::from_str(&bathroom(&["fit", "--json"]).out).unwrap();
    assert_eq!(fit["at"], "2027-06-10T07:10:00+01:00");
    let fits = fit["fits"].as_array().unwrap();
    assert_eq!(fits.len(), 3);
    let glass = &fits[0];
    assert_eq!(glass["key"], "shower-glass.width");
    assert_eq!(glass["verdict"], "tight");
    // 1042 framed, less 12.5 + 0.6 + 0.6 + 14 of tiled wall, 3 of skim and 1000 of glass.
    let nominal = glass["figures"]["nominal"].as_f64().unwrap();
    assert!((nominal - 11.3).abs() < 1e-9, "{nominal}");
    assert_eq!(glass["least"], 10.0);
    let shares = glass["parts"].as_array().unwrap().iter();
    let shares: f64 = shares.map(|part| part["share"].as_f64().unwrap()).sum();
    assert!((shares - 1.0).abs() < 1e-6, "{shares}");

    let one = bathroom(&["fit", "shower-valve.flush", "--json"]);
    let one: Value = serde_json::from_str(&one.out).unwrap();
    assert_eq!(one["fits"].as_array().unwrap().len(), 1);
}

#[test]
fn a_fit_that_fails_is_told_by_the_exit_code_and_holds_the_order() {
    let narrow = |job: String| {
        job.replace(
            "[pieces.shelf]\n",
            "[openings.niche]\nname = \"Niche\"\nplace = \"room\"\nrough = \"900 x 400 mm\"\n\
             piece = \"shelf\"\nclearance = \"2 mm\"\n\n[pieces.shelf]\n\
             size = \"902 x 30 mm\"\nlead = \"2 weeks\"\n",
        )
    };
    let room = house(narrow);
    let path = room.path().display().to_string();
    let fit = grounds(&["fit", &path, "--at", "2027-06-07T07:00"]);
    assert_eq!(fit.code, Some(1), "{}{}", fit.out, fit.err);
    assert!(
        fit.sentences().contains("It holds the order of shelf"),
        "{}",
        fit.out
    );
    let why = grounds(&["why", &path, "shelf:arrive", "--at", "2027-06-07T07:00"]);
    assert!(
        why.sentences()
            .contains("Its order waits: the shelf is 2 mm too large"),
        "{}{}",
        why.out,
        why.err
    );

    // Somebody lets it go on as it is.
    let decided = r#"{"id":"0197f000-0000-7000-8000-000000000001","at":"2027-06-06T09:00:00+01:00","by":"Ines","about":"shelf","kind":"decided"}"#;
    std::fs::write(room.path().join("notes.jsonl"), decided).unwrap();
    let fit = grounds(&["fit", &path, "--at", "2027-06-07T07:00"]);
    assert_eq!(fit.code, Some(0), "{}{}", fit.out, fit.err);
    assert!(
        fit.sentences()
            .contains("It goes on as it is, decided by Ines, "),
        "{}",
        fit.out
    );
    let why = grounds(&["why", &path, "shelf:arrive", "--at", "2027-06-07T07:00"]);
    assert!(!why.out.contains("Its order waits"), "{}", why.out);
}

#[test]
fn a_job_without_fits_says_how_to_ask_for_one() {
    let room = house(|job| job);
    let path = room.path().display().to_string();
    let none = grounds(&["fit", &path, "--at", "2027-06-07T07:00"]);
    assert_eq!(none.code, Some(0), "{}", none.err);
    assert!(none.sentences().contains("align = [{ how"), "{}", none.out);
}

#[test]
fn work_is_found_by_a_part_of_its_name_or_asked_for_again() {
    let measure = bathroom(&["why", "measure glass"]);
    assert!(
        measure.out.starts_with("Measure shower glass"),
        "{}",
        measure.out
    );

    let several = bathroom(&["why", "glass"]);
    assert_eq!(several.code, Some(2));
    assert!(
        several.err.contains("shower-glass:measure"),
        "{}",
        several.err
    );

    let slip = bathroom(&["why", "shower-glas:mesure"]);
    assert_eq!(slip.code, Some(2));
    assert!(
        slip.sentences()
            .contains("did you mean shower-glass:measure?"),
        "{}",
        slip.err
    );
}

#[test]
fn a_plan_that_was_printed_proves_without_breach() {
    let plan = bathroom(&["weeks", "--json"]);
    assert_eq!(plan.code, Some(0), "{}", plan.err);
    let proved = grounds_reading(&["verify", &example("one-bathroom"), "-"], &plan.out);
    assert_eq!(proved.code, Some(0), "{}{}", proved.out, proved.err);
    assert!(proved.out.contains("No breach"), "{}", proved.out);
}

#[test]
fn a_planned_piece_of_work_says_what_where_who_when_and_why() {
    let plan: Value = serde_json::from_str(&bathroom(&["weeks", "--json"]).out).unwrap();
    let work = plan["work"].as_array().unwrap();
    let grout = work
        .iter()
        .find(|work| work["id"] == "bathroom.shower-floor/grout")
        .unwrap();
    assert_eq!(grout["kind"], "layer");
    assert_eq!(grout["place"], "bathroom");
    assert_eq!(grout["trade"], "tile");
    assert!(
        grout["start"].as_str().unwrap().ends_with("+01:00"),
        "{grout}"
    );
    assert!(!grout["reasons"].as_array().unwrap().is_empty(), "{grout}");
}

#[test]
fn a_plan_that_was_tampered_with_is_refused_and_the_breach_is_named() {
    let mut plan: Value = serde_json::from_str(&bathroom(&["weeks", "--json"]).out).unwrap();
    let glass = plan["work"]
        .as_array_mut()
        .unwrap()
        .iter_mut()
        .find(|work| work["id"] == "shower-glass")
        .unwrap();
    // Set on the morning of the tenth: the grout it is measured on is not in yet.
    glass["start"] = "2027-06-10T08:00:00+01:00".into();
    glass["finish"] = "2027-06-10T13:30:00+01:00".into();
    let refused = grounds_reading(
        &["verify", &example("one-bathroom"), "-"],
        &plan.to_string(),
    );
    assert_eq!(refused.code, Some(1), "{}{}", refused.out, refused.err);
    assert!(
        refused
            .out
            .contains("Shower glass, bathroom comes too soon after"),
        "{}",
        refused.out
    );
}

#[test]
fn a_plan_with_work_left_out_or_of_another_house_is_no_plan_of_this_one() {
    let printed = bathroom(&["weeks", "--json"]).out;
    let mut short: Value = serde_json::from_str(&printed).unwrap();
    short["work"]
        .as_array_mut()
        .unwrap()
        .retain(|work| work["id"] != "shower-glass");
    let refused = grounds_reading(
        &["verify", &example("one-bathroom"), "-"],
        &short.to_string(),
    );
    assert_eq!(refused.code, Some(2));
    assert!(
        refused.sentences().contains("leaves out shower-glass"),
        "{}",
        refused.err
    );

    let room = house(|job| job);
    let other = grounds_reading(
        &["verify", &room.path().display().to_string(), "-"],
        &printed,
    );
    assert_eq!(other.code, Some(2), "{}", other.err);
}

#[test]
fn now_in_json_names_starts_and_causes_by_their_keys() {
    let now = bathroom(&["now", "--json"]);
    let now: Value = serde_json::from_str(&now.out).unwrap();
    assert_eq!(now["at"], "2027-06-10T07:10:00+01:00");
    assert!(
        now["starts"]
            .as_array()
            .unwrap()
            .iter()
            .any(|start| start["in_hand"] == true)
    );
    assert!(
        now["causes"][0]["holds"]
            .as_array()
            .unwrap()
            .iter()
            .all(Value::is_string)
    );
}

#[test]
fn a_log_that_ends_on_another_day_is_remarked_on_beside_the_page() {
    let now = grounds(&["now", &example("one-bathroom")]);
    assert!(now.err.contains("add --at 2027-06-"), "{}", now.err);
    assert!(!now.out.contains("--at"), "{}", now.out);
}
