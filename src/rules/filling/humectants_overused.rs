use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Syrups and polyols hold water and keep a ganache soft, but in excess it runs, cloys and, with polyols, upsets the stomach. Each up to a
    /// tenth of the filling, together up to a fifth.
    HumectantsOverused {
        id: "humectants-overused",
        title: "too much syrup or polyol",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        EACH = Limit::at_most("humectant.each", Quantity::LargestHumectant, 10.0, Unit::Percent)
            .from(Standing::Practice, &source::VOCATIONAL_NOTES, "glucose syrup, invert sugar, sorbitol: 0 to 10 % each");
        ALL = Limit::at_most("humectant.sum", Quantity::Humectants, 20.0, Unit::Percent)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "together at most a fifth");
    }
}
