use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::Market;
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// The US Food Code tells by water activity and pH together which foods must be kept cold. What its tables do not clear must be held cold or
    /// be cleared by an assessment of the product.
    NeedsTimeTemperatureControl {
        id: "needs-time-temperature-control",
        title: "the filling needs time or temperature control",
        domain: Domain::Law,
        part: PartKind::Layer,
        markets: &[Market::Us],
        also_reads: &[Quantity::AmbientSale],
        shows: &[Quantity::ActivityWithoutEthanol, Quantity::Ph],
        drivers: &[searched(KnobKind::Sale), searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener), searched(KnobKind::CookedMass)],
    }
    limits {
        COLD = Limit::at_most("food-code.needs-cold", Quantity::NeedsCold, 0.0, Unit::One)
            .breach()
            .from(Standing::Statute, &source::FOOD_CODE, "tables A and B, interaction of pH and water activity");
    }
    |look, out| {
        let sale = look.assessment.whole.get(Quantity::AmbientSale);
        if sale.value().is_some_and(|ambient| ambient > 0.5) {
            look.compare(&COLD, out);
        }
        look.lack(sale.missing(), out);
    }
}
