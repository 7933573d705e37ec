//! A recipe that is boiled until a thermometer says so: what it then weighs follows from how it boils.

use crate::matter::{Composition, Constituent, Recipe, RecipeError, RecipeLine};
use crate::models::water::{BoilingError, boiled_to, boiling_point};
use crate::units::quantity::ratio;
use crate::units::{Band, Checked, Measure, Portion, RangeError, Temperature, Unit};

/// Where water boils unless its kitchen says otherwise, in degrees Celsius.
const SEA_LEVEL: f64 = 100.0;
/// What holds more ethanol than this goes in after cooking, of its mass.
const SPIRITED: f64 = 0.005;

/// Why a recipe cannot be cooked to a temperature.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CookingError {
    /// Nothing is left to boil.
    #[error("nothing of the recipe is boiled: all of it is spirit, which goes in after cooking: leave the temperature out")]
    Nothing,
    /// It boils hotter than that from the start.
    #[error("it boils at {boils} from the start, hotter than {at}: weigh in more water, or cook it hotter")]
    Drier {
        /// Where it boils before any water is lost.
        boils: Measure,
        /// The temperature asked for.
        at: Measure,
    },
    /// It cannot be told how it boils.
    #[error(transparent)]
    Boiling(#[from] BoilingError),
    /// The recipe itself cannot be made.
    #[error(transparent)]
    Recipe(#[from] RecipeError),
    /// A mass that is none.
    #[error(transparent)]
    Mass(#[from] RangeError),
}

/// What a recipe weighs once all of it but its spirit was boiled to a temperature and the spirit added, in kilograms; and whether that lies where
/// boiling points were compared.
///
/// # Errors
/// [`CookingError`] when nothing can be boiled, or not to this temperature.
pub(crate) fn cooked_mass(
    lines: &[RecipeLine],
    at: Temperature,
    water_boils_at: Option<Temperature>,
) -> Result<(Band<f64>, bool), CookingError> {
    let spirited = |line: &&RecipeLine| line.ingredient.composition.of(Constituent::Ethanol) > SPIRITED;
    let boiled = || lines.iter().filter(|line| !spirited(line)).map(|line| (&line.ingredient.composition, line.mass.base()));
    let (charge, spirit) =
        (boiled().map(|(_, mass)| mass).sum::<f64>(), lines.iter().filter(spirited).map(|line| line.mass.base()).sum::<f64>());
    let mix = Composition::blend(boiled()).ok_or(CookingError::Nothing)?;
    let water_boils_at = water_boils_at.unwrap_or(Temperature::nearest(SEA_LEVEL));
    let boiled = boiled_to(&mix, at, water_boils_at)?;
    let kept = boiled.kept.map(|kept| kept.get::<ratio>());
    if kept.value > 1.0 {
        let boils = boiling_point(&mix, water_boils_at)?.temperature.value;
        let [boils, at] = [boils, at].map(|temperature| Measure::new((temperature.celsius() * 10.0).round() / 10.0, Unit::Celsius));
        return Err(CookingError::Drier { boils, at });
    }
    Ok((kept.map(|kept| charge * kept.min(1.0) + spirit), boiled.in_range))
}

/// A recipe cooked to a temperature.
///
/// # Errors
/// As [`cooked_mass`].
pub(crate) fn cooked(recipe: &Recipe, at: Temperature, water_boils_at: Option<Temperature>) -> Result<Recipe, CookingError> {
    let mass = cooked_mass(recipe.lines(), at, water_boils_at)?.0.value;
    Ok(recipe.with_cooked_to(Portion::from_base(mass)?)?)
}
