//! Printing quantities in the units of a job.

use grounds_measure::Units;

use super::{Kind, Quantity};

/// The figures that a printed quantity has: enough to check the next step by hand.
const FIGURES: i32 = 4;

/// What stands in a line of the working: a quantity, or words and signs between quantities.
pub trait Show {
    /// The text of it in the units of a job.
    fn show(&self, units: Units) -> String;
}

impl<Q: Quantity> Show for Q {
    fn show(&self, units: Units) -> String {
        Q::KIND.show(self.base(), units)
    }
}

impl Show for &str {
    fn show(&self, _: Units) -> String {
        (*self).to_owned()
    }
}

impl Show for String {
    fn show(&self, _: Units) -> String {
        self.clone()
    }
}

pub(super) fn show(kind: &Kind, base: f64, units: Units) -> String {
    let choices = match units {
        Units::Metric => kind.metric,
        Units::Imperial => kind.imperial,
    };
    let name = choices
        .iter()
        .find(|(_, from)| base.abs() >= *from * 0.999_999)
        .or(choices.last())
        .map_or("", |(name, _)| name);
    let unit = kind
        .units
        .iter()
        .find(|unit| unit.spellings.first() == Some(&name));
    let (each, before) = unit.map_or((1.0, 0.0), |unit| (unit.each, unit.before));
    let number = number(base / each - before);
    match name {
        "" => number,
        "%" => format!("{number} %"),
        "C" | "F" => format!("{number} °{name}"),
        _ => format!("{number} {}", typeset(name)),
    }
}

/// Exponents as they are printed.
fn typeset(unit: &str) -> String {
    unit.replace("m2", "m²")
        .replace("m3", "m³")
        .replace("ft2", "ft²")
        .replace("ft3", "ft³")
        .replace("in2", "in²")
        .replace("in3", "in³")
        .replace("ohm", "Ω")
        .replace('.', "·")
}

/// A number to four figures, without trailing zeros.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the logarithm of a double is small"
)]
fn number(value: f64) -> String {
    if !value.is_finite() {
        return "beyond all bounds".to_owned();
    }
    if value.abs() < 1e-9 {
        return "0".to_owned();
    }
    let before_point = value.abs().log10().floor() as i32 + 1;
    let decimals = (FIGURES - before_point).clamp(0, 9);
    let text = format!(
        "{value:.decimals$}",
        decimals = usize::try_from(decimals).unwrap_or(0)
    );
    let text = match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.'),
        false => &text,
    };
    match text {
        "-0" => "0".to_owned(),
        text => text.replace('-', "−"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Flow, Length, Number, Ratio, Temperature, fixed, of_celsius};

    fn metric(what: &impl Show) -> String {
        what.show(Units::Metric)
    }

    #[test]
    fn quantities_are_printed_to_four_figures_in_the_units_of_the_job() {
        assert_eq!(metric(&fixed::<Length>("7-3/4 in")), "196.8 mm");
        assert_eq!(fixed::<Length>("190 mm").show(Units::Imperial), "7.48 in");
        assert_eq!(fixed::<Flow>("400 cfm").show(Units::Imperial), "400 cfm");
        assert_eq!(metric(&fixed::<Flow>("400 cfm")), "188.8 L/s");
        assert_eq!(metric(&fixed::<Ratio>("1/4 in/ft")), "2.083 %");
        assert_eq!(metric(&fixed::<Ratio>("1:80")), "1.25 %");
        assert_eq!(metric(&of_celsius(-2.0)), "−2 °C");
        assert_eq!(fixed::<Temperature>("70 F").show(Units::Imperial), "70 °F");
        assert_eq!(metric(&Number(12_345.6)), "12346");
        assert_eq!(metric(&Number(0.0)), "0");
    }

    #[test]
    fn texts_that_say_no_quantity_are_answered() {
        for text in [
            "",
            "cfm",
            "400",
            "1e9 cfm",
            "1,000 cfm",
            "inf cfm",
            "4 kg",
            "nan cfm",
            "-",
        ] {
            let misread = Flow::KIND.read(text).unwrap_err();
            assert!(misread.to_string().contains("cfm"), "{text}: {misread}");
        }
        assert!(Flow::KIND.read(&"9".repeat(1000)).is_err());
        assert!(Flow::KIND.read("9999999999999999999999999 cfm").is_err());
    }
}
