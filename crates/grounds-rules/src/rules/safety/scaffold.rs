//! A scaffold's rails.

use crate::rules::prelude::*;

pub(crate) const PLATFORM: Input<Length> =
    asked("platform-height", "the height of the platform", Who::Site).between("100 mm", "60 m");
pub(crate) const RAIL: Input<Length> = asked(
    "platform-rail",
    "the top rail over the platform; 0 without one",
    Who::Site,
)
.between("0 mm", "2 m");
pub(crate) const INSPECTED: Input<Time> = asked(
    "scaffold-inspected",
    "how long ago a competent person inspected it",
    Who::Site,
)
.between("0 h", "52 weeks")
.wanted();
const FROM: Input<Length> = limit(
    "scaffold-rail-from",
    "the height from which a platform must have rails",
)
.or("2 m", "As most laws have it", Practice);
const LEAST: Input<Length> = limit("scaffold-rail-least", "the least height of the top rail").or(
    "950 mm",
    "As most laws have it",
    Practice,
);
const EVERY: Input<Time> = limit(
    "scaffold-inspected-within",
    "how often it must be inspected",
)
.or("7 days", "As most laws have it", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "scaffold",
    title: "Rails of a scaffold",
    family: Family::Safety,
    question: "Has the platform its rails, and was it inspected?",
    inputs: &[
        PLATFORM.spec,
        FROM.spec,
        RAIL.spec,
        LEAST.spec,
        INSPECTED.spec,
        EVERY.spec,
    ],
    formula: &["platform over the threshold: top rail ≥ least; inspected within its interval"],
    sources: &[
        published(
            "29 CFR 1926.451(g) (USA): over 10 ft; top rail 38 to 45 in; inspected before each shift",
        ),
        published(
            "Work at Height Regulations 2005 (UK), schedule 2: 950 mm, gaps to 470 mm; inspected every 7 days",
        ),
    ],
    caution: cautions::HEIGHTS,
    way_out: "Stop work on it until the scaffolders have mended and tagged it.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (platform, from) = (w.take(&PLATFORM)?, w.take(&FROM)?);
    if platform > from {
        let (rail, least) = (w.take(&RAIL)?, w.take(&LEAST)?);
        w.at_least("the top rail", rail, least);
    } else {
        w.say("So low a platform asks for no rails; its edge is still marked.");
    }
    if let Some(inspected) = w.known(&INSPECTED) {
        let every = w.take(&EVERY)?;
        w.at_most("the time since its inspection", inspected, every);
    }
    Ok(())
}
