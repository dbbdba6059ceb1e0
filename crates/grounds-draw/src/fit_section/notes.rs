//! What is said of pieces, planes and landings, as lines of a note.

use crate::fit_section::{Section, SectionLayer};
use crate::sheet::Sheet;
use crate::stack::State;

/// Lines of a note: class and words.
pub(crate) type Lines = Vec<(String, String)>;

/// The name of a layer with its state unless it is up.
pub(crate) fn layer_name(layer: &SectionLayer) -> String {
    with_state(&layer.name, layer.state)
}

fn with_state(name: &str, state: State) -> String {
    match state {
        State::Done => name.to_owned(),
        state => format!("{name}, {}", state.word()),
    }
}

/// The class of a layer's name.
pub(crate) fn name_class(state: State) -> &'static str {
    match state {
        State::Done => "fit-name",
        State::InHand { .. } | State::Next => "fit-name at-hand",
        State::ToCome => "fit-name soft",
    }
}

fn add(sheet: &Sheet, lines: &mut Lines, class: &str, words: &str, room: f64) {
    for line in sheet.wrapped(words, room, 3) {
        lines.push((class.to_owned(), line));
    }
}

/// A piece: its name, and how it lands.
pub(crate) fn piece(sheet: &Sheet, section: &Section, index: usize, room: f64) -> Lines {
    let mut lines = Lines::new();
    if let Some(piece) = section.pieces.get(index) {
        let name = with_state(&piece.name, piece.state);
        add(sheet, &mut lines, name_class(piece.state), &name, room);
    }
    lines.extend(landings(sheet, section, Some(index), room));
    lines
}

/// How something lands: the verdict's line and what was wanted.
pub(crate) fn landings(sheet: &Sheet, section: &Section, piece: Option<usize>, room: f64) -> Lines {
    let mut lines = Lines::new();
    for landing in section
        .landings
        .iter()
        .filter(|landing| landing.piece == piece)
    {
        let class = format!("fit-strong {}", landing.verdict.class());
        // Bold lettering runs a little wider.
        add(sheet, &mut lines, &class, &landing.words, room * 0.95);
        add(sheet, &mut lines, "fit-note", &landing.note, room);
    }
    lines
}

/// The finish plane.
pub(crate) fn finish(sheet: &Sheet, section: &Section, room: f64) -> Lines {
    let mut lines = Lines::new();
    if let Some(finish) = &section.finish {
        add(
            sheet,
            &mut lines,
            "fit-strong plane",
            &finish.words,
            room * 0.95,
        );
        add(sheet, &mut lines, "fit-note", &finish.note, room);
    }
    lines
}

/// A layer, on two lines at most: with its state if that has room, for what is to come is dashed as well.
pub(crate) fn layer(sheet: &Sheet, layer: &SectionLayer, room: f64) -> Lines {
    let whole = sheet.wrapped(&layer_name(layer), room, 3);
    let lines = if whole.len() > 2 {
        sheet.wrapped(&layer.name, room, 2)
    } else {
        whole
    };
    let class = name_class(layer.state).to_owned();
    lines
        .into_iter()
        .map(|line| (class.clone(), line))
        .collect()
}
