//! Oil that wanders from a filling into its shell.

use crate::models::bounds::Bounds;
use crate::models::interpolation::linear;
use crate::models::range::{OutOfRange, within};
use crate::units::quantity::{Diffusivity, Length, Ratio, Time, meter, ratio, second, square_meter_per_second};
use crate::units::{Temperature, Unit, choices};
use std::f64::consts::PI;

/// `D t / L^2` when half of the uptake is done.
const HALF: f64 = 0.196_731;
/// °C and m²/s.
const LEAST: [(f64, f64); 3] = [(19.0, 1e-14), (25.5, 1e-12), (30.0, 1.82e-11)];
const MOST: [(f64, f64); 3] = [(19.0, 5e-13), (25.5, 1e-11), (30.0, 3.23e-11)];
/// °C: none passed in 17 days.
const STILL: f64 = 20.0;

choices! {
    /// How likely a shell is to soften or bloom by the filling's oil, the least first.
    MigrationRisk: "a risk of oil migration" {
        /// Even at the most, little oil arrives.
        Slight "slight",
        /// The bounds do not decide.
        Possible "possible",
        /// Even at the least, much oil arrives.
        Likely "likely",
    }
}

/// The share of its final uptake that a wall has taken up.
///
/// # Equation
/// A plane sheet, one face held at equilibrium, the other sealed, with `F = D t / L^2`:
/// `1 - (8 / pi^2) sum exp(-(2n + 1)^2 pi^2 F / 4) / (2n + 1)^2`; for `F < 0.1` its short form
/// `2 sqrt(F / pi)`, which differs by less than 0.00001.
///
/// # Units
/// Any that agree; a ratio.
///
/// # Range
/// Every time. Real uptake is not strictly Fickian (swelling, tortuosity).
///
/// # Error
/// 0.0002 against the series as computed elsewhere.
///
/// # Worked value
/// Half is taken up at `F = 0.1967`:
/// ```
/// # use cordial::models::fat::migration;
/// # use cordial::units::quantity::*;
/// let (diffusivity, time) = (Diffusivity::new::<square_meter_per_second>(0.1967e-12), Time::new::<second>(1e6));
/// let uptake = migration::uptake(diffusivity, Length::new::<millimeter>(1.0), time);
/// assert!((uptake.get::<ratio>() - 0.5).abs() < 2e-4);
/// ```
///
/// # Source
/// Crank (1975), The Mathematics of Diffusion: memory, evaluated with SciPy (computed).
#[must_use]
pub fn uptake(diffusivity: Diffusivity, wall: Length, time: Time) -> Ratio {
    let square = wall.get::<meter>().powi(2);
    let moved = diffusivity.get::<square_meter_per_second>() * time.get::<second>();
    Ratio::new::<ratio>(if square > 0.0 { uptake_of(moved / square) } else { 1.0 })
}

/// The time by which a wall has taken up half of what it will, by [`uptake`]: `0.1967 L^2 / D`, so 12 h through 2 mm at 30 °C.
///
/// ```
/// # use cordial::models::fat::migration;
/// # use cordial::units::quantity::*;
/// let hours = migration::half_time(Diffusivity::new::<square_meter_per_second>(1.82e-11), Length::new::<millimeter>(2.0));
/// assert!((hours.get::<second>() / 3600.0 / 12.01 - 1.0).abs() < 0.005);
/// ```
#[must_use]
pub fn half_time(diffusivity: Diffusivity, wall: Length) -> Time {
    Time::new::<second>(HALF * wall.get::<meter>().powi(2) / diffusivity.get::<square_meter_per_second>())
}

/// How fast nut oil goes through chocolate.
///
/// # Equation
/// Between bounds, their logarithms interpolated over the temperature:
///
/// | °C | m²/s | how known |
/// |---|---|---|
/// | 18 to 20 | 1e-14 to 5e-13 | memory |
/// | 20 | none passed in 17 days: the least is 0 up to here | seen |
/// | 25 to 26 | 1e-12 to 1e-11 | memory |
/// | 30 | 1.82e-11 to 3.23e-11 | seen (peanut oil, five recipes) |
///
/// # Units
/// °C, m²/s.
///
/// # Range
/// 0 to 30 °C. Below 19 °C the most is held where it is there.
///
/// # Error
/// None to be stated: they are bounds. Crystals formed under shear, as in tempering, slow the oil by 62 to 91 % (seen).
///
/// # Worked value
/// Peanut oil at 30 °C, 1.82e-11 to 3.23e-11 m²/s:
/// ```
/// # use cordial::models::fat::migration;
/// # use cordial::units::{Measure, quantity::square_meter_per_second};
/// let bounds = migration::diffusivity(Measure::parse("30 Cel")?.check()?)?;
/// assert!((bounds.least.get::<square_meter_per_second>() / 1.82e-11 - 1.0).abs() < 1e-9);
/// assert!((bounds.most.get::<square_meter_per_second>() / 3.23e-11 - 1.0).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Altan, Lavenson, McCarthy & McCarthy (2011) J. Food Sci. (seen in abstract); shear: RSC Adv. (2016) c6ra11196c (seen in abstract).
///
/// # Errors
/// [`OutOfRange`] outside 0 to 30 °C.
pub fn diffusivity(at: Temperature) -> Result<Bounds<Diffusivity>, OutOfRange> {
    let celsius = within(&(0.0..=30.0), at, Unit::Celsius, "the migration of oil")?;
    let read = |table: [(f64, f64); 3]| linear(&table.map(|(celsius, diffusivity)| (celsius, diffusivity.ln())), celsius).exp();
    let least = if celsius <= STILL { 0.0 } else { read(LEAST) };
    let of = Diffusivity::new::<square_meter_per_second>;
    Ok(Bounds { least: of(least), most: of(read(MOST)) })
}

/// How likely oil is to spoil a shell of this wall within a time: likely when at least half of the uptake is done even at the least,
/// slight when a tenth is not done even at the most (defaults). It ranks; it dates nothing.
///
/// # Errors
/// As [`diffusivity`].
pub fn risk(wall: Length, at: Temperature, time: Time) -> Result<MigrationRisk, OutOfRange> {
    let diffusivity = diffusivity(at)?;
    let done = |diffusivity| uptake(diffusivity, wall, time).get::<ratio>();
    Ok(if done(diffusivity.least) >= 0.5 {
        MigrationRisk::Likely
    } else if done(diffusivity.most) < 0.1 {
        MigrationRisk::Slight
    } else {
        MigrationRisk::Possible
    })
}

/// [`uptake`] of the Fourier number.
fn uptake_of(fourier: f64) -> f64 {
    if fourier < 0.1 {
        2.0 * (fourier.max(0.0) / PI).sqrt()
    } else {
        let term = |odd: f64| (-(odd * PI).powi(2) * fourier / 4.0).exp() / (odd * odd);
        1.0 - 8.0 / (PI * PI) * [1.0, 3.0, 5.0, 7.0].map(term).iter().sum::<f64>()
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;
    use approx::assert_abs_diff_eq;

    fn celsius(value: f64) -> Temperature {
        Temperature::from_base(value).unwrap()
    }

    fn days(value: f64) -> Time {
        Time::new::<second>(86_400.0 * value)
    }

    fn millimetres(value: f64) -> Length {
        Length::new::<meter>(value / 1000.0)
    }

    #[test]
    fn the_short_form_joins_the_series() {
        assert_abs_diff_eq!(uptake_of(0.1 - 1e-12), uptake_of(0.1), epsilon = 1e-5);
        assert_eq!((uptake_of(0.0), uptake_of(1e6)), (0.0, 1.0));
    }

    #[test]
    fn half_is_taken_up_at_the_half_time() {
        assert_abs_diff_eq!(uptake_of(HALF), 0.5, epsilon = 1e-6);
    }

    #[test]
    fn the_range_is_guarded() {
        assert!(diffusivity(celsius(31.0)).is_err());
    }

    #[test]
    fn colder_thicker_and_sooner_is_safer() {
        let risk = |wall, celsius_, time| risk(millimetres(wall), celsius(celsius_), days(time)).unwrap();
        assert!(risk(2.0, 16.0, 30.0) <= risk(2.0, 25.0, 30.0) && risk(2.0, 25.0, 30.0) <= risk(2.0, 30.0, 30.0));
        assert_eq!(risk(5.0, 18.0, 1.0), MigrationRisk::Slight);
        assert!(risk(5.0, 25.0, 2.0) <= risk(1.0, 25.0, 20.0));
        let mut last = 0.0;
        for tenth in 0..=300 {
            let most = diffusivity(celsius(f64::from(tenth) / 10.0)).unwrap().most.get::<square_meter_per_second>();
            assert!(most >= last);
            last = most;
        }
    }
}
