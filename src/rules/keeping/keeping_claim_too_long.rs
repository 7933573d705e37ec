use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A promise longer than fillings of this water activity usually keep ends in returned boxes. What keeps a piece is a class and a cap, never
    /// a date: shorten the promise, lower the activity, and try it on stored pieces.
    KeepingClaimTooLong {
        id: "keeping-claim-too-long",
        title: "the promised keeping time is longer than such fillings keep",
        domain: Domain::Keeping,
        part: PartKind::Layer,
        shows: &[Quantity::WaterActivity],
        drivers: &[
            searched(KnobKind::Process),
            searched(KnobKind::IngredientMass),
            searched(KnobKind::Sweetener),
            searched(KnobKind::CookedMass),
        ],
    }
    limits {
        LONG = Limit::at_most("keeping.promise", Quantity::KeepOverUsual, 1.0, Unit::One)
            .breach()
            .from(Standing::Practice, &source::SHELF_LIFE_CLASSES, "times of the class and, from 0.74 to 0.90, the mould-free time, the shorter");
    }
}
