//! The alcohol of a piece in the units of the law, and how much spirit a limit allows: arithmetic on the density of pure ethanol.

use crate::law::{Row, Term};
use crate::matter::{Constituent, Ingredient, Recipe};
use crate::models::density::{ethanol_water, filling};
use crate::units::quantity::{Mass, Volume, cubic_meter, kilogram, kilogram_per_cubic_meter};
use crate::units::{AlcoholByVolume, Checked, MassFraction, Temperature};

/// Density of ethanol at 20 °C (OIML R 22), kg/m³.
const ETHANOL: f64 = 789.24;
/// Strengths are stated at this temperature, in degrees Celsius.
const STRENGTH_AT: f64 = 20.0;
/// Below this a share is rounding.
const NOTHING: f64 = 1e-9;

/// The alcohol in a finished piece, as if none of it evaporated.
///
/// ```
/// # use cordial::assess::PieceAlcohol;
/// # use cordial::law::Term;
/// # use cordial::units::quantity::{Mass, Volume, gram, milliliter};
/// // 20 % of a brandy of 40 %vol, a third ethanol by mass, in 7 g of filling, in a piece of 12 g and 1.25 g/mL.
/// let piece = PieceAlcohol {
///     ethanol: Mass::new::<gram>(0.2 * 0.333 * 7.0),
///     piece: Mass::new::<gram>(12.0),
///     volume: Some(Volume::new::<milliliter>(9.6)),
/// };
/// let litres_in_100_kg = 100_000.0 * piece.of(Term::PureAlcohol).unwrap_or(0.0);
/// assert!((litres_in_100_kg - 4.922).abs() < 0.01);
/// assert!((100.0 * piece.of(Term::EthanolByVolume).unwrap_or(0.0) - 6.153).abs() < 0.01);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceAlcohol {
    /// Pure ethanol in it.
    pub ethanol: Mass,
    /// The whole piece.
    pub piece: Mass,
    /// Its volume, without which nothing can be said by volume.
    pub volume: Option<Volume>,
}

impl PieceAlcohol {
    /// A term of law in the base unit of its dimension; none where the volume lacks, or for a term that is not about alcohol alone.
    #[must_use]
    pub fn of(&self, term: Term) -> Option<f64> {
        let (ethanol, piece) = (self.ethanol.get::<kilogram>(), self.piece.get::<kilogram>());
        match term {
            Term::EthanolByMass => Some(ethanol / piece),
            Term::EthanolByVolume => Some(volume_of(ethanol) / self.volume?.get::<cubic_meter>()),
            Term::PureAlcohol => Some(volume_of(ethanol) / piece),
            _ => None,
        }
    }

    /// How much of a spirit a row of law allows in a piece of this mass and volume, whatever alcohol it holds now.
    #[must_use]
    pub fn spirit_allowed(&self, row: &Row, strength: AlcoholByVolume) -> Option<Mass> {
        let (bound, piece) = (row.bound()?, self.piece.get::<kilogram>());
        let pure = match row.term {
            Term::EthanolByMass => bound * piece,
            Term::EthanolByVolume => ETHANOL * bound * self.volume?.get::<cubic_meter>(),
            Term::PureAlcohol => ETHANOL * bound * piece,
            Term::Spirit => ETHANOL * strength.base() * bound * piece,
            _ => return None,
        };
        let share = ethanol_water::by_mass(strength).base();
        (share > 0.0).then(|| Mass::new::<kilogram>(pure / share))
    }
}

/// The volume of a mass of pure ethanol, SI.
pub(super) fn volume_of(ethanol: f64) -> f64 {
    ethanol / ETHANOL
}

/// Volume of pure ethanol over what comes out, in m³/kg.
pub(super) fn pure_of(recipe: &Recipe) -> f64 {
    let ethanol = recipe.lines().iter().map(|line| line.mass.base() * line.ingredient.composition.of(Constituent::Ethanol));
    volume_of(ethanol.sum::<f64>()) / recipe.yielded()
}

/// Litres of spirits as poured in, over what comes out, in m³/kg: the volume that their ethanol has at their strength.
pub(super) fn spirit_of(recipe: &Recipe) -> f64 {
    let lines = recipe.lines().iter().map(|line| {
        let ethanol = line.mass.base() * line.ingredient.composition.of(Constituent::Ethanol) / ETHANOL;
        if ethanol > 0.0 { ethanol / strength(&line.ingredient).max(NOTHING) } else { 0.0 }
    });
    lines.sum::<f64>() / recipe.yielded()
}

/// The strength of an ingredient by volume: of water and ethanol alone by the tables, beside sugar by its density.
pub(super) fn strength(ingredient: &Ingredient) -> f64 {
    let composition = &ingredient.composition;
    let ethanol = composition.of(Constituent::Ethanol);
    if ethanol <= 0.0 {
        return 0.0;
    }
    if ethanol + composition.of(Constituent::Water) > 1.0 - NOTHING {
        return ethanol_water::by_volume(MassFraction::nearest(composition.spirit_strength())).base();
    }
    let density = filling::density(composition, Temperature::nearest(STRENGTH_AT));
    density.map_or_else(
        |_| ethanol_water::by_volume(MassFraction::nearest(composition.spirit_strength())).base(),
        |density| AlcoholByVolume::nearest(ethanol * density.value.get::<kilogram_per_cubic_meter>() / ETHANOL).base(),
    )
}
