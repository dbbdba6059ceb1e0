//! The value of a reading.

use grounds_measure::{Humidity, Temperature, Units};
use grounds_model::{Material, Target};
use grounds_site::Value;

use super::Desk;
use crate::{
    numbers::{Amount, Role, Unit},
    proposals::{Proposal, Reading},
};

/// The longest name and figure of a reading, in characters.
const LONGEST: usize = 150;

impl Desk<'_> {
    /// What was read, as the fold and the fits understand it: moisture of a screed as the hygrometer
    /// gives it, moisture of timber by its name, a single length as a length, several in one reading.
    pub(super) fn read(&self, proposal: &Proposal, target: Option<&Target>) -> Option<Value> {
        let found: Vec<&Reading> = proposal
            .readings
            .iter()
            .filter(|reading| reading.role == Role::Found)
            .collect();
        let found = if found.is_empty() {
            proposal.readings.iter().collect()
        } else {
            found
        };
        let first = *found.first()?;
        // Of readings of several kinds the first kind stands here; the words keep the others.
        let found: Vec<&Reading> = found
            .into_iter()
            .filter(|reading| reading.amount.unit == first.amount.unit)
            .collect();
        if found.len() > 1 {
            return Some(Value::Reading {
                what: cut(&proposal.thing),
                figure: cut(&list(&found)),
            });
        }
        Some(self.one(proposal, first, target))
    }

    fn one(&self, proposal: &Proposal, reading: &Reading, target: Option<&Target>) -> Value {
        let amount = &reading.amount;
        let plain = || Value::Reading {
            what: cut(&proposal.thing),
            figure: cut(&printed(amount)),
        };
        if let Some(length) = amount.length() {
            return Value::Length(length);
        }
        match amount.unit {
            Unit::Percent if self.is_timber(target) => Value::Reading {
                what: "moisture".to_owned(),
                figure: printed(amount),
            },
            Unit::Percent => Humidity::from_percent_f64(amount.number.as_f64())
                .map_or_else(plain, Value::Humidity),
            Unit::Celsius | Unit::Fahrenheit | Unit::Degree => {
                let unit = match (amount.unit, self.vocabulary.units) {
                    (Unit::Fahrenheit, _) | (Unit::Degree, Units::Imperial) => "F",
                    _ => "C",
                };
                let read = format!("{} {unit}", amount.number.as_f64());
                read.parse::<Temperature>()
                    .map_or_else(|_| plain(), Value::Temperature)
            }
            _ => plain(),
        }
    }

    /// Whether moisture is read there as a part of the weight of wood.
    fn is_timber(&self, target: Option<&Target>) -> bool {
        let Some(Target::Layer(key)) = target else {
            return matches!(target, Some(Target::Piece(_)));
        };
        let layer = self.job.layer(key);
        layer.is_some_and(|layer| matches!(layer.material, Material::Timber | Material::Sheet))
    }
}

fn list(readings: &[&Reading]) -> String {
    let one = |reading: &&Reading| match reading.at.as_str() {
        "" => printed(&reading.amount),
        at => format!("{} ({at})", printed(&reading.amount)),
    };
    let all: Vec<String> = readings.iter().map(one).collect();
    all.join(", ")
}

/// `74 %`, `12 mm`
fn printed(amount: &Amount) -> String {
    format!("{} {}", amount.number, amount.unit)
        .trim_end()
        .to_owned()
}

fn cut(text: &str) -> String {
    let text: String = text
        .chars()
        .filter(|c| !c.is_control())
        .take(LONGEST)
        .collect();
    if text.trim().is_empty() {
        "reading".to_owned()
    } else {
        text
    }
}
