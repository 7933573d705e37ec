//! What a recipe is mixed from: chocolate, cream, spirits, humectants, a gum; and the allergens of it all.

use super::{AllergenSet, ChocolateKind, Composition, Constituent, Ingredient, RecipeLine, Role};
use crate::units::Checked;

/// The proportions of a recipe. Masses are in kilograms.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Proportions {
    /// What comes out.
    pub(crate) yielded: f64,
    pub(crate) chocolate: f64,
    /// The kind of the chocolate of which there is most.
    pub(crate) main_chocolate: Option<ChocolateKind>,
    pub(crate) cream: f64,
    pub(crate) spirit: f64,
    pub(crate) humectants: f64,
    /// The humectant of which there is most.
    pub(crate) largest_humectant: f64,
    /// Polyols that were added as such.
    pub(crate) polyols: f64,
    /// The gum of which there is most.
    pub(crate) main_gum: Option<Constituent>,
    /// What every ingredient brings.
    pub(crate) allergens: AllergenSet,
}

impl Proportions {
    /// Those of some lines, of which so much comes out, made of this.
    pub(super) fn of(lines: &[RecipeLine], yielded: f64, composition: &Composition) -> Self {
        let mut all = Self { yielded, main_gum: main_gum(composition), ..Self::default() };
        let mut most = f64::NEG_INFINITY;
        for line in lines {
            let (ingredient, mass) = (&*line.ingredient, line.mass.base());
            if let Some(sheet) = &ingredient.chocolate {
                all.chocolate += mass;
                if mass >= most {
                    (most, all.main_chocolate) = (mass, Some(sheet.kind));
                }
            }
            all.cream += if is_cream(ingredient) { mass } else { 0.0 };
            all.spirit += if is_spirit(ingredient) { mass } else { 0.0 };
            if is_humectant(ingredient) {
                all.humectants += mass;
                all.largest_humectant = all.largest_humectant.max(mass);
            }
            all.polyols += mass * ingredient.added_polyols();
            all.allergens = all.allergens.union(ingredient.allergens);
        }
        all
    }
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
    if ingredient.chocolate.is_some() || composition.fat() >= 0.05 {
        return false;
    }
    let sweet = composition.sweeteners() + composition.of_role(Role::Saccharide);
    let sucrose = composition.of(Constituent::Sucrose) + composition.of(Constituent::UnsplitSugars);
    sweet >= 0.6 && sucrose < 0.5 * sweet
}

/// The gum of which there is most; starch counts as one from a hundredth of the filling.
fn main_gum(composition: &Composition) -> Option<Constituent> {
    let starch = (Constituent::Starch, composition.of(Constituent::Starch));
    let gums = Some(starch).filter(|(_, share)| *share >= 0.01).into_iter().chain(composition.parts_of(Role::Gum));
    gums.max_by(|(_, one), (_, two)| one.total_cmp(two)).map(|(constituent, _)| constituent)
}
