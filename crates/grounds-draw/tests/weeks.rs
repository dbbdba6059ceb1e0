//! The weeks: what is drawn where.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot read its drawing has failed"
)]

mod house_of_tests;

use grounds_draw::{Closure, Level, State, Weeks, Zoom, weeks};
use house_of_tests::{bar, days, has_class, length, place, read, small_chart, with_class};
use roxmltree::{Document, Node};

const ZOOMS: [Zoom; 3] = [Zoom::TwoWeeks, Zoom::SixWeeks, Zoom::AllWeeks];

fn body<'a, 'i>(document: &'a Document<'i>) -> Node<'a, 'i> {
    with_class(document, "weeks-body")[0]
}

/// The rows of the body with where each lies, worked out from the names at the left: their struts hold the heights.
fn rows_by_names(document: &Document<'_>) -> Vec<(String, f64, f64)> {
    let mut y = 0.0;
    let mut rows = Vec::new();
    for line in with_class(document, "weeks-names")[0]
        .children()
        .filter(Node::is_element)
    {
        let strut = line
            .children()
            .find(|child| child.has_tag_name("svg"))
            .unwrap();
        let height = length(&strut, "height");
        if has_class(&line, "weeks-place") {
            let name = line
                .descendants()
                .filter(Node::is_text)
                .map(|text| text.text().unwrap())
                .collect();
            rows.push((name, y, y + height));
        }
        y += height;
    }
    rows
}

fn drawn_rects<'a, 'i>(row: &Node<'a, 'i>) -> Vec<Node<'a, 'i>> {
    row.descendants()
        .filter(|node| {
            node.has_tag_name("rect")
                && !has_class(node, "part")
                && !has_class(node, "hit")
                && !has_class(node, "shut")
        })
        .collect()
}

#[test]
fn every_bar_lies_within_the_row_that_carries_its_place_name() {
    for zoom in ZOOMS {
        read(&weeks(&small_chart(zoom)), |document| {
            let names = rows_by_names(document);
            let groups: Vec<Node<'_, '_>> = body(document)
                .descendants()
                .filter(|node| node.has_attribute("data-row"))
                .collect();
            assert_eq!(groups.len(), 3);
            for group in groups {
                let (_, top, bottom) = names
                    .iter()
                    .find(|(name, ..)| Some(name.as_str()) == group.attribute("aria-label"))
                    .unwrap();
                let rects = drawn_rects(&group);
                assert!(!rects.is_empty());
                for rect in rects {
                    let y = length(&rect, "y");
                    assert!(
                        y >= *top && y + length(&rect, "height") <= *bottom,
                        "{rect:?} outside {top}..{bottom}"
                    );
                }
            }
        });
    }
}

#[test]
fn overlapping_work_in_one_place_never_collides() {
    let crowd = (0..40)
        .map(|i| {
            bar(
                "Coat",
                f64::from(i) * 0.3,
                f64::from(i) * 0.3 + 1.7,
                State::ToCome,
            )
        })
        .collect();
    let mut chart = small_chart(Zoom::SixWeeks);
    chart.levels = vec![Level {
        name: "Loft".into(),
        height: String::new(),
        places: vec![place("Bin loft", crowd)],
    }];
    read(&weeks(&chart), |document| {
        let rects = drawn_rects(
            &body(document)
                .descendants()
                .find(|node| node.has_attribute("data-row"))
                .unwrap(),
        );
        assert_eq!(rects.len(), 40);
        for (i, a) in rects.iter().enumerate() {
            for b in &rects[i + 1..] {
                let apart = |start: &str, size: &str| {
                    length(a, start) + length(a, size) <= length(b, start)
                        || length(b, start) + length(b, size) <= length(a, start)
                };
                assert!(
                    apart("x", "width") || apart("y", "height"),
                    "{a:?} on {b:?}"
                );
            }
        }
    });
}

#[test]
fn a_closure_is_drawn_over_each_place_it_cuts_off_and_no_other() {
    read(&weeks(&small_chart(Zoom::TwoWeeks)), |document| {
        let names = rows_by_names(document);
        let shut = with_class(document, "shut");
        assert_eq!(shut.len(), 2);
        for (rect, place) in shut.iter().zip(["Hall", "Bath"]) {
            let (_, top, bottom) = names.iter().find(|(name, ..)| name == place).unwrap();
            assert_eq!(
                (
                    length(rect, "y"),
                    length(rect, "y") + length(rect, "height")
                ),
                (*top, *bottom)
            );
            let day = length(&body(document), "width") / 14.0;
            assert!(
                (length(rect, "x") - 5.0 * day).abs() < 0.06
                    && (length(rect, "width") - 2.5 * day).abs() < 0.06
            );
            assert!(
                rect.descendants()
                    .any(|node| node.text() == Some(&format!("{place}: hall floor oiled")))
            );
        }
    });
}

#[test]
fn a_place_without_work_still_shows_that_it_is_shut() {
    let mut chart = small_chart(Zoom::TwoWeeks);
    chart.levels[1].places.push(place("Cloakroom", vec![]));
    chart.closures.push(Closure {
        from: 1.0,
        to: 2.0,
        reason: "stair out".into(),
        places: vec!["cloakroom".into()],
    });
    read(&weeks(&chart), |document| {
        assert_eq!(with_class(document, "shut").len(), 3)
    });
}

#[test]
fn a_closure_of_forty_weeks_of_shading_is_drawn_to_the_last_day() {
    let mut chart = small_chart(Zoom::AllWeeks);
    chart.days = days(280);
    read(&weeks(&chart), |document| {
        let shading = with_class(document, "rest")[0].attribute("d").unwrap();
        assert_eq!(
            shading.matches('M').count(),
            80,
            "two days of rest in each of forty weeks"
        );
    });
}

#[test]
fn work_that_began_before_the_first_day_begins_at_the_edge() {
    read(&weeks(&small_chart(Zoom::TwoWeeks)), |document| {
        let width = length(&body(document), "width");
        for rect in drawn_rects(&body(document)) {
            assert!(
                length(&rect, "x") >= 0.0 && length(&rect, "x") + length(&rect, "width") <= width
            );
        }
        let membrane = document
            .descendants()
            .find(|node| node.attribute("aria-label") == Some("Membrane, wheel room, done"))
            .unwrap();
        assert!(drawn_rects(&membrane)[0].attribute("x") == Some("0"));
    });
}

#[test]
fn every_bar_can_be_reached_by_keyboard_and_says_what_it_is() {
    read(&weeks(&small_chart(Zoom::AllWeeks)), |document| {
        let links: Vec<Node<'_, '_>> = body(document)
            .descendants()
            .filter(|node| node.has_tag_name("a"))
            .collect();
        assert_eq!(links.len(), 5);
        for link in links {
            assert_eq!(link.attribute("href"), Some("/why/1"));
            assert!(link.attribute("aria-label").unwrap().contains("wheel room"));
        }
    });
}

/// WCAG 2.2, criterion 2.5.8 (published) asks for 24 px; a gloved thumb gets 44 px where days are wide.
#[test]
fn a_thumb_finds_every_bar_of_two_weeks() {
    let mut chart = small_chart(Zoom::TwoWeeks);
    chart.levels[0].places[0]
        .bars
        .push(bar("Flashing", 3.0, 3.05, State::Next));
    read(&weeks(&chart), |document| {
        let hits = with_class(document, "hit");
        assert_eq!(hits.len(), 10);
        for hit in hits {
            assert!(
                length(&hit, "height") >= 44.0 && length(&hit, "width") >= 24.0,
                "{hit:?}"
            );
        }
    });
}

#[test]
fn what_is_not_a_time_is_left_out_and_breaks_nothing() {
    let mut chart = small_chart(Zoom::SixWeeks);
    chart.levels[0].places[0].bars = vec![
        bar("never", f64::NAN, 3.0, State::ToCome),
        bar("backward", 5.0, 3.0, State::ToCome),
        bar("for ever", 2.0, f64::INFINITY, State::ToCome),
        bar("later", 100.0, 120.0, State::ToCome),
    ];
    chart.today = f64::NAN;
    chart.closures[0].from = f64::NEG_INFINITY;
    read(&weeks(&chart), |document| {
        assert!(!document.descendants().any(|node| {
            node.attribute("aria-label")
                .is_some_and(|said| said.contains("never"))
        }));
        assert!(
            with_class(document, "today-line").is_empty()
                && with_class(document, "shut").is_empty()
        );
    });
}

#[test]
fn a_chart_of_nothing_is_a_chart() {
    let empty = Weeks {
        title: "Nothing".into(),
        days: vec![],
        levels: vec![],
        closures: vec![],
        today: 0.0,
        zoom: Zoom::AllWeeks,
    };
    read(&weeks(&empty), |document| {
        assert_eq!(with_class(document, "weeks-body").len(), 1)
    });
}

/// One row of these bars.
fn row_of(bars: Vec<grounds_draw::Bar>) -> Weeks {
    let mut chart = small_chart(Zoom::TwoWeeks);
    chart.closures.clear();
    chart.levels = vec![Level {
        name: "Loft".into(),
        height: String::new(),
        places: vec![place("Bin loft", bars)],
    }];
    chart
}

/// The lines of time to spare, as their paths.
fn tails(chart: &Weeks) -> Vec<String> {
    let mut paths = Vec::new();
    read(&weeks(chart), |document| {
        paths = with_class(document, "spare")
            .iter()
            .map(|tail| tail.attribute("d").unwrap().to_owned())
            .collect();
    });
    paths
}

#[test]
fn time_to_spare_is_a_tail_from_the_end_of_the_bar_to_where_it_runs_out() {
    let mut coat = bar("Coat", 1.0, 2.0, State::ToCome);
    coat.latest = Some(4.0);
    // A day is 72 px: the bar ends at 144, the tail at 288 with its tick.
    let tail = tails(&row_of(vec![coat])).pop().unwrap();
    assert!(tail.starts_with("M144 "), "{tail}");
    assert!(tail.contains("H288m"), "{tail}");
}

#[test]
fn a_tail_stops_short_of_the_next_bar_and_has_no_tick_then() {
    let mut coat = bar("Coat", 1.0, 2.0, State::ToCome);
    coat.latest = Some(9.0);
    let next = bar("Paint", 3.0, 4.0, State::ToCome);
    let tail = tails(&row_of(vec![coat, next])).pop().unwrap();
    assert!(tail.ends_with("H213"), "{tail}");
}

#[test]
fn work_without_time_to_spare_has_no_tail() {
    let mut none = bar("Coat", 1.0, 2.0, State::ToCome);
    let mut same = bar("Paint", 3.0, 4.0, State::ToCome);
    let mut wrong = bar("Oil", 5.0, 6.0, State::ToCome);
    none.latest = None;
    same.latest = Some(4.0);
    wrong.latest = Some(f64::NAN);
    assert!(tails(&row_of(vec![none, same, wrong])).is_empty());
}

/// The mill has over 900 activities in some 30 places.
fn big_house(zoom: Zoom, days_seen: u32) -> Weeks {
    let places = |level: u32| {
        (0..8)
            .map(|at| {
                let bars = (0..29)
                    .map(|i| {
                        let from = f64::from(i) * 4.9 + f64::from((level + at) % 5);
                        let mut bar = bar("Second paint coat", from, from + 2.3, State::ToCome);
                        bar.said = "Second paint coat, wall to the tower, stair hall, Thu 11 June 7:00 to Fri 12 June noon".into();
                        bar
                    })
                    .collect();
                place(&format!("Room {level}{at}"), bars)
            })
            .collect()
    };
    let levels = (0..4)
        .map(|level| Level {
            name: format!("Level {level}"),
            height: String::new(),
            places: places(level),
        })
        .collect();
    Weeks {
        title: "All".into(),
        days: days(days_seen),
        levels,
        closures: vec![],
        today: 20.0,
        zoom,
    }
}

#[test]
fn nine_hundred_activities_stay_under_six_hundred_kilobytes() {
    let chart = big_house(Zoom::AllWeeks, 150);
    assert!(
        chart
            .levels
            .iter()
            .flat_map(|level| &level.places)
            .map(|place| place.bars.len())
            .sum::<usize>()
            >= 900
    );
    let drawn = weeks(&chart);
    assert!(drawn.matches("<a ").count() >= 900);
    assert!(drawn.len() < 600_000, "{} bytes", drawn.len());
}

#[test]
fn two_weeks_of_the_same_house_are_much_less() {
    let (all, two) = (
        weeks(&big_house(Zoom::AllWeeks, 150)),
        weeks(&big_house(Zoom::TwoWeeks, 14)),
    );
    assert!(
        two.len() * 3 < all.len(),
        "{} against {}",
        two.len(),
        all.len()
    );
}

#[test]
fn two_weeks_as_drawn() {
    insta::assert_snapshot!(weeks(&small_chart(Zoom::TwoWeeks)).replace("><", ">\n<"));
}
