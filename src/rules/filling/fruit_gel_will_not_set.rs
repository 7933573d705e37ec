use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// High-methoxyl pectin sets at 74 to 76 Bx and a pH of 3.0 to 3.5, and nowhere else: thinner it weeps, thicker it turns rubbery, less
    /// acid it never sets. Measure both at the end of cooking.
    FruitGelWillNotSet {
        id: "fruit-gel-will-not-set",
        title: "the fruit paste is outside what sets its pectin",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::FruitGel],
        drivers: &[searched(KnobKind::CookedMass), searched(KnobKind::IngredientMass)],
    }
    limits {
        THIN = Limit::at_least("gel-solids.min", Quantity::DissolvedSolids, 74.0, Unit::Brix)
            .from(Standing::Practice, &source::PUREE_MAKER, "final soluble solids 74 to 75 %");
        THICK = Limit::at_most("gel-solids.max", Quantity::DissolvedSolids, 76.0, Unit::Brix)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "74 to 76 Bx; the maker's sheet of the lower limit ends at 75 %");
        SHARP = Limit::at_least("gel-acid.min", Quantity::Ph, 3.0, Unit::AcidityUnit)
            .from(Standing::Practice, &source::PUREE_MAKER, "pH 3 to 3.5");
        FLAT = Limit::at_most("gel-acid.max", Quantity::Ph, 3.5, Unit::AcidityUnit)
            .from(Standing::Practice, &source::PUREE_MAKER, "pH 3 to 3.5");
    }
}
