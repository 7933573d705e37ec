//! Weighed ingredients, and what boiling leaves of them.

use super::{Composition, CompositionError, Ingredient, proportions::Proportions};
use crate::units::{Checked, MassFraction, Measure, Portion, RangeError, Unit};
use std::sync::Arc;

/// One line of a recipe.
#[derive(Debug, Clone, PartialEq)]
pub struct RecipeLine {
    /// What is weighed.
    pub ingredient: Arc<Ingredient>,
    /// How much.
    pub mass: Portion,
}

/// A recipe that can be made: it weighs something, and no more boils off than there is water.
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    lines: Vec<RecipeLine>,
    cooked_to: Option<Portion>,
    composition: Composition,
    proportions: Proportions,
}

/// Why a recipe cannot be made.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RecipeError {
    /// Nothing is weighed.
    #[error("the recipe is empty: name at least one ingredient with a mass above zero")]
    Empty,
    /// It weighs more after boiling than before.
    #[error("cooked to {cooked_to}, but only {charge} went in")]
    Gains {
        /// The mass after boiling.
        cooked_to: Measure,
        /// The mass weighed in.
        charge: Measure,
    },
    /// A mass that is none.
    #[error(transparent)]
    Mass(#[from] RangeError),
    /// It boils dry.
    #[error("cooked to {cooked_to}: {reason}")]
    Dry {
        /// The mass after boiling.
        cooked_to: Measure,
        /// Why.
        reason: CompositionError,
    },
}

impl Recipe {
    /// A recipe; `cooked_to` is the mass weighed after boiling, when it was boiled.
    ///
    /// # Errors
    /// [`RecipeError`] when it weighs nothing, gains by cooking or boils dry.
    pub fn new(lines: Vec<RecipeLine>, cooked_to: Option<Portion>) -> Result<Self, RecipeError> {
        let (composition, proportions) = composed(&lines, cooked_to)?;
        Ok(Self { lines, cooked_to, composition, proportions })
    }

    /// The lines, in order.
    #[must_use]
    pub fn lines(&self) -> &[RecipeLine] {
        &self.lines
    }

    /// The mass weighed after boiling, if it was boiled.
    #[must_use]
    pub fn cooked_to(&self) -> Option<Portion> {
        self.cooked_to
    }

    /// What goes in, in kilograms.
    #[must_use]
    pub fn charge(&self) -> f64 {
        charge(&self.lines)
    }

    /// What comes out, in kilograms.
    #[must_use]
    pub fn yielded(&self) -> f64 {
        self.proportions.yielded
    }

    /// What comes out is made of this.
    #[must_use]
    pub const fn composition(&self) -> &Composition {
        &self.composition
    }

    /// What it is mixed from.
    pub(crate) const fn proportions(&self) -> &Proportions {
        &self.proportions
    }

    /// The same made in another size.
    ///
    /// # Errors
    /// [`RecipeError`] as in [`Self::new`], when a mass leaves its legal range.
    pub fn scaled(&self, factor: f64) -> Result<Self, RecipeError> {
        let scaled = |mass: Portion| Portion::from_base(mass.base() * factor);
        let line = |line: &RecipeLine| Ok(RecipeLine { mass: scaled(line.mass)?, ingredient: Arc::clone(&line.ingredient) });
        let lines = self.lines.iter().map(line).collect::<Result<_, RangeError>>()?;
        Self::new(lines, self.cooked_to.map(scaled).transpose()?)
    }

    /// The same with another mass in one line.
    ///
    /// # Errors
    /// [`RecipeError`] as in [`Self::new`].
    pub fn with_mass(&self, line: usize, mass: Portion) -> Result<Self, RecipeError> {
        let mut other = self.clone();
        other.set_mass(line, mass)?;
        Ok(other)
    }

    /// Puts another mass into one line.
    ///
    /// # Errors
    /// [`RecipeError`] as in [`Self::new`]; the recipe then stays as it was.
    pub fn set_mass(&mut self, line: usize, mass: Portion) -> Result<(), RecipeError> {
        let before = self.lines.get_mut(line).map(|line| std::mem::replace(&mut line.mass, mass));
        let composed = composed(&self.lines, self.cooked_to);
        if let (Err(_), Some(before), Some(line)) = (&composed, before, self.lines.get_mut(line)) {
            line.mass = before;
        }
        (self.composition, self.proportions) = composed?;
        Ok(())
    }

    /// The same with an ingredient added at the end.
    ///
    /// # Errors
    /// [`RecipeError`] as in [`Self::new`].
    pub fn with_line(&self, line: RecipeLine) -> Result<Self, RecipeError> {
        let mut lines = self.lines.clone();
        lines.push(line);
        Self::new(lines, self.cooked_to)
    }

    /// The same boiled down to another mass.
    ///
    /// # Errors
    /// [`RecipeError`] as in [`Self::new`].
    pub fn with_cooked_to(&self, mass: Portion) -> Result<Self, RecipeError> {
        let mut other = self.clone();
        other.set_cooked_to(mass)?;
        Ok(other)
    }

    /// Boils it down to another mass.
    ///
    /// # Errors
    /// [`RecipeError`] as in [`Self::new`]; the recipe then stays as it was.
    pub fn set_cooked_to(&mut self, mass: Portion) -> Result<(), RecipeError> {
        (self.composition, self.proportions) = composed(&self.lines, Some(mass))?;
        self.cooked_to = Some(mass);
        Ok(())
    }
}

/// What goes in, in kilograms.
fn charge(lines: &[RecipeLine]) -> f64 {
    lines.iter().map(|line| line.mass.base()).sum()
}

/// What comes out is made of this, and was mixed from that.
fn composed(lines: &[RecipeLine], cooked_to: Option<Portion>) -> Result<(Composition, Proportions), RecipeError> {
    let mixed = Composition::blend(lines.iter().map(|line| (&line.ingredient.composition, line.mass.base()))).ok_or(RecipeError::Empty)?;
    let charge = charge(lines);
    let Some(cooked_to) = cooked_to else { return Ok((mixed, Proportions::of(lines, charge, &mixed))) };
    let kept = MassFraction::from_base(cooked_to.base() / charge)
        .map_err(|_| RecipeError::Gains { cooked_to: cooked_to.measure(Unit::Gram), charge: Measure::from_base(charge, Unit::Gram) })?;
    let left = mixed.boiled_down(kept).map_err(|reason| RecipeError::Dry { cooked_to: cooked_to.measure(Unit::Gram), reason })?;
    Ok((left, Proportions::of(lines, cooked_to.base(), &left)))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::Constituent;
    use approx::assert_relative_eq;

    fn line(constituent: Constituent, grams: f64) -> RecipeLine {
        let ingredient = Ingredient::declared(constituent.key(), Composition::pure(constituent));
        RecipeLine { ingredient: Arc::new(ingredient), mass: Portion::from_base(grams / 1000.0).unwrap() }
    }

    #[test]
    fn a_syrup_boils_down() {
        let lines = vec![line(Constituent::Sucrose, 70.0), line(Constituent::Water, 50.0)];
        let recipe = Recipe::new(lines, Some(Portion::from_base(0.1).unwrap())).unwrap();
        assert_relative_eq!(recipe.composition().of(Constituent::Sucrose), 0.7, max_relative = 1e-12);
        assert_relative_eq!(recipe.yielded(), 0.1, max_relative = 1e-12);
    }

    #[test]
    fn what_cannot_be_made_is_refused() {
        assert_eq!(Recipe::new(vec![], None).unwrap_err(), RecipeError::Empty);
        assert_eq!(Recipe::new(vec![line(Constituent::Water, 0.0)], None).unwrap_err(), RecipeError::Empty);
        let cooked = |grams: f64| {
            let lines = vec![line(Constituent::Sucrose, 70.0), line(Constituent::Water, 50.0)];
            Recipe::new(lines, Some(Portion::from_base(grams / 1000.0).unwrap())).unwrap_err().to_string()
        };
        assert_eq!(cooked(130.0), "cooked to 130 g, but only 120 g went in");
        assert!(cooked(60.0).starts_with("cooked to 60 g: 50 % of the mass would have to boil off"));
    }
}
