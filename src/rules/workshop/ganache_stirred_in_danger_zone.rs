use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Between 23 and 29 °C the fat of a ganache is half set: stirring churns it out and the ganache turns grainy and oily. Emulsify at 32 to
    /// 43 °C, then leave it alone until it has set.
    GanacheStirredInDangerZone {
        id: "ganache-stirred-in-danger-zone",
        title: "the ganache is emulsified at the wrong temperature",
        domain: Domain::Workshop,
        part: PartKind::Whole,
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        COLD = Limit::at_least("emulsify.min", Quantity::EmulsifiedAt, 32.0, Unit::Celsius)
            .breach()
            .from(Standing::Practice, &source::NOTTER_2011, "Separation: 32 to 43 °C, never stirred at 23 to 29 °C");
        HOT = Limit::at_most("emulsify.max", Quantity::EmulsifiedAt, 43.0, Unit::Celsius)
            .breach()
            .from(Standing::Practice, &source::NOTTER_2011, "Separation: 32 to 43 °C, never stirred at 23 to 29 °C");
    }
}
