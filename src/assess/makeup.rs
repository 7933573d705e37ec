//! What a recipe is mixed from: chocolate, cream, spirits, humectants, gums.

use super::{Assessed, PartAssessment, Quantity};
use crate::matter::{ChocolateKind, Composition, Constituent, Ingredient, Recipe, RecipeLine, Role};
use crate::piece::Layer;
use crate::units::Checked;

/// Puts the shares that follow from the lines of a recipe.
pub(super) fn assess(part: &mut PartAssessment, layer: &Layer, recipe: &Recipe) {
    let whole = recipe.yielded();
    let mass = |what: fn(&Ingredient) -> bool| recipe.lines().iter().filter(|line| what(&line.ingredient)).map(grams).sum::<f64>();
    let share = |mass: f64| Assessed::declared(mass / whole);
    let humectants = recipe.lines().iter().filter(|line| is_humectant(&line.ingredient)).map(grams);
    let (largest, all) = humectants.fold((0.0, 0.0), |(largest, all), grams| (grams.max(largest), all + grams));
    part.put(Quantity::LargestHumectant, share(largest));
    part.put(Quantity::Humectants, share(all));
    let (chocolate, cream, spirit) = (mass(is_chocolate), mass(is_cream), mass(is_spirit));
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

/// Syrups, honey and polyols: sweet, and less than half of it sucrose.
fn is_humectant(ingredient: &Ingredient) -> bool {
    let composition = &ingredient.composition;
    let sweet = composition.sweeteners() + composition.of_role(Role::Saccharide);
    let sucrose = composition.of(Constituent::Sucrose) + composition.of(Constituent::UnsplitSugars);
    ingredient.chocolate.is_none() && sweet >= 0.6 && sucrose < 0.5 * sweet && composition.fat() < 0.05
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
