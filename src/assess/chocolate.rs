//! The chocolate of a shell or a cap with all that is stirred into it.

use super::{Assessed, Estimate, Evidence, PartAssessment, Quantity, law};
use crate::matter::{AllergenSet, Composition, Constituent, Emulsifier, Ingredient};
use crate::models::density::chocolate as density;
use crate::models::flow::{casting_flow::CastingFlow, couverture::Couverture, emulsifier};
use crate::piece::{Seed, SeedKind, StirredIn, Temper};
use crate::units::quantity::{kilogram_per_cubic_meter, pascal, pascal_second};
use crate::units::{Band, Checked, Temperature, Viscosity, YieldValue};
use std::borrow::Cow;

/// A chocolate as it is poured.
#[derive(Clone, Copy)]
pub(super) struct Poured<'a> {
    pub(super) chocolate: &'a Ingredient,
    pub(super) emulsifiers: &'a [Emulsifier],
    pub(super) stirred_in: &'a [StirredIn],
    pub(super) seed: Option<Seed>,
    pub(super) temper: Option<Temper>,
    pub(super) temperature: Option<Temperature>,
}

/// What couvertures hold when their sheet does not say: none to half a per cent, most of them about 0.4 % (common practice).
pub(super) const UNDECLARED_LECITHIN: Band<f64> = Band { value: 0.004, low: 0.0, high: 0.005 };
/// Tempered dark chocolate is poured at about this temperature.
const POURED_AT: f64 = 31.0;
/// Laboratories measure melted chocolate at this temperature.
const MEASURED_AT: f64 = 40.0;

/// One for yes, zero for no.
pub(super) fn yes(answer: bool) -> f64 {
    f64::from(u8::from(answer))
}

impl<'a> Poured<'a> {
    /// Puts what follows from the chocolate alone.
    pub(super) fn assess(&self, part: &mut PartAssessment) {
        let composition = self.composition();
        part.allergens = part.allergens.union(self.allergens());
        part.chocolate = self.chocolate.chocolate.as_ref().map(|sheet| sheet.kind);
        self.assess_emulsifiers(part);
        law::assess_chocolate(part, self);
        self.assess_flow(part, &composition);
        let stirred_in =
            |constituent| self.stirred_in.iter().map(|added| added.dose.base() * added.ingredient.composition.of(constituent)).sum();
        part.put(Quantity::AddedWater, Assessed::declared(stirred_in(Constituent::Water)));
        part.put(Quantity::CocoaButterAdded, Assessed::declared(stirred_in(Constituent::CocoaButter) + self.seed_butter()));
        let fat = composition.fat();
        part.put(Quantity::ChocolateFat, Assessed::declared(fat));
        part.put(Quantity::OilOfChocolate, Assessed::declared(composition.of(Constituent::LiquidOil)));
        let of_fat = |constituent| if fat > 0.0 { Assessed::declared(composition.of(constituent) / fat) } else { Assessed::Absent };
        part.put(Quantity::MilkFatOfFat, of_fat(Constituent::MilkFat));
        part.put(Quantity::LauricOfFat, of_fat(Constituent::LauricFat));
        part.put(Quantity::Tempered, Assessed::declared_or(self.temper.map(|temper| yes(temper == Temper::Tempered)), Quantity::Tempered));
        part.put(Quantity::WorkingTemperature, Assessed::declared_or(self.temperature.map(Checked::base), Quantity::WorkingTemperature));
        part.put(Quantity::ChocolateDensity, Assessed::Known(Estimate::modelled(self.liquid_density())));
    }

    fn assess_emulsifiers(&self, part: &mut PartAssessment) {
        let declared = self.declared_emulsifiers();
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

    /// Yield value and viscosity as the chocolate is cast: from the sheet, carried to the emulsifiers, the temper, the temperature and what
    /// is stirred in; what the sheet does not give is what chocolates usually have.
    fn assess_flow(&self, part: &mut PartAssessment, composition: &Composition) {
        let flow = self.flow(composition);
        let known = |band: Option<(Band<f64>, bool)>, quantity| {
            band.map_or(Assessed::lacking(quantity), |(band, in_range)| {
                Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range })
            })
        };
        let yield_value = flow.as_ref().map(|(flow, in_range)| (flow.yield_value.map(|stress| stress.get::<pascal>()), *in_range));
        let viscosity = flow.as_ref().map(|(flow, in_range)| (flow.plastic_viscosity.map(|eta| eta.get::<pascal_second>()), *in_range));
        part.put(Quantity::ChocolateYieldValue, known(yield_value, Quantity::ChocolateYieldValue));
        part.put(Quantity::PlasticViscosity, known(viscosity, Quantity::PlasticViscosity));
    }

    /// How the chocolate flows as it is cast, and whether the models are inside their range; none where its solids would jam.
    pub(super) fn flow(&self, composition: &Composition) -> Option<(CastingFlow, bool)> {
        let declared = self.declared_emulsifiers();
        let (held, all) = (emulsifier::total(declared).ok()?, emulsifier::total(declared.iter().chain(self.emulsifiers)).ok()?);
        let sheet = self.chocolate.chocolate.as_ref();
        let measured_at = sheet.and_then(|sheet| sheet.measured_at).unwrap_or(Temperature::nearest(MEASURED_AT));
        let then = Couverture::of(&self.chocolate.composition, held, false, measured_at);
        let now = Couverture::of(composition, all, self.temper != Some(Temper::Untempered), self.poured_at());
        let usual = CastingFlow::undeclared(&now)?;
        let (yield_value, viscosity) = (sheet.and_then(|sheet| sheet.yield_value), sheet.and_then(|sheet| sheet.plastic_viscosity));
        let flow = match (yield_value, viscosity) {
            (None, None) => usual,
            (yield_value, viscosity) => {
                // One of the two may be missing from the sheet; it is replaced below by the usual one.
                let stand_in = YieldValue::nearest(1.0);
                let sheet = CastingFlow::declared(yield_value.unwrap_or(stand_in), viscosity.unwrap_or(Viscosity::nearest(1.0)));
                let carried = sheet.carried(&then, &now)?;
                CastingFlow {
                    yield_value: if yield_value.is_some() { carried.yield_value } else { usual.yield_value },
                    plastic_viscosity: if viscosity.is_some() { carried.plastic_viscosity } else { usual.plastic_viscosity },
                }
            }
        };
        Some((flow, then.inside_range() && now.inside_range()))
    }

    pub(super) fn declared_emulsifiers(&self) -> &[Emulsifier] {
        self.chocolate.chocolate.as_ref().map_or(&[], |sheet| &sheet.emulsifiers)
    }

    fn poured_at(&self) -> Temperature {
        self.temperature.unwrap_or(Temperature::nearest(POURED_AT))
    }

    /// The chocolate with all that is stirred into it, emulsifiers apart.
    pub(super) fn composition(&self) -> Cow<'a, Composition> {
        let seed = self.seed_butter();
        if self.stirred_in.is_empty() && seed <= 0.0 {
            return Cow::Borrowed(&self.chocolate.composition);
        }
        let (butter, own) = (Composition::pure(Constituent::CocoaButter), (&self.chocolate.composition, 1.0));
        let added = self.stirred_in.iter().map(|added| (&added.ingredient.composition, added.dose.base()));
        let mixed = Composition::blend([own, (&butter, seed)].into_iter().chain(added));
        mixed.map_or(Cow::Borrowed(&self.chocolate.composition), Cow::Owned)
    }

    /// Cocoa butter that comes in as seed, of the chocolate's weight.
    fn seed_butter(&self) -> f64 {
        self.seed.filter(|seed| seed.kind == SeedKind::CocoaButter).map_or(0.0, |seed| seed.dose.base())
    }

    /// Density of the chocolate as it is poured, in kg/m³.
    pub(super) fn liquid_density(&self) -> Band<f64> {
        let tempered = self.temper != Some(Temper::Untempered);
        density::liquid(&self.composition(), self.poured_at(), tempered).map(|density| density.get::<kilogram_per_cubic_meter>())
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
        self.declared_emulsifiers()
            .iter()
            .chain(self.emulsifiers)
            .any(|emulsifier| emulsifier.source.is_none() && emulsifier.dose.base() > 0.0)
    }
}
