//! The laws every rule must satisfy, as a test kit for rule authors (feature `laws`).
//!
//! ```
//! use cordial::assess::Quantity;
//! use cordial::engine::{Domain, Limit, PartKind};
//! use cordial::units::Unit;
//!
//! cordial::rule! {
//!     /// A piece above 20 g is no single mouthful. Guests bite it in half and the filling runs.
//!     PieceTooLarge {
//!         id: "piece-too-large",
//!         title: "the piece is no single mouthful",
//!         domain: Domain::Batch,
//!         part: PartKind::Whole,
//!     }
//!     limits {
//!         LARGE = Limit::at_most("piece.large", Quantity::PieceMass, 20.0, Unit::Gram).advice();
//!     }
//! }
//!
//! // In a test of your crate:
//! cordial::laws::assert_lawful(&PieceTooLarge);
//! ```
//!
//! Random pieces are drawn, assessed once, and every law is held against what the rules read on them. Rules are part of the crate's
//! promise that a finding can be trusted, so the laws ask for more than that a rule does not crash: see [`Law`]. The first law that is
//! broken stops the test, with the simplest piece found that breaks it, as a document that can be pasted into a check.
//!
//! The same pieces are drawn in every run. `PROPTEST_CASES` draws more of them, `PROPTEST_RNG_SEED` others.

mod case;
mod document;
mod frame;
mod invariance;
mod limits;
mod missing;
mod monotone;
mod noise;
mod pieces;
mod reading;
mod remedies;
#[cfg(test)]
mod tests;

use crate::engine::{Rule, RuleSet};
use crate::units::{Choice, choices};
use case::{Bench, Case, Fault, Lawful, Sound};
use noise::Noise;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngSeed};
use std::fmt;
use std::time::{Duration, Instant};

choices! {
    /// What is asked of every rule, in the order in which it is tried.
    Law: "a law" {
        /// The same assessment always reads the same.
        Determinism "determinism",
        /// Every number of a reading is finite.
        FiniteMargins "finite-margins",
        /// A value at its limit passes with a margin of zero; margins and verdicts are those that [`crate::engine::Reading::new`] gives.
        InclusiveLimits "inclusive-limits",
        /// A reading names its rule and one of the limits on the card, with the value that the profile or the maker gave it.
        DeclaredLimits "declared-limits",
        /// A rule judges only the parts and kinds of filling that its card names, and only pieces sold in its markets.
        Applicability "applicability",
        /// What the card does not read does not count: with every other quantity replaced by any other value, the rule reads the same.
        /// The facts that are no quantities (kind, crystals, barrier, allergens, what lies under the cap) are left as they are.
        Frame "frame",
        /// A missing input never passes: where one is missing, the rule says so, or its verdict is as bad as the worst that any value of
        /// that input would bring. Silence counts as better than a pass.
        MissingInput "missing-input",
        /// The same piece in other units reads the same, to one part in a thousand million; a verdict may differ where a value is at its
        /// limit.
        Units "units",
        /// Twice the batch, with as much in each cavity, reads the same, unless the card says that the rule grows with the batch.
        BatchScale "batch-scale",
        /// The order in which ingredients are listed does not count.
        IngredientOrder "ingredient-order",
        /// Turning up a knob that raises (lowers) what a rule reads never lowers (raises) it.
        Monotone "monotone",
        /// Every limit is met by some pieces and broken by others.
        Reachable "reachable",
        /// A remedy stays within the range of its knob.
        RemedyInRange "remedy-in-range",
        /// A remedy cures: a caution or a failure becomes a note or a pass, a note becomes a pass.
        RemedyCures "remedy-cures",
        /// A remedy is tight: one step of the scale less would not cure.
        RemedyTight "remedy-tight",
        /// A remedy is idempotent: where it leaves nothing to mend, none is offered again, and turning the knob to the same setting again
        /// changes nothing.
        RemedyIdempotent "remedy-idempotent",
        /// A remedy is harmless, or says of every finding that it makes worse how bad that would be.
        RemedyHarmless "remedy-harmless",
    }
}

/// A broken law.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Breach {
    /// The law.
    pub law: Law,
    /// The rule that breaks it.
    pub rule: &'static str,
    /// How.
    pub what: String,
    /// The simplest piece found on which it is broken, as a document; empty where it takes many pieces to tell.
    pub document: String,
}

impl fmt::Display for Breach {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "law {}: `{}`: {}", self.law.key(), self.rule, self.what)?;
        if self.document.is_empty() { Ok(()) } else { write!(f, "\n\n{}", self.document) }
    }
}

/// Holds every law against one rule.
///
/// # Panics
/// When one is broken: with the law, how it is broken, and the simplest document found that breaks it.
pub fn assert_lawful(rule: &'static dyn Rule) {
    assert_all_lawful(&RuleSet::new([rule]));
}

/// Holds every law against every rule of a set, on the same pieces.
///
/// # Panics
/// As [`assert_lawful`], at the first law that is broken.
pub fn assert_all_lawful(rules: &RuleSet) {
    let broken = breaches(rules).next();
    assert!(broken.is_none(), "{}", broken.map_or_else(String::new, |breach| breach.to_string()));
}

/// Every law that some rule of a set breaks, once each, in the order in which they are tried; found as they are asked for.
pub fn breaches(rules: &RuleSet) -> impl Iterator<Item = Breach> + '_ {
    breaches_at(rules, &Sound)
}

fn breaches_at<'a>(rules: &'a RuleSet, bench: &'a dyn Bench) -> impl Iterator<Item = Breach> + 'a {
    let cases = cases(rules, bench);
    Law::ALL.iter().filter_map(move |law| broken(*law, &cases))
}

/// How a law is tried.
enum Trial {
    /// On one case at a time.
    Each(fn(&Case<'_>) -> Lawful),
    /// On all together.
    All(fn(&[Case<'_>]) -> Lawful),
}

impl Law {
    fn trial(self) -> Trial {
        match self {
            Self::Determinism => Trial::Each(reading::determinism),
            Self::FiniteMargins => Trial::Each(reading::finite_margins),
            Self::InclusiveLimits => Trial::Each(limits::inclusive),
            Self::DeclaredLimits => Trial::Each(limits::declared),
            Self::Applicability => Trial::Each(reading::applicability),
            Self::Frame => Trial::Each(frame::frame),
            Self::MissingInput => Trial::Each(missing::missing_input),
            Self::Units => Trial::Each(invariance::units),
            Self::BatchScale => Trial::Each(invariance::batch_scale),
            Self::IngredientOrder => Trial::Each(invariance::ingredient_order),
            Self::Monotone => Trial::Each(monotone::monotone),
            Self::Reachable => Trial::All(limits::reachable),
            Self::RemedyInRange => Trial::Each(remedies::in_range),
            Self::RemedyCures => Trial::Each(remedies::cures),
            Self::RemedyTight => Trial::Each(remedies::tight),
            Self::RemedyIdempotent => Trial::Each(remedies::idempotent),
            Self::RemedyHarmless => Trial::Each(remedies::harmless),
        }
    }
}

/// How long a counter-example may be made simpler.
const PATIENCE: Duration = Duration::from_millis(800);

fn broken(law: Law, cases: &[Case<'_>]) -> Option<Breach> {
    let breach = |fault: Fault, document| Breach { law, rule: fault.rule, what: fault.what, document };
    match law.trial() {
        Trial::Each(trial) => {
            let (case, fault) = cases.iter().find_map(|case| Some((case, trial(case).err()?)))?;
            let (document, fault) = simplest(case, trial, fault);
            Some(breach(fault, document))
        }
        Trial::All(trial) => trial(cases).err().map(|fault| breach(fault, String::new())),
    }
}

/// The random pieces, the same in every run.
fn cases<'a>(rules: &'a RuleSet, bench: &'a dyn Bench) -> Vec<Case<'a>> {
    let config = Config::default();
    let first = if let RngSeed::Fixed(seed) = config.rng_seed { seed } else { 0 };
    let strategy = case::strategy();
    let case = |number: u32| {
        let seed = first.wrapping_add(u64::from(number));
        let drawn = Noise::of(seed).tree(&strategy)?.current();
        Case::of(rules, bench, seed, drawn).ok()
    };
    (0..config.cases).filter_map(case).collect()
}

/// The simplest piece on which the same rule breaks the same law, and how.
fn simplest(case: &Case<'_>, trial: fn(&Case<'_>) -> Lawful, fault: Fault) -> (String, Fault) {
    let started = Instant::now();
    let mut best = (case.described.text(0), fault);
    let Some(mut tree) = Noise::of(case.seed).tree(&case::strategy()) else { return best };
    let mut simpler = tree.simplify();
    while simpler && started.elapsed() < PATIENCE {
        let drawn = tree.current();
        let text = drawn.0.text(0);
        let again = Case::of(case.rules, case.bench, case.seed, drawn).ok().and_then(|mut again| {
            again.only = Some(best.1.rule);
            trial(&again).err().filter(|fault| fault.rule == best.1.rule)
        });
        simpler = match again {
            Some(fault) => {
                best = (text, fault);
                tree.simplify()
            }
            None => tree.complicate(),
        };
    }
    best
}
