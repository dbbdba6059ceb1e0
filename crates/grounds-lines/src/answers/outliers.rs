//! Readings that disagree with the others, in words.

use grounds_fit::{
    adjust::{Adjustment, Outlier},
    net::LinkId,
};
use grounds_model::Ref;
use grounds_site::words::capital;
use uuid::Uuid;

use crate::{
    lines::{Lines, Source},
    said,
};

/// A figure that disagrees with the others.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// The link.
    pub link: LinkId,
    /// What in the house it belongs to.
    pub about: Ref,
    /// The note, where it is a reading.
    pub note: Option<Uuid>,
    /// By how much it lies above what the others say, in millimetres.
    pub off_by: f64,
    /// What to do, as a sentence.
    pub said: String,
}

/// What disagrees, the worst first.
#[must_use]
pub fn doubts(lines: &Lines<'_>, adjusted: &Adjustment) -> Vec<Doubt> {
    let outliers = adjusted.outliers.iter();
    outliers
        .filter_map(|outlier| {
            let tie = lines.tie(outlier.link)?;
            let link = lines.net.links.get(outlier.link.index())?;
            let units = lines.units();
            let figure = said::exact(link.kind.nominal(), units);
            let off = said::length(outlier.off_by, units);
            let rivals: Vec<String> = outlier
                .rivals
                .iter()
                .filter_map(|rival| lines.tie(*rival))
                .map(|tie| tie.name.clone())
                .collect();
            let or = if rivals.is_empty() {
                String::new()
            } else {
                format!(" It may as well be {}.", said::all(&rivals))
            };
            let (note, text) = match &tie.source {
                Source::Reading { note, by, .. } => (
                    Some(*note),
                    format!(
                        "The {figure} reading of {} by {by} disagrees with the others by {off}: measure again.{or}",
                        tie.name
                    ),
                ),
                Source::Design => (None, not_as_drawn(lines, outlier, &rivals)),
            };
            Some(Doubt {
                link: outlier.link,
                about: tie.about.clone(),
                note,
                off_by: outlier.off_by,
                said: text,
            })
        })
        .collect()
}

/// What was not built as drawn: one part, or one of several that a reading goes across.
fn not_as_drawn(lines: &Lines<'_>, outlier: &Outlier, rivals: &[String]) -> String {
    let units = lines.units();
    let off = said::length(outlier.off_by, units);
    let side = if outlier.off_by > 0.0 { "less" } else { "more" };
    let Some(tie) = lines.tie(outlier.link) else {
        return String::new();
    };
    if rivals.is_empty() {
        return format!(
            "{} was not built as drawn: the readings say {off} {side}.",
            capital(&tie.name)
        );
    }
    let mut all = vec![tie.name.clone()];
    all.extend(rivals.iter().cloned());
    format!(
        "What was read is {off} away from what was drawn. One of these is not as it should be: {}.",
        said::all(&all)
    )
}
