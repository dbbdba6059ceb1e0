//! Places where glass must be safety glass.

use crate::rules::prelude::*;

pub(crate) const WHERE: Input<Word> = word(
    "glass-stands",
    "where the glass is",
    &[
        "door",
        "beside-door",
        "window",
        "guard",
        "wet-room",
        "stair",
        "landing",
    ],
    Who::Drawings,
);
pub(crate) const SAFETY: Input<bool> = yes_no(
    "safety-mark",
    "whether the pane bears the mark of safety glass",
    Who::Maker,
);
pub(crate) const BOTTOM: Input<Length> = asked(
    "glass-bottom",
    "the bottom of the glass over the floor or walking surface",
    Who::Drawings,
)
.between("0 mm", "20 m");
const TOP: Input<Length> = asked(
    "glass-top",
    "the top of the glass over the floor",
    Who::Drawings,
)
.between("0 mm", "20 m")
.wanted();
const AREA: Input<Area> = asked("glass-area", "the area of the pane", Who::Drawings)
    .between("100 cm2", "60 m2")
    .wanted();
pub(crate) const AWAY: Input<Length> = asked(
    "glass-away",
    "how far the glass is from the door, the water's edge, the tread or where people walk",
    Who::Drawings,
)
.between("0 mm", "20 m")
.wanted();
const BESIDE_DOOR: Input<Length> = limit(
    "glazing-beside-door",
    "how far beside a door glass is hazardous",
)
.or("610 mm", "24 in, as the American code has it", Practice);
const DOOR_HEIGHT: Input<Length> = limit(
    "glazing-door-height",
    "below which height glass beside a door is hazardous",
)
.or("1500 mm", "As the British code has it", Practice);
const LOW: Input<Length> = limit(
    "glazing-low",
    "below which height glass in a window is hazardous",
)
.or("800 mm", "As the British code has it", Practice);
const LARGE: Input<Area> = limit("glazing-large", "from which area a low pane is hazardous");
const TALL: Input<Length> = limit("glazing-tall", "over which top a low pane is hazardous");
const WALKED: Input<Length> = limit(
    "glazing-walked",
    "within which distance people walk by a window",
);
const WET: Input<Length> = limit(
    "glazing-wet",
    "within which distance and height glass beside water is hazardous",
)
.or("1500 mm", "60 in", Practice);
const STAIR: Input<Length> = limit(
    "glazing-stair",
    "within which distance and height glass beside a stair is hazardous",
)
.or("914 mm", "36 in", Practice);
const LANDING: Input<Length> = limit(
    "glazing-landing",
    "within which distance of the bottom tread glass is hazardous",
)
.or("1524 mm", "60 in", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "safety-glass",
    title: "Safety glass in hazardous places",
    family: Family::Glass,
    question: "Must this glass be safety glass, and does it bear the mark?",
    inputs: &[
        WHERE.spec,
        BOTTOM.spec,
        TOP.spec,
        AREA.spec,
        AWAY.spec,
        SAFETY.spec,
        BESIDE_DOOR.spec,
        DOOR_HEIGHT.spec,
        LOW.spec,
        LARGE.spec,
        TALL.spec,
        WALKED.spec,
        WET.spec,
        STAIR.spec,
        LANDING.spec,
    ],
    formula: &["hazardous by its place, its height and its distance; then marked as tested"],
    sources: &[
        published("IRC 2021 R308.4.1 to R308.4.7; older editions ask up to 60 in beside stairs"),
        memory("IRC 2021 R308.3: tested to 16 CFR 1201, a permanent mark on each pane"),
        published(
            "Approved Document K (England, 2013) part K4: to 800 mm, to 1500 mm in and beside doors; EN 12600",
        ),
    ],
    caution: cautions::GLASS,
    way_out: "Toughened or laminated glass with its mark; after toughening nothing can be cut any more.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let place = w.word(&WHERE)?;
    if !hazardous(w, place)? {
        w.settle("The pane is out of reach of the hazardous places: no safety glass is asked for.");
        return Ok(());
    }
    let marked = w.yes(&SAFETY)?;
    w.must(
        "the pane is safety glass with its mark",
        marked,
        "safety glass is asked for here, and the pane does not bear the mark",
    );
    Ok(())
}

fn hazardous(w: &mut Working<'_>, place: Word) -> Result<bool, Stop> {
    let near =
        |w: &mut Working<'_>, within: Length| w.known(&AWAY).is_none_or(|away| away <= within);
    match place {
        "door" | "guard" => {
            w.say("Glass in doors and guards is always in a hazardous place.");
            Ok(true)
        }
        "beside-door" => {
            let (beside, height) = (w.take(&BESIDE_DOOR)?, w.take(&DOOR_HEIGHT)?);
            let bottom = w.take(&BOTTOM)?;
            Ok(bottom < height && near(w, beside))
        }
        "wet-room" => {
            let within = w.take(&WET)?;
            let bottom = w.take(&BOTTOM)?;
            Ok(bottom < within && near(w, within))
        }
        "stair" => {
            let within = w.take(&STAIR)?;
            let bottom = w.take(&BOTTOM)?;
            Ok(bottom < within && near(w, within))
        }
        "landing" => {
            let (within, height) = (w.take(&LANDING)?, w.take(&STAIR)?);
            let bottom = w.take(&BOTTOM)?;
            Ok(bottom < height && near(w, within))
        }
        _ => window(w),
    }
}

/// A window is hazardous if everything that the code names is true of it.
fn window(w: &mut Working<'_>) -> Result<bool, Stop> {
    let low = w.take(&LOW)?;
    if w.take(&BOTTOM)? >= low {
        return Ok(false);
    }
    if let Some(large) = w.known(&LARGE)
        && w.take(&AREA)? <= large
    {
        return Ok(false);
    }
    if let Some(tall) = w.known(&TALL)
        && w.take(&TOP)? <= tall
    {
        return Ok(false);
    }
    if let Some(walked) = w.known(&WALKED)
        && w.take(&AWAY)? > walked
    {
        return Ok(false);
    }
    Ok(true)
}
