//! Faults of a document, shown on the lines where they stand.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet, renderer::DecorStyle};
use grounds_model::{Fault, Faults, Severity};

use crate::page::harmless;

/// Lines longer than this are named but not shown.
const LONGEST_LINE: usize = 2000;

/// Mends are wrapped, so that they keep to 80 columns behind their margin.
const MEND_WIDTH: usize = 64;

/// A report of every fault, each with its line, its key and its mend.
pub(crate) fn faults(path: &str, text: &str, faults: &Faults) -> String {
    let mut report = String::new();
    for fault in &faults.list {
        report.push_str(&one(path, text, fault));
        report.push_str("\n\n");
    }
    if faults.more > 0 {
        report.push_str(&format!("and {} more faults\n\n", faults.more));
    }
    report
}

fn one(path: &str, text: &str, fault: &Fault) -> String {
    let level = match fault.severity {
        Severity::Error => Level::ERROR.with_name("fault"),
        Severity::Advice => Level::WARNING.with_name("advice"),
    };
    let path = harmless(path);
    let title = match fault.key.as_str() {
        "" => harmless(&fault.what),
        key => format!("{}: {}", harmless(key), harmless(&fault.what)),
    };
    let mend = textwrap::fill(&harmless(&fault.mend), MEND_WIDTH);
    let lines = lines_around(text, &fault.span);
    let source = text.get(lines.clone()).unwrap_or_default();
    // Tabs and the like keep their width of one column, so that the mark stays under its word.
    let shown: String = source
        .split('\n')
        .map(harmless)
        .collect::<Vec<_>>()
        .join("\n");
    let mut group = level
        .primary_title(title.as_str())
        .elements(None::<Snippet<'_, annotate_snippets::Annotation<'_>>>);
    if shown.len() == source.len() && !source.trim().is_empty() && source.len() <= LONGEST_LINE {
        let line_start = text
            .get(..lines.start)
            .map_or(1, |before| before.matches('\n').count() + 1);
        let span = fault.span.start - lines.start..fault.span.end.min(lines.end) - lines.start;
        group = group.element(
            Snippet::source(shown.as_str())
                .line_start(line_start)
                .path(path.as_str())
                .annotation(AnnotationKind::Primary.span(span)),
        );
    } else {
        group = group.element(
            annotate_snippets::Origin::path(path.as_str())
                .line(fault.line)
                .char_column(fault.column),
        );
    }
    if !mend.is_empty() {
        group = group.element(Level::HELP.with_name("mend").message(mend.as_str()));
    }
    Renderer::styled()
        .decor_style(DecorStyle::Unicode)
        .term_width(80)
        .render(&[group])
}

/// The whole lines that a span begins in: spans over many lines are shown by their first.
fn lines_around(text: &str, span: &Range<usize>) -> Range<usize> {
    let start = text
        .get(..span.start)
        .and_then(|before| before.rfind('\n'))
        .map_or(0, |at| at + 1);
    let end = text.get(span.start..).and_then(|after| after.find('\n'));
    start..end.map_or(text.len(), |at| span.start + at)
}
