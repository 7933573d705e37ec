//! One limit laid out for plain numbers, which have no band.

use super::{Bound, Card, Limit, Mark, Side, Verdict};
use crate::assess::Estimate;

/// A limit as it stands for a piece, for who has numbers already: one at a time, or a column of them. They are in the base unit and taken as
/// exact, whatever the rule would ask of the part besides. [`super::Gauge::judge`] is for numbers with bands, or that may lack.
///
/// ```
/// use cordial::engine::{Gauge, Verdict};
/// use cordial::{Piece, rules};
///
/// let rules = rules::built_in();
/// let gauge = Gauge::new(&rules, &rules.bounds(&Piece::named("bar"))?);
/// let headroom = gauge.place("headroom.min").and_then(|place| gauge.line(place)).ok_or("no such limit")?;
/// // At least 1 mm, here in metres.
/// assert_eq!(headroom.mark(0.0004).verdict, Verdict::Fail);
/// let (mut margins, mut verdicts) = ([0.0; 2], [Verdict::Pass; 2]);
/// headroom.hold(&[0.0015, 0.0009], &mut margins, &mut verdicts);
/// assert_eq!(verdicts, [Verdict::Pass, Verdict::Fail]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Line {
    card: &'static Card,
    limit: &'static Limit,
    bound: Bound,
    /// One where the value must reach the bound, minus one where it must not exceed it.
    sign: f64,
    rounding: f64,
    /// What a clear pass and a clear miss come to.
    passed: Verdict,
    missed: Verdict,
}

impl Line {
    pub(super) fn new(card: &'static Card, limit: &'static Limit, bound: Bound) -> Self {
        let sign = if bound.side == Side::AtLeast { 1.0 } else { -1.0 };
        let from_zero = |margin: f64| Mark::of(card, limit, &Estimate::declared(sign * margin), &Bound { value: 0.0, ..bound }).verdict;
        Self { card, limit, bound, sign, rounding: bound.rounding(), passed: from_zero(1.0), missed: from_zero(-1.0) }
    }

    /// Holds one number against the limit.
    #[must_use]
    #[inline]
    pub fn mark(&self, number: f64) -> Mark {
        let margin = self.margin(number);
        if margin.abs() > self.rounding { Mark { margin, assured: margin, verdict: self.clearly(margin) } } else { self.read(number) }
    }

    /// Holds a column of numbers against the limit. Margins and verdicts go to the columns given, as far as they reach. It becomes part of
    /// whoever calls it, and of the vector instructions used there.
    #[inline(always)]
    pub fn hold(&self, numbers: &[f64], margins: &mut [f64], verdicts: &mut [Verdict]) {
        // Without a branch, and with all it needs at hand, so that the compiler makes vector code of it.
        let (line, mut all_clear) = (*self, true);
        for ((number, margin), verdict) in numbers.iter().zip(&mut *margins).zip(&mut *verdicts) {
            *margin = line.margin(*number);
            *verdict = line.clearly(*margin);
            all_clear &= margin.abs() > line.rounding;
        }
        if !all_clear {
            self.hold_each(numbers, margins, verdicts);
        }
    }

    /// The same number by number, where one of them is too near the limit to tell at once.
    #[cold]
    fn hold_each(&self, numbers: &[f64], margins: &mut [f64], verdicts: &mut [Verdict]) {
        for ((number, margin), verdict) in numbers.iter().zip(margins).zip(verdicts) {
            let mark = self.mark(*number);
            (*margin, *verdict) = (mark.margin, mark.verdict);
        }
    }

    #[inline(always)]
    fn margin(&self, number: f64) -> f64 {
        self.sign * (number - self.bound.value)
    }

    #[inline(always)]
    fn clearly(&self, margin: f64) -> Verdict {
        if margin > 0.0 { self.passed } else { self.missed }
    }

    #[cold]
    fn read(&self, number: f64) -> Mark {
        Mark::of(self.card, self.limit, &Estimate::declared(number), &self.bound)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::Quantity;
    use crate::engine::{Domain, PartKind, Rule};
    use crate::units::Unit;

    crate::rule! {
        /// No room. A rule of this test.
        NoRoom { id: "no-room", title: "no room", domain: Domain::Closing, part: PartKind::Whole }
        limits {
            ROOM = Limit::at_least("room.min", Quantity::Headroom, 1.0, Unit::Millimeter).breach();
            HEAVY = Limit::at_most("room.heavy", Quantity::Density, 1300.0, Unit::KilogramPerCubicMeter).breach();
        }
    }

    #[test]
    fn a_column_is_held_as_each_of_its_numbers() {
        let line = Line::new(NoRoom.card(), &ROOM, Bound::of(&ROOM, 0.001));
        let nearly = 0.001 * (1.0 - 2.0 * f64::EPSILON);
        for numbers in [[0.0015, 0.0005, 0.002], [0.0015, nearly, 0.0005], [nearly, nearly, f64::NAN]] {
            let (mut margins, mut verdicts) = ([1.0; 3], [Verdict::Note; 3]);
            line.hold(&numbers, &mut margins, &mut verdicts);
            let marks = numbers.map(|number| line.mark(number));
            assert_eq!(verdicts, marks.map(|mark| mark.verdict));
            assert_eq!(margins.map(f64::to_bits), marks.map(|mark| mark.margin.to_bits()));
        }
        assert_eq!(line.mark(nearly).verdict, Verdict::Pass);
        // Rounding grows with the limit.
        let heavy = Line::new(NoRoom.card(), &HEAVY, Bound::of(&HEAVY, 1300.0));
        assert_eq!(heavy.mark(1300.0 * (1.0 + 4.0 * f64::EPSILON)).verdict, Verdict::Pass);
        assert_eq!(heavy.mark(1300.0 * (1.0 + 1e-12)).verdict, Verdict::Fail);
    }
}
