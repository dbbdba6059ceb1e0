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
