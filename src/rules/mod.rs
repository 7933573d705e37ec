//! The rules: one file is one rule, one folder is one domain. Rules do no physics; they read the assessment.

mod profiles;

// <registry> kept in step by tests/registry.rs
pub mod allergen;
pub mod casting;
pub mod closing;
pub mod contact;
pub mod filling;
pub mod flow;
pub mod keeping;
pub mod workshop;

/// Every rule of the crate, by domain and name.
pub static BUILT_IN: &[&dyn Rule] = &[
    &allergen::AllergensToDeclare,
    &allergen::PromiseBroken,
    &casting::LiquidInSingleCast,
    &casting::ShellThicknessOutsideRange,
    &closing::CapTooThin,
    &closing::CavityOverfilled,
    &closing::FillingLighterThanChocolate,
    &closing::FillingTooThinToCap,
    &closing::HeadroomOutsideWindow,
    &contact::EthanolAttacksShell,
    &filling::GanacheFatWaterUnbalanced,
    &filling::GanacheTooWet,
    &flow::ChocolateWouldSeize,
    &flow::CouvertureTooLeanToMould,
    &flow::EmulsifierDoseOutsideWindow,
    &flow::EmulsifierFormUnfitForFat,
    &keeping::FillingNotShelfStable,
    &keeping::YeastCouldFerment,
    &workshop::UntemperedChocolate,
];
// </registry>

use crate::engine::{Rule, RuleSet};

/// Every rule of the crate with every profile.
#[must_use]
pub fn built_in() -> RuleSet {
    profiles::ALL.iter().fold(RuleSet::new(BUILT_IN.iter().copied()), |rules, profile| rules.with_profile(*profile))
}
