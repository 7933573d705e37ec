use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::ChocolateKind;
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A chocolate with a high yield value holds its tails and bubbles and drains to a thick, uneven wall. The yield value as cast counts:
    /// temper raises it, emulsifier and cocoa butter lower it.
    ChocolateTooStiffToCast {
        id: "chocolate-too-stiff-to-cast",
        title: "the chocolate is too stiff to cast",
        domain: Domain::Flow,
        part: PartKind::Shell,
        drivers: &[searched(KnobKind::EmulsifierDose), searched(KnobKind::CocoaButter), searched(KnobKind::Temper)],
    }
    limits {
        STIFF = Limit::at_most("yield.stiff", Quantity::ChocolateYieldValue, 14.0, Unit::Pascal)
            .from(Standing::Conjecture, &source::PROJECT, "dark chocolate; measured chocolates run from 1.9 to 36 Pa");
        STIFF_MILK = Limit::at_most("yield.stiff-milk", Quantity::ChocolateYieldValue, 20.0, Unit::Pascal)
            .from(Standing::Conjecture, &source::PROJECT, "milk and white chocolate; measured chocolates run from 1.9 to 36 Pa");
        SLOW = Limit::at_most("viscosity.max", Quantity::PlasticViscosity, 5.0, Unit::PascalSecond)
            .from(Standing::Conjecture, &source::PROJECT, "measured chocolates run from 1.5 to 14.6 Pa s");
    }
    |look, out| {
        let milky = look.at.chocolate.is_some_and(ChocolateKind::holds_milk);
        look.compare(if milky { &STIFF_MILK } else { &STIFF }, out);
        look.compare(&SLOW, out);
    }
}
