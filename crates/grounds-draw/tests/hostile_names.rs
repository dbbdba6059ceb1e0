//! Every word is the user's, and may be meant ill.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot read its drawing has failed"
)]

mod house_of_tests;

use grounds_draw::{
    House, HouseLevel, Link, Room, Zoom, hatch_defs, house, sheet_key, stack_mark, stack_section,
    weeks,
};
use house_of_tests::{read, skimmed_wall, small_chart};

const NAMES: [&str; 5] = [
    "</text><script>alert(1)</script>",
    "\"><image href=\"//elsewhere/x.png\" onload=\"alert(1)\"/>",
    "' onfocus='alert(1)",
    "&lt;b&gt; \u{0}\u{8}\u{1b}[2J \u{202e}reversed\u{2066}",
    "]]><!--",
];

fn drawings_with(name: &str) -> Vec<String> {
    let mut face = skimmed_wall();
    face.name = name.into();
    for layer in &mut face.layers {
        layer.name = name.into();
        layer.thickness_words = name.into();
    }
    face.pieces[0].name = name.into();

    let mut chart = small_chart(Zoom::TwoWeeks);
    chart.title = name.into();
    chart.closures[0].reason = name.into();
    for day in &mut chart.days {
        day.weekday = name.into();
        day.date = name.into();
    }
    for level in &mut chart.levels {
        level.name = name.into();
        level.height = name.into();
        for place in &mut level.places {
            place.name = name.into();
            place
                .bars
                .iter_mut()
                .for_each(|bar| (bar.label, bar.said) = (name.into(), name.into()));
            place
                .marks
                .iter_mut()
                .for_each(|mark| mark.said = name.into());
        }
    }
    let room = Room {
        name: name.into(),
        next: name.into(),
        href: Link::new(&format!("/place/{name}")),
        faces: vec![face.clone()],
    };
    let level = HouseLevel {
        name: name.into(),
        height: name.into(),
        rooms: vec![room],
    };
    vec![
        weeks(&chart),
        stack_mark(name, &face.layers),
        stack_section(&face),
        house(&House {
            levels: vec![level],
        }),
    ]
}

#[test]
fn a_name_that_is_markup_adds_no_element_and_no_attribute() {
    for name in NAMES {
        for drawn in &drawings_with(name) {
            read(drawn, |document| {
                for node in document.descendants().filter(roxmltree::Node::is_element) {
                    assert!(
                        !["script", "image"].contains(&node.tag_name().name()),
                        "{node:?}"
                    );
                    assert!(
                        node.attributes()
                            .all(|attribute| !attribute.name().starts_with("on")),
                        "{node:?}"
                    );
                }
            });
        }
    }
}

#[test]
fn no_drawing_asks_another_server_for_anything() {
    let mut all = drawings_with("Wall");
    all.extend([hatch_defs(), sheet_key(&grounds_draw::Hatch::ALL)]);
    for drawn in all {
        assert!(!drawn.contains("http:") && !drawn.contains("https:") && !drawn.contains("\"//"));
        assert!(
            !drawn.contains("style="),
            "a strict style policy of the page must hold"
        );
        read(&drawn, |document| {
            for node in document.descendants() {
                for attribute in node.attributes() {
                    let outward = ["src", "srcset", "data"].contains(&attribute.name());
                    assert!(!outward, "{attribute:?}");
                    if attribute.name() == "href" {
                        assert!(Link::new(attribute.value()).is_some(), "{attribute:?}");
                    }
                    if attribute.value().contains("url(") {
                        assert!(attribute.value().starts_with("url(#h-"), "{attribute:?}");
                    }
                }
            }
        });
    }
}

#[test]
fn a_link_that_leaves_the_house_is_refused() {
    for address in [
        "javascript:alert(1)",
        "//elsewhere",
        "/\\elsewhere",
        "https:elsewhere",
        "why/1",
        "",
        "/why\n/1",
        " /why",
    ] {
        assert_eq!(Link::new(address), None, "{address}");
    }
    for address in ["/why/1", "?weeks=2", "#a-412"] {
        assert!(Link::new(address).is_some(), "{address}");
    }
}

#[test]
fn a_name_without_end_does_not_swell_the_page() {
    let name = "plaster ".repeat(16_384);
    for drawn in drawings_with(&name).into_iter().skip(1) {
        assert!(drawn.len() < 40_000, "{} bytes", drawn.len());
    }
}
