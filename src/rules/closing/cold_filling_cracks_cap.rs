use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A filling colder than the room expands after it is closed and lifts or cracks the cap. Let chilled fillings come to 20 °C before
    /// they are capped.
    ColdFillingCracksCap {
        id: "cold-filling-cracks-cap",
        title: "the filling is poured cold and would push the cap out as it warms",
        domain: Domain::Closing,
        part: PartKind::Layer,
        drivers: &[raises(KnobKind::PouringTemperature)],
    }
    limits {
        COLD = Limit::at_least("pouring.min", Quantity::PouringTemperature, 15.0, Unit::Celsius)
            .from(Standing::Practice, &source::CAPPING_ADVICE, "cold centres push out through cracks as the chocolate sets");
    }
    |look, out| {
        if look.assessment.shell.chocolate.is_some() {
            look.compare(&COLD, out);
        }
    }
}
