//! Codes with which phones join: four words, good for ten minutes, for one phone, and for few tries.

use std::time::{Duration, Instant};

use subtle::{Choice, ConstantTimeEq};

use super::{proof::hash_of, words::WORDS};

/// How long a code is good.
pub(crate) const GOOD_FOR: Duration = Duration::from_secs(600);

/// How many words a code has. With 256 words to choose from there are four thousand million codes.
const LENGTH: usize = 4;

/// How many wrong codes may be tried before all that are good now are so no more.
const MOST_WRONG: u32 = 10;

/// How many codes are good at once; a further one takes the place of the oldest.
const MOST: usize = 8;

/// The longest code that is looked at, in bytes.
const LONGEST: usize = 200;

/// A code that is good now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Live {
    /// Its words: `ashlar-lintel-putty-batten`.
    pub(crate) words: String,
    /// How long it still is.
    pub(crate) left: Duration,
}

struct Code {
    words: String,
    hash: [u8; 32],
    job: String,
    ends: Instant,
    wrong: u32,
}

/// The codes that are good.
#[derive(Default)]
pub(super) struct Codes {
    codes: Vec<Code>,
}

impl Codes {
    /// Makes a code for a job, of random bytes.
    pub(super) fn make(&mut self, job: &str, random: [u8; LENGTH], now: Instant) {
        self.forget(now);
        if self.codes.len() >= MOST {
            self.codes.remove(0);
        }
        let words = random.map(|byte| WORDS[usize::from(byte)]).join("-");
        self.codes.push(Code {
            hash: hash_of(&words),
            words,
            job: job.to_owned(),
            ends: now + GOOD_FOR,
            wrong: 0,
        });
    }

    /// The codes for a job that are good now, the newest first.
    pub(super) fn live(&mut self, job: &str, now: Instant) -> Vec<Live> {
        self.forget(now);
        let codes = self.codes.iter().rev().filter(|code| code.job == job);
        let live = codes.map(|code| Live {
            words: code.words.clone(),
            left: code.ends.duration_since(now),
        });
        live.collect()
    }

    /// Takes a code as it was typed, and gives the job that it is for. It is good no more then. A
    /// wrong one counts against all that are good. Takes the same time, however near it is.
    pub(super) fn redeem(&mut self, typed: &str, now: Instant) -> Option<String> {
        self.forget(now);
        let hash = hash_of(&plain(typed));
        let mut found = None;
        for (at, code) in self.codes.iter().enumerate() {
            let is_it: Choice = code.hash.ct_eq(&hash);
            if bool::from(is_it) {
                found = Some(at);
            }
        }
        match found {
            Some(at) => Some(self.codes.remove(at).job),
            None => {
                for code in &mut self.codes {
                    code.wrong += 1;
                }
                self.codes.retain(|code| code.wrong < MOST_WRONG);
                None
            }
        }
    }

    fn forget(&mut self, now: Instant) {
        self.codes.retain(|code| code.ends > now);
    }
}

/// A code as it is written: words in small letters, with hyphens between them.
fn plain(typed: &str) -> String {
    let typed = typed.get(..LONGEST).unwrap_or(typed).to_ascii_lowercase();
    let words = typed.split(|c: char| !c.is_ascii_alphabetic());
    let words: Vec<&str> = words
        .filter(|word| !word.is_empty())
        .take(LENGTH + 1)
        .collect();
    words.join("-")
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    const JOB: &str = "mill";

    fn one(now: Instant) -> (Codes, String) {
        let mut codes = Codes::default();
        codes.make(JOB, [0, 50, 100, 255], now);
        let words = codes.live(JOB, now)[0].words.clone();
        (codes, words)
    }

    #[test]
    fn the_words_are_short_and_none_is_there_twice() {
        let words: BTreeSet<&str> = WORDS.into_iter().collect();
        assert_eq!(words.len(), WORDS.len());
        for word in words {
            let is_plain = word.bytes().all(|c| c.is_ascii_lowercase());
            assert!(is_plain && (3..=9).contains(&word.len()), "{word}");
        }
    }

    #[test]
    fn a_code_lets_one_phone_in_however_it_is_typed() {
        let now = Instant::now();
        for typed in [
            |words: &str| words.to_owned(),
            |words: &str| words.to_uppercase().replace('-', " "),
            |words: &str| format!("  {}. ", words.replace('-', ", ")),
        ] {
            let (mut codes, words) = one(now);
            assert_eq!(codes.redeem(&typed(&words), now).as_deref(), Some(JOB));
            assert_eq!(codes.redeem(&words, now), None, "it is used up");
        }
    }

    #[test]
    fn a_code_is_good_for_ten_minutes() {
        let now = Instant::now();
        let (mut codes, words) = one(now);
        assert_eq!(codes.redeem(&words, now + GOOD_FOR), None);
        let (mut codes, words) = one(now);
        let late = now + GOOD_FOR - Duration::from_secs(1);
        assert_eq!(codes.redeem(&words, late).as_deref(), Some(JOB));
    }

    #[test]
    fn wrong_codes_use_up_the_good_ones() {
        let now = Instant::now();
        let (mut codes, words) = one(now);
        for wrong in ["", "a-b-c-d", &format!("{words}-arch"), &"x".repeat(9_999)] {
            assert_eq!(codes.redeem(wrong, now), None);
        }
        for _ in 4..MOST_WRONG {
            codes.redeem("wrong", now);
        }
        assert_eq!(codes.redeem(&words, now), None);
    }

    #[test]
    fn a_code_of_another_job_is_not_shown() {
        let now = Instant::now();
        let (mut codes, _) = one(now);
        assert!(codes.live("barn", now).is_empty());
        for _ in 0..20 {
            codes.make(JOB, [1, 2, 3, 4], now);
        }
        assert_eq!(codes.live(JOB, now).len(), MOST);
    }
}
