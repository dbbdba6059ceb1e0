//! The curve of chances: what it says to those who see it, hear it, print it.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test stops at what is wrong"
)]

use grounds_draw::{Curve, CurveMark, CurveMarkKind, CurveRead, curve};

fn finish() -> Curve {
    let points = (0..=40).map(|i| {
        let x = f64::from(i) / 40.0;
        (100.0 + 30.0 * x, x * x * (3.0 - 2.0 * x))
    });
    let read = |at, chance, name: &str, date: &str| CurveRead {
        at,
        chance,
        name: name.to_owned(),
        date: date.to_owned(),
    };
    let mark = |at, kind, words: &str| CurveMark {
        at,
        kind,
        words: words.to_owned(),
    };
    Curve {
        title: "Chance of handing over by each day".to_owned(),
        said: "Even chance by Fri 1 October; four in five by Tue 12 October.".to_owned(),
        points: points.collect(),
        reads: vec![
            read(115.0, 0.5, "even chance", "1 Oct"),
            read(121.0, 0.8, "four in five", "12 Oct"),
        ],
        marks: vec![
            mark(102.0, CurveMarkKind::Plan, "plan 24 Sep"),
            mark(97.0, CurveMarkKind::Bound, "not before 18 Sep"),
            mark(127.0, CurveMarkKind::Due, "due 22 Oct"),
        ],
        dates: (0..6)
            .map(|week| {
                (
                    98.0 + 7.0 * f64::from(week),
                    format!("{} Oct", 4 + 7 * week),
                )
            })
            .collect(),
    }
}

fn parsed(markup: &str) -> roxmltree::Document<'_> {
    roxmltree::Document::parse(markup).expect("well-formed markup")
}

fn number(node: roxmltree::Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

#[test]
fn a_curve_fits_a_phone_and_is_heard_in_one_sentence() {
    let markup = curve(&finish());
    let drawing = parsed(&markup);
    let root = drawing.root_element();
    assert!(number(root, "width") <= 360.0);
    assert_eq!(root.attribute("role"), Some("img"));
    let label = root.attribute("aria-label").unwrap();
    assert!(label.contains("Even chance by Fri 1 October"));
    let part = |tag| {
        root.children()
            .find(|n| n.has_tag_name(tag))
            .and_then(|n| n.text())
    };
    assert_eq!(part("title"), Some("Chance of handing over by each day"));
    assert!(part("desc").unwrap().contains("four in five"));
}

#[test]
fn a_curve_holds_no_colour_and_no_style() {
    let markup = curve(&finish());
    for forbidden in ["fill=", "stroke=", "style=", "#", "rgb("] {
        assert!(!markup.contains(forbidden), "{forbidden}");
    }
}

#[test]
fn every_date_is_lettered_and_nothing_leaves_the_sheet() {
    let markup = curve(&finish());
    let drawing = parsed(&markup);
    let width = number(drawing.root_element(), "width");
    let words: Vec<(f64, &str)> = drawing
        .descendants()
        .filter(|n| n.has_tag_name("text"))
        .map(|n| (number(n, "x"), n.text().unwrap_or_default()))
        .collect();
    for wanted in [
        "plan 24 Sep",
        "not before 18 Sep",
        "due 22 Oct",
        "1 Oct",
        "12 Oct",
    ] {
        assert!(words.iter().any(|(_, said)| *said == wanted), "{wanted}");
    }
    assert!(words.iter().all(|(x, _)| (0.0..width).contains(x)));
}

#[test]
fn dates_that_are_read_off_close_together_do_not_touch() {
    let mut close = finish();
    close.reads[1].at = 115.4;
    let markup = curve(&close);
    let drawing = parsed(&markup);
    let at = |wanted: &str| {
        let mut texts = drawing.descendants().filter(|n| n.has_tag_name("text"));
        let found = texts.find(|n| {
            n.text() == Some(wanted) && n.attribute("class") == Some("curve-word strong")
        });
        number(found.unwrap(), "x")
    };
    assert!(at("12 Oct") - at("1 Oct") > 30.0);
}

#[test]
fn without_points_or_with_one_there_is_nothing_to_fear() {
    let mut empty = finish();
    empty.points.clear();
    empty.marks.clear();
    assert_eq!(curve(&empty), "");
    empty.points.push((f64::NAN, 0.5));
    assert_eq!(curve(&empty), "");
    empty.points.push((100.0, 1.0));
    parsed(&curve(&empty));
}

#[test]
fn hostile_words_stay_words() {
    let mut hostile = finish();
    hostile.title = "<script>\"x\"</script>".to_owned();
    hostile.marks[0].words = "<b>&\u{202e}".to_owned();
    let markup = curve(&hostile);
    parsed(&markup);
    assert!(!markup.contains("<script") && !markup.contains("<b>"));
}
