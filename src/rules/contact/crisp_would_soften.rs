use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A wafer or biscuit next to a wet filling draws its water and goes soft within a day or two. Lowering the activity a little does not save
    /// it, a closed film of chocolate or cocoa butter does.
    CrispWouldSoften {
        id: "crisp-would-soften",
        title: "the crisp would go soft beside its neighbour",
        domain: Domain::Contact,
        part: PartKind::Layer,
        kinds: &[FillingKind::Crisp],
        drivers: &[searched(KnobKind::Barrier), searched(KnobKind::IngredientMass)],
    }
    limits {
        LOSES_SNAP = Limit::at_most("crisp.snap", Quantity::ActivityAtRest, 0.35, Unit::One)
            .from(Standing::Practice, &source::CRISP_CLASSICS, "crisp up to 0.35 to 0.50");
        SOFT = Limit::at_most("crisp.max", Quantity::ActivityAtRest, 0.50, Unit::One)
            .breach()
            .from(Standing::Practice, &source::CRISP_CLASSICS, "soft above 0.35 to 0.50");
    }
}
