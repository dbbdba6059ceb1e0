//! Where a drawing is looked at: on a phone, at a desk or on a printed sheet.

/// Where a drawing is looked at. All drawings of fit are laid out anew for each, so that lettering keeps its size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Medium {
    /// A phone: 320 px wide, which is what a screen of 360 px leaves between its margins. Lettering of 15 px.
    Phone,
    /// A desk: 720 px wide. Lettering of 15 px.
    Desk,
    /// A printed sheet, 186 mm wide (A4 and Letter with margins of 12 mm), true to the scale given when printed at full
    /// size. Lettering of 9 pt.
    Paper(Scale),
}

/// Scale of a printed drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Scale {
    /// As large as life, 1:1.
    Full,
    /// 1:2.
    Half,
    /// 1:5.
    Fifth,
}

impl Scale {
    /// From the largest to the smallest.
    pub const ALL: [Self; 3] = [Self::Full, Self::Half, Self::Fifth];

    /// How many millimetres of the house one millimetre of paper stands for.
    #[must_use]
    pub fn divisor(self) -> f64 {
        match self {
            Self::Full => 1.0,
            Self::Half => 2.0,
            Self::Fifth => 5.0,
        }
    }

    /// "1:5".
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Full => "1:1",
            Self::Half => "1:2",
            Self::Fifth => "1:5",
        }
    }
}

/// Units of the job: what a scale bar is divided in. All lengths given to drawings are millimetres, whatever the units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    /// Millimetres.
    #[default]
    Millimetres,
    /// Inches.
    Inches,
}

/// Pixels of CSS in a millimetre of paper: 96 px are 25.4 mm (CSS Values and Units, section 6.2, absolute lengths).
pub(crate) const PX_PER_MM: f64 = 96.0 / 25.4;

/// The round scales of building drawings (ISO 5455, published), as divisors.
const ROUND: [f64; 9] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0];

/// How large the house is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Enlargement {
    /// Pixels for a millimetre of the house.
    pub(crate) px: f64,
    /// On paper, how many millimetres one stands for.
    pub(crate) divisor: Option<f64>,
}

impl Medium {
    /// Width of the drawing in pixels.
    pub(crate) fn width(self) -> f64 {
        match self {
            Self::Phone => 320.0,
            Self::Desk => 720.0,
            Self::Paper(_) => 703.0,
        }
    }

    /// Whether names have room beside the drawing.
    pub(crate) fn is_wide(self) -> bool {
        self != Self::Phone
    }

    /// Size of the lettering in pixels.
    pub(crate) fn size(self) -> f64 {
        match self {
            Self::Paper(_) => 12.0,
            _ => 15.0,
        }
    }

    /// From one line of lettering to the next, in pixels.
    pub(crate) fn line(self) -> f64 {
        match self {
            Self::Paper(_) => 16.0,
            _ => 20.0,
        }
    }

    pub(crate) fn class(self) -> &'static str {
        match self {
            Self::Phone => "fit-phone",
            Self::Desk => "fit-desk",
            Self::Paper(_) => "fit-paper",
        }
    }

    /// How large to draw `extent` millimetres in `room` pixels: on a screen as large as it goes up to `most` pixels for a
    /// millimetre; on paper at the largest round scale that fits and is not larger than the one asked for.
    pub(crate) fn enlargement(self, extent: f64, room: f64, most: f64) -> Enlargement {
        let px = (room / extent.max(1e-6)).min(most);
        let Self::Paper(scale) = self else {
            return Enlargement { px, divisor: None };
        };
        let fits =
            |divisor: f64| divisor >= scale.divisor() && extent * PX_PER_MM / divisor <= room;
        ROUND.into_iter().find(|divisor| fits(*divisor)).map_or(
            Enlargement { px, divisor: None },
            |divisor| Enlargement {
                px: PX_PER_MM / divisor,
                divisor: Some(divisor),
            },
        )
    }
}

/// A drawing laid out for the phone, the desk and the printed sheet, as HTML; the style sheet shows the one that fits
/// where it is looked at. Words in it are the drawing's own, so they are heard once.
///
/// ```
/// use grounds_draw::{Medium, Scale, on_every_medium};
/// let markup = on_every_medium(Scale::Half, |medium| format!("<p>{medium:?}</p>"));
/// assert!(markup.starts_with("<div class=\"at-phone\"><p>Phone</p></div>"));
/// assert!(markup.contains("<p>Paper(Half)</p>"));
/// ```
#[must_use]
pub fn on_every_medium(scale: Scale, draw: impl Fn(Medium) -> String) -> String {
    let media = [
        ("at-phone", Medium::Phone),
        ("at-desk", Medium::Desk),
        ("on-paper", Medium::Paper(scale)),
    ];
    media
        .into_iter()
        .map(|(class, medium)| format!("<div class=\"{class}\">{}</div>", draw(medium)))
        .collect()
}
