use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Water is what spoils a ganache. Up to 20 % it can be sold from the shelf, up to 24 % with short dates, and above that it belongs in
    /// the cold and is sold fresh.
    GanacheTooWet {
        id: "ganache-too-wet",
        title: "the ganache holds too much water",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        also_reads: &[Quantity::FreshSale],
        drivers: &[searched(KnobKind::Sale), searched(KnobKind::IngredientMass)],
    }
    limits {
        SHELF = Limit::at_most("ganache-water.shelf", Quantity::Water, 20.0, Unit::Percent)
            .from(Standing::Practice, &source::GANACHE_TABLES, "water at most 20 %");
        KEPT = Limit::at_most("ganache-water.max", Quantity::Water, 24.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::GANACHE_TABLES, "20 to 24 % short dates, above 24 % fresh only");
    }
    |look, out| {
        look.compare(&SHELF, out);
        let sale = look.assessment.whole.get(Quantity::FreshSale);
        if sale.value().is_some_and(|fresh| fresh < 0.5) {
            look.compare(&KEPT, out);
        }
        look.lack(sale.missing(), out);
    }
}
