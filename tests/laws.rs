//! The test kit as an outside crate uses it: the built-in rules are lawful, and rules with a planted fault are caught by the law they
//! break. Faults that lie in an assessment, a knob or the solver are planted in `src/laws/tests.rs`.
#![cfg(feature = "laws")]

use cordial::assess::{Estimate, Part, Quantity};
use cordial::engine::{Card, Domain, Findings, Limit, Look, PartKind, Reading, Rule, RuleSet, Verdict, lowers};
use cordial::laws::{Law, assert_all_lawful, assert_lawful, breaches};
use cordial::piece::KnobKind;
use cordial::units::Unit;
use cordial::{Document, check, rules};
use std::sync::atomic::{AtomicU32, Ordering};

#[test]
fn the_built_in_rules_are_lawful() {
    assert_all_lawful(&rules::built_in());
}

/// The law that reports first, and all that the rule breaks besides.
fn broken_by(rule: &'static dyn Rule) -> Vec<Law> {
    breaches(&RuleSet::new([rule])).map(|breach| breach.law).collect()
}

/// Declares a rule on the headroom with a fault in what it reads.
macro_rules! faulty {
    ($name:ident { $($field:ident: $value:expr),* $(,)? } $limit:ident = $declared:expr; |$look:ident, $out:ident| $read:block) => {
        cordial::rule! {
            /// A planted fault.
            $name {
                id: "planted-fault",
                title: "a planted fault",
                domain: Domain::Closing,
                $($field: $value,)*
            }
            limits { $limit = $declared; }
            |$look, $out| $read
        }
    };
}

static TIMES_READ: AtomicU32 = AtomicU32::new(0);

faulty! {
    Wavering { part: PartKind::Whole }
    WAVERING = Limit::at_least("planted.wavering", Quantity::Headroom, 1.5, Unit::Millimeter);
    |look, out| {
        if TIMES_READ.fetch_add(1, Ordering::Relaxed) % 7 != 3 {
            look.compare(&WAVERING, out);
        }
    }
}

faulty! {
    DividesByNothing { part: PartKind::Layer, also_reads: &[Quantity::Fat, Quantity::Water] }
    DIVIDED = Limit::at_most("planted.divided", Quantity::FatToWater, 2.0, Unit::One);
    |look, out| {
        match (look.get(Quantity::Fat).value(), look.get(Quantity::Water).value()) {
            (Some(fat), Some(water)) => out.readings.push(reading(&DividesByNothing, &DIVIDED, look, Estimate::declared(fat / water))),
            _ => look.compare(&DIVIDED, out),
        }
    }
}

faulty! {
    Exclusive { part: PartKind::Shell }
    EXCLUSIVE = Limit::at_least("planted.exclusive", Quantity::Casts, 2.0, Unit::One);
    |look, out| {
        look.compare(&EXCLUSIVE, out);
        for reading in out.readings.iter_mut().filter(|reading| reading.rule.id == "planted-fault" && reading.margin <= 0.0) {
            reading.verdict = Verdict::Caution;
        }
    }
}

static STRAY: Limit = Limit::at_most("planted.stray", Quantity::Headroom, 2.5, Unit::Millimeter);

faulty! {
    Strays { part: PartKind::Whole }
    ON_THE_CARD = Limit::at_least("planted.on-the-card", Quantity::Headroom, 1.5, Unit::Millimeter);
    |look, out| {
        look.compare(&ON_THE_CARD, out);
        look.compare(&STRAY, out);
    }
}

faulty! {
    Stubborn { part: PartKind::Whole }
    FIXED = Limit::at_least("planted.fixed", Quantity::Headroom, 1.5, Unit::Millimeter);
    |look, out| {
        match look.get(Quantity::Headroom).known() {
            Some(value) => out.readings.push(Reading::new(Stubborn.card(), &FIXED, look.part, value, 0.0015)),
            None => look.compare(&FIXED, out),
        }
    }
}

faulty! {
    Meddles { part: PartKind::Whole }
    ELSEWHERE = Limit::at_least("planted.elsewhere", Quantity::Headroom, 1.5, Unit::Millimeter);
    |look, out| {
        look.compare(&ELSEWHERE, out);
        if let Some(value) = look.get(Quantity::Headroom).known() {
            out.readings.push(Reading::new(Meddles.card(), &ELSEWHERE, Part::Cap, value, look.bound(&ELSEWHERE)));
        }
    }
}

faulty! {
    Copied { part: PartKind::Layer }
    COPIED = Limit::at_most("planted.copied", Quantity::Water, 20.0, Unit::Percent);
    |look, out| {
        if look.get(Quantity::Sugars).value().is_none_or(|sugars| sugars > 0.4) {
            look.compare(&COPIED, out);
        }
    }
}

faulty! {
    Silent { part: PartKind::Whole }
    SILENT = Limit::at_least("planted.silent", Quantity::Headroom, 1.5, Unit::Millimeter);
    |look, out| {
        if look.get(Quantity::Headroom).known().is_some() {
            look.compare(&SILENT, out);
        }
    }
}

faulty! {
    Trusting { part: PartKind::Layer, also_reads: &[Quantity::YieldValue] }
    IF_IT_POURS = Limit::at_least("planted.if-it-pours", Quantity::Density, 1250.0, Unit::KilogramPerCubicMeter);
    |look, out| {
        if look.at.may_pour() == Ok(true) {
            look.compare(&IF_IT_POURS, out);
        }
    }
}

faulty! {
    CutsDigits { part: PartKind::Layer }
    CUT = Limit::at_most("planted.cut", Quantity::LayerMass, 6.0, Unit::Gram);
    |look, out| {
        match look.get(Quantity::LayerMass).value() {
            Some(mass) => {
                let mass = Estimate::declared((mass * 10_000.0).floor() / 10_000.0);
                out.readings.push(reading(&CutsDigits, &CUT, look, mass));
            }
            None => look.compare(&CUT, out),
        }
    }
}

faulty! {
    Reversed { part: PartKind::Whole, drivers: &[lowers(KnobKind::FillDepth)] }
    REVERSED = Limit::at_least("planted.reversed", Quantity::Headroom, 1.5, Unit::Millimeter);
    |look, out| { look.compare(&REVERSED, out) }
}

faulty! {
    Lenient { part: PartKind::Whole }
    LENIENT = Limit::at_least("planted.lenient", Quantity::Headroom, 1.5, Unit::Millimeter);
    |look, out| {
        if look.get(Quantity::Headroom).value().is_none_or(|depth| depth >= look.bound(&LENIENT)) {
            look.compare(&LENIENT, out);
        }
    }
}

fn reading(rule: &dyn Rule, limit: &'static Limit, look: &Look<'_>, value: Estimate) -> Reading {
    Reading::new(rule.card(), limit, look.part, value, look.bound(limit))
}

macro_rules! caught {
    ($($test:ident: $rule:ident breaks $first:ident $(and $besides:ident)*;)+) => {$(
        #[test]
        fn $test() {
            assert_eq!(broken_by(&$rule), [Law::$first, $(Law::$besides),*]);
        }
    )+};
}

caught! {
    a_rule_that_divides_by_nothing: DividesByNothing breaks FiniteMargins and MissingInput;
    a_rule_that_fails_at_its_limit: Exclusive breaks InclusiveLimits;
    a_rule_that_reads_a_limit_of_another: Strays breaks DeclaredLimits;
    a_rule_that_keeps_its_own_limit: Stubborn breaks DeclaredLimits;
    a_rule_that_judges_another_part: Meddles breaks Applicability and MissingInput;
    a_rule_that_reads_what_its_card_does_not_name: Copied breaks Frame;
    a_rule_that_is_silent_when_an_input_is_missing: Silent breaks MissingInput;
    a_rule_that_trusts_a_missing_input: Trusting breaks MissingInput;
    a_rule_that_cuts_digits: CutsDigits breaks Units;
    a_rule_whose_driver_works_the_other_way: Reversed breaks Monotone;
    a_rule_that_only_reads_what_passes: Lenient breaks Reachable;
}

/// What else it trips depends on how often it was read before.
#[test]
fn a_rule_that_wavers() {
    assert_eq!(broken_by(&Wavering).first(), Some(&Law::Determinism));
}

cordial::rule! {
    /// A lawful rule. Not every outside rule is faulty.
    PieceTooLarge {
        id: "piece-too-large",
        title: "the piece is no single mouthful",
        domain: Domain::Batch,
        part: PartKind::Whole,
    }
    limits {
        LARGE = Limit::at_most("piece.large", Quantity::PieceMass, 20.0, Unit::Gram).advice();
    }
}

#[test]
fn a_sound_rule_passes() {
    assert_lawful(&PieceTooLarge);
}

#[test]
#[should_panic(expected = "law monotone: `planted-fault`: ")]
fn the_first_broken_law_stops_the_test() {
    assert_lawful(&Reversed);
}

/// What breaks a law is small, and can be pasted into a check.
#[test]
fn a_counter_example_is_a_small_document() -> Result<(), Box<dyn std::error::Error>> {
    let breach = breaches(&RuleSet::new([&Reversed as &dyn Rule])).next().ok_or("a breach")?;
    let document = Document::parse(&breach.document)?;
    check(document.pieces().first().ok_or("a piece")?)?;
    assert!(breach.document.lines().count() < 20, "{}", breach.document);
    Ok(())
}

/// A rule may be written without the macro.
struct ByHand;

impl Rule for ByHand {
    fn card(&self) -> &'static Card {
        PieceTooLarge.card()
    }

    fn read(&self, look: &Look<'_>, out: &mut Findings) {
        look.compare(&LARGE, out);
    }
}

#[test]
fn a_rule_written_by_hand_passes() {
    assert_lawful(&ByHand);
}
