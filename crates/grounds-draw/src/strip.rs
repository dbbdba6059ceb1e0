//! A stack drawn as a strip: the one drawing that mark, section and room share.

use crate::hatch::{Hatch, fill};
use crate::ink::{Frame, Ink};
use crate::stack::{Layer, State, Trouble};

/// Where the structure lies; the layers grow away from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Structure {
    Left,
    Right,
    Below,
    Above,
}

impl Structure {
    fn grows_sideways(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }
}

/// How much of a layer's hatch is drawn while it is still to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum ToCome {
    /// The outline only: for drawings too small to hatch twice.
    Outline,
    /// Soft hatch inside the dashed outline.
    Hatched,
}

/// Thickness of each layer in pixels: square roots shared out over `length`, none below `least`. Adds up to `length`
/// unless there are so many layers that even `least` each is too much; then they share it evenly.
pub(crate) fn depths(layers: &[Layer], length: f64, least: f64) -> Vec<f64> {
    let count = layers.len();
    if count == 0 {
        return Vec::new();
    }
    let even = length / count_of(count);
    if even <= least {
        return vec![even; count];
    }
    let roots: Vec<f64> = layers.iter().map(|layer| root(layer.thickness)).collect();
    let sum: f64 = roots.iter().sum();
    let free = length - least * count_of(count);
    roots.iter().map(|root| least + free * root / sum).collect()
}

#[expect(clippy::cast_precision_loss, reason = "a face has a handful of layers")]
fn count_of(count: usize) -> f64 {
    count as f64
}

fn root(thickness: f64) -> f64 {
    if thickness.is_finite() {
        thickness.clamp(0.01, 10_000.0).sqrt()
    } else {
        0.1
    }
}

/// The frame of each layer of a strip that fills `frame`.
pub(crate) fn frames(
    layers: &[Layer],
    frame: Frame,
    structure: Structure,
    least: f64,
) -> Vec<Frame> {
    let length = if structure.grows_sideways() {
        frame.width
    } else {
        frame.height
    };
    let mut from = 0.0;
    depths(layers, length, least)
        .into_iter()
        .map(|depth| {
            let placed = place(frame, structure, from, depth);
            from += depth;
            placed
        })
        .collect()
}

fn place(frame: Frame, structure: Structure, from: f64, depth: f64) -> Frame {
    match structure {
        Structure::Left => Frame {
            x: frame.x + from,
            width: depth,
            ..frame
        },
        Structure::Right => Frame {
            x: frame.x + frame.width - from - depth,
            width: depth,
            ..frame
        },
        Structure::Above => Frame {
            y: frame.y + from,
            height: depth,
            ..frame
        },
        Structure::Below => Frame {
            y: frame.y + frame.height - from - depth,
            height: depth,
            ..frame
        },
    }
}

/// Draws the layers: first those to come, then the others over them, so that a dashed line never lies on a firm one.
pub(crate) fn draw_strip(
    ink: &mut Ink,
    layers: &[Layer],
    frames: &[Frame],
    structure: Structure,
    to_come: ToCome,
) {
    let order = |layer: &Layer| match layer.state {
        State::ToCome => 0,
        State::Done => 1,
        State::InHand { .. } | State::Next => 2,
    };
    for turn in 0..3 {
        for (layer, frame) in layers
            .iter()
            .zip(frames)
            .filter(|(layer, _)| order(layer) == turn)
        {
            draw_layer(ink, layer, *frame, structure, to_come);
        }
    }
    for (layer, frame) in layers.iter().zip(frames) {
        sign(
            ink,
            layer.trouble,
            frame.x + frame.width / 2.0,
            frame.y + frame.height / 2.0,
        );
    }
}

fn draw_layer(ink: &mut Ink, layer: &Layer, frame: Frame, structure: Structure, to_come: ToCome) {
    let bare = layer.state == State::ToCome && to_come == ToCome::Outline;
    ink.open("rect").class(layer.state.class()).frame(frame);
    if !bare {
        ink.word("fill", &fill(layer.hatch, layer.state.tone()));
    }
    ink.shut();
    if let Some(share) = layer.state.share_in_hand() {
        let upright = structure.grows_sideways();
        finished_part(ink, layer.hatch, part_of(frame, share, upright));
    }
}

/// The finished part of work in hand: filled, with no line of its own.
pub(crate) fn finished_part(ink: &mut Ink, hatch: Hatch, part: Frame) {
    if part.width < 0.5 || part.height < 0.5 {
        return;
    }
    ink.open("rect").class("part").frame(part);
    ink.word("fill", &fill(hatch, crate::hatch::Tone::Filled))
        .shut();
}

fn part_of(frame: Frame, share: f64, upright: bool) -> Frame {
    let (x, y, inset) = (frame.x + 1.0, frame.y + 1.0, 2.0);
    let (width, height) = (
        (frame.width - inset).max(0.0),
        (frame.height - inset).max(0.0),
    );
    if upright {
        let part = height * share;
        Frame {
            x,
            y: y + height - part,
            width,
            height: part,
        }
    } else {
        Frame {
            x,
            y,
            width: width * share,
            height,
        }
    }
}

/// The sign of trouble, centred on a point: a triangle for care, a cross for a breach.
pub(crate) fn sign(ink: &mut Ink, trouble: Trouble, x: f64, y: f64) {
    let at = |dx: f64, dy: f64| {
        format!(
            "{} {}",
            crate::ink::number(x + dx),
            crate::ink::number(y + dy)
        )
    };
    match trouble {
        Trouble::None => {}
        Trouble::Care => {
            let data = format!(
                "M{}L{}L{}zM{}V{}",
                at(0.0, -6.5),
                at(6.5, 5.0),
                at(-6.5, 5.0),
                at(0.0, -2.5),
                crate::ink::number(y + 1.5)
            );
            ink.path("sign-care", &data);
        }
        Trouble::Breach => {
            let data = format!(
                "M{}L{}M{}L{}",
                at(-4.5, -4.5),
                at(4.5, 4.5),
                at(4.5, -4.5),
                at(-4.5, 4.5)
            );
            ink.path("sign-breach", &data);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layer(thickness: f64) -> Layer {
        Layer {
            name: "coat".into(),
            hatch: Hatch::Plaster,
            thickness,
            thickness_words: String::new(),
            state: State::Done,
            trouble: Trouble::None,
        }
    }

    #[test]
    fn the_layers_of_a_wall_fill_its_depth_exactly() {
        let layers = [38.0, 15.0, 11.5, 0.2].map(layer);
        let sum: f64 = depths(&layers, 42.0, 4.0).iter().sum();
        assert!((sum - 42.0).abs() < 1e-9);
    }

    #[test]
    fn paint_beside_a_stud_stays_visible() {
        let depths = depths(&[89.0, 0.1].map(layer), 42.0, 4.0);
        assert!(depths[1] >= 4.0 && depths[0] > 5.0 * depths[1]);
    }

    #[test]
    fn a_thickness_that_is_no_number_is_drawn_thin_and_harms_nothing() {
        let depths = depths(&[f64::NAN, -3.0, f64::INFINITY, 12.0].map(layer), 42.0, 4.0);
        assert!(depths.iter().all(|depth| depth.is_finite() && *depth > 0.0));
    }

    #[test]
    fn sixty_coats_share_the_width_there_is() {
        let sum: f64 = depths(&vec![layer(1.0); 60], 42.0, 4.0).iter().sum();
        assert!((sum - 42.0).abs() < 1e-9);
    }
}
