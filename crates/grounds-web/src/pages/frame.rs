//! What stands around every page of a job.

use grounds_site::{Kind, Note};
use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::{acts, assets, say, visit::Visit};

/// The pages in the bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tab {
    /// What can start, and what holds the rest.
    Now,
    /// The walk through the house.
    Walk,
    /// The weeks ahead.
    Weeks,
    /// Whether it will be flush, in line and the right size.
    Fit,
    /// The house by level.
    House,
    /// What is about to be hidden.
    Cover,
    /// The job itself.
    More,
}

impl Tab {
    const ALL: [Self; 7] = [
        Self::Now,
        Self::Walk,
        Self::Weeks,
        Self::Fit,
        Self::House,
        Self::Cover,
        Self::More,
    ];

    /// Whether the bar has it at the desk only: on the phone there is room for five.
    fn at_desk_only(self) -> bool {
        matches!(self, Self::House | Self::Cover)
    }

    fn word(self) -> &'static str {
        match self {
            Self::Now => "Now",
            Self::Walk => "Walk",
            Self::Weeks => "Weeks",
            Self::Fit => "Fit",
            Self::House => "House",
            Self::Cover => "Cover",
            Self::More => "More",
        }
    }

    fn page(self) -> &'static str {
        match self {
            Self::Now => "now",
            Self::Walk => "walk",
            Self::Weeks => "weeks",
            Self::Fit => "fit",
            Self::House => "house",
            Self::Cover => "cover",
            Self::More => "more",
        }
    }
}

/// A page of a job. `tab` is where it stands in the bar, if it does.
pub(crate) fn frame(visit: &Visit, title: &str, tab: Option<Tab>, inside: &Markup) -> Markup {
    frame_with(visit, title, tab, inside, &[])
}

/// The same with scripts of its own, by their addresses.
pub(crate) fn frame_with(
    visit: &Visit,
    title: &str,
    tab: Option<Tab>,
    inside: &Markup,
    scripts: &[String],
) -> Markup {
    let picture = &visit.picture;
    let class = if tab == Some(Tab::Weeks) {
        "page wide"
    } else {
        "page"
    };
    let wrote = visit
        .just_written()
        .map(|id| acts::together(picture, &id))
        .unwrap_or_default();
    let say = wrote
        .first()
        .map(|note| format!("{} Saved.", wrote_words(visit, note)));
    html! {
        (DOCTYPE)
        html lang="en" {
            (head_with(&format!("{title} · {}", picture.job.job.name), styles(tab, scripts), scripts))
            body {
                a class="skip" href="#main" { "Skip to the page" }
                (PreEscaped(grounds_draw::hatch_defs()))
                (masthead(visit, tab))
                main id="main" class=(class) tabindex="-1" data-say=[say] {
                    (inside)
                    @if let Some(first) = wrote.first() { (took(visit, first)) }
                }
                (foot(visit))
            }
        }
    }
}

/// The style sheets of a page: the two that a phone opens all day, Now and the walk with its script,
/// go without what only sheets, drawings and talk need.
fn styles(tab: Option<Tab>, scripts: &[String]) -> &'static [&'static str] {
    match tab {
        Some(Tab::Now) => &["app.css"],
        Some(Tab::Walk) if !scripts.is_empty() => &["app.css"],
        _ => &["app.css", "sheets.css"],
    }
}

/// The head of any page that is not of a job.
pub(crate) fn head(title: &str) -> Markup {
    head_with(title, &["app.css", "sheets.css"], &[])
}

fn head_with(title: &str, styles: &[&str], scripts: &[String]) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover";
            meta name="color-scheme" content="light dark";
            title { (title) }
            @for style in styles { link rel="stylesheet" href=(assets::url(style)); }
            link rel="manifest" href="/manifest.webmanifest";
            link rel="icon" href=(assets::url("icon.svg")) type="image/svg+xml";
            link rel="apple-touch-icon" href=(assets::url("icon-180.png"));
            script src=(assets::url("app.js")) {}
            @for script in scripts { script src=(script) defer {} }
        }
    }
}

fn masthead(visit: &Visit, tab: Option<Tab>) -> Markup {
    let picture = &visit.picture;
    html! {
        header class="masthead" {
            a class="job-name" href=(visit.to("now")) { (picture.job.job.name) }
            nav class="bar" aria-label="Pages" {
                ul {
                    @for each in Tab::ALL {
                        li class=[each.at_desk_only().then_some("desk-only")] {
                            a href=(visit.to(each.page()))
                                aria-current=[(Some(each) == tab).then_some("page")] {
                                (each.word())
                            }
                        }
                    }
                }
            }
            p class="clock" { (say::long(visit.now, picture.zone())) }
        }
    }
}

/// What was just written, and the way back.
fn took(visit: &Visit, note: &Note) -> Markup {
    html! {
        form class="notice good taken" method="post" action=(visit.to("back")) data-act {
            span { (wrote_words(visit, note)) " " }
            input type="hidden" name="note" value=(note.id);
            input type="hidden" name="once" value=(visit.once);
            input type="hidden" name="back" value=(without_wrote(&visit.path));
            button class="quiet" { "Take it back" }
        }
    }
}

fn wrote_words(visit: &Visit, note: &Note) -> String {
    let words = visit.words();
    let subject = visit
        .picture
        .site
        .states
        .iter()
        .find(|(_, state)| state.notes.contains(&note.id));
    let about = subject.map_or_else(
        || note.about.to_string(),
        |(subject, _)| words.subject(subject),
    );
    if note.replaces.is_some() {
        return format!("{about}: taken back.");
    }
    let what = match note.kind {
        Kind::Problem => "trouble written down",
        Kind::Promised => "date written down",
        Kind::Arrived => "on site",
        kind => kind.word(),
    };
    format!("{about}: {what}.")
}

/// An address without the note that it names.
pub(crate) fn without_wrote(path: &str) -> String {
    let Some((page, query)) = path.split_once('?') else {
        return path.to_owned();
    };
    let kept: Vec<&str> = query
        .split('&')
        .filter(|part| !part.starts_with("wrote="))
        .collect();
    if kept.is_empty() {
        page.to_owned()
    } else {
        format!("{page}?{}", kept.join("&"))
    }
}

fn foot(visit: &Visit) -> Markup {
    let picture = &visit.picture;
    let zone = picture.zone();
    html! {
        footer {
            dl class="title-block" {
                div { dt { "Job" } dd { (picture.job.job.name) } }
                div { dt { "Plan made" } dd { (say::short(picture.at(), zone)) } }
                div {
                    dt { "Written down" }
                    dd { span class="saved" id="saved" {
                        "Saved " (say::recent(picture.saved, visit.now, zone))
                    } }
                }
                div { dt { "Writing" } dd { a href=(visit.to("more#who")) { (visit.who) } } }
                div class="print-only" {
                    dt { "Address" }
                    dd { (visit.door.scheme()) "://" (visit.host) (without_wrote(&visit.path)) }
                }
                div class="turns" {
                    dt class="said" { "This page" }
                    dd {
                        button type="button" class="quiet" data-theme-button hidden { "Light or dark" }
                        button type="button" class="quiet" data-keys-button hidden { "Keys" }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_loses_only_the_note_it_names() {
        assert_eq!(without_wrote("/j/a/now?wrote=x"), "/j/a/now");
        assert_eq!(
            without_wrote("/j/a/weeks?weeks=6&wrote=x&trade=tile"),
            "/j/a/weeks?weeks=6&trade=tile"
        );
        assert_eq!(without_wrote("/j/a/now"), "/j/a/now");
    }
}
