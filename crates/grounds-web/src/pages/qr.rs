//! An address as a square of dots that cameras read (ISO/IEC 18004).

use std::fmt::Write;

use maud::{Markup, html};
use qrcode::{Color, EcLevel, QrCode};

/// The quiet margin, in dots, that the standard asks for.
const MARGIN: usize = 4;

/// The square; nothing for an address that is too long for one.
pub(crate) fn drawn(address: &str) -> Markup {
    let Ok(code) = QrCode::with_error_correction_level(address, EcLevel::M) else {
        return html! {};
    };
    let width = code.width();
    let side = width + 2 * MARGIN;
    html! {
        svg class="qr" role="img" aria-label="The address to join at, for a camera"
            viewBox={ "0 0 " (side) " " (side) } shape-rendering="crispEdges" {
            rect class="qr-paper" width=(side) height=(side) {}
            path class="qr-ink" d=(runs(&code.to_colors(), width)) {}
        }
    }
}

/// Dark dots as rectangles, one for each run along a row.
fn runs(dots: &[Color], width: usize) -> String {
    let mut path = String::new();
    for (y, row) in dots.chunks(width).enumerate() {
        let mut x = 0;
        while x < row.len() {
            let length = row
                .iter()
                .skip(x)
                .take_while(|dot| **dot == Color::Dark)
                .count();
            if length > 0 {
                // Writing to a text cannot fail.
                let _ = write!(path, "M{} {}h{length}v1h-{length}z", x + MARGIN, y + MARGIN);
            }
            x += length.max(1);
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dark_dots_of_a_row_are_drawn_in_one_piece() {
        use Color::{Dark, Light};
        let dots = [Dark, Dark, Light, Light, Light, Dark];
        assert_eq!(runs(&dots, 3), "M4 4h2v1h-2zM6 5h1v1h-1z");
    }

    #[test]
    fn an_address_with_its_code_fits_a_small_square() {
        let drawn =
            drawn("https://192.168.100.200:4443/join?code=scaffold-baluster-parquet-flashing");
        assert!(
            drawn.0.contains("viewBox=\"0 0 45 45\""),
            "{}",
            &drawn.0[..200]
        );
    }
}
