//! Sentences as clauses, each with the word that ties it to the one before.

use crate::{
    lexicon::Class,
    noun::is_content,
    tokens::{Token, What},
};

/// What ties a clause to the one before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Link {
    /// It begins the sentence.
    Start,
    /// A comma, a dash.
    Comma,
    /// `and`, `plus`, `then`.
    And,
    /// `but`, `though`.
    But,
    /// `so`.
    So,
    /// `or`.
    Or,
    /// `because`.
    Cause,
    /// `till`, `unless`, `before`.
    Until,
    /// `if`, `once`, `when`.
    When,
    /// `which`, `where`.
    Which,
}

/// A clause: tokens without marks.
#[derive(Clone, Debug)]
pub(crate) struct Clause {
    pub(crate) link: Link,
    pub(crate) tokens: Vec<Token>,
}

/// Whether an `'s` makes the word before it an owner: a noun follows and no verb can.
pub(crate) fn is_owner_mark(tokens: &[Token], at: usize) -> bool {
    if tokens.get(at).is_none_or(|token| token.text != "'s") {
        return false;
    }
    let pronoun = at
        .checked_sub(1)
        .and_then(|before| tokens.get(before))
        .is_none_or(|before| before.any(&[Class::Pron, Class::Which, Class::Adv]));
    if pronoun {
        return false;
    }
    let Some(next) = tokens.get(at + 1) else {
        return false;
    };
    let noun = match next.what {
        What::Word => {
            (next.classes.is_empty() && !participle(&next.text))
                || next.is(Class::Thing) && !next.any(&[Class::Done, Class::Wrong])
                || (next.any(&[
                    Class::AbleNoun,
                    Class::FaultNoun,
                    Class::Person,
                    Class::TestNoun,
                ]) && !next.any(&[Class::Read, Class::Done, Class::Wrong, Class::FaultVerb]))
        }
        _ => false,
    };
    let somebody = at
        .checked_sub(1)
        .and_then(|before| tokens.get(before))
        .is_some_and(|b| b.is(Class::Person) || matches!(b.what, What::Person(_)));
    let last = tokens
        .get(at + 2)
        .is_none_or(|after| after.mark().is_some());
    if somebody && last && next.any(&[Class::TestNoun, Class::Thing]) && !next.is(Class::Done) {
        return true;
    }
    noun && tokens
        .get(at + 2)
        .is_some_and(|after| is_verb(tokens, at + 2) || after.classes.is_empty() || is_state(after))
}

/// Whether a word that the lexicon does not know looks like a participle.
pub(crate) fn participle(text: &str) -> bool {
    text.len() > 4 && (text.ends_with("ed") || text.ends_with("ing")) && !text.contains(' ')
}

/// Whether the token is a verb that a predicate begins with.
pub(crate) fn is_verb(tokens: &[Token], at: usize) -> bool {
    tokens.get(at).is_some_and(|token| {
        token.any(&[
            Class::Be,
            Class::Have,
            Class::Do,
            Class::Modal,
            Class::Will,
            Class::Need,
        ]) && token.what == What::Word
            && !is_owner_mark_light(tokens, at)
    })
}

fn is_owner_mark_light(tokens: &[Token], at: usize) -> bool {
    tokens.get(at).is_some_and(|token| token.text == "'s") && is_owner_mark(tokens, at)
}

/// Whether the token says how far something has got.
pub(crate) fn is_state(token: &Token) -> bool {
    token.what == What::Word
        && token.any(&[
            Class::Done,
            Class::NotDone,
            Class::Started,
            Class::Arrived,
            Class::NotArrived,
            Class::Wrong,
            Class::Pass,
            Class::Fail,
            Class::FaultVerb,
            Class::Block,
            Class::Particle,
            Class::Ordered,
        ])
}

/// The clauses of a sentence.
///
/// `bare` talk has no marks at all: a recogniser wrote the words down and nothing else.
pub(crate) fn split(tokens: &[Token], bare: bool) -> Vec<Clause> {
    let mut clauses = Vec::new();
    let mut open: Vec<Token> = Vec::new();
    let mut link = Link::Start;
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        if runs_on(tokens, at, &open) || bare && begins_anew(tokens, at, &open) {
            close(&mut clauses, &mut open, link);
            link = Link::Comma;
        }
        let next_link = cut(tokens, at, &open);
        match next_link {
            Some(next) => {
                close(&mut clauses, &mut open, link);
                link = next;
            }
            None if token.mark().is_some() => {}
            None => open.push(token.clone()),
        }
        at += 1;
    }
    close(&mut clauses, &mut open, link);
    clauses
}

fn close(clauses: &mut Vec<Clause>, open: &mut Vec<Token>, link: Link) {
    let tokens = std::mem::take(open);
    if tokens.is_empty() {
        return;
    }
    clauses.push(Clause { link, tokens });
}

/// Whether a new clause begins at a token without mark or joining word: a thing and its state
/// are said (`window wall done`), and another thing with a predicate follows.
fn runs_on(tokens: &[Token], at: usize, open: &[Token]) -> bool {
    let (Some(last), Some(token)) = (open.last(), tokens.get(at)) else {
        return false;
    };
    let said = last.what == What::Word
        && last.any(&[Class::Done, Class::Particle, Class::NotDone, Class::Not])
        && !last.any(&[Class::Act, Class::Side])
        && !(last.is(Class::Not) && open.len() > 1 && is_verb(open, open.len() - 2))
        && (open
            .iter()
            .rev()
            .skip(1)
            .any(|t| is_content(t) && !is_state(t))
            || open.len() == 1 && at > 2 && !last.any(&[Class::Prep, Class::Not]));
    let begins = is_content(token) && !is_state(token) && !token.any(&[Class::Side])
        || token.is(Class::Det) && last.is(Class::Done) && !last.is(Class::Particle);
    let prepositional = last.is(Class::Prep);
    let by_somebody = last.is(Class::Done)
        && !last.is(Class::Particle)
        && open.iter().any(|t| {
            t.any(&[Class::Person, Class::FirstPerson, Class::ThirdPerson])
                || matches!(t.what, What::Person(_))
        });
    said && begins
        && !by_somebody
        && !prepositional
        && token.amount().is_none()
        && predicate(tokens.get(at..).unwrap_or_default())
        && !open
            .iter()
            .any(|t| t.any(&[Class::Act]) && !t.is(Class::Done))
}

/// Whether a new clause begins at a token of talk that has no marks at all: what came before is
/// whole (`floor has been sanded`), and here a thing, somebody or an order begins another.
fn begins_anew(tokens: &[Token], at: usize, open: &[Token]) -> bool {
    let (Some(last), Some(token)) = (open.last(), tokens.get(at)) else {
        return false;
    };
    let rest = tokens.get(at..).unwrap_or_default();
    let onto = last.any(&[Class::Particle]) && last.is(Class::Prep) && token.is(Class::Det);
    let put = onto
        && open.len() >= 2
        && is_verb(open, open.len() - 2)
        && (2..=4).any(|i| {
            is_verb(rest, i) && (i < 2 || rest.get(i + 1).is_some_and(|t| t.is(Class::Not)))
        });
    if put {
        return true;
    }
    if !whole(open) || hangs(open, last) || onto && !token.is(Class::Pron) {
        return false;
    }
    let state_ended = is_state(last) && !last.is(Class::Prep)
        || last.when().is_some()
        || last.any(&[Class::Ok, Class::NotDone, Class::Adv, Class::FaultNoun])
        || last.is(Class::Not) && open.len() > 2
        || last.amount().is_some();
    if let Some(head) = Some(token).filter(|t| t.what == What::Word)
        && is_verb(tokens, at + 1)
        && (head.any(&[Class::FirstPerson, Class::ThirdPerson])
            || matches!(
                head.text.as_str(),
                "it" | "they" | "there" | "that" | "this" | "those"
            ))
        && !last.any(&[
            Class::Which,
            Class::When,
            Class::Cause,
            Class::Until,
            Class::Hearsay,
        ])
    {
        return true;
    }
    if token.what == What::Word
        && token.is(Class::FirstPerson)
        && rest
            .get(1)
            .is_some_and(|t| t.any(&[Class::Act, Class::Read, Class::Verb]))
    {
        return true;
    }
    let order = token.what == What::Word
        && token.is(Class::Act)
        && !token.any(&[Class::Done, Class::Wrong, Class::Particle])
        && rest.get(1).is_some_and(|t| {
            t.any(&[Class::Det, Class::Pron, Class::Person]) || t.amount().is_some()
        })
        && (!token.is(Class::Thing) || state_ended);
    if order && (state_ended || is_content(last)) {
        return true;
    }
    let in_place = last.is(Class::Particle)
        && last.is(Class::Prep)
        && open.len() >= 2
        && is_verb(open, open.len() - 2)
        && token.is(Class::Thing)
        && rest.iter().skip(1).take(3).any(is_state);
    if in_place {
        return true;
    }
    let ordinal = token.is(Class::Side) && !matches!(token.text.as_str(), "end" | "corner");
    let determined = token.is(Class::Det) && !token.is(Class::Pron)
        || ordinal && rest.get(1).is_some_and(is_content)
        || token
            .amount()
            .is_some_and(|a| a.unit == crate::numbers::Unit::None)
            && rest.get(1).is_some_and(is_content);
    let named = is_content(token) && (!is_state(token) || token.is(Class::Thing));
    let somebody = matches!(token.what, What::Person(_)) || token.is(Class::Person);
    let told = predicate(rest)
        || rest
            .iter()
            .skip(1)
            .take(4)
            .any(|t| t.when().is_some() || t.is(Class::NotArrived));
    told && (state_ended && (named || determined) || is_content(last) && (ordinal || somebody))
}

/// Whether a clause has a thing or somebody, and after it what is said of it.
fn whole(open: &[Token]) -> bool {
    let Some(named) = open
        .iter()
        .position(|t| is_content(t) || t.is(Class::Pron) && t.what == What::Word)
    else {
        return open.len() == 1 && open.first().is_some_and(is_state);
    };
    (named + 1..open.len()).any(|at| {
        open.get(at).is_some_and(|t| {
            is_verb(open, at) || is_state(t) && !t.is(Class::Thing) || t.when().is_some()
        })
    })
}

/// Whether a clause cannot end with its last token.
fn hangs(open: &[Token], last: &Token) -> bool {
    let before = open.len().checked_sub(2).and_then(|at| open.get(at));
    let bare_verb = is_verb(open, open.len() - 1);
    bare_verb
        || last.any(&[
            Class::Conj,
            Class::Which,
            Class::When,
            Class::Cause,
            Class::Until,
        ]) && last.what == What::Word
        || last.is(Class::Det) && !last.is(Class::Pron)
        || last.is(Class::Prep) && !last.is(Class::Particle)
        || last.is(Class::Particle)
            && last.is(Class::Prep)
            && before.is_some_and(|b| is_state(b) && !b.is(Class::Particle))
        || last.is(Class::Not) && before.is_some_and(|b| b.what == What::Word && b.is(Class::Modal))
}

/// The link of a clause that begins after this token, if one does.
fn cut(tokens: &[Token], at: usize, open: &[Token]) -> Option<Link> {
    let token = tokens.get(at)?;
    let rest = tokens.get(at + 1..).unwrap_or_default();
    if token.mark().is_some() {
        return (!in_list(open, rest)).then_some(Link::Comma);
    }
    if token.what != What::Word {
        return None;
    }
    let content_follows = rest
        .iter()
        .take_while(|token| token.mark().is_none())
        .any(|token| {
            is_content(token)
                || token.amount().is_some()
                || token.when().is_some()
                || token.any(&[Class::Pron, Class::Particle])
        });
    if !content_follows {
        return None;
    }
    let dated = rest.first().is_some_and(|next| next.when().is_some());
    if token.is(Class::Cause) && !(dated || matches!(token.text.as_str(), "as")) {
        return Some(Link::Cause);
    }
    if token.text == "while" && dated {
        return Some(Link::Until);
    }
    if token.is(Class::Until) && !(token.text == "before" && dated) {
        return Some(Link::Until);
    }
    let just = token.text == "after"
        && rest.first().is_some_and(|next| next.text.ends_with("ing"))
        && open
            .last()
            .is_some_and(|last| last.any(&[Class::Be, Class::Not]));
    if token.is(Class::When)
        && !just
        && !(matches!(token.text.as_str(), "once" | "after") && open.is_empty() && !predicate(rest))
        && (token.text != "after" || predicate(rest))
    {
        return Some(Link::When);
    }
    if token.is(Class::Which) && !open.is_empty() {
        let verb_next = is_verb(tokens, at + 1)
            || rest
                .first()
                .is_some_and(|t| t.any(&[Class::FirstPerson, Class::ThirdPerson]));
        let said_before = open.last().is_some_and(is_content);
        return (verb_next && said_before && token.text != "that").then_some(Link::Which);
    }
    if !token.is(Class::Conj) {
        return None;
    }
    if open.is_empty() {
        return None;
    }
    match token.text.as_str() {
        "but" | "though" | "although" | "while" | "whereas" | "only" => {
            (token.text != "only").then_some(Link::But)
        }
        "so" | "and so" | "so then" => {
            let degree = rest.first().is_some_and(|next| {
                next.any(&[Class::Adv]) && !next.any(&[Class::Not, Class::When])
            });
            (!degree).then_some(Link::So)
        }
        "cos" => Some(Link::Cause),
        "or" => predicate(rest).then_some(Link::Or),
        _ => {
            let figures = rest.first().is_some_and(|t| {
                t.amount().is_some_and(|a| !a.unit.is_time())
                    && !rest.get(1).is_some_and(is_content)
            }) && open.iter().any(|t| t.amount().is_some());
            let narrated = open
                .last()
                .is_some_and(|last| matches!(last.text.as_str(), "went" | "gone" | "goes"));
            if narrated {
                return None;
            }
            let nouns_only = token.text == "and" && names_only(open);
            (predicate(rest) && !in_list(open, rest) && !figures && !nouns_only)
                .then_some(Link::And)
        }
    }
}

/// Whether the clause so far only names things, so that `and` adds another: `skirting and archs
/// are on`.
fn names_only(open: &[Token]) -> bool {
    let named = open.iter().any(is_content);
    named
        && open.iter().enumerate().all(|(at, token)| {
            token.what == What::Word
                && !is_verb(open, at)
                && !token.any(&[
                    Class::Not,
                    Class::No,
                    Class::Need,
                    Class::Hearsay,
                    Class::Wanted,
                    Class::FaultNoun,
                ])
                && (!is_state(token) || token.is(Class::Thing))
                && (at > 0 || !token.is(Class::Act) || token.text.ends_with('s'))
                && (token.any(&[Class::Det, Class::Prep, Class::Side, Class::Conj])
                    || is_content(token))
        })
}

/// Whether a mark or an `and` stands between figures of one list.
fn in_list(open: &[Token], rest: &[Token]) -> bool {
    let before = open.last().is_some_and(|last| last.amount().is_some());
    let mut after = rest.iter().skip_while(|token| {
        token.mark().is_none()
            && token.amount().is_none()
            && token.any(&[Class::Conj, Class::Filler, Class::Correct, Class::No])
            || token.mark() == Some(',')
    });
    let figure = after
        .next()
        .is_some_and(|next| next.amount().is_some_and(|a| !a.unit.is_time()));
    let named = after
        .next()
        .is_some_and(|next| next.any(&[Class::TooWord]) && !next.is(Class::Side));
    before && figure && !named
}

/// Whether the tokens up to the next mark or joining word hold a predicate of their own.
fn predicate(rest: &[Token]) -> bool {
    let mut noun_seen = false;
    for (at, token) in rest.iter().enumerate().take(14) {
        if token.mark().is_some() {
            break;
        }
        if at > 0 && token.is(Class::Conj) && token.what == What::Word {
            break;
        }
        if is_verb(rest, at) {
            return true;
        }
        if at == 0 && token.is(Class::Act) && !token.any(&[Class::Done, Class::Wrong]) {
            return rest
                .get(1)
                .is_some_and(|next| next.any(&[Class::Det, Class::Pron]) || is_content(next));
        }
        if noun_seen && (is_state(token) || token.is(Class::Not) || token.text == "no") {
            return true;
        }
        noun_seen |= is_content(token) && !is_state(token)
            || token.is(Class::Pron) && token.what == What::Word;
    }
    false
}
