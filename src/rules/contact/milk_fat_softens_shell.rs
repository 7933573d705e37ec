use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::ChocolateKind;
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Milk fat moves from a rich filling into a milk chocolate shell, whose own fat is soft already, and keeps it from setting firm. Cool such
    /// pieces longer, or take a dark shell.
    MilkFatSoftensShell {
        id: "milk-fat-softens-shell",
        title: "the milk fat of the filling would soften the shell",
        domain: Domain::Contact,
        part: PartKind::Layer,
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        RICH = Limit::at_most("milk-fat.softens", Quantity::MilkFat, 15.0, Unit::Percent)
            .advice()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "fillings rich in butterfat are the most susceptible");
    }
    |look, out| {
        if look.assessment.shell.chocolate.is_some_and(ChocolateKind::holds_milk) {
            look.compare(&RICH, out);
        }
    }
}
