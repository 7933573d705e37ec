//! What makes batches differ, and the piece with one of these off.

use super::Care;
use crate::matter::{Ingredient, Lot, Recipe, RecipeLine};
use crate::piece::{Knob, Piece, Process};
use crate::units::Checked;
use std::sync::Arc;

/// Something that differs from batch to batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cause {
    /// A number that a person sets: a weighing, a cooked mass, a depth, a temperature.
    Setting(Knob),
    /// Another lot of an ingredient, in every recipe that takes it.
    Lot {
        /// The first layer that takes it, counted from zero.
        layer: usize,
        /// The line of its recipe, counted from zero.
        line: usize,
        /// What it holds more or less of.
        of: Lot,
    },
}

impl Cause {
    /// Every cause there is on a piece, with its standard uncertainty in the base unit of what it moves.
    pub(super) fn all(piece: &Piece, care: &Care) -> Vec<(Self, f64)> {
        let settings = Knob::all(piece).filter_map(|knob| Some((Self::Setting(knob), spread(knob, piece, care)?)));
        let mut lots: Vec<(Self, f64)> = Vec::new();
        let mut known: Vec<&str> = Vec::new();
        for (layer, described) in piece.layers.iter().enumerate() {
            for (line, weighed) in described.recipe.iter().flat_map(Recipe::lines).enumerate() {
                // One lot goes into all layers: it is off in all of them together.
                if known.contains(&weighed.ingredient.name.as_str()) {
                    continue;
                }
                known.push(&weighed.ingredient.name);
                lots.extend(weighed.ingredient.lot().map(|(of, spread)| (Self::Lot { layer, line, of }, care.lots.base() * spread)));
            }
        }
        settings.chain(lots).filter(|(_, spread)| *spread > 0.0).collect()
    }

    /// The piece with this off by so much, in the base unit; none where that makes no piece.
    #[must_use]
    pub fn shifted(self, piece: &Piece, by: f64) -> Option<Piece> {
        match self {
            Self::Setting(knob) => knob.set(piece, knob.get(piece)? + by),
            Self::Lot { layer, line, of } => {
                let taken = Arc::clone(&piece.layers.get(layer)?.recipe.as_ref()?.lines().get(line)?.ingredient);
                let composition = taken.composition.with_more(|constituent| of.holds(constituent), by)?;
                let lot = Arc::new(Ingredient { composition, ..Ingredient::clone(&taken) });
                let mut shifted = piece.clone();
                for recipe in shifted.layers.iter_mut().filter_map(|layer| layer.recipe.as_mut()) {
                    let from_lot = |line: &RecipeLine| {
                        let ingredient = if line.ingredient.name == taken.name { &lot } else { &line.ingredient };
                        RecipeLine { ingredient: Arc::clone(ingredient), mass: line.mass }
                    };
                    *recipe = Recipe::new(recipe.lines().iter().map(from_lot).collect(), recipe.cooked_to()).ok()?;
                }
                Some(shifted)
            }
        }
    }
}

/// The standard uncertainty of a knob's setting; none where it is a decision and not a measurement.
fn spread(knob: Knob, piece: &Piece, care: &Care) -> Option<f64> {
    let set = knob.get(piece)?.abs();
    let weighing = Care::weighing(piece.workshop.scale_division.unwrap_or(care.scale_division).base());
    let melted = piece.batch.as_ref().and_then(|batch| batch.melted).unwrap_or(care.melted).base();
    match knob {
        Knob::IngredientMass(..) => Some(weighing.hypot(care.left_behind.base() * set)),
        Knob::CookedMass(_) => Some(weighing.hypot(care.cooking_out.base() * set)),
        Knob::EmulsifierDose(..) if set > 0.0 => Some((weighing / melted).hypot(care.dose_left_behind.base() * set)),
        Knob::StirredInDose(..) if set > 0.0 => Some((weighing / melted).hypot(care.left_behind.base() * set)),
        Knob::LayerAmount(_) => Some(care.depositing.base() * set),
        Knob::FillDepth(_) => Some(care.fill_depth),
        Knob::WallThickness => Some(care.wall),
        Knob::DrainTime => Some(care.draining),
        Knob::Process(Process::ChocolateTemperature) => Some(care.chocolate_temperature),
        Knob::PouringTemperature(_) | Knob::Process(Process::MouldTemperature | Process::EmulsifiedAt) => Some(care.temperature),
        Knob::Process(Process::CooledAt | Process::StorageTemperature) => Some(care.cabinet),
        // What is chosen, promised, waited for at least, merely wanted or not there.
        Knob::Casts
        | Knob::Temper(_)
        | Knob::EmulsifierDose(..)
        | Knob::EmulsifierForm(..)
        | Knob::StirredInDose(..)
        | Knob::CocoaButter(_)
        | Knob::Addition(..)
        | Knob::Process(Process::Keep | Process::RestBeforeCap | Process::CooledFor)
        | Knob::Sale
        | Knob::Barrier(_)
        | Knob::CapThickness
        | Knob::CapCoats => None,
    }
}
