use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A piece that comes out of the cold into moist air sweats: the water dissolves sugar and leaves grey bloom as it dries. Pieces must be
    /// at least 2 K above the dew point of the room before they are unwrapped.
    CondensationOnPieces {
        id: "condensation-on-pieces",
        title: "cooled pieces would sweat in the room",
        domain: Domain::Workshop,
        part: PartKind::Whole,
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        SWEATS = Limit::at_least("dew-point.above", Quantity::AboveDewPoint, 2.0, Unit::KelvinDifference)
            .from(Standing::Conjecture, &source::MAGNUS, "water condenses at the dew point; 2 K for what the air and the probe are off");
    }
}
