//! Whatever needs service, and the panel to reach it by.

use crate::rules::prelude::*;

pub(crate) const BURIED: Input<bool> = yes_no(
    "buried",
    "whether a finished face closes it in",
    Who::Drawings,
);
pub(crate) const PANEL: Input<bool> = yes_no(
    "panel",
    "whether there is an access panel to it",
    Who::Drawings,
);
pub(crate) const REACHED: Input<Word> = word(
    "reached-with",
    "what must get through the panel",
    &["hand", "tool", "shoulders"],
    Who::Services,
);
pub(crate) const WIDTH: Input<Length> =
    asked("panel-width", "the clear width of the panel", Who::Drawings).between("50 mm", "3 m");
pub(crate) const HEIGHT: Input<Length> = asked(
    "panel-height",
    "the clear height of the panel",
    Who::Drawings,
)
.between("50 mm", "3 m");

pub(crate) static RULE: Rule = Rule {
    name: "access-panel",
    title: "Access for service",
    family: Family::Cover,
    question: "Can it still be reached for service once the face is finished?",
    inputs: &[
        BURIED.spec,
        PANEL.spec,
        REACHED.spec,
        WIDTH.spec,
        HEIGHT.spec,
    ],
    formula: &[
        "hand 300 mm (12 in) square, tool 350 mm (14 in), head and shoulders 600 mm (24 in)",
    ],
    sources: &[
        published(
            "NEC 314.29 and plumbing codes: boxes, cleanouts, slip joints, valves may not be buried",
        ),
        memory("IRC P2704: 12 × 12 in at slip joints"),
        practice("Panels by what must get through them"),
    ],
    caution: cautions::COVER,
    way_out: "A panel with its frame set before the board, or move what needs service to where it is reached.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    if !w.yes(&BURIED)? {
        w.settle("No finished face closes it in: it stays in reach.");
        return Ok(());
    }
    let panel = w.yes(&PANEL)?;
    if !w.must(
        "there is an access panel",
        panel,
        "a finished face closes it in and there is no access panel",
    ) {
        return Ok(());
    }
    let (width, height) = (w.take(&WIDTH)?, w.take(&HEIGHT)?);
    let least: Length = match w.word(&REACHED)? {
        "hand" => fixed("300 mm"),
        "tool" => fixed("350 mm"),
        _ => fixed("600 mm"),
    };
    w.at_least(
        "the smaller side of the panel",
        smaller(width, height),
        least,
    );
    Ok(())
}
