use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A water activity meter reads ethanol's vapour as if it were water's or not at all. Above 1 % ethanol the higher of measured and estimated
    /// is used, and a measured value alone lets nothing pass.
    ActivityMeterMisled {
        id: "activity-meter-misled",
        title: "ethanol misleads the water activity meter",
        domain: Domain::Keeping,
        part: PartKind::Layer,
    }
    limits {
        MISLED = Limit::at_most("meter.ethanol", Quantity::EthanolAtMeter, 1.0, Unit::Percent)
            .advice()
            .from(Standing::Practice, &source::ETHANOL_AND_METERS, "volatiles bias the sensors");
    }
}
