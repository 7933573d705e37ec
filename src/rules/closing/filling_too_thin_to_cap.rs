use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Liquid chocolate is heavier than a spirit: poured on a thin filling it sinks through, and the filling comes out over the rim. The
    /// filling must be denser than the chocolate, or thick enough (its yield value) to carry the puddle of cap while it sets.
    FillingTooThinToCap {
        id: "filling-too-thin-to-cap",
        title: "the filling cannot carry the cap",
        domain: Domain::Closing,
        part: PartKind::TopLayer,
        also_reads: &[Quantity::YieldNeeded, Quantity::YieldNeededAnyPour, Quantity::YieldValue],
        shows: &[Quantity::YieldNeeded, Quantity::YieldNeededAnyPour, Quantity::YieldValue, Quantity::DensityRatio],
        drivers: &[
            searched(KnobKind::Thickener),
            searched(KnobKind::IngredientMass),
            searched(KnobKind::FillDepth),
            searched(KnobKind::LayerAmount),
        ],
    }
    limits {
        SUPPORT = Limit::at_least("support.min", Quantity::CapSupport, 1.0, Unit::One)
            .breach()
            .from(Standing::Conjecture, &source::PRANDTL_1920, "bearing load of a puddle, and Beris 1985 for a drop that sinks");
        ANY_POUR = Limit::at_least("support.any-pour", Quantity::CapSupportAnyPour, 1.0, Unit::One)
            .advice()
            .from(Standing::Conjecture, &source::BERIS_1985, "force balance of a plug that fills the opening");
    }
}
