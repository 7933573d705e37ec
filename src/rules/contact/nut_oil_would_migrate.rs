use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

/// Liquid oil of a filling above which it migrates noticeably.
const FREE: f64 = 0.25;

crate::rule! {
    /// The oil of a nut filling creeps through the shell, the faster the warmer: the shell softens and blooms. A quarter of free oil is
    /// enough; keep such pieces below 18 °C, or firm the filling with cocoa butter.
    NutOilWouldMigrate {
        id: "nut-oil-would-migrate",
        title: "the oil of the filling would migrate into the shell",
        domain: Domain::Contact,
        part: PartKind::Layer,
        also_reads: &[Quantity::FreeOil, Quantity::StorageTemperature],
        shows: &[Quantity::FreeOil],
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        WARM = Limit::at_most("migration.warm", Quantity::StorageTemperature, 18.0, Unit::Celsius)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "more than 25 % free oil above 18 °C; none seen in 17 days at 20 °C in one study");
        HOT = Limit::at_most("migration.max", Quantity::StorageTemperature, 22.0, Unit::Celsius)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "above 22 °C; half through 2 mm within 7 to 12 h at 30 °C");
    }
    |look, out| {
        if look.assessment.shell.chocolate.is_none() {
            return;
        }
        match look.get(Quantity::FreeOil).value() {
            Some(oil) if oil > FREE => {
                let whole = look.of_whole();
                whole.compare(&WARM, out);
                whole.compare(&HOT, out);
            }
            Some(_) => {}
            None => look.lack(look.get(Quantity::FreeOil).missing(), out),
        }
    }
}
