//! Asking about work that was noted in an order in which it cannot have been done.

use grounds_model::{Job, Layer, LayerKey, Piece, Ref};
use jiff::SignedDuration;

use crate::{
    apply::Tallies,
    house,
    questions::Questions,
    state::{Seen, State, Subject},
    tally::Tally,
    words,
};

/// Notes are often written up together in the evening: two that are no further apart than this are
/// not read as an order of work.
const TOGETHER: SignedDuration = SignedDuration::from_mins(30);

/// Asks about everything in a job that was noted out of order.
pub(crate) fn ask(tallies: &Tallies, questions: &mut Questions<'_>) {
    let job = questions.job;
    let mut check = Check {
        job,
        tallies,
        questions,
    };
    check.own_dates();
    check.layers();
    check.pieces();
    check.holds();
    check.decisions();
}

struct Check<'c, 'q, 'a> {
    job: &'a Job,
    tallies: &'c Tallies,
    questions: &'q mut Questions<'a>,
}

impl<'c> Check<'c, '_, '_> {
    fn tally(&self, subject: &Subject) -> Option<&'c Tally> {
        self.tallies.get(subject)
    }

    fn state(&self, subject: &Subject) -> Option<&'c State> {
        self.tally(subject).map(|tally| &tally.state)
    }

    fn done(&self, subject: &Subject) -> Option<Seen> {
        self.state(subject).and_then(|state| state.done)
    }

    /// Whether a subject has been begun: how it is said, and by which note.
    fn begun(&self, subject: &Subject) -> Option<Begun> {
        let state = self.state(subject)?;
        let finished = state.done.map(|seen| Begun {
            seen,
            verb: done_verb(subject),
        });
        finished.or(state.started.map(|seen| Begun {
            seen,
            verb: "begun",
        }))
    }

    /// What has been begun of what a reference points at, the first of it.
    fn begun_of(&self, about: &Ref) -> Option<(Subject, Begun)> {
        let subjects = house::works(self.job, about);
        subjects.into_iter().find_map(|subject| {
            let begun = self.begun(&subject)?;
            Some((subject, begun))
        })
    }

    /// What is not done of what a reference points at, the first of it.
    fn open_of(&self, about: &Ref) -> Option<Subject> {
        let works = house::works(self.job, about);
        works
            .into_iter()
            .find(|subject| self.done(subject).is_none())
    }

    /// Dates of one subject that contradict each other.
    fn own_dates(&mut self) {
        for (subject, tally) in self.tallies {
            let state = &tally.state;
            if let Some((share, seen)) = state.progress
                && share == grounds_measure::Percent::WHOLE
                && state.done.is_none()
            {
                let words = format!(
                    "{} is noted as 100 % on {}, but not as done. Is it done?",
                    self.questions.head(subject),
                    self.questions.day(seen.at),
                );
                self.questions.ask(subject, &words, &[seen]);
            }
            if let (Subject::Piece(_) | Subject::Layer(_), Some(seen)) = (subject, state.damaged)
                && state.ordered.is_none_or(|ordered| ordered.at < seen.at)
            {
                let words = format!(
                    "{} was damaged on {}. Is it mended in place, or ordered or done again?",
                    self.questions.head(subject),
                    self.questions.day(seen.at),
                );
                self.questions.ask(subject, &words, &[seen]);
            }
        }
    }

    /// Layers begun before what is under them.
    fn layers(&mut self) {
        let job = self.job;
        for (place, design) in &job.places {
            for (face, design) in &design.faces {
                let layers = house::layers(job, design);
                let key = |layer: &Layer| {
                    Subject::Layer(LayerKey {
                        place: place.clone(),
                        face: face.clone(),
                        layer: layer.id.clone(),
                    })
                };
                // Protection is taken up again: that it is not down says nothing.
                let stack: Vec<Subject> = layers
                    .iter()
                    .filter(|layer| !layer.protective)
                    .map(key)
                    .collect();
                for (upto, subject) in stack.iter().enumerate() {
                    if let (Some(begun), Some(under)) = (self.begun(subject), stack.get(..upto)) {
                        self.layer(subject, begun, under);
                    }
                }
            }
        }
    }

    /// One layer that was begun, over those under it, structure side first.
    fn layer(&mut self, subject: &Subject, begun: Begun, under: &[Subject]) {
        let open: Vec<Subject> = under
            .iter()
            .rev()
            .take_while(|lower| self.done(lower).is_none())
            .cloned()
            .collect();
        if let [lower, ..] = open.as_slice() {
            let gone = self.tally(lower);
            let again = gone.and_then(|tally| tally.state.undone.or(tally.state.damaged));
            let was_there =
                gone.is_some_and(|tally| tally.was_there || tally.state.undone.is_none());
            let name = self.questions.head(subject);
            let day = self.questions.day(begun.seen.at);
            let verb = begun.verb;
            if let Some(again) = again.filter(|_| !was_there) {
                let words = format!(
                    "{name} is noted {verb} on {day}, but {} under it was not there on {}. Was it put in between?",
                    self.short(lower, subject),
                    self.questions.day(again.at),
                );
                return self.questions.ask(subject, &words, &[begun.seen, again]);
            }
            if let Some(again) = again {
                let words = format!(
                    "{name} is noted {verb} on {day}, but {} under it has to be done again by the note of {}. Does {} come off too?",
                    self.short(lower, subject),
                    self.questions.day(again.at),
                    self.short(subject, subject),
                );
                return self.questions.ask(subject, &words, &[begun.seen, again]);
            }
            let names: Vec<String> = open
                .iter()
                .map(|lower| self.short(lower, subject))
                .collect();
            let (was, ask) = if names.len() == 1 {
                ("was", "Was it")
            } else {
                ("were", "Were they")
            };
            let half = open.iter().any(|lower| self.begun(lower).is_some());
            let noted = if half {
                "not noted done"
            } else {
                "never noted"
            };
            let words = format!(
                "{name} is noted {verb} on {day}, but {} under it {was} {noted}. {ask} done?",
                words::list(&names),
            );
            return self.questions.ask(subject, &words, &[begun.seen]);
        }
        if let Some(lower) = under.last()
            && let Some(finish) = self.done(lower)
        {
            self.too_early(subject, lower, finish);
        }
    }

    /// A layer begun or done before the one under it was.
    fn too_early(&mut self, subject: &Subject, lower: &Subject, finish: Seen) {
        let Some(state) = self.state(subject) else {
            return;
        };
        // When something was put in that nobody saw, nobody knows.
        let is_presumed = |subject| {
            let state = self.state(subject);
            state.is_some_and(|state| state.presumed.is_some())
        };
        if is_presumed(subject) || is_presumed(lower) {
            return;
        }
        let clock = &self.questions.clock;
        let done = state
            .done
            .filter(|done| finish.at.duration_since(done.at) > TOGETHER);
        let started = state
            .started
            .filter(|start| clock.date(start.at) < clock.date(finish.at));
        let early = done
            .map(|seen| (seen, "done"))
            .or(started.map(|seen| (seen, "begun")));
        let Some((seen, verb)) = early else { return };
        let (day, after) = clock.two(seen.at, finish.at);
        let words = format!(
            "{} is noted {verb} on {day}, before {} under it on {after}. Which date is right?",
            self.questions.head(subject),
            self.short(lower, subject),
        );
        self.questions.ask(subject, &words, &[seen, finish]);
    }

    /// A layer's name without its place, where the sentence has named the place already.
    fn short(&self, subject: &Subject, beside: &Subject) -> String {
        let (Subject::Layer(key), Subject::Layer(other)) = (subject, beside) else {
            return self.questions.name(subject);
        };
        if key.place == other.place && key.face == other.face {
            return house::layer_alone(self.job, key);
        }
        self.questions.name(subject)
    }

    fn pieces(&mut self) {
        for (id, piece) in &self.job.pieces {
            let subject = Subject::Piece(id.clone());
            self.covered_piece(&subject, piece);
            let Some(state) = self.state(&subject) else {
                continue;
            };
            self.before_its_time(&subject, &piece.after, "needs");
            self.bought(&subject, piece, state);
        }
    }

    /// Work begun over a piece that is not set.
    fn covered_piece(&mut self, subject: &Subject, piece: &Piece) {
        if self.done(subject).is_some() {
            return;
        }
        let covered = piece.before.iter().find_map(|about| self.begun_of(about));
        let Some((cover, begun)) = covered else {
            return;
        };
        let words = format!(
            "{} is noted {} on {}, but {}, which goes in before it, was never noted set. Was it set?",
            self.questions.head(&cover),
            begun.verb,
            self.questions.day(begun.seen.at),
            self.questions.name(subject),
        );
        self.questions.ask(subject, &words, &[begun.seen]);
    }

    /// Ordering, measuring, deciding and arriving.
    fn bought(&mut self, subject: &Subject, piece: &Piece, state: &State) {
        let name = self.questions.head(subject);
        if let (Some(arrived), None, None) = (state.arrived, state.ordered, state.done)
            && (piece.lead.is_some() || piece.decision.is_some())
        {
            let day = self.questions.day(arrived.at);
            let words = format!(
                "{name} is noted arrived on {day}, but never ordered. Is it what the job asks for?"
            );
            self.questions.ask(subject, &words, &[arrived]);
        }
        let Some(ordered) = state.ordered.filter(|_| state.done.is_none()) else {
            return;
        };
        let day = self.questions.day(ordered.at);
        let is_measured = piece.measuring.is_some() || !piece.measured_after.is_empty();
        if is_measured && state.measured.is_none() {
            let words = format!(
                "{name} is noted ordered on {day}, but never measured. To which size was it ordered?"
            );
            self.questions.ask(subject, &words, &[ordered]);
        }
        if let Some(decision) = &piece.decision
            && self.done(&Subject::Decision(decision.clone())).is_none()
        {
            let words = format!(
                "{name} is noted ordered on {day}, but {} was never noted as decided. Was it?",
                self.questions.name(&Subject::Decision(decision.clone())),
            );
            self.questions.ask(subject, &words, &[ordered]);
        }
    }

    /// Something done while what it comes after is not.
    fn before_its_time(&mut self, subject: &Subject, after: &[Ref], needs: &str) {
        let Some(begun) = self.begun(subject) else {
            return;
        };
        let open: Vec<Subject> = after
            .iter()
            .filter_map(|about| self.open_of(about))
            .collect();
        if open.is_empty() {
            return;
        }
        let names: Vec<String> = open
            .iter()
            .map(|other| self.questions.name(other))
            .collect();
        let was = if names.len() == 1 { "was" } else { "were" };
        let words = format!(
            "{} is noted {} on {}, but {}, which it {needs} first, {was} not noted done. Which is right?",
            self.questions.head(subject),
            begun.verb,
            self.questions.day(begun.seen.at),
            words::list(&names),
        );
        self.questions.ask(subject, &words, &[begun.seen]);
    }

    /// Work that covers what has not passed, and passes of what is not there yet.
    fn holds(&mut self) {
        for (id, hold) in &self.job.holds {
            let subject = Subject::Hold(id.clone());
            self.before_its_time(&subject, &hold.after, "needs");
            let covers = hold.before.iter().filter_map(|about| self.begun_of(about));
            let first = covers.min_by_key(|(_, begun)| begun.seen.at);
            if let Some((cover, begun)) = first {
                self.covered_hold(&subject, &cover, begun);
            }
        }
    }

    fn covered_hold(&mut self, hold: &Subject, cover: &Subject, begun: Begun) {
        // Somebody decided that it goes on without: the question is answered, with a name and a reason.
        if self
            .state(cover)
            .is_some_and(|state| state.accepted.is_some())
        {
            return;
        }
        let clock = &self.questions.clock;
        let state = self.state(hold);
        let failed = state.and_then(|state| state.failed);
        let passed = state.and_then(|state| state.done);
        let what = match (passed, failed) {
            (Some(passed), _) if clock.date(passed.at) <= clock.date(begun.seen.at) => return,
            (Some(passed), _) => format!("passed only on {}", clock.day(passed.at)),
            (None, Some(failed)) => format!(
                "failed on {} and has not passed since",
                clock.day(failed.at)
            ),
            (None, None) => "was never noted as passed".to_owned(),
        };
        let words = format!(
            "{} is noted {} on {}, but {}, which comes before it, {what}. Was it covered without a pass?",
            self.questions.head(cover),
            begun.verb,
            self.questions.day(begun.seen.at),
            self.questions.name(hold),
        );
        let seen: Vec<Seen> = [Some(begun.seen), failed, passed]
            .into_iter()
            .flatten()
            .collect();
        self.questions.ask(hold, &words, &seen);
    }

    /// Work begun before its decision.
    fn decisions(&mut self) {
        for (id, decision) in &self.job.decisions {
            let subject = Subject::Decision(id.clone());
            if self.done(&subject).is_some() {
                continue;
            }
            let begun = decision
                .before
                .iter()
                .find_map(|about| self.begun_of(about));
            let Some((work, begun)) = begun else { continue };
            let words = format!(
                "{} is noted {} on {}, but {} was never noted as decided. Was it?",
                self.questions.head(&work),
                begun.verb,
                self.questions.day(begun.seen.at),
                self.questions.name(&subject),
            );
            self.questions.ask(&subject, &words, &[begun.seen]);
        }
    }
}

/// How far something has got, as it is said.
#[derive(Clone, Copy, Debug)]
struct Begun {
    seen: Seen,
    verb: &'static str,
}

fn done_verb(subject: &Subject) -> &'static str {
    match subject {
        Subject::Piece(_) => "set",
        Subject::Hold(_) => "passed",
        Subject::Decision(_) => "decided",
        Subject::Milestone(_) => "reached",
        _ => "done",
    }
}
