use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Marshmallow of 17 to 21 % water is tender and stands. Wetter it sweats and collapses, drier it turns tough within weeks.
    MarshmallowMoistureOff {
        id: "marshmallow-moisture-off",
        title: "the marshmallow is too wet or too dry",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Marshmallow],
        drivers: &[searched(KnobKind::CookedMass), searched(KnobKind::IngredientMass)],
    }
    limits {
        TOUGH = Limit::at_least("marshmallow-water.min", Quantity::Water, 17.0, Unit::Percent)
            .from(Standing::Measured, &source::METU_THESIS, "normal marshmallow 17 to 21 % moisture");
        SWEATS = Limit::at_most("marshmallow-water.max", Quantity::Water, 21.0, Unit::Percent)
            .from(Standing::Measured, &source::METU_THESIS, "normal marshmallow 17 to 21 % moisture");
    }
}
