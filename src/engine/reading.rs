//! A value held against a limit, and the verdict that follows by construction.

use super::{Card, Limit, Severity, Side};
use crate::assess::{Estimate, Part};
use crate::matter::Known;
use crate::units::{Measure, choices};

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

/// A value held against a limit.
#[derive(Debug, Clone, Copy)]
pub struct Reading {
    /// The rule.
    pub rule: &'static Card,
    /// The limit.
    pub limit: &'static Limit,
    /// The part.
    pub part: Part,
    /// The value.
    pub value: Estimate,
    /// The limit's value in the profile used, in the base unit.
    pub bound: f64,
    /// How far the value is on the legal side, in the base unit; negative when broken.
    pub margin: f64,
    /// The same at the bad end of the band.
    pub assured: f64,
    /// The verdict.
    pub verdict: Verdict,
}

impl Reading {
    /// Holds a value against a bound.
    #[must_use]
    pub fn new(rule: &'static Card, limit: &'static Limit, part: Part, value: Estimate, bound: f64) -> Self {
        let (bad, good) = match limit.side {
            Side::AtLeast => (value.band.low, value.band.high),
            Side::AtMost => (value.band.high, value.band.low),
        };
        let margin = limit.margin(value.value(), bound);
        let assured = limit.margin(bad, bound);
        let hoped = limit.margin(good, bound);
        let verdict = verdict(rule, limit, &value, margin, assured, hoped);
        Self { rule, limit, part, value, bound, margin, assured, verdict }
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
        let good = match self.limit.side {
            Side::AtLeast => self.value.band.high,
            Side::AtMost => self.value.band.low,
        };
        self.limit.margin(good, self.bound)
    }

    /// Whether the limit lies inside the band, so that a measurement would decide.
    #[must_use]
    pub fn is_uncertain(&self) -> bool {
        !self.value.in_range || (self.assured < 0.0 && self.hoped() >= 0.0 && self.value.half_width() > 0.0)
    }

    /// The limit's value in its own unit.
    #[must_use]
    pub fn bound_measure(&self) -> Measure {
        Measure::from_base(self.bound, self.limit.careful.unit())
    }

    /// A difference of the quantity, as a margin is, in the limit's unit.
    #[must_use]
    pub fn difference(&self, base: f64) -> Measure {
        let unit = self.limit.careful.unit();
        Measure::new(Measure::from_base(base, unit).value() - Measure::from_base(0.0, unit).value(), unit)
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
    let beyond_doubt = margin < -4.0 * value.half_width();
    match judged {
        Verdict::Pass if !value.in_range => Verdict::Caution,
        Verdict::Fail if !value.in_range && !beyond_doubt => Verdict::Caution,
        Verdict::Pass | Verdict::Fail if rule.domain.is_law_or_safety() && limit.source.known == Known::Memory => Verdict::Caution,
        other => other,
    }
}
