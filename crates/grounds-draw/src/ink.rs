//! The pen: writes tags, attributes, numbers and escaped words to a string.

/// Longest run of text kept of any one word or sentence, in characters. A drawing has no use for more, and a hostile
/// name must not swell the page.
const LONGEST_TEXT: usize = 300;

/// A growing piece of markup.
#[derive(Debug, Default)]
pub(crate) struct Ink(String);

impl Ink {
    pub(crate) fn new() -> Self {
        Self::default()
    }

    pub(crate) fn done(self) -> String {
        self.0
    }

    /// Begins a tag; its attributes follow, then [`Ink::end`] or [`Ink::shut`].
    pub(crate) fn open(&mut self, tag: &'static str) -> &mut Self {
        self.0.push('<');
        self.0.push_str(tag);
        self
    }

    pub(crate) fn end(&mut self) -> &mut Self {
        self.0.push('>');
        self
    }

    pub(crate) fn shut(&mut self) -> &mut Self {
        self.0.push_str("/>");
        self
    }

    pub(crate) fn close(&mut self, tag: &'static str) -> &mut Self {
        self.0.push_str("</");
        self.0.push_str(tag);
        self.0.push('>');
        self
    }

    /// An attribute whose value may come from a user.
    pub(crate) fn word(&mut self, name: &'static str, value: &str) -> &mut Self {
        self.0.push(' ');
        self.0.push_str(name);
        self.0.push_str("=\"");
        escape_into(&mut self.0, value);
        self.0.push('"');
        self
    }

    pub(crate) fn class(&mut self, names: &str) -> &mut Self {
        self.word("class", names)
    }

    /// An attribute that is a length in pixels.
    pub(crate) fn num(&mut self, name: &'static str, value: f64) -> &mut Self {
        self.word(name, &number(value))
    }

    pub(crate) fn frame(&mut self, frame: Frame) -> &mut Self {
        self.num("x", frame.x)
            .num("y", frame.y)
            .num("width", frame.width)
            .num("height", frame.height)
    }

    pub(crate) fn text(&mut self, words: &str) -> &mut Self {
        escape_into(&mut self.0, words);
        self
    }

    /// A piece of markup that is already whole, from this crate.
    pub(crate) fn whole(&mut self, markup: &str) -> &mut Self {
        self.0.push_str(markup);
        self
    }

    /// A line of lettering.
    pub(crate) fn letter(&mut self, class: &str, x: f64, y: f64, words: &str) -> &mut Self {
        self.open("text").class(class).num("x", x).num("y", y).end();
        self.text(words).close("text")
    }

    /// A path with a class.
    pub(crate) fn path(&mut self, class: &str, data: &str) -> &mut Self {
        self.open("path").class(class).data(data).shut()
    }

    /// The line of a path, made by this crate: as long as it needs to be, with nothing in it to escape.
    pub(crate) fn data(&mut self, data: &str) -> &mut Self {
        self.0.push_str(" d=\"");
        self.0.push_str(data);
        self.0.push('"');
        self
    }

    /// The head of an SVG of the given size in pixels; attributes may follow.
    pub(crate) fn svg(&mut self, class: &str, width: f64, height: f64) -> &mut Self {
        let view = format!("0 0 {} {}", number(width), number(height));
        self.open("svg")
            .class(class)
            .num("width", width)
            .num("height", height)
            .word("viewBox", &view)
    }
}

/// An upright rectangle, in pixels, y downward.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Frame {
    pub(crate) x: f64,
    pub(crate) y: f64,
    pub(crate) width: f64,
    pub(crate) height: f64,
}

/// A number to a tenth of a pixel, as short as it goes; what is not a number becomes 0.
pub(crate) fn number(value: f64) -> String {
    let tenths = (value * 10.0).round();
    if !tenths.is_finite() || tenths == 0.0 {
        return "0".to_owned();
    }
    let text = format!("{:.1}", tenths / 10.0);
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

fn escape_into(out: &mut String, words: &str) {
    for c in words.chars().filter(|c| !is_unseen(*c)).take(LONGEST_TEXT) {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
}

/// Control characters, and the marks that turn the direction of the text that follows them.
fn is_unseen(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_is_written_to_a_tenth_and_no_longer_than_needed() {
        assert_eq!(number(12.0), "12");
        assert_eq!(number(-0.01), "0");
        assert_eq!(number(7.25), "7.3");
        assert_eq!(number(f64::NAN), "0");
        assert_eq!(number(f64::INFINITY), "0");
    }

    #[test]
    fn a_name_that_is_markup_stays_a_name() {
        let mut ink = Ink::new();
        ink.text("<b onclick='x'>\u{202E}&\u{0}\"");
        assert_eq!(ink.done(), "&lt;b onclick=&#39;x&#39;&gt;&amp;&quot;");
    }

    #[test]
    fn a_name_without_end_is_cut() {
        let mut ink = Ink::new();
        ink.text(&"x".repeat(100_000));
        assert_eq!(ink.done().len(), LONGEST_TEXT);
    }
}
