//! From answers to what drawings are drawn from.

mod bands;
mod planes;
mod section;
mod stairs;

use grounds_draw::{Hatch, State, Units, Verdict as Drawn};
use grounds_fit::{
    adjust::Adjustment,
    net::{LinkKind, PointId},
};
use grounds_lines::{
    answers::Verdict,
    lines::{Lines, Sign},
    said,
};
use grounds_measure as measure;
use grounds_model::{Id, Layer, LayerKey, Material, Ref};
use grounds_site::Subject;

pub(crate) use bands::bands;
pub(crate) use planes::{control_of, planes};
pub(crate) use stairs::stairs;

/// Nineteen cases of twenty lie within so many standard deviations.
const NINETEEN_IN_TWENTY: f64 = 1.96;

/// The lines of a house with their figures.
pub(crate) struct Drawing<'a> {
    pub(crate) lines: &'a Lines<'a>,
    pub(crate) adjusted: &'a Adjustment,
}

impl Drawing<'_> {
    /// How far a point lies out of a face, from another: its mean and nineteen cases of twenty.
    fn out(&self, sign: Sign, from: PointId, to: PointId) -> Option<(f64, f64)> {
        let (mean, spread) = self.adjusted.distance(from, to)?;
        let mean = match sign {
            Sign::Along => mean,
            Sign::Against => -mean,
        };
        Some((mean, NINETEEN_IN_TWENTY * spread))
    }

    /// A distance as drawings letter it: without its unit where that goes without saying.
    fn figure(&self, mm: f64) -> String {
        bare(&said::length(mm, self.lines.units()))
    }

    /// `±1.6`, or nothing.
    fn within(&self, mm: f64) -> String {
        if mm < 0.01 {
            return String::new();
        }
        format!("±{}", self.figure(mm))
    }

    fn units(&self) -> Units {
        units(self.lines.units())
    }

    /// How far a layer has got.
    fn layer_state(&self, key: &LayerKey) -> State {
        self.state(&Subject::Layer(key.clone()))
    }

    fn state(&self, subject: &Subject) -> State {
        let state = self.lines.site.state(subject);
        if state.done.is_some() {
            State::Done
        } else if state.started.is_some() {
            let percent = state.progress.map_or(50, |(share, _)| whole(share));
            State::InHand { percent }
        } else {
            State::ToCome
        }
    }

    /// The tolerance of the figures that say how thick a layer is.
    fn tolerance(&self, links: &[grounds_fit::net::LinkId]) -> f64 {
        let link = links
            .first()
            .and_then(|link| self.lines.net.links.get(link.index()));
        link.map_or(0.0, |link| match link.kind {
            LinkKind::Measured { sigma, .. } => 2.0 * sigma,
            kind => {
                let (minus, plus) = kind.tolerance();
                minus.max(plus)
            }
        })
    }
}

/// Whole per cent.
fn whole(share: measure::Percent) -> u8 {
    u8::try_from(share.hundredths() / 100).unwrap_or(100)
}

/// The units of a scale bar.
pub(crate) fn units(units: measure::Units) -> Units {
    match units {
        measure::Units::Metric => Units::Millimetres,
        measure::Units::Imperial => Units::Inches,
    }
}

/// A length without the unit that goes without saying on a drawing.
pub(crate) fn bare(figure: &str) -> String {
    let figure = figure.strip_suffix(" mm").unwrap_or(figure);
    match figure.strip_suffix('"') {
        Some(inches) if !inches.contains('\'') => inches.to_owned(),
        _ => figure.to_owned(),
    }
}

/// How a verdict is drawn.
fn verdict(verdict: Verdict) -> Drawn {
    match verdict {
        Verdict::Holds => Drawn::Holds,
        Verdict::Tight | Verdict::CannotTell => Drawn::Tight,
        Verdict::Fails => Drawn::Fails,
    }
}

/// What a structure is likely to be, by what is fixed to it: a hatch is better than a blank.
fn structure_hatch(layers: &[&Layer]) -> Hatch {
    match layers.first().map(|layer| layer.material) {
        Some(Material::Plaster | Material::Lime | Material::Stone | Material::Masonry) => {
            Hatch::Stone
        }
        Some(Material::Screed | Material::Membrane | Material::Tile | Material::Adhesive) => {
            Hatch::Concrete
        }
        Some(_) => Hatch::Timber,
        None => Hatch::Void,
    }
}

/// The layers of a face.
fn layers<'a>(lines: &Lines<'a>, place: &Id, face: &Id) -> Vec<&'a Layer> {
    let job = lines.job;
    let found = job.face(place.as_str(), face.as_str());
    let build_up = found.and_then(|face| job.build_up(face));
    build_up.map_or_else(Vec::new, |build_up| build_up.layers.iter().collect())
}

fn ref_of(id: &Id) -> Ref {
    Ref(id.0.clone())
}

/// A name for the middle of a sentence, its article gone: `stair glass`.
fn plain(name: &str) -> String {
    name.strip_prefix("the ").unwrap_or(name).to_owned()
}
