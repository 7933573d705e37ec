//! What neighbouring layers do to each other's water.

use super::{Assessed, Assessment, Estimate, Evidence, PartAssessment, Quantity};
use crate::matter::{Composition, Constituent, Recipe};
use crate::models::water::{Isotherm, Layer as Resting, Material, at_rest};
use crate::piece::{FillingKind, Layer, Piece};
use crate::units::quantity::{Mass, kilogram};
use crate::units::{Band, Checked, MassFraction, Temperature};
use smallvec::SmallVec;

/// A store that is not described, in degrees Celsius.
const ROOM: f64 = 20.0;
/// Below this share of water a filling is a fat with solids in it, and trades water too slowly to count.
const WATERY: f64 = 0.05;

/// Puts the gaps between neighbours and where crisp layers come to rest; masses and activities must have been put.
pub(super) fn assess(piece: &Piece, assessment: &mut Assessment) {
    for index in 0..piece.layers.len() {
        let gap = if is_barred(piece, index) { None } else { gap(&assessment.layers, index, index + 1) };
        let rest = at_rest_with_neighbours(piece, assessment, index);
        if let Some(part) = assessment.layers.get_mut(index) {
            part.put(Quantity::ActivityGap, gap.unwrap_or(Assessed::Absent));
            part.put(Quantity::ActivityAtRest, rest);
        }
    }
}

/// Whether a film lies on a layer.
pub(super) fn is_barred(piece: &Piece, layer: usize) -> bool {
    piece.layers.get(layer).is_some_and(|layer| layer.barrier.is_some())
}

fn neighbours(index: usize, count: usize) -> impl Iterator<Item = usize> {
    [index.checked_sub(1), Some(index + 1).filter(|above| *above < count)].into_iter().flatten()
}

fn trades_water(part: &PartAssessment) -> bool {
    part.kind == Some(FillingKind::Crisp) || part.get(Quantity::Water).value().is_none_or(|water| water >= WATERY)
}

/// The difference of activity between two layers that both trade water.
fn gap(parts: &[PartAssessment], one: usize, two: usize) -> Option<Assessed> {
    let (one, two) = (parts.get(one)?, parts.get(two)?);
    if !(trades_water(one) && trades_water(two)) {
        return None;
    }
    Some(one.get(Quantity::WaterActivity).with(two.get(Quantity::WaterActivity), |one, two| {
        let apart = (one.band.low - two.band.high).max(two.band.low - one.band.high).max(0.0);
        let band = Band {
            value: (one.value() - two.value()).abs(),
            low: apart,
            high: (one.band.high - two.band.low).max(two.band.high - one.band.low),
        };
        Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range: one.in_range && two.in_range })
    }))
}

/// The activity at which a crisp layer comes to rest with the neighbours that no film keeps from it; its own where all are kept off.
fn at_rest_with_neighbours(piece: &Piece, assessment: &Assessment, index: usize) -> Assessed {
    let Some(part) = assessment.layers.get(index) else { return Assessed::Absent };
    if part.kind != Some(FillingKind::Crisp) {
        return Assessed::Absent;
    }
    // A film lies on top of its layer: the crisp's own keeps off what is above, the lower neighbour's what is below.
    let open: SmallVec<[usize; 2]> = neighbours(index, piece.layers.len()).filter(|other| !is_barred(piece, index.min(*other))).collect();
    if open.is_empty() {
        return part.get(Quantity::WaterActivity);
    }
    let compositions: SmallVec<[Option<&Composition>; 3]> = std::iter::once(index)
        .chain(open.iter().copied())
        .map(|at| piece.layers.get(at).and_then(|layer| layer.recipe.as_ref()).map(Recipe::composition))
        .collect();
    let mut resting: SmallVec<[Resting<'_>; 3]> = SmallVec::new();
    for (at, composition) in std::iter::once(index).chain(open.iter().copied()).zip(compositions) {
        let (Some(layer), Some(part)) = (piece.layers.get(at), assessment.layers.get(at)) else { continue };
        let (Some(composition), Some(mass)) = (composition, part.get(Quantity::LayerMass).value()) else {
            return Assessed::lacking(Quantity::ActivityAtRest);
        };
        let Some(material) = material(layer, composition) else { return Assessed::lacking(Quantity::ActivityAtRest) };
        resting.push(Resting { mass: Mass::new::<kilogram>(mass), material });
    }
    at_rest(&resting, store(piece)).map_or(Assessed::lacking(Quantity::ActivityAtRest), |rest| {
        let band = rest.activity.map(Checked::base);
        Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range: rest.in_range })
    })
}

/// How warm the pieces are kept.
pub(super) fn store(piece: &Piece) -> Temperature {
    piece.storage.temperature.unwrap_or(Temperature::nearest(ROOM))
}

/// How a layer holds its water: a measured crisp by the isotherm through what was measured, anything else by what it is made of.
pub(super) fn material<'a>(layer: &Layer, composition: &'a Composition) -> Option<Material<'a>> {
    match (layer.kind, layer.measured.water_activity) {
        (Some(FillingKind::Crisp), Some(measured)) => {
            let water_of = |composition: &Composition| MassFraction::nearest(composition.of(Constituent::Water));
            let water = water_of(composition);
            let on = layer.measured_recipe.as_ref().map_or(water, |recipe| water_of(recipe.composition()));
            let isotherm = Isotherm::through(measured.value, on).ok()?;
            Some(Material::Solid { isotherm, water })
        }
        _ => Some(Material::Filling { composition, crystals: layer.crystals }),
    }
}
