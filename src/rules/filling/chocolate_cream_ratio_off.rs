use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::ChocolateKind;
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// How much chocolate a cream wants depends on what sets it: dark one to two parts, milk one and a half to two and a half, white two and a
    /// half to three. Less stays slack, more turns hard or splits.
    ChocolateCreamRatioOff {
        id: "chocolate-cream-ratio-off",
        title: "chocolate and cream are out of proportion",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        DARK_LOW = Limit::at_least("chocolate-cream.dark-low", Quantity::ChocolateToCream, 1.0, Unit::One)
            .from(Standing::Practice, &source::RATIO_TABLES, "dark 1 to 2");
        DARK_HIGH = Limit::at_most("chocolate-cream.dark-high", Quantity::ChocolateToCream, 2.0, Unit::One)
            .from(Standing::Practice, &source::RATIO_TABLES, "dark 1 to 2");
        MILK_LOW = Limit::at_least("chocolate-cream.milk-low", Quantity::ChocolateToCream, 1.5, Unit::One)
            .from(Standing::Practice, &source::RATIO_TABLES, "milk 1.5 to 2.5");
        MILK_HIGH = Limit::at_most("chocolate-cream.milk-high", Quantity::ChocolateToCream, 2.5, Unit::One)
            .from(Standing::Practice, &source::RATIO_TABLES, "milk 1.5 to 2.5");
        WHITE_LOW = Limit::at_least("chocolate-cream.white-low", Quantity::ChocolateToCream, 2.5, Unit::One)
            .from(Standing::Practice, &source::RATIO_TABLES, "white 2.5 to 3");
        WHITE_HIGH = Limit::at_most("chocolate-cream.white-high", Quantity::ChocolateToCream, 3.0, Unit::One)
            .from(Standing::Practice, &source::RATIO_TABLES, "white 2.5 to 3");
    }
    |look, out| {
        let window: &[&Limit] = match look.at.chocolate {
            Some(ChocolateKind::Dark) => &[&DARK_LOW, &DARK_HIGH],
            Some(ChocolateKind::Milk) => &[&MILK_LOW, &MILK_HIGH],
            Some(ChocolateKind::White) => &[&WHITE_LOW, &WHITE_HIGH],
            // No proportion is published for ruby chocolate.
            Some(ChocolateKind::Ruby) => &[],
            None => {
                look.lack(look.get(Quantity::ChocolateToCream).missing(), out);
                &[]
            }
        };
        for limit in window {
            look.compare(limit, out);
        }
    }
}
