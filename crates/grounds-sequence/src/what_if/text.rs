//! The text form: `stair-glass arrives 2027-09-24`.

use grounds_model::{Id, Job, Moment, Ref, Target};
use jiff::civil::Date;

use super::{WhatIf, WhatIfError};

/// The longest text that is read, in bytes.
const LONGEST: usize = 300;

/// The longest delay that is read, in days: ten years.
const MOST_DAYS: u32 = 3_650;

/// How alike a key must be to one of the job for it to be meant.
const ALIKE: f64 = 0.8;

/// The forms, for who writes another.
const FORMS: &str = "write one of: stair-glass arrives 2027-09-24, stain-colour decided 2027-06-30, \
                     stair-glass later 5 days, plumb away 2027-06-14 to 2027-06-18, flood-test fails, \
                     stair-glass damaged";

impl WhatIf {
    /// Reads what is supposed, in one of the forms
    ///
    /// - `PIECE arrives DATE`
    /// - `DECISION decided DATE`
    /// - `PIECE`, `DECISION` or `HOLD`, then `later N days`
    /// - `TRADE away DATE`, or `TRADE away DATE to DATE`
    /// - `HOLD fails`
    /// - `PIECE` or `LAYER`, then `damaged`
    ///
    /// with the keys of the job and dates like `2027-09-24`.
    ///
    /// # Errors
    /// Says at which byte the text goes wrong, what was found there and what to write.
    ///
    /// ```
    /// use grounds_model::Job;
    /// use grounds_sequence::what_if::WhatIf;
    ///
    /// # fn read(job: &Job) -> Result<(), Box<dyn std::error::Error>> {
    /// let late = WhatIf::read("stair-glass arrives 2027-09-24", job)?;
    /// # Ok(()) }
    /// ```
    pub fn read(text: &str, job: &Job) -> Result<Self, WhatIfError> {
        if text.len() > LONGEST {
            return Err(WhatIfError {
                at: Some(LONGEST),
                what: "the text is too long".to_owned(),
                mend: FORMS.to_owned(),
            });
        }
        Reader {
            job,
            words: words(text),
            end: text.len(),
            next: 0,
        }
        .read()
    }
}

/// The words of a text, with where they begin.
fn words(text: &str) -> Vec<(usize, &str)> {
    let mut words = Vec::new();
    let mut at = 0;
    for word in text.split(char::is_whitespace) {
        if !word.is_empty() {
            words.push((at, word));
        }
        at += word.len()
            + text[at + word.len()..]
                .chars()
                .next()
                .map_or(0, char::len_utf8);
    }
    words
}

struct Reader<'a> {
    job: &'a Job,
    words: Vec<(usize, &'a str)>,
    end: usize,
    next: usize,
}

impl<'a> Reader<'a> {
    fn read(mut self) -> Result<WhatIf, WhatIfError> {
        let key = self.word("a key of the job")?;
        let (at, verb) = self.word("what happens to it")?;
        let what = match verb {
            "arrives" => WhatIf::Arrives {
                piece: self.key(key, "piece")?,
                on: self.moment()?,
            },
            "decided" => WhatIf::Decided {
                decision: self.key(key, "decision")?,
                on: self.moment()?,
            },
            "later" => self.later(key)?,
            "away" => self.away(key)?,
            "fails" => WhatIf::Fails {
                hold: self.key(key, "hold")?,
            },
            "damaged" => WhatIf::Damaged {
                about: self.damaged(key)?,
            },
            other => return Err(fault(at, format!("{} is not known", shown(other)), FORMS)),
        };
        match self.words.get(self.next) {
            None => Ok(what),
            Some((at, more)) => Err(fault(
                *at,
                format!("{} is too much", shown(more)),
                "leave it out",
            )),
        }
    }

    fn word(&mut self, wanted: &str) -> Result<(usize, &'a str), WhatIfError> {
        let word = self.words.get(self.next).copied();
        self.next += 1;
        word.ok_or_else(|| fault(self.end, format!("{wanted} is missing"), FORMS))
    }

    fn key(&self, (at, word): (usize, &str), kind: &str) -> Result<Id, WhatIfError> {
        let known = |(of, key): (&str, &Id)| of == kind && key.as_str() == word;
        if self.keys().into_iter().any(known) {
            return Ok(Id(word.to_owned()));
        }
        Err(self.unknown(at, word, &[kind]))
    }

    /// The keys of what can be supposed of, with their kinds.
    fn keys(&self) -> Vec<(&'static str, &'a Id)> {
        let job = self.job;
        let pieces = job.pieces.keys().map(|key| ("piece", key));
        let holds = job.holds.keys().map(|key| ("hold", key));
        let decisions = job.decisions.keys().map(|key| ("decision", key));
        let trades = job.trades.keys().map(|key| ("trade", key));
        pieces.chain(holds).chain(decisions).chain(trades).collect()
    }

    fn unknown(&self, at: usize, word: &str, kinds: &[&str]) -> WhatIfError {
        let mut near: Vec<(f64, &Id)> = self
            .keys()
            .into_iter()
            .filter(|(of, _)| kinds.contains(of))
            .map(|(_, key)| (strsim::jaro_winkler(word, key.as_str()), key))
            .filter(|(alike, _)| *alike >= ALIKE)
            .collect();
        near.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
        let mend = match near.first() {
            Some((_, key)) => format!("is {key} meant?"),
            None => "write its key as the job document has it".to_owned(),
        };
        let kinds = kinds.join(" or ");
        fault(at, format!("the job has no {kinds} {}", shown(word)), mend)
    }

    fn moment(&mut self) -> Result<Moment, WhatIfError> {
        let (at, word) = self.word("a date like 2027-09-24")?;
        word.parse().map_err(|_| {
            fault(
                at,
                format!("{} is no date", shown(word)),
                "write one like 2027-09-24",
            )
        })
    }

    fn date(&mut self) -> Result<Date, WhatIfError> {
        self.moment().map(|moment| moment.date)
    }

    fn later(&mut self, key: (usize, &str)) -> Result<WhatIf, WhatIfError> {
        let kinds = ["piece", "decision", "hold"];
        let known = |(of, id): &(&str, &Id)| kinds.contains(of) && id.as_str() == key.1;
        if !self.keys().iter().any(known) {
            return Err(self.unknown(key.0, key.1, &kinds));
        }
        let (at, word) = self.word("how many days")?;
        let days = word
            .parse()
            .ok()
            .filter(|days| (1..=MOST_DAYS).contains(days))
            .ok_or_else(|| {
                let what = format!("{} is no number of days", shown(word));
                fault(at, what, "write a whole number like 5")
            })?;
        if matches!(self.words.get(self.next), Some((_, "days" | "day"))) {
            self.next += 1;
        }
        Ok(WhatIf::Later {
            about: Id(key.1.to_owned()),
            days,
        })
    }

    fn away(&mut self, key: (usize, &str)) -> Result<WhatIf, WhatIfError> {
        let trade = self.key(key, "trade")?;
        let from = self.date()?;
        let to = if self.next < self.words.len() {
            let (at, word) = self.word("to")?;
            if word != "to" {
                let mend = "write away 2027-06-14 to 2027-06-18";
                return Err(fault(at, format!("{} is not known", shown(word)), mend));
            }
            self.date()?
        } else {
            from
        };
        Ok(WhatIf::Away { trade, from, to })
    }

    fn damaged(&self, (at, word): (usize, &str)) -> Result<Ref, WhatIfError> {
        let about = Ref(word.to_owned());
        match self.job.resolve(&about) {
            Some(Target::Piece(_) | Target::Layer(_)) => Ok(about),
            _ => Err(self.unknown(at, word, &["piece", "layer"])),
        }
    }
}

fn fault(at: usize, what: impl Into<String>, mend: impl Into<String>) -> WhatIfError {
    WhatIfError {
        at: Some(at),
        what: what.into(),
        mend: mend.into(),
    }
}

/// A word as it is shown back: short, with everything escaped that is not plainly visible.
fn shown(word: &str) -> String {
    let cut: String = word.chars().take(40).collect();
    format!("`{}`", cut.escape_debug())
}
