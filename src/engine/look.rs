//! What a rule sees: one part of an assessment, its own limits in the profile used, and the rows of law of the markets.

use super::{Bound, Card, Findings, Limit, Reading};
use crate::assess::{Assessed, Assessment, Estimate, Evidence, Part, PartAssessment, Quantity, QuantitySet};
use crate::law::{Book, Region, Row, RowId, SalesName, Topic};
use crate::matter::Market;
use crate::units::Choice;

/// Where a piece is sold and under what name, and the law it is held against.
#[derive(Debug, Clone, Default)]
pub struct Sold {
    /// The markets.
    pub markets: Vec<Market>,
    /// The parts of markets with a law of their own.
    pub regions: Vec<Region>,
    /// The name, where it is one the law reserves.
    pub name: Option<SalesName>,
    /// Every row of law.
    pub(super) book: Book,
    /// The places of the rows that hold where it is sold, by topic and market; of names those it may claim.
    pub(super) rows: [[Vec<RowId>; Market::ALL.len()]; Topic::ALL.len()],
}

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
    pub(super) bounds: &'a [Bound],
}

impl<'a> Look<'a> {
    /// What is known of a quantity on this part.
    #[must_use]
    pub fn get(&self, quantity: Quantity) -> Assessed {
        self.at.get(quantity)
    }

    /// Holds the limit's own quantity against it: a reading if it is known, an unknown if it lacks, nothing if the part has none.
    pub fn compare(&self, limit: &'static Limit, out: &mut Findings) {
        self.hold_own(limit, || self.place(limit), out);
    }

    /// Holds every limit of the card.
    pub fn compare_all(&self, out: &mut Findings) {
        for (place, limit) in self.card.limits.iter().enumerate() {
            self.hold_own(limit, || place, out);
        }
    }

    #[inline(always)]
    fn hold_own(&self, limit: &'static Limit, place: impl FnOnce() -> usize, out: &mut Findings) {
        match self.at.look(limit.quantity) {
            Assessed::Known(value) => {
                let place = place();
                match self.bounds.get(place) {
                    Some(bound) => out.keep(self, limit, place, value, bound),
                    None => self.hold_as_declared(limit, value, out),
                }
            }
            Assessed::Missing(missing) => out.lack(self.card, self.part, *missing),
            Assessed::Absent => {}
        }
    }

    /// Where the bounds are those of other rules.
    #[cold]
    fn hold_as_declared(&self, limit: &'static Limit, value: &Estimate, out: &mut Findings) {
        out.readings.push(Reading::new(self.card, limit, self.part, *value, limit.careful.base()));
    }

    /// The place of a limit on the card; beyond all of them where it is another rule's.
    fn place(&self, limit: &Limit) -> usize {
        self.card.limits.iter().position(|own| std::ptr::eq(*own, limit)).unwrap_or(usize::MAX)
    }

    /// The rows of law on a topic that hold in one of the piece's markets.
    pub fn rows(&self, topic: Topic, market: Market) -> impl Iterator<Item = (RowId, &'a Row)> + use<'a> {
        let book = self.sold.book.rows();
        let places = self.sold.rows.get(topic as usize).and_then(|rows| rows.get(market as usize)).map_or(&[][..], Vec::as_slice);
        places.iter().filter_map(|id| Some((*id, book.get(id.place())?)))
    }

    /// Holds what a row limits against it, as a member of a family.
    pub fn compare_row(&self, family: &'static Limit, row: (RowId, &Row), out: &mut Findings) {
        let Some(bound) = Bound::of_row(row.0, row.1) else { return };
        self.hold_bound(family, &bound, self.at.look(bound.quantity), out);
    }

    /// Holds another quantity against a row than the one it names, where its text can be read so.
    pub fn compare_row_as(&self, family: &'static Limit, (id, row): (RowId, &Row), quantity: Quantity, out: &mut Findings) {
        let Some(bound) = Bound::of_row(id, row) else { return };
        self.hold_bound(family, &Bound { quantity, ..bound }, self.at.look(quantity), out);
    }

    /// Holds a value against a row of a family. What is only assumed settles nothing on either side of a limit: it lacks.
    pub fn hold(&self, family: &'static Limit, (id, row): (RowId, &Row), value: Assessed, out: &mut Findings) {
        let Some(bound) = Bound::of_row(id, row) else { return };
        self.hold_bound(family, &bound, &value, out);
    }

    fn hold_bound(&self, family: &'static Limit, bound: &Bound, value: &Assessed, out: &mut Findings) {
        match value {
            Assessed::Known(value)
                if value.evidence == Evidence::Assumed && Reading::held(self.card, family, self.part, *value, *bound).is_uncertain() =>
            {
                out.lack(self.card, self.part, QuantitySet::of(bound.quantity));
            }
            Assessed::Known(value) => out.keep(self, family, self.place(family), value, bound),
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
        self.bounds.get(self.place(limit)).map_or_else(|| limit.careful.base(), |bound| bound.value)
    }

    /// Notes that the part cannot be judged for want of these; nothing if there are none.
    pub fn lack(&self, missing: QuantitySet, out: &mut Findings) {
        if !missing.is_empty() {
            out.lack(self.card, self.part, missing);
        }
    }
}
