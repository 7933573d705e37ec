//! The water that two neighbours trade. No rule judges it, so it is told when it is asked for, not in every assessment.

use super::{Assessment, Quantity, contact};
use crate::matter::Recipe;
use crate::models::bounds::Bounds;
use crate::models::water::exchange_time::{Body, Contact, half_time};
use crate::models::water::{Fate, Layer as Resting, LayerAtRest, at_rest};
use crate::piece::{FillingKind, Piece};
use crate::units::quantity::{Area, Length, Mass, Ratio, Time, kilogram, meter, ratio, square_meter};
use crate::units::{Band, Checked, WaterActivity};
use std::f64::consts::PI;

/// What a layer and the one that lies on it do to each other, had they no other neighbour.
#[derive(Debug, Clone, PartialEq)]
pub struct Exchange {
    /// The water activity both come to.
    pub activity: Band<WaterActivity>,
    /// What becomes of the lower one.
    pub lower: LayerAtRest,
    /// What becomes of the upper one.
    pub upper: LayerAtRest,
    /// The time in which half of the water has moved; none where it is not told which way it goes, or over what area.
    pub half_time: Option<Bounds<Time>>,
    /// Whether a film parts them.
    pub film: bool,
}

/// The exchange between a layer and the one above it; none where there is none above, or the amount or the make-up of either is not known.
#[must_use]
pub fn exchange(piece: &Piece, assessment: &Assessment, lower: usize) -> Option<Exchange> {
    let recipes = [lower, lower + 1].map(|at| piece.layers.get(at)?.recipe.as_ref().map(Recipe::composition));
    let [Some(below), Some(above)] = &recipes else { return None };
    let resting = |at: usize, composition| {
        let (layer, part) = (piece.layers.get(at)?, assessment.layers.get(at)?);
        let mass = Mass::new::<kilogram>(part.get(Quantity::LayerMass).value()?);
        Some(Resting { mass, material: contact::material(layer, composition)? })
    };
    let rest = at_rest(&[resting(lower, below)?, resting(lower + 1, above)?], contact::store(piece)).ok()?;
    let [one, two] = rest.layers.as_slice() else { return None };
    let film = contact::is_barred(piece, lower);
    let half_time = match (one.fate(), two.fate()) {
        (Fate::Softens, Fate::Dries) => halfway(piece, assessment, lower, one, two, film),
        (Fate::Dries, Fate::Softens) => halfway(piece, assessment, lower + 1, two, one, film),
        _ => None,
    };
    Some(Exchange { activity: rest.activity, lower: *one, upper: *two, half_time, film })
}

/// How long the layer `at` takes to take up half of what it will.
fn halfway(
    piece: &Piece,
    assessment: &Assessment,
    at: usize,
    taker: &LayerAtRest,
    giver: &LayerAtRest,
    film: bool,
) -> Option<Bounds<Time>> {
    // Layers meet over the opening, or less where the mould narrows.
    let area = PI / 4.0 * assessment.whole.get(Quantity::Opening).value()?.powi(2);
    let volume = assessment.layers.get(at)?.get(Quantity::LayerVolume).value()?;
    let porous = piece.layers.get(at)?.kind == Some(FillingKind::Crisp);
    let contact = Contact {
        area: Area::new::<square_meter>(area),
        depth: Length::new::<meter>(volume / area),
        body: if porous { Body::Porous } else { Body::Dense },
        film,
    };
    let apart = Ratio::new::<ratio>(giver.before.value.base() - taker.before.value.base());
    Some(half_time(taker.gain.value, apart, contact, contact::store(piece)))
}
