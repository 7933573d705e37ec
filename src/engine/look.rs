//! What a rule sees: one part of an assessment, and its own limits in the profile used.

use super::{Card, Findings, Limit, Reading};
use crate::assess::{Assessed, Assessment, Part, PartAssessment, Quantity, QuantitySet};

/// One part of an assessment, seen by one rule.
#[derive(Debug, Clone, Copy)]
pub struct Look<'a> {
    /// The whole assessment.
    pub assessment: &'a Assessment,
    /// The part looked at.
    pub part: Part,
    /// What was assessed on it.
    pub at: &'a PartAssessment,
    card: &'static Card,
    bounds: &'a [f64],
}

impl<'a> Look<'a> {
    pub(super) fn new(assessment: &'a Assessment, part: Part, at: &'a PartAssessment, card: &'static Card, bounds: &'a [f64]) -> Self {
        Self { assessment, part, at, card, bounds }
    }

    /// What is known of a quantity on this part.
    #[must_use]
    pub fn get(&self, quantity: Quantity) -> Assessed {
        self.at.get(quantity)
    }

    /// Holds the limit's own quantity against it: a reading if it is known, an unknown if it lacks, nothing if the part has none.
    pub fn compare(&self, limit: &'static Limit, out: &mut Findings) {
        match self.get(limit.quantity) {
            Assessed::Known(value) => out.readings.push(Reading::new(self.card, limit, self.part, value, self.bound(limit))),
            Assessed::Missing(missing) => out.lack(self.card, self.part, missing),
            Assessed::Absent => {}
        }
    }

    /// The same look at what was assessed on the piece as a whole, the part staying the one that is judged.
    #[must_use]
    pub fn of_whole(&self) -> Self {
        Self { at: &self.assessment.whole, ..*self }
    }

    /// Holds every limit of the card.
    pub fn compare_all(&self, out: &mut Findings) {
        for limit in self.card.limits {
            self.compare(limit, out);
        }
    }

    /// The value of one of the card's limits in the profile used, in the base unit.
    #[must_use]
    pub fn bound(&self, limit: &'static Limit) -> f64 {
        let place = self.card.limits.iter().position(|own| std::ptr::eq(*own, limit));
        place.and_then(|place| self.bounds.get(place).copied()).unwrap_or_else(|| limit.careful.base())
    }

    /// Notes that the part cannot be judged for want of these; nothing if there are none.
    pub fn lack(&self, missing: QuantitySet, out: &mut Findings) {
        if !missing.is_empty() {
            out.lack(self.card, self.part, missing);
        }
    }
}
