//! The register: what is about to be hidden, and what was hidden without being seen.

use std::collections::{BTreeMap, BTreeSet};

use grounds_lines::holdups::let_go;
use grounds_measure::Span;
use grounds_model::{Hold, Id, Job, LayerKey, PieceKind};
use grounds_schedule::{ActivityId, DAY, Tick};
use grounds_sequence::{Network, Outlook, TaskState, Work, notice};
use grounds_site::{Note, Site, Subject};
use jiff::{Timestamp, civil::Date};

use crate::{
    asks::{Ask, AskedBy, Giver, Met, Wanted, answered, evidence_from, giver_of, texts, wanted_by},
    evidence::{Evidence, InView, Said, counting},
    hides::{Cover, hides, looks_at},
    kinds::{HiddenKind, closes, kind_of, kind_of_piece},
};

/// How far what covers has got.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// It is to come: what it hides can still be seen.
    ToCome,
    /// It is being covered.
    InHand,
    /// It is covered.
    Done,
}

/// The note that lets a covering go on without what was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct LetGo {
    /// Who, when and why.
    pub said: Said,
    /// It still stands: nothing that is asked for failed since.
    pub stands: bool,
}

/// One thing that is hidden.
#[derive(Clone, Debug, PartialEq)]
pub struct Hidden {
    /// What it is: a layer once for each face that is worked on in one go, a piece, a hold.
    pub subjects: Vec<Subject>,
    /// What kind of thing it is.
    pub kind: HiddenKind,
    /// What everyone calls it, without its place.
    pub name: String,
    /// Who does it.
    pub trade: Option<Id>,
    /// How far it has got.
    pub state: TaskState,
    /// What the notes show of it.
    pub evidence: Evidence,
    /// What is asked of it.
    pub asks: Vec<Ask>,
}

impl Hidden {
    /// What is asked and not there.
    pub fn missing(&self) -> impl Iterator<Item = &Ask> {
        self.asks.iter().filter(|ask| ask.met.is_none())
    }
}

/// One piece of work that hides things.
#[derive(Clone, Debug, PartialEq)]
pub struct Covering {
    /// The work in the plan.
    pub task: ActivityId,
    /// Its key.
    pub key: String,
    /// The layers or the piece that cover.
    pub covers: Vec<Cover>,
    /// Where.
    pub place: Option<Id>,
    /// How far it has got.
    pub standing: Standing,
    /// When it starts by the plan, or when it began.
    pub start: Tick,
    /// Who noted that it began, if anybody did.
    pub begun: Option<Said>,
    /// What it hides, structure side first, then pieces, then holds.
    pub hides: Vec<Hidden>,
    /// Who let it go on without what is asked.
    pub let_go: Option<LetGo>,
}

impl Covering {
    /// What is asked and not there, with the thing it is asked of.
    pub fn missing(&self) -> impl Iterator<Item = (&Hidden, &Ask)> {
        self.hides
            .iter()
            .flat_map(|hidden| hidden.missing().map(move |ask| (hidden, ask)))
    }

    /// Whether something is asked of what it hides.
    #[must_use]
    pub fn is_asked(&self) -> bool {
        self.hides.iter().any(|hidden| !hidden.asks.is_empty())
    }

    /// Whether something that the job asks for is missing.
    #[must_use]
    pub fn lacks_what_the_job_asks(&self) -> bool {
        self.missing().any(|(_, ask)| ask.asked_by.is_the_job())
    }

    /// Whether it was covered while something asked for was missing.
    #[must_use]
    pub fn is_unseen(&self) -> bool {
        self.standing != Standing::ToCome && self.missing().next().is_some()
    }

    /// Whether a start now wants a reason first: something is missing, and nobody let it go.
    #[must_use]
    pub fn wants_reason(&self) -> bool {
        let let_go = self.let_go.as_ref().is_some_and(|let_go| let_go.stands);
        self.standing == Standing::ToCome && !let_go && self.missing().next().is_some()
    }
}

/// What is about to be hidden, and what was.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Register {
    /// Everything that hides something, the first to start first.
    pub coverings: Vec<Covering>,
    /// The present, in ticks of the plan.
    pub now: Tick,
}

impl Register {
    /// The register of a job as it stands, by a plan of it.
    #[must_use]
    pub fn of(job: &Job, site: &Site, outlook: &Outlook) -> Self {
        Reader::new(job, site, outlook).register()
    }

    /// What is to come and begins within so many weeks; all of it without a number.
    pub fn to_come(&self, weeks: Option<u16>) -> impl Iterator<Item = &Covering> {
        let until = weeks.map(|weeks| self.now.saturating_add(7 * DAY * Tick::from(weeks)));
        self.coverings.iter().filter(move |covering| {
            covering.standing == Standing::ToCome
                && until.is_none_or(|until| covering.start < until)
        })
    }

    /// What was covered, or is being covered, without something that is asked for; the latest first.
    #[must_use]
    pub fn unseen(&self) -> Vec<&Covering> {
        let mut all: Vec<&Covering> = self.coverings.iter().filter(|c| c.is_unseen()).collect();
        all.reverse();
        all
    }

    /// A test or an inspection as what is hidden; nothing where no covering hides what it looks at.
    #[must_use]
    pub fn of_hold(&self, id: &Id) -> Option<&Hidden> {
        let wanted = Subject::Hold(id.clone());
        let mut all = self.coverings.iter().flat_map(|covering| &covering.hides);
        all.find(|hidden| hidden.subjects.contains(&wanted))
    }

    /// What a piece of work hides.
    #[must_use]
    pub fn of_task(&self, task: ActivityId) -> Option<&Covering> {
        self.coverings.iter().find(|covering| covering.task == task)
    }
}

/// Reads a register off a job, its site and its plan.
struct Reader<'a> {
    job: &'a Job,
    site: &'a Site,
    outlook: &'a Outlook,
    /// The work of each layer and piece.
    tasks: BTreeMap<Cover, ActivityId>,
    /// Things that a hold looks at which wants a photo of its own.
    photographed_for_a_hold: BTreeSet<Subject>,
}

impl<'a> Reader<'a> {
    fn new(job: &'a Job, site: &'a Site, outlook: &'a Outlook) -> Self {
        let wants_photo = |hold: &&Hold| {
            hold.evidence
                .iter()
                .any(|text| wanted_by(text) == Wanted::Photo)
        };
        let holds = job.holds.values().filter(wants_photo);
        Self {
            job,
            site,
            outlook,
            tasks: tasks(&outlook.network),
            photographed_for_a_hold: holds.flat_map(|hold| looks_at(job, hold)).collect(),
        }
    }

    fn register(&self) -> Register {
        let mut groups: BTreeMap<ActivityId, Vec<(Cover, Vec<Subject>)>> = BTreeMap::new();
        for (cover, hidden) in hides(self.job).by {
            if let Some(&task) = self.tasks.get(&cover) {
                groups.entry(task).or_default().push((cover, hidden));
            }
        }
        let groups = groups.into_iter();
        let mut coverings: Vec<Covering> = groups
            .filter_map(|(task, group)| self.covering(task, group))
            .collect();
        coverings.sort_by_key(|covering| (covering.start, covering.task));
        Register {
            coverings,
            now: self.outlook.network.now_tick(),
        }
    }

    fn covering(&self, id: ActivityId, group: Vec<(Cover, Vec<Subject>)>) -> Option<Covering> {
        let task = self.outlook.network.task(id)?;
        let start = *self.outlook.plan.starts.get(id.index())?;
        let mut hides = self.gather(&group, id, start);
        hides.sort_by_key(|hidden| order(hidden.kind));
        let covers: Vec<Cover> = group.into_iter().map(|(cover, _)| cover).collect();
        let standing = match task.state {
            TaskState::ToCome => Standing::ToCome,
            TaskState::InHand => Standing::InHand,
            TaskState::Done => Standing::Done,
        };
        Some(Covering {
            task: id,
            key: task.key.clone(),
            place: task.place.clone(),
            standing,
            start,
            begun: covers.iter().find_map(|cover| self.begun_note(cover)),
            let_go: self.let_go(&covers, standing, &hides),
            covers,
            hides,
        })
    }

    /// What a piece of work hides, the same layer on several faces as one thing.
    fn gather(&self, group: &[(Cover, Vec<Subject>)], id: ActivityId, start: Tick) -> Vec<Hidden> {
        let mut together: Vec<(Vec<Subject>, Option<Timestamp>)> = Vec::new();
        for (cover, hidden) in group {
            let begun = self.begun_at(cover, id, start);
            for subject in hidden {
                let same = |(known, _): &&mut (Vec<Subject>, _)| {
                    known
                        .first()
                        .is_some_and(|first| is_same_work(first, subject, &self.tasks))
                };
                match together.iter_mut().find(same) {
                    Some((known, until)) => {
                        if !known.contains(subject) {
                            known.push(subject.clone());
                        }
                        *until = until.zip(begun).map(|(a, b)| a.max(b));
                    }
                    None => together.push((vec![subject.clone()], begun)),
                }
            }
        }
        let all = together.into_iter();
        all.filter_map(|(subjects, begun)| self.hidden(subjects, group, begun, start))
            .collect()
    }

    fn hidden(
        &self,
        subjects: Vec<Subject>,
        group: &[(Cover, Vec<Subject>)],
        begun: Option<Timestamp>,
        start: Tick,
    ) -> Option<Hidden> {
        let first = subjects.first()?.clone();
        let evidence = subjects
            .iter()
            .map(|subject| Evidence::in_view(self.site, subject, self.view(subject, begun)))
            .reduce(Evidence::and)
            .unwrap_or_default();
        let (kind, name, trade) = self.what(&first)?;
        let asks = match &first {
            Subject::Hold(id) => self.asks_of_hold(id, begun, start),
            _ => self.asks_of_work(&subjects, kind, group, begun, start),
        };
        Some(Hidden {
            state: self.state_of(&first),
            subjects,
            kind,
            name,
            trade,
            evidence,
            asks,
        })
    }

    fn what(&self, subject: &Subject) -> Option<(HiddenKind, String, Option<Id>)> {
        Some(match subject {
            Subject::Layer(key) => {
                let layer = self.job.layer(key)?;
                (
                    kind_of(layer),
                    layer.name.clone(),
                    Some(layer.trade.clone()),
                )
            }
            Subject::Piece(id) => {
                let piece = self.job.pieces.get(id)?;
                (
                    kind_of_piece(piece),
                    piece.name.clone(),
                    Some(piece.trade.clone()),
                )
            }
            Subject::Hold(id) => {
                let hold = self.job.holds.get(id)?;
                (HiddenKind::Hold, hold.name.clone(), hold.by.clone())
            }
            _ => return None,
        })
    }

    fn asks_of_work(
        &self,
        subjects: &[Subject],
        kind: HiddenKind,
        group: &[(Cover, Vec<Subject>)],
        begun: Option<Timestamp>,
        start: Tick,
    ) -> Vec<Ask> {
        let own = subjects.first().and_then(|subject| match subject {
            Subject::Layer(key) => self.job.layer(key)?.evidence.as_ref(),
            Subject::Piece(id) => self.job.pieces.get(id)?.evidence.as_ref(),
            _ => None,
        });
        let asked_elsewhere = subjects
            .iter()
            .all(|subject| self.photographed_for_a_hold.contains(subject));
        let (asked_by, texts) = texts(own, kind);
        let is_lost = subjects.iter().any(|subject| {
            group
                .iter()
                .any(|(cover, _)| self.is_lost_behind(subject, cover))
        });
        if asked_by == AskedBy::Practice && (asked_elsewhere || !is_lost) {
            return Vec::new();
        }
        let ask = |what: &String| {
            let wanted = wanted_by(what);
            let met = subjects.iter().map(|subject| {
                let notes = self.notes_of(subject, begun);
                answered(wanted, what, &texts, &notes)
            });
            Ask {
                wanted,
                what: what.clone(),
                asked_by: asked_by.clone(),
                from: self.giver_of_work(subjects, wanted),
                by: start,
                met: self.latest(met, begun),
            }
        };
        texts.iter().map(ask).collect()
    }

    /// Whether a thing cannot be seen any more once something covers it. The next coat of the same
    /// material shows what the first would, and what is only lapped, or stands on another face, stays.
    fn is_lost_behind(&self, subject: &Subject, cover: &Cover) -> bool {
        let Cover::Layer(over) = cover else {
            return true;
        };
        let Some(layer) = self.job.layer(over) else {
            return false;
        };
        match subject {
            Subject::Layer(key) => self
                .job
                .layer(key)
                .is_some_and(|under| under.material != layer.material),
            Subject::Piece(id) => self.job.pieces.get(id).is_some_and(|piece| {
                let in_opening = self
                    .job
                    .openings
                    .values()
                    .any(|o| o.piece.as_ref() == Some(id));
                let stays_in_view = in_opening || piece.kind.is_some_and(stays_in_view);
                let elsewhere = piece
                    .face
                    .as_ref()
                    .is_some_and(|face| *face != over.face || piece.place != over.place);
                closes(layer) && !elsewhere && !stays_in_view
            }),
            _ => true,
        }
    }

    fn giver_of_work(&self, subjects: &[Subject], wanted: Wanted) -> Giver {
        let trade = subjects.first().and_then(|subject| self.what(subject)?.2);
        match (wanted, trade) {
            (Wanted::Reading | Wanted::Paper, Some(trade)) => Giver::Trade(trade),
            _ => Giver::SiteLead,
        }
    }

    fn asks_of_hold(&self, id: &Id, begun: Option<Timestamp>, start: Tick) -> Vec<Ask> {
        let Some(hold) = self.job.holds.get(id) else {
            return Vec::new();
        };
        let subject = Subject::Hold(id.clone());
        let state = self.site.state(&subject);
        let passed = state
            .done
            .and_then(|seen| Said::by_id(self.site, seen.note))
            .filter(|said| !said.presumed);
        let mut asks = vec![Ask {
            wanted: Wanted::Pass,
            what: "Pass".to_owned(),
            asked_by: AskedBy::Hold(id.clone()),
            from: giver_of(self.job, hold),
            by: self.pass_by(hold, &state, start),
            met: passed.map(|said| self.met(said, begun)),
        }];
        let (asked_by, texts) = match hold.evidence.as_slice() {
            [] => (AskedBy::Practice, vec!["Photo".to_owned()]),
            texts => (AskedBy::Hold(id.clone()), texts.to_vec()),
        };
        let looked_at = looks_at(self.job, hold);
        let worked = looked_at.first().and_then(|subject| self.what(subject)?.2);
        let mut notes = self.notes_of(&subject, begun);
        for thing in &looked_at {
            notes.extend(self.notes_of(thing, begun));
        }
        notes.sort_by_key(|note| (note.at, note.id));
        notes.dedup_by_key(|note| note.id);
        let by = self
            .planned(id)
            .filter(|&pass| pass < start)
            .unwrap_or(start);
        asks.extend(texts.iter().map(|what| {
            let wanted = wanted_by(what);
            let answer = answered(wanted, what, &texts, &notes);
            Ask {
                wanted,
                what: what.clone(),
                asked_by: asked_by.clone(),
                from: evidence_from(self.job, hold, wanted, worked.as_ref()),
                by,
                met: answer.map(|note| self.met(Said::of(note), begun)),
            }
        }));
        asks
    }

    /// When a hold is planned to pass, while it is to come.
    fn planned(&self, id: &Id) -> Option<Tick> {
        let network = &self.outlook.network;
        let pass = network.find(id.as_str())?;
        let to_come = network.task(pass)?.state != TaskState::Done;
        let at = self.outlook.plan.starts.get(pass.index()).copied();
        at.filter(|_| to_come)
    }

    /// The last moment to book a hold that is not booked, or to have it pass.
    fn pass_by(&self, hold: &Hold, state: &grounds_site::State, start: Tick) -> Tick {
        let then = match hold.then {
            Some(Span::WorkingDays(days)) => Tick::try_from(days).unwrap_or(0).saturating_mul(DAY),
            Some(span) => span
                .quarter_hours_up()
                .and_then(|ticks| Tick::try_from(ticks).ok())
                .unwrap_or(0),
            None => 0,
        };
        let latest = start.saturating_sub(then);
        let booked = state.promised.is_some() || state.ordered.is_some();
        if hold.notice.is_none() || booked {
            return latest;
        }
        let clock = &self.outlook.network.clock;
        let day: Date = clock.day(latest);
        clock.midnight(notice::last_day_to_book(self.job, hold, day))
    }

    /// The notes that show a thing while it could be seen.
    fn notes_of(&self, subject: &Subject, begun: Option<Timestamp>) -> Vec<&'a Note> {
        counting(self.site, subject, self.view(subject, begun)).collect()
    }

    /// From when a thing was there until what hides it began, the day of that included.
    fn view(&self, subject: &Subject, begun: Option<Timestamp>) -> InView {
        let state = self.site.states.get(subject);
        let from = state.and_then(|state| state.started.or(state.done));
        InView {
            from: from.map(|seen| seen.at),
            until: begun.map(|at| self.end_of_day(at)),
        }
    }

    fn end_of_day(&self, at: Timestamp) -> Timestamp {
        let clock = &self.outlook.network.clock;
        let day = clock.day(clock.floor(at));
        clock.timestamp(clock.midnight(day.tomorrow().unwrap_or(day)))
    }

    /// The last of several answers, where all are there.
    fn latest(
        &self,
        found: impl Iterator<Item = Option<&'a Note>>,
        begun: Option<Timestamp>,
    ) -> Option<Met> {
        let all: Option<Vec<&Note>> = found.collect();
        let last = all?.into_iter().max_by_key(|note| (note.at, note.id))?;
        Some(self.met(Said::of(last), begun))
    }

    fn met(&self, said: Said, begun: Option<Timestamp>) -> Met {
        let late = begun.is_some_and(|begun| said.at > self.end_of_day(begun));
        Met { said, late }
    }

    /// The note that what covers began, or that it is done.
    fn begun_note(&self, cover: &Cover) -> Option<Said> {
        let state = self.site.states.get(&cover.subject())?;
        let seen = state.started.or(state.done)?;
        Said::by_id(self.site, seen.note)
    }

    /// When what covers began on its face; by the plan where only what is over it was noted.
    fn begun_at(&self, cover: &Cover, id: ActivityId, start: Tick) -> Option<Timestamp> {
        let network = &self.outlook.network;
        let noted = self.begun_note(cover).map(|said| said.at);
        let is_done = network
            .task(id)
            .is_some_and(|task| task.state == TaskState::Done);
        noted.or_else(|| is_done.then(|| network.clock.timestamp(start)))
    }

    fn state_of(&self, subject: &Subject) -> TaskState {
        let network = &self.outlook.network;
        let task = match subject {
            Subject::Layer(key) => self.tasks.get(&Cover::Layer(key.clone())).copied(),
            Subject::Piece(id) => self.tasks.get(&Cover::Piece(id.clone())).copied(),
            other => network.find(&other.to_string()),
        };
        task.and_then(|id| network.task(id))
            .map_or(TaskState::ToCome, |task| task.state)
    }

    /// Who let a covering go on. Of one that is to come, only while nothing says otherwise since.
    fn let_go(&self, covers: &[Cover], standing: Standing, hides: &[Hidden]) -> Option<LetGo> {
        let decided = covers.iter().filter_map(|cover| {
            let subject = cover.subject();
            match standing {
                Standing::ToCome => let_go(self.site, &subject),
                _ => self.site.states.get(&subject)?.accepted,
            }
        });
        let last = decided.max_by_key(|seen| (seen.at, seen.note))?;
        // Whoever lets it go says why.
        let said = Said::by_id(self.site, last.note).filter(|said| said.words.is_some())?;
        let fails = hides
            .iter()
            .filter_map(|hidden| hidden.evidence.failed.as_ref());
        let stands = fails.into_iter().all(|failed| failed.at <= said.at);
        Some(LetGo { said, stands })
    }
}

/// The work of each layer and piece.
fn tasks(network: &Network) -> BTreeMap<Cover, ActivityId> {
    let mut all = BTreeMap::new();
    for (index, task) in network.tasks.iter().enumerate() {
        let id = ActivityId::from(index);
        match &task.work {
            Work::Layer(keys) => {
                let keys = keys.iter().cloned();
                all.extend(keys.map(|key: LayerKey| (Cover::Layer(key), id)));
            }
            Work::Set(piece) => {
                all.insert(Cover::Piece(piece.clone()), id);
            }
            _ => {}
        }
    }
    all
}

/// Whether two hidden things are one piece of work: the same layer on faces worked on in one go.
fn is_same_work(a: &Subject, b: &Subject, tasks: &BTreeMap<Cover, ActivityId>) -> bool {
    match (a, b) {
        (Subject::Layer(a), Subject::Layer(b)) => {
            let task = |key: &LayerKey| tasks.get(&Cover::Layer(key.clone()));
            task(a).is_some() && task(a) == task(b)
        }
        (a, b) => a == b,
    }
}

/// Whether a piece of that kind is lapped by what covers, and never lost behind it.
fn stays_in_view(kind: PieceKind) -> bool {
    !matches!(kind, PieceKind::Box | PieceKind::Fan | PieceKind::SnowMelt)
}

fn order(kind: HiddenKind) -> u8 {
    match kind {
        HiddenKind::Hold => 2,
        HiddenKind::Piece => 1,
        _ => 0,
    }
}
