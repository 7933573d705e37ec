use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Up to 8 % of spirit flavours a ganache; more tastes of alcohol before it keeps anything, and above 15 % the emulsion splits. Take a
    /// stronger flavour rather than more liquid.
    SpiritLevelOff {
        id: "spirit-level-off",
        title: "the ganache holds much spirit",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        STRONG = Limit::at_most("spirit.flavour", Quantity::SpiritShare, 8.0, Unit::Percent)
            .advice()
            .from(Standing::Practice, &source::GREWELING_2007, "2 to 8 % for flavour");
        SPLITS = Limit::at_most("spirit.max", Quantity::SpiritShare, 15.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::VOCATIONAL_NOTES, "0 to 15 % of the recipe");
    }
}
