use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A thin wall breaks at release and lets a liquid through; a thick one eats like solid chocolate. A filling that pours wants a wall
    /// of at least 2 mm, anything else 1.2 to 2.2 mm, and below 1 mm no wall holds.
    ShellThicknessOutsideRange {
        id: "shell-thickness-outside-range",
        title: "the wall does not suit the filling",
        domain: Domain::Casting,
        part: PartKind::Shell,
        also_reads: &[Quantity::YieldValue],
        drivers: &[raises(KnobKind::WallThickness)],
    }
    limits {
        BREAKS = Limit::at_least("wall.min", Quantity::WallThickness, 1.0, Unit::Millimeter)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "below about 1.0 mm expect breakage at release");
        THIN = Limit::at_least("wall.thin", Quantity::WallThickness, 1.2, Unit::Millimeter)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "1.2 to 2.2 mm for fillings that hold");
        THICK = Limit::at_most("wall.thick", Quantity::WallThickness, 2.2, Unit::Millimeter)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "1.2 to 2.2 mm for fillings that hold");
        LIQUID = Limit::at_least("wall.liquid", Quantity::WallThickness, 2.0, Unit::Millimeter)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "2.0 to 3.0 mm for liquids");
        LIQUID_THICK = Limit::at_most("wall.liquid-thick", Quantity::WallThickness, 3.0, Unit::Millimeter)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "2.0 to 3.0 mm for liquids");
    }
    |look, out| {
        look.compare(&BREAKS, out);
        match look.assessment.holds_liquid() {
            Ok(Some(true)) => {
                look.compare(&LIQUID, out);
                look.compare(&LIQUID_THICK, out);
            }
            Ok(Some(false)) => {
                look.compare(&THIN, out);
                look.compare(&THICK, out);
            }
            Ok(None) => {}
            Err(missing) => look.lack(missing, out),
        }
    }
}
