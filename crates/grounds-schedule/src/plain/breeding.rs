//! How children come from lists, and which of them stay.

use super::core::Core;
use super::justify::{Builder, Cuts};
use super::list::{cross, ruffle, shift};
use super::precedence::Precedence;
use crate::chance::Chance;
use crate::problem::Tick;

/// The least and the most people.
const FEWEST: usize = 40;
const MOST: usize = 1600;

/// The habits of a population. The defaults are what was best on published instances.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Habits {
    /// How many there are at first, in hundredths of the number of activities.
    pub people: usize,
    /// How many are left in the end, in the same way.
    pub remnant: usize,
    /// After so many children each the worst one leaves.
    pub tenure: usize,
    /// How much chance there is in the first lists, in parts of the longest path.
    pub noise: f64,
    /// The least and the most of the father's list that is put in the mother's order, in hundredths.
    pub stretch: (usize, usize),
    /// The chance of each two neighbours to change places, in hundredths.
    pub ruffle: usize,
    /// The chance that one activity is moved elsewhere, and then of one more, and so on; in hundredths.
    pub shift: usize,
    /// How much longer than the father a child may be after its first pass and after its pass from the
    /// end, in parts of the father's length.
    pub slack: (f64, f64),
    /// After so many children each without a better one, others are bred.
    pub patience: usize,
}

impl Default for Habits {
    fn default() -> Self {
        Self {
            people: 250,
            remnant: 50,
            tenure: 800,
            noise: 0.6,
            stretch: (20, 60),
            ruffle: 10,
            shift: 50,
            slack: (0.07, 0.015),
            patience: 20,
        }
    }
}

/// A schedule and its list.
#[derive(Clone, Debug)]
pub struct Person {
    /// The activities in the order of their starts.
    pub list: Vec<u32>,
    /// When each begins.
    pub starts: Vec<Tick>,
    /// The last finish.
    pub finish: Tick,
    /// Among those of equal finish the one with less is better: how much in all hangs over the finish
    /// that would be better than the best.
    overhang: i64,
    /// Equal for equal starts, and hardly ever for others.
    print: u64,
}

impl Person {
    fn blank(count: usize) -> Self {
        Self {
            list: (0..count as u32).collect(),
            starts: vec![0; count],
            finish: Tick::MAX,
            overhang: 0,
            print: 0,
        }
    }

    fn worth(&self) -> (Tick, i64) {
        (self.finish, self.overhang)
    }

    fn become_like(&mut self, other: &Self) {
        self.list.copy_from_slice(&other.list);
        self.starts.copy_from_slice(&other.starts);
        (self.finish, self.overhang, self.print) = (other.finish, other.overhang, other.print);
    }
}

/// People whose children take their fathers' places when they are no worse (crowding: De Jong 1975;
/// from memory). Anybody may be father or mother: that good lists do not spread over all the others is
/// what such a search lives on, and choosing better parents only ends it sooner.
pub struct Breeding<const W: usize> {
    /// What builds their schedules.
    pub builder: Builder<W>,
    /// The best so far.
    pub best: Person,
    habits: Habits,
    chance: Chance,
    people: Vec<Person>,
    child: Person,
    /// How many there shall be before children come.
    wanted: usize,
    /// Whether newcomers still come.
    growing: bool,
    /// How many stay in the end.
    fewest: usize,
    /// Newcomers so far, those who were like another among them.
    born: usize,
    /// Children since one was better than its father.
    barren: usize,
    /// Children since one of the people left.
    since: usize,
    tails: Vec<Tick>,
    inside: Vec<bool>,
    keys: Vec<i64>,
    /// Nothing longer is looked at.
    longest: Tick,
}

impl<const W: usize> Breeding<W> {
    /// Nobody yet. No schedule may be longer than `longest`, for which `ticks` of profile must be enough.
    #[must_use]
    pub fn new(
        core: &Core,
        precedence: &Precedence,
        (longest, ticks): (Tick, usize),
        seed: u64,
        habits: Habits,
    ) -> Self {
        let count = core.count();
        Self {
            builder: Builder::new(core, precedence, ticks),
            best: Person::blank(count),
            habits,
            chance: Chance::new(seed),
            people: Vec::new(),
            child: Person::blank(count),
            wanted: (count * habits.people / 100).clamp(FEWEST, MOST),
            growing: true,
            fewest: (count * habits.remnant / 100).clamp(FEWEST, MOST),
            born: 0,
            barren: 0,
            since: 0,
            tails: precedence.tails(&core.durations),
            inside: vec![false; count],
            keys: vec![0; count],
            longest,
        }
    }

    /// One newcomer or one child.
    pub fn round(&mut self) {
        if self.growing || self.people.len() < 2 {
            self.newcomer();
            // Where there are few schedules at all, there will never be so many.
            self.growing = self.people.len() < self.wanted && self.born < 2 * self.wanted;
        } else if self.barren < self.habits.patience * self.people.len() {
            self.child();
            self.thin_out();
        } else {
            self.begin_again();
        }
    }

    /// Takes in a schedule from elsewhere, by its starts.
    pub fn take_in(&mut self, starts: &[Tick]) {
        let last = starts.iter().copied().max().unwrap_or(0);
        self.builder.list_of(starts, last, &mut self.child.list);
        if self.build(Cuts::all(self.longest)) {
            self.join();
        }
    }

    /// Nothing more comes of these: others, and more of them (Harik and Lobo 1999; from memory).
    fn begin_again(&mut self) {
        self.people.clear();
        (self.born, self.barren, self.since) = (0, 0, 0);
        self.growing = true;
        self.wanted = (2 * self.wanted).min(MOST);
    }

    /// From time to time the worst one leaves: many at first look far and wide, few in the end agree
    /// soon. How long that takes does not depend on how long the search may last.
    fn thin_out(&mut self) {
        self.since += 1;
        if self.since < self.habits.tenure || self.people.len() <= self.fewest {
            return;
        }
        self.since = 0;
        let worst = (0..self.people.len()).max_by_key(|&i| self.people[i].worth());
        if let Some(worst) = worst {
            self.people.swap_remove(worst);
        }
    }

    fn newcomer(&mut self) {
        self.born += 1;
        self.sample();
        if self.build(Cuts::all(self.longest)) {
            self.join();
        }
    }

    /// A list by tails, the longest first, with chance; with more of it once newcomers are much alike.
    fn sample(&mut self) {
        let longest = self.tails.iter().copied().max().unwrap_or(0);
        let alike = (1 + self.born / self.wanted) as f64;
        let noise = (f64::from(longest) * self.habits.noise * alike * 1024.0) as usize;
        for (key, &tail) in self.keys.iter_mut().zip(&self.tails) {
            *key = self.chance.below(noise + 1) as i64 - i64::from(tail) * 1024;
        }
        let keys = &self.keys;
        let by_key = |&activity: &u32| (keys[activity as usize], activity);
        self.child.list.sort_unstable_by_key(by_key);
        self.builder.straighten(&mut self.child.list);
    }

    fn child(&mut self) {
        let father = self.chance.below(self.people.len());
        let mother = self.chance.below(self.people.len());
        let stretch = self.stretch();
        cross(
            &self.people[father].list,
            &self.people[mother].list,
            stretch,
            &mut self.inside,
            &mut self.child.list,
        );
        let precedence = self.builder.precedence();
        let list = &mut self.child.list;
        ruffle(precedence, list, self.habits.ruffle, &mut self.chance);
        while self.chance.happens(self.habits.shift) {
            shift(precedence, list, &mut self.chance);
        }
        let finish = self.people[father].finish;
        let past = |share: f64, least: Tick| {
            finish.saturating_add(((f64::from(finish) * share) as Tick).max(least))
        };
        let cuts = Cuts {
            first: past(self.habits.slack.0, 2).min(self.longest),
            back: past(self.habits.slack.1, 1).min(self.longest),
            last: finish,
        };
        self.barren += 1;
        if self.build(cuts) && self.child.worth() <= self.people[father].worth() && self.is_new() {
            if self.child.worth() < self.people[father].worth() {
                self.barren = 0;
            }
            self.people[father].become_like(&self.child);
            self.note();
        }
    }

    fn stretch(&mut self) -> (usize, usize) {
        let count = self.tails.len();
        let (least, most) = self.habits.stretch;
        let least = (count * least / 100).max(2).min(count);
        let most = (count * most / 100).clamp(least, count);
        let length = least + self.chance.below(most - least + 1);
        let from = self.chance.below(count - length + 1);
        (from, from + length)
    }

    /// Builds the child from its list; whether no pass was given up.
    fn build(&mut self, cuts: Cuts) -> bool {
        let child = &mut self.child;
        let built = self.builder.justified(&child.list, &mut child.starts, cuts);
        let Some(finish) = built else {
            return false;
        };
        child.finish = finish;
        self.builder.list_of(&child.starts, finish, &mut child.list);
        let better = self.best.finish.saturating_sub(1);
        let ends = child.starts.iter().zip(&self.tails);
        child.overhang = ends
            .map(|(start, tail)| i64::from((start + tail - better).max(0)))
            .sum();
        child.print = print_of(&child.starts);
        true
    }

    fn is_new(&self) -> bool {
        self.people
            .iter()
            .all(|person| person.print != self.child.print)
    }

    fn join(&mut self) {
        if self.is_new() {
            self.people.push(self.child.clone());
        }
        self.note();
    }

    fn note(&mut self) {
        if self.child.finish < self.best.finish {
            self.best.become_like(&self.child);
        }
    }
}

/// Mixes all starts into one number, after the manner of FxHash.
fn print_of(starts: &[Tick]) -> u64 {
    starts.iter().fold(0, |print: u64, &start| {
        (print.rotate_left(5) ^ u64::from(start.unsigned_abs())).wrapping_mul(0x517c_c1b7_2722_0a95)
    })
}
