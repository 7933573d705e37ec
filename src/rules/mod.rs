//! The rules: one file is one rule, one folder is one domain. Rules do no physics; they read the assessment.

mod profiles;

// <registry> kept in step by tests/registry.rs
pub mod allergen;
pub mod batch;
pub mod casting;
pub mod closing;
pub mod contact;
pub mod filling;
pub mod flow;
pub mod keeping;
pub mod law;
pub mod workshop;

/// Every rule of the crate, by domain and name.
pub static BUILT_IN: &[&dyn Rule] = &[
    &allergen::AllergensToDeclare,
    &allergen::PromiseBroken,
    &batch::MeltPoolTooSmall,
    &batch::PieceMassUnusual,
    &casting::LiquidInSingleCast,
    &casting::MouldTemperatureOff,
    &casting::ShellDrainsThin,
    &casting::ShellThicknessOutsideRange,
    &closing::CapPouredTooSoon,
    &closing::CapTooThin,
    &closing::CaramelWouldCreep,
    &closing::CavityOverfilled,
    &closing::ColdFillingCracksCap,
    &closing::FillingLighterThanChocolate,
    &closing::FillingMeltsShell,
    &closing::FillingTooThinToCap,
    &closing::HeadroomOutsideWindow,
    &contact::CrispWouldSoften,
    &contact::EthanolAttacksShell,
    &contact::LayersTradeWater,
    &contact::MilkFatSoftensShell,
    &contact::NutOilWouldMigrate,
    &contact::ShellWouldCrack,
    &filling::CaramelMoistureOff,
    &filling::CaramelWouldGrain,
    &filling::ChocolateCreamRatioOff,
    &filling::CrustSyrupOff,
    &filling::FruitGelWillNotSet,
    &filling::GanacheCocoaTooDry,
    &filling::GanacheFatWaterUnbalanced,
    &filling::GanacheShortOfSugars,
    &filling::GanacheTooFat,
    &filling::GanacheTooSoftToSet,
    &filling::GanacheTooWet,
    &filling::GumFailsInSpirit,
    &filling::HumectantsOverused,
    &filling::JamWouldWeep,
    &filling::MarshmallowMoistureOff,
    &filling::SpiritLevelOff,
    &filling::SpiritSlackensGanache,
    &filling::SucroseWouldGrain,
    &filling::WaterInFatFilling,
    &flow::ChocolateTooStiffToCast,
    &flow::ChocolateTooThinToCast,
    &flow::ChocolateWouldSeize,
    &flow::CouvertureOverthinned,
    &flow::CouvertureTooLeanToMould,
    &flow::EmulsifierDoseOutsideWindow,
    &flow::EmulsifierDoseUnweighable,
    &flow::EmulsifierFormUnfitForFat,
    &flow::FatsIncompatible,
    &flow::SoftFatInShell,
    &keeping::ActivityMeterMisled,
    &keeping::FillingNotShelfStable,
    &keeping::FillingWouldDryOut,
    &keeping::KeepingClaimTooLong,
    &keeping::StorageOff,
    &keeping::YeastCouldFerment,
    &law::AdditiveOverLimit,
    &law::AlcoholOverLimit,
    &law::ChocolateNameNotMet,
    &law::FilledPieceNameNotMet,
    &law::NeedsTimeTemperatureControl,
    &law::PolyolWarningDue,
    &workshop::CondensationOnPieces,
    &workshop::GanacheStirredInDangerZone,
    &workshop::IceWouldCrackShell,
    &workshop::ReleasedTooSoon,
    &workshop::SeedDoseOff,
    &workshop::TemperTemperatureOff,
    &workshop::UntemperedChocolate,
];
// </registry>

use crate::engine::{Rule, RuleSet};

/// Every rule of the crate with every profile.
#[must_use]
pub fn built_in() -> RuleSet {
    profiles::ALL.iter().fold(RuleSet::new(BUILT_IN.iter().copied()), |rules, profile| rules.with_profile(*profile))
}
