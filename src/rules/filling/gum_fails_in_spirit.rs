use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::Constituent;
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

/// Ethanol by volume below which no gum minds.
const WEAK: f64 = 0.05;

crate::rule! {
    /// Spirit takes the water a gum needs. Xanthan bears up to half spirit by volume if it was wetted first; starch and guar fall out above
    /// a fifth.
    GumFailsInSpirit {
        id: "gum-fails-in-spirit",
        title: "the gum would fall out in so much spirit",
        domain: Domain::Filling,
        part: PartKind::Layer,
        also_reads: &[Quantity::SpiritStrength, Quantity::HydratedFirst],
        shows: &[Quantity::SpiritStrength],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        XANTHAN = Limit::at_most("gum-spirit.xanthan", Quantity::SpiritStrength, 50.0, Unit::PercentVolume)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "careful; finished systems carry up to 60 %");
        DRY = Limit::at_least("gum-spirit.hydrated", Quantity::HydratedFirst, 1.0, Unit::One)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "wetted and swollen before any spirit");
        OTHERS = Limit::at_most("gum-spirit.others", Quantity::SpiritStrength, 20.0, Unit::PercentVolume)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "starch and guar up to 20 %vol");
    }
    |look, out| {
        // What is not known may be spirit.
        let spirited = look.get(Quantity::SpiritStrength).value().is_none_or(|strength| strength > WEAK);
        match look.at.gum {
            Some(Constituent::Xanthan) if spirited => {
                look.compare(&XANTHAN, out);
                look.compare(&DRY, out);
            }
            Some(Constituent::Guar | Constituent::Starch | Constituent::LocustBeanGum) if spirited => look.compare(&OTHERS, out),
            Some(_) => {}
            None => look.lack(look.get(Quantity::SpiritStrength).missing(), out),
        }
    }
}
