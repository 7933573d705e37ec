//! The chocolate of a shell or a cap with all that is stirred into it.

use super::{Assessed, Estimate, Evidence, PartAssessment, Quantity, law};
use crate::matter::{AllergenSet, Composition, Constituent, Emulsifier, Ingredient};
use crate::models::density::chocolate as density;
use crate::models::flow::casting_flow::CastingFlow;
use crate::models::flow::couverture::Couverture;
use crate::models::flow::emulsifier::{self, EmulsifierTotals};
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
        let emulsifiers = self.assess_emulsifiers(part);
        law::assess_chocolate(part, self);
        self.assess_flow(part, &composition, emulsifiers);
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

    /// Puts what emulsifiers it holds in all, and tells it.
    fn assess_emulsifiers(&self, part: &mut PartAssessment) -> Option<EmulsifierTotals> {
        let declared = self.declared_emulsifiers();
        let Ok(totals) = emulsifier::total(declared.iter().chain(self.emulsifiers)) else {
            // More emulsifier than chocolate: no dose that could be judged.
            for quantity in [Quantity::Lecithin, Quantity::Pgpr, Quantity::UnfitEmulsifier] {
                part.put(quantity, Assessed::lacking(Quantity::Lecithin));
            }
            return None;
        };
        let lecithin = totals.lecithin.base();
        let lecithin = if declared.is_empty() {
            Estimate::assumed(UNDECLARED_LECITHIN.map(|undeclared| lecithin + undeclared))
        } else {
            Estimate::declared(lecithin)
        };
        part.put(Quantity::Lecithin, Assessed::Known(lecithin));
        part.put(Quantity::Pgpr, Assessed::declared(totals.pgpr.base()));
        part.put(Quantity::UnfitEmulsifier, Assessed::declared(totals.unfit.base()));
        Some(totals)
    }

    /// Puts yield value and viscosity as the chocolate is cast: from the sheet, carried to the emulsifiers, the temper, the temperature and
    /// what is stirred in; what the sheet does not give is what chocolates usually have.
    fn assess_flow(&self, part: &mut PartAssessment, composition: &Composition, emulsifiers: Option<EmulsifierTotals>) {
        let Some((flow, in_range)) = emulsifiers.and_then(|emulsifiers| self.flow(composition, emulsifiers)) else {
            for quantity in [Quantity::ChocolateYieldValue, Quantity::PlasticViscosity] {
                part.put(quantity, Assessed::lacking(quantity));
            }
            return;
        };
        let known = |band| Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range });
        part.put(Quantity::ChocolateYieldValue, known(flow.yield_value.map(|stress| stress.get::<pascal>())));
        part.put(Quantity::PlasticViscosity, known(flow.plastic_viscosity.map(|viscosity| viscosity.get::<pascal_second>())));
    }

    /// How the chocolate flows as it is cast, and whether the models are inside their range; none where its solids would jam.
    fn flow(&self, composition: &Composition, emulsifiers: EmulsifierTotals) -> Option<(CastingFlow, bool)> {
        let declared = self.declared_emulsifiers();
        let held = if self.emulsifiers.is_empty() { emulsifiers } else { emulsifier::total(declared).ok()? };
        let sheet = self.chocolate.chocolate.as_ref();
        let measured_at = sheet.and_then(|sheet| sheet.measured_at).unwrap_or(Temperature::nearest(MEASURED_AT));
        let then = Couverture::of(&self.chocolate.composition, held, false, measured_at).reckoned();
        let now = Couverture::of(composition, emulsifiers, self.temper != Some(Temper::Untempered), self.poured_at());
        let (usual, now) = (CastingFlow::usual(&now)?, now.reckoned()?);
        let usual = || CastingFlow::as_usual(&usual, &now);
        // One of the two may be missing from the sheet; it is replaced by the usual one.
        let (any_yield, any_viscosity) = (YieldValue::nearest(1.0), Viscosity::nearest(1.0));
        let carried = |yield_value, viscosity| CastingFlow::declared(yield_value, viscosity).carried_over(&then?, &now);
        let flow = match (sheet.and_then(|sheet| sheet.yield_value), sheet.and_then(|sheet| sheet.plastic_viscosity)) {
            (None, None) => usual()?,
            (Some(yield_value), Some(viscosity)) => carried(yield_value, viscosity)?,
            (Some(yield_value), None) => CastingFlow { yield_value: carried(yield_value, any_viscosity)?.yield_value, ..usual()? },
            (None, Some(viscosity)) => CastingFlow { plastic_viscosity: carried(any_yield, viscosity)?.plastic_viscosity, ..usual()? },
        };
        Some((flow, then.is_some_and(|then| then.inside_range()) && now.inside_range()))
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
