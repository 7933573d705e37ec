//! One random piece, assessed and judged once for all laws.

use super::document::Described;
use super::noise::Noise;
use super::pieces::described;
use crate::assess::{Assessment, Part, PartAssessment, assess};
use crate::engine::{Bounds, Card, Findings, Reading, RuleSet, RuleSetError, Verdict};
use crate::piece::{Document, Knob, Piece};
use crate::remedy::{Remedy, remedies};
use proptest::strategy::{BoxedStrategy, Strategy};
use std::cell::OnceCell;

/// How pieces are assessed, turned and mended. The laws use it as it is; their own tests plant faults in it.
pub(super) trait Bench {
    fn assess(&self, piece: &Piece) -> Assessment {
        assess(piece)
    }

    fn turn(&self, piece: &Piece, knob: Knob, to: f64) -> Option<Piece> {
        knob.set(piece, to)
    }

    fn remedies(&self, case: &Case<'_>, piece: &Piece, found: &Findings, targets: &[Target]) -> Vec<Vec<Remedy>> {
        remedies(piece, case.rules, &case.bounds, found, targets)
    }
}

/// What is to be mended: what a rule finds on a part.
pub(super) type Target = (&'static Card, Part);

/// The bench as it is.
pub(super) struct Sound;

impl Bench for Sound {}

/// A random piece.
pub(super) struct Case<'a> {
    pub(super) rules: &'a RuleSet,
    pub(super) bench: &'a dyn Bench,
    pub(super) seed: u64,
    pub(super) described: Described,
    pub(super) piece: Piece,
    pub(super) bounds: Bounds,
    pub(super) assessment: Assessment,
    pub(super) findings: Findings,
    /// The only rule whose findings are mended, while a counter-example is made simpler.
    pub(super) only: Option<&'static str>,
    mended: OnceCell<Vec<Mended>>,
}

/// A remedy tried.
pub(super) struct Mended {
    pub(super) card: &'static Card,
    pub(super) part: Part,
    pub(super) before: Verdict,
    pub(super) remedy: Remedy,
    /// The piece with the knob turned, and what is found on it; none where the setting makes no piece.
    pub(super) turned: Option<(Piece, Findings)>,
}

/// What broke a law.
#[derive(Debug)]
pub(super) struct Fault {
    pub(super) rule: &'static str,
    pub(super) what: String,
}

/// What a law says of a case.
pub(super) type Lawful = Result<(), Fault>;

impl Fault {
    pub(super) fn new(rule: &'static str, what: impl Into<String>) -> Self {
        Self { rule, what: what.into() }
    }
}

/// The pieces that are drawn.
pub(super) fn strategy() -> BoxedStrategy<(Described, Piece)> {
    let read =
        |described: Described| Document::parse(&described.text(0)).ok().and_then(|read| Some((described, read.pieces().first()?.clone())));
    described().prop_filter_map("a document that cannot be read", read).boxed()
}

impl<'a> Case<'a> {
    /// # Errors
    /// When the rules do not know their own profile.
    pub(super) fn of(
        rules: &'a RuleSet,
        bench: &'a dyn Bench,
        seed: u64,
        (described, piece): (Described, Piece),
    ) -> Result<Self, RuleSetError> {
        let bounds = rules.bounds(&piece)?;
        let assessment = bench.assess(&piece);
        let mut findings = Findings::default();
        rules.judge(&assessment, &bounds, &mut findings);
        Ok(Self { rules, bench, seed, described, piece, bounds, assessment, findings, only: None, mended: OnceCell::new() })
    }

    /// What all rules find on an assessment.
    pub(super) fn judge(&self, assessment: &Assessment) -> Findings {
        let mut findings = Findings::default();
        self.rules.judge(assessment, &self.bounds, &mut findings);
        findings
    }

    /// What one rule finds on an assessment.
    pub(super) fn judge_by(&self, card: &Card, assessment: &Assessment) -> Findings {
        let mut findings = Findings::default();
        self.rules.judge_by(card.id, assessment, &self.bounds, &mut findings);
        findings
    }

    /// What all rules find on another piece.
    pub(super) fn judge_piece(&self, piece: &Piece) -> Findings {
        self.judge(&self.bench.assess(piece))
    }

    /// The assessment with every part changed.
    pub(super) fn changed(&self, mut change: impl FnMut(Part, &mut PartAssessment)) -> Assessment {
        let mut changed = self.assessment.clone();
        change(Part::Whole, &mut changed.whole);
        change(Part::Shell, &mut changed.shell);
        for (index, layer) in changed.layers.iter_mut().enumerate() {
            change(Part::Layer(index), layer);
        }
        change(Part::Cap, &mut changed.cap);
        changed
    }

    /// Random numbers for a law, others for each.
    pub(super) fn noise(&self, law: u64) -> Noise {
        Noise::of(self.seed.wrapping_mul(0x9E37_79B9_7F4A_7C15).wrapping_add(law))
    }

    /// Every remedy of every finding, tried.
    pub(super) fn mended(&self) -> &[Mended] {
        self.mended.get_or_init(|| {
            let mut targets: Vec<Target> = self.findings.readings.iter().map(|reading| (reading.rule, reading.part)).collect();
            targets.dedup_by_key(|(card, part)| (card.id, *part));
            targets.retain(|(card, _)| self.only.is_none_or(|only| only == card.id));
            let found = self.bench.remedies(self, &self.piece, &self.findings, &targets);
            let offered =
                targets.into_iter().zip(found).flat_map(|(target, remedies)| remedies.into_iter().map(move |remedy| (target, remedy)));
            offered.filter_map(|(target, remedy)| self.tried(target, remedy)).collect()
        })
    }

    fn tried(&self, (card, part): Target, remedy: Remedy) -> Option<Mended> {
        let before = self.findings.blame(card.id, part)?;
        let turned = self.bench.turn(&self.piece, remedy.knob, remedy.to);
        let turned = turned.map(|piece| {
            let findings = self.judge_piece(&piece);
            (piece, findings)
        });
        Some(Mended { card, part, before, remedy, turned })
    }
}

/// A part in words.
pub(super) fn place(part: Part) -> String {
    match part {
        Part::Whole => "the piece".into(),
        Part::Shell => "the shell".into(),
        Part::Layer(index) => format!("layer {}", index + 1),
        Part::Cap => "the cap".into(),
    }
}

/// A reading in words.
pub(super) fn told(reading: &Reading) -> String {
    let value = reading.value.measure(reading.bound.quantity);
    format!("{} {value} against {} on {} ({:?})", reading.limit.key, reading.bound_measure(), place(reading.part), reading.verdict)
}

/// Whether two lists of findings are the same but for rounding; `tolerance` is relative, and zero asks for the same bits.
pub(super) fn same(one: &Findings, two: &Findings, tolerance: f64) -> Lawful {
    let mut others = two.readings.iter();
    for first in &one.readings {
        let second = others.next().filter(|second| {
            (second.rule.id, second.limit.key, second.bound.row, second.part)
                == (first.rule.id, first.limit.key, first.bound.row, first.part)
        });
        let Some(second) = second else { return Err(Fault::new(first.rule.id, format!("{} is read only once", told(first)))) };
        if !same_reading(first, second, tolerance) {
            return Err(Fault::new(first.rule.id, format!("{}, then {}", told(first), told(second))));
        }
    }
    if let Some(second) = others.next() {
        return Err(Fault::new(second.rule.id, format!("{} is read only once", told(second))));
    }
    let lacks = |findings: &Findings| findings.unknown.iter().map(|lack| (lack.rule.id, lack.part, lack.missing)).collect::<Vec<_>>();
    let (one, two) = (lacks(one), lacks(two));
    let differs = one.iter().find(|lack| !two.contains(lack)).or_else(|| two.iter().find(|lack| !one.contains(lack)));
    match differs {
        Some((rule, part, _)) => Err(Fault::new(rule, format!("what is unknown of {} is not always the same", place(*part)))),
        None => Ok(()),
    }
}

fn same_reading(one: &Reading, two: &Reading, tolerance: f64) -> bool {
    let numbers = |reading: &Reading| {
        let band = reading.value.band;
        [band.value, band.low, band.high, reading.bound.value]
    };
    let close = |one: f64, two: f64| one.to_bits() == two.to_bits() || (one - two).abs() <= tolerance * one.abs().max(two.abs());
    if tolerance <= 0.0 && (one.margin.to_bits(), one.assured.to_bits()) != (two.margin.to_bits(), two.assured.to_bits()) {
        return false;
    }
    // A value at its limit may fall to either side.
    let at_limit =
        numbers(one).iter().take(3).any(|value| (value - one.bound.value).abs() <= tolerance * one.bound.value.abs().max(value.abs()));
    let verdicts = one.verdict == two.verdict || (tolerance > 0.0 && at_limit);
    verdicts && one.value.in_range == two.value.in_range && numbers(one).into_iter().zip(numbers(two)).all(|(one, two)| close(one, two))
}
