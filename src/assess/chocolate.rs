//! The chocolate of a shell or a cap with all that is stirred into it.

use super::{Assessed, Estimate, PartAssessment, Quantity};
use crate::matter::{AllergenSet, Composition, Constituent, Emulsifier, Ingredient};
use crate::models::density::chocolate as density;
use crate::models::flow::emulsifier;
use crate::piece::{StirredIn, Temper};
use crate::units::quantity::kilogram_per_cubic_meter;
use crate::units::{Band, Checked, Temperature};

/// A chocolate as it is poured.
#[derive(Clone, Copy)]
pub(super) struct Poured<'a> {
    pub(super) chocolate: &'a Ingredient,
    pub(super) emulsifiers: &'a [Emulsifier],
    pub(super) stirred_in: &'a [StirredIn],
    pub(super) temper: Option<Temper>,
    pub(super) temperature: Option<Temperature>,
}

/// What couvertures hold when their sheet does not say: none to half a per cent, most of them about 0.4 % (common practice).
const UNDECLARED_LECITHIN: Band<f64> = Band { value: 0.004, low: 0.0, high: 0.005 };
/// Tempered dark chocolate is poured at about this temperature.
const POURED_AT: f64 = 31.0;

impl Poured<'_> {
    /// Puts what follows from the chocolate alone.
    pub(super) fn assess(&self, part: &mut PartAssessment) {
        part.allergens = part.allergens.union(self.allergens());
        self.assess_emulsifiers(part);
        let water = self.stirred_in.iter().map(|added| added.dose.base() * added.ingredient.composition.of(Constituent::Water)).sum();
        part.put(Quantity::AddedWater, Assessed::declared(water));
        part.put(Quantity::ChocolateFat, Assessed::declared(self.composition().fat()));
        part.put(
            Quantity::Tempered,
            Assessed::declared_or(self.temper.map(|temper| f64::from(u8::from(temper == Temper::Tempered))), Quantity::Tempered),
        );
        part.put(Quantity::ChocolateDensity, Assessed::Known(Estimate::modelled(self.liquid_density())));
        let sheet = self.chocolate.chocolate.as_ref();
        let declared = |value: Option<f64>| value.map_or(Assessed::Absent, Assessed::declared);
        part.put(Quantity::ChocolateYieldValue, declared(sheet.and_then(|sheet| sheet.yield_value).map(Checked::base)));
        part.put(Quantity::PlasticViscosity, declared(sheet.and_then(|sheet| sheet.plastic_viscosity).map(Checked::base)));
    }

    fn assess_emulsifiers(&self, part: &mut PartAssessment) {
        let declared = self.chocolate.chocolate.as_ref().map_or(&[][..], |sheet| &sheet.emulsifiers);
        let Ok(totals) = emulsifier::total(declared.iter().chain(self.emulsifiers)) else {
            // More emulsifier than chocolate: no dose that could be judged.
            for quantity in [Quantity::Lecithin, Quantity::Pgpr, Quantity::UnfitEmulsifier] {
                part.put(quantity, Assessed::lacking(Quantity::Lecithin));
            }
            return;
        };
        let lecithin = totals.lecithin.base();
        let lecithin = if declared.is_empty() {
            Estimate::assumed(Band {
                value: lecithin + UNDECLARED_LECITHIN.value,
                low: lecithin + UNDECLARED_LECITHIN.low,
                high: lecithin + UNDECLARED_LECITHIN.high,
            })
        } else {
            Estimate::declared(lecithin)
        };
        part.put(Quantity::Lecithin, Assessed::Known(lecithin));
        part.put(Quantity::Pgpr, Assessed::declared(totals.pgpr.base()));
        part.put(Quantity::UnfitEmulsifier, Assessed::declared(totals.unfit.base()));
    }

    /// The chocolate with all that is stirred into it, emulsifiers apart.
    fn composition(&self) -> Composition {
        let added = self.stirred_in.iter().map(|added| (&added.ingredient.composition, added.dose.base()));
        Composition::blend(std::iter::once((&self.chocolate.composition, 1.0)).chain(added)).unwrap_or(self.chocolate.composition)
    }

    /// Density of the chocolate as it is poured, in kg/m³.
    pub(super) fn liquid_density(&self) -> Band<f64> {
        let temperature = self.temperature.unwrap_or(Temperature::nearest(POURED_AT));
        let tempered = self.temper != Some(Temper::Untempered);
        density::liquid(&self.composition(), temperature, tempered).map(|density| density.get::<kilogram_per_cubic_meter>())
    }

    /// Density of the set chocolate, in kg/m³.
    pub(super) fn solid_density(&self) -> Band<f64> {
        density::solid(&self.composition()).map(|density| density.get::<kilogram_per_cubic_meter>())
    }

    fn allergens(&self) -> AllergenSet {
        let added = self.stirred_in.iter().map(|added| added.ingredient.allergens);
        let emulsifiers =
            self.emulsifiers.iter().filter_map(|emulsifier| emulsifier.source).map(crate::matter::EmulsifierSource::allergens);
        added.chain(emulsifiers).fold(self.chocolate.allergens, AllergenSet::union)
    }

    /// Whether some lecithin may come from any plant.
    pub(super) fn has_lecithin_of_unknown_plant(&self) -> bool {
        let declared = self.chocolate.chocolate.as_ref().map_or(&[][..], |sheet| &sheet.emulsifiers);
        declared.iter().chain(self.emulsifiers).any(|emulsifier| emulsifier.source.is_none() && emulsifier.dose.base() > 0.0)
    }
}
