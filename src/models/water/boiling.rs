//! Syrups, jams and caramels at the boil: the temperature tells the water that is left.

use super::WaterBalanceError;
use super::balance::{spanning, splits};
use super::mixture::{Mixture, Reader, rest};
use crate::matter::{Composition, Constituent};
use crate::models::heat::steam;
use crate::units::quantity::{Ratio, pascal, ratio};
use crate::units::{Band, Checked, Measure, Temperature, Unit};
use smallvec::SmallVec;

/// Where a mix boils.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boiling {
    /// The temperature.
    pub temperature: Band<Temperature>,
    /// Whether it lies where boiling points were compared.
    pub in_range: bool,
}

/// What boiling to a temperature leaves of a mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boiled {
    /// Mass left over mass put in; above 1 where it would have to take up water to boil as low as that.
    pub kept: Band<Ratio>,
    /// Whether it lies where boiling points were compared.
    pub in_range: bool,
}

/// Why nothing can be said of a boil.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BoilingError {
    /// Spirit boils off before the water.
    #[error("it holds {ethanol} of ethanol, which boils off before the water: add spirit after cooking")]
    Spirit {
        /// How much there is.
        ethanol: Measure,
    },
    /// Nothing boils as low as that.
    #[error("{at} is not above the {water} at which water boils: cook it hotter")]
    Cold {
        /// The temperature asked for.
        at: Measure,
        /// Where water boils.
        water: Measure,
    },
    /// Nothing in it boils.
    #[error("there is no water in it to boil off: weigh some in, or leave the temperature out")]
    Dry,
    /// Nothing dissolved in it holds water at that temperature.
    #[error("nothing dissolved in it holds water so hot, so it boils dry: weigh in the sugar, or leave the temperature out")]
    Plain,
    /// It has no water balance.
    #[error(transparent)]
    Balance(#[from] WaterBalanceError),
}

/// The driest activity compared, that of sucrose of 90 % at 127.8 °C.
const DRIEST: f64 = 0.40;
/// Standard uncertainty of a boiling point: so much, and so much of its height above that of water, up to a most; in K.
const UNCERTAIN: (f64, f64, f64) = (0.3, 0.1, 2.0);
/// No mix is told from water by a boiling point closer to it than this activity.
const WETTEST: f64 = 0.98;
/// What holds less water than this, of the mix, boils dry.
const BOILED_DRY: f64 = 1e-6;
/// Traces of ethanol in an aroma do not keep it from boiling like water.
const TRACE: f64 = 0.005;

/// The temperature at which a mix boils, when all its sugar is dissolved.
///
/// # Equation
/// A mix boils where its vapour presses as the air does: `a p(T) = p(T0)`, with `a` its [water activity](super::water_activity), `p` the
/// [pressure of steam](steam::pressure) and `T0` the temperature at which water boils in the same kitchen by the same thermometer.
///
/// # Units
/// °C.
///
/// # Range
/// Sucrose was compared to 90 %, 28 K above water, where `a` is 0.40; whatever boils higher is out of range. Without ethanol.
///
/// # Error
/// The isotherms are those of 25 °C. Against boiling points of sucrose from 30 to 90 % they miss 0.7 K root mean square, 1.4 K at most:
/// 1.4 K too low from 74 to 76 %, 1.2 K too high at 90 %. No table of syrups with glucose or milk was found: the band is wider than
/// that, a standard uncertainty of 0.3 K and a tenth of the height above water, at most 2 K. Candy stages are round figures, up to 2 K lower.
///
/// # Worked value
/// Sucrose of 60 % boils at 103.0 °C, of 80 % at 112.0 °C.
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::boiling_point;
/// use cordial::units::{Checked, MassFraction, Temperature};
/// for (sucrose, published) in [(0.6, 103.0), (0.8, 112.0)] {
///     let syrup = Composition::new([
///         (Constituent::Water, MassFraction::from_base(1.0 - sucrose)?),
///         (Constituent::Sucrose, MassFraction::from_base(sucrose)?),
///     ])?;
///     let boiling = boiling_point(&syrup, Temperature::from_base(100.0)?)?;
///     assert!((boiling.temperature.value.celsius() - published).abs() < 1.3);
///     assert!(boiling.temperature.high.celsius() > published);
/// }
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Raoult's condition of boiling with measured activities (memory). The boiling points: Browne 1912 (copy seen).
///
/// # Errors
/// [`BoilingError`] when it holds spirit, or has no water balance.
pub fn boiling_point(composition: &Composition, water_boils_at: Temperature) -> Result<Boiling, BoilingError> {
    let air = steam::pressure(water_boils_at);
    let cases: SmallVec<[(f64, f64); 4]> = (mixtures(composition)?.iter())
        .map(|mixture| {
            let activity = (-rest(&mut [(1.0, Reader::of(mixture))], None).ln_u.exp()).exp();
            (activity, steam::temperature(air / activity.max(f64::MIN_POSITIVE)).celsius())
        })
        .collect();
    let bands = cases.iter().map(|(_, boils)| Band::normal(*boils, uncertainty(*boils, water_boils_at)));
    Ok(Boiling { temperature: spanning(bands).map(Temperature::nearest), in_range: cases.iter().all(|(activity, _)| *activity >= DRIEST) })
}

/// What is left of a mix that is boiled until it reaches a temperature.
///
/// # Equation
/// [`boiling_point`] turned round, without a search: at that temperature the mix has the activity `a = p(T0)/p(T)`, and its
/// dry matter holds so much water at that activity.
///
/// # Units
/// Mass over mass.
///
/// # Range
/// As [`boiling_point`].
///
/// # Error
/// That of the boiling point: the band is what would be left 0.6 K and a fifth of the height above water to either side. Near 115 °C a kelvin
/// is half a per cent of water.
///
/// # Worked value
/// 100 g of sugar and 50 g of water weigh 125 g at 112.0 °C, when they are 80 % sugar.
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::boiled_to;
/// use cordial::units::{Checked, MassFraction, Temperature, quantity::ratio};
/// let syrup = Composition::new([
///     (Constituent::Water, MassFraction::from_base(1.0 / 3.0)?),
///     (Constituent::Sucrose, MassFraction::from_base(2.0 / 3.0)?),
/// ])?;
/// let boiled = boiled_to(&syrup, Temperature::from_base(112.0)?, Temperature::from_base(100.0)?)?;
/// let [value, low, high] = [boiled.kept.value, boiled.kept.low, boiled.kept.high].map(|kept| 150.0 * kept.get::<ratio>());
/// assert!((value - 125.0).abs() < 2.5 && low < 125.0 && 125.0 < high);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// As [`boiling_point`]; the worked value: Browne 1912 (copy seen).
///
/// # Errors
/// [`BoilingError`] when it holds spirit, has no water or nothing that holds it, has no water balance, or the temperature is not above that of boiling water.
pub fn boiled_to(composition: &Composition, at: Temperature, water_boils_at: Temperature) -> Result<Boiled, BoilingError> {
    let mixtures = mixtures(composition)?;
    if at <= water_boils_at {
        let [at, water] = [at, water_boils_at].map(|temperature| temperature.measure(Unit::Celsius));
        return Err(BoilingError::Cold { at, water });
    }
    let air = steam::pressure(water_boils_at).get::<pascal>();
    let activity_at = |celsius: f64| (air / steam::pressure(Temperature::nearest(celsius)).get::<pascal>()).min(WETTEST);
    let dry = 1.0 - composition.of(Constituent::Water);
    let (celsius, off) = (at.celsius(), 2.0 * uncertainty(at.celsius(), water_boils_at));
    let left = |mixture: &Mixture<'_>, celsius: f64| dry + mixture.held((-activity_at(celsius).ln()).ln()).water;
    if mixtures.iter().any(|mixture| left(mixture, celsius) - dry <= BOILED_DRY) {
        return Err(BoilingError::Plain);
    }
    let kept = mixtures.iter().map(|mixture| Band {
        value: left(mixture, celsius),
        low: left(mixture, celsius + off),
        high: left(mixture, celsius - off),
    });
    Ok(Boiled { kept: spanning(kept).map(Ratio::new::<ratio>), in_range: activity_at(celsius) >= DRIEST })
}

/// What a mix can be, all its sugar dissolved.
fn mixtures(composition: &Composition) -> Result<SmallVec<[Mixture<'static>; 4]>, BoilingError> {
    let ethanol = composition.of(Constituent::Ethanol);
    if ethanol > TRACE {
        return Err(BoilingError::Spirit { ethanol: Measure::new((1000.0 * ethanol).round() / 10.0, Unit::Percent) });
    }
    if composition.of(Constituent::Water) <= 0.0 {
        return Err(BoilingError::Dry);
    }
    Ok(splits(composition)?.iter().map(|split| Mixture::new(composition, split, None)).collect())
}

fn uncertainty(celsius: f64, water_boils_at: Temperature) -> f64 {
    let (least, share, most) = UNCERTAIN;
    (least + share * (celsius - water_boils_at.celsius()).max(0.0)).min(most)
}
