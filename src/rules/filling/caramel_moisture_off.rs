use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A caramel inside a shell is piped at 12 to 16 % water. Wetter it runs and spoils, drier it is too firm to pipe and to bite; cooking to
    /// 113 °C leaves about 12 %.
    CaramelMoistureOff {
        id: "caramel-moisture-off",
        title: "the caramel is cooked too little or too far",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Caramel],
        drivers: &[searched(KnobKind::CookedMass), searched(KnobKind::IngredientMass)],
    }
    limits {
        HARD = Limit::at_least("caramel-water.min", Quantity::Water, 12.0, Unit::Percent)
            .from(Standing::Practice, &source::MILLER_HARTEL_2015, "12 % at 113.3 °C; the piped range is common practice");
        RUNNY = Limit::at_most("caramel-water.max", Quantity::Water, 16.0, Unit::Percent)
            .from(Standing::Practice, &source::MILLER_HARTEL_2015, "12 % at 113.3 °C; the piped range is common practice");
    }
}
