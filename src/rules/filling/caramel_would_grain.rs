use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Syrup solids keep the sucrose of a caramel from crystallising. Take at least one and a quarter parts of them to one of sucrose, and
    /// mind that much more makes it tough or lets it flow.
    CaramelWouldGrain {
        id: "caramel-would-grain",
        title: "the caramel holds too little syrup for its sugar",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Caramel],
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener)],
    }
    limits {
        GRAINS = Limit::at_least("caramel-syrup.min", Quantity::DoctorRatio, 1.25, Unit::One)
            .from(Standing::Practice, &source::TRADE_ASSOCIATION, "tip 310: at least 1.25 parts of syrup to one of sugar, solids");
    }
}
