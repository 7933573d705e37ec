use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Chocolate that was merely melted sets soft and grey, does not shrink from the mould and drains to a thin wall. Shells and caps are
    /// cast from tempered chocolate only.
    UntemperedChocolate {
        id: "untempered-chocolate",
        title: "the chocolate is not tempered",
        domain: Domain::Workshop,
        part: PartKind::Chocolate,
        drivers: &[searched(KnobKind::Temper)],
    }
    limits {
        TEMPERED = Limit::at_least("temper.required", Quantity::Tempered, 1.0, Unit::One)
            .breach()
            .from(Standing::Practice, &source::GREWELING_2007, "tempering");
    }
}
