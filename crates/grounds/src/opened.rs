//! A job that was named on the command line: read, folded and planned.

use std::{
    fs,
    io::Write,
    path::{Path, PathBuf},
};

use grounds_model::{Faults, Job, Moment};
use grounds_sequence::{Effort, Network, Outlook};
use grounds_site::{Note, NoteFault, Site, fold, read_notes};
use jiff::{Timestamp, ToSpan, ZonedDateTime, tz::TimeZone};

use crate::{
    annotate,
    arguments::{Data, JobAt},
    ending::{Ending, Trouble},
    folder::Folder,
    page::{self, QUIET},
    store,
};

/// A moment farther from the day that the job begins is taken for a slip of the hand.
const FARTHEST_YEARS: u32 = 50;

/// A job and its log.
#[derive(Debug)]
pub(crate) struct Opened {
    /// The design.
    pub(crate) job: Job,
    /// What was seen.
    pub(crate) notes: Vec<Note>,
    /// The job's time zone.
    zone: TimeZone,
    /// Where it is kept.
    pub(crate) kept: Kept,
}

/// Where a job is kept.
#[derive(Clone, Debug)]
pub(crate) enum Kept {
    /// In a folder of its own.
    Folder(PathBuf),
    /// In the data directory, under a key.
    Store(String),
}

/// A job as it stands at a moment, with its plan.
#[derive(Debug)]
pub(crate) struct Planned {
    /// The design.
    pub(crate) job: Job,
    /// What is true.
    pub(crate) site: Site,
    /// What is planned.
    pub(crate) outlook: Outlook,
}

impl Opened {
    /// Opens a folder, or a job of the data directory by its key.
    pub(crate) fn open(name: &str, data: &Data) -> Result<Self, Trouble> {
        let path = Path::new(name);
        if fs::exists(path).unwrap_or(false) {
            let folder = Folder::read(path)?;
            let (job, notes) = read_folder(&folder)?;
            let folder = folder.job_path.parent().unwrap_or(Path::new(""));
            return Self::new(job, notes, Kept::Folder(folder.to_owned()));
        }
        let stored = store::job(name, data)?;
        let job = read_job(&stored.key, &stored.document)?;
        Self::new(job, stored.notes, Kept::Store(stored.key))
    }

    fn new(job: Job, notes: Vec<Note>, kept: Kept) -> Result<Self, Trouble> {
        let zone = TimeZone::get(&job.job.zone).map_err(|_| {
            Trouble::Input(format!(
                "the time zone {:?} is not known: write an IANA name such as Europe/London",
                job.job.zone
            ))
        })?;
        Ok(Self {
            job,
            notes,
            zone,
            kept,
        })
    }

    /// The moment that is asked for: a day alone means its beginning; without one it is now, and
    /// where the log ends at another time than that, a remark says so.
    pub(crate) fn moment(&self, at: Option<Moment>) -> Result<Timestamp, Trouble> {
        let Some(moment) = at else {
            let now = Timestamp::now();
            if let Some(remark) = self.log_ends_elsewhere(now) {
                page::remark(QUIET, &remark);
            }
            return Ok(now);
        };
        let begins = self.job.job.begins;
        if i32::from(moment.date.year()).abs_diff(i32::from(begins.year())) > FARTHEST_YEARS {
            return Err(Trouble::Input(format!(
                "{moment} is more than {FARTHEST_YEARS} years from {begins}, the day the job begins"
            )));
        }
        let civil = moment.date.to_datetime(moment.time_or_midnight());
        self.zone
            .to_ambiguous_timestamp(civil)
            .compatible()
            .map_err(|_| {
                Trouble::Input(format!("{moment} lies outside the years that are planned"))
            })
    }

    fn log_ends_elsewhere(&self, now: Timestamp) -> Option<String> {
        let last = self.notes.iter().map(|note| note.at).max()?;
        let today = now.to_zoned_datetime(self.zone.clone());
        let last = last.to_zoned_datetime(self.zone.clone());
        let later = last.date() > today.date();
        let stale = last.checked_add(21.days()).is_ok_and(|limit| limit < today);
        if !later && !stale {
            return None;
        }
        let end = long_day(&last);
        let what = if later {
            format!("The log goes on to {end}, later than today; notes after today do not count.")
        } else {
            format!("The last note is of {end}; this is shown for today.")
        };
        // The first whole minute at which the last note counts.
        let then = last.checked_add(59.seconds()).unwrap_or(last);
        Some(format!(
            "{what} To see the job as it stood then, add --at {}",
            then.strftime("%Y-%m-%dT%H:%M")
        ))
    }

    /// The day on site at a moment.
    pub(crate) fn day(&self, at: Timestamp) -> jiff::civil::Date {
        at.to_zoned_datetime(self.zone.clone()).date()
    }

    /// What is true of the job at a moment.
    pub(crate) fn site(&self, at: Timestamp) -> Site {
        fold(&self.job, &self.notes, at)
    }

    /// `Alder Sluice, Thu 10 June 2027, 7:10`
    pub(crate) fn title(&self, at: Timestamp) -> String {
        title(&self.job, &at.to_zoned_datetime(self.zone.clone()))
    }

    /// RFC 3339 with the offset in force on site.
    pub(crate) fn written(&self, at: Timestamp) -> String {
        crate::commands::written(&at.to_zoned_datetime(self.zone.clone()))
    }

    /// Plans the job as it stands at a moment.
    pub(crate) fn plan(self, at: Timestamp) -> Result<Planned, Trouble> {
        let site = fold(&self.job, &self.notes, at);
        let held = grounds_settle::held_up(&self.job, &site);
        let network = Network::build(&self.job, &site, &held)
            .map_err(|error| Trouble::Input(error.to_string()))?;
        let outlook = Outlook::plan(network, Effort::default(), None)
            .map_err(|faulty| Trouble::Failure(format!("the job cannot be planned: {faulty}")))?;
        Ok(Planned {
            job: self.job,
            site,
            outlook,
        })
    }
}

impl Planned {
    /// Opens a job and plans it as the command line asks.
    pub(crate) fn of(asked: &JobAt) -> Result<Self, Trouble> {
        let opened = Opened::open(&asked.job, &asked.data)?;
        let at = opened.moment(asked.at)?;
        opened.plan(at)
    }

    /// How a command ends that shows this plan.
    pub(crate) fn ending(&self) -> Ending {
        if self.outlook.breaches.is_empty() {
            Ending::Fine
        } else {
            Ending::CannotBeMet
        }
    }

    /// `Alder Sluice, Thu 10 June 2027, 7:10`
    pub(crate) fn title(&self) -> String {
        let clock = &self.outlook.network.clock;
        let now = self
            .outlook
            .network
            .now
            .to_zoned_datetime(clock.zone().clone());
        title(&self.job, &now)
    }
}

/// A job and the time on its clock.
fn title(job: &Job, now: &ZonedDateTime) -> String {
    format!(
        "{}, {}, {}:{:02}",
        job.job.name,
        long_day(now),
        now.hour(),
        now.minute()
    )
}

/// `Thu 10 June 2027`
fn long_day(zoned: &ZonedDateTime) -> String {
    zoned.strftime("%a %-d %B %Y").to_string()
}

/// Reads the document and the log of a folder.
pub(crate) fn read_folder(folder: &Folder) -> Result<(Job, Vec<Note>), Trouble> {
    let job = read_job(&folder.job_path.display().to_string(), &folder.job)?;
    let (notes, faults) = read_notes(&folder.notes_path.display().to_string(), &folder.notes);
    match faults.first() {
        Some(first) => Err(faulty_log(first, faults.len())),
        None => Ok((job, notes)),
    }
}

fn read_job(name: &str, text: &str) -> Result<Job, Trouble> {
    grounds_model::read(name, text).map_err(|faults| faulty_job(name, text, &faults))
}

fn faulty_job(name: &str, text: &str, faults: &Faults) -> Trouble {
    let report = annotate::faults(name, text, faults);
    // The exit code tells as well, should standard error be closed.
    let _ = anstream::stderr().lock().write_all(report.as_bytes());
    Trouble::Reported(Ending::BadInput)
}

fn faulty_log(first: &NoteFault, count: usize) -> Trouble {
    let more = match count {
        1 => String::new(),
        n => format!(" (and {} more; `grounds check` shows all)", n - 1),
    };
    Trouble::Input(page::harmless(&format!("{first}{more}")))
}
