//! Casson's law, the one chocolate is specified by.

use super::{FlowLaw, pascals};
use crate::units::quantity::{DynamicViscosity, ShearRate, Stress, pascal, per_second};
use crate::units::{Checked, Viscosity, YieldValue};

/// A material that flows by Casson's law.
///
/// # Equation
/// `sqrt(tau) = sqrt(tau_CA) + sqrt(eta_CA rate)`, nothing flowing up to `tau_CA`.
///
/// # Units
/// Stress `tau` and yield value `tau_CA` in Pa, plastic viscosity `eta_CA` in Pa s, shear rate in 1/s.
///
/// # Range
/// Molten chocolate, 5 to 60 1/s. Below 5 1/s it is an extrapolation, and the yield value is one: see
/// [`FlowCurve`](super::curve::FlowCurve) for what other laws make of the same points.
///
/// # Error
/// Five ring trials: stresses above 5 1/s scatter by less than 8 %, yet the yield values of laboratories lie sevenfold apart and their
/// plastic viscosities twofold.
///
/// # Worked value
/// A milk chocolate of 14.28 Pa and 1.863 Pa s needs 46.66 Pa at 5 1/s:
/// ```
/// # use cordial::models::flow::{FlowLaw, casson::Casson};
/// # use cordial::units::{Measure, quantity::{ShearRate, pascal, per_second}};
/// let milk = Casson {
///     yield_value: Measure::parse("14.28 Pa")?.check()?,
///     plastic_viscosity: Measure::parse("1.863 Pa.s")?.check()?,
/// };
/// let stress = milk.stress(ShearRate::new::<per_second>(5.0));
/// assert!((stress.get::<pascal>() - 46.662).abs() < 0.005);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// Casson (1959) (memory). Range: De Graef et al. (2011) Food Res. Int. 44:2660 (seen). Scatter: Aeschlimann & Beckett (2000) J. Texture
/// Stud. (seen). The milk chocolate: a rheometer maker's glossary (seen), its stress by the closed form (computed).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Casson {
    /// The stress up to which nothing flows.
    pub yield_value: YieldValue,
    /// The viscosity that is left at high shear rates.
    pub plastic_viscosity: Viscosity,
}

impl Casson {
    /// What to report instead of the two constants, as an extrapolation enters neither: the stress at 5 1/s for the yield value, and the
    /// apparent viscosity at 40 1/s for the plastic viscosity (Servais et al. 2004, seen).
    #[must_use]
    pub fn reporting_pair(&self) -> (Stress, DynamicViscosity) {
        (self.stress(ShearRate::new::<per_second>(5.0)), self.apparent_viscosity(ShearRate::new::<per_second>(40.0)))
    }
}

impl FlowLaw for Casson {
    fn stress(&self, rate: ShearRate) -> Stress {
        let viscous = self.plastic_viscosity.base() * rate.get::<per_second>();
        pascals((self.yield_value.base().sqrt() + viscous.sqrt()).powi(2))
    }

    fn rate(&self, stress: Stress) -> ShearRate {
        let (stress, yield_value) = (stress.get::<pascal>(), self.yield_value.base());
        ShearRate::new::<per_second>(if stress > yield_value {
            (stress.sqrt() - yield_value.sqrt()).powi(2) / self.plastic_viscosity.base()
        } else {
            0.0
        })
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
pub(super) mod tests {
    use super::*;
    use crate::units::quantity::pascal_second;
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    pub(in super::super) fn casson(yield_value: f64, plastic_viscosity: f64) -> Casson {
        Casson {
            yield_value: YieldValue::from_base(yield_value).unwrap(),
            plastic_viscosity: Viscosity::from_base(plastic_viscosity).unwrap(),
        }
    }

    fn stress(law: Casson, rate: f64) -> f64 {
        law.stress(ShearRate::new::<per_second>(rate)).get::<pascal>()
    }

    fn rate(law: Casson, stress: f64) -> f64 {
        law.rate(pascals(stress)).get::<per_second>()
    }

    #[test]
    fn nothing_flows_up_to_the_yield_value() {
        let law = casson(8.0, 2.0);
        assert_eq!(rate(law, 8.0), 0.0);
        assert_eq!(rate(law, -1.0), 0.0);
    }

    #[test]
    fn the_reporting_pair() {
        let (stress, viscosity) = casson(14.28, 1.863).reporting_pair();
        assert_relative_eq!(stress.get::<pascal>(), 46.662, max_relative = 1e-4);
        assert_relative_eq!(viscosity.get::<pascal_second>(), 154.04 / 40.0, max_relative = 1e-4);
    }

    proptest! {
        #[test]
        fn rate_undoes_stress(yield_value in 0.0..100.0f64, plastic_viscosity in 0.01..30.0f64, at in 0.01..100.0f64) {
            let law = casson(yield_value, plastic_viscosity);
            prop_assert!((rate(law, stress(law, at)) / at - 1.0).abs() < 1e-6);
        }
    }
}
