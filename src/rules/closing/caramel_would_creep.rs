use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::Crystals;
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A soft caramel flows for weeks: it finds the seam of the cap and any pinhole and creeps out. Above 16 % water only crystals, from a
    /// quarter of its mass, stop the flow.
    CaramelWouldCreep {
        id: "caramel-would-creep",
        title: "the caramel would creep out through the seam",
        domain: Domain::Closing,
        part: PartKind::Layer,
        kinds: &[FillingKind::Caramel],
        drivers: &[searched(KnobKind::CookedMass), searched(KnobKind::IngredientMass)],
    }
    limits {
        FLOWS = Limit::at_most("caramel-water.creeps", Quantity::Water, 16.0, Unit::Percent)
            .from(Standing::Practice, &source::MILLER_HARTEL_2015, "cold flow ends above 25 to 30 % crystals; 12 to 16 % water piped");
    }
    |look, out| {
        if matches!(look.at.crystals, None | Some(Crystals::Dissolved)) {
            look.compare(&FLOWS, out);
        }
    }
}
