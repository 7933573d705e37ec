use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

/// Below this a store is a freezer, in degrees Celsius.
const FREEZER: f64 = 0.0;

crate::rule! {
    /// Chocolates keep at 12 to 18 °C and at most 60 % humidity. Warmer they bloom, colder they sweat when they come out, moister they turn
    /// sticky and grey.
    StorageOff {
        id: "storage-off",
        title: "the store is too warm, too cold or too moist",
        domain: Domain::Keeping,
        part: PartKind::Whole,
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        COLD = Limit::at_least("storage.min", Quantity::StorageTemperature, 12.0, Unit::Celsius)
            .from(Standing::Practice, &source::CONFECTIONERS_PAGES, "15 to 17, 15 to 18, 12 to 18, 16 to 20 °C");
        WARM = Limit::at_most("storage.max", Quantity::StorageTemperature, 18.0, Unit::Celsius)
            .from(Standing::Practice, &source::CONFECTIONERS_PAGES, "15 to 17, 15 to 18, 12 to 18, 16 to 20 °C");
        MOIST = Limit::at_most("storage.humidity", Quantity::StorageHumidity, 60.0, Unit::PercentHumidity)
            .from(Standing::Practice, &source::CONFECTIONERS_PAGES, "at most 60 %");
    }
    |look, out| {
        // A freezer is no store that is a little cold: what it does to a piece is judged by itself.
        if look.get(Quantity::StorageTemperature).value().is_none_or(|celsius| celsius >= FREEZER) {
            look.compare_all(out);
        }
    }
}
