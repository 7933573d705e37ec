use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Scale, Standing};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// To cast a mould one fills it to the rim and pours most of it back: what is deposited alone does not fill it. Melt at least one and a half
    /// times what a full mould takes.
    MeltPoolTooSmall {
        id: "melt-pool-too-small",
        title: "too little chocolate is melted to cast a mould",
        domain: Domain::Batch,
        part: PartKind::Whole,
        scale: Scale::Batch,
    }
    limits {
        SMALL = Limit::at_least("melt-pool.min", Quantity::MeltPool, 1.5, Unit::One)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "one and a half to two times the mould's volume");
    }
}
