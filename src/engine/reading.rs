//! A value held against a limit, and the verdict that follows by construction.

use super::limit::margin;
use super::{Card, Limit, Severity, Side};
use crate::assess::{Estimate, Part, Quantity};
use crate::law::{Row, RowId};
use crate::matter::Known;
use crate::units::{Measure, Unit, choices};

choices! {
    /// What a reading comes to, mildest first.
    Verdict: "a verdict" {
        /// In order.
        Pass "pass",
        /// Worth knowing.
        Note "note",
        /// Doubtful: mend or measure.
        Caution "caution",
        /// Will not do.
        Fail "fail",
    }
}

/// What a value is held against: a limit as it stands for a piece, or a row of a family.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// What it limits.
    pub quantity: Quantity,
    /// Which side is legal.
    pub side: Side,
    /// The value, in the base unit.
    pub value: f64,
    /// The unit it is written in.
    pub unit: Unit,
    /// How it is known.
    pub known: Known,
    /// The row of law it is, in the book of the piece.
    pub row: Option<RowId>,
}

impl Bound {
    /// A limit with the value that the profile or the maker gives it.
    #[must_use]
    pub const fn of(limit: &Limit, value: f64) -> Self {
        let unit = limit.careful.unit();
        Self { quantity: limit.quantity, side: limit.side, value, unit, known: limit.source.known, row: None }
    }

    /// A row of law; none where it sets no number.
    #[must_use]
    pub fn of_row(id: RowId, row: &Row) -> Option<Self> {
        let (value, unit) = (row.bound()?, row.value?.unit());
        Some(Self { quantity: Quantity::of_term(row.term), side: row.side, value, unit, known: row.citation.known, row: Some(id) })
    }

    /// A value further from it than this is so by more than rounding: sixteen units in the last place of the bound are more than eight of
    /// the value's.
    pub(super) fn rounding(&self) -> f64 {
        16.0 * f64::EPSILON * self.value.abs()
    }

    /// What a verdict comes to: where law or safety is at stake, a bound that is only remembered can neither pass nor fail.
    fn settles(&self, rule: &Card, verdict: Verdict) -> Verdict {
        match verdict {
            Verdict::Pass | Verdict::Fail if self.known == Known::Memory && rule.domain.is_law_or_safety() => Verdict::Caution,
            other => other,
        }
    }
}

/// How a value meets what it is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// How far the value is on the legal side, in the base unit; negative when broken.
    pub margin: f64,
    /// The same at the bad end of the band.
    pub assured: f64,
    /// The verdict.
    pub verdict: Verdict,
}

/// A value held against a limit.
#[derive(Debug, Clone, Copy)]
pub struct Reading {
    /// The rule.
    pub rule: &'static Card,
    /// The limit, or the family of it.
    pub limit: &'static Limit,
    /// The part.
    pub part: Part,
    /// The value.
    pub value: Estimate,
    /// What it is held against: the limit as it stands in the profile used, or a row of the family.
    pub bound: Bound,
    /// How far the value is on the legal side, in the base unit; negative when broken.
    pub margin: f64,
    /// The same at the bad end of the band.
    pub assured: f64,
    /// The verdict.
    pub verdict: Verdict,
}

impl Reading {
    /// Holds a value against a limit with this value, in the base unit.
    #[must_use]
    pub fn new(rule: &'static Card, limit: &'static Limit, part: Part, value: Estimate, bound: f64) -> Self {
        Self::held(rule, limit, part, value, Bound::of(limit, bound))
    }

    /// Holds a value against a bound.
    #[must_use]
    pub fn held(rule: &'static Card, limit: &'static Limit, part: Part, value: Estimate, bound: Bound) -> Self {
        Self::marked(rule, limit, part, &value, &bound, Mark::of(rule, limit, &value, &bound))
    }

    #[inline]
    pub(super) fn marked(rule: &'static Card, limit: &'static Limit, part: Part, value: &Estimate, bound: &Bound, mark: Mark) -> Self {
        let Mark { margin, assured, verdict } = mark;
        Self { rule, limit, part, value: *value, bound: *bound, margin, assured, verdict }
    }

    /// The verdict as far as the piece is to blame: a row of law that is met is, though only recalled and so no pass.
    #[must_use]
    pub fn blame(&self) -> Verdict {
        let met = self.bound.row.is_some() && self.bound.known == Known::Memory && self.assured >= 0.0 && self.value.in_range;
        if met { Verdict::Pass } else { self.verdict }
    }

    /// How far the value is from losing a pass, in the base unit: the assured margin where the band counts, the margin elsewhere. Negative
    /// where it does not pass. What may never pass, for want of range or of a source, is not told apart here.
    #[must_use]
    pub fn slack(&self) -> f64 {
        let band_counts = self.limit.severity == Severity::Breach || self.rule.domain.is_strict();
        if band_counts { self.assured } else { self.margin }
    }

    /// The margin at the good end of the band.
    #[must_use]
    pub fn hoped(&self) -> f64 {
        let good = match self.bound.side {
            Side::AtLeast => self.value.band.high,
            Side::AtMost => self.value.band.low,
        };
        margin(self.bound.side, good, self.bound.value)
    }

    /// Whether the limit lies inside the band, so that a measurement would decide.
    #[must_use]
    pub fn is_uncertain(&self) -> bool {
        !self.value.in_range || (self.assured < 0.0 && self.hoped() >= 0.0 && self.value.half_width() > 0.0)
    }

    /// The limit's value in its own unit.
    #[must_use]
    pub fn bound_measure(&self) -> Measure {
        Measure::from_base(self.bound.value, self.bound.unit)
    }

    /// A difference of the quantity, as a margin is, in the limit's unit.
    #[must_use]
    pub fn difference(&self, base: f64) -> Measure {
        let unit = self.bound.unit;
        Measure::new(Measure::from_base(base, unit).value() - Measure::from_base(0.0, unit).value(), unit)
    }
}

impl Mark {
    /// Keeps the worse of two.
    #[inline]
    pub(super) fn worsen(self, worst: &mut Option<Self>) {
        match worst {
            Some(worst) if self.verdict < worst.verdict || (self.verdict == worst.verdict && self.assured >= worst.assured) => {}
            _ => *worst = Some(self),
        }
    }

    /// Holds a value against a bound.
    pub(super) fn of(rule: &Card, limit: &Limit, value: &Estimate, bound: &Bound) -> Self {
        Self::of_clear_pass(rule, value, bound).unwrap_or_else(|| Self::closely(rule, limit, value, bound))
    }

    /// What most values come to: they pass, by nothing or by more than rounding.
    #[inline(always)]
    pub(super) fn of_clear_pass(rule: &Card, value: &Estimate, bound: &Bound) -> Option<Self> {
        let (band, rounding) = (&value.band, bound.rounding());
        let (margin, assured) = match bound.side {
            Side::AtLeast => (band.value - bound.value, band.low - bound.value),
            Side::AtMost => (bound.value - band.value, bound.value - band.high),
        };
        let is_clear = |margin: f64| margin > rounding || margin == 0.0;
        (is_clear(assured) && is_clear(margin) && value.in_range).then(|| Self {
            margin,
            assured,
            verdict: bound.settles(rule, Verdict::Pass),
        })
    }

    /// The same of any value.
    #[inline(always)]
    pub(super) fn closely(rule: &Card, limit: &Limit, value: &Estimate, bound: &Bound) -> Self {
        let (bad, good) = match bound.side {
            Side::AtLeast => (value.band.low, value.band.high),
            Side::AtMost => (value.band.high, value.band.low),
        };
        let [margin, assured, hoped] = [value.band.value, bad, good].map(|value| margin(bound.side, value, bound.value));
        Self { margin, assured, verdict: bound.settles(rule, verdict(rule, limit, value, margin, assured, hoped)) }
    }
}

fn verdict(rule: &Card, limit: &Limit, value: &Estimate, margin: f64, assured: f64, hoped: f64) -> Verdict {
    let crosses = assured < 0.0 && hoped >= 0.0;
    let judged = match limit.severity {
        Severity::Breach if assured >= 0.0 => Verdict::Pass,
        Severity::Breach if hoped < 0.0 => Verdict::Fail,
        Severity::Breach => Verdict::Caution,
        _ if crosses && value.half_width() > 0.0 && rule.domain.is_strict() => Verdict::Caution,
        _ if margin >= 0.0 => Verdict::Pass,
        Severity::Warning => Verdict::Caution,
        Severity::Advice => Verdict::Note,
    };
    if value.in_range {
        return judged;
    }
    let beyond_doubt = margin < -4.0 * value.half_width();
    match judged {
        Verdict::Pass => Verdict::Caution,
        Verdict::Fail if !beyond_doubt => Verdict::Caution,
        other => other,
    }
}

#[cfg(test)]
#[allow(clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::assess::Evidence;
    use crate::engine::trial::{TooWet, wet};
    use crate::engine::{Domain, PartKind, Rule};
    use crate::units::Band;

    crate::rule! {
        /// Too heavy. A rule of this test.
        TooHeavy { id: "too-heavy", title: "too heavy", domain: Domain::Filling, part: PartKind::Layer }
        limits {
            HEAVY = Limit::at_most("heavy.max", Quantity::Density, 1300.0, Unit::KilogramPerCubicMeter).breach();
            RATHER_HEAVY = Limit::at_most("heavy.rather", Quantity::Density, 1300.0, Unit::KilogramPerCubicMeter);
        }
    }

    #[test]
    fn rounding_decides_nothing_at_limits_of_any_size() {
        let verdict = |value: f64| Reading::new(TooHeavy.card(), &HEAVY, Part::Layer(0), Estimate::declared(value), 1300.0).verdict;
        assert_eq!(verdict(1300.0 * (1.0 + 4.0 * f64::EPSILON)), Verdict::Pass);
        assert_eq!(verdict(1300.0 * (1.0 + 1e-12)), Verdict::Fail);
        let tiny = |value: f64| Reading::new(TooHeavy.card(), &HEAVY, Part::Layer(0), Estimate::declared(value), 1e-5).verdict;
        assert_eq!([tiny(1e-5 * (1.0 + 4.0 * f64::EPSILON)), tiny(1e-5 * (1.0 + 1e-12))], [Verdict::Pass, Verdict::Fail]);
    }

    #[test]
    fn slack_is_taken_where_the_verdict_is() {
        let slack = |limit: &'static Limit| {
            let estimate = Estimate::modelled(Band { value: 1200.0, low: 1150.0, high: 1250.0 });
            Reading::new(TooHeavy.card(), limit, Part::Layer(0), estimate, 1300.0).slack()
        };
        assert_eq!((slack(&HEAVY), slack(&RATHER_HEAVY)), (50.0, 100.0));
    }

    #[test]
    fn what_a_model_says_out_of_its_range_decides_only_far_beyond_the_limit() {
        let verdict = |value: f64, in_range: bool| {
            let estimate = Estimate { band: Band::normal(value, 0.01), evidence: Evidence::Modelled, in_range };
            Reading::new(TooWet.card(), wet(), Part::Layer(0), estimate, 0.2).verdict
        };
        let half_width = Estimate::modelled(Band::normal(0.2, 0.01)).half_width();
        assert_eq!([verdict(0.1, true), verdict(0.1, false)], [Verdict::Pass, Verdict::Caution]);
        assert_eq!([verdict(0.2 + 3.9 * half_width, true), verdict(0.2 + 3.9 * half_width, false)], [Verdict::Fail, Verdict::Caution]);
        assert_eq!(verdict(0.2 + 4.1 * half_width, false), Verdict::Fail);
    }
}
