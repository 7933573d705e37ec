use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A ganache is fat droplets in a syrup. With too much fat for its water it splits and turns oily; with too little it stays slack and
    /// weeps. Most stable ganaches hold 1.2 to 2.2 parts of fat to one of water.
    GanacheFatWaterUnbalanced {
        id: "ganache-fat-water-unbalanced",
        title: "fat and water of the ganache are out of balance",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        shows: &[Quantity::Fat, Quantity::Water],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        WEEPS = Limit::at_least("fat-water.weeps", Quantity::FatToWater, 0.9, Unit::One)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "outside 0.9 to 2.6 it splits or weeps");
        SLACK = Limit::at_least("fat-water.slack", Quantity::FatToWater, 1.2, Unit::One)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "1.2 to 2.2, best 1.5 to 1.9");
        OILY = Limit::at_most("fat-water.oily", Quantity::FatToWater, 2.2, Unit::One)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "1.2 to 2.2, best 1.5 to 1.9");
        SPLITS = Limit::at_most("fat-water.splits", Quantity::FatToWater, 2.6, Unit::One)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "outside 0.9 to 2.6 it splits or weeps");
    }
}
