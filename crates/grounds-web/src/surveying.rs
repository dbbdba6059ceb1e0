//! Taking over a half-done house: forms of the survey, and the notes that come of them.

use axum::{
    Form,
    extract::rejection::FormRejection,
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use grounds_model::{Id, Job};
use grounds_site::{Kind, Look, Note, Subject};
use grounds_survey::{Mark, Reach, Said, Unknown, again, decide, several, unknowns};
use serde::Deserialize;
use uuid::Uuid;

use crate::{
    acts::{self, Saying},
    fault::Fault,
    looking::{Looking, Lost, own_page},
    visit::Visit,
    writing::{not_understood, saying, seen_at, words},
};

/// What was marked: a face, all walls like it, a room like another, everything up to a layer.
#[derive(Debug, Deserialize)]
pub(crate) struct Marked {
    once: Uuid,
    #[serde(default)]
    back: String,
    /// How far: `nothing`, `unknown`, or a layer as `to:board`.
    #[serde(default)]
    reach: String,
    #[serde(default)]
    place: String,
    #[serde(default)]
    face: String,
    /// Said where all walls of the place are alike.
    #[serde(default)]
    alike: String,
    /// The room that it is like.
    #[serde(default)]
    from: String,
    /// The layer that everything has got up to.
    #[serde(default)]
    layer: String,
    /// Where: the key of a place or of a level; nothing for the whole house.
    #[serde(default)]
    part: String,
}

/// What was said of a piece.
#[derive(Debug, Deserialize)]
pub(crate) struct PieceMarked {
    once: Uuid,
    #[serde(default)]
    back: String,
    piece: String,
    is: PieceIs,
}

/// Where a piece is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum PieceIs {
    /// Set in its place.
    In,
    /// On site, not set.
    Here,
    /// Not on site.
    Away,
}

/// A mark that is taken back.
#[derive(Debug, Deserialize)]
pub(crate) struct TakenBack {
    note: Uuid,
    once: Uuid,
    #[serde(default)]
    back: String,
}

/// What was decided about an unknown.
#[derive(Debug, Deserialize)]
pub(crate) struct Decided {
    once: Uuid,
    #[serde(default)]
    back: String,
    /// The unknown, by its key.
    unknown: String,
    /// How to look; nothing where it is let go.
    #[serde(default)]
    how: String,
    #[serde(default)]
    by: String,
    #[serde(default)]
    words: String,
}

/// Answers `POST /j/{job}/survey/mark`.
pub(crate) async fn mark(
    Looking { desk, visit }: Looking,
    form: Result<Form<Marked>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(marked) = form.map_err(not_understood)?;
    let back = own_page(&marked.back).to_owned();
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    let marks = marks(&visit, &marked).map_err(|why| lost(Fault::Input(why)))?;
    let notes = notes(&visit, &marks, marked.once);
    let first = notes.first().map(|note| note.id);
    desk.write_once(notes).await.map_err(lost)?;
    Ok(marked_at(&back, first))
}

fn marks(visit: &Visit, marked: &Marked) -> Result<Vec<Mark>, String> {
    let (job, site) = (&visit.picture.job, &visit.picture.site);
    let place = Id::from(marked.place.as_str());
    let marks = if !marked.from.is_empty() {
        several::like_room(job, site, &Id::from(marked.from.as_str()), &place)
    } else if !marked.layer.is_empty() {
        several::everything_up_to(job, site, &marked.layer, &part(job, &marked.part)?)
    } else {
        one(job, marked, place)?
    };
    if marks.is_empty() {
        return Err("There is no face here that this says anything of.".to_owned());
    }
    Ok(marks)
}

fn one(job: &Job, marked: &Marked, place: Id) -> Result<Vec<Mark>, String> {
    let reach = match marked.reach.as_str() {
        "nothing" => Reach::Nothing,
        "unknown" => Reach::Unknown,
        reach => match reach.strip_prefix("to:") {
            Some(layer) => Reach::UpTo(Id::from(layer)),
            None => return Err("Tap the outermost layer that is there.".to_owned()),
        },
    };
    let mark = Mark {
        place,
        face: Id::from(marked.face.as_str()),
        reach,
    };
    if grounds_survey::mark::said(job, &mark).is_empty() {
        return Err("There is no such face or layer in this job.".to_owned());
    }
    if marked.alike.is_empty() {
        return Ok(vec![mark]);
    }
    let walls = several::walls_alike(job, &mark.place, &mark);
    Ok(if walls.is_empty() { vec![mark] } else { walls })
}

fn part(job: &Job, part: &str) -> Result<several::Part, String> {
    let id = Id::from(part);
    if part.is_empty() {
        Ok(several::Part::House)
    } else if job.levels.contains_key(&id) {
        Ok(several::Part::Level(id))
    } else if job.places.contains_key(&id) {
        Ok(several::Part::Place(id))
    } else {
        Err("There is no such level or place in this job.".to_owned())
    }
}

fn notes(visit: &Visit, marks: &[Mark], once: Uuid) -> Vec<Note> {
    let said_in = saying(visit, once);
    let (job, log) = (&visit.picture.job, &visit.picture.notes);
    let note = |mark: &Mark| {
        let id =
            |said: &Said, index: usize| acts::one_id(&said_in, (&said.about, said.kind, index));
        again::notes(job, log, mark, (&said_in.by, said_in.at), id)
    };
    marks.iter().flat_map(note).collect()
}

/// The page that a form came from, telling which mark it made.
fn marked_at(back: &str, note: Option<Uuid>) -> Response {
    let back = without_marked(back);
    let joint = if back.contains('?') { '&' } else { '?' };
    let to = note.map_or_else(|| back.clone(), |id| format!("{back}{joint}marked={id}"));
    Redirect::to(&to).into_response()
}

/// An address without the mark that it names.
pub(crate) fn without_marked(path: &str) -> String {
    let (page, query) = path.split_once('?').unwrap_or((path, ""));
    let kept: Vec<&str> = query
        .split('&')
        .filter(|part| {
            !part.is_empty() && !part.starts_with("marked=") && !part.starts_with("wrote=")
        })
        .collect();
    match kept.is_empty() {
        true => page.to_owned(),
        false => format!("{page}?{}", kept.join("&")),
    }
}

/// Answers `POST /j/{job}/survey/piece`.
pub(crate) async fn piece(
    Looking { desk, visit }: Looking,
    form: Result<Form<PieceMarked>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(marked) = form.map_err(not_understood)?;
    let back = own_page(&marked.back).to_owned();
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    if !visit.picture.job.pieces.contains_key(marked.piece.as_str()) {
        let why = "There is no such piece in this job.".to_owned();
        return Err(lost(Fault::Input(why)));
    }
    let said_in = saying(&visit, marked.once);
    let state = visit
        .picture
        .site
        .state(&Subject::Piece(Id::from(marked.piece.as_str())));
    let mut notes = acts::of_said(&of_piece(&marked, state.done.is_some()), &said_in);
    // Whoever says that it is not here says that it never came.
    if let (PieceIs::Away, Some(arrived), Some(note)) =
        (marked.is, state.arrived, notes.first_mut())
    {
        note.replaces = Some(arrived.note);
    }
    let first = notes.first().map(|note| note.id);
    desk.write_once(notes).await.map_err(lost)?;
    Ok(marked_at(&back, first))
}

/// What is said of a piece.
fn of_piece(marked: &PieceMarked, is_done: bool) -> Vec<Said> {
    let said = |kind| Said::new(marked.piece.as_str(), kind);
    match marked.is {
        PieceIs::In => vec![said(Kind::Done)],
        PieceIs::Here if is_done => vec![
            said(Kind::Undone).words("Not set yet."),
            said(Kind::Arrived),
        ],
        PieceIs::Here => vec![said(Kind::Arrived)],
        PieceIs::Away => vec![said(Kind::Undone).words("Not here.")],
    }
}

/// Answers `POST /j/{job}/survey/back`.
pub(crate) async fn take_back(
    Looking { desk, visit }: Looking,
    form: Result<Form<TakenBack>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(taken) = form.map_err(not_understood)?;
    let back = without_marked(own_page(&taken.back));
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    let notes = acts::take_back(
        &written_together(&visit, taken.note),
        &saying(&visit, taken.once),
    );
    if notes.is_empty() {
        let why = "What was to be taken back is not here.";
        return Err(lost(Fault::Input(why.to_owned())));
    }
    desk.write_once(notes).await.map_err(lost)?;
    Ok(Redirect::to(&back).into_response())
}

/// The notes that one tap of the survey wrote: of one person and one moment, and a mark by their kind.
pub(crate) fn written_together(visit: &Visit, id: Uuid) -> Vec<&Note> {
    let log = &visit.picture.notes;
    let Some(first) = log.iter().find(|note| note.id == id) else {
        return Vec::new();
    };
    let is_mark = |note: &&Note| match note.kind {
        Kind::Done | Kind::Undone | Kind::Arrived => true,
        Kind::Remark => note.presumed,
        _ => false,
    };
    log.iter()
        .filter(|note| (note.at, &note.by) == (first.at, &first.by))
        .filter(is_mark)
        .collect()
}

/// What nobody knows of the house that is shown.
pub(crate) fn of(visit: &Visit) -> Vec<Unknown> {
    let picture = &visit.picture;
    unknowns(&picture.job, &picture.site, &picture.outlook)
}

/// Answers `POST /j/{job}/survey/decide`.
pub(crate) async fn decided(
    Looking { desk, visit }: Looking,
    form: Result<Form<Decided>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(decided) = form.map_err(not_understood)?;
    let back = without_marked(own_page(&decided.back));
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    let wrong = |why: String| lost(Fault::Input(why));
    let unknown = of(&visit).into_iter().find(|it| it.key == decided.unknown);
    let unknown = unknown.ok_or_else(|| wrong("That is known by now.".to_owned()))?;
    let said_in = saying(&visit, decided.once);
    let (said, said_in) = match Look::named(&decided.how) {
        Some(how) => (decide::look(&unknown, how), said_in),
        None => {
            let by = visit
                .signed(&decided.by)
                .ok_or_else(|| wrong("Say who lets it go, by name.".to_owned()))?;
            let words = words(&decided.words).map_err(lost)?;
            let said = decide::let_go(&visit.picture.job, &unknown, &words)
                .map_err(|cannot| wrong(cannot.to_string()))?;
            (said, Saying { by, ..said_in })
        }
    };
    let notes = acts::of_said(&said, &said_in);
    let first = notes.first().map(|note| note.id);
    desk.write_once(notes).await.map_err(lost)?;
    Ok((StatusCode::SEE_OTHER, seen_at(&back, first)).into_response())
}
