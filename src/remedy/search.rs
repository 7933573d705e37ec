//! The smallest turn of one knob that mends a finding.
//!
//! Each knob is turned outward, the piece assessed and judged once a setting for all findings together. Between the last setting that falls
//! short of mending a finding and the first that mends it, whole steps of the scale are halved: what is found is the nearest step that a
//! bench can weigh, even where the value jumps.

use crate::assess::{Assessment, Part, QuantitySet, assess, reassess_into};
use crate::engine::{Bounds, Card, Effect, Findings, Reading, RuleSet, Side, Verdict};
use crate::piece::{Knob, Piece, Turn};

/// How many steps outward each direction of a knob is searched in, finer near where it stands.
const STEPS: u32 = 20;
/// How much of a step rounding may carry a setting beyond the end of its range.
const ROUNDING: f64 = 1e-6;

/// A turn of one knob that mends a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// The knob.
    pub knob: Knob,
    /// Where it stands, in the base unit.
    pub from: f64,
    /// Where it must be turned to, in the base unit; a step that a bench can weigh.
    pub to: f64,
    /// What gets worse by it.
    pub upsets: Vec<Upset>,
}

impl Remedy {
    /// How much the knob is turned, against where it stands; against a tenth of its range where it stands near nothing. A choice counts as
    /// half: less than leaving a thing out.
    #[must_use]
    pub fn change(&self, piece: &Piece) -> f64 {
        if self.knob.word(self.from).is_some() {
            return 0.5;
        }
        let (least, most) = self.knob.range(piece);
        (self.to - self.from).abs() / self.from.abs().max(0.1 * (most - least))
    }
}

/// A finding that a remedy makes worse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Upset {
    /// The rule.
    pub rule: &'static str,
    /// The part.
    pub part: Part,
    /// The verdict it would get; none where it could not be judged any more.
    pub verdict: Option<Verdict>,
}

impl Upset {
    /// How bad that is: what can no longer be judged counts as a caution.
    #[must_use]
    pub fn harm(&self) -> Verdict {
        self.verdict.unwrap_or(Verdict::Caution)
    }
}

/// For each target (what a rule finds on a part) every knob that mends it: first those that make nothing else a caution or a failure, and
/// among them the least relative change. None found is an honest answer: the range of every knob was searched, one knob at a time.
#[must_use]
pub fn remedies(
    piece: &Piece,
    rules: &RuleSet,
    bounds: &Bounds,
    findings: &Findings,
    targets: &[(&'static Card, Part)],
) -> Vec<Vec<Remedy>> {
    let goals: Vec<_> = targets.iter().map(|(rule, part)| Goal::of(rule, *part, findings)).collect();
    let mut found: Vec<Vec<Found>> = goals.iter().map(|_| Vec::new()).collect();
    let mut bench = Bench::new(piece, rules, bounds);
    for knob in Knob::all(piece) {
        let Some(from) = knob.get(piece) else { continue };
        for (target, to) in bench.mending(knob, from, &goals) {
            let upsets = bench.upsets(knob, to, findings);
            let remedy = Remedy { knob, from, to, upsets };
            let found = found.get_mut(target).into_iter();
            found.for_each(|found| found.push(Found { harm: harm(&remedy), change: remedy.change(piece), remedy: remedy.clone() }));
        }
    }
    let ranked = |mut found: Vec<Found>| {
        found.sort_by(|one, two| one.harm.cmp(&two.harm).then(one.change.total_cmp(&two.change)));
        found.into_iter().map(|found| found.remedy).collect()
    };
    found.into_iter().map(ranked).collect()
}

/// A remedy with what it is ranked by.
struct Found {
    harm: Verdict,
    change: f64,
    remedy: Remedy,
}

/// The worst it makes of anything else; a note is no harm.
fn harm(remedy: &Remedy) -> Verdict {
    remedy.upsets.iter().map(Upset::harm).max().filter(|worst| *worst > Verdict::Note).unwrap_or(Verdict::Pass)
}

/// What a remedy has to reach: that a finding vanishes. Of a caution or a failure a note may remain, of a note nothing.
#[derive(Debug, Clone, Copy)]
struct Goal {
    rule: &'static Card,
    part: Part,
    /// The worst verdict that may remain.
    allowed: Verdict,
    /// Which way the value has to go, where all broken limits agree.
    side: Option<Side>,
    /// What lacks already, and no turn of a knob brings.
    missing: QuantitySet,
}

impl Goal {
    /// None where there is nothing to mend.
    fn of(rule: &'static Card, part: Part, findings: &Findings) -> Option<Self> {
        let worst = findings.blame(rule.id, part).filter(|worst| *worst > Verdict::Pass)?;
        let allowed = if worst > Verdict::Note { Verdict::Note } else { Verdict::Pass };
        let mut sides = findings.of(rule.id, part).filter(|reading| reading.blame() > allowed).map(|reading| reading.bound.side);
        let side = sides.next().filter(|first| sides.all(|side| side == *first));
        Some(Self { rule, part, allowed, side, missing: findings.missing(rule.id, part) })
    }

    /// Whether a knob moves what is found, and turning it this way can push it to the side that is wanted.
    fn may_be_reached(&self, knob: Knob, up: bool) -> bool {
        let driver = self.rule.drivers.iter().find(|driver| driver.knob == knob.kind());
        driver.is_some_and(|driver| match (driver.effect, self.side) {
            (Effect::Either, _) | (_, None) => true,
            (Effect::Raises, Some(side)) => up == (side == Side::AtLeast),
            (Effect::Lowers, Some(side)) => up == (side == Side::AtMost),
        })
    }

    /// Whether it is reached: no worse verdict is left than is allowed, and nothing lacks that was there. A choice may also make the rule mean nothing, as
    /// another way of sale does; a number may not, or a filling would be changed until it is no longer known for what it is.
    fn is_reached(&self, findings: &Findings, choice: bool) -> bool {
        let unknown = !findings.missing(self.rule.id, self.part).is_within(self.missing);
        let mut readings = self.readings(findings).peekable();
        !unknown && (choice || readings.peek().is_some()) && readings.all(|reading| reading.blame() <= self.allowed)
    }

    fn readings<'a>(&self, findings: &'a Findings) -> impl Iterator<Item = &'a Reading> + use<'a> {
        findings.of(self.rule.id, self.part)
    }
}

/// Where settings are tried.
struct Bench<'a> {
    piece: &'a Piece,
    rules: &'a RuleSet,
    bounds: &'a Bounds,
    /// As the piece was described.
    described: Assessment,
    /// The piece with one knob turned, and which.
    turned: (Piece, Option<Knob>),
    assessment: Assessment,
    findings: Findings,
}

impl<'a> Bench<'a> {
    fn new(piece: &'a Piece, rules: &'a RuleSet, bounds: &'a Bounds) -> Self {
        let (described, turned) = (assess(piece), (piece.clone(), None));
        Self { piece, rules, bounds, assessment: described.clone(), described, turned, findings: Findings::default() }
    }

    /// The goals that a knob reaches, each with the nearest setting that does.
    fn mending(&mut self, knob: Knob, from: f64, goals: &[Option<Goal>]) -> Vec<(usize, f64)> {
        let (least, most) = knob.range(self.piece);
        let open = |up: bool| {
            let driven = move |(_, goal): &(usize, Goal)| goal.may_be_reached(knob, up);
            goals.iter().enumerate().filter_map(|(target, goal)| Some((target, (*goal)?))).filter(driven).collect::<Vec<_>>()
        };
        match knob.turns(self.piece) {
            Turn::Whole => {
                // A whole number or a word is tried wherever the knob matters; up and down mean nothing to a choice.
                let mut either = open(true);
                either.extend(open(false).into_iter().filter(|(target, _)| !open(true).iter().any(|(other, _)| other == target)));
                self.whole(knob, from, (least, most), either)
            }
            Turn::Continuous { step } => {
                let mut reached = self.outward(knob, from, most, step, open(true));
                for (target, to) in self.outward(knob, from, least, step, open(false)) {
                    match reached.iter_mut().find(|(other, _)| *other == target) {
                        Some((_, up)) if (*up - from).abs() <= (to - from).abs() => {}
                        Some((_, up)) => *up = to,
                        None => reached.push((target, to)),
                    }
                }
                reached
            }
        }
    }

    /// Tries whole numbers, nearest first.
    fn whole(&mut self, knob: Knob, from: f64, (least, most): (f64, f64), mut open: Vec<(usize, Goal)>) -> Vec<(usize, f64)> {
        let mut reached = Vec::new();
        for to in whole_numbers(from, least, most) {
            if open.is_empty() || !self.judge(knob, to, &open) {
                continue;
            }
            open.retain(|(target, goal)| {
                let there = goal.is_reached(&self.findings, true);
                reached.extend(there.then_some((*target, to)));
                !there
            });
        }
        reached
    }

    /// Turns a knob from where it stands toward one end of its range, and closes in on every goal where it is first reached.
    fn outward(&mut self, knob: Knob, from: f64, end: f64, step: f64, mut open: Vec<(usize, Goal)>) -> Vec<(usize, f64)> {
        let mut brackets = Vec::new();
        let mut before = from;
        for count in 1..=STEPS {
            if open.is_empty() {
                break;
            }
            let to = from + (end - from) * (f64::from(count) / f64::from(STEPS)).powi(3);
            if self.judge(knob, to, &open) {
                open.retain(|(target, goal)| {
                    let there = goal.is_reached(&self.findings, false);
                    brackets.extend(there.then_some((*target, *goal, before, to)));
                    !there
                });
            }
            before = to;
        }
        let ends = (from, end);
        let close_in = |(target, goal, before, to)| Some((target, self.close_in(knob, &goal, (before, to), ends, step)?));
        brackets.into_iter().filter_map(close_in).collect()
    }

    /// The nearest step of the scale that reaches a goal, between a setting that falls short and one that does not.
    fn close_in(&mut self, knob: Knob, goal: &Goal, (before, reached): (f64, f64), (from, end): (f64, f64), step: f64) -> Option<f64> {
        let mut reaches = |steps: f64| self.judge(knob, steps * step, &[(0, *goal)]) && goal.is_reached(&self.findings, false);
        let way = (end - from).signum();
        let mut short = way * (way * before / step).floor();
        let mut enough = way * (way * reached / step).ceil();
        if way * (enough * step - end) > ROUNDING * step {
            enough -= way;
        }
        if way * (enough * step - from) <= 0.0 || !reaches(enough) {
            return None;
        }
        while (enough - short).abs() > 1.5 {
            let middle = f64::midpoint(short, enough).round();
            *(if reaches(middle) { &mut enough } else { &mut short }) = middle;
        }
        Some(enough * step)
    }

    /// Judges the piece with a knob turned by the rules of these goals; false where that makes no piece.
    fn judge(&mut self, knob: Knob, to: f64, open: &[(usize, Goal)]) -> bool {
        self.judge_by(knob, to, |card| open.iter().any(|(_, goal)| std::ptr::eq(goal.rule, card)))
    }

    /// Judges the piece with a knob turned; only what depends on the knob is assessed again. False where that makes no piece.
    fn judge_by(&mut self, knob: Knob, to: f64, wanted: impl Fn(&Card) -> bool) -> bool {
        let (piece, turned) = &mut self.turned;
        if *turned != Some(knob) || knob.builds_on() {
            piece.clone_from(self.piece);
            self.assessment.clone_from(&self.described);
            *turned = Some(knob);
        }
        if knob.turn(piece, to).is_none() {
            return false;
        }
        reassess_into(piece, &[knob], &mut self.assessment);
        self.rules.judge_where(wanted, &self.assessment, self.bounds, &mut self.findings);
        true
    }

    /// What gets worse when a knob is turned.
    fn upsets(&mut self, knob: Knob, to: f64, before: &Findings) -> Vec<Upset> {
        let mut upsets: Vec<Upset> = Vec::new();
        if !self.judge_by(knob, to, |_| true) {
            return upsets;
        }
        for reading in &self.findings.readings {
            let worse = before.verdict(reading.rule.id, reading.part).is_none_or(|verdict| reading.verdict > verdict);
            if !worse || reading.verdict == Verdict::Pass {
                continue;
            }
            match upsets.iter_mut().find(|upset| upset.rule == reading.rule.id && upset.part == reading.part) {
                Some(upset) => upset.verdict = upset.verdict.max(Some(reading.verdict)),
                None => upsets.push(Upset { rule: reading.rule.id, part: reading.part, verdict: Some(reading.verdict) }),
            }
        }
        for unknown in &self.findings.unknown {
            let (rule, part) = (unknown.rule.id, unknown.part);
            let was = before.unknown.iter().any(|before| before.rule.id == rule && before.part == part);
            if !was && !upsets.iter().any(|upset| upset.rule == rule && upset.part == part) {
                upsets.push(Upset { rule, part, verdict: None });
            }
        }
        upsets
    }
}

/// The whole numbers of a range, nearest first, without the one it stands at.
fn whole_numbers(from: f64, least: f64, most: f64) -> Vec<f64> {
    let mut numbers: Vec<f64> = (0..).map(|count| least + f64::from(count)).take_while(|number| *number <= most).collect();
    numbers.retain(|number| (number - from).abs() > 0.5);
    numbers.sort_by(|one, two| (one - from).abs().total_cmp(&(two - from).abs()));
    numbers
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::assess::{Estimate, Quantity};
    use crate::engine::{Domain, Limit, PartKind, Rule, lowers, raises, searched};
    use crate::piece::KnobKind;
    use crate::units::Unit;

    crate::rule! {
        /// Headroom outside a window. A rule of this test.
        OutsideWindow {
            id: "outside-window",
            title: "outside the window",
            domain: Domain::Closing,
            part: PartKind::Whole,
            drivers: &[raises(KnobKind::FillDepth), lowers(KnobKind::Casts), searched(KnobKind::WallThickness)],
        }
        limits {
            LEAST = Limit::at_least("window.min", Quantity::Headroom, 1.0, Unit::Millimeter);
            MOST = Limit::at_most("window.max", Quantity::Headroom, 3.0, Unit::Millimeter);
            BEST = Limit::at_most("window.best", Quantity::Headroom, 2.0, Unit::Millimeter).advice();
        }
    }

    #[test]
    fn a_goal_lies_on_the_side_that_all_broken_limits_want() {
        let rule = OutsideWindow.card();
        let goal_of = |broken: &[(&'static Limit, f64)]| {
            let mut findings = Findings::default();
            for (limit, metres) in broken {
                let value = Estimate::declared(*metres);
                findings.readings.push(Reading::new(rule, limit, Part::Whole, value, limit.careful.base()));
            }
            Goal::of(rule, Part::Whole, &findings).unwrap()
        };
        let (scant, ample, both) =
            (goal_of(&[(&LEAST, 0.0)]), goal_of(&[(&MOST, 0.004), (&MOST, 0.005)]), goal_of(&[(&LEAST, 0.0), (&MOST, 0.004)]));
        assert_eq!([scant, ample, both].map(|goal| goal.side), [Some(Side::AtLeast), Some(Side::AtMost), None]);
        // A note is no reason to go the other way, unless it is all there is.
        let beside_a_note = goal_of(&[(&LEAST, 0.0), (&BEST, 0.0025)]);
        assert_eq!((beside_a_note.side, goal_of(&[(&BEST, 0.0025)]).side), (Some(Side::AtLeast), Some(Side::AtMost)));
        // Up, down.
        let ways = |goal: Goal, knob: Knob| [true, false].map(|up| goal.may_be_reached(knob, up));
        let (raising, lowering, either) = (Knob::FillDepth(0), Knob::Casts, Knob::WallThickness);
        assert_eq!([ways(scant, raising), ways(scant, lowering)], [[true, false], [false, true]]);
        assert_eq!([ways(ample, raising), ways(ample, lowering)], [[false, true], [true, false]]);
        assert_eq!([ways(both, raising), ways(scant, either)], [[true, true], [true, true]]);
        assert_eq!(ways(scant, Knob::PouringTemperature(0)), [false, false], "no driver names it");
    }
}
