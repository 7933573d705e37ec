use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Water moves from the wetter layer to the drier until both are alike: a caramel next to a gel turns sandy, the gel dries out. Bring their
    /// activities within 0.10 of each other, or part them with a film of fat.
    LayersTradeWater {
        id: "layers-trade-water",
        title: "neighbouring layers would trade water",
        domain: Domain::Contact,
        part: PartKind::Layer,
        drivers: &[
            searched(KnobKind::Barrier),
            searched(KnobKind::IngredientMass),
            searched(KnobKind::Sweetener),
            searched(KnobKind::CookedMass),
        ],
    }
    limits {
        GAP = Limit::at_most("neighbours.gap", Quantity::ActivityGap, 0.10, Unit::One)
            .from(Standing::Practice, &source::GREWELING_2007, "caramel grains and gel dries over a gap of 0.10");
    }
}
