use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing};
use crate::piece::SeedKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Too little seed leaves the chocolate untempered, too much thickens it; in chocolate above 34.5 °C the seed melts before it can work.
    /// Pre-crystallised cocoa butter wants 0.5 to 2 %, tempered chocolate a fifth to a third.
    SeedDoseOff {
        id: "seed-dose-off",
        title: "the seed is dosed or timed wrongly",
        domain: Domain::Workshop,
        part: PartKind::Shell,
    }
    limits {
        BUTTER_LOW = Limit::at_least("seed.cocoa-butter-min", Quantity::SeedDose, 0.5, Unit::Percent)
            .from(Standing::Practice, &source::SEED_SUPPLIERS, "0.5 to 2 %, most use 1 %");
        BUTTER_HIGH = Limit::at_most("seed.cocoa-butter-max", Quantity::SeedDose, 2.0, Unit::Percent)
            .from(Standing::Practice, &source::SEED_SUPPLIERS, "0.5 to 2 %, most use 1 %");
        CHOCOLATE_LOW = Limit::at_least("seed.chocolate-min", Quantity::SeedDose, 20.0, Unit::Percent)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "a fifth to a third of the batch");
        CHOCOLATE_HIGH = Limit::at_most("seed.chocolate-max", Quantity::SeedDose, 33.0, Unit::Percent)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "a fifth to a third of the batch");
        COLD = Limit::at_least("seed.at-min", Quantity::SeedTemperature, 33.0, Unit::Celsius)
            .from(Standing::Practice, &source::SEED_SUPPLIERS, "33 to 34.5 °C");
        HOT = Limit::at_most("seed.at-max", Quantity::SeedTemperature, 34.5, Unit::Celsius)
            .from(Standing::Practice, &source::SEED_SUPPLIERS, "33 to 34.5 °C");
    }
    |look, out| {
        let window: &[&Limit] = match look.at.seed {
            Some(SeedKind::CocoaButter) => &[&BUTTER_LOW, &BUTTER_HIGH, &COLD, &HOT],
            Some(SeedKind::TemperedChocolate) => &[&CHOCOLATE_LOW, &CHOCOLATE_HIGH],
            None => &[],
        };
        for limit in window {
            look.compare(limit, out);
        }
    }
}
