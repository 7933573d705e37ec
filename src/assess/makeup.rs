//! What a recipe is mixed from: chocolate, cream, spirits, humectants, gums.

use super::{Assessed, PartAssessment, Quantity};
use crate::matter::Recipe;
use crate::piece::Layer;

/// Puts the shares that follow from the lines of a recipe.
pub(super) fn assess(part: &mut PartAssessment, layer: &Layer, recipe: &Recipe) {
    let mixed = recipe.proportions();
    let share = |mass: f64| Assessed::declared(mass / mixed.yielded);
    part.put(Quantity::LargestHumectant, share(mixed.largest_humectant));
    part.put(Quantity::Humectants, share(mixed.humectants));
    part.put(Quantity::SpiritShare, share(mixed.spirit));
    part.chocolate = mixed.main_chocolate;
    if mixed.cream > 0.0 {
        part.put(Quantity::ChocolateToCream, Assessed::declared(mixed.chocolate / mixed.cream));
    }
    if mixed.spirit > 0.0 {
        part.put(Quantity::ChocolateToLiquid, Assessed::declared(mixed.chocolate / (mixed.cream + mixed.spirit)));
    }
    part.gum = mixed.main_gum;
    let hydrated = layer.hydrated_first.map(|first| f64::from(u8::from(first)));
    part.put(Quantity::HydratedFirst, Assessed::declared_or(hydrated, Quantity::HydratedFirst));
}

/// Says that without a recipe the proportions cannot be told.
pub(super) fn lack(part: &mut PartAssessment) {
    for quantity in [Quantity::ChocolateToCream, Quantity::ChocolateToLiquid] {
        part.put(quantity, Assessed::lacking(quantity));
    }
}
