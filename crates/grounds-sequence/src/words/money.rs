//! Money in words, in the job's currency.

use grounds_measure::Money;

use super::Words;

/// From this sum on, cents say nothing.
const WHOLE_FROM: i64 = 10_000;

impl Words<'_> {
    /// A sum as it is said: `£2,100`, `£12.50`, `CHF 2,100`; without a currency, `2,100`. Whether it is
    /// saved or spent is left to the sentence.
    #[must_use]
    pub fn money(&self, cents: i64) -> String {
        let cents = cents.saturating_abs();
        let shown = if cents >= WHOLE_FROM {
            let whole = cents.saturating_add(50) / 100 * 100;
            let text = Money::from_cents(whole).display().to_string();
            text.trim_end_matches(".00").to_owned()
        } else {
            let text = Money::from_cents(cents).display().to_string();
            text.strip_suffix(".00").unwrap_or(&text).to_owned()
        };
        format!("{}{shown}", self.sign())
    }

    /// The sign of the job's currency, with the space that belongs after it.
    fn sign(&self) -> String {
        match self.job.job.currency.as_deref() {
            None => String::new(),
            Some("GBP") => "£".to_owned(),
            Some("EUR") => "€".to_owned(),
            Some("USD" | "CAD" | "AUD" | "NZD") => "$".to_owned(),
            Some("JPY") => "¥".to_owned(),
            Some(code) => format!("{code} "),
        }
    }
}
