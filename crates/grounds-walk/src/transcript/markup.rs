//! Cue text without its markup: WebVTT's tags and character references, SubRip's tags.

/// Plain words of a cue, and the speaker that a voice tag names.
#[derive(Default)]
pub(super) struct Plain {
    pub(super) text: String,
    pub(super) voice: Option<String>,
}

/// Takes tags and character references out of a cue's text, whoever speaks.
pub(super) fn plain(text: &str) -> Plain {
    let mut all = voices(text).into_iter();
    let first = all.next().unwrap_or_default();
    all.fold(first, |mut whole, next| {
        whole.text.push(' ');
        whole.text.push_str(&next.text);
        whole.voice = whole.voice.or(next.voice);
        whole
    })
}

/// The words of each voice in a cue's text, without tags and character references.
///
/// A tag runs from `<` to the next `>`, or to the end if there is none, as WebVTT says. What is
/// read aloud beside the text (`<rt>`) is left out. What stands before the first voice tag is its
/// own, without a speaker, if it says anything.
pub(super) fn voices(text: &str) -> Vec<Plain> {
    let mut all = Vec::new();
    let mut open = Plain {
        text: String::with_capacity(text.len()),
        voice: None,
    };
    let mut aside = false;
    let mut rest = text;
    while let Some(at) = rest.find(['<', '&']) {
        let (before, from) = rest.split_at(at);
        if !aside {
            open.text.push_str(before);
        }
        if from.starts_with('<') {
            let end = from.find('>').unwrap_or(from.len());
            let tag = from.get(1..end).unwrap_or_default();
            let name = tag.split(['.', ' ', '\t', '\n']).next().unwrap_or_default();
            match name {
                "rt" => aside = true,
                "/rt" | "/ruby" => aside = false,
                _ => {
                    if let Some(voice) = voice_of(tag) {
                        if !open.text.trim().is_empty() {
                            all.push(std::mem::take(&mut open));
                        }
                        open.voice = Some(voice);
                    }
                }
            }
            rest = from.get(end + 1..).unwrap_or_default();
        } else {
            let (said, after) = reference(from);
            if !aside {
                open.text.push_str(&said);
            }
            rest = after;
        }
    }
    if !aside {
        open.text.push_str(rest);
    }
    if all.is_empty() || !open.text.trim().is_empty() {
        all.push(open);
    }
    all
}

/// The name in a voice tag such as `<v Mara>` or `<v.loud Mara>`.
fn voice_of(tag: &str) -> Option<String> {
    let (name, speaker) = tag.split_once([' ', '\t', '\n'])?;
    let is_voice = name == "v" || name.starts_with("v.");
    let speaker = super::one_line(speaker);
    (is_voice && !speaker.is_empty()).then(|| speaker.chars().take(60).collect())
}

/// The named references that WebVTT lists, and those of HTML that talk of a house may hold.
const NAMED: [(&str, &str); 33] = [
    ("amp", "&"),
    ("lt", "<"),
    ("gt", ">"),
    ("lrm", "\u{200e}"),
    ("rlm", "\u{200f}"),
    ("nbsp", " "),
    ("quot", "\""),
    ("apos", "'"),
    ("lsquo", "‘"),
    ("rsquo", "’"),
    ("ldquo", "“"),
    ("rdquo", "”"),
    ("ndash", "–"),
    ("mdash", "—"),
    ("hellip", "…"),
    ("frac12", "½"),
    ("frac14", "¼"),
    ("frac34", "¾"),
    ("deg", "°"),
    ("times", "×"),
    ("plusmn", "±"),
    ("prime", "′"),
    ("Prime", "″"),
    ("sup2", "²"),
    ("sup3", "³"),
    ("micro", "µ"),
    ("middot", "·"),
    ("bull", "•"),
    ("eacute", "é"),
    ("pound", "£"),
    ("euro", "€"),
    ("ensp", " "),
    ("emsp", " "),
];

/// References that HTML also reads without their semicolon.
const BARE: [(&str, &str); 5] = [
    ("amp", "&"),
    ("lt", "<"),
    ("gt", ">"),
    ("nbsp", " "),
    ("quot", "\""),
];

/// A reference without its semicolon, and what follows it.
fn bare_reference(body: &str) -> Option<(String, &str)> {
    BARE.iter().find_map(|(name, said)| {
        let after = body.strip_prefix(name)?;
        let ends = !after.starts_with(|c: char| c.is_ascii_alphanumeric() || c == '=');
        (ends && !after.starts_with(';')).then(|| ((*said).to_owned(), after))
    })
}

/// What a text that begins with `&` says, and what follows it.
fn reference(text: &str) -> (String, &str) {
    let body = text.get(1..).unwrap_or_default();
    if let Some(found) = bare_reference(body) {
        return found;
    }
    let near = body
        .char_indices()
        .nth(12)
        .map_or(body, |(at, _)| body.get(..at).unwrap_or(body));
    let Some(end) = near.find(';') else {
        return ("&".to_owned(), body);
    };
    let name = body.get(..end).unwrap_or_default();
    let after = body.get(end + 1..).unwrap_or_default();
    if let Some((_, said)) = NAMED.iter().find(|(known, _)| *known == name) {
        return ((*said).to_owned(), after);
    }
    let code = match name.strip_prefix('#') {
        Some(hex) if hex.starts_with(['x', 'X']) => {
            u32::from_str_radix(hex.get(1..).unwrap_or_default(), 16).ok()
        }
        Some(decimal) => decimal.parse().ok(),
        None => None,
    };
    match code.and_then(char::from_u32) {
        Some(c) => (c.to_string(), after),
        None => ("&".to_owned(), body),
    }
}

/// Takes SubRip's position marks (`{\an8}`) out as well.
pub(super) fn without_braces(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find("{\\") {
        let (before, from) = rest.split_at(at);
        out.push_str(before);
        match from.find('}') {
            Some(end) => rest = from.get(end + 1..).unwrap_or_default(),
            None => {
                rest = from;
                break;
            }
        }
    }
    out.push_str(rest);
    out
}
