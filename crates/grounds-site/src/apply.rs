//! What each kind of note changes about each kind of thing.

use std::collections::BTreeMap;

use grounds_measure::Percent;
use grounds_model::{Id, LayerKey};

use crate::{
    house::{self, Aim},
    look::Look,
    misfit,
    note::{Kind, Note, Value},
    questions::Questions,
    state::{ClimateReading, Subject},
    tally::{self, Tally, seen, when},
};

/// The states in the making.
pub(crate) type Tallies = BTreeMap<Subject, Tally>;

/// Takes notes one after another, in order of time.
#[derive(Debug)]
pub(crate) struct Ledger<'q, 'a> {
    pub(crate) tallies: Tallies,
    pub(crate) climate: Vec<ClimateReading>,
    questions: &'q mut Questions<'a>,
}

impl<'q, 'a> Ledger<'q, 'a> {
    /// Nothing noted yet.
    pub(crate) fn new(questions: &'q mut Questions<'a>) -> Self {
        Self {
            tallies: Tallies::new(),
            climate: Vec::new(),
            questions,
        }
    }

    /// Takes the next note.
    pub(crate) fn take(&mut self, note: &Note) {
        match house::aim(self.questions.job, &note.about) {
            Aim::One(subject) => self.take_one(note, &subject),
            Aim::Face(layers) => self.take_face(note, &layers),
            Aim::Nothing => {}
        }
    }

    /// Keeps the note with a subject, and gives the subject's tally.
    fn keep(&mut self, note: &Note, subject: &Subject) -> &mut Tally {
        let tally = self.tallies.entry(subject.clone()).or_default();
        tally.state.notes.push(note.id);
        tally
    }

    fn take_one(&mut self, note: &Note, subject: &Subject) {
        self.keep(note, subject);
        match note.kind {
            Kind::Remark if note.presumed => self.tally(subject).not_seen(seen(note)),
            Kind::Remark => {}
            Kind::Problem => self.tally(subject).trouble(note, seen(note)),
            Kind::Cleared => self.tally(subject).clear(seen(note)),
            _ => match subject {
                Subject::Layer(_) | Subject::Piece(_) => self.work(note, subject),
                Subject::Hold(_) => self.hold(note, subject),
                Subject::Decision(_) => self.decision(note, subject),
                Subject::Milestone(_) => self.milestone(note, subject),
                Subject::Trade(_) => self.trade(note, subject),
                Subject::Opening(_) => self.opening(note, subject),
                Subject::Place(id) => self.place(note, subject, std::slice::from_ref(id)),
                Subject::Job => {
                    let everywhere: Vec<Id> = self.questions.job.places.keys().cloned().collect();
                    self.place(note, subject, &everywhere);
                }
                Subject::Passage(_) | Subject::Control(_) | Subject::Line(_) => {
                    self.opening(note, subject);
                }
            },
        }
    }

    fn tally(&mut self, subject: &Subject) -> &mut Tally {
        self.tallies.entry(subject.clone()).or_default()
    }

    /// The note says what cannot be said of its subject: kept, and asked about.
    fn misfit(&mut self, note: &Note, subject: &Subject) {
        let words = misfit::words(self.questions, note, subject);
        self.questions.ask_of(note, &words);
    }

    /// Layers, and pieces from order to setting. A decision about one of them says that it goes on
    /// as it is, although it may not fit.
    fn work(&mut self, note: &Note, subject: &Subject) {
        let seen = seen(note);
        match note.kind {
            Kind::Started => self.start(note, subject),
            Kind::Progress => self.progress(note, subject),
            Kind::Done if note.presumed => self.presume(note, subject),
            Kind::Done => self.done(note, subject),
            Kind::Undone => self.tally(subject).undo(seen),
            Kind::Measured => self.tally(subject).state.measured = Some(seen),
            Kind::Ordered => {
                self.tally(subject).state.ordered = Some(seen);
                self.date_if_any(note, subject);
            }
            Kind::Promised => self.promise(note, subject),
            Kind::Shipped => {
                self.tally(subject).state.shipped = Some(seen);
                self.date_if_any(note, subject);
            }
            Kind::Arrived => self.tally(subject).arrive(seen),
            Kind::Damaged => self.tally(subject).damage(seen),
            Kind::Decided if note.presumed => {
                self.tally(subject).decide_unseen(Look::of(note), seen);
            }
            Kind::Decided => self.tally(subject).state.accepted = Some(seen),
            _ => self.misfit(note, subject),
        }
    }

    fn start(&mut self, note: &Note, subject: &Subject) {
        let done = self.tally(subject).state.done;
        self.tally(subject).start(seen(note));
        if let Some(done) = done {
            let (finish, start) = self.questions.clock.two(done.at, note.at);
            let words = format!(
                "{} is noted done on {finish}, but begun on {start}, after that. Is it done, or is it being done again?",
                self.questions.head(subject)
            );
            self.questions.ask(subject, &words, &[done, seen(note)]);
        }
    }

    fn progress(&mut self, note: &Note, subject: &Subject) {
        let name = self.questions.name(subject);
        let day = self.questions.day(note.at);
        let Some(Value::Share(share)) = note.value else {
            let words = format!(
                "{name} was in progress on {day}, without a share such as 60 %. How far had it got?"
            );
            self.tally(subject).start(seen(note));
            return self.questions.ask_of(note, &words);
        };
        if share > Percent::WHOLE {
            let words = format!(
                "The note of {day} says that {name} had got to {share}, which is more than the whole. How far had it got?"
            );
            self.questions.ask_of(note, &words);
        }
        let done = self.tally(subject).state.done;
        self.tally(subject).progress(share, seen(note));
        if let Some(done) = done.filter(|_| share < Percent::WHOLE) {
            let (finish, later) = self.questions.clock.two(done.at, note.at);
            let words = format!(
                "{name} is noted done on {finish}, but only {share} done on {later}. Is it done?"
            );
            self.questions.ask(subject, &words, &[done, seen(note)]);
        }
    }

    fn done(&mut self, note: &Note, subject: &Subject) {
        self.tally(subject).done(seen(note));
    }

    /// Taken to be done though nobody saw it; asked about where somebody had found it gone.
    fn presume(&mut self, note: &Note, subject: &Subject) {
        let tally = self.tally(subject);
        let gone = tally.state.undone.filter(|_| tally.was_there);
        tally.presume(seen(note));
        if let Some(gone) = gone {
            let (missing, later) = self.questions.clock.two(gone.at, note.at);
            let words = format!(
                "{} was noted not to be there on {missing}; on {later} it is taken to be, because of what is over it. Was it put in since?",
                self.questions.head(subject)
            );
            self.questions.ask(subject, &words, &[gone, seen(note)]);
        }
    }

    /// A date promised, which the note must give.
    fn promise(&mut self, note: &Note, subject: &Subject) {
        if when(note).is_some() {
            return self.date_if_any(note, subject);
        }
        let words = format!(
            "On {} a date was promised for {}, but the note does not give it. Which date?",
            self.questions.day(note.at),
            self.questions.name(subject)
        );
        self.questions.ask_of(note, &words);
    }

    fn date_if_any(&mut self, note: &Note, subject: &Subject) {
        if let Some(date) = when(note) {
            self.tally(subject).promise(date, seen(note));
        }
    }

    /// Tests and inspections.
    fn hold(&mut self, note: &Note, subject: &Subject) {
        let seen = seen(note);
        match note.kind {
            Kind::Ordered => {
                self.tally(subject).state.ordered = Some(seen);
                self.date_if_any(note, subject);
            }
            Kind::Promised => self.promise(note, subject),
            Kind::Started => self.start(note, subject),
            Kind::Progress => self.progress(note, subject),
            Kind::Passed if note.presumed => {
                let words = format!(
                    "{} is noted passed on {}, though nobody saw it. It does not count: who has the paper?",
                    self.questions.head(subject),
                    self.questions.day(note.at),
                );
                self.questions.ask_of(note, &words);
            }
            Kind::Passed => self.tally(subject).pass(seen),
            Kind::Decided if note.presumed => {
                self.tally(subject).decide_unseen(Look::of(note), seen);
            }
            Kind::Failed => {
                let today = self.questions.clock.date(note.at);
                self.tally(subject).fail(seen, today);
            }
            Kind::Undone => self.tally(subject).undo(seen),
            Kind::Measured => self.tally(subject).state.measured = Some(seen),
            _ => self.misfit(note, subject),
        }
    }

    fn decision(&mut self, note: &Note, subject: &Subject) {
        match note.kind {
            Kind::Decided | Kind::Done => self.done(note, subject),
            Kind::Undone => self.tally(subject).undo(seen(note)),
            Kind::Promised => self.promise(note, subject),
            _ => self.misfit(note, subject),
        }
    }

    fn milestone(&mut self, note: &Note, subject: &Subject) {
        match note.kind {
            Kind::Done => self.done(note, subject),
            Kind::Undone => self.tally(subject).undo(seen(note)),
            Kind::Promised => self.promise(note, subject),
            _ => self.misfit(note, subject),
        }
    }

    /// A trade is booked, promises to come, and is on site.
    fn trade(&mut self, note: &Note, subject: &Subject) {
        match note.kind {
            Kind::Ordered => {
                self.tally(subject).state.ordered = Some(seen(note));
                self.date_if_any(note, subject);
            }
            Kind::Promised => self.promise(note, subject),
            Kind::Arrived => self.tally(subject).arrive(seen(note)),
            _ => self.misfit(note, subject),
        }
    }

    /// Openings, passages and lines are measured, and somebody decides to go on with what was read.
    fn opening(&mut self, note: &Note, subject: &Subject) {
        match note.kind {
            Kind::Measured => self.tally(subject).state.measured = Some(seen(note)),
            Kind::Decided => self.tally(subject).state.accepted = Some(seen(note)),
            Kind::Undone => self.tally(subject).state.accepted = None,
            _ => self.misfit(note, subject),
        }
    }

    /// A place, or all of them: what the air is. Of a flight somebody decides that its rises go on as
    /// they are.
    fn place(&mut self, note: &Note, subject: &Subject, places: &[Id]) {
        if note.kind == Kind::Decided && self.is_flight(subject) {
            self.tally(subject).state.accepted = Some(seen(note));
            return;
        }
        if note.kind != Kind::Measured {
            return self.misfit(note, subject);
        }
        let (temperature, humidity) = match note.value {
            Some(Value::Temperature(read)) => (Some(read), None),
            Some(Value::Humidity(read)) => (None, Some(read)),
            _ => return,
        };
        self.climate
            .extend(places.iter().map(|place| ClimateReading {
                place: place.clone(),
                at: note.at,
                temperature,
                humidity,
                note: note.id,
            }));
    }

    fn is_flight(&self, subject: &Subject) -> bool {
        let Subject::Place(id) = subject else {
            return false;
        };
        let place = self.questions.job.places.get(id);
        place.is_some_and(|place| place.flight.is_some())
    }

    /// A note about a whole face.
    fn take_face(&mut self, note: &Note, layers: &[LayerKey]) {
        let subjects: Vec<Subject> = layers.iter().cloned().map(Subject::Layer).collect();
        for subject in &subjects {
            self.keep(note, subject);
        }
        match note.kind {
            Kind::Problem => {
                for subject in &subjects {
                    self.tally(subject).trouble(note, tally::seen(note));
                }
            }
            Kind::Cleared => {
                for subject in &subjects {
                    self.tally(subject).clear(tally::seen(note));
                }
            }
            Kind::Remark if note.presumed => {
                for subject in &subjects {
                    self.tally(subject).not_seen(tally::seen(note));
                }
            }
            Kind::Remark | Kind::Measured => {}
            Kind::Decided if note.presumed => {
                for subject in &subjects {
                    let (look, seen) = (Look::of(note), tally::seen(note));
                    self.tally(subject).decide_unseen(look, seen);
                }
            }
            Kind::Decided => {
                for subject in &subjects {
                    self.tally(subject).state.accepted = Some(tally::seen(note));
                }
            }
            Kind::Done if note.presumed => {
                for subject in &subjects {
                    self.presume(note, subject);
                }
            }
            Kind::Done => {
                // Whoever says that a whole face is done has seen what is outermost.
                if let Some(outermost) = subjects.last()
                    && self.tally(outermost).state.presumed.is_some()
                {
                    self.done(note, outermost);
                }
                // A layer that somebody noted by itself keeps its own date: drying counts from it.
                for subject in &subjects {
                    if self.tally(subject).state.done.is_none() {
                        self.done(note, subject);
                    }
                }
            }
            Kind::Started => {
                let next = subjects.iter().find(|subject| self.is_open(subject));
                match next {
                    Some(subject) => self.start(note, subject),
                    None => self.ask_which_layer(note),
                }
            }
            Kind::Undone | Kind::Damaged => {
                // The outermost finished layer is surely spoiled; how far down is asked.
                let outermost = subjects.iter().rev().find(|subject| !self.is_open(subject));
                if let Some(subject) = outermost {
                    self.work(note, subject);
                }
                self.ask_which_layer(note);
            }
            _ => self.ask_which_layer(note),
        }
    }

    fn is_open(&self, subject: &Subject) -> bool {
        self.tallies
            .get(subject)
            .is_none_or(|tally| tally.state.done.is_none())
    }

    fn ask_which_layer(&mut self, note: &Note) {
        let words = misfit::which_layer(self.questions, note);
        self.questions.ask_of(note, &words);
    }
}
