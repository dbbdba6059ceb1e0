//! How much better one plan is than another, in words.

use grounds_schedule::Tick;

use super::{Words, effect::days_words, upper_first};

impl Words<'_> {
    /// What this plan is better by than one that ended at `finish` and cost so many cents:
    /// `Three days sooner and £2,100 cheaper than the first plan.` Nothing where it is neither.
    #[must_use]
    pub fn better_than(&self, finish: Tick, cents: i64, what: &str) -> Option<String> {
        let days = self.days_from(self.outlook.finish(), finish);
        let saved = cents.saturating_sub(self.outlook.cost.total());
        let cheaper = format!("{} cheaper", self.money(saved));
        // Less than one unit of money is not worth a word.
        let pays = saved >= 100;
        Some(match days {
            0 if pays => format!("{} than {what}.", upper_first(&cheaper)),
            0 => return None,
            days if days < 0 && pays => format!(
                "{} than {what}, though it ends {} later.",
                upper_first(&cheaper),
                days_words(days.unsigned_abs())
            ),
            days if days < 0 => return None,
            days if pays => format!(
                "{} sooner and {cheaper} than {what}.",
                upper_first(&days_words(days.unsigned_abs()))
            ),
            days => format!(
                "{} sooner than {what}.",
                upper_first(&days_words(days.unsigned_abs()))
            ),
        })
    }

    /// What this plan is better by than the list that a careful person would write, which ends at
    /// `finish` and costs so many cents: `A straight list by drying and crews would end 12 days later
    /// and cost £2,100 more.` Nothing where it would be as good.
    #[must_use]
    pub fn straight_list(&self, finish: Tick, cents: i64) -> Option<String> {
        let days = self.days_from(self.outlook.finish(), finish);
        let more = cents.saturating_sub(self.outlook.cost.total());
        let later = format!("end {} later", days_words(days.unsigned_abs()));
        let dearer = format!("cost {} more", self.money(more));
        let what = match (days > 0, more >= 100) {
            (true, true) => format!("{later} and {dearer}"),
            (true, false) => later,
            (false, true) => dearer,
            (false, false) => return None,
        };
        Some(format!("A straight list by drying and crews would {what}."))
    }

    /// Calendar days from one moment to another, on the job's wall clock.
    pub(crate) fn days_from(&self, from: Tick, to: Tick) -> i32 {
        let clock = &self.outlook.network.clock;
        let (from, to) = (clock.day(from), clock.day(to));
        from.until(to).map_or(0, |span| span.get_days())
    }
}
