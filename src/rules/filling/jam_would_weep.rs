use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Table jam of 65 Bx lets water go inside a shell: it weeps, wets the chocolate and moulds. Cook it to 70 Bx or more, or bind it with a
    /// gum.
    JamWouldWeep {
        id: "jam-would-weep",
        title: "the jam is too thin to be closed into a shell",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Jam],
        drivers: &[searched(KnobKind::CookedMass), searched(KnobKind::IngredientMass)],
    }
    limits {
        WEEPS = Limit::at_least("jam-solids.min", Quantity::DissolvedSolids, 70.0, Unit::Brix)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "72 to 75 Bx inside a shell");
    }
}
