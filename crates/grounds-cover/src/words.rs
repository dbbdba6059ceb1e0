//! The register, holds and faces in words, so that every surface says the same.

use grounds_model::{Hold, Id, Moment};
use grounds_schedule::Tick;
use grounds_sequence::{
    TaskState, Words,
    words::{count, day_words, join, lower_first, upper_first},
};
use grounds_site::{Site, Subject, words::plain};
use jiff::{Timestamp, civil::Date};

use crate::{
    asks::{Ask, AskedBy, Giver, Wanted},
    behind::{Part, PartOf},
    evidence::{Evidence, Said},
    hold::{HoldLook, HoldState},
    kinds::HiddenKind,
    register::{Covering, Hidden, Register, Standing},
};

/// Says what is hidden, in the words of a plan.
#[derive(Clone, Copy, Debug)]
pub struct CoverWords<'a> {
    words: Words<'a>,
    site: &'a Site,
}

impl<'a> CoverWords<'a> {
    /// Words for a plan of a job as it stands.
    #[must_use]
    pub fn new(words: Words<'a>, site: &'a Site) -> Self {
        Self { words, site }
    }

    /// The register in a sentence: `Nine things are about to be hidden within 4 weeks; seven of them
    /// lack something.`
    #[must_use]
    pub fn headline(&self, register: &Register, weeks: Option<u16>) -> String {
        let coming: Vec<&Covering> = register.to_come(weeks).filter(|c| c.is_asked()).collect();
        let lacking = coming
            .iter()
            .filter(|c| c.missing().next().is_some())
            .count();
        let within = match weeks {
            Some(1) => " this week".to_owned(),
            Some(weeks) => format!(" in the next {} weeks", count(weeks.into())),
            None => String::new(),
        };
        let many = match coming.len() {
            0 => return format!("Nothing that must be seen first is covered{within}."),
            1 => format!("One thing covers others{within}"),
            n => format!("{} things cover others{within}", upper_first(&count(n))),
        };
        match (lacking, coming.len()) {
            (0, _) => format!("{many}: everything behind them was seen."),
            (1, 1) => format!("{many}, and something behind it is missing."),
            (n, all) if n == all => format!("{many}, and behind each something is missing."),
            (1, _) => format!("{many}; behind one something is missing."),
            (n, _) => format!("{many}; behind {} something is missing.", count(n)),
        }
    }

    /// How much is missing behind a covering, and when it starts: `Thu 17 June 8:00: two things are
    /// missing.`
    #[must_use]
    pub fn first_line(&self, covering: &Covering) -> (String, String) {
        let when = upper_first(&self.words.when(covering.start));
        let missing = covering.missing().count();
        let rest = match missing {
            0 if covering.is_asked() => "everything asked for behind it is there.".to_owned(),
            0 => "nothing is asked of what it hides.".to_owned(),
            1 => "one thing is missing behind it.".to_owned(),
            n => format!("{} things are missing behind it.", count(n)),
        };
        (when, rest)
    }

    /// What is missing behind a covering, a sentence each, the job's own asks first.
    #[must_use]
    pub fn missing(&self, covering: &Covering) -> Vec<String> {
        let mut missing: Vec<(&Hidden, &Ask)> = covering.missing().collect();
        missing.sort_by_key(|(_, ask)| (!ask.asked_by.is_the_job(), ask.wanted, ask.by));
        missing
            .into_iter()
            .map(|(hidden, ask)| match covering.standing {
                Standing::ToCome => self.ask(hidden, ask),
                _ => format!("{}{}.", self.asked(hidden, ask), practice(ask)),
            })
            .collect()
    }

    /// One thing that is missing: `Photo of the pipes, first fix: from you, by Thu 17 June 8:00 (common
    /// practice).`
    #[must_use]
    pub fn ask(&self, hidden: &Hidden, ask: &Ask) -> String {
        format!(
            "{}: {}, {}{}.",
            self.asked(hidden, ask),
            self.giver(&ask.from),
            self.by_when(hidden, ask),
            practice(ask)
        )
    }

    /// What is asked of what: `Photo of the pipes, first fix`.
    fn asked(&self, hidden: &Hidden, ask: &Ask) -> String {
        let name = lower_first(&plain(&hidden.name));
        let what = plain(&ask.what);
        let not_in = match hidden.state {
            TaskState::Done => "",
            _ if hidden.kind == HiddenKind::Hold => "",
            TaskState::InHand => ", once it is in",
            TaskState::ToCome => ", not in yet",
        };
        match (ask.wanted, &ask.asked_by) {
            (Wanted::Pass, _) => format!("{} must pass", upper_first(&name)),
            (_, AskedBy::Hold(_)) => format!("{what}, for {name}"),
            (_, _) if what.eq_ignore_ascii_case("photo") => format!("Photo of {name}{not_in}"),
            (_, _) => format!("{what}, of {name}{not_in}"),
        }
    }

    /// Who must give something: `from you`, `from Electrician`.
    #[must_use]
    pub fn giver(&self, giver: &Giver) -> String {
        match giver {
            Giver::SiteLead => "from the site lead".to_owned(),
            Giver::Trade(id) => format!("from {}", plain(&self.words.trade(id))),
            Giver::Inspector(Some(id)) => {
                format!("from the inspector ({})", plain(&self.words.trade(id)))
            }
            Giver::Inspector(None) => "from the inspector".to_owned(),
        }
    }

    fn by_when(&self, hidden: &Hidden, ask: &Ask) -> String {
        let now = self.words.outlook.network.now_tick();
        let day = if ask.by <= now {
            "now".to_owned()
        } else {
            format!("by {}", self.words.when(ask.by))
        };
        match ask.wanted == Wanted::Pass && self.must_be_booked(hidden) {
            true => format!("to book {day}"),
            false => day,
        }
    }

    /// Whether a hold has to be booked and is not.
    fn must_be_booked(&self, hidden: &Hidden) -> bool {
        let Some(Subject::Hold(id)) = hidden.subjects.first() else {
            return false;
        };
        let Some(hold) = self.words.job.holds.get(id) else {
            return false;
        };
        let state = self.site.states.get(&Subject::Hold(id.clone()));
        let booked = state.is_some_and(|state| state.ordered.is_some() || state.promised.is_some());
        hold.notice.is_some() && !booked
    }

    /// What was seen of a hidden thing: `in since Thu 3 June (Ana); 2 photos; read 3 bar`.
    #[must_use]
    pub fn seen(&self, hidden: &Hidden) -> String {
        let mut parts = Vec::new();
        let evidence = &hidden.evidence;
        match (&evidence.done, hidden.kind) {
            (Some(said), HiddenKind::Hold) if said.presumed => {
                parts.push("taken to have passed; nobody saw it".to_owned());
            }
            (Some(said), _) if said.presumed => {
                parts.push("taken to be in; nobody saw it".to_owned());
            }
            (Some(said), HiddenKind::Hold) => parts.push(format!("passed {}", self.on_by(said))),
            (Some(said), HiddenKind::Piece) => parts.push(format!("set {}", self.on_by(said))),
            (Some(said), _) => parts.push(format!("in since {}", self.on_by(said))),
            (None, HiddenKind::Hold) => parts.push(match &evidence.failed {
                Some(said) => format!("failed {}", self.on_by(said)),
                None => "not passed yet".to_owned(),
            }),
            (None, _) => parts.push(
                match hidden.state {
                    TaskState::Done => "in, but nobody noted when",
                    TaskState::InHand => "in hand",
                    TaskState::ToCome => "not in yet",
                }
                .to_owned(),
            ),
        }
        parts.extend(self.shown(evidence));
        for ask in hidden
            .asks
            .iter()
            .filter(|ask| ask.met.as_ref().is_some_and(|met| met.late))
        {
            parts.push(format!(
                "{} only after it was covered",
                lower_first(&plain(&ask.what))
            ));
        }
        parts.join("; ")
    }

    /// Photos and readings in words.
    #[must_use]
    pub fn shown(&self, evidence: &Evidence) -> Vec<String> {
        let mut parts = Vec::new();
        match evidence.photos.len() {
            0 => {}
            1 => parts.push("one photo".to_owned()),
            n => parts.push(format!("{} photos", count(n))),
        }
        if let Some(said) = evidence.kept_elsewhere.last() {
            let words = said.words.as_deref().map(plain).unwrap_or_default();
            parts.push(lower_first(&words));
        }
        let units = self.words.job.job.units;
        let readings = evidence.readings.iter().rev().take(2).rev();
        parts.extend(
            readings.map(|(value, said)| {
                format!("read {} ({})", value.in_words(units), plain(&said.by))
            }),
        );
        parts
    }

    /// What was covered without: `Begun Tue 8 June by Ana.`, and who let it go: `Let go by Ben on Mon
    /// 7 June: “photos are on the plumber's phone”.`
    #[must_use]
    pub fn let_go(&self, covering: &Covering) -> String {
        let begun = match (&covering.begun, covering.standing) {
            (_, Standing::ToCome) => String::new(),
            (Some(said), _) => format!("Covered {}. ", self.on_by(said)),
            (None, _) => "Nobody noted when it was covered. ".to_owned(),
        };
        let let_go = match &covering.let_go {
            Some(let_go) => {
                let why = let_go.said.words.as_deref().map(quoted).unwrap_or_default();
                let stale = if let_go.stands {
                    ""
                } else {
                    " Something failed since."
                };
                format!("Let go by {}: “{why}”.{stale}", self.by_on(&let_go.said))
            }
            None if covering.standing == Standing::ToCome => String::new(),
            None if covering.lacks_what_the_job_asks() => "No reason is written down.".to_owned(),
            None => String::new(),
        };
        format!("{begun}{let_go}").trim_end().to_owned()
    }

    /// `Thu 3 June by Ana`
    #[must_use]
    pub fn on_by(&self, said: &Said) -> String {
        format!("{} by {}", self.day_of(said.at), plain(&said.by))
    }

    /// `Ana on Thu 3 June`
    fn by_on(&self, said: &Said) -> String {
        format!("{} on {}", plain(&said.by), self.day_of(said.at))
    }

    /// `Thu 3 June`
    #[must_use]
    pub fn day_of(&self, at: Timestamp) -> String {
        self.words.day(self.words.outlook.network.clock.floor(at))
    }

    /// `Thu 3 June`
    #[must_use]
    pub fn date(&self, day: Date) -> String {
        self.words
            .day(self.words.outlook.network.clock.midnight(day))
    }

    fn moment(&self, moment: Moment) -> String {
        self.words
            .when(self.words.outlook.network.clock.beginning(moment))
    }

    /// How a hold stands, as sentences; the first says it, the others what to do.
    #[must_use]
    pub fn hold(&self, hold: &Hold, look: &HoldLook) -> Vec<String> {
        let mut say = vec![self.stands(hold, look)];
        if let Some(first) = look.too_soon {
            say.push(format!(
                "That is too soon for the notice that was given: it could be refused. The first day \
                 with full notice is {}.",
                self.date(first)
            ));
        }
        if let Some(tick) = look.not_ready_until {
            say.push(format!(
                "By the plan it can be looked at only {}: move the booking, or bring the work \
                 forward.",
                self.words.when(tick)
            ));
        }
        if let Some(before) = look.moved_from {
            say.push(format!("It was booked for {} before.", self.moment(before)));
        }
        say.extend(self.waits_for(look));
        if let (Some(id), false) = (
            look.first_waiting,
            matches!(look.state, HoldState::Passed(_)),
        ) {
            let start = self.words.outlook.plan.starts.get(id.index()).copied();
            let start = start.map_or_else(String::new, |at| {
                format!(", planned {}", self.words.when(at))
            });
            say.push(format!("{} waits for it{start}.", self.words.task(id)));
        }
        say
    }

    fn stands(&self, hold: &Hold, look: &HoldLook) -> String {
        let again = match look.fails {
            0 => String::new(),
            1 => ", after one fail".to_owned(),
            n => format!(", after {} fails", count(n)),
        };
        match &look.state {
            HoldState::Passed(said) => format!("Passed {}{again}.", self.on_by(said)),
            HoldState::Failed {
                said,
                mended,
                book_by,
            } => self.failed(hold, look, said, mended.as_ref(), *book_by),
            HoldState::Booked { on, said } => format!(
                "Booked for {} ({}, {}){again}.",
                self.moment(*on),
                plain(&said.by),
                self.day_of(said.at)
            ),
            HoldState::NothingHeard { on, book_by } => {
                let book = book_by.map_or_else(String::new, |day| {
                    format!(" If nobody came, book it again by {}.", self.date(day))
                });
                format!(
                    "It was booked for {}, and nobody noted what came of it. Did it pass or fail?{book}",
                    self.moment(*on)
                )
            }
            HoldState::ToBook { by } => {
                format!("To book by {}{again}.", self.date(*by))
            }
            HoldState::Stands { since, until } => format!(
                "Set up {} and standing{again}; to be read {}.",
                self.on_by(since),
                self.words.when(*until)
            ),
            HoldState::Waiting => "Not yet: what it looks at is not there.".to_owned(),
            HoldState::Due => "It can be had now.".to_owned(),
        }
    }

    fn failed(
        &self,
        hold: &Hold,
        look: &HoldLook,
        said: &Said,
        mended: Option<&Said>,
        book_by: Option<Date>,
    ) -> String {
        let times = match look.fails {
            0 | 1 => String::new(),
            n => format!(" ({} times so far)", count(n)),
        };
        let why = said
            .words
            .as_deref()
            .map_or_else(String::new, |words| format!(": “{}”", quoted(words)));
        let mend = match (mended, hold.mender()) {
            (Some(mended), _) => format!(" Put right {}.", self.on_by(mended)),
            (None, Some(trade)) => {
                format!(" {} puts it right first.", plain(&self.words.trade(trade)))
            }
            (None, None) => " Put it right first.".to_owned(),
        };
        let next = match (book_by, look.planned) {
            (Some(day), _) => format!(" Then again: book it by {}.", self.date(day)),
            (None, Some(tick)) => format!(" Then again, {}.", self.words.when(tick)),
            (None, None) => " Then again.".to_owned(),
        };
        format!("Failed {}{times}{why}.{mend}{next}", self.on_by(said))
    }

    fn waits_for(&self, look: &HoldLook) -> Option<String> {
        if look.waits_for.is_empty() || matches!(look.state, HoldState::Passed(_)) {
            return None;
        }
        const NAMED: usize = 3;
        let names = look.waits_for.iter().take(NAMED);
        let mut names: Vec<String> = names
            .map(|subject| grounds_site::name(self.words.job, subject))
            .collect();
        let more = look.waits_for.len().saturating_sub(NAMED);
        if more > 0 {
            names.push(format!("{} more", count(more)));
        }
        let verb = if look.waits_for.len() == 1 {
            "is"
        } else {
            "are"
        };
        Some(format!("Before it: {} {verb} still to come.", join(&names)))
    }

    /// How a hold is called with how it stands: `passed Thu 3 June by Ana`.
    #[must_use]
    pub fn hold_in_short(&self, id: &Id) -> String {
        let hold = self.words.job.holds.get(id);
        let look = crate::hold::look_at(self.words.job, self.site, self.words.outlook, id);
        match (hold, look) {
            (Some(hold), Some(look)) => lower_first(self.stands(hold, &look).trim_end_matches('.')),
            _ => String::new(),
        }
    }

    /// Where a part of a face lies, and what was seen of it: `12.5 mm thick, 3 mm behind the finish`.
    #[must_use]
    pub fn part(&self, part: &Part) -> Vec<String> {
        let units = self.words.job.job.units;
        let mut say = Vec::new();
        if let (PartOf::Layer(_), Some(thickness)) = (&part.of, part.thickness) {
            say.push(format!("{} thick", thickness.display(units)));
        }
        if let Some(depth) = part.depth.filter(|depth| depth.is_positive()) {
            say.push(format!(
                "{} behind the finish as designed",
                depth.display(units)
            ));
        }
        say.extend(part.sits.iter().cloned());
        match &part.evidence.done {
            Some(said) if said.presumed => {
                say.push("taken to be in; nobody saw it".to_owned());
            }
            Some(said) => say.push(format!("in since {}", self.on_by(said))),
            None if part.is_covered => say.push("nobody noted that it is in".to_owned()),
            None => say.push("not in yet".to_owned()),
        }
        say.extend(
            self.shown(&part.evidence)
                .into_iter()
                .filter(|shown| !shown.starts_with("read ")),
        );
        let evidence = &part.evidence;
        let is_shown = !evidence.photos.is_empty() || !evidence.kept_elsewhere.is_empty();
        let is_in = evidence.done.is_some() || part.is_covered;
        if is_in && part.is_hidden && !is_shown && part.kind != HiddenKind::Layer {
            say.push("no photo".to_owned());
        }
        say
    }

    /// A day of this year or another: for heads of printed pages.
    #[must_use]
    pub fn today(&self) -> String {
        let network = &self.words.outlook.network;
        day_words(&network.clock.zoned(network.now_tick()), 0)
    }

    /// When a tick of the plan is.
    #[must_use]
    pub fn when(&self, tick: Tick) -> String {
        self.words.when(tick)
    }
}

fn practice(ask: &Ask) -> &'static str {
    match ask.asked_by {
        AskedBy::Practice => " (common practice)",
        _ => "",
    }
}

/// Words to stand between quotation marks inside a sentence: without a full stop of their own.
fn quoted(words: &str) -> String {
    plain(words.trim().trim_end_matches('.'))
}
