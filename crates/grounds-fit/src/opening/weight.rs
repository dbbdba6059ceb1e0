//! How heavy a pane or leaf is, and how many people it takes.

/// A pane of glass, or a leaf of anything else in layers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pane {
    /// Width in mm.
    pub width: f64,
    /// Height in mm.
    pub height: f64,
    /// Thickness of all glass together in mm, as sold: 10 mm glass is 10 mm, though sold as 3/8 in.
    pub glass: f64,
    /// Thickness of the soft layers between in mm.
    pub between: f64,
}

/// How a weight is carried (common practice; the path, stairs and turns may ask for more, and a
/// glazier's judgement and local rules come first).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Handling {
    /// Up to 23 kg: one person, gloved, if he can grip it.
    One,
    /// Up to 46 kg: two people with gloves and cups, no more than 23 kg each.
    Two,
    /// Up to 90 kg: three or four people with cups, or a lifter.
    Four,
    /// Above: a suction lifter or hoist, with a plan for the path.
    Lifter,
}

impl Pane {
    /// Its weight in kg: 2.5 kg/m² per mm of glass (EN 572-1 \[published\]) and 1.07 kg/m² per mm of
    /// interlayer \[memory\].
    ///
    /// ```
    /// use grounds_fit::opening::{Handling, Pane};
    /// let door = Pane { width: 863.6, height: 2032.0, glass: 10.0, between: 0.0 };
    /// assert!((door.weight() - 43.9).abs() < 0.05);
    /// assert_eq!(door.handling(), Handling::Two);
    /// ```
    #[must_use]
    pub fn weight(&self) -> f64 {
        let square_metres = self.width * self.height / 1e6;
        square_metres * (2.5 * self.glass + 1.07 * self.between)
    }

    /// How it is carried.
    #[must_use]
    pub fn handling(&self) -> Handling {
        match self.weight() {
            kg if kg <= 23.0 => Handling::One,
            kg if kg <= 46.0 => Handling::Two,
            kg if kg <= 90.0 => Handling::Four,
            _ => Handling::Lifter,
        }
    }
}
