//! Forms of the pages of fit: a reading is taken, somebody lets a fit go on as it is; and the section
//! as a file.

use axum::{
    Form,
    extract::{Path, rejection::FormRejection},
    http::{HeaderValue, StatusCode, header},
    response::{IntoResponse, Response},
};
use grounds_measure::{Length, Units};
use grounds_model::Target;
use grounds_site::{Kind, Note, Subject, Value};
use serde::Deserialize;
use uuid::Uuid;

use crate::{
    acts::{self, Saying},
    fault::Fault,
    fit,
    looking::{Looking, Lost},
    pages::{self, Tab, Typed},
    say,
    visit::{Visit, encode},
    writing::{self, not_understood, saying, seen_at},
};

/// The longest distance that is read on a site: a kilometre.
const LONGEST: Length = Length::from_mm(1_000_000);

/// A reading that was entered.
#[derive(Debug, Deserialize)]
pub(crate) struct Entered {
    about: String,
    #[serde(default)]
    what: String,
    #[serde(default)]
    need: String,
    once: Uuid,
    #[serde(default)]
    figure: String,
    #[serde(default)]
    side: String,
    #[serde(default)]
    within: String,
    #[serde(default)]
    words: String,
}

/// A fit that goes on as it is.
#[derive(Debug, Deserialize)]
pub(crate) struct Decided {
    need: String,
    once: Uuid,
    #[serde(default)]
    by: String,
    #[serde(default)]
    words: String,
}

/// Answers `POST /j/{job}/fit/read`.
pub(crate) async fn read(
    Looking { desk, visit }: Looking,
    form: Result<Form<Entered>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(entered) = form.map_err(not_understood)?;
    let back = back(&visit, &entered.need);
    let (job, site) = (&visit.picture.job, &visit.picture.site);
    let Some(take) = fit::reading(job, site, &entered.about, &entered.what) else {
        let why = "Nothing of that name can be read in this job.".to_owned();
        return Err(Lost::new(Fault::Input(why)).back_to(&back));
    };
    let saying = saying(&visit, entered.once);
    match note(&visit, &entered, take.sides.is_some(), &saying) {
        Ok(note) => {
            let id = note.id;
            let lost = |fault: Fault| Lost::new(fault).back_to(&back);
            desk.write_once(vec![note]).await.map_err(lost)?;
            Ok(seen_at(&back, Some(id)).into_response())
        }
        Err(fault) => {
            let typed = Typed {
                figure: say::cut(&entered.figure, 40),
                side: entered.side.clone(),
                within: say::cut(&entered.within, 40),
                words: entered.words.clone(),
                fault: Some(fault),
            };
            let need = Some(entered.need.as_str()).filter(|need| !need.is_empty());
            let page = pages::read(&visit, &take, need, &typed);
            let page = pages::frame(&visit, "Enter a reading", Some(Tab::Fit), &page);
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
        }
    }
}

/// Where a reading leads back to: its need, else the page of fit.
fn back(visit: &Visit, need: &str) -> String {
    match visit.picture.fit.need(need) {
        Some(_) => visit.to(&format!("fit/need/{}", encode(need, "."))),
        None => visit.to("fit"),
    }
}

/// The note of a reading, or what is wrong with it.
fn note(visit: &Visit, entered: &Entered, sided: bool, saying: &Saying) -> Result<Note, String> {
    let units = visit.picture.job.job.units;
    let figure = length(&entered.figure, units)?;
    if figure.is_negative() && !sided {
        return Err("Less than nothing cannot be read here.".to_owned());
    }
    let figure = match (entered.side.as_str(), sided) {
        ("below", true) => -figure.abs(),
        ("above", true) => figure.abs(),
        (_, true) if figure == Length::ZERO || figure.is_negative() => figure,
        (_, true) => return Err("Say which way.".to_owned()),
        _ => figure,
    };
    let within = match entered.within.trim() {
        "" => None,
        text => {
            let within = length(text.trim_start_matches('±').trim(), units)
                .map_err(|why| format!("Give or take: {why}"))?;
            if !within.is_positive() {
                return Err("Give or take has to be more than nothing.".to_owned());
            }
            Some(within)
        }
    };
    let words = writing::words(&entered.words).map_err(|fault| fault.to_string())?;
    let about = grounds_model::Ref::from(entered.about.as_str());
    let value = match (entered.what.as_str(), within) {
        ("", None) => Value::Length(figure),
        (what, within) => Value::Reading {
            what: named(visit, &about, what).to_owned(),
            figure: match within {
                Some(within) => format!("{figure} ±{within}"),
                None => figure.to_string(),
            },
        },
    };
    let said = (
        Kind::Measured,
        &entered.what,
        &entered.figure,
        &entered.side,
        &entered.within,
    );
    Ok(Note {
        words: Some(words).filter(|words| !words.is_empty()),
        ..Note::new(
            acts::one_id(saying, said),
            saying.at,
            saying.by.clone(),
            about,
            Kind::Measured,
        )
        .with_value(value)
    })
}

/// What a reading without a name of its own is called, so that it can carry its uncertainty.
fn named<'a>(visit: &Visit, about: &grounds_model::Ref, what: &'a str) -> &'a str {
    if !what.is_empty() {
        return what;
    }
    match visit.picture.job.resolve(about) {
        Some(Target::Layer(_)) => "thickness",
        Some(Target::Passage(_)) => "step",
        _ => "width",
    }
}

/// A length as it was typed: in the job's units where it has none, and where inches have no mark.
fn length(text: &str, units: Units) -> Result<Length, String> {
    let text = text.trim().replace('−', "-");
    let wrong = || match units {
        Units::Metric => "Give a length, like 12 or 12.5.".to_owned(),
        Units::Imperial => "Give a length, like 3' 4 5/8\" or 5/8\".".to_owned(),
    };
    let once_more = || match units {
        Units::Imperial => format!("{text}\""),
        Units::Metric => text.replace(',', "."),
    };
    let length = Length::parse_in(&text, units)
        .or_else(|_| Length::parse_in(&once_more(), units))
        .map_err(|_| wrong())?;
    if length.abs() > LONGEST {
        return Err("Nothing on a site is longer than a kilometre; read it again.".to_owned());
    }
    Ok(length)
}

/// Answers `POST /j/{job}/fit/decide`.
pub(crate) async fn decide(
    looking: Looking,
    form: Result<Form<Decided>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(decided) = form.map_err(not_understood)?;
    let visit = &looking.visit;
    let back = back(visit, &decided.need);
    let wrong = |why: &str| Lost::new(Fault::Input(why.to_owned())).back_to(&back);
    let Some((answer, _)) = visit.picture.fit.need(&decided.need) else {
        return Err(wrong("There is no such fit in this job."));
    };
    let Some(subject) = grounds_lines::holdups::decided_about(&visit.picture.job, &answer.about)
    else {
        return Err(wrong("Nobody can decide that about this."));
    };
    go_on(
        looking,
        &back,
        &subject,
        (decided.by, decided.words),
        decided.once,
    )
    .await
}

/// A rule that is not kept and goes on as it is.
#[derive(Debug, Deserialize)]
pub(crate) struct DecidedRule {
    rule: String,
    once: Uuid,
    #[serde(default)]
    by: String,
    #[serde(default)]
    words: String,
}

/// Answers `POST /j/{job}/rules/decide`.
pub(crate) async fn decide_rule(
    looking: Looking,
    form: Result<Form<DecidedRule>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(decided) = form.map_err(not_understood)?;
    let visit = &looking.visit;
    let Some(applied) = visit.picture.rules.get(&decided.rule) else {
        let why = "There is no such rule in this job.".to_owned();
        return Err(Lost::new(Fault::Input(why)).back_to(&visit.to("rules")));
    };
    let back = pages::rule_address(visit, &decided.rule);
    let Some(subject) = grounds_settle::rule_decided_about(applied) else {
        let why = "Nobody can decide that about this.".to_owned();
        return Err(Lost::new(Fault::Input(why)).back_to(&back));
    };
    go_on(
        looking,
        &back,
        &subject,
        (decided.by, decided.words),
        decided.once,
    )
    .await
}

/// Writes down that somebody lets something go on as it is, who and why.
async fn go_on(
    Looking { desk, visit }: Looking,
    back: &str,
    subject: &Subject,
    (by, words): (String, String),
    once: Uuid,
) -> Result<Response, Lost> {
    let lost = |fault: Fault| Lost::new(fault).back_to(back);
    let wrong = |why: &str| lost(Fault::Input(why.to_owned()));
    let by = visit
        .signed(&by)
        .ok_or_else(|| wrong("Say who decides, by name."))?;
    let words = writing::words(&words).map_err(lost)?;
    if words.is_empty() {
        return Err(wrong("Say why that will do, in a few words."));
    }
    let saying = Saying {
        by,
        words: Some(words.clone()),
        ..saying(&visit, once)
    };
    let note = Note {
        words: Some(words),
        ..Note::new(
            acts::one_id(&saying, (Kind::Decided, back)),
            saying.at,
            saying.by.clone(),
            grounds_model::Ref::from(subject.to_string()),
            Kind::Decided,
        )
    };
    let id = note.id;
    desk.write_once(vec![note]).await.map_err(lost)?;
    Ok(seen_at(back, Some(id)).into_response())
}

/// Answers `GET /j/{job}/fit/need/{key}/section.dxf`.
pub(crate) async fn section_file(
    Looking { visit, .. }: Looking,
    Path((_, key)): Path<(String, String)>,
) -> Result<Response, Lost> {
    let index = visit.asked("n").and_then(|n| n.parse::<usize>().ok());
    let section = visit
        .picture
        .fit
        .need(&key)
        .and_then(|(_, facts)| facts.sections.get(index.unwrap_or(0)));
    let Some(section) = section else {
        let why = "There is no section of that.".to_owned();
        return Err(Lost::new(Fault::Missing(why)).back_to(&visit.to("fit")));
    };
    let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    let name: String = key.chars().map(plain).take(60).collect();
    let file = format!("attachment; filename=\"{name}.dxf\"");
    let file = HeaderValue::from_str(&file).unwrap_or(HeaderValue::from_static("attachment"));
    Ok((
        [
            (
                header::CONTENT_TYPE,
                HeaderValue::from_static("image/vnd.dxf"),
            ),
            (header::CONTENT_DISPOSITION, file),
        ],
        grounds_draw::section_dxf(section),
    )
        .into_response())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_is_read_as_the_tape_is() {
        let mm = |text: &str| length(text, Units::Metric).map(Length::mm);
        assert_eq!(mm("12.5"), Ok(12.5));
        assert_eq!(mm("12,5"), Ok(12.5));
        assert_eq!(mm("−2"), Ok(-2.0));
        assert!(mm("twelve").is_err());
        assert!(mm("99999999").is_err());
        let inches = |text: &str| length(text, Units::Imperial).map(Length::mm);
        assert_eq!(inches("5/8"), Ok(15.875));
        assert_eq!(inches("3' 4 5/8"), Ok((40.0 + 0.625) * 25.4));
        assert_eq!(inches("3' 4 5/8\""), Ok((40.0 + 0.625) * 25.4));
    }
}
