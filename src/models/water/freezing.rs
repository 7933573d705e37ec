//! Fillings in the freezer: when ice appears, and how much.

use super::balance::{spanning, splits};
use super::dissolution::Saturations;
use super::mixture::Mixture;
use super::{WaterBalanceError, water_activity};
use crate::matter::{Composition, Constituent, Crystals};
use crate::units::{Band, Checked, MassFraction, Temperature, WaterActivity};

/// How much of a filling is ice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ice {
    /// Ice, of the whole filling.
    pub share: Band<MassFraction>,
    /// Whether it lies where freezing points were compared.
    pub in_range: bool,
}

/// The temperature at which isotherms at rest with crystals are read, in degrees Celsius: their solubilities are known for rooms.
const ROOM: f64 = 20.0;
/// The least and the most that the activity of a freezing filling is taken to be off, to either side; a choice of this project.
const OFF: (f64, f64) = (0.01, 0.06);
/// The coldest that ice was compared, in degrees Celsius.
const COLDEST: f64 = -20.0;
/// The most ethanol in the water beside which ice was compared.
const MOST_ETHANOL: f64 = 0.05;

/// The water activity of ice.
///
/// # Equation
/// The vapour pressure of ice over that of supercooled water, with `T` in K:
/// `ln p_ice = 9.550426 - 5723.265/T + 3.53068 ln T - 0.00728332 T`,
/// `ln p_water = 54.842763 - 6763.22/T - 4.21 ln T + 0.000367 T + tanh(0.0415 (T - 218.8)) (53.878 - 1331.22/T - 9.44523 ln T + 0.014025 T)`.
///
/// # Units
/// Dimensionless.
///
/// # Range
/// -40 to 0 °C; 1 above.
///
/// # Error
/// Rounding of the table to 0.001 from 0 to -20 °C.
///
/// # Worked value
/// 0.907 at -10 °C, 0.823 at -20 °C, as tables of food chemistry have it.
/// ```
/// use cordial::models::water::ice_activity;
/// use cordial::units::{Checked, Temperature};
/// for (celsius, table) in [(-10.0, 0.907), (-20.0, 0.823)] {
///     assert!((ice_activity(Temperature::from_base(celsius)?).base() - table).abs() < 0.001);
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Murphy and Koop 2005 (memory). The table: Fennema, Food Chemistry (memory).
#[must_use]
pub fn ice_activity(at: Temperature) -> WaterActivity {
    let kelvin = at.celsius().min(0.0) + 273.15;
    let ln = kelvin.ln();
    let ice = 9.550_426 - 5723.265 / kelvin + 3.530_68 * ln - 0.007_283_32 * kelvin;
    let water = 54.842_763 - 6763.22 / kelvin - 4.21 * ln
        + 0.000_367 * kelvin
        + (0.0415 * (kelvin - 218.8)).tanh() * (53.878 - 1331.22 / kelvin - 9.445_23 * ln + 0.014_025 * kelvin);
    Checked::nearest((ice - water).exp())
}

/// The temperature at which the first ice appears in a filling.
///
/// # Equation
/// Where [`ice_activity`] is the filling's [water activity](super::water_activity).
///
/// # Units
/// °C.
///
/// # Range
/// Freezing points of sugars were compared to -5 °C, the coldest of sucrose, -13.95 °C, from memory. What would freeze below -40 °C
/// gets -40 °C.
///
/// # Error
/// That of the water activity: a hundredth of it is a kelvin. The isotherms are those of 25 °C; sugars to -5 °C are off by 0.3 K or less.
///
/// # Worked value
/// Sucrose of 42 % freezes at -4.93 °C (CRC Handbook).
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::freezing_point;
/// use cordial::units::{Checked, MassFraction};
/// let syrup = Composition::new([
///     (Constituent::Water, MassFraction::from_base(0.58)?),
///     (Constituent::Sucrose, MassFraction::from_base(0.42)?),
/// ])?;
/// assert!((freezing_point(&syrup, None)?.value.celsius() + 4.93).abs() < 0.2);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// The condition of equilibrium with ice (memory). The worked value: CRC Handbook, 102nd edition (seen).
///
/// # Errors
/// [`WaterBalanceError`] when there is no water, or more than 2 % of the mass is unidentified.
pub fn freezing_point(composition: &Composition, crystals: Option<Crystals>) -> Result<Band<Temperature>, WaterBalanceError> {
    let balance = water_activity(composition, crystals, Temperature::nearest(ROOM))?;
    Ok(balance.activity.map(|activity| frozen_at(activity.base())))
}

/// The temperature at which ice has an activity, by halving.
fn frozen_at(activity: f64) -> Temperature {
    let (mut low, mut high) = (Temperature::MIN, 0.0);
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        if ice_activity(Temperature::nearest(middle)).base() < activity { low = middle } else { high = middle }
    }
    Temperature::nearest(f64::midpoint(low, high))
}

/// How much of a filling is ice at a temperature, once it has come to rest.
///
/// # Equation
/// What is not ice has the [activity of ice](ice_activity): all water that the filling's dry matter does not hold at that activity is ice. A filling
/// with a higher activity than ice loses water to it, one with a lower one holds all of its own and has no ice, however long it is frozen.
///
/// # Units
/// Mass of ice over mass of filling.
///
/// # Range
/// Down to -20 °C, where the ice of an ice cream was compared (memory), and with no more than 5 % of ethanol in the water.
///
/// # Error
/// The isotherms are those of 25 °C. The band reaches from all sugar dissolved to as much of it crystallised as would at 20 °C, and
/// further to either side by what the filling's water activity may be off, 0.01 to 0.06. Of an ice cream at -18 °C it has 81 %
/// of the water as ice, textbooks about 75 % (memory). Stiff fillings freeze for days: there may be less ice than that.
///
/// # Worked value
/// Sucrose and ice come to rest with each other and with crystals of sucrose at -13.95 °C, where the syrup holds 62.4 % (Young and Jones). So of a
/// syrup of 50 % a fifth is ice by then, 0.5/0.624 being 0.80.
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::ice;
/// use cordial::units::{Checked, MassFraction, Temperature};
/// let half = MassFraction::from_base(0.5)?;
/// let syrup = Composition::new([(Constituent::Water, half), (Constituent::Sucrose, half)])?;
/// let frozen = ice(&syrup, Temperature::from_base(-13.95)?)?;
/// assert!((frozen.share.value.base() - 0.199).abs() < 0.02);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// The condition of equilibrium with ice (memory). The worked value: Young and Jones 1949 (memory).
///
/// # Errors
/// [`WaterBalanceError`] when there is no water, or more than 2 % of the mass is unidentified.
pub fn ice(composition: &Composition, at: Temperature) -> Result<Ice, WaterBalanceError> {
    let water = composition.of(Constituent::Water);
    if water <= 0.0 {
        return Err(WaterBalanceError::NoWater);
    }
    let activity = ice_activity(at).base();
    let known = water_activity(composition, Some(Crystals::Dissolved), Temperature::nearest(ROOM))?.activity;
    let off = (known.high.base() - known.value.base()).clamp(OFF.0, OFF.1);
    let frozen = |mixture: &Mixture<'_>, activity: f64| {
        let held = if activity < 1.0 { mixture.held((-activity.ln()).ln()).water } else { f64::INFINITY };
        (water - held).max(0.0)
    };
    let (splits, saturations) = (splits(composition)?, Saturations::at(Temperature::nearest(ROOM)));
    let cases = splits.iter().map(|split| {
        let [dissolved, beside_crystals] = [None, Some(&saturations)].map(|saturations| Mixture::new(composition, split, saturations));
        Band {
            value: frozen(&dissolved, activity),
            low: frozen(&dissolved, activity + off),
            high: if activity < 1.0 { frozen(&beside_crystals, activity - off) } else { 0.0 },
        }
    });
    Ok(Ice {
        share: spanning(cases).map(MassFraction::nearest),
        in_range: at.celsius() >= COLDEST && composition.spirit_strength() <= MOST_ETHANOL,
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::MassFraction;

    #[test]
    fn the_band_of_ice_spans_what_is_likely() {
        let parts = [(Constituent::Water, 0.7), (Constituent::Sucrose, 0.3)];
        let syrup = Composition::new(parts.map(|(constituent, share)| (constituent, MassFraction::nearest(share)))).unwrap();
        let share = |celsius: f64| ice(&syrup, Temperature::nearest(celsius)).unwrap().share.map(Checked::base);
        for celsius in [-3.0, -10.0, -18.0] {
            let Band { value, low, high } = share(celsius);
            assert!(0.0 <= low && low < value && value < high && high <= 0.7 + 1e-9, "{celsius}: {low} {value} {high}");
        }
        assert!(share(-3.0).value < share(-10.0).value && share(-10.0).value < share(-18.0).value);
    }
}
