//! Faults planted where no rule can have them: in an assessment, a knob and the solver. And the pieces that are drawn.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests assert on known values")]

use super::case::{Bench, Case, Sound, Target};
use super::{Law, breaches_at, cases};
use crate::assess::{Assessed, Assessment, Estimate, Part, Quantity, assess};
use crate::engine::{Card, Domain, Findings, Gauge, Limit, PartKind, Reading, Rule, RuleSet, Tally, Verdict, raises};
use crate::piece::{Amount, Document, FillingKind, Knob, KnobKind, Piece, Turn};
use crate::remedy::Remedy;
use crate::units::{Choice, Unit};

crate::rule! {
    /// A sound rule. Faults are planted around it.
    TooFull {
        id: "too-full",
        title: "there is no room for a cap",
        domain: Domain::Closing,
        part: PartKind::Whole,
        drivers: &[raises(KnobKind::FillDepth)],
    }
    limits {
        FULL = Limit::at_least("planted.full", Quantity::Headroom, 2.0, Unit::Millimeter);
    }
}

crate::rule! {
    /// Another. What mends the one may break it.
    TooEmpty {
        id: "too-empty",
        title: "the cap is a slab",
        domain: Domain::Closing,
        part: PartKind::Whole,
    }
    limits {
        EMPTY = Limit::at_most("planted.empty", Quantity::Headroom, 1.8, Unit::Millimeter);
    }
}

crate::rule! {
    /// A sound rule on what a layer weighs and holds. Faults are planted around it.
    LayerHeavyOrWet {
        id: "layer-heavy-or-wet",
        title: "the layer is too much",
        domain: Domain::Filling,
        part: PartKind::Layer,
    }
    limits {
        HEAVY = Limit::at_most("planted.heavy", Quantity::LayerMass, 6.0, Unit::Gram);
        WET = Limit::at_most("planted.wet", Quantity::Water, 20.0, Unit::Percent);
    }
}

fn broken_at(bench: &dyn Bench, rules: &[&'static dyn Rule]) -> Vec<Law> {
    breaches_at(&RuleSet::new(rules.iter().copied()), bench).map(|breach| breach.law).collect()
}

#[test]
fn the_rules_around_which_faults_are_planted_are_sound() {
    assert_eq!(broken_at(&Sound, &[&TooFull, &TooEmpty, &LayerHeavyOrWet]), []);
}

/// Changes what is assessed on each layer.
struct Assessing(fn(&crate::piece::Layer, &mut crate::assess::PartAssessment));

impl Bench for Assessing {
    fn assess(&self, piece: &Piece) -> Assessment {
        let mut assessment = assess(piece);
        for (layer, part) in piece.layers.iter().zip(&mut assessment.layers) {
            (self.0)(layer, part);
        }
        assessment
    }
}

#[test]
fn the_mass_of_the_batch_taken_for_that_of_the_layer() {
    let bench = Assessing(|layer, part| {
        if let Some(recipe) = &layer.recipe {
            part.put(Quantity::LayerMass, Assessed::declared(recipe.yielded() / 50.0));
        }
    });
    assert_eq!(broken_at(&bench, &[&LayerHeavyOrWet]), [Law::BatchScale]);
}

#[test]
fn the_first_ingredient_taken_for_all() {
    let bench = Assessing(|layer, part| {
        if let Some(line) = layer.recipe.as_ref().and_then(|recipe| recipe.lines().first()) {
            part.put(Quantity::Water, Assessed::declared(line.ingredient.composition.of(crate::matter::Constituent::Water)));
        }
    });
    assert_eq!(broken_at(&bench, &[&LayerHeavyOrWet]), [Law::IngredientOrder]);
}

/// Turns a knob otherwise than the solver believes.
struct Turning(fn(&Piece, Knob, f64) -> Option<Piece>);

impl Bench for Turning {
    fn turn(&self, piece: &Piece, knob: Knob, to: f64) -> Option<Piece> {
        (self.0)(piece, knob, to)
    }
}

#[test]
fn a_knob_that_does_not_turn() {
    assert_eq!(broken_at(&Turning(|piece, _, _| Some(piece.clone())), &[&TooFull]), [Law::RemedyCures]);
}

#[test]
fn a_knob_that_turns_too_far() {
    let twice = |piece: &Piece, knob: Knob, to: f64| knob.set(piece, to + (to - knob.get(piece)?));
    assert_eq!(broken_at(&Turning(twice), &[&TooFull]), [Law::RemedyTight, Law::RemedyIdempotent]);
}

#[test]
fn a_knob_that_turns_another_each_time() {
    let wraps = |piece: &Piece, knob: Knob, to: f64| {
        let mut piece = knob.set(piece, to)?;
        piece.storage.wrapped = Some(piece.storage.wrapped != Some(true));
        Some(piece)
    };
    assert_eq!(broken_at(&Turning(wraps), &[&TooFull]), [Law::RemedyIdempotent]);
}

/// Changes each remedy that the solver finds.
struct Solving(fn(&Piece, Remedy) -> Remedy);

impl Bench for Solving {
    fn remedies(&self, case: &Case<'_>, piece: &Piece, found: &Findings, targets: &[Target]) -> Vec<Vec<Remedy>> {
        let found = Sound.remedies(case, piece, found, targets);
        found.into_iter().map(|remedies| remedies.into_iter().map(|remedy| (self.0)(piece, remedy)).collect()).collect()
    }
}

/// So many steps of the scale further than the solver found.
fn further(piece: &Piece, remedy: Remedy, steps: f64) -> Remedy {
    let Turn::Continuous { step } = remedy.knob.turns(piece) else { return remedy };
    Remedy { to: remedy.to + steps * step.copysign(remedy.to - remedy.from), ..remedy }
}

#[test]
fn a_solver_that_stops_a_step_short() {
    assert_eq!(broken_at(&Solving(|piece, remedy| further(piece, remedy, -1.0)), &[&TooFull]), [Law::RemedyCures]);
}

#[test]
fn a_solver_that_goes_two_steps_too_far() {
    // Where that still lies in the range of the knob.
    let too_far = |piece: &Piece, remedy: Remedy| {
        let ((least, most), far) = (remedy.knob.range(piece), further(piece, remedy.clone(), 2.0));
        if (least..=most).contains(&far.to) { far } else { remedy }
    };
    assert_eq!(broken_at(&Solving(too_far), &[&TooFull]), [Law::RemedyTight]);
}

#[test]
fn a_solver_that_leaves_the_range() {
    let out = |piece: &Piece, remedy: Remedy| Remedy { to: remedy.knob.range(piece).1 + 0.001, ..remedy };
    assert_eq!(broken_at(&Solving(out), &[&TooFull]), [Law::RemedyInRange, Law::RemedyTight]);
}

#[test]
fn a_solver_that_hides_what_it_upsets() {
    let hide = |_: &Piece, remedy: Remedy| Remedy { upsets: Vec::new(), ..remedy };
    assert_eq!(broken_at(&Solving(hide), &[&TooFull, &TooEmpty]), [Law::RemedyHarmless]);
}

/// A solver that never rests.
struct Restless;

impl Bench for Restless {
    fn remedies(&self, case: &Case<'_>, piece: &Piece, found: &Findings, targets: &[Target]) -> Vec<Vec<Remedy>> {
        let idle = |knob: Knob| Some(Remedy { knob, from: knob.get(piece)?, to: knob.get(piece)?, upsets: Vec::new() });
        let mut offered = Sound.remedies(case, piece, found, targets);
        for ((card, part), remedies) in targets.iter().zip(&mut offered) {
            if found.verdict(card.id, *part) == Some(Verdict::Pass) {
                remedies.extend(Knob::all(piece).filter(|knob| knob.kind() == KnobKind::FillDepth).find_map(idle));
            }
        }
        offered
    }
}

#[test]
fn a_solver_that_never_rests() {
    assert_eq!(broken_at(&Restless, &[&TooFull]), [Law::RemedyIdempotent]);
}

fn with_drawn(see: impl Fn(&[Case<'_>])) {
    let rules = crate::rules::built_in();
    see(&cases(&rules, &Sound));
}

#[test]
fn what_is_drawn_can_be_read_in_every_unit() {
    with_drawn(|cases| {
        assert!(cases.len() >= 256);
        for case in cases {
            for turned in 0..6 {
                let text = case.described.text(turned);
                assert!(Document::parse(&text).is_ok(), "{}\n{text}", Document::parse(&text).unwrap_err());
            }
        }
    });
}

#[test]
fn what_is_drawn_is_varied() {
    with_drawn(|cases| {
        let some = |what: &str, holds: &dyn Fn(&Case<'_>) -> bool| {
            let many = cases.iter().filter(|case| holds(case)).count();
            assert!(many >= 5 && many <= cases.len() - 5, "{what}: {many} of {}", cases.len());
        };
        for shape in ["hemisphere", "segment", "cone-frustum", "pyramid-frustum", "box", "measured"] {
            some(shape, &|case| case.described.text(0).contains(&format!("\"{shape}\"")));
        }
        for kind in FillingKind::ALL {
            some(kind.key(), &|case| case.assessment.layers.iter().any(|layer| layer.kind == Some(*kind)));
        }
        for layers in 0..=3 {
            some("layers", &|case| case.piece.layers.len() == layers);
        }
        some("no mould", &|case| case.piece.mould.is_none());
        some("no shell", &|case| case.piece.shell.is_none());
        some("no cap", &|case| case.piece.cap.is_none());
        some("no recipe", &|case| case.piece.layers.iter().any(|layer| layer.recipe.is_none()));
        some("poured by mass", &|case| case.piece.layers.iter().any(|layer| matches!(layer.amount, Some(Amount::Mass(_)))));
        some("of the house", &|case| case.described.house.is_some());
    });
}

/// The laws would hold of nothing if the built-in rules found nothing, or could mend nothing.
#[test]
fn what_is_drawn_is_found_fault_with_and_mended() {
    with_drawn(|cases| {
        let cards: Vec<_> = crate::rules::built_in().cards().collect();
        let finds = |card: &Card| {
            let worse = |case: &Case<'_>| case.findings.readings.iter().any(|read| read.rule.id == card.id && read.verdict > Verdict::Pass);
            cases.iter().any(worse)
        };
        let mends = |card: &Card| cases.iter().flat_map(Case::mended).any(|mended| mended.card.id == card.id);
        let silent: Vec<_> = cards.iter().filter(|card| !finds(card)).map(|card| card.id).collect();
        let unmended: Vec<_> = cards.iter().filter(|card| !card.drivers.is_empty() && !mends(card)).map(|card| card.id).collect();
        assert!(10 * silent.len() <= cards.len(), "no fault found by {silent:?}: let pieces.rs draw what they look at");
        assert!(10 * unmended.len() <= cards.len(), "nothing mended for {unmended:?}: let pieces.rs draw what they look at");
    });
}

/// What lies in a piece's knobs, and what can be turned on though it was not described.
fn every_knob(piece: &Piece) -> Vec<Knob> {
    let processes = crate::piece::Process::ALL.iter().map(|process| Knob::Process(*process));
    let layers = (0..piece.layers.len()).flat_map(|layer| [Knob::PouringTemperature(layer), Knob::FillDepth(layer)]);
    Knob::all(piece).chain([Knob::WallThickness, Knob::DrainTime, Knob::CapThickness]).chain(processes).chain(layers).collect()
}

/// Settings of a knob: the ends of its range, and some between and beyond.
fn settings(knob: Knob, piece: &Piece) -> impl Iterator<Item = f64> + use<> {
    let (least, most) = knob.range(piece);
    let whole = knob.turns(piece) == Turn::Whole;
    [0.3, 0.0, 1.0, 0.8, 1.7].into_iter().map(move |way| least + way * (most - least)).map(move |to| if whole { to.round() } else { to })
}

fn assert_same(piece: &Piece, again: &Assessment, turned: &[Knob], text: &str) {
    let afresh = assess(piece);
    for ((part, one), (_, two)) in again.parts().zip(afresh.parts()) {
        for quantity in Quantity::ALL {
            assert_eq!(one.get(*quantity), two.get(*quantity), "{quantity:?} of {part:?} after turning {turned:?}\n{text}");
        }
    }
    assert_eq!(again, &afresh, "after turning {turned:?}\n{text}");
}

fn assert_judged(gauge: &Gauge, assessment: &Assessment, tally: &Tally, turned: &[Knob], text: &str) {
    let mut afresh = Tally::default();
    gauge.judge(assessment, &mut afresh);
    for (((card, limit), one), two) in gauge.limits().iter().zip(tally.marks()).zip(afresh.marks()) {
        assert_eq!(one, two, "{} of {} after turning {turned:?}\n{text}", limit.key, card.id);
    }
    assert_eq!(tally.is_unknown(), afresh.is_unknown(), "after turning {turned:?}\n{text}");
}

#[test]
fn reassessing_and_judging_again_is_doing_so_from_scratch() {
    let rules = crate::rules::built_in();
    for case in cases(&rules, &Sound) {
        let knobs = every_knob(&case.piece);
        let gauge = Gauge::new(&rules, &case.bounds);
        let (mut again, mut tally) = (Assessment::default(), Tally::default());
        for (knob, next) in knobs.iter().zip(knobs.iter().cycle().skip(1)) {
            let mut piece = case.piece.clone();
            crate::assess::assess_into(&piece, &mut again);
            gauge.judge(&again, &mut tally);
            for to in settings(*knob, &case.piece) {
                if knob.builds_on() {
                    piece.clone_from(&case.piece);
                }
                if knob.turn(&mut piece, to).is_some() {
                    let changes = crate::assess::reassess_into(&piece, &[*knob], &mut again);
                    assert_same(&piece, &again, &[*knob], &case.described.text(0));
                    gauge.judge_again(&again, &changes, &mut tally);
                    assert_judged(&gauge, &again, &tally, &[*knob], &case.described.text(0));
                }
            }
            // Two at once, from where the first was left.
            if settings(*next, &piece).next().and_then(|to| next.turn(&mut piece, to)).is_some() {
                let changes = crate::assess::reassess_into(&piece, &[*next, *knob], &mut again);
                assert_same(&piece, &again, &[*knob, *next], &case.described.text(0));
                gauge.judge_again(&again, &changes, &mut tally);
                assert_judged(&gauge, &again, &tally, &[*knob, *next], &case.described.text(0));
            }
        }
    }
}

#[test]
fn a_gauge_comes_to_what_readings_say() {
    let rules = crate::rules::built_in();
    let mut tally = Tally::default();
    for case in cases(&rules, &Sound) {
        let gauge = Gauge::new(&rules, &case.bounds);
        gauge.judge(&case.assessment, &mut tally);
        assert_eq!(tally.is_unknown(), !case.findings.unknown.is_empty());
        for ((card, limit), mark) in gauge.limits().iter().zip(tally.marks()) {
            let readings =
                case.findings.readings.iter().rev().filter(|reading| reading.rule.id == card.id && reading.limit.key == limit.key);
            let worst = readings.max_by(|one, two| one.verdict.cmp(&two.verdict).then(two.assured.total_cmp(&one.assured)));
            let worst = worst.map(|worst| (worst.margin, worst.assured, worst.verdict));
            assert_eq!(mark.map(|mark| (mark.margin, mark.assured, mark.verdict)), worst, "{}", limit.key);
        }
    }
}

/// Every limit that ships, with numbers at it, within rounding of it and beyond.
#[test]
fn a_line_comes_to_what_a_reading_says() {
    let rules = crate::rules::built_in();
    let gauge = Gauge::new(&rules, &rules.bounds(&Piece::named("any")).unwrap());
    for (place, (card, limit)) in gauge.limits().iter().enumerate().filter(|(_, (_, limit))| !limit.family) {
        let (line, bound) = (gauge.line(place).unwrap(), limit.careful.base());
        let beside = [0.0, 1.0, 7.9, 8.1, 15.0, 17.0, 1e6, 1e15].map(|ulps| ulps * f64::EPSILON * bound.abs());
        let near: Vec<f64> = beside.iter().flat_map(|by| [bound - by, bound + by]).collect();
        let far = [bound - 1.0, bound + 1.0, 2.0 * bound - 1e-300, 1e300, f64::INFINITY, f64::NEG_INFINITY];
        for numbers in [near.as_slice(), &far] {
            let (mut margins, mut verdicts) = (vec![f64::NAN; numbers.len()], vec![Verdict::Note; numbers.len()]);
            line.hold(numbers, &mut margins, &mut verdicts);
            for ((number, margin), verdict) in numbers.iter().zip(margins).zip(verdicts) {
                let due = Reading::new(card, limit, Part::Whole, Estimate::declared(*number), bound);
                assert_eq!((margin, verdict), (due.margin, due.verdict), "{} at {number:?}", limit.key);
                let mark = line.mark(*number);
                assert_eq!(
                    (mark.margin, mark.assured, mark.verdict),
                    (due.margin, due.assured, due.verdict),
                    "{} at {number:?}",
                    limit.key
                );
            }
        }
    }
}

/// A number that is none is no pass, alone or in a column.
#[test]
fn what_is_no_number_does_not_pass() {
    let rules = crate::rules::built_in();
    let gauge = Gauge::new(&rules, &rules.bounds(&Piece::named("any")).unwrap());
    let line = gauge.line(gauge.place("headroom.min").unwrap()).unwrap();
    let (mut margins, mut verdicts) = ([0.0; 3], [Verdict::Pass; 3]);
    line.hold(&[0.002, f64::NAN, 0.002], &mut margins, &mut verdicts);
    assert_eq!(verdicts, [Verdict::Pass, Verdict::Caution, Verdict::Pass]);
    assert_eq!(line.mark(f64::NAN).verdict, Verdict::Caution);
}
