//! What grows and shrinks: a cold filling that warms, chocolate that sets.

use crate::matter::{Composition, Constituent};
use crate::models::density::{chocolate, filling};
use crate::models::range::OutOfRange;
use crate::units::quantity::{Ratio, kilogram_per_cubic_meter, ratio};
use crate::units::{Band, Temperature};

/// Linear contraction of well-seeded cocoa butter.
const COCOA_BUTTER: f64 = 0.02;

/// How much a filling grows from the temperature it is filled at to another, over its volume; negative where it shrinks.
///
/// # Equation
/// `rho(t_from) / rho(t_to) - 1`, with [`filling::density`].
///
/// # Units
/// °C; a ratio with its 95 % band.
///
/// # Range
/// As [`filling::density`]. Fat that melts on the way grows more where it is cocoa butter (26 to 34 °C there) and is missed where it is
/// milk fat.
///
/// # Error
/// A factor 1.5 (default): what the densities are uncertain by cancels, how they change with temperature stays.
///
/// # Worked value
/// Water from 5 to 30 °C: 999.967 kg/m³ over 995.649, 0.434 % (IAPWS-95):
/// ```
/// # use cordial::matter::{Composition, Constituent};
/// # use cordial::models::heat::expansion;
/// # use cordial::units::{Measure, quantity::ratio};
/// let water = Composition::pure(Constituent::Water);
/// let growth = expansion::of_filling(&water, Measure::parse("5 Cel")?.check()?, Measure::parse("30 Cel")?.check()?)?;
/// assert!((growth.value.get::<ratio>() - (999.967 / 995.649 - 1.0)).abs() < 5e-5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// That of [`filling::density`]; the ratio is arithmetic (computed).
///
/// # Errors
/// [`OutOfRange`] where the density is not known.
pub fn of_filling(matter: &Composition, from: Temperature, to: Temperature) -> Result<Band<Ratio>, OutOfRange> {
    let density = |at| Ok(filling::density(matter, at)?.value.get::<kilogram_per_cubic_meter>());
    let growth = density(from)? / density(to)? - 1.0;
    let (near, far) = (growth / 1.5, growth * 1.5);
    Ok(Band { value: growth, low: near.min(far), high: near.max(far) }.map(Ratio::new::<ratio>))
}

/// How much tempered chocolate shrinks in length as it sets.
///
/// # Equation
/// `0.02 v`, with `v` the share of its volume that is cocoa butter.
///
/// # Units
/// A ratio with its 95 % band.
///
/// # Range
/// Well-tempered chocolate, set; untempered chocolate shrinks less (memory).
///
/// # Error
/// The band runs from a third of the value to a fifth above it (default), so that it holds the 0.3 to 0.7 % of practice (memory): some
/// fat has set before it is cast, some stays liquid.
///
/// # Worked value
/// Well-seeded cocoa butter shrinks by 2 % at 16 °C, nearly all within half an hour:
/// ```
/// # use cordial::matter::{Composition, Constituent};
/// # use cordial::models::heat::expansion;
/// # use cordial::units::quantity::ratio;
/// let shrinks = expansion::linear_contraction(&Composition::pure(Constituent::CocoaButter));
/// assert!((shrinks.value.get::<ratio>() - 0.02).abs() < 1e-12);
/// ```
///
/// # Source
/// Lovegren & Feuge (1965) J. Am. Oil Chem. Soc. (seen); that sugar and cocoa shrink not at all: a default of this project.
#[must_use]
pub fn linear_contraction(matter: &Composition) -> Band<Ratio> {
    let density = |matter| chocolate::solid(matter).value.get::<kilogram_per_cubic_meter>();
    let cocoa_butter = Composition::pure(Constituent::CocoaButter);
    let share = matter.of(Constituent::CocoaButter) * density(matter) / density(&cocoa_butter);
    let value = COCOA_BUTTER * share;
    Band { value, low: value / 3.0, high: value * 1.2 }.map(Ratio::new::<ratio>)
}

/// The loss of volume that goes with a [`linear_contraction`]: `1 - (1 - linear)^3`.
#[must_use]
pub fn by_volume(linear: Ratio) -> Ratio {
    Ratio::new::<ratio>(1.0 - (1.0 - linear.get::<ratio>()).powi(3))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::{Checked, MassFraction};
    use Constituent as C;

    fn of(percent: &[(Constituent, f64)]) -> Composition {
        Composition::new(percent.iter().map(|(what, share)| (*what, MassFraction::from_base(share / 100.0).unwrap()))).unwrap()
    }

    fn grows(percent: &[(Constituent, f64)], from: f64, to: f64) -> Band<f64> {
        let celsius = |value| Temperature::from_base(value).unwrap();
        of_filling(&of(percent), celsius(from), celsius(to)).unwrap().map(|growth| growth.get::<ratio>())
    }

    #[test]
    fn a_cold_spirit_grows_more_than_a_syrup() {
        let spirit = grows(&[(C::Ethanol, 33.3), (C::Water, 66.7)], 10.0, 20.0);
        let syrup = grows(&[(C::Sucrose, 60.0), (C::Water, 40.0)], 10.0, 20.0);
        assert!(spirit.value > syrup.value && syrup.value > 0.0);
        assert!(spirit.low < spirit.value && spirit.value < spirit.high);
        let shrinks = grows(&[(C::Ethanol, 33.3), (C::Water, 66.7)], 20.0, 10.0);
        assert!(shrinks.low < shrinks.value && shrinks.value < shrinks.high && shrinks.high < 0.0);
    }

    #[test]
    fn nothing_grows_by_staying_as_warm_as_it_is() {
        assert_eq!(grows(&[(C::Water, 100.0)], 20.0, 20.0), Band::exact(0.0));
    }
}
