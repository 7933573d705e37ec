use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Chocolate lets go of the mould because it shrinks as it sets, and that takes time at 14 to 16 °C. Released early it sticks and shows
    /// dull spots; colder it cracks or sweats.
    ReleasedTooSoon {
        id: "released-too-soon",
        title: "the pieces are released before they have shrunk from the mould",
        domain: Domain::Workshop,
        part: PartKind::Whole,
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        COLD = Limit::at_least("cooling.min", Quantity::CooledAt, 14.0, Unit::Celsius)
            .from(Standing::Practice, &source::MAKERS_TROUBLESHOOTING, "14 to 16 °C for at least 2 h after sealing");
        WARM = Limit::at_most("cooling.max", Quantity::CooledAt, 16.0, Unit::Celsius)
            .from(Standing::Practice, &source::MAKERS_TROUBLESHOOTING, "14 to 16 °C for at least 2 h after sealing");
        SHORT = Limit::at_least("cooling.time", Quantity::CooledFor, 2.0, Unit::Hour)
            .from(Standing::Practice, &source::MAKERS_TROUBLESHOOTING, "14 to 16 °C for at least 2 h after sealing");
    }
}
