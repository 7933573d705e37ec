//! What a recipe is mixed from: chocolate, cream, spirits, humectants, a gum; and the allergens of it all.

use super::{AllergenSet, ChocolateKind, Composition, Constituent, Ingredient, RecipeLine, Role};
use crate::units::Checked;

/// The proportions of a recipe. Masses are in kilograms. From what shares on something counts as cream, spirit or humectant is a choice of this
/// project.
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

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::Recipe;
    use crate::units::{MassFraction, Portion};
    use std::sync::Arc;

    fn line(parts: &[(Constituent, f64)], grams: f64) -> RecipeLine {
        let parts = parts.iter().map(|(constituent, fraction)| (*constituent, MassFraction::from_base(*fraction).unwrap()));
        let ingredient = Ingredient::declared("trial", Composition::new(parts).unwrap());
        RecipeLine { ingredient: Arc::new(ingredient), mass: Portion::from_base(grams / 1000.0).unwrap() }
    }

    #[test]
    fn lines_count_by_what_they_are() {
        use Constituent::{Ethanol, Glucose, Glycerol, MilkFat, Sucrose, Water};
        let syrup = [(Glucose, 0.8), (Water, 0.2)];
        let recipe = Recipe::new(
            vec![
                line(&[(MilkFat, 0.35), (Water, 0.65)], 200.0),
                line(&syrup, 60.0),
                line(&[(Glycerol, 1.0)], 20.0),
                line(&[(Sucrose, 1.0)], 100.0),
                line(&[(Ethanol, 0.4), (Water, 0.6)], 30.0),
            ],
            Some(Portion::from_base(0.4).unwrap()),
        )
        .unwrap();
        let mixed = recipe.proportions();
        assert_eq!((mixed.yielded, mixed.cream, mixed.spirit), (0.4, 0.2, 0.03));
        // The larger comes first: what comes after it does not take its place.
        assert_eq!((mixed.humectants, mixed.largest_humectant), (0.06 + 0.02, 0.06));
        assert_eq!((mixed.chocolate, mixed.main_chocolate, mixed.main_gum), (0.0, None, None));
        // Made again with other masses, they are others.
        let more = recipe.with_mass(2, Portion::from_base(0.09).unwrap()).unwrap();
        assert_eq!(more.proportions().largest_humectant, 0.09);
        assert_eq!(recipe.with_cooked_to(Portion::from_base(0.38).unwrap()).unwrap().yielded(), 0.38);
    }
}
