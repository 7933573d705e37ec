//! Sucrose that invertase splits: when a firm centre turns liquid, and what heat leaves of the enzyme.

use super::{SugarCrystal, WaterBalanceError, supersaturation};
use crate::matter::{Composition, CompositionError, Constituent};
use crate::units::quantity::ratio;
use crate::units::{Band, Checked, Duration, MassFraction, Temperature};

/// What a gram of sucrose takes up of water as it splits, and what it gives of glucose and of fructose, by molar masses.
const WATER_PER_SUCROSE: f64 = 18.0153 / 342.297;
const EACH_PER_SUCROSE: f64 = 180.156 / 342.297;
/// Half-life of invertase at 60 °C in seconds, and the energy of its loss over the gas constant, in K.
const HALF_LIFE: (f64, f64) = (1.80 * 3600.0, 72_000.0 * 4.184 / 8.314_46);

/// A filling of which a share of the sucrose is split into glucose and fructose.
///
/// # Equation
/// One mole of sucrose and one of water give one of glucose and one of fructose: 100 g take up 5.26 g of water and give 105.26 g.
///
/// # Units
/// Mass over mass.
///
/// # Range
/// Any, as long as there is water for it.
///
/// # Error
/// That of the molar masses.
///
/// # Worked value
/// 95 g of sucrose make 100 g of invert sugar.
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::inverted;
/// use cordial::units::{Checked, MassFraction};
/// let syrup = Composition::new([
///     (Constituent::Sucrose, MassFraction::from_base(0.95)?),
///     (Constituent::Water, MassFraction::from_base(0.05)?),
/// ])?;
/// let invert = inverted(&syrup, MassFraction::from_base(1.0)?)?;
/// assert!((invert.of(Constituent::Glucose) + invert.of(Constituent::Fructose) - 1.0).abs() < 1e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Stoichiometry (computed). The worked value: definition of invert sugar (memory).
///
/// # Errors
/// [`CompositionError`] when the water does not suffice.
pub fn inverted(composition: &Composition, share: MassFraction) -> Result<Composition, CompositionError> {
    let split = share.base() * composition.of(Constituent::Sucrose);
    let moved = |constituent: Constituent, mass: f64| {
        mass + split
            * match constituent {
                Constituent::Sucrose => -1.0,
                Constituent::Water => -WATER_PER_SUCROSE,
                Constituent::Glucose | Constituent::Fructose => EACH_PER_SUCROSE,
                _ => 0.0,
            }
    };
    let there = Constituent::ALL.iter().map(|constituent| (*constituent, moved(*constituent, composition.of(*constituent))));
    Composition::new(there.filter(|(_, mass)| mass.abs() > 1e-12).map(|(constituent, mass)| (constituent, MassFraction::nearest(mass))))
}

/// The share of a filling's sucrose that must be inverted until what is left of it stays dissolved.
///
/// # Equation
/// The least share at which the [supersaturation](supersaturation) of what is [inverted] is 1, by mass; nothing where no share is enough: there is
/// too little water.
///
/// # Units
/// Mass over mass of the sucrose.
///
/// # Range
/// 15 to 30 °C, without ethanol. Whether glucose crystallises in its turn, as it may in months, is not asked.
///
/// # Error
/// That of the supersaturation, a factor of 1.2 in it.
///
/// # Worked value
/// Syrup of 75 % is liquid at 20 °C when half of its sugar is invert (classic figure).
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::inversion_to_dissolve;
/// use cordial::units::{Checked, MassFraction, Temperature};
/// let syrup = Composition::new([
///     (Constituent::Sucrose, MassFraction::from_base(0.74)?),
///     (Constituent::Water, MassFraction::from_base(0.26)?),
/// ])?;
/// let share = inversion_to_dissolve(&syrup, Temperature::from_base(20.0)?)?.ok_or("there is water enough")?;
/// assert!(share.low.base() < 0.5 && 0.5 < share.high.base());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// As [`supersaturation`]; the worked value: classic figure of confectionery (memory).
///
/// # Errors
/// [`WaterBalanceError`] when there is no water, or more than 2 % of the mass is unidentified.
pub fn inversion_to_dissolve(composition: &Composition, at: Temperature) -> Result<Option<Band<MassFraction>>, WaterBalanceError> {
    const STEPS: u32 = 200;
    let mut found = [None; 3];
    for step in 0..=STEPS {
        let share = MassFraction::nearest(f64::from(step) / f64::from(STEPS));
        // Splitting may use up all the water; that there was none to begin with is told.
        let wet = |split: &Composition| step == 0 || split.of(Constituent::Water) > 0.0;
        let Some(split) = inverted(composition, share).ok().filter(wet) else { break };
        let over = supersaturation(&split, SugarCrystal::Sucrose, at)?.by_mass.map(|over| over.get::<ratio>());
        for (first, over) in found.iter_mut().zip([over.value, over.low, over.high]) {
            if over <= 1.0 && first.is_none() {
                *first = Some(share);
            }
        }
        if found.iter().all(Option::is_some) {
            break;
        }
    }
    let [value, low, high] = found;
    let all = MassFraction::nearest(1.0);
    Ok(value.map(|value| Band { value, low: low.unwrap_or(value), high: high.unwrap_or(all) }))
}

/// What heat leaves of invertase.
///
/// # Equation
/// `exp(-t ln 2 / h)`, with the half-life `h = 1.80 h exp(E/R (1/T - 1/333.15 K))` and `E` of 72 kcal/mol.
///
/// # Units
/// `T` in K; the result is what is active over what was.
///
/// # Range
/// 50 to 70 °C, in thin syrup of pH 5. Thick syrups spare the enzyme (memory).
///
/// # Error
/// 95 % within a factor of 2 in the half-life (a choice of this project): at 55 and 65 °C it is off by 1.5.
///
/// # Worked value
/// The half-life is 13.9 h at 55 °C and 0.53 h at 65 °C (Bassetti and others).
/// ```
/// use cordial::models::water::invertase_left;
/// use cordial::units::Measure;
/// for (at, half_life) in [("55 Cel", "13.9 h"), ("65 Cel", "31.8 min")] {
///     let left = invertase_left(Measure::parse(at)?.check()?, Measure::parse(half_life)?.check()?);
///     assert!(left.low < 0.5 && 0.5 < left.high, "{left:?}");
/// }
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// Bassetti, Bergamasco, Moraes and Zanin 2000 (abstract seen).
#[must_use]
pub fn invertase_left(at: Temperature, time: Duration) -> Band<f64> {
    let (at_60, energy) = HALF_LIFE;
    let half_life = at_60 * (energy * (1.0 / (at.celsius() + 273.15) - 1.0 / 333.15)).exp();
    let left = |factor: f64| (-time.base() * std::f64::consts::LN_2 / (factor * half_life)).exp();
    Band { value: left(1.0), low: left(0.5), high: left(2.0) }
}
