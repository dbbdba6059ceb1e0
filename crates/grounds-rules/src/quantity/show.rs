//! Printing quantities in the units of a job.

use grounds_measure::Units;

use super::{Kind, Quantity};

/// The figures of a quantity that nobody reads more finely: enough to check the next step by hand.
const FIGURES: i32 = 3;

/// The figures of a length or a plain number, which are read and reckoned with more finely.
const FINE: i32 = 4;

/// The figures that tell apart what would read alike.
const FINEST: i32 = 6;

/// Decimals that a figure may have which is short by itself: a slope of 1.25 % is no 1.3 %.
const SHORT: usize = 2;

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
    printed(kind, base, units, digits)
}

/// With more figures than mean something: where two that differ would read alike.
pub(super) fn show_finely(kind: &Kind, base: f64, units: Units) -> String {
    printed(kind, base, units, |_, value| {
        typeset_number(&rounded(value, decimals(value, FINEST)))
    })
}

fn printed(kind: &Kind, base: f64, units: Units, digits: fn(&str, f64) -> String) -> String {
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
    let number = digits(name, base / each - before);
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

/// A number with the digits that mean something in its unit.
fn digits(unit: &str, value: f64) -> String {
    if !value.is_finite() {
        return "beyond all bounds".to_owned();
    }
    let decimals = match unit {
        // Long waits are counted in whole days, shares and warmth to a tenth.
        "days" | "weeks" | "h" | "min" => usize::from(value.abs() < 9.95),
        "%" | "C" | "F" | "K" => 1,
        "mm" => decimals(value, FINE).min(1),
        "cm" | "m" | "in" | "ft" | "" => decimals(value, FINE),
        _ => decimals(value, FIGURES),
    };
    let whole_in = |decimals: usize| {
        let near = rounded(value, decimals).parse::<f64>().unwrap_or(f64::NAN);
        (near - value).abs() <= 1e-9 * value.abs().max(1.0)
    };
    let shared = matches!(unit, "%" | "C" | "F" | "K" | "h");
    let short = (shared && whole_in(SHORT)).then_some(SHORT);
    // A little more than nothing is not nothing.
    let decimals = short.unwrap_or(decimals);
    if value != 0.0
        && rounded(value, decimals)
            .trim_matches(['-', '0', '.'])
            .is_empty()
    {
        return typeset_number(&rounded(value, decimals_of_small(value)));
    }
    typeset_number(&rounded(value, decimals))
}

/// The decimals that give a number so many figures.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the logarithm of a double is small"
)]
fn decimals(value: f64, figures: i32) -> usize {
    if value.abs() < 1e-9 {
        return 0;
    }
    let before_point = value.abs().log10().floor() as i32 + 1;
    usize::try_from((figures - before_point).clamp(0, 9)).unwrap_or(0)
}

/// The decimals that show something of a number that its unit would round to nothing.
fn decimals_of_small(value: f64) -> usize {
    decimals(value, 2)
}

fn rounded(value: f64, decimals: usize) -> String {
    format!("{value:.decimals$}")
}

/// Without trailing zeros, and with a minus as it is printed.
fn typeset_number(text: &str) -> String {
    let text = match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.'),
        false => text,
    };
    match text {
        "-0" => "0".to_owned(),
        text => text.replace('-', "−"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Flow, Length, Number, Ratio, Temperature, Time, fixed, of_celsius};

    fn metric(what: &impl Show) -> String {
        what.show(Units::Metric)
    }

    #[test]
    fn quantities_are_printed_with_the_digits_that_mean_something_in_their_unit() {
        assert_eq!(metric(&fixed::<Length>("7-3/4 in")), "196.8 mm");
        assert_eq!(fixed::<Length>("190 mm").show(Units::Imperial), "7.48 in");
        assert_eq!(fixed::<Flow>("400 cfm").show(Units::Imperial), "400 cfm");
        assert_eq!(metric(&fixed::<Flow>("400 cfm")), "189 L/s");
        assert_eq!(metric(&fixed::<Ratio>("1/4 in/ft")), "2.1 %");
        assert_eq!(metric(&Ratio::of_base(0.03 / 4.2)), "0.7 %");
        assert_eq!(metric(&Ratio::of_base(0.000_123)), "0.012 %");
        assert_eq!(metric(&fixed::<Time>("1875 h")), "78 days");
        assert_eq!(metric(&fixed::<Time>("4.26 days")), "4.3 days");
        assert_eq!(metric(&fixed::<Time>("17 h")), "17 h");
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
