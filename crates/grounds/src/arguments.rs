//! What can be asked for on the command line.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

const EXIT_CODES: &str = "\
Exit codes:
  0  fine
  1  something cannot be met or does not fit, or a plan breaks a rule of its job
  2  what was given cannot be used: an unknown job, a faulty document, a wrong option
  3  something else failed: a file that cannot be read or written, an address in use";

const EXAMPLES: &str = "\
Examples:
  grounds                              the demo house, in the browser
  grounds new my-house                 a small job to begin with
  grounds check my-house               every fault of the job at once
  grounds now my-house                 what can start, and what holds the rest
  grounds weeks my-house --by place    the next two weeks, room by room
  grounds why my-house bathroom        why the work in the bathroom waits
  grounds fit my-house                 what will not be flush or the right size
  grounds cover my-house               what to see before it is hidden
  grounds rules my-house               what the trade and the code would not pass
  grounds walk my-house walk.vtt       what was said on a walk, as notes
  grounds note my-house hall screed done
  grounds set-out gaps clear=1830 piece=38 under=102";

/// What can start in the house, what waits, and why.
///
/// A JOB is a folder with a job.toml and a notes.jsonl in it, or the key of a job in the data
/// directory. Without a command, Grounds serves its demo house and prints the address.
#[derive(Debug, Parser)]
#[command(name = "grounds", version, max_term_width = 80)]
#[command(after_help = EXAMPLES, after_long_help = format!("{EXAMPLES}\n\n{EXIT_CODES}"))]
pub(crate) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
}

/// The commands, in the order in which a newcomer meets them.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// What can start now, what is in hand, and the few causes that hold the rest.
    #[command(after_help = "\
Examples:
  grounds now my-house
  grounds now my-house --at 2027-06-10T07:10
  grounds now my-house --json")]
    Now(Now),
    /// The work of the next weeks.
    #[command(after_help = "\
Examples:
  grounds weeks my-house
  grounds weeks my-house --by place --weeks 6
  grounds weeks my-house --json > plan.json")]
    Weeks(Weeks),
    /// Why a piece of work does not begin sooner, back to the causes.
    #[command(after_help = "\
Examples:
  grounds why my-house bathroom.floor/tile
  grounds why my-house \"shower screen\"")]
    Why(Why),
    /// What will be flush, in line and the right size, and what to measure before it is covered.
    #[command(after_help = "\
What fails or is tight comes first, then what to measure this week. The exit code is 1 where a fit
fails that nobody let go on as it is. With --json all lengths are in millimetres.

Examples:
  grounds fit my-house
  grounds fit my-house shower-glass.width
  grounds fit my-house --all
  grounds fit my-house --json")]
    Fit(Fit),
    /// What is about to be hidden, what is missing behind it, and what was covered without.
    #[command(after_help = "\
What starts first comes first; what the job asks for is told apart from what is common practice. The
exit code is 1 where something was covered without what the job asks for, and nobody wrote down why.

Examples:
  grounds cover my-house
  grounds cover my-house --weeks 2
  grounds cover my-house --hold flood-test
  grounds cover my-house --behind \"pipe in the shower\"
  grounds cover my-house --json")]
    Cover(Cover),
    /// What the rules of the trade and of the building code say of the house.
    #[command(after_help = "\
What fails comes first, by place, then what cannot be told, with who has the figure. The exit code
is 1 where a rule is not kept that nobody let go on as it is.

Examples:
  grounds rules my-house
  grounds rules my-house --all
  grounds rules my-house --json")]
    Rules(Rules),
    /// One rule by itself, with figures that you give; without a name, every rule there is.
    #[command(after_help = "\
Figures carry their units: 8 in, 200 mm, 600 cfm, 7.5 kPa. A guess is written ~600 cfm or
500..700 cfm; then it is told how the answer hangs on it. The exit code is 1 where the rule is not
kept.

Examples:
  grounds rule
  grounds rule riser-and-going
  grounds rule riser-and-going riser=\"8 in\" going=\"10 in\"
  grounds rule riser-and-going riser=190mm going=260mm --code metric-europe")]
    Rule(Rule),
    /// How to set out a row, a flight, a cut list, a pocket, a floor, shims: with its working.
    #[command(after_help = "\
What is typed is read as on a page: a bare figure is in millimetres, or in inches where a figure is
in feet and inches or with --units imperial. Lists stand in one text with `;` between. The exit code
is 1 where what is asked for cannot be had. Without KEY=VALUE, what can be given is listed.

Examples:
  grounds set-out gaps clear=1830 piece=38 under=102
  grounds set-out risers built=\"14 x 7 1/2\\\"\" foot=3/4
  grounds set-out cuts stock=4800 pieces=\"jamb: 6 x 2100; head: 3 x 980\"
  grounds set-out wood species=\"white oak\" board=178 across=4200 --json")]
    SetOut(SetOut),
    /// How sure the dates are: even-chance and four-in-five dates, and what moves them.
    #[command(after_help = "\
The same runs and seed give the same dates, on any number of cores.

Examples:
  grounds forecast my-house
  grounds forecast my-house --runs 2000
  grounds forecast my-house --json")]
    Forecast(Forecast),
    /// What would win time back: overtime, another crew, a sooner delivery, another order of work.
    #[command(after_help = "\
Nothing is applied: each way says what it wins, what it costs, who must hear of it, and how it is
put into effect.

Examples:
  grounds options my-house
  grounds options my-house --milestone handover")]
    Options(Options),
    /// What something would do to every milestone, before it happens.
    #[command(after_help = "\
Nothing is written down.

Examples:
  grounds what-if my-house stair-glass arrives 2027-09-24
  grounds what-if my-house tile away 2027-06-14 to 2027-06-18
  grounds what-if my-house flood-test fails")]
    WhatIf(Suppose),
    /// Reads a spoken walk: the notes that it proposes, and what it leaves to be asked.
    #[command(after_help = "\
FILE is WebVTT, SubRip, lines that begin with a time such as [1:05], or plain text; `-` reads it
from standard input. Nothing is written without --accept-above: then every proposal that was said
firmly, read at least that surely, is new and leaves no choice becomes a note, and the walk is
kept. Accepting twice writes nothing twice.

Examples:
  grounds walk my-house walk.vtt
  grounds walk my-house walk.vtt --at 2027-06-10T07:10 --by Ana --accept-above 0.9
  grounds walk my-house walk.vtt --json")]
    Walk(Walk),
    /// Notes from a few words, as you would say them.
    #[command(after_help = "\
What is understood is shown first, and written when you say yes. `-` reads the words from standard
input.

Examples:
  grounds note my-house hall screed done
  grounds note my-house \"kitchen: shower glass arrived Friday\" --yes
  grounds note my-house sliding door is in --about dressing-door")]
    Note(Quick),
    /// Every fault of a job document and its log, with line, key and mend.
    #[command(after_help = "\
Examples:
  grounds check my-house
  grounds check my-house --json")]
    Check(Check),
    /// Proves that a plan obeys its job, or names everything that it breaks.
    #[command(after_help = "\
The plan is proved against the job as it stood at the moment the plan was made for.

Examples:
  grounds weeks my-house --json > plan.json
  grounds verify my-house plan.json")]
    Verify(Verify),
    /// Makes a small job that runs, to be changed into your own.
    #[command(after_help = "\
Example:
  grounds new my-house")]
    New(New),
    /// Serves the pages on this machine, and to phones that join, and prints their addresses.
    #[command(after_help = "\
Pages are served to this machine alone, unless --phones opens a door for phones: with TLS, and only
for those that joined with a code from the page “Phones” (under More). Open it only in a network that
you trust. Ctrl-C stops the server; nothing that a page said was saved is lost.

Examples:
  grounds serve --demo
  grounds serve
  grounds serve --phones 0.0.0.0:4443
  grounds serve --phones 0.0.0.0:443 --certificate site.pem --key site.key
  grounds serve --data /srv/grounds --listen 127.0.0.1:8080")]
    Serve(Serve),
    /// Takes a folder into the data directory, with its log.
    #[command(after_help = "\
Examples:
  grounds import my-house
  grounds import my-house --key house-by-the-weir")]
    Import(Import),
    /// Gives a job of the data directory out to a folder, with its log.
    #[command(after_help = "\
Example:
  grounds export my-house my-house-copy")]
    Export(Export),
    /// Writes the JSON Schema of the job document, for editors.
    #[command(after_help = "\
Example:
  grounds schema > job.schema.json")]
    Schema,
}

/// Which job, and as it stood when.
#[derive(Debug, Args)]
pub(crate) struct JobAt {
    /// A folder with a job.toml, or the key of a job in the data directory.
    #[arg(value_name = "JOB")]
    pub(crate) job: String,
    /// The moment to speak of, on the job's wall clock: 2027-06-10 or 2027-06-10T07:10. A day
    /// alone means its beginning. Without it, now.
    #[arg(long, value_name = "DATE")]
    pub(crate) at: Option<grounds_model::Moment>,
    #[command(flatten)]
    pub(crate) data: Data,
}

/// Where jobs are kept that are not folders.
#[derive(Debug, Args)]
pub(crate) struct Data {
    /// The data directory; without it, `grounds` in the user's own data directory.
    #[arg(long, value_name = "DIR")]
    pub(crate) data: Option<PathBuf>,
}

/// `grounds now`
#[derive(Debug, Args)]
pub(crate) struct Now {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// `grounds weeks`
#[derive(Debug, Args)]
pub(crate) struct Weeks {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// Print the whole plan as JSON: what, where, who, start, finish and reasons.
    #[arg(long, conflicts_with_all = ["by", "weeks"])]
    pub(crate) json: bool,
    /// How the work is gathered.
    #[arg(long, value_enum, default_value_t = By::Trade)]
    pub(crate) by: By,
    /// How many weeks, from today.
    #[arg(long, value_name = "N", default_value_t = 2, value_parser = clap::value_parser!(u16).range(1..=520))]
    pub(crate) weeks: u16,
}

/// How the work of the weeks is gathered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum By {
    /// By who does it.
    Trade,
    /// By where it is done, from the top of the house down.
    Place,
}

/// `grounds why`
#[derive(Debug, Args)]
pub(crate) struct Why {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// The work: its key, or a part of its key or name.
    #[arg(value_name = "ACTIVITY")]
    pub(crate) activity: String,
    /// Print everything that it waits for, however much.
    #[arg(long)]
    pub(crate) all: bool,
}

/// `grounds fit`
#[derive(Debug, Args)]
pub(crate) struct Fit {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// One fit, with its working: its key, or a part of its key or name.
    #[arg(value_name = "NEED")]
    pub(crate) need: Option<String>,
    /// Print everything that has to fit, and everything that can be measured.
    #[arg(long, conflicts_with = "need")]
    pub(crate) all: bool,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// `grounds cover`
#[derive(Debug, Args)]
pub(crate) struct Cover {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// How many weeks, from today.
    #[arg(long, value_name = "N", default_value_t = 4, value_parser = clap::value_parser!(u16).range(1..=520))]
    pub(crate) weeks: u16,
    /// Print everything that covers something, whatever is asked of it and however far off.
    #[arg(long, conflicts_with = "weeks")]
    pub(crate) all: bool,
    /// What is behind a face: its key, or a question such as "pipe in the shower".
    #[arg(long, value_name = "TEXT", conflicts_with_all = ["weeks", "all", "hold"])]
    pub(crate) behind: Option<String>,
    /// How one test or inspection stands, with everything that is asked for it.
    #[arg(long, value_name = "KEY", conflicts_with_all = ["weeks", "all"])]
    pub(crate) hold: Option<String>,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// `grounds rules`
#[derive(Debug, Args)]
pub(crate) struct Rules {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// Print what is as it should be as well.
    #[arg(long)]
    pub(crate) all: bool,
    /// Print JSON, with every working.
    #[arg(long)]
    pub(crate) json: bool,
}

/// `grounds rule`
#[derive(Debug, Args)]
pub(crate) struct Rule {
    /// The rule, by its key; without one, all are listed.
    #[arg(value_name = "NAME")]
    pub(crate) name: Option<String>,
    /// Its figures, such as riser="8 in".
    #[arg(value_name = "KEY=VALUE", num_args = 0..=40)]
    pub(crate) figures: Vec<String>,
    /// The building code whose limits it goes by.
    #[arg(long, value_name = "CODE", default_value = "irc-2021")]
    pub(crate) code: String,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// `grounds set-out`
#[derive(Debug, Args)]
pub(crate) struct SetOut {
    /// What is asked: gaps, boards, risers, cuts, pocket, wood or shims.
    #[arg(value_name = "WHAT")]
    pub(crate) what: String,
    /// What is given, such as clear=1830.
    #[arg(value_name = "KEY=VALUE")]
    pub(crate) given: Vec<String>,
    /// What a bare figure is in. Without it, inches where any figure has feet or inches.
    #[arg(long, value_enum)]
    pub(crate) units: Option<In>,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// What a bare figure is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum In {
    /// Millimetres and degrees Celsius.
    Metric,
    /// Inches and degrees Fahrenheit.
    Imperial,
}

/// `grounds forecast`
#[derive(Debug, Args)]
pub(crate) struct Forecast {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// How many times the plan is played.
    #[arg(long, value_name = "N", default_value_t = 10_000, value_parser = clap::value_parser!(u32).range(100..=1_000_000))]
    pub(crate) runs: u32,
    /// Where chance begins.
    #[arg(long, value_name = "N", default_value_t = 1)]
    pub(crate) seed: u64,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// `grounds options`
#[derive(Debug, Args)]
pub(crate) struct Options {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// The milestone to win time for, by its key; without one, the last finish.
    #[arg(long, value_name = "KEY")]
    pub(crate) milestone: Option<String>,
    /// Print every way that wins a day.
    #[arg(long)]
    pub(crate) all: bool,
}

/// `grounds what-if`
#[derive(Debug, Args)]
pub(crate) struct Suppose {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// What is supposed: a key, what happens, and a day.
    #[arg(value_name = "WHAT", required = true, num_args = 1..=12)]
    pub(crate) what: Vec<String>,
}

/// `grounds walk`
#[derive(Debug, Args)]
pub(crate) struct Walk {
    /// A folder with a job.toml, or the key of a job in the data directory.
    #[arg(value_name = "JOB")]
    pub(crate) job: String,
    /// What was said, as a file; `-` reads it from standard input.
    #[arg(value_name = "FILE")]
    pub(crate) file: PathBuf,
    /// When the walk began, on the job's wall clock: 2027-06-10 or 2027-06-10T07:10. Without it, as
    /// the kept walk has it, or by the file's own time.
    #[arg(long, value_name = "MOMENT")]
    pub(crate) at: Option<grounds_model::Moment>,
    /// Who walked.
    #[arg(long, value_name = "NAME", default_value = grounds_web::NOBODY_SAID)]
    pub(crate) by: String,
    /// Write the notes that are at least this sure, from 0 to 1, and keep the walk.
    #[arg(long, value_name = "SHARE")]
    pub(crate) accept_above: Option<f64>,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) data: Data,
}

/// `grounds note`
#[derive(Debug, Args)]
pub(crate) struct Quick {
    #[command(flatten)]
    pub(crate) job: JobAt,
    /// What was seen, in a few words; `-` reads them from standard input.
    #[arg(value_name = "TEXT", required = true, num_args = 1..=200)]
    pub(crate) text: Vec<String>,
    /// What it is about, by its key, where that is not clear from the words.
    #[arg(long, value_name = "KEY")]
    pub(crate) about: Option<String>,
    /// Who says so.
    #[arg(long, value_name = "NAME", default_value = grounds_web::NOBODY_SAID)]
    pub(crate) by: String,
    /// Write it without asking.
    #[arg(long)]
    pub(crate) yes: bool,
}

/// `grounds check`
#[derive(Debug, Args)]
pub(crate) struct Check {
    /// A folder with a job.toml, or a job document itself.
    #[arg(value_name = "JOB")]
    pub(crate) job: PathBuf,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// `grounds verify`
#[derive(Debug, Args)]
pub(crate) struct Verify {
    /// A folder with a job.toml, or the key of a job in the data directory.
    #[arg(value_name = "JOB")]
    pub(crate) job: String,
    /// A plan, as `grounds weeks --json` prints it; `-` reads it from standard input.
    #[arg(value_name = "PLAN.json")]
    pub(crate) plan: PathBuf,
    #[command(flatten)]
    pub(crate) data: Data,
}

/// `grounds new`
#[derive(Debug, Args)]
pub(crate) struct New {
    /// The folder to make; it must not hold a job yet.
    #[arg(value_name = "DIR")]
    pub(crate) folder: PathBuf,
}

/// `grounds serve`
#[derive(Debug, Args)]
pub(crate) struct Serve {
    /// Serve the demo house, on its own day.
    #[arg(long)]
    pub(crate) demo: bool,
    /// The address to listen on; only addresses of this machine are accepted. Port 0 takes any
    /// free one.
    #[arg(long, value_name = "ADDR", default_value = grounds_web::LISTEN)]
    pub(crate) listen: String,
    /// Open a door for phones at this address; 0.0.0.0 stands for every address of this machine.
    #[arg(long, value_name = "ADDR")]
    pub(crate) phones: Option<String>,
    /// A certificate for the phones' door, in PEM, followed by those that vouch for it. Without one,
    /// one is made.
    #[arg(long, value_name = "FILE", requires = "phones", requires = "key")]
    pub(crate) certificate: Option<PathBuf>,
    /// The key of the certificate, in PEM.
    #[arg(long, value_name = "FILE", requires = "certificate")]
    pub(crate) key: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) data: Data,
}

/// `grounds import`
#[derive(Debug, Args)]
pub(crate) struct Import {
    /// A folder with a job.toml.
    #[arg(value_name = "DIR")]
    pub(crate) folder: PathBuf,
    /// The key that the job gets; without one, the folder's name.
    #[arg(long)]
    pub(crate) key: Option<String>,
    /// Replace the document of a job that is there already. Its notes stay, and those of the folder
    /// are added.
    #[arg(long)]
    pub(crate) replace: bool,
    #[command(flatten)]
    pub(crate) data: Data,
}

/// `grounds export`
#[derive(Debug, Args)]
pub(crate) struct Export {
    /// The key of a job in the data directory.
    #[arg(value_name = "JOB")]
    pub(crate) job: String,
    /// The folder to write; it is made where it is missing.
    #[arg(value_name = "DIR")]
    pub(crate) folder: PathBuf,
    /// Write over another job.toml and notes.jsonl that are there already.
    #[arg(long)]
    pub(crate) replace: bool,
    #[command(flatten)]
    pub(crate) data: Data,
}
