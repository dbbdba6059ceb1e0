//! Timber moves across its grain: how much wider and narrower a piece gets over the year.
//!
//! It moves where the document names its wood, among the figures of the piece, of its place or of the
//! whole house: `wood`, and where they are known `sawn`, `board-make`, `engineered-share`,
//! `board-moisture`, `room-temperature`, `humidity-driest`, `humidity-dampest`, as rules read them too.

use grounds_fit::{
    net::{LinkKind, PointId, Shape},
    wood::{Sawn, Species, change, moisture_in_celsius},
};
use grounds_measure::{Humidity, Temperature};
use grounds_model::{Figures, Id, Material, Piece};

use super::{Lines, design, key_ref};
use crate::said;

/// The moisture that joinery for heated rooms leaves the shop with, in percent: the mean for most of
/// the United States and about that of heated houses in Europe (USDA Wood Handbook, table 13-2, from
/// memory).
const MADE_AT: f64 = 8.0;

/// A lived-in room, in °C (common practice).
const ROOM: f64 = 20.0;

/// The driest and the dampest weeks of a heated house, in percent of humidity (common practice; 30 to
/// 50 is what makers of floors ask for).
const YEAR: (f64, f64) = (30.0, 55.0);

/// What boards glued crosswise move, as a share of solid wood (common practice: 10 to 30 %).
const CROSSWISE: f64 = 0.2;

impl Lines<'_> {
    /// The far edge of a piece over the year, given its far edge as made: the same where it is no timber,
    /// or where nobody has named its wood.
    pub(super) fn over_the_year(&mut self, id: &Id, width: f64, far: PointId) -> PointId {
        let Some(piece) = self.job.pieces.get(id) else {
            return far;
        };
        let Some(year) = self.year_of(piece) else {
            return far;
        };
        let (shrinks, grows) = year.moves(width);
        let (about, name) = (key_ref(id), said::piece(self.job, id));
        let moved = self.point(
            format!("the far edge of {name} over the year"),
            about.clone(),
        );
        let kind = LinkKind::Built {
            nominal: 0.0,
            minus: shrinks,
            plus: grows,
            // Some time of the year it is as wide as any of it.
            shape: Shape::Even,
        };
        let label = format!("what {name} moves over the year, {}", year.said);
        self.tie_points((far, moved), kind, design(label, about, false));
        moved
    }

    fn year_of(&self, piece: &Piece) -> Option<Year> {
        if piece.material != Some(Material::Timber) {
            return None;
        }
        let place = self.job.places.get(&piece.place);
        let whole = self.job.rules.as_ref().map(|rules| &rules.figures);
        let scopes: Vec<&Figures> = [Some(&piece.figures), place.map(|p| &p.figures), whole]
            .into_iter()
            .flatten()
            .collect();
        Year::of(&scopes)
    }
}

/// A wood over a year.
struct Year {
    /// Change of width per percent of moisture, as a fraction.
    coefficient: f64,
    made_at: f64,
    driest: f64,
    dampest: f64,
    said: String,
}

impl Year {
    /// What figures say, the nearest first; none where no wood is named.
    fn of(scopes: &[&Figures]) -> Option<Self> {
        let text = |key: &str| {
            let found = scopes.iter().find_map(|figures| figures.get(key));
            found.map(|figure| figure.as_str().trim())
        };
        let percent = |key: &str| Some(text(key)?.parse::<Humidity>().ok()?.percent());
        let wood = named(text("wood")?)?;
        let sawn = match text("sawn") {
            Some("quarter") => Sawn::Quarter,
            _ => Sawn::Flat,
        };
        let share = match text("board-make") {
            Some("engineered") => percent("engineered-share").map_or(CROSSWISE, |p| p / 100.0),
            _ => 1.0,
        };
        let celsius = text("room-temperature")
            .and_then(|text| text.parse::<Temperature>().ok())
            .map_or(ROOM, Temperature::celsius);
        let moisture = |key, usual| {
            moisture_in_celsius(celsius, percent(key).unwrap_or(usual).clamp(1.0, 95.0))
        };
        let (driest, dampest) = (
            moisture("humidity-driest", YEAR.0),
            moisture("humidity-dampest", YEAR.1),
        );
        let how = match sawn {
            Sawn::Flat => "sawn flat",
            Sawn::Quarter => "sawn to quarter",
        };
        Some(Self {
            coefficient: wood.coefficient(sawn) * share,
            made_at: percent("board-moisture").unwrap_or(MADE_AT),
            driest,
            dampest,
            said: format!(
                "{} {how}, {driest:.1} to {dampest:.1} % of moisture",
                wood.name
            ),
        })
    }

    /// How much narrower and how much wider than as made, in mm, neither below zero.
    fn moves(&self, width: f64) -> (f64, f64) {
        let to = |moisture| change(width, self.coefficient, self.made_at, moisture);
        let least = to(self.driest).min(to(self.dampest));
        let most = to(self.driest).max(to(self.dampest));
        ((-least).max(0.0), most.max(0.0))
    }
}

/// The wood of a figure's word: `white-oak`, or the first of its kind: `douglas-fir`.
fn named(word: &str) -> Option<&'static Species> {
    let name = word.to_lowercase().replace(['-', '_'], " ");
    let alike = |species: &&Species| {
        let kind = species.name.replace('-', " ");
        kind.split(',').next() == Some(name.as_str())
    };
    Species::named(&name).or_else(|| Species::ALL.iter().find(alike))
}
