//! Risers of a flight with the finishes that come later.

use grounds_fit::spacing::{Flight, Limits, Pads, finished, riser_count, rough_for};
use grounds_measure::{Length, Step};

use super::{Answer, Drawn, Field, Grade, Kind, Stepped, Table, field::Form, source};

pub(super) const FIELDS: &[Field] = &[
    Field {
        key: "rise",
        label: "Rise from structure to structure",
        hint: ["Like 2860.", "Like 110 1/2 or 9' 2 1/2\"."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: false,
    },
    Field {
        key: "built",
        label: "Or the risers as framed, from the lowest up",
        hint: [
            "A line each, or 14 x 190. The rise is not needed then.",
            "A line each, or 14 x 7 1/2. The rise is not needed then.",
        ],
        usual: ["", ""],
        kind: Kind::Lines,
        is_needed: false,
    },
    Field {
        key: "foot",
        label: "Finish still to come on the floor at the foot",
        hint: ["Like 19.", "Like 3/4."],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "tread",
        label: "Finish still to come on the treads",
        hint: ["Like 25.", "Like 1."],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "head",
        label: "Finish still to come on the floor at the head",
        hint: ["Like 19.", "Like 3/4."],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "count",
        label: "How many risers",
        hint: ["Left out, as few as may be.", "Left out, as few as may be."],
        usual: ["", ""],
        kind: Kind::Count,
        is_needed: false,
    },
    Field {
        key: "highest",
        label: "No riser higher than",
        hint: [
            "What local code allows; usual is 196.",
            "What local code allows; usual is 7 3/4.",
        ],
        usual: ["196", "7 3/4"],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "differ",
        label: "Greatest less least at most",
        hint: [
            "What local code allows; usual is 9.5.",
            "What local code allows; usual is 3/8.",
        ],
        usual: ["9.5", "3/8"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "step",
        label: "Marks to the nearest",
        hint: ["Like 1.", "Like 1/16."],
        usual: ["1", "1/16"],
        kind: Kind::Above,
        is_needed: true,
    },
];

const CAUTIONS: &[&str] = &[
    "One riser that differs is where people fall. Heights, differences, treads, headroom, rails and \
     guards are for local code and licensed practice to say.",
    "Until a flight is even, mark it or shut it.",
];

/// The most risers that are asked about.
const MOST: usize = 200;

/// What lies on the floors and treads in the end.
#[derive(Clone, Copy)]
struct Finishes {
    foot: Length,
    tread: Length,
    head: Length,
}

impl Finishes {
    fn on(self, rough: &Flight) -> Flight {
        finished(rough, self.foot, &[self.tread], self.head)
    }
}

pub(super) fn answer(form: &mut Form<'_>) -> Option<Answer> {
    let built = super::cuts::wanted(form, "built", MOST);
    let rise = form.length("rise");
    let count = form.count("count", MOST);
    let foot = form.length("foot");
    let tread = form.length("tread");
    let head = form.length("head");
    let highest = form.length("highest");
    let spread = form.length("differ");
    let step = form.step("step");
    if !form.wrong.is_empty() {
        return None;
    }
    let finishes = Finishes {
        foot: foot?,
        tread: tread?,
        head: head?,
    };
    let limits = Limits {
        highest: highest?,
        spread: spread?,
    };
    let step = step?;
    let risers: Vec<Length> = built
        .iter()
        .flat_map(|line| std::iter::repeat_n(line.length, line.count.get()))
        .collect();
    match (risers.is_empty(), rise) {
        (false, None) => checked(form, &Flight { risers }, finishes, limits, step),
        (false, Some(_)) => {
            form.refuse("built", "the rise is given too. Keep one of them.");
            None
        }
        (true, Some(rise)) => framed(form, (rise, count), finishes, limits, step),
        (true, None) => {
            let hint = "nothing is given. Give the rise, or the risers as framed.";
            form.refuse("rise", hint);
            None
        }
    }
}

/// How to frame a flight that is still to be built.
fn framed(
    form: &mut Form<'_>,
    (rise, count): (Length, Option<usize>),
    finishes: Finishes,
    limits: Limits,
    step: Step,
) -> Option<Answer> {
    let total = rise + finishes.head - finishes.foot;
    let fewest = riser_count(total, limits.highest).filter(|fewest| *fewest <= MOST);
    let Some(count) = count.or(fewest) else {
        let why = format!(
            "{} from finish to finish is no flight of 1 to {MOST} risers. Check the rise and its unit.",
            form.exact(total)
        );
        form.refuse("rise", &why);
        return None;
    };
    let (foot, tread, head) = (finishes.foot, finishes.tread, finishes.head);
    let rough = rough_for(rise, count, foot, tread, head, step)?;
    let done = finishes.on(&rough);
    if !sound(form, &rough, &done) {
        return None;
    }
    let keeps = done.keeps(limits);
    let said = format!(
        "{count} risers: frame {}; finished, {}.",
        shape(form, &rough),
        even(form, &done)
    );
    let then = if keeps {
        String::new()
    } else if done.highest() > limits.highest {
        let more = fewest.map_or_else(String::new, |fewest| format!(": take {fewest} risers"));
        format!(
            "That is higher than the {} allowed{more}.",
            form.exact(limits.highest)
        )
    } else {
        format!(
            "They differ more than the {} allowed: mark finer.",
            form.exact(limits.spread)
        )
    };
    let parts = i64::try_from(count).unwrap_or(i64::MAX);
    let mut working = vec![
        format!(
            "{} + {} at the head − {} at the foot = {} from finish to finish",
            form.exact(rise),
            form.exact(head),
            form.exact(foot),
            form.exact(total)
        ),
        format!(
            "{} ÷ {count} = {} a riser, marked to {} from the foot",
            form.exact(total),
            form.say(Length::from_units(total.units() / parts)),
            form.exact(step.length())
        ),
        format!(
            "First framed riser: + {} at the foot − {} on the tread. Last: + {} on the tread − {} at \
             the head",
            form.exact(foot),
            form.exact(tread),
            form.exact(tread),
            form.exact(head)
        ),
    ];
    working.push(differs(form, &done, limits));
    Some(told(
        form,
        Told {
            does: keeps,
            said,
            then,
            working,
        },
        &rough,
        &done,
        finishes,
        limits,
    ))
}

/// Whether every riser is above zero; refused where one is not.
fn sound(form: &mut Form<'_>, rough: &Flight, done: &Flight) -> bool {
    let sound = |flight: &Flight| flight.risers.iter().all(|riser| riser.is_positive());
    if sound(rough) && sound(done) {
        return true;
    }
    form.refuse(
        "tread",
        "the finishes leave a riser of nothing. Check the finishes, the count and their units.",
    );
    false
}

/// What a framed flight comes to once it is finished.
fn checked(
    form: &mut Form<'_>,
    rough: &Flight,
    finishes: Finishes,
    limits: Limits,
    step: Step,
) -> Option<Answer> {
    let done = finishes.on(rough);
    if !sound(form, rough, &done) {
        return None;
    }
    let keeps = done.keeps(limits);
    let said = format!(
        "Once the finishes are on, {}{}.",
        even(form, &done),
        if keeps {
            String::new()
        } else if done.spread() > limits.spread {
            format!(
                ": {} more than the {} allowed",
                form.exact(done.spread() - limits.spread),
                form.exact(limits.spread)
            )
        } else {
            format!(": higher than the {} allowed", form.exact(limits.highest))
        }
    );
    let pads = if keeps {
        None
    } else {
        Pads::fewest(&done, limits, step)
    };
    let then = match &pads {
        Some(padded) => {
            let each: Vec<String> = padded.pads.iter().map(|pad| form.exact(*pad)).collect();
            format!(
                "Pads on the lowest treads, {} from the lowest up, bring them to {} between \
                 greatest and least. They lift the nosings: check the rail's height after.",
                each.join(", "),
                form.exact(padded.flight.spread())
            )
        }
        None if keeps => String::new(),
        None => {
            "Pads on the treads cannot mend that: frame it anew, or change a finish.".to_owned()
        }
    };
    let mut working = vec![format!(
        "First: {} + {} on the tread − {} at the foot = {}",
        form.exact(rough.risers.first().copied().unwrap_or_default()),
        form.exact(finishes.tread),
        form.exact(finishes.foot),
        form.exact(done.risers.first().copied().unwrap_or_default())
    )];
    if rough.risers.len() > 1 {
        working.push(format!(
            "Last: {} + {} at the head − {} on the tread = {}",
            form.exact(rough.risers.last().copied().unwrap_or_default()),
            form.exact(finishes.head),
            form.exact(finishes.tread),
            form.exact(done.risers.last().copied().unwrap_or_default())
        ));
    }
    working.push(differs(form, &done, limits));
    Some(told(
        form,
        Told {
            does: keeps,
            said,
            then,
            working,
        },
        rough,
        &done,
        finishes,
        limits,
    ))
}

/// `Greatest 7 1/2" − least 6 3/4" = 3/4"; at most 3/8"`
fn differs(form: &Form<'_>, done: &Flight, limits: Limits) -> String {
    format!(
        "Greatest {} − least {} = {}; allowed are {}, and no riser over {}",
        form.exact(done.highest()),
        form.exact(done.highest() - done.spread()),
        form.exact(done.spread()),
        form.exact(limits.spread),
        form.exact(limits.highest)
    )
}

/// `the first 6 3/4", those between 7 3/8" and the last 7 5/8"`
fn shape(form: &Form<'_>, flight: &Flight) -> String {
    let risers = &flight.risers;
    match risers.as_slice() {
        [] => "nothing".to_owned(),
        [only] => format!("the one {}", form.exact(*only)),
        [first, last] => format!(
            "the first {} and the last {}",
            form.exact(*first),
            form.exact(*last)
        ),
        [first, between @ .., last] => {
            let least = between.iter().copied().min().unwrap_or_default();
            let most = between.iter().copied().max().unwrap_or_default();
            let between = if least == most {
                form.exact(least)
            } else {
                format!("{} to {}", form.exact(least), form.exact(most))
            };
            format!(
                "the first {}, the last {} and those between {between}",
                form.exact(*first),
                form.exact(*last)
            )
        }
    }
}

/// `each is 7 3/8"`, or how they differ.
fn even(form: &Form<'_>, flight: &Flight) -> String {
    let least = flight.highest() - flight.spread();
    if flight.spread() == Length::ZERO {
        format!("each is {}", form.exact(least))
    } else {
        format!(
            "risers run from {} to {}, {} apart",
            form.exact(least),
            form.exact(flight.highest()),
            form.exact(flight.spread())
        )
    }
}

/// The words of an answer.
struct Told {
    does: bool,
    said: String,
    then: String,
    working: Vec<String>,
}

fn told(
    form: &Form<'_>,
    words: Told,
    rough: &Flight,
    done: &Flight,
    finishes: Finishes,
    limits: Limits,
) -> Answer {
    let mut height = Length::ZERO;
    let rows = rough.risers.iter().zip(&done.risers).enumerate();
    let rows = rows
        .map(|(index, (rough, done))| {
            height += *rough;
            vec![
                (index + 1).to_string(),
                form.exact(*rough),
                form.exact(height),
                form.exact(*done),
            ]
        })
        .collect();
    Answer {
        does: words.does,
        said: words.said,
        then: words.then,
        drawn: Drawn::Flight(Stepped {
            risers: done.risers.clone(),
            finishes: [finishes.foot, finishes.tread, finishes.head],
            differ: done.spread(),
            allowed: limits.spread,
        }),
        table: Table {
            title: "Riser by riser",
            heads: &["Riser", "Framed", "Top over the rough floor", "Finished"],
            rows,
        },
        working: words.working,
        cautions: CAUTIONS,
        sources: vec![
            source(
                "Usual limits: no riser over 7 3/4 in (196 mm), greatest less least at most 3/8 in \
                 (9.5 mm): IRC R311.7.5.1; local codes differ",
                Grade::Published,
            ),
            source("Risers and finishes add up", Grade::Arithmetic),
        ],
    }
}
