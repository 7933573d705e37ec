use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A cold mould chills the chocolate to streaks and early setting, a hot one takes the temper away. Schools work at 19 to 21 or at 26 to
    /// 27 °C, always a little below the chocolate.
    MouldTemperatureOff {
        id: "mould-temperature-off",
        title: "the mould is too cold or too warm",
        domain: Domain::Casting,
        part: PartKind::Shell,
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        COLD = Limit::at_least("mould.min", Quantity::MouldTemperature, 19.0, Unit::Celsius)
            .advice()
            .from(Standing::Practice, &source::MOULDING_COURSE, "19 to 21 °C by one school, 26 to 27 °C by another");
        WARM = Limit::at_most("mould.max", Quantity::MouldTemperature, 27.0, Unit::Celsius)
            .advice()
            .from(Standing::Practice, &source::MOULDING_COURSE, "19 to 21 °C by one school, 26 to 27 °C by another");
        CLOSE = Limit::at_least("mould.below-chocolate", Quantity::MouldBelowChocolate, 2.0, Unit::KelvinDifference)
            .advice()
            .from(Standing::Practice, &source::MOULDING_COURSE, "never above the tempered chocolate");
    }
}
