use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A chocolate without enough yield value runs off the wall of the mould: what is left is a film that breaks at release. Untempered, hot or
    /// overdosed chocolate does that.
    ChocolateTooThinToCast {
        id: "chocolate-too-thin-to-cast",
        title: "the chocolate is too thin to cast",
        domain: Domain::Flow,
        part: PartKind::Shell,
        drivers: &[searched(KnobKind::EmulsifierDose), searched(KnobKind::StirredInDose), searched(KnobKind::Temper)],
    }
    limits {
        THIN = Limit::at_least("yield.min", Quantity::ChocolateYieldValue, 2.0, Unit::Pascal)
            .from(Standing::Conjecture, &source::PROJECT, "2 Pa holds 0.17 mm on an upright wall");
    }
}
