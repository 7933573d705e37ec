//! What judging a piece brings to light, in a buffer that is used again.

use super::{Bound, Card, Look, Mark, Reading, SetLimit, Verdict};
use crate::assess::{Estimate, Part, QuantitySet};

/// A rule that could not judge a part.
#[derive(Debug, Clone, Copy)]
pub struct Unknown {
    /// The rule.
    pub rule: &'static Card,
    /// The part.
    pub part: Part,
    /// What lacks.
    pub missing: QuantitySet,
}

/// All readings of a piece, those that pass included, and all that could not be judged.
#[derive(Debug, Clone, Default)]
pub struct Findings {
    /// The readings, rule by rule.
    pub readings: Vec<Reading>,
    /// What could not be judged.
    pub unknown: Vec<Unknown>,
    /// Where only marks are wanted: the worst against each limit of all rules.
    pub(super) marks: Vec<Option<Mark>>,
}

impl Findings {
    /// Empties the buffer and keeps its storage.
    pub fn clear(&mut self) {
        self.readings.clear();
        self.unknown.clear();
    }

    /// The worst verdict of a rule on a part, if it read anything there.
    #[must_use]
    pub fn verdict(&self, rule: &str, part: Part) -> Option<Verdict> {
        self.of(rule, part).map(|reading| reading.verdict).max()
    }

    /// The worst of a rule on a part that a change of the piece could mend, if it read anything there.
    #[must_use]
    pub fn blame(&self, rule: &str, part: Part) -> Option<Verdict> {
        self.of(rule, part).map(Reading::blame).max()
    }

    /// What a rule lacks on a part.
    #[must_use]
    pub fn missing(&self, rule: &str, part: Part) -> QuantitySet {
        let of_rule = self.unknown.iter().filter(|unknown| unknown.part == part && unknown.rule.id == rule);
        of_rule.fold(QuantitySet::default(), |all, unknown| all.union(unknown.missing))
    }

    /// The readings of a rule on a part.
    pub fn of<'a>(&'a self, rule: &'a str, part: Part) -> impl Iterator<Item = &'a Reading> + use<'a> {
        self.readings.iter().filter(move |reading| reading.part == part && reading.rule.id == rule)
    }

    /// Keeps what a value comes to against a limit of the card that is looked at: a reading, or no more than a mark.
    #[inline(always)]
    pub(super) fn keep(&mut self, look: &Look<'_>, limit: &SetLimit, value: &Estimate, bound: &Bound) {
        // What is rare comes last and apart, so that the usual way needs no more than a few registers.
        let room = self.readings.len() < self.readings.capacity();
        match Mark::of_clear_pass(look.card, value, bound) {
            Some(mark) if room => self.keep_marked(look, limit, value, bound, mark),
            _ => self.keep_closely(look, limit, value, bound),
        }
    }

    /// The same of any value.
    #[inline(never)]
    fn keep_closely(&mut self, look: &Look<'_>, limit: &SetLimit, value: &Estimate, bound: &Bound) {
        self.readings.reserve(1);
        let mark = Mark::closely(look.card, limit.limit, value, bound);
        self.keep_marked(look, limit, value, bound, mark);
    }

    #[inline(always)]
    fn keep_marked(&mut self, look: &Look<'_>, limit: &SetLimit, value: &Estimate, bound: &Bound, mark: Mark) {
        if self.marks.is_empty() {
            self.readings.push(Reading::marked(look.card, limit.limit, look.part, value, bound, mark));
        } else if let Some(worst) = self.marks.get_mut(limit.place) {
            mark.worsen(worst);
        }
    }

    /// Notes that a rule could not judge a part.
    #[inline(never)]
    pub fn lack(&mut self, rule: &'static Card, part: Part, missing: QuantitySet) {
        match self.unknown.iter_mut().find(|unknown| std::ptr::eq(unknown.rule, rule) && unknown.part == part) {
            Some(unknown) => unknown.missing = unknown.missing.union(missing),
            None => self.unknown.push(Unknown { rule, part, missing }),
        }
    }
}
