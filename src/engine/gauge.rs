//! Many pieces judged by the same rules and limits: what is compared is laid out once, and only margins and verdicts are kept.

use super::{Bounds, Card, Findings, Limit, PartKind, Reading, Rule, RuleSet, Side, Sold, Verdict, ruleset};
use crate::assess::{Assessed, Assessment, Estimate, Part, PartAssessment, Quantity};
use crate::piece::FillingKind;
use smallvec::SmallVec;

/// A rule set with the limits of one piece, laid out for judging its kind in numbers. It comes to the same verdicts as
/// [`RuleSet::judge`], but keeps no readings.
#[derive(Clone)]
pub struct Gauge {
    limits: Vec<(&'static Card, &'static Limit)>,
    whole: Vec<Line>,
    shell: Vec<Line>,
    cap: Vec<Line>,
    layer: Vec<Line>,
    top_layer: Vec<Line>,
    /// Rules that do more than compare, each with the place of its first limit and the values of all.
    others: Vec<(&'static dyn Rule, usize, SmallVec<[f64; 4]>)>,
    /// Where the piece is sold.
    sold: Sold,
}

/// What came of judging one piece, in a buffer that is used again.
#[derive(Debug, Clone, Default)]
pub struct Tally {
    marks: Vec<Option<Mark>>,
    unknown: bool,
    findings: Findings,
}

/// How a limit is met on the part that meets it worst.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// How far the value is on the legal side, in the base unit; negative when broken.
    pub margin: f64,
    /// The same at the bad end of the band.
    pub assured: f64,
    /// The verdict.
    pub verdict: Verdict,
}

/// One quantity held against one limit.
#[derive(Clone, Copy)]
struct Line {
    quantity: Quantity,
    /// The place of the limit.
    place: usize,
    bound: f64,
    /// Margins above this are beyond rounding.
    rounding: f64,
    /// One where the value must reach the bound, minus one where it must not exceed it.
    sign: f64,
    /// What a clear pass and a clear miss come to.
    passed: Verdict,
    missed: Verdict,
    /// A bit for each kind of filling it applies to.
    kinds: u32,
    card: &'static Card,
    limit: &'static Limit,
}

impl Gauge {
    /// Lays out the rules of a set, with the limits of a piece.
    #[must_use]
    pub fn new(rules: &RuleSet, bounds: &Bounds) -> Self {
        let [whole, shell, cap, layer, top_layer] = [const { Vec::new() }; 5];
        let mut gauge = Self { limits: Vec::new(), whole, shell, cap, layer, top_layer, others: Vec::new(), sold: bounds.sold.clone() };
        for (rule, card, values) in rules.with_bounds(bounds) {
            let first = gauge.limits.len();
            gauge.limits.extend(card.limits.iter().map(|limit| (card, *limit)));
            if !rule.only_compares() {
                gauge.others.push((rule, first, SmallVec::from_slice(values)));
                continue;
            }
            for (place, (limit, bound)) in card.limits.iter().zip(values).enumerate() {
                let line = Line::new(card, limit, first + place, *bound);
                match card.part {
                    PartKind::Whole => gauge.whole.push(line),
                    PartKind::Shell => gauge.shell.push(line),
                    PartKind::Cap => gauge.cap.push(line),
                    PartKind::Chocolate => {
                        gauge.shell.push(line);
                        gauge.cap.push(line);
                    }
                    PartKind::Layer => gauge.layer.push(line),
                    PartKind::TopLayer => gauge.top_layer.push(line),
                    PartKind::Every => {
                        for lines in [&mut gauge.shell, &mut gauge.layer, &mut gauge.cap] {
                            lines.push(line);
                        }
                    }
                }
            }
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

    /// Judges an assessment; the tally's marks replace what it held.
    pub fn judge(&self, assessment: &Assessment, tally: &mut Tally) {
        tally.marks.clear();
        tally.marks.resize(self.limits.len(), None);
        tally.unknown = false;
        hold(&self.whole, Part::Whole, &assessment.whole, tally);
        hold(&self.shell, Part::Shell, &assessment.shell, tally);
        for (index, layer) in assessment.layers.iter().enumerate() {
            hold(&self.layer, Part::Layer(index), layer, tally);
            if layer.under_cap {
                hold(&self.top_layer, Part::Layer(index), layer, tally);
            }
        }
        hold(&self.cap, Part::Cap, &assessment.cap, tally);
        for (rule, first, bounds) in &self.others {
            tally.read(*rule, *first, assessment, bounds, &self.sold);
        }
    }

    /// Holds a column of plain numbers, in the base unit and taken as exact, against one limit, whatever its rule would ask of the part
    /// besides; nothing where there is no limit at this place. Margins and verdicts go to the columns given, as far as they reach.
    pub fn hold(&self, place: usize, numbers: &[f64], margins: &mut [f64], verdicts: &mut [Verdict]) {
        let Some((card, limit)) = self.limits.get(place) else { return };
        let line = self.lines().find(|line| line.place == place).copied();
        let line = line.unwrap_or_else(|| Line::new(card, limit, place, self.bound(place).unwrap_or(limit.careful.base())));
        for ((number, margin), verdict) in numbers.iter().zip(margins).zip(verdicts) {
            let found = line.sign * (number - line.bound);
            (*margin, *verdict) = if found.abs() > line.rounding {
                (found, if found > 0.0 { line.passed } else { line.missed })
            } else {
                let mark = line.read(Part::Whole, &Estimate::declared(*number));
                (mark.margin, mark.verdict)
            };
        }
    }

    fn lines(&self) -> impl Iterator<Item = &Line> {
        [&self.whole, &self.shell, &self.cap, &self.layer, &self.top_layer].into_iter().flatten()
    }

    fn bound(&self, place: usize) -> Option<f64> {
        self.others.iter().find_map(|(_, first, bounds)| bounds.get(place.checked_sub(*first)?).copied())
    }
}

/// Holds a part against every line that looks at such parts.
#[inline(always)]
fn hold(lines: &[Line], part: Part, at: &PartAssessment, tally: &mut Tally) {
    let kind = kind_bit(at.kind);
    for line in lines {
        if line.kinds & kind == 0 {
            continue;
        }
        match at.look(line.quantity) {
            Assessed::Known(value) => {
                if let Some(slot) = tally.marks.get_mut(line.place) {
                    worsen(slot, line.mark(part, value));
                }
            }
            Assessed::Missing(_) => tally.unknown = true,
            Assessed::Absent => {}
        }
    }
}

/// A bit for each kind of filling, and one for none.
fn kind_bit(kind: Option<FillingKind>) -> u32 {
    kind.map_or(1 << 31, |kind| 1 << kind as u32)
}

/// Keeps the worse of two marks.
#[inline(always)]
fn worsen(slot: &mut Option<Mark>, mark: Mark) {
    match slot {
        Some(worst) if mark.verdict < worst.verdict || (mark.verdict == worst.verdict && mark.assured >= worst.assured) => {}
        _ => *slot = Some(mark),
    }
}

impl Line {
    fn new(card: &'static Card, limit: &'static Limit, place: usize, bound: f64) -> Self {
        // The verdict of a value well on either side, from the one place where verdicts are made.
        let clear = |margin: f64| Reading::clear_verdict(card, limit, margin);
        Self {
            quantity: limit.quantity,
            place,
            bound,
            rounding: 16.0 * f64::EPSILON * bound.abs(),
            sign: if limit.side == Side::AtLeast { 1.0 } else { -1.0 },
            passed: clear(1.0),
            missed: clear(-1.0),
            kinds: if card.kinds.is_empty() { u32::MAX } else { card.kinds.iter().map(|kind| kind_bit(Some(*kind))).sum() },
            card,
            limit,
        }
    }

    /// The same margins and verdict as [`Reading::new`]. Where the whole band lies on one side of the limit and beyond rounding, the verdict is
    /// known beforehand; a difference of more than sixteen units in the last place of the bound is more than eight of the value's.
    #[inline(always)]
    fn mark(&self, part: Part, value: &Estimate) -> Mark {
        let from_bound = |value: f64| self.sign * (value - self.bound);
        let (margin, low, high) = (from_bound(value.band.value), from_bound(value.band.low), from_bound(value.band.high));
        let beyond = |sign: f64| [margin, low, high].iter().all(|margin| sign * margin > self.rounding);
        let assured = if self.sign > 0.0 { low } else { high };
        if value.in_range && beyond(1.0) {
            Mark { margin, assured, verdict: self.passed }
        } else if value.in_range && beyond(-1.0) {
            Mark { margin, assured, verdict: self.missed }
        } else {
            self.read(part, value)
        }
    }

    #[cold]
    fn read(&self, part: Part, value: &Estimate) -> Mark {
        Mark::of(&Reading::new(self.card, self.limit, part, *value, self.bound))
    }
}

impl Mark {
    fn of(reading: &Reading) -> Self {
        Self { margin: reading.margin, assured: reading.assured, verdict: reading.verdict }
    }
}

impl Tally {
    /// How each limit is met, by its place; none where nothing was read against it.
    #[must_use]
    pub fn marks(&self) -> &[Option<Mark>] {
        &self.marks
    }

    /// The worst verdict; a pass where nothing was read.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.marks.iter().flatten().map(|mark| mark.verdict).max().unwrap_or(Verdict::Pass)
    }

    /// Whether some rule could not judge some part.
    #[must_use]
    pub fn is_unknown(&self) -> bool {
        self.unknown
    }

    fn read(&mut self, rule: &dyn Rule, first: usize, assessment: &Assessment, bounds: &[f64], sold: &Sold) {
        self.findings.clear();
        let card = rule.card();
        ruleset::read(rule, card, assessment, bounds, sold, &mut self.findings);
        self.unknown |= !self.findings.unknown.is_empty();
        let limits = card.limits;
        let Some(marks) = self.marks.get_mut(first..first + limits.len()) else { return };
        for reading in &self.findings.readings {
            let place = limits.iter().position(|limit| std::ptr::eq(*limit, reading.limit));
            if let Some(slot) = place.and_then(|place| marks.get_mut(place)) {
                worsen(slot, Mark::of(reading));
            }
        }
    }
}

impl Reading {
    /// The verdict of a value inside its range, all of whose band lies on the legal side of a limit, or all of it on the other.
    fn clear_verdict(card: &'static Card, limit: &'static Limit, margin: f64) -> Verdict {
        let value = match limit.side {
            Side::AtLeast => margin,
            Side::AtMost => -margin,
        };
        Self::new(card, limit, Part::Whole, Estimate::declared(value), 0.0).verdict
    }
}
