//! A page of text: wrapped to 80 columns, aligned, in colour only on a terminal.

use std::io::{self, Write};

use anstyle::{AnsiColor, Style};
use textwrap::core::display_width;

/// The widest line, in columns.
const WIDTH: usize = 80;

/// Headings.
pub(crate) const HEAD: Style = Style::new().bold();
/// What matters less.
pub(crate) const QUIET: Style = Style::new().dimmed();
/// What cannot be met.
pub(crate) const ALARM: Style = AnsiColor::Red.on_default().bold();
/// Plain text.
pub(crate) const PLAIN: Style = Style::new();

/// Text that is gathered whole and then written at once.
#[derive(Debug, Default)]
pub(crate) struct Page {
    text: String,
}

impl Page {
    /// A heading, with an empty line before it unless it is the first thing on the page.
    pub(crate) fn heading(&mut self, style: Style, text: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.paragraph(style, 0, text);
    }

    /// A paragraph, wrapped, all of it indented.
    pub(crate) fn paragraph(&mut self, style: Style, indent: usize, text: &str) {
        self.hung(style, &" ".repeat(indent), indent, text);
    }

    /// A paragraph with a mark before it, the later lines hanging under the first.
    pub(crate) fn item(&mut self, indent: usize, text: &str) {
        self.hung(
            PLAIN,
            &format!("{}- ", " ".repeat(indent)),
            indent + 2,
            text,
        );
    }

    /// A row: columns of set widths, and a last one that takes what is left and wraps.
    pub(crate) fn row(&mut self, indent: usize, columns: &[(&str, usize)], last: &str) {
        let mut head = " ".repeat(indent);
        for (text, width) in columns {
            let text = harmless(text);
            let pad = width.saturating_sub(display_width(&text));
            head.push_str(&text);
            head.push_str(&" ".repeat(pad + 2));
        }
        let hang = display_width(&head);
        self.hung(PLAIN, &head, hang, last);
    }

    fn hung(&mut self, style: Style, head: &str, hang: usize, text: &str) {
        let text = harmless(text);
        let later = " ".repeat(hang);
        // Keys, paths and options are never broken at their hyphens, so that they can be copied.
        let options = textwrap::Options::new(WIDTH)
            .word_splitter(textwrap::WordSplitter::NoHyphenation)
            .initial_indent(head)
            .subsequent_indent(&later);
        for line in textwrap::wrap(&text, options) {
            let line = line.trim_end();
            self.text.push_str(&format!("{style}{line}{style:#}\n"));
        }
    }

    /// Writes the page to standard output; a reader that has gone away is no fault.
    pub(crate) fn print(self) -> io::Result<()> {
        print(&self.text)
    }
}

/// Writes text to standard output, with its colours only on a terminal; a reader that has gone
/// away is no fault.
pub(crate) fn print(text: &str) -> io::Result<()> {
    let mut out = anstream::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        result => result,
    }
}

/// Says something beside the result, on standard error; wrapped.
pub(crate) fn remark(style: Style, text: &str) {
    let mut page = Page::default();
    page.paragraph(style, 0, text);
    // Nobody is left to tell if this cannot be written.
    let _ = anstream::stderr().lock().write_all(page.text.as_bytes());
}

/// Text that cannot command the terminal: control characters and marks that turn the direction of
/// writing become spaces.
pub(crate) fn harmless(text: &str) -> String {
    let turns = |c: char| matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    text.chars()
        .map(|c| if c.is_control() || turns(c) { ' ' } else { c })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_sentence_wraps_under_its_own_column() {
        let mut page = Page::default();
        page.row(
            2,
            &[("Thu 10 Jun", 12), ("8:00", 6)],
            &"finish coat ".repeat(9),
        );
        let lines: Vec<&str> = page.text.lines().collect();
        assert_eq!(lines.len(), 2);
        assert!(lines.iter().all(|line| display_width(line) <= WIDTH));
        assert!(
            lines[1].starts_with(&format!("{}coat", " ".repeat(24))),
            "{lines:?}"
        );
    }

    #[test]
    fn a_name_cannot_command_the_terminal() {
        assert_eq!(harmless("hall\u{1b}[2J\u{202e}\n"), "hall [2J  ");
    }
}
