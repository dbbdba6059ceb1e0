//! Nets of points, links and needs: stack-ups, levelling, shapes, set-outs, what to measure first.

#![allow(
    clippy::unwrap_used,
    reason = "what helpers of tests unwrap, a test would"
)]

#[path = "../drawn/mod.rs"]
mod drawn;

mod faults;
mod levelling;
mod measuring;
mod outliers;
mod set_outs;
mod shapes;
mod spreads;
mod stack_up;
mod worst_cases;

use grounds_fit::net::{Link, LinkKind, Need, Net, PointId, Shape};

fn link(from: u32, to: u32, kind: LinkKind) -> Link {
    Link {
        from: PointId(from),
        to: PointId(to),
        kind,
    }
}

fn built(from: u32, to: u32, nominal: f64, tolerance: f64) -> Link {
    shaped(from, to, nominal, (tolerance, tolerance), Shape::Normal)
}

fn shaped(from: u32, to: u32, nominal: f64, (minus, plus): (f64, f64), shape: Shape) -> Link {
    let kind = LinkKind::Built {
        nominal,
        minus,
        plus,
        shape,
    };
    link(from, to, kind)
}

fn read(from: u32, to: u32, reading: f64, sigma: f64) -> Link {
    link(from, to, LinkKind::Measured { reading, sigma })
}

fn set(from: u32, to: u32, low: f64, high: f64, within: f64) -> Link {
    let kind = LinkKind::Set {
        low,
        high,
        chosen: None,
        within,
        shape: Shape::Normal,
    };
    link(from, to, kind)
}

fn need(from: u32, to: u32, least: Option<f64>, most: Option<f64>) -> Need {
    Need {
        from: PointId(from),
        to: PointId(to),
        least,
        most,
    }
}

fn net(points: usize, links: Vec<Link>, needs: Vec<Need>) -> Net {
    Net {
        points,
        links,
        needs,
    }
}

#[track_caller]
fn close(is: f64, should: f64, within: f64) {
    assert!(
        (is - should).abs() <= within,
        "{is} instead of {should} within {within}"
    );
}
