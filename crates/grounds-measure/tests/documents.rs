//! Measures inside documents, and texts that mean no good.

use grounds_measure::*;
use proptest::prelude::*;
use schemars::{JsonSchema, schema_for};
use serde::{Deserialize, Serialize};
use std::fmt::Debug;
use std::str::FromStr;

#[derive(Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
struct Layer {
    thickness: Thickness,
    rate: Rate,
    recoat: Estimate,
    air: TemperatureRange,
    damp: HumidityRange,
    coverage: Coverage,
    pack: Amount,
    waste: Percent,
    price: Price,
    size: Option<Size>,
    units: Units,
}

const LAYER: &str = r#"{
    "thickness": "12 mm ±1.5", "rate": "6 m2/h", "recoat": "12 / 24 / 48 h", "air": "10..27 C",
    "damp": "<= 65 %", "coverage": "2.1 kg/m2", "pack": "25 kg", "waste": "10 %", "price": "31.00 /bag",
    "size": null, "units": "imperial"
}"#;

#[test]
fn a_layer_goes_through_a_document_and_back_unchanged() -> Result<(), serde_json::Error> {
    let layer: Layer = serde_json::from_str(LAYER)?;
    let text = serde_json::to_string(&layer)?;
    assert!(text.contains(r#""rate":"6 m2/h""#), "{text}");
    assert_eq!(serde_json::from_str::<Layer>(&text)?, layer);
    Ok(())
}

#[test]
fn a_number_where_a_measure_belongs_is_answered_with_an_example() {
    let error = serde_json::from_str::<Length>("1032").expect_err("a bare number");
    assert!(
        error.to_string().contains("text in quotes: a length like"),
        "{error}"
    );
    let error = serde_json::from_str::<Length>("\"12 parsecs\"").expect_err("no such unit");
    assert!(
        error.to_string().contains("at byte 3 found `parsecs`"),
        "{error}"
    );
}

/// The schema of a measure is a string with a format, and nothing that rejects a text that reads.
fn assert_schema<T: JsonSchema>(format: &str) {
    let schema = schema_for!(T);
    assert_eq!(
        schema.get("type").and_then(|value| value.as_str()),
        Some("string"),
        "{format}"
    );
    assert_eq!(
        schema.get("format").and_then(|value| value.as_str()),
        Some(format)
    );
}

#[test]
fn every_measure_is_a_string_with_its_format_in_a_schema() {
    assert_schema::<Length>("length");
    assert_schema::<Step>("step");
    assert_schema::<Thickness>("thickness");
    assert_schema::<Area>("area");
    assert_schema::<Volume>("volume");
    assert_schema::<Weight>("weight");
    assert_schema::<Temperature>("temperature");
    assert_schema::<TemperatureRange>("temperature-range");
    assert_schema::<Humidity>("humidity");
    assert_schema::<HumidityRange>("humidity-range");
    assert_schema::<Percent>("percent");
    assert_schema::<Size>("size");
    assert_schema::<Rate>("rate");
    assert_schema::<Coverage>("coverage");
    assert_schema::<Amount>("amount");
    assert_schema::<Money>("money");
    assert_schema::<Price>("price");
    assert_schema::<Span>("span");
    assert_schema::<Estimate>("estimate");
}

/// Reads `text`; whatever reads must print to text that reads back, and whatever does not must name a spot in it.
fn check<T>(text: &str) -> Result<(), TestCaseError>
where
    T: FromStr<Err = MeasureError> + ToString + PartialEq + Debug,
{
    match text.parse::<T>() {
        Ok(value) => prop_assert_eq!(value.to_string().parse::<T>(), Ok(value)),
        Err(error) => {
            prop_assert!(text.is_char_boundary(error.at()), "{:?}", error);
            prop_assert!(
                error.to_string().chars().all(|c| !c.is_control()),
                "{:?}",
                error
            );
            prop_assert!(error.to_string().chars().count() < 1500, "{:?}", error);
        }
    }
    Ok(())
}

fn check_all(text: &str) -> Result<(), TestCaseError> {
    check::<Length>(text)?;
    check::<Step>(text)?;
    check::<Thickness>(text)?;
    check::<Area>(text)?;
    check::<Volume>(text)?;
    check::<Weight>(text)?;
    check::<Temperature>(text)?;
    check::<TemperatureRange>(text)?;
    check::<Humidity>(text)?;
    check::<HumidityRange>(text)?;
    check::<Percent>(text)?;
    check::<Size>(text)?;
    check::<Rate>(text)?;
    check::<Coverage>(text)?;
    check::<Amount>(text)?;
    check::<Money>(text)?;
    check::<Price>(text)?;
    check::<Span>(text)?;
    check::<Estimate>(text)
}

/// Scraps of which measures are made, so that random texts often nearly read.
const SCRAPS: &[&str] = &[
    "0",
    "1",
    "7",
    "12",
    "999999999999",
    "0.5",
    ".25",
    "1,032",
    "5/8",
    "½",
    "1/64",
    "-",
    "−",
    "+",
    "±",
    "+-",
    "/",
    "..",
    "to",
    ">=",
    "<=",
    "x",
    "×",
    " ",
    " ",
    " ",
    "'",
    "\"",
    "′",
    "″",
    "mm",
    "m",
    "cm",
    "in",
    "ft",
    "m2",
    "ft2",
    "L",
    "gal",
    "kg",
    "lb",
    "C",
    "F",
    "°",
    "%",
    "h",
    "min",
    "days",
    "weeks",
    "working",
    "counted",
    "bag",
    "box",
    "per",
    "\u{202e}",
    "\u{a0}",
    "\0",
    "<b>",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn any_text_at_all_reads_or_is_answered(text in ".{0,100}") {
        check_all(&text)?;
    }

    #[test]
    fn any_heap_of_scraps_reads_or_is_answered(scraps in proptest::collection::vec(0..SCRAPS.len(), 0..9)) {
        let text: String = scraps.into_iter().map(|scrap| SCRAPS[scrap]).collect();
        check_all(&text)?;
    }
}
