//! `grounds why`: the reasons of a start, chained back to the causes.

use grounds_schedule::{ActivityId, Reason};
use grounds_sequence::{Outlook, TaskState, Words, words::span_words};

use super::show;
use crate::{
    arguments::Why,
    asked,
    ending::{Ending, Trouble},
    opened::Planned,
    page::{HEAD, PLAIN, Page, QUIET},
};

/// At most this many pieces of work are offered where a name fits several.
const OFFERED: usize = 12;

pub(super) fn run(asked: &Why) -> Result<Ending, Trouble> {
    let planned = Planned::of(&asked.job)?;
    let words = Words::new(&planned.outlook, &planned.job);
    let id = find(&words, &asked.activity)?;
    show(page(&words, id, asked.all))?;
    Ok(Ending::Fine)
}

fn page(words: &Words<'_>, asked: ActivityId, all: bool) -> Page {
    let mut page = Page::default();
    step(&mut page, words, asked);
    chain(&mut page, words, asked);
    let behind = behind(words.outlook, asked);
    if all && behind.len() > 1 {
        page.heading(QUIET, "Everything that it waits for, nearest first:");
        for &id in &behind[1..] {
            step(&mut page, words, id);
        }
    }
    roots(&mut page, words, asked);
    page
}

/// How the time from now to the start is spent.
fn chain(page: &mut Page, words: &Words<'_>, asked: ActivityId) {
    let chain = words.chain(asked);
    let (Some(first), Some(last)) = (chain.first(), chain.last()) else {
        return;
    };
    let whole = span_words(last.until - first.from);
    page.heading(HEAD, &format!("How the {whole} from now to its start go"));
    for step in &chain {
        let until = words.when(step.until);
        page.item(2, &format!("{}, to {until}: {}", step.span(), step.what));
        if let Some(why) = &step.why {
            page.paragraph(QUIET, 4, why);
        }
    }
}

fn step(page: &mut Page, words: &Words<'_>, id: ActivityId) {
    let plan = &words.outlook.plan;
    let at = |ticks: &[i32]| words.when(ticks.get(id.index()).copied().unwrap_or(0));
    let state = words.outlook.network.task(id).map(|task| task.state);
    let says = match state {
        Some(TaskState::Done) => format!("was done by {}", at(&plan.finishes)),
        Some(TaskState::InHand) => format!("is in hand, until {}", at(&plan.finishes)),
        _ if plan.starts.get(id.index()) == plan.finishes.get(id.index()) => at(&plan.starts),
        _ => format!("starts {}, ends {}", at(&plan.starts), at(&plan.finishes)),
    };
    page.heading(HEAD, &format!("{}: {says}", words.task(id)));
    if state != Some(TaskState::Done) {
        for reason in words.reasons(id).iter().chain(&words.to_settle(id)) {
            page.item(2, reason);
        }
    }
}

fn roots(page: &mut Page, words: &Words<'_>, asked: ActivityId) {
    let roots = words.outlook.roots_of(asked);
    if roots.is_empty() {
        return;
    }
    page.heading(
        HEAD,
        if roots.len() == 1 {
            "The cause"
        } else {
            "The causes"
        },
    );
    for root in roots
        .into_iter()
        .filter_map(|root| words.outlook.roots.get(root))
    {
        let said = words.root(root);
        page.item(2, &said.title);
        page.paragraph(PLAIN, 4, &said.detail);
        page.paragraph(QUIET, 4, &said.holds);
    }
}

/// The work asked about and everything to come that its reasons lead back to, nearest first.
fn behind(outlook: &Outlook, asked: ActivityId) -> Vec<ActivityId> {
    let mut chain = vec![asked];
    let mut next = 0;
    while let Some(&id) = chain.get(next) {
        let reasons = outlook
            .reasons
            .get(id.index())
            .map_or(&[][..], Vec::as_slice);
        for other in reasons
            .iter()
            .flat_map(|reason| leads_to(outlook, id, reason))
        {
            let task = outlook.network.task(other);
            let to_come = task.is_some_and(|task| task.state == TaskState::ToCome);
            if to_come && !chain.contains(&other) {
                chain.push(other);
            }
        }
        next += 1;
    }
    chain
}

/// The other work that a reason speaks of.
fn leads_to(outlook: &Outlook, id: ActivityId, reason: &Reason) -> Vec<ActivityId> {
    match reason {
        Reason::Lag(lag) => {
            let lag = outlook.network.problem.lags.get(lag.index());
            lag.map(|lag| if lag.to == id { lag.from } else { lag.to })
                .into_iter()
                .collect()
        }
        Reason::ShutOff { by } => by.clone(),
        Reason::WouldShutOff { others } => others.clone(),
        Reason::Dust { with } => with.clone(),
        // A crew is a cause of its own: what it is busy with is said, but is not its reason.
        Reason::Crew { .. }
        | Reason::Date(_)
        | Reason::Now
        | Reason::Hours
        | Reason::Shift
        | Reason::Unplanned
        | Reason::Fact
        | Reason::Choice => Vec::new(),
    }
}

/// The piece of work that is meant by a key, or by a part of a key or name.
fn find(words: &Words<'_>, asked: &str) -> Result<ActivityId, Trouble> {
    let network = &words.outlook.network;
    if let Some(id) = network.find(asked) {
        return Ok(id);
    }
    let ids = (0..network.tasks.len()).map(ActivityId::from);
    let fits: Vec<ActivityId> = ids
        .filter(|&id| {
            let key = network.task(id).map_or("", |task| &task.key);
            asked::is_meant(asked, &format!("{key} {}", words.task(id)))
        })
        .collect();
    match fits.as_slice() {
        [] => Err(Trouble::Input(unknown(words, asked))),
        [only] => Ok(*only),
        many => {
            let open: Vec<ActivityId> = many
                .iter()
                .copied()
                .filter(|id| {
                    network
                        .task(*id)
                        .is_some_and(|t| t.state != TaskState::Done)
                })
                .collect();
            match open.as_slice() {
                [only] => Ok(*only),
                _ => Err(Trouble::Input(several(words, asked, many))),
            }
        }
    }
}

fn several(words: &Words<'_>, asked: &str, fits: &[ActivityId]) -> String {
    let mut lines = vec![format!(
        "{} pieces of work fit {}; name one by its key:",
        fits.len(),
        asked::quoted(asked)
    )];
    for &id in fits.iter().take(OFFERED) {
        let key = words.outlook.network.task(id).map_or("", |task| &task.key);
        lines.push(format!("  {key}  ({})", words.task(id)));
    }
    if fits.len() > OFFERED {
        lines.push(format!("  and {} more", fits.len() - OFFERED));
    }
    lines.join("\n")
}

fn unknown(words: &Words<'_>, asked: &str) -> String {
    let sentence = format!("no work is called {}", asked::quoted(asked));
    let keys = words.outlook.network.tasks.iter().map(|task| &task.key);
    match asked::nearest(asked, keys.map(String::as_str), 1).first() {
        Some(key) => format!("{sentence}; did you mean {key}?"),
        None => format!("{sentence}; `grounds weeks JOB --weeks 520` lists the work of the job"),
    }
}
