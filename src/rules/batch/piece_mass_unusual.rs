use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Scale, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A piece of 8 to 20 g is eaten in one or two bites. A smaller one is more shell than filling, a larger one is bitten in half and runs.
    PieceMassUnusual {
        id: "piece-mass-unusual",
        title: "the piece is unusually light or heavy",
        domain: Domain::Batch,
        part: PartKind::Whole,
        scale: Scale::Piece,
        drivers: &[searched(KnobKind::LayerAmount), searched(KnobKind::WallThickness)],
    }
    limits {
        LIGHT = Limit::at_least("piece-mass.min", Quantity::PieceMass, 8.0, Unit::Gram)
            .advice()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "8 to 20 g, most 10 to 13 g");
        HEAVY = Limit::at_most("piece-mass.max", Quantity::PieceMass, 20.0, Unit::Gram)
            .advice()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "8 to 20 g, most 10 to 13 g");
    }
}
