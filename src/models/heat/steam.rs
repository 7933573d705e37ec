//! What steam presses at over boiling water.

use crate::units::quantity::{Pressure, pascal};
use crate::units::{Checked, Temperature};

/// The critical point, K and Pa.
const CRITICAL_TEMPERATURE: f64 = 647.096;
const CRITICAL_PRESSURE: f64 = 22.064e6;
/// Factors and powers of `1 - T/Tc`.
const TERMS: [(f64, f64); 6] =
    [(-7.859_517_83, 1.0), (1.844_082_59, 1.5), (-11.786_649_7, 3.0), (22.680_741_1, 3.5), (-15.961_871_9, 4.0), (1.801_225_02, 7.5)];

/// The vapour pressure of boiling water.
///
/// # Equation
/// `ln(p/pc) = Tc/T (a1 z + a2 z^1.5 + a3 z³ + a4 z^3.5 + a5 z⁴ + a6 z^7.5)`, `z = 1 - T/Tc`.
///
/// # Units
/// `T` in K, `p` in Pa.
///
/// # Range
/// 0 to 200 °C.
///
/// # Error
/// 0.01 % against the formulation it is derived from, IAPWS-95, from 60 to 180 °C.
///
/// # Worked value
/// 198 674 Pa at 120 °C (IAPWS-95 as computed with CoolProp 8.0.0):
/// ```
/// # use cordial::models::heat::steam;
/// # use cordial::units::{Measure, quantity::pascal};
/// let pressure = steam::pressure(Measure::parse("120 Cel")?.check()?);
/// assert!((pressure.get::<pascal>() / 198_674.0 - 1.0).abs() < 1e-4);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// Wagner and Pruss 1993, IAPWS SR1-86 (memory), checked against CoolProp (computed).
#[must_use]
pub fn pressure(at: Temperature) -> Pressure {
    let kelvin = at.base().max(0.0) + 273.15;
    let z = 1.0 - kelvin / CRITICAL_TEMPERATURE;
    let sum: f64 = TERMS.iter().map(|(factor, power)| factor * z.powf(*power)).sum();
    Pressure::new::<pascal>(CRITICAL_PRESSURE * (CRITICAL_TEMPERATURE / kelvin * sum).exp())
}

/// Where boiling water presses at this, by halving: [`pressure`] turned round.
pub(in crate::models) fn temperature(pressed: Pressure) -> Temperature {
    let (mut low, mut high) = (0.0, Temperature::MAX);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if pressure(Temperature::nearest(middle)) < pressed { low = middle } else { high = middle }
    }
    Temperature::nearest(f64::midpoint(low, high))
}
