//! The smallest turn of one knob that mends a finding.

use crate::assess::{Assessment, Part, assess_into};
use crate::engine::{Bounds, Card, Effect, Findings, Reading, RuleSet, Side, Verdict};
use crate::piece::{Knob, Piece, Turn};
use roots::{SimpleConvergency, find_root_brent};

/// How many steps outward each direction of a knob is searched in, finer near where it stands.
const STEPS: u32 = 24;
/// How many steps of the scale beyond the root are tried, should rounding have undone the cure.
const ROUNDINGS: u32 = 4;

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

/// A finding that a remedy makes worse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Upset {
    /// The rule.
    pub rule: &'static str,
    /// The part.
    pub part: Part,
    /// The verdict it would get.
    pub verdict: Verdict,
}

/// Every knob that mends what a rule finds on a part: first those that make nothing else a caution or a failure, and among them the least
/// relative change. None found is an honest answer: the range of every knob was searched, one knob at a time.
#[must_use]
pub fn remedies(piece: &Piece, rules: &RuleSet, bounds: &Bounds, findings: &Findings, rule: &'static Card, part: Part) -> Vec<Remedy> {
    let Some(goal) = Goal::of(rule, part, findings) else { return Vec::new() };
    let mut bench = Bench { rules, bounds, goal, assessment: Assessment::default(), findings: Findings::default() };
    let mut found: Vec<((Verdict, f64), Remedy)> = Knob::all(piece)
        .filter_map(|knob| {
            let driver = rule.drivers.iter().find(|driver| driver.knob == knob.kind())?;
            let from = knob.get(piece)?;
            let to = bench.solve(piece, knob, from, driver.effect)?;
            let upsets = bench.upsets(&knob.set(piece, to)?, findings);
            let harm = upsets.iter().map(|upset| upset.verdict).max().filter(|worst| *worst > Verdict::Note).unwrap_or(Verdict::Pass);
            Some(((harm, relative_change(piece, knob, from, to)), Remedy { knob, from, to, upsets }))
        })
        .collect();
    found.sort_by(|((one_harm, one), _), ((two_harm, two), _)| one_harm.cmp(two_harm).then(one.total_cmp(two)));
    found.into_iter().map(|(_, remedy)| remedy).collect()
}

/// How much a knob is turned, against where it stands; against a tenth of its range where it stands near nothing. A choice counts as
/// half: less than leaving a thing out.
fn relative_change(piece: &Piece, knob: Knob, from: f64, to: f64) -> f64 {
    if knob.word(from).is_some() {
        return 0.5;
    }
    let (least, most) = knob.range(piece);
    (to - from).abs() / from.abs().max(0.1 * (most - least))
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
}

impl Goal {
    /// None where there is nothing to mend.
    fn of(rule: &'static Card, part: Part, findings: &Findings) -> Option<Self> {
        let worst = findings.verdict(rule.id, part).filter(|worst| *worst > Verdict::Pass)?;
        let allowed = if worst > Verdict::Note { Verdict::Note } else { Verdict::Pass };
        let mut sides = findings.of(rule.id, part).filter(|reading| reading.verdict > allowed).map(|reading| reading.limit.side);
        let side = sides.next().filter(|first| sides.all(|side| side == *first));
        Some(Self { rule, part, allowed, side })
    }

    /// How far a reading is from what is allowed, as a share of its limit: above zero where it is not there yet.
    fn shortfall(&self, reading: &Reading) -> f64 {
        let scale = if reading.bound.abs() > 0.0 { reading.bound.abs() } else { 1.0 };
        let short = -reading.to_mend() / scale;
        if reading.verdict <= self.allowed {
            // A note that may remain asks for nothing.
            if short > 0.0 { -1.0 } else { short }
        } else if reading.value.in_range {
            short.max(f64::EPSILON)
        } else {
            1.0
        }
    }

    /// Whether turning a knob of this effect up (or down) can push the value to the side that is wanted.
    fn may_be_reached(&self, effect: Effect, up: bool) -> bool {
        match (effect, self.side) {
            (Effect::Either, _) | (_, None) => true,
            (Effect::Raises, Some(side)) => up == (side == Side::AtLeast),
            (Effect::Lowers, Some(side)) => up == (side == Side::AtMost),
        }
    }
}

/// Where settings are tried.
struct Bench<'a> {
    rules: &'a RuleSet,
    bounds: &'a Bounds,
    goal: Goal,
    assessment: Assessment,
    findings: Findings,
}

impl Bench<'_> {
    /// The nearest setting that mends the finding, on a step of the scale.
    fn solve(&mut self, piece: &Piece, knob: Knob, from: f64, effect: Effect) -> Option<f64> {
        let (least, most) = knob.range(piece);
        match knob.turns(piece) {
            Turn::Whole => whole_numbers(from, least, most).into_iter().find(|to| self.mends(piece, knob, *to)),
            Turn::Continuous { step } => {
                let goal = self.goal;
                let ends = [most, least].into_iter().filter(|end| goal.may_be_reached(effect, *end > from));
                let found: Vec<_> = ends.filter_map(|end| self.toward(piece, knob, from, end, step)).collect();
                found.into_iter().min_by(|one, two| (one - from).abs().total_cmp(&(two - from).abs()))
            }
        }
    }

    /// The nearest setting between where the knob stands and one end of its range.
    fn toward(&mut self, piece: &Piece, knob: Knob, from: f64, end: f64, step: f64) -> Option<f64> {
        let outward = |count: u32| from + (end - from) * (f64::from(count) / f64::from(STEPS)).powi(3);
        let mut before = from;
        let reached = (1..=STEPS).map(outward).find(|to| {
            let enough = self.shortfall(piece, knob, *to).is_some_and(|shortfall| shortfall <= 0.0);
            if !enough {
                before = *to;
            }
            enough
        })?;
        let mut convergency = SimpleConvergency { eps: step * 1e-3, max_iter: 60 };
        // Where a setting makes no piece, or the shortfall jumps, the end that is known to mend stands in for the root.
        let root =
            find_root_brent(before, reached, |to| self.shortfall(piece, knob, to).unwrap_or(1.0), &mut convergency).unwrap_or(reached);
        let up = end > from;
        let rounded = if up { (root / step - 1e-6).ceil() } else { (root / step + 1e-6).floor() };
        let steps = (0..ROUNDINGS).map(|extra| (if up { rounded + f64::from(extra) } else { rounded - f64::from(extra) }) * step);
        let within = move |to: &f64| if up { *to <= end + step } else { *to >= end - step };
        steps.filter(within).collect::<Vec<_>>().into_iter().find(|to| self.mends(piece, knob, *to))
    }

    /// How far a setting falls short of mending the finding, as a share of the limit; negative when it mends it.
    fn shortfall(&mut self, piece: &Piece, knob: Knob, to: f64) -> Option<f64> {
        self.judge(&knob.set(piece, to)?);
        self.readings().map(|reading| self.goal.shortfall(reading)).reduce(f64::max)
    }

    /// Whether a setting mends the finding: read again, no worse verdict is left than is allowed.
    fn mends(&mut self, piece: &Piece, knob: Knob, to: f64) -> bool {
        let Some(turned) = knob.set(piece, to) else { return false };
        self.judge(&turned);
        let unknown = self.findings.unknown.iter().any(|unknown| unknown.part == self.goal.part);
        let mut readings = self.readings().peekable();
        !unknown && readings.peek().is_some() && readings.all(|reading| reading.verdict <= self.goal.allowed)
    }

    /// What the rule reads on the part.
    fn readings(&self) -> impl Iterator<Item = &Reading> {
        self.findings.readings.iter().filter(|reading| reading.part == self.goal.part)
    }

    fn judge(&mut self, piece: &Piece) {
        assess_into(piece, &mut self.assessment);
        self.rules.judge_by(self.goal.rule.id, &self.assessment, self.bounds, &mut self.findings);
    }

    /// What gets worse on a piece with the knob turned.
    fn upsets(&mut self, turned: &Piece, before: &Findings) -> Vec<Upset> {
        assess_into(turned, &mut self.assessment);
        self.rules.judge(&self.assessment, self.bounds, &mut self.findings);
        let mut upsets: Vec<Upset> = Vec::new();
        for reading in &self.findings.readings {
            let worse = before.verdict(reading.rule.id, reading.part).is_none_or(|verdict| reading.verdict > verdict);
            if !worse || reading.verdict == Verdict::Pass {
                continue;
            }
            match upsets.iter_mut().find(|upset| upset.rule == reading.rule.id && upset.part == reading.part) {
                Some(upset) => upset.verdict = upset.verdict.max(reading.verdict),
                None => upsets.push(Upset { rule: reading.rule.id, part: reading.part, verdict: reading.verdict }),
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
