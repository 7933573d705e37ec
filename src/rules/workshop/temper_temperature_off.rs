use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::ChocolateKind;
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Tempered chocolate is worked in a narrow window: colder it thickens, warmer its crystals melt and the temper is lost. Above 34 °C dark,
    /// 32.5 °C milk and 31.5 °C white nothing of the seed is left.
    TemperTemperatureOff {
        id: "temper-temperature-off",
        title: "the chocolate is worked outside the window of its temper",
        domain: Domain::Workshop,
        part: PartKind::Chocolate,
        also_reads: &[Quantity::Tempered],
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        COLD = Limit::at_least("temper.cold", Quantity::WorkingTemperature, 27.0, Unit::Celsius)
            .from(Standing::Practice, &source::GREWELING_2007, "any chocolate: below 27 °C it thickens and forms unstable crystals");
        DARK_LOW = Limit::at_least("temper.dark-low", Quantity::WorkingTemperature, 31.0, Unit::Celsius)
            .from(Standing::Practice, &source::GREWELING_2007, "dark, 31 to 32 °C");
        DARK_HIGH = Limit::at_most("temper.dark-high", Quantity::WorkingTemperature, 32.0, Unit::Celsius)
            .from(Standing::Practice, &source::GREWELING_2007, "dark, 31 to 32 °C");
        DARK_LOST = Limit::at_most("temper.dark-lost", Quantity::WorkingTemperature, 34.0, Unit::Celsius)
            .breach()
            .from(Standing::Practice, &source::GREWELING_2007, "above 34 °C form V melts");
        MILK_LOW = Limit::at_least("temper.milk-low", Quantity::WorkingTemperature, 29.0, Unit::Celsius)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "milk, 29 to 30.5 °C");
        MILK_HIGH = Limit::at_most("temper.milk-high", Quantity::WorkingTemperature, 30.5, Unit::Celsius)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "milk, 29 to 30.5 °C");
        MILK_LOST = Limit::at_most("temper.milk-lost", Quantity::WorkingTemperature, 32.5, Unit::Celsius)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "milk fat lowers every melting point");
        WHITE_LOW = Limit::at_least("temper.white-low", Quantity::WorkingTemperature, 28.0, Unit::Celsius)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "white, 28 to 29.5 °C");
        WHITE_HIGH = Limit::at_most("temper.white-high", Quantity::WorkingTemperature, 29.5, Unit::Celsius)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "white, 28 to 29.5 °C");
        WHITE_LOST = Limit::at_most("temper.white-lost", Quantity::WorkingTemperature, 31.5, Unit::Celsius)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "milk fat lowers every melting point");
    }
    |look, out| {
        // Merely melted chocolate has no temper to lose; that it is untempered is told elsewhere.
        if look.get(Quantity::Tempered).value().is_some_and(|tempered| tempered < 0.5) {
            return;
        }
        let window: &[&Limit] = match look.at.chocolate {
            Some(ChocolateKind::Dark) => &[&DARK_LOW, &DARK_HIGH, &DARK_LOST],
            Some(ChocolateKind::Milk) => &[&MILK_LOW, &MILK_HIGH, &MILK_LOST],
            Some(ChocolateKind::White) => &[&WHITE_LOW, &WHITE_HIGH, &WHITE_LOST],
            // No window is published for ruby chocolate, only what is too cold for any.
            Some(ChocolateKind::Ruby) => &[&COLD],
            None => &[],
        };
        for limit in window {
            look.compare(limit, out);
        }
    }
}
