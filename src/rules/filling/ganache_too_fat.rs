use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Above 40 % fat a ganache has too little syrup to hold its droplets: it splits as it cools. Rich creams and butter bring more fat than
    /// one thinks.
    GanacheTooFat {
        id: "ganache-too-fat",
        title: "the ganache holds too much fat",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        LEAN = Limit::at_least("ganache-fat.min", Quantity::Fat, 25.0, Unit::Percent)
            .from(Standing::Practice, &source::GANACHE_TABLES, "total fat 25 to 40 %");
        SPLITS = Limit::at_most("ganache-fat.max", Quantity::Fat, 40.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::GANACHE_TABLES, "above about 40 % expect splitting");
    }
}
