//! Where lettering and marks of a drawing are, read from its markup.

#![allow(dead_code, reason = "each test file uses a part")]

use crate::advances;
use crate::house_of_tests::{has_class, length};
use roxmltree::{Document, Node};

/// An upright box on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Spot {
    pub(crate) words: String,
    pub(crate) left: f64,
    pub(crate) top: f64,
    pub(crate) right: f64,
    pub(crate) foot: f64,
}

impl Spot {
    pub(crate) fn meets(&self, other: &Self) -> bool {
        let across = self.right.min(other.right) - self.left.max(other.left);
        let down = self.foot.min(other.foot) - self.top.max(other.top);
        across > 0.5 && down > 0.5
    }

    pub(crate) fn is_within(&self, width: f64, height: f64) -> bool {
        self.left >= -0.5
            && self.top >= -0.5
            && self.right <= width + 0.5
            && self.foot <= height + 0.5
    }
}

/// Width and height of the view box.
pub(crate) fn view(document: &Document<'_>) -> (f64, f64) {
    let svg = document
        .descendants()
        .find(|node| node.has_tag_name("svg"))
        .unwrap();
    let view: Vec<f64> = svg
        .attribute("viewBox")
        .unwrap()
        .split(' ')
        .map(|number| number.parse().unwrap())
        .collect();
    (view[2], view[3])
}

/// All lettering, from the tops of capitals to the feet of descenders (0.7 and 0.2 em, the font's `OS/2` table).
pub(crate) fn lettering(document: &Document<'_>, size: f64) -> Vec<Spot> {
    document
        .descendants()
        .filter(|node| node.has_tag_name("text"))
        .map(|node| {
            let words = node.text().unwrap_or("").to_owned();
            let wide = advances::width(&words, size, has_class(&node, "fit-strong"));
            let (x, y) = (length(&node, "x"), length(&node, "y"));
            let left = match node.attribute("text-anchor") {
                Some("middle") => x - wide / 2.0,
                Some("end") => x - wide,
                _ => x,
            };
            Spot {
                words,
                left,
                top: y - 0.7 * size,
                right: left + wide,
                foot: y + 0.2 * size,
            }
        })
        .collect()
}

/// All paths and circles.
pub(crate) fn marks(document: &Document<'_>) -> Vec<Spot> {
    let paths = document
        .descendants()
        .filter(|node| node.has_tag_name("path"))
        .map(|node| around(&node));
    let circles = document
        .descendants()
        .filter(|node| node.has_tag_name("circle"))
        .map(|node| {
            let (x, y, r) = (length(&node, "cx"), length(&node, "cy"), length(&node, "r"));
            Spot {
                words: "circle".into(),
                left: x - r,
                top: y - r,
                right: x + r,
                foot: y + r,
            }
        });
    paths.chain(circles).collect()
}

/// The box around the places of a path.
pub(crate) fn around(node: &Node<'_, '_>) -> Spot {
    let places = places(node.attribute("d").unwrap());
    let fold = |pick: fn(&(f64, f64)) -> f64| {
        places
            .iter()
            .map(pick)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), one| {
                (low.min(one), high.max(one))
            })
    };
    let ((left, right), (top, foot)) = (fold(|place| place.0), fold(|place| place.1));
    Spot {
        words: node.attribute("class").unwrap_or("").into(),
        left,
        top,
        right,
        foot,
    }
}

/// The places that a path of straight lines goes through.
pub(crate) fn places(data: &str) -> Vec<(f64, f64)> {
    let mut all = Vec::new();
    let (mut x, mut y) = (0.0, 0.0);
    let mut rest = data;
    while let Some(command) = rest.chars().next() {
        let end = rest[1..]
            .find(|c: char| c.is_ascii_alphabetic())
            .map_or(rest.len(), |at| at + 1);
        let numbers: Vec<f64> = rest[1..end]
            .split_whitespace()
            .map(|number| number.parse().unwrap())
            .collect();
        let pair = |at: usize| numbers.get(at).copied().unwrap();
        match command {
            'M' | 'L' => (x, y) = (pair(0), pair(1)),
            'm' | 'l' => (x, y) = (x + pair(0), y + pair(1)),
            'H' => x = pair(0),
            'V' => y = pair(0),
            'h' => x += pair(0),
            'v' => y += pair(0),
            'Z' => {}
            other => panic!("a path with {other}: {data}"),
        }
        all.push((x, y));
        rest = &rest[end..];
    }
    all
}
