use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Sugars bind the water of a ganache and keep it smooth. Below 30 %, those of the chocolate counted, it dries out, grains or spoils early.
    GanacheShortOfSugars {
        id: "ganache-short-of-sugars",
        title: "the ganache is short of sugars",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener)],
    }
    limits {
        SHORT = Limit::at_least("ganache-sugars.min", Quantity::Sugars, 30.0, Unit::Percent)
            .from(Standing::Practice, &source::GANACHE_TABLES, "at least 30 %; another table says 25 %");
    }
}
