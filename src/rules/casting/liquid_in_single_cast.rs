use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A single thin cast has pinholes that a liquid finds within days. Cast twice, letting the first wall set, or leave the wall at
    /// least 2 mm thick.
    LiquidInSingleCast {
        id: "liquid-in-single-cast",
        title: "a liquid filling in a thin shell cast once",
        domain: Domain::Casting,
        part: PartKind::Shell,
        also_reads: &[Quantity::YieldValue],
        drivers: &[raises(KnobKind::Casts), raises(KnobKind::WallThickness)],
    }
    limits {
        CASTS = Limit::at_least("casts.liquid", Quantity::Casts, 2.0, Unit::One)
            .from(Standing::Practice, &source::CIA_2015, "two coats keep a filling from seeping");
        WALL = Limit::at_least("wall.liquid-single-cast", Quantity::WallThickness, 2.0, Unit::Millimeter)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "a liquid in one cast needs 2 mm");
    }
    |look, out| {
        match look.assessment.holds_liquid() {
            Ok(Some(true)) => {
                // Either cure is enough: where one is met it is read, else both.
                let value = |limit: &Limit| look.get(limit.quantity).value();
                let met = |limit: &'static Limit| value(limit).is_some_and(|value| limit.margin(value, look.bound(limit)) >= 0.0);
                let read: &[_] = if met(&WALL) { &[&WALL] } else if met(&CASTS) { &[&CASTS] } else { &[&CASTS, &WALL] };
                read.iter().for_each(|limit| look.compare(limit, out));
            }
            Ok(_) => {}
            Err(missing) => look.lack(missing, out),
        }
    }
}
