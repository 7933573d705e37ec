use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

/// Ethanol in the water phase, by volume, from which it and not the water activity would have to keep a filling (recalled).
const SPIRITED: f64 = 0.20;

crate::rule! {
    /// Above a water activity of 0.85 bacteria that make people ill can grow, so a filling sold at room temperature must stay below it. The
    /// activity is judged as if all ethanol were gone, because it evaporates and its share of vapour misleads; a pass here says nothing of
    /// yeasts and moulds, which are judged apart.
    FillingNotShelfStable {
        id: "filling-not-shelf-stable",
        title: "the filling is not safe at room temperature by its water activity",
        domain: Domain::Keeping,
        part: PartKind::Layer,
        also_reads: &[Quantity::SpiritStrength, Quantity::AmbientSale],
        shows: &[Quantity::WaterActivity, Quantity::SpiritStrength, Quantity::Ph],
        drivers: &[searched(KnobKind::Sale), searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener), raises(KnobKind::CookedMass)],
    }
    limits {
        PATHOGENS = Limit::at_most("activity.ambient", Quantity::ActivityWithoutEthanol, 0.85, Unit::One)
            .breach()
            .from(Standing::Measured, &source::WINKLER_2009, "below 0.85 pathogens do not grow");
        PATHOGENS_IN_SPIRIT = Limit::at_most("activity.ambient-in-spirit", Quantity::ActivityWithoutEthanol, 0.85, Unit::One)
            .from(Standing::Practice, &source::WINKLER_2009, "alcohol, not activity, would have to keep this: have it confirmed");
    }
    |look, out| {
        let sale = look.assessment.whole.get(Quantity::AmbientSale);
        look.lack(sale.missing(), out);
        if sale.value().is_some_and(|ambient| ambient > 0.5) {
            let spirited = look.get(Quantity::SpiritStrength).value().is_some_and(|strength| strength >= SPIRITED);
            look.compare(if spirited { &PATHOGENS_IN_SPIRIT } else { &PATHOGENS }, out);
        }
    }
}
