//! Many pieces judged by the same rules and limits: only margins and verdicts are kept, and what a change does not reach is not judged again.

use super::listed::{Glance, Listed};
use super::{Bounds, Card, Findings, Limit, Line, Look, Mark, RuleSet, SetLimit, Sold, Verdict};
use crate::assess::{Assessment, Changes, QuantitySet};
use std::ops::Range;

/// A rule set with the limits of one piece, for judging its kind in numbers. It comes to the same verdicts as [`RuleSet::judge`], but keeps
/// no readings.
#[derive(Clone)]
pub struct Gauge {
    rules: Vec<Gauged>,
    limits: Vec<(&'static Card, &'static Limit)>,
    /// The same as they are set for the piece.
    set: Vec<SetLimit>,
    sold: Sold,
}

/// A rule with the places of its limits, and all it looks at.
#[derive(Clone)]
struct Gauged {
    rule: Listed,
    limits: Range<usize>,
    reads: QuantitySet,
}

/// What came of judging one piece, in a buffer that is used again.
#[derive(Debug, Clone, Default)]
pub struct Tally {
    /// Rule by rule, whether it could not judge some part.
    unknown: Vec<bool>,
    /// The marks.
    findings: Findings,
}

impl Gauge {
    /// Lays out the rules of a set, with the limits of a piece.
    #[must_use]
    pub fn new(rules: &RuleSet, bounds: &Bounds) -> Self {
        let mut gauge = Self { rules: Vec::new(), limits: Vec::new(), set: Vec::new(), sold: bounds.sold.clone() };
        for (rule, own) in rules.with_bounds(bounds) {
            let first = gauge.set.len();
            gauge.limits.extend(own.iter().map(|set| (rule.card, set.limit)));
            gauge.set.extend(own.iter().zip(first..).map(|(set, place)| SetLimit { place, ..*set }));
            gauge.rules.push(Gauged { rule: *rule, limits: first..gauge.set.len(), reads: rule.card.reads().collect() });
        }
        gauge
    }

    /// The place of a limit among the marks of a [`Tally`], by its key.
    #[must_use]
    pub fn place(&self, key: &str) -> Option<usize> {
        self.limits.iter().position(|(_, limit)| limit.key == key)
    }

    /// The limits by their place, each with the card of its rule.
    #[must_use]
    pub fn limits(&self) -> &[(&'static Card, &'static Limit)] {
        &self.limits
    }

    /// The limit at a place, to hold plain numbers against it.
    #[must_use]
    pub fn line(&self, place: usize) -> Option<Line> {
        let (card, limit) = self.limits.get(place)?;
        Some(Line::new(card, limit, self.set.get(place)?.bound))
    }

    /// Judges an assessment; the tally's marks replace what it held.
    pub fn judge(&self, assessment: &Assessment, tally: &mut Tally) {
        self.judge_again(assessment, &Changes::EVERYTHING, tally);
    }

    /// Judges an assessment again after some of it changed since it was judged into this tally: only the rules that read what changed.
    /// It comes to the same as [`Self::judge`], as long as the card of each rule names all that it reads.
    pub fn judge_again(&self, assessment: &Assessment, changes: &Changes, tally: &mut Tally) {
        let Tally { unknown, findings } = tally;
        let judged = (findings.marks.len(), unknown.len()) == (self.limits.len(), self.rules.len());
        let all = !judged || *changes == Changes::EVERYTHING;
        findings.clear();
        if all {
            findings.marks.clear();
            findings.marks.resize(self.limits.len(), None);
            unknown.resize(self.rules.len(), false);
        }
        let (mut look, glance) = (Look::new(assessment, &self.sold), Glance::at(assessment));
        for (rule, unknown) in self.rules.iter().zip(unknown).filter(|(rule, _)| all || changes.reach(rule.reads)) {
            let limits = self.set.get(rule.limits.clone()).unwrap_or_default();
            if !all {
                findings.marks.get_mut(rule.limits.clone()).into_iter().for_each(|marks| marks.fill(None));
            }
            rule.rule.read(&mut look, limits, &glance, findings);
            *unknown = !findings.unknown.is_empty();
            findings.unknown.clear();
            if !findings.readings.is_empty() {
                mark_readings(findings, limits);
            }
        }
    }
}

/// Marks what a rule read by itself, not by comparing.
#[cold]
fn mark_readings(findings: &mut Findings, limits: &[SetLimit]) {
    for reading in findings.readings.drain(..) {
        let set = limits.iter().find(|set| std::ptr::eq(set.limit, reading.limit));
        if let Some(worst) = set.and_then(|set| findings.marks.get_mut(set.place)) {
            Mark { margin: reading.margin, assured: reading.assured, verdict: reading.verdict }.worsen(worst);
        }
    }
}

impl Tally {
    /// How each limit is met, by its place; none where nothing was read against it.
    #[must_use]
    pub fn marks(&self) -> &[Option<Mark>] {
        &self.findings.marks
    }

    /// The worst verdict; a pass where nothing was read.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.marks().iter().flatten().map(|mark| mark.verdict).max().unwrap_or(Verdict::Pass)
    }

    /// Whether some rule could not judge some part.
    #[must_use]
    pub fn is_unknown(&self) -> bool {
        self.unknown.contains(&true)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::assess::{Assessed, PartAssessment, Quantity};
    use crate::engine::Rule;
    use crate::engine::trial::TooWet;
    use crate::piece::Piece;

    #[test]
    fn the_worst_layer_counts_and_what_lacks_is_told() {
        let rules = RuleSet::new([&TooWet as &'static dyn Rule]);
        let gauge = Gauge::new(&rules, &rules.bounds(&Piece::named("trial")).unwrap());
        let mut tally = Tally::default();
        let mut judged = |water: &[Assessed]| {
            let layer = |water: &Assessed| {
                let mut layer = PartAssessment::NOTHING;
                layer.put(Quantity::Water, *water);
                layer
            };
            gauge.judge(&Assessment { layers: water.iter().map(layer).collect(), ..Assessment::default() }, &mut tally);
            (tally.verdict(), tally.is_unknown(), tally.marks().first().copied().flatten().map(|mark| mark.margin > 0.0))
        };
        let (dry, wet, lacking) = (Assessed::declared(0.1), Assessed::declared(0.3), Assessed::lacking(Quantity::Composition));
        assert_eq!(judged(&[dry]), (Verdict::Pass, false, Some(true)));
        assert_eq!(judged(&[dry, wet, dry]), (Verdict::Fail, false, Some(false)));
        assert_eq!(judged(&[dry, lacking]), (Verdict::Pass, true, Some(true)));
        assert_eq!(judged(&[]), (Verdict::Pass, false, None));
    }
}
