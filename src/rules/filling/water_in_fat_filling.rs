use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

/// What dry ingredients bring of themselves.
const DRY: f64 = 0.015;

crate::rule! {
    /// A little water stirred into a nut paste does not dissolve in it: it stays in droplets, stiffens the paste and grows mould where nobody
    /// looks. Use dry powders, or make it a ganache with enough sugar.
    WaterInFatFilling {
        id: "water-in-fat-filling",
        title: "the fat filling holds free water",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::NutPaste],
        also_reads: &[Quantity::Water],
        shows: &[Quantity::Water],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        FREE = Limit::at_most("fat-filling.activity", Quantity::WaterActivity, 0.70, Unit::One)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "more than 1.5 % water at an activity above 0.70 grew mould within weeks");
    }
    |look, out| {
        match look.get(Quantity::Water).value() {
            Some(water) if water > DRY => look.compare(&FREE, out),
            Some(_) => {}
            None => look.lack(look.get(Quantity::Water).missing(), out),
        }
    }
}
