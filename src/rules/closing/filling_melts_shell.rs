use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::matter::ChocolateKind;
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A warm filling melts the inside of the shell and takes its temper: the wall blooms and sticks to the mould. Pour at 26 to 28 °C, into
    /// milk and white shells at 26 °C at most.
    FillingMeltsShell {
        id: "filling-melts-shell",
        title: "the filling is poured too warm for the shell",
        domain: Domain::Closing,
        part: PartKind::Layer,
        shows: &[Quantity::ShellMelted],
        drivers: &[raises(KnobKind::PouringTemperature)],
    }
    limits {
        WARM_FOR_MILK = Limit::at_most("pouring.milk-shell", Quantity::PouringTemperature, 26.0, Unit::Celsius)
            .from(Standing::Practice, &source::MOULDING_COURSE, "26 to 28 °C; milk and white chocolate melt about 2 °C lower");
        HOT = Limit::at_most("pouring.max", Quantity::PouringTemperature, 28.0, Unit::Celsius)
            .breach()
            .from(Standing::Practice, &source::MOULDING_COURSE, "at most 28 °C");
    }
    |look, out| {
        if look.assessment.shell.chocolate.is_some_and(ChocolateKind::holds_milk) {
            look.compare(&WARM_FOR_MILK, out);
        }
        if look.assessment.shell.chocolate.is_some() {
            look.compare(&HOT, out);
        }
    }
}
