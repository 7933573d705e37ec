//! What a rule sees: one part of an assessment, its own limits in the profile used, and the rows of law of the markets.

use super::{Bound, Card, Findings, Limit, Question, Reading, RowInForce, SetLimit, Sold};
use crate::assess::{Assessed, Assessment, Evidence, Part, PartAssessment, Quantity, QuantitySet};
use crate::law::Row;
use crate::matter::Market;

/// One part of an assessment, seen by one rule.
#[derive(Debug, Clone, Copy)]
pub struct Look<'a> {
    /// The whole assessment.
    pub assessment: &'a Assessment,
    /// The part looked at.
    pub part: Part,
    /// What was assessed on it.
    pub at: &'a PartAssessment,
    /// Where the piece is sold, and under what name.
    pub sold: &'a Sold,
    pub(super) card: &'static Card,
    pub(super) limits: &'a [SetLimit],
}

impl<'a> Look<'a> {
    /// At the piece as a whole, by no rule yet.
    pub(super) fn new(assessment: &'a Assessment, sold: &'a Sold) -> Self {
        Self { assessment, part: Part::Whole, at: &assessment.whole, sold, card: &Card::BLANK, limits: &[] }
    }

    /// What is known of a quantity on this part.
    #[must_use]
    pub fn get(&self, quantity: Quantity) -> Assessed {
        self.at.get(quantity)
    }

    /// Holds the limit's own quantity against it: a reading if it is known, an unknown if it lacks, nothing if the part has none.
    pub fn compare(&self, limit: &'static Limit, out: &mut Findings) {
        match self.set(limit) {
            Some(set) => self.hold_own(set, out),
            None => self.compare_as_declared(limit, out),
        }
    }

    /// Holds every limit of the card.
    pub fn compare_all(&self, out: &mut Findings) {
        self.limits.iter().for_each(|set| self.hold_own(set, out));
        if self.limits.is_empty() {
            self.card.limits.iter().for_each(|limit| self.compare_as_declared(limit, out));
        }
    }

    #[inline(always)]
    fn hold_own(&self, set: &SetLimit, out: &mut Findings) {
        match self.at.known(set.bound.quantity) {
            Some(value) => out.keep(self, set, value, &set.bound),
            None => self.lack_own(set, out),
        }
    }

    #[inline(never)]
    fn lack_own(&self, set: &SetLimit, out: &mut Findings) {
        self.lack(self.at.look(set.bound.quantity).missing(), out);
    }

    /// Where the limit is another rule's, or the bounds were made before this rule joined the set.
    #[cold]
    fn compare_as_declared(&self, limit: &'static Limit, out: &mut Findings) {
        match self.at.look(limit.quantity) {
            Assessed::Known(value) => out.readings.push(Reading::new(self.card, limit, self.part, *value, limit.careful.base())),
            Assessed::Missing(missing) => out.lack(self.card, self.part, *missing),
            Assessed::Absent => {}
        }
    }

    /// A limit of the card as it is set for the piece.
    #[inline(always)]
    fn set(&self, limit: &Limit) -> Option<&'a SetLimit> {
        self.limits.iter().find(|set| std::ptr::eq(set.limit, limit))
    }

    /// The rows of law in force in one of the piece's markets that answer a question.
    pub fn rows(&self, question: Question, market: Market) -> impl Iterator<Item = RowInForce<'a>> + use<'a> {
        self.sold.rows(question, market)
    }

    /// Holds what a row limits against it, as a member of a family.
    pub fn compare_row(&self, family: &'static Limit, row: RowInForce<'_>, out: &mut Findings) {
        let Some(bound) = row.bound else { return };
        self.hold_bound(family, bound, self.at.look(bound.quantity), out);
    }

    /// Holds another quantity against a row than the one it names, where its text can be read so.
    pub fn compare_row_as(&self, family: &'static Limit, row: RowInForce<'_>, quantity: Quantity, out: &mut Findings) {
        let Some(bound) = row.bound else { return };
        self.hold_bound(family, &Bound { quantity, ..*bound }, self.at.look(quantity), out);
    }

    /// Holds a value against a row of a family. What is only assumed settles nothing on either side of a limit: it lacks.
    pub fn hold(&self, family: &'static Limit, row: RowInForce<'_>, value: Assessed, out: &mut Findings) {
        let Some(bound) = row.bound else { return };
        self.hold_bound(family, bound, &value, out);
    }

    fn hold_bound(&self, family: &'static Limit, bound: &Bound, value: &Assessed, out: &mut Findings) {
        match value {
            Assessed::Known(value)
                if value.evidence == Evidence::Assumed && Reading::held(self.card, family, self.part, *value, *bound).is_uncertain() =>
            {
                out.lack(self.card, self.part, QuantitySet::of(bound.quantity));
            }
            Assessed::Known(value) => match self.set(family) {
                Some(set) => out.keep(self, set, value, bound),
                None => out.readings.push(Reading::held(self.card, family, self.part, *value, *bound)),
            },
            Assessed::Missing(missing) => out.lack(self.card, self.part, *missing),
            Assessed::Absent => {}
        }
    }

    /// The sum of a row's additives on this part; lecithin that no sheet declares may come on top.
    #[must_use]
    pub fn additives(&self, row: &Row) -> Assessed {
        self.get(Quantity::Additives).then(|_| Assessed::Known(self.at.additives_of(row)))
    }

    /// The same look at what was assessed on the piece as a whole, the part staying the one that is judged.
    #[must_use]
    pub fn of_whole(&self) -> Self {
        Self { at: &self.assessment.whole, ..*self }
    }

    /// The value of one of the card's limits in the profile used, in the base unit.
    #[must_use]
    pub fn bound(&self, limit: &'static Limit) -> f64 {
        self.set(limit).map_or_else(|| limit.careful.base(), |set| set.bound.value)
    }

    /// Notes that the part cannot be judged for want of these; nothing if there are none.
    pub fn lack(&self, missing: QuantitySet, out: &mut Findings) {
        if !missing.is_empty() {
            out.lack(self.card, self.part, missing);
        }
    }
}
