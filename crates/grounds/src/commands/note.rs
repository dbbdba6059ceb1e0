//! `grounds note`: notes from a few words.

use std::io::{self, BufRead, Read, Write};

use grounds_model::Ref;
use grounds_site::Note;
use grounds_walk::file::{Entry, Mended, Standing, about as name_of};

use super::{show, walk::counted};
use crate::{
    arguments::Quick,
    asked::{nearest, quoted},
    ending::{Ending, Trouble},
    opened::Opened,
    page::{PLAIN, Page, QUIET},
    talk::{self, Talk},
};

/// The longest text, in bytes.
const LONGEST: usize = 64 * 1024;

pub(super) fn run(asked: &Quick) -> Result<Ending, Trouble> {
    let opened = Opened::open(&asked.job.job, &asked.job.data)?;
    let at = opened.moment(asked.job.at)?;
    let from_input = asked.text.as_slice() == ["-"];
    let text = if from_input {
        talk::read_input()?
    } else {
        asked.text.join(" ")
    };
    if text.len() > LONGEST {
        let sentence = "that is more than a few words; read it with `grounds walk` instead";
        return Err(Trouble::Input(sentence.to_owned()));
    }
    let talk = Talk::read(&opened, &text, at, &asked.by)?;
    let about = asked
        .about
        .as_deref()
        .map(|key| named(&opened, key))
        .transpose()?;
    let notes = notes(&opened, &talk, about.as_ref())?;
    show(page(&opened, &talk, &notes))?;
    if !asked.yes && (from_input || !says_yes(notes.len())?) {
        let mut page = Page::default();
        let how = if from_input { " --yes writes it." } else { "" };
        page.paragraph(PLAIN, 0, &format!("Nothing is written.{how}"));
        show(page)?;
        return Ok(Ending::Fine);
    }
    let new = talk::write(&opened, &asked.job.data, &notes)?;
    let mut page = Page::default();
    let sentence = match new {
        0 => "That is written down already.".to_owned(),
        n => format!(
            "Written: {}.",
            counted(usize::try_from(n).unwrap_or(0), "note", "notes")
        ),
    };
    page.paragraph(PLAIN, 0, &sentence);
    show(page)?;
    Ok(Ending::Fine)
}

/// What a key names.
fn named(opened: &Opened, key: &str) -> Result<Ref, Trouble> {
    let about = Ref::from(key);
    if opened.job.resolve(&about).is_some() {
        return Ok(about);
    }
    let job = &opened.job;
    let layers: Vec<String> = job.layer_keys().map(|key| key.to_string()).collect();
    let keys = layers.iter().map(String::as_str);
    let keys = keys
        .chain(job.pieces.keys().map(|id| id.as_str()))
        .chain(job.holds.keys().map(|id| id.as_str()))
        .chain(job.places.keys().map(|id| id.as_str()))
        .chain(job.decisions.keys().map(|id| id.as_str()));
    let near = nearest(key, keys, 3);
    let mean = if near.is_empty() {
        String::new()
    } else {
        format!("; did you mean {}?", near.join(" or "))
    };
    Err(Trouble::Input(format!(
        "nothing in this job is called {}{mean}",
        quoted(key)
    )))
}

/// The notes that the words come to.
fn notes(opened: &Opened, talk: &Talk, about: Option<&Ref>) -> Result<Vec<Note>, Trouble> {
    if talk.entries.is_empty() {
        return Err(Trouble::Input(
            "that was not understood: name a place or a thing of the job and what is so, like \
             `kitchen sink is in` or `hall screed done`"
                .to_owned(),
        ));
    }
    let open: Vec<&Entry> = talk
        .entries
        .iter()
        .filter(|entry| entry.standing == Standing::Choose)
        .collect();
    if let (Some(entry), None) = (open.first(), about) {
        return Err(Trouble::Input(which(entry)));
    }
    let notes = |entry: &Entry| {
        let says = match about {
            Some(about) => Mended {
                about: vec![about.clone()],
                kind: entry.kind,
                value: entry.value.clone(),
            },
            None => entry.as_proposed()?,
        };
        let means = entry.means.as_ref().filter(|_| about.is_none());
        Some(entry.notes(&talk.head, &says, 0, means))
    };
    let plain = |note: Note| Note {
        walk: None,
        walk_ms: None,
        ..note
    };
    let known = |note: &Note| !opened.notes.iter().any(|here| here.id == note.id);
    let all = talk.entries.iter().filter_map(notes).flatten().map(plain);
    Ok(all.filter(known).collect())
}

/// What may be meant.
fn which(entry: &Entry) -> String {
    let mut lines = vec![format!("{} may be about:", quoted(&entry.sentence))];
    for choice in &entry.choices {
        let keys: Vec<&str> = choice.about.iter().map(Ref::as_str).collect();
        lines.push(format!(
            "  --about {}  ({})",
            keys.join(" or "),
            choice.name
        ));
    }
    lines.join("\n")
}

fn page(opened: &Opened, talk: &Talk, notes: &[Note]) -> Page {
    let mut page = Page::default();
    for note in notes {
        let name = name_of(&opened.job, &note.about);
        let said = grounds_walk::file::said(
            note.kind,
            note.value.as_ref(),
            talk.vocabulary.units,
            talk.vocabulary.day,
        );
        page.item(0, &format!("{name}: {said}"));
    }
    for entry in &talk.entries {
        if let Standing::Known(how) = &entry.standing {
            page.paragraph(QUIET, 2, how);
        }
    }
    page
}

/// Asks before anything is written.
fn says_yes(notes: usize) -> Result<bool, Trouble> {
    if notes == 0 {
        return Ok(true);
    }
    let mut out = anstream::stdout().lock();
    // Whoever cannot see the question answers it with nothing.
    let which = match notes {
        1 => "this note".to_owned(),
        n => format!("these {n} notes"),
    };
    let _ = write!(out, "Write {which}? [y/N] ");
    let _ = out.flush();
    let mut line = String::new();
    let mut input = io::stdin().lock().take(1000);
    input
        .read_line(&mut line)
        .map_err(|error| Trouble::Failure(format!("cannot read the answer: {error}")))?;
    let _ = writeln!(out);
    Ok(matches!(line.trim().to_lowercase().as_str(), "y" | "yes"))
}
