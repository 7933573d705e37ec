use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Fat-free cocoa swells in the water of a ganache for days: above 15 % the ganache turns hard and short, and may split. Blend in a
    /// chocolate of less cocoa.
    GanacheCocoaTooDry {
        id: "ganache-cocoa-too-dry",
        title: "the ganache holds too much dry cocoa",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        DRY = Limit::at_most("ganache-cocoa.max", Quantity::FatFreeCocoa, 15.0, Unit::Percent)
            .from(Standing::Practice, &source::MCGEE_2004, "cocoa particles swell with time; 15 % is common practice");
    }
}
