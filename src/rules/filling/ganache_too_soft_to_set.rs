use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Cocoa butter is what sets a ganache. A piped filling wants at least 18 % of it, a framed and cut one 21 %; milk fat does not take its
    /// place.
    GanacheTooSoftToSet {
        id: "ganache-too-soft-to-set",
        title: "the ganache holds too little cocoa butter to set",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        SOFT = Limit::at_least("ganache-cocoa-butter.min", Quantity::CocoaButter, 18.0, Unit::Percent)
            .from(Standing::Practice, &source::GANACHE_TABLES, "at least 18 % piped, 21 % framed");
    }
}
