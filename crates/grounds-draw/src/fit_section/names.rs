//! Names over a wall's layers, in steps, so that no leader crosses a name.

use crate::fit_section::cut::leader;
use crate::sheet::{Anchor, Sheet, count};

/// From a leader to its name, in pixels.
const REACH: f64 = 10.0;

/// A name and where its leader stands.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Name {
    pub(crate) x: f64,
    pub(crate) words: String,
    pub(crate) class: &'static str,
}

/// How names are set: the first `rights` to the right of their leaders, the others to the left; how many lines the two
/// sets are raised.
#[derive(Debug, Clone, Copy)]
struct Steps {
    rights: usize,
    rights_raised: usize,
    lefts_raised: usize,
}

#[derive(Debug, Clone)]
struct Set {
    from: f64,
    to: f64,
    leader: f64,
    /// Lines above the lowest.
    step: usize,
    words: String,
    is_left: bool,
}

/// Names set in steps.
#[derive(Debug, Clone)]
pub(crate) struct Names {
    set: Vec<Set>,
    classes: Vec<&'static str>,
    /// How many lines they take.
    pub(crate) lines: usize,
}

/// Sets names, given from left to right, in as few lines as they go into whole; the rest is shortened.
pub(crate) fn set_in_steps(sheet: &Sheet, names: &[Name]) -> Names {
    let count = names.len();
    let best = (0..=count)
        .flat_map(|rights| {
            let lefts = count - rights;
            [(0, 0), (lefts, 0), (0, rights)].map(|(rights_raised, lefts_raised)| Steps {
                rights,
                rights_raised,
                lefts_raised,
            })
        })
        .map(|steps| set(sheet, names, steps))
        .filter(|(set, _)| is_clear(set))
        .min_by_key(|(set, lost)| lost * 3 + lines(set));
    let (set, _) = best.unwrap_or_default();
    Names {
        lines: lines(&set),
        classes: names.iter().map(|name| name.class).collect(),
        set,
    }
}

fn lines(set: &[Set]) -> usize {
    set.iter().map(|one| one.step + 1).max().unwrap_or(0)
}

/// The names at their places, and how many letters were lost.
fn set(sheet: &Sheet, names: &[Name], steps: Steps) -> (Vec<Set>, usize) {
    let width = sheet.medium.width();
    let mut lost = 0;
    let set = names
        .iter()
        .enumerate()
        .map(|(index, name)| {
            let is_left = index >= steps.rights;
            let room = if is_left { name.x } else { width - name.x } - REACH - 2.0;
            let words = sheet.fitted(&name.words, room);
            lost += name
                .words
                .chars()
                .count()
                .saturating_sub(words.trim_end_matches('…').chars().count());
            let wide = sheet.wide(&words);
            let (from, to) = if is_left {
                (name.x - REACH - wide, name.x - REACH)
            } else {
                (name.x + REACH, name.x + REACH + wide)
            };
            let step = if is_left {
                index - steps.rights + steps.lefts_raised
            } else {
                steps.rights - 1 - index + steps.rights_raised
            };
            Set {
                from,
                to,
                leader: name.x,
                step,
                words,
                is_left,
            }
        })
        .collect();
    (set, lost)
}

/// Whether no name meets another name or another's leader.
fn is_clear(set: &[Set]) -> bool {
    set.iter().enumerate().all(|(index, one)| {
        set.iter().enumerate().all(|(other_index, other)| {
            let meets_name =
                one.step == other.step && one.from < other.to + 6.0 && other.from < one.to + 6.0;
            let meets_leader = other.step >= one.step
                && one.from - 4.0 < other.leader
                && other.leader < one.to + 4.0;
            index == other_index || !(meets_name || meets_leader)
        })
    })
}

impl Names {
    /// Draws the names with their first line at `top`; leaders go down to `to`.
    pub(crate) fn draw(&self, sheet: &mut Sheet, top: f64, to: f64) {
        let (line, size) = (sheet.medium.line(), sheet.medium.size());
        for (one, class) in self.set.iter().zip(&self.classes) {
            let y = top + line * (count(self.lines.saturating_sub(one.step + 1)) + 0.5);
            let end = if one.is_left {
                -REACH + 3.0
            } else {
                REACH - 3.0
            };
            leader(
                sheet,
                &[(one.leader, to), (one.leader, y), (one.leader + end, y)],
            );
            let (anchor, x) = if one.is_left {
                (Anchor::End, one.to)
            } else {
                (Anchor::Start, one.from)
            };
            sheet.letter(class, anchor, x, y + size * 0.36, &one.words);
        }
    }
}
