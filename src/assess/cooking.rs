//! What a thermometer leaves open of a recipe that is boiled to a temperature.

use super::filling::{assess_activity, assess_makeup};
use super::{Assessed, Estimate, Evidence, PartAssessment, Quantity};
use crate::matter::Composition;
use crate::models::water::Saturations;
use crate::piece::{Layer, cooked_mass};
use crate::units::{Band, Checked, MassFraction, Temperature};

/// What follows from the water that is left.
const MOVED: [Quantity; 8] = [
    Quantity::Water,
    Quantity::Fat,
    Quantity::Sugars,
    Quantity::DissolvedSolids,
    Quantity::FatToWater,
    Quantity::WaterActivity,
    Quantity::ActivityWithoutEthanol,
    Quantity::SucroseSupersaturation,
];

/// Widens what was assessed by all that a recipe may weigh when it reaches the temperature it is cooked to.
pub(super) fn widen(part: &mut PartAssessment, layer: &Layer, water_boils_at: Option<Temperature>, store: &Saturations) {
    let Some((recipe, at)) = layer.recipe.as_ref().zip(layer.cooked_at) else { return };
    let Ok((mass, in_range)) = cooked_mass(recipe.lines(), at, water_boils_at) else { return };
    let lines = recipe.lines().iter().map(|line| (&line.ingredient.composition, line.mass.base()));
    let Some(charged) = Composition::blend(lines) else { return };
    for cooked in [mass.low, mass.high] {
        let kept = MassFraction::nearest(cooked / recipe.charge());
        let Ok(composition) = charged.boiled_down(kept) else { continue };
        let mut end = PartAssessment { kind: part.kind, ..PartAssessment::NOTHING };
        assess_makeup(&mut end, Some(&composition));
        assess_activity(&mut end, layer, Some(&composition), store);
        for quantity in MOVED {
            if let (Assessed::Known(is), Assessed::Known(may)) = (part.get(quantity), end.get(quantity)) {
                part.put(quantity, Assessed::Known(Estimate { in_range: is.in_range && may.in_range && in_range, ..spanning(is, may) }));
            }
        }
    }
}

/// What reaches over both; the value stays.
fn spanning(is: Estimate, may: Estimate) -> Estimate {
    let band = Band { value: is.band.value, low: is.band.low.min(may.band.low), high: is.band.high.max(may.band.high) };
    let evidence = if is.evidence == Evidence::Declared { Evidence::Modelled } else { is.evidence };
    Estimate { band, evidence, ..is }
}
