//! Many pieces judged by the same rules and limits: only margins and verdicts are kept, and what a change does not reach is not judged again.

use super::ruleset::Listed;
use super::{Bound, Bounds, Card, Findings, Limit, Line, Mark, RuleSet, Sold, Verdict};
use crate::assess::{Assessed, Assessment, Changes, QuantitySet};
use smallvec::SmallVec;

/// A rule set with the limits of one piece, for judging its kind in numbers. It comes to the same verdicts as [`RuleSet::judge`], but keeps
/// no readings.
#[derive(Clone)]
pub struct Gauge {
    rules: Vec<Gauged>,
    limits: Vec<(&'static Card, &'static Limit)>,
    sold: Sold,
}

/// A rule with what its limits are for the piece, the place of the first, and all it looks at.
#[derive(Clone)]
struct Gauged {
    rule: Listed,
    bounds: SmallVec<[Bound; 4]>,
    first: usize,
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
        let mut gauge = Self { rules: Vec::new(), limits: Vec::new(), sold: bounds.sold.clone() };
        for (rule, own) in rules.with_bounds(bounds) {
            let (first, reads) = (gauge.limits.len(), rule.card.reads().collect());
            gauge.rules.push(Gauged { rule: *rule, bounds: SmallVec::from_slice(own), first, reads });
            gauge.limits.extend(rule.card.limits.iter().map(|limit| (rule.card, *limit)));
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
        let bound = self.rules.iter().find_map(|rule| rule.bounds.get(place.checked_sub(rule.first)?))?;
        Some(Line::new(card, limit, *bound))
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
        findings.marks.resize(self.limits.len(), None);
        unknown.resize(self.rules.len(), false);
        for (rule, unknown) in self.rules.iter().zip(unknown).filter(|(rule, _)| !judged || changes.reach(rule.reads)) {
            let Some(marks) = findings.marks.get_mut(rule.first..rule.first + rule.bounds.len()) else { continue };
            marks.fill(None);
            if rule.rule.only_compares {
                *unknown = rule.compare(assessment, marks);
                continue;
            }
            findings.clear();
            findings.first = rule.first;
            rule.rule.read(assessment, &rule.bounds, &self.sold, findings);
            *unknown = !findings.unknown.is_empty();
            // What a rule read by itself, not by comparing.
            for reading in &findings.readings {
                let place = rule.rule.card.limits.iter().position(|limit| std::ptr::eq(*limit, reading.limit));
                if let Some(worst) = place.and_then(|place| findings.marks.get_mut(rule.first + place)) {
                    Mark { margin: reading.margin, assured: reading.assured, verdict: reading.verdict }.worsen(worst);
                }
            }
        }
    }
}

impl Gauged {
    /// Holds each limit against its own quantity, on every part; whether any lacks.
    fn compare(&self, assessment: &Assessment, marks: &mut [Option<Mark>]) -> bool {
        let (card, mut lacks) = (self.rule.card, false);
        self.rule.each_part(assessment, |_, at| {
            for ((limit, bound), worst) in card.limits.iter().zip(&self.bounds).zip(&mut *marks) {
                match at.look(bound.quantity) {
                    Assessed::Known(value) => Mark::of(card, limit, value, bound).worsen(worst),
                    Assessed::Missing(_) => lacks = true,
                    Assessed::Absent => {}
                }
            }
        });
        lacks
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
    use crate::assess::{PartAssessment, Quantity};
    use crate::engine::{Domain, PartKind, Rule};
    use crate::piece::Piece;
    use crate::units::Unit;

    crate::rule! {
        /// Too much water. A rule of this test.
        TooWet { id: "too-wet", title: "too wet", domain: Domain::Filling, part: PartKind::Layer }
        limits { WET = Limit::at_most("wet.max", Quantity::Water, 20.0, Unit::Percent).breach(); }
    }

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
