//! Water that settles on a cold piece or mould.

use crate::units::quantity::{Pressure, pascal};
use crate::units::{Checked, RelativeHumidity, Temperature};

/// The pressure at 0 °C, Pa.
const AT_ZERO: f64 = 611.2;
const SLOPE: f64 = 17.62;
/// °C.
const SHIFT: f64 = 243.12;

/// The vapour pressure of water in saturated air.
///
/// # Equation
/// Magnus: `6.112 exp(17.62 t / (243.12 + t))`.
///
/// # Units
/// `t` in °C, the formula in hPa.
///
/// # Range
/// -45 to 60 °C over liquid water (memory).
///
/// # Error
/// 0.3 % against a reference formula at 10 and 20 °C.
///
/// # Worked value
/// 23.388 hPa at 20 °C (ASHRAE formula as computed with PsychroLib 2.5.0):
/// ```
/// # use cordial::models::heat::condensation;
/// # use cordial::units::{Measure, quantity::pascal};
/// let pressure = condensation::saturation_pressure(Measure::parse("20 Cel")?.check()?);
/// assert!((pressure.get::<pascal>() / 2338.8 - 1.0).abs() < 0.004);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// Magnus form with the constants of the WMO. Seen on a public page.
#[must_use]
pub fn saturation_pressure(at: Temperature) -> Pressure {
    Pressure::new::<pascal>(AT_ZERO * magnus(at).exp())
}

/// The temperature at which air begins to wet what it meets.
///
/// # Equation
/// The inverse of [`saturation_pressure`]: `243.12 g / (17.62 - g)` with `g = ln(humidity) + 17.62 t / (243.12 + t)`.
///
/// # Units
/// °C.
///
/// # Range
/// -45 to 60 °C (memory). Air so dry that its dew point lies below -40 °C gets -40 °C.
///
/// # Error
/// 0.05 °C against a reference formula from 18 to 30 °C and 50 to 80 % humidity.
///
/// # Worked value
/// Air of 22 °C and 60 %: 13.886 °C (ASHRAE formula as computed with PsychroLib 2.5.0):
/// ```
/// # use cordial::models::heat::condensation;
/// # use cordial::units::Measure;
/// let dew = condensation::dew_point(Measure::parse("22 Cel")?.check()?, Measure::parse("60 %RH")?.check()?);
/// assert!((dew.celsius() - 13.886).abs() < 0.05);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// As [`saturation_pressure`]. Seen.
#[must_use]
pub fn dew_point(air: Temperature, humidity: RelativeHumidity) -> Temperature {
    // Dry air gives -inf, which the quotient would turn into nonsense.
    let g = (humidity.base().ln() + magnus(air)).max(-SLOPE);
    Temperature::nearest(SHIFT * g / (SLOPE - g))
}

/// Whether a surface is wetted by the air: it is colder than the [`dew_point`].
///
/// ```
/// # use cordial::models::heat::condensation;
/// # use cordial::units::Measure;
/// let (air, humidity) = (Measure::parse("22 Cel")?.check()?, Measure::parse("60 %RH")?.check()?);
/// assert!(condensation::wets(air, humidity, Measure::parse("12 Cel")?.check()?));
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
#[must_use]
pub fn wets(air: Temperature, humidity: RelativeHumidity, surface: Temperature) -> bool {
    surface < dew_point(air, humidity)
}

fn magnus(at: Temperature) -> f64 {
    SLOPE * at.celsius() / (SHIFT + at.celsius())
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    fn celsius(value: f64) -> Temperature {
        Temperature::from_base(value).unwrap()
    }

    fn humid(percent: f64) -> RelativeHumidity {
        RelativeHumidity::from_base(percent / 100.0).unwrap()
    }

    #[test]
    fn saturated_and_dry_air() {
        assert_abs_diff_eq!(dew_point(celsius(25.0), humid(100.0)).celsius(), 25.0, epsilon = 1e-9);
        assert_eq!(dew_point(celsius(25.0), humid(0.0)).celsius(), -40.0);
    }
}
