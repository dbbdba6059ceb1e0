//! What conflicts were about lately: atoms that were part of them, the more often and the later the
//! more interesting (variable state independent decaying sum, as in Moskewicz et al., "Chaff", DAC 2001).

use super::trail::Trail;
use crate::problem::Tick;

const NOWHERE: u32 = u32::MAX;

/// "This number is at most so much", of which the search may be unsure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Question {
    pub(super) number: u32,
    pub(super) most: Tick,
}

/// All questions that conflicts have asked.
#[derive(Clone, Debug)]
pub(super) struct Interest {
    questions: Vec<Question>,
    interest: Vec<f64>,
    /// Where a question stands in the heap.
    places: Vec<u32>,
    heap: Vec<u32>,
    /// Questions that were answered when they came up, with the length of the trail then.
    answered: Vec<(usize, u32)>,
    /// Open addressing from a question to its index.
    table: Vec<u32>,
    step: f64,
    decay: f64,
}

impl Interest {
    /// Nothing is interesting yet.
    pub(super) fn new(decay: f64) -> Self {
        Self {
            questions: Vec::new(),
            interest: Vec::new(),
            places: Vec::new(),
            heap: Vec::new(),
            answered: Vec::new(),
            table: vec![NOWHERE; 1024],
            step: 1.0,
            decay,
        }
    }

    /// Raises the interest in a question.
    pub(super) fn raise(&mut self, question: Question) {
        let index = self.index(question);
        self.interest[index as usize] += self.step;
        if self.interest[index as usize] > 1e100 {
            self.interest.iter_mut().for_each(|i| *i *= 1e-100);
            self.step *= 1e-100;
        }
        let place = self.places[index as usize];
        if place != NOWHERE {
            self.rise(place as usize);
        }
    }

    /// Lets older interest count for less.
    pub(super) fn age(&mut self) {
        self.step /= self.decay;
    }

    /// The most interesting question that the trail does not answer.
    pub(super) fn ask(&mut self, trail: &Trail) -> Option<Question> {
        while let Some(&top) = self.heap.first() {
            let question = self.questions[top as usize];
            let number = question.number as usize;
            if trail.low(number) <= question.most && question.most < trail.high(number) {
                return Some(question);
            }
            self.remove_first();
            self.answered.push((trail.len(), top));
        }
        None
    }

    /// Takes back what was answered on a longer trail.
    pub(super) fn reopen(&mut self, length: usize) {
        while let Some(&(at, index)) = self.answered.last() {
            if at <= length {
                break;
            }
            self.answered.pop();
            self.insert(index);
        }
    }

    /// Forgets, with nothing chosen, what is answered for good and what nobody has asked for long.
    pub(super) fn tidy(&mut self, trail: &Trail) {
        let faint = self.step * 1e-30;
        let old: Vec<(Question, f64)> = self
            .questions
            .iter()
            .copied()
            .zip(self.interest.iter().copied())
            .collect();
        self.questions.clear();
        self.interest.clear();
        self.places.clear();
        self.heap.clear();
        self.answered.clear();
        self.table.fill(NOWHERE);
        for (question, interest) in old {
            let number = question.number as usize;
            let open = trail.low(number) <= question.most && question.most < trail.high(number);
            if open && interest > faint {
                let index = self.index(question);
                self.interest[index as usize] = interest;
                let place = self.places[index as usize];
                self.rise(place as usize);
            }
        }
    }

    /// The index of a question, which is new to the heap if it is new.
    fn index(&mut self, question: Question) -> u32 {
        if 2 * self.questions.len() >= self.table.len() {
            self.grow();
        }
        let slot = self.slot(question);
        if self.table[slot] != NOWHERE {
            return self.table[slot];
        }
        let index = self.questions.len() as u32;
        self.table[slot] = index;
        self.questions.push(question);
        self.interest.push(0.0);
        self.places.push(NOWHERE);
        self.insert(index);
        index
    }

    fn slot(&self, question: Question) -> usize {
        let mask = self.table.len() - 1;
        let key = (u64::from(question.number) << 32) | u64::from(question.most as u32);
        let mut slot = (key.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 32) as usize & mask;
        while self.table[slot] != NOWHERE && self.questions[self.table[slot] as usize] != question {
            slot = (slot + 1) & mask;
        }
        slot
    }

    fn grow(&mut self) {
        self.table = vec![NOWHERE; 2 * self.table.len()];
        for index in 0..self.questions.len() {
            let slot = self.slot(self.questions[index]);
            self.table[slot] = index as u32;
        }
    }

    fn insert(&mut self, index: u32) {
        if self.places[index as usize] == NOWHERE {
            self.places[index as usize] = self.heap.len() as u32;
            self.heap.push(index);
            self.rise(self.heap.len() - 1);
        }
    }

    fn rise(&mut self, mut at: usize) {
        let index = self.heap[at];
        let interest = self.interest[index as usize];
        while at > 0 {
            let above = (at - 1) / 2;
            if self.interest[self.heap[above] as usize] >= interest {
                break;
            }
            self.put(at, self.heap[above]);
            at = above;
        }
        self.put(at, index);
    }

    fn remove_first(&mut self) {
        let first = self.heap[0];
        self.places[first as usize] = NOWHERE;
        let Some(index) = self.heap.pop().filter(|_| !self.heap.is_empty()) else {
            return;
        };
        let interest = self.interest[index as usize];
        let mut at = 0;
        loop {
            let mut below = 2 * at + 1;
            if below >= self.heap.len() {
                break;
            }
            let of = |place: usize| self.interest[self.heap[place] as usize];
            if below + 1 < self.heap.len() && of(below + 1) > of(below) {
                below += 1;
            }
            if of(below) <= interest {
                break;
            }
            self.put(at, self.heap[below]);
            at = below;
        }
        self.put(at, index);
    }

    fn put(&mut self, at: usize, index: u32) {
        self.heap[at] = index;
        self.places[index as usize] = at as u32;
    }
}
