//! Stack marks, sections and rooms.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot read its drawing has failed"
)]

mod house_of_tests;

use grounds_draw::{
    Face, FaceKind, Hatch, House, HouseLevel, Layer, Link, Room, State, Trouble, hatch_defs, house,
    sheet_key, stack_mark, stack_section,
};
use house_of_tests::{has_class, layer, length, read, skimmed_wall, with_class};

fn room(name: &str, faces: Vec<Face>) -> Room {
    Room {
        name: name.into(),
        next: "skim in hand".into(),
        href: Link::new("/place/3"),
        faces,
    }
}

fn one_room() -> House {
    let floor = Face {
        name: "Floor".into(),
        kind: FaceKind::Floor,
        layers: vec![
            layer("screed", Hatch::Screed, 65.0, State::Done),
            layer("stone", Hatch::Stone, 20.0, State::Next),
        ],
        pieces: vec![],
    };
    let rooms = vec![room("Wheel room", vec![floor, skimmed_wall()])];
    House {
        levels: vec![HouseLevel {
            name: "Mill floor".into(),
            height: "+1.30".into(),
            rooms,
        }],
    }
}

#[test]
fn each_state_has_its_own_line_in_the_mark() {
    read(
        &stack_mark("Finish coat", &skimmed_wall().layers),
        |document| {
            for (class, count) in [("done", 2), ("in-hand", 1), ("to-come", 1)] {
                let drawn = with_class(document, class);
                assert_eq!(drawn.len(), count, "{class}");
            }
            let to_come = with_class(document, "to-come");
            assert!(
                to_come[0].attribute("fill").is_none(),
                "what is to come is a dashed outline"
            );
            assert_eq!(
                with_class(document, "part").len(),
                1,
                "what is in hand is half filled"
            );
        },
    );
}

#[test]
fn the_mark_says_how_far_the_face_has_got() {
    let mark = stack_mark("Finish coat, wheel room", &skimmed_wall().layers);
    assert!(mark.contains("<title>Finish coat, wheel room: 2 of 4 layers done</title>"));
}

#[test]
fn trouble_has_a_shape_and_a_word_besides_its_colour() {
    let mut layers = skimmed_wall().layers;
    layers[2].trouble = Trouble::Breach;
    read(&stack_mark("Wall", &layers), |document| {
        assert_eq!(with_class(document, "sign-breach").len(), 1)
    });
    layers[2].trouble = Trouble::Care;
    let mark = stack_mark("Wall", &layers);
    assert!(mark.contains("sign-care") && mark.contains(", trouble</title>"));
}

#[test]
fn the_layers_of_a_mark_stand_side_by_side_inside_it() {
    read(&stack_mark("Wall", &skimmed_wall().layers), |document| {
        let svg = with_class(document, "stack-mark")[0];
        let mut rects: Vec<(f64, f64)> = document
            .descendants()
            .filter(|node| node.has_tag_name("rect") && !has_class(node, "part"))
            .map(|node| (length(&node, "x"), length(&node, "width")))
            .collect();
        rects.sort_by(|a, b| a.0.total_cmp(&b.0));
        for pair in rects.windows(2) {
            assert!(
                (pair[0].0 + pair[0].1 - pair[1].0).abs() <= 0.11,
                "{rects:?}"
            );
        }
        assert!(
            rects.first().unwrap().0 >= 0.0
                && rects.last().map(|(x, w)| x + w).unwrap() <= length(&svg, "width")
        );
    });
}

#[test]
fn a_face_of_sixty_coats_or_none_still_has_a_mark() {
    let coats: Vec<Layer> = (0..60)
        .map(|_| layer("coat", Hatch::Paint, 0.1, State::ToCome))
        .collect();
    read(&stack_mark("Wall", &coats), |document| {
        assert_eq!(with_class(document, "to-come").len(), 60)
    });
    read(&stack_mark("Wall", &[]), |document| {
        assert_eq!(with_class(document, "to-come").len(), 1)
    });
}

#[test]
fn a_section_names_every_layer_and_piece_and_its_leaders_cross_no_name() {
    read(&stack_section(&skimmed_wall()), |document| {
        let words: Vec<&str> = with_class(document, "name")
            .iter()
            .filter_map(roxmltree::Node::text)
            .collect();
        assert_eq!(
            words,
            [
                "stud",
                "board",
                "finish coat, in hand",
                "two paint coats, to come",
                "glass channel"
            ]
        );
        let names: Vec<(f64, f64)> = with_class(document, "name")
            .iter()
            .map(|node| (length(node, "x"), length(node, "y")))
            .collect();
        for pair in names[..4].windows(2) {
            assert!(
                pair[0].0 < pair[1].0 && pair[0].1 < pair[1].1,
                "names step down to the right"
            );
        }
    });
}

#[test]
fn figures_of_the_dimension_string_do_not_overlap() {
    let mut face = skimmed_wall();
    for layer in &mut face.layers {
        layer.thickness_words = "11.5 ±0.5".into();
    }
    read(&stack_section(&face), |document| {
        let figures: Vec<(f64, f64)> = with_class(document, "figure")
            .iter()
            .map(|node| (length(node, "x"), length(node, "y")))
            .collect();
        assert_eq!(figures.len(), 4);
        for (i, a) in figures.iter().enumerate() {
            for b in &figures[i + 1..] {
                assert!(
                    (a.1 - b.1).abs() >= 15.0 || (a.0 - b.0).abs() >= 55.0,
                    "{a:?} {b:?}"
                );
            }
        }
    });
}

#[test]
fn a_room_is_drawn_with_a_stack_on_each_side_it_has() {
    read(&house(&one_room()), |document| {
        let section = with_class(document, "room-section")[0];
        let rects: Vec<_> = section
            .descendants()
            .filter(|node| {
                ["done", "next", "in-hand", "to-come"]
                    .iter()
                    .any(|state| has_class(node, state))
            })
            .collect();
        assert_eq!(rects.len(), 6, "two layers underfoot and four on the wall");
        let words: Vec<&str> = section
            .descendants()
            .filter(|node| has_class(node, "room-count"))
            .filter_map(|node| node.text())
            .collect();
        assert_eq!(words, ["3 of 6"]);
    });
}

#[test]
fn the_house_can_be_heard() {
    let drawn = house(&one_room());
    assert!(drawn.contains("Wheel room. Floor: 1 of 2 layers done, stone can start. Wall to the tower: 2 of 4 layers done, finish coat in hand"));
}

#[test]
fn every_hatch_that_a_drawing_refers_to_is_on_the_sheet_once() {
    let defs = hatch_defs();
    let key = sheet_key(&Hatch::ALL);
    let drawn = format!(
        "{}{}{key}",
        house(&one_room()),
        stack_section(&skimmed_wall())
    );
    let mut seen = 0;
    for rest in drawn.split("url(#").skip(1) {
        let id = rest.split(')').next().unwrap();
        assert_eq!(defs.matches(&format!("id=\"{id}\"")).count(), 1, "{id}");
        seen += 1;
    }
    assert!(seen > 20);
    assert!(defs.len() < 16_000, "{} bytes of hatches", defs.len());
}

#[test]
fn the_stack_mark_as_drawn() {
    insta::assert_snapshot!(
        stack_mark("Finish coat", &skimmed_wall().layers).replace("><", ">\n<")
    );
}

#[test]
fn the_section_as_drawn() {
    insta::assert_snapshot!(stack_section(&skimmed_wall()).replace("><", ">\n<"));
}

#[test]
fn the_house_as_drawn() {
    insta::assert_snapshot!(house(&one_room()).replace("><", ">\n<"));
}
