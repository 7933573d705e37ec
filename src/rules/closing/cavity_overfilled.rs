use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Scale, Standing, lowers, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// The layers together need more room than the shell leaves inside. What does not fit runs over the rim and spoils the seam of every
    /// neighbour in the mould.
    CavityOverfilled {
        id: "cavity-overfilled",
        title: "the layers do not fit into the shell",
        domain: Domain::Closing,
        part: PartKind::Whole,
        scale: Scale::Piece,
        shows: &[Quantity::InnerVolume],
        drivers: &[raises(KnobKind::LayerAmount), raises(KnobKind::WallThickness), lowers(KnobKind::FillDepth)],
    }
    limits {
        FULL = Limit::at_most("fill.max", Quantity::FillShare, 100.0, Unit::Percent)
            .breach()
            .from(Standing::Measured, &source::ARITHMETIC, "volume of the layers against the volume inside the shell");
    }
}
