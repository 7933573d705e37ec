//! What a recipe is mixed from: chocolate, cream, spirits, humectants, gums.

use super::{Assessed, PartAssessment, Quantity};
use crate::matter::{ChocolateKind, Composition, Constituent, Ingredient, Recipe, RecipeLine, Role};
use crate::piece::Layer;
use crate::units::Checked;

/// Puts the shares that follow from the lines of a recipe.
pub(super) fn assess(part: &mut PartAssessment, layer: &Layer, recipe: &Recipe) {
    let whole = recipe.yielded();
    let share = |mass: f64| Assessed::declared(mass / whole);
    let (mut chocolate, mut cream, mut spirit) = (0.0, 0.0, 0.0);
    let (mut humectants, mut largest) = (0.0, 0.0_f64);
    for line in recipe.lines() {
        let (ingredient, grams) = (&line.ingredient, grams(line));
        chocolate += if is_chocolate(ingredient) { grams } else { 0.0 };
        cream += if is_cream(ingredient) { grams } else { 0.0 };
        spirit += if is_spirit(ingredient) { grams } else { 0.0 };
        if is_humectant(ingredient) {
            humectants += grams;
            largest = largest.max(grams);
        }
    }
    part.put(Quantity::LargestHumectant, share(largest));
    part.put(Quantity::Humectants, share(humectants));
    part.put(Quantity::SpiritShare, share(spirit));
    part.chocolate = main_chocolate(recipe);
    if cream > 0.0 {
        part.put(Quantity::ChocolateToCream, Assessed::declared(chocolate / cream));
    }
    if spirit > 0.0 && cream + spirit > 0.0 {
        part.put(Quantity::ChocolateToLiquid, Assessed::declared(chocolate / (cream + spirit)));
    }
    part.gum = main_gum(recipe.composition());
    let hydrated = layer.hydrated_first.map(|first| f64::from(u8::from(first)));
    part.put(Quantity::HydratedFirst, Assessed::declared_or(hydrated, Quantity::HydratedFirst));
}

/// Says that without a recipe the proportions cannot be told.
pub(super) fn lack(part: &mut PartAssessment) {
    for quantity in [Quantity::ChocolateToCream, Quantity::ChocolateToLiquid] {
        part.put(quantity, Assessed::lacking(quantity));
    }
}

fn grams(line: &RecipeLine) -> f64 {
    line.mass.base()
}

fn is_chocolate(ingredient: &Ingredient) -> bool {
    ingredient.chocolate.is_some()
}

fn is_cream(ingredient: &Ingredient) -> bool {
    let composition = &ingredient.composition;
    (0.15..0.5).contains(&composition.of(Constituent::MilkFat)) && composition.of(Constituent::Water) > 0.4
}

fn is_spirit(ingredient: &Ingredient) -> bool {
    ingredient.composition.of(Constituent::Ethanol) >= 0.1
}

/// Syrups, honey and polyols: no fat to speak of, sweet, and less than half of it sucrose.
fn is_humectant(ingredient: &Ingredient) -> bool {
    let composition = &ingredient.composition;
    if is_chocolate(ingredient) || composition.fat() >= 0.05 {
        return false;
    }
    let sweet = composition.sweeteners() + composition.of_role(Role::Saccharide);
    let sucrose = composition.of(Constituent::Sucrose) + composition.of(Constituent::UnsplitSugars);
    sweet >= 0.6 && sucrose < 0.5 * sweet
}

/// The kind of the chocolate of which there is most.
fn main_chocolate(recipe: &Recipe) -> Option<ChocolateKind> {
    let kinds = recipe.lines().iter().filter_map(|line| Some((grams(line), line.ingredient.chocolate.as_ref()?.kind)));
    kinds.max_by(|(one, _), (two, _)| one.total_cmp(two)).map(|(_, kind)| kind)
}

/// The gum of which there is most; starch counts as one from a hundredth of the filling.
fn main_gum(composition: &Composition) -> Option<Constituent> {
    let starch = (Constituent::Starch, composition.of(Constituent::Starch));
    let gums = Some(starch).filter(|(_, share)| *share >= 0.01).into_iter().chain(composition.parts_of(Role::Gum));
    gums.max_by(|(_, one), (_, two)| one.total_cmp(two)).map(|(constituent, _)| constituent)
}
