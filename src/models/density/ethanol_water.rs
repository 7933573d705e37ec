//! Ethanol in water: density, strength by mass and by volume, and how much volume goes when they are mixed.

use super::kilograms_per_cubic_meter;
use crate::models::range::{OutOfRange, within};
use crate::units::quantity::{self, Density, Ratio};
use crate::units::{AlcoholByVolume, Checked, MassFraction, Temperature, Unit};

/// The density of a mixture of ethanol and water.
///
/// # Equation
/// With `p` the mass fraction of ethanol and `d = t - 20`: `A(1) + sum_k A(k) p^(k-1) + sum_k B(k) d^k + sum_i sum_k C(i,k) p^k d^i`, the
/// general formula of the international alcoholometric tables.
///
/// # Units
/// `strength` is ethanol by mass; kg/m³ at atmospheric pressure.
///
/// # Range
/// -20 to 40 °C, every strength.
///
/// # Error
/// 0.01 kg/m³ against its own published table; 0.02 kg/m³ against the reference equation of state of water, 0.1 % against that of ethanol.
///
/// # Worked value
/// 40 %vol weighs 948.05 kg/m³ at 20 °C (table IVa):
/// ```
/// # use cordial::models::density::ethanol_water;
/// # use cordial::units::{Measure, quantity::kilogram_per_cubic_meter};
/// let strength = ethanol_water::by_mass(Measure::parse("40 %vol")?.check()?);
/// let density = ethanol_water::density(strength, Measure::parse("20 Cel")?.check()?)?;
/// assert!((density.get::<kilogram_per_cubic_meter>() - 948.05).abs() < 0.01);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// OIML R 22 (1975), International alcoholometric tables; the same formula in Council Directive 76/766/EEC. Seen; its higher coefficients
/// in public transcriptions that agree (one that does not has C(2,3) = -2.170575700536933, a misprint).
///
/// # Errors
/// [`OutOfRange`] outside -20 to 40 °C.
pub fn density(strength: MassFraction, at: Temperature) -> Result<Density, OutOfRange> {
    Ok(kilograms_per_cubic_meter(density_of(strength.base(), at)?))
}

/// Ethanol by mass of a strength by volume, by [`density`] at 20 °C.
#[must_use]
pub fn by_mass(strength: AlcoholByVolume) -> MassFraction {
    let by_volume = strength.base();
    // p = q rho(1) / rho(p) shrinks an error to at most 0.4 of itself each time, because density hardly falls with strength.
    MassFraction::nearest((0..40).fold(by_volume, |p, _| by_volume * at_20(1.0) / at_20(p)))
}

/// Strength by volume of ethanol by mass, by [`density`] at 20 °C.
#[must_use]
pub fn by_volume(strength: MassFraction) -> AlcoholByVolume {
    // Most fillings hold none.
    if strength.base() <= 0.0 {
        return AlcoholByVolume::nearest(0.0);
    }
    AlcoholByVolume::nearest(strength.base() * at_20(strength.base()) / at_20(1.0))
}

/// The volume that goes when ethanol and water are mixed, over the volume of the mixture, by [`density`] at 20 °C: 3.6 L per 100 L at
/// 50 %vol.
#[must_use]
pub fn mixing_contraction(strength: AlcoholByVolume) -> Ratio {
    let ethanol = by_mass(strength).base();
    let apart = ethanol / at_20(1.0) + (1.0 - ethanol) / at_20(0.0);
    Ratio::new::<quantity::ratio>(apart * at_20(ethanol) - 1.0)
}

/// [`density`] in kg/m³ of a strength known to be a fraction.
pub(super) fn density_of(strength: f64, at: Temperature) -> Result<f64, OutOfRange> {
    let celsius = within(&(-20.0..=40.0), at, Unit::Celsius, "the density of ethanol in water")?;
    let warmer = celsius - 20.0;
    let mixture = |terms: &&[f64]| strength * polynomial(terms, strength);
    let by_warmth = MIXTURE_WARMED.each_ref().map(mixture);
    Ok(at_20(strength) + warmer * (polynomial(&WATER_WARMED, warmer) + polynomial(&by_warmth, warmer)))
}

fn at_20(strength: f64) -> f64 {
    polynomial(&AT_20, strength)
}

/// The coefficients rise with the power of `x`.
fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * x + coefficient)
}

/// `A(k)`, kg/m³.
const AT_20: [f64; 12] = [
    998.20123,
    -192.9769495,
    389.1238958,
    -1668.103923,
    13522.15441,
    -88292.78388,
    306287.4042,
    -613838.1234,
    747017.2998,
    -547846.1354,
    223446.0334,
    -39032.85426,
];
/// `B(k)`, kg/(m³ K^k).
const WATER_WARMED: [f64; 6] = [-0.20618513, -0.0052682542, 3.6130013e-05, -3.8957702e-07, 7.169354e-09, -9.9739231e-11];
/// `C(i,k)`, a row for each `i`, kg/(m³ K^i).
const MIXTURE_WARMED: [&[f64]; 5] = [
    &[
        0.1693443461530087,
        -10.46914743455169,
        71.96353469546523,
        -704.7478054272792,
        3924.090430035045,
        -12101.64659068747,
        22486.46550400788,
        -26055.62982188164,
        18523.73922069467,
        -7420.201433430137,
        1285.617841998974,
    ],
    &[
        -0.0119301300505701,
        0.2517399633803461,
        -2.170575700536993,
        13.53034988843029,
        -50.29988758547014,
        109.635566657757,
        -142.2753946421155,
        108.043594285623,
        -44.14153236817392,
        7.442971530188783,
    ],
    &[
        -0.0006802995733503803,
        0.01876837790289664,
        -0.2002561813734156,
        1.02299296671922,
        -2.895696483903638,
        4.810060584300675,
        -4.672147440794683,
        2.458043105903461,
        -0.5411227621436812,
    ],
    &[4.075376675622027e-06, -8.76305857347111e-06, 6.515031360099368e-06, -1.51578483698721e-06],
    &[-2.788074354782409e-08, 1.345612883493354e-08],
];

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::quantity::kilogram_per_cubic_meter;
    use approx::assert_abs_diff_eq;
    use proptest::prelude::*;

    fn kilograms(strength: MassFraction, celsius: f64) -> f64 {
        density(strength, Temperature::from_base(celsius).unwrap()).unwrap().get::<kilogram_per_cubic_meter>()
    }

    fn vol(percent: f64) -> AlcoholByVolume {
        AlcoholByVolume::from_base(percent / 100.0).unwrap()
    }

    #[test]
    fn other_temperatures() {
        // Computed with the formula by a second implementation.
        for (strength, celsius, computed) in
            [(40.0, 30.0, 941.19), (40.0, 0.0, 960.63), (20.0, 25.0, 971.65), (96.0, 25.0, 803.08), (40.0, -10.0, 966.41)]
        {
            assert_abs_diff_eq!(kilograms(by_mass(vol(strength)), celsius), computed, epsilon = 0.02);
        }
        // The ends of the range, where every term counts.
        for (strength, celsius, computed) in [(0.3, -20.0, 974.909), (0.3, 40.0, 940.498), (0.8, -20.0, 876.637), (0.8, 40.0, 825.683)] {
            assert_abs_diff_eq!(kilograms(MassFraction::from_base(strength).unwrap(), celsius), computed, epsilon = 0.001);
        }
    }

    #[test]
    fn independent_fits_agree() {
        // Computed with CoolProp 8.0.0: a brine fit for the mixtures, the reference equations of state for ethanol and water (IAPWS-95).
        for (strength, celsius, computed, tolerance) in [
            (0.1, 20.0, 981.84, 0.002 * 981.84),
            (0.334, 20.0, 948.09, 0.002 * 948.09),
            (0.4, 30.0, 927.89, 0.002 * 927.89),
            (0.5, 20.0, 913.57, 0.002 * 913.57),
            (1.0, 20.0, 789.42, 0.001 * 789.42),
            (1.0, 0.0, 806.41, 0.001 * 806.41),
            (1.0, 40.0, 772.09, 0.001 * 772.09),
            (0.0, 5.0, 999.967, 0.03),
            (0.0, 30.0, 995.649, 0.03),
            (0.0, 20.0, 998.207, 0.02),
        ] {
            assert_abs_diff_eq!(kilograms(MassFraction::from_base(strength).unwrap(), celsius), computed, epsilon = tolerance);
        }
    }

    #[test]
    fn strength_by_mass() {
        // 40 %vol is 33.30 % by mass in table IVb (memory); the others computed with the formula.
        for (strength, percent) in [(40.0, 33.30), (20.0, 16.214), (12.0, 9.641), (37.5, 31.091), (96.0, 93.838)] {
            assert_abs_diff_eq!(100.0 * by_mass(vol(strength)).base(), percent, epsilon = 0.003);
        }
    }

    #[test]
    fn contraction() {
        let litres = |strength| 100.0 * mixing_contraction(vol(strength)).get::<quantity::ratio>();
        for (strength, computed) in [(50.0, 3.649), (40.0, 3.349), (20.0, 1.718)] {
            assert_abs_diff_eq!(litres(strength), computed, epsilon = 0.01);
        }
        // 50 + 53.73 parts give 100 at 60 °F (memory).
        assert!((3.6..3.8).contains(&litres(50.0)));
        assert_abs_diff_eq!(litres(0.0), 0.0, epsilon = 1e-12);
        assert_abs_diff_eq!(litres(100.0), 0.0, epsilon = 1e-12);
    }

    #[test]
    fn the_range_is_the_tables() {
        let error = density(MassFraction::ZERO, Temperature::from_base(45.0).unwrap()).unwrap_err();
        assert_eq!(error.to_string(), "the density of ethanol in water is known from -20 Cel to 40 Cel, found `45 Cel`");
        assert!(density(MassFraction::ZERO, Temperature::from_base(-20.0).unwrap()).is_ok());
    }

    proptest! {
        #[test]
        fn strengths_go_there_and_back(strength in 0.0..=100.0f64) {
            let back = by_volume(by_mass(vol(strength)));
            prop_assert!((back.base() - vol(strength).base()).abs() <= 1e-10, "{strength} %vol came back as {back:?}");
        }
    }
}
