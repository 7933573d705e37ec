use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A thin closing plate cracks the day after, when the filling settles and the shell contracts. The headroom must allow a cap of at
    /// least 1.2 mm.
    CapTooThin {
        id: "cap-too-thin",
        title: "the headroom allows only a thin cap",
        domain: Domain::Closing,
        part: PartKind::Cap,
        drivers: &[raises(KnobKind::FillDepth), searched(KnobKind::LayerAmount), searched(KnobKind::WallThickness)],
    }
    limits {
        THIN = Limit::at_least("cap.min", Quantity::CapRoom, 1.2, Unit::Millimeter)
            .from(Standing::Practice, &source::CAPPING_ADVICE, "closing plates of 1.2 to 2.5 mm");
    }
}
