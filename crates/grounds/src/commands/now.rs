//! `grounds now`: what can start, and what holds the rest.

use grounds_model::Id;
use grounds_schedule::Tick;
use grounds_sequence::{StartRow, Words, words::lower_first};
use serde::Serialize;

use super::{forecast, show, show_json};
use crate::{
    arguments::Now,
    ending::{Ending, Trouble},
    opened::Planned,
    page::{ALARM, HEAD, PLAIN, Page, QUIET},
};

pub(super) fn run(asked: &Now) -> Result<Ending, Trouble> {
    let planned = Planned::of(&asked.job)?;
    if asked.json {
        show_json(&NowFile::of(&planned))?;
    } else {
        show(page(&planned))?;
    }
    Ok(planned.ending())
}

fn page(planned: &Planned) -> Page {
    let words = Words::new(&planned.outlook, &planned.job);
    let mut page = Page::default();
    page.heading(HEAD, &planned.title());
    page.paragraph(PLAIN, 0, &words.today());
    if let Some(heaviest) = words.heaviest() {
        page.paragraph(PLAIN, 0, &heaviest);
    }
    let (in_hand, ready): (Vec<_>, Vec<_>) = planned
        .outlook
        .starts()
        .into_iter()
        .partition(|row| row.in_hand);
    starts(&mut page, "In hand", &in_hand, &words);
    starts(&mut page, "Can start", &ready, &words);
    held_up(&mut page, &words);
    cannot_be_met(&mut page, &words);
    questions(&mut page, planned);
    page.heading(HEAD, "Forecast");
    page.paragraph(PLAIN, 2, &words.forecast());
    if let Some(why) = words.why_no_sooner() {
        page.paragraph(QUIET, 2, &why);
    }
    if let Ok(reckoned) = forecast::reckon(planned, forecast::RUNS, forecast::SEED) {
        page.paragraph(PLAIN, 2, &words.chances(&reckoned.finish));
        for each in &reckoned.milestones {
            page.item(
                2,
                &format!(
                    "{}: {}",
                    words.prospect_title(each),
                    lower_first(&words.chances(each))
                ),
            );
        }
    }
    page
}

/// Work by trade, in the order in which each trade's first work is planned.
fn starts(page: &mut Page, title: &str, rows: &[StartRow], words: &Words<'_>) {
    if rows.is_empty() {
        return;
    }
    page.heading(HEAD, title);
    let trade_of = |row: &StartRow| -> Option<&Id> {
        words
            .outlook
            .network
            .task(row.id)
            .and_then(|task| task.trade.as_ref())
    };
    let mut trades: Vec<Option<&Id>> = Vec::new();
    for trade in rows.iter().map(trade_of) {
        if !trades.contains(&trade) {
            trades.push(trade);
        }
    }
    for trade in trades {
        page.paragraph(
            PLAIN,
            2,
            &trade.map_or_else(|| "You".to_owned(), |id| words.trade(id)),
        );
        for row in rows.iter().filter(|row| trade_of(row) == trade) {
            start(page, row, words);
        }
    }
}

fn start(page: &mut Page, row: &StartRow, words: &Words<'_>) {
    let when = if row.in_hand {
        let ends = words
            .outlook
            .plan
            .finishes
            .get(row.id.index())
            .copied()
            .unwrap_or(0);
        format!("until {}", words.when(ends))
    } else {
        let planned = if row.planned == row.from {
            String::new()
        } else {
            format!("; the plan starts it {}", words.when(row.planned))
        };
        format!(
            "from {}, takes {}{planned}",
            words.when(row.from),
            words.takes(row.id)
        )
    };
    page.item(4, &format!("{}: {when}", words.task(row.id)));
    if let Some(by) = words.must_start_by(row.id) {
        page.paragraph(ALARM, 6, &by);
    }
    if !row.opens.is_empty() {
        page.paragraph(QUIET, 6, &format!("opens {}", words.list(&row.opens, 2)));
    }
}

fn held_up(page: &mut Page, words: &Words<'_>) {
    if words.outlook.roots.is_empty() {
        return;
    }
    page.heading(HEAD, "What holds the rest");
    for root in &words.outlook.roots {
        let said = words.root(root);
        page.item(2, &said.title);
        page.paragraph(PLAIN, 4, &said.detail);
        page.paragraph(QUIET, 4, &said.holds);
    }
}

/// What the plan could not meet, for any page that shows a plan.
pub(super) fn cannot_be_met(page: &mut Page, words: &Words<'_>) {
    let breaches = words.breaches();
    if breaches.is_empty() {
        return;
    }
    page.heading(ALARM, "Cannot be met");
    for breach in breaches {
        page.item(2, &breach);
    }
    for clash in words.clashes() {
        page.paragraph(
            PLAIN,
            2,
            "These do not go together; one of them has to give:",
        );
        for part in clash {
            page.item(4, &part);
        }
    }
}

fn questions(page: &mut Page, planned: &Planned) {
    if planned.site.questions.is_empty() {
        return;
    }
    page.heading(HEAD, "Does not add up");
    for question in &planned.site.questions {
        page.item(2, &question.words);
    }
}

/// `grounds now --json`
#[derive(Debug, Serialize)]
struct NowFile<'a> {
    job: &'a str,
    at: String,
    today: String,
    starts: Vec<Start<'a>>,
    causes: Vec<Cause<'a>>,
    cannot_be_met: Vec<String>,
    questions: Vec<&'a str>,
    finish: String,
    no_finish_before: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    why_no_sooner: Option<String>,
}

/// Work that is in hand or can start.
#[derive(Debug, Serialize)]
struct Start<'a> {
    id: &'a str,
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    trade: Option<&'a str>,
    in_hand: bool,
    from: String,
    planned: String,
    opens: Vec<&'a str>,
}

/// A cause with what it holds up.
#[derive(Debug, Serialize)]
struct Cause<'a> {
    title: String,
    detail: String,
    days: i32,
    holds: Vec<&'a str>,
}

impl<'a> NowFile<'a> {
    fn of(planned: &'a Planned) -> Self {
        let outlook = &planned.outlook;
        let network = &outlook.network;
        let words = Words::new(outlook, &planned.job);
        let key = |id: &grounds_schedule::ActivityId| {
            network.task(*id).map_or("", |task| task.key.as_str())
        };
        let written = |tick: Tick| written(&network.clock.zoned(tick));
        let starts = outlook.starts().into_iter().filter_map(|row| {
            let task = network.task(row.id)?;
            Some(Start {
                id: &task.key,
                name: words.task(row.id),
                place: task.place.as_ref().map(Id::as_str),
                trade: task.trade.as_ref().map(Id::as_str),
                in_hand: row.in_hand,
                from: written(row.from),
                planned: written(row.planned),
                opens: row.opens.iter().map(key).collect(),
            })
        });
        let causes = outlook.roots.iter().map(|root| {
            let said = words.root(root);
            Cause {
                title: said.title,
                detail: said.detail,
                days: root.days,
                holds: root.holds.iter().map(key).collect(),
            }
        });
        Self {
            job: &planned.job.job.name,
            at: crate::commands::now::written(
                &network.now.to_zoned_datetime(network.clock.zone().clone()),
            ),
            today: words.today(),
            starts: starts.collect(),
            causes: causes.collect(),
            cannot_be_met: words.breaches(),
            questions: planned
                .site
                .questions
                .iter()
                .map(|asked| asked.words.as_str())
                .collect(),
            finish: written(outlook.finish()),
            no_finish_before: written(outlook.bound),
            why_no_sooner: words.why_no_sooner(),
        }
    }
}

/// RFC 3339 with the offset in force.
pub(crate) fn written(zoned: &jiff::ZonedDateTime) -> String {
    zoned.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()
}
