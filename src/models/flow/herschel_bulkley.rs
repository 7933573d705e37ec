//! Herschel and Bulkley's law, with Bingham's and Newton's as its straight cases.

use super::{FlowLaw, pascals};
use crate::units::quantity::{Ratio, ShearRate, Stress, pascal, per_second, ratio};
use crate::units::{Checked, Viscosity, YieldValue};

/// A material that flows by Herschel and Bulkley's law.
///
/// # Equation
/// `tau = tau_0 + K rate^n`, nothing flowing up to `tau_0`. With `n = 1` it is Bingham's law, without a yield value Newton's.
///
/// # Units
/// Stress in Pa, shear rate in 1/s, the consistency `K` in Pa s^n: given as the stress it adds at 1 1/s, in Pa.
///
/// # Range
/// The shear rates its constants were fitted on.
///
/// # Error
/// That of the fit: see [`FlowCurve`](super::curve::FlowCurve).
///
/// # Worked value
/// Tempered milk chocolate, Bingham's law with 36.1 Pa and 8.7 Pa s, needs 79.6 Pa at 5 1/s (computed):
/// ```
/// # use cordial::models::flow::{FlowLaw, herschel_bulkley::HerschelBulkley};
/// # use cordial::units::{Measure, quantity::{ShearRate, pascal, per_second}};
/// let tempered = HerschelBulkley::bingham(Measure::parse("36.1 Pa")?.check()?, Measure::parse("8.7 Pa.s")?.check()?);
/// let stress = tempered.stress(ShearRate::new::<per_second>(5.0));
/// assert!((stress.get::<pascal>() - 79.6).abs() < 1e-9);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// Herschel & Bulkley (1926) (memory). The milk chocolate: Bergemann, Heil, Smith & Juel (2018) J. Rheol. 62:1187 (seen).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HerschelBulkley {
    /// The stress up to which nothing flows.
    pub yield_value: YieldValue,
    /// The stress above the yield value at 1 1/s.
    pub consistency: Stress,
    /// The flow index: below 1 it thins under shear.
    pub index: Ratio,
}

impl HerschelBulkley {
    /// Bingham's law.
    #[must_use]
    pub fn bingham(yield_value: YieldValue, plastic_viscosity: Viscosity) -> Self {
        Self { yield_value, consistency: pascals(plastic_viscosity.base()), index: Ratio::new::<ratio>(1.0) }
    }

    /// Newton's law.
    #[must_use]
    pub fn newtonian(viscosity: Viscosity) -> Self {
        Self::bingham(YieldValue::nearest(0.0), viscosity)
    }
}

impl FlowLaw for HerschelBulkley {
    fn stress(&self, rate: ShearRate) -> Stress {
        self.yield_value.quantity() + self.consistency * rate.get::<per_second>().powf(self.index.get::<ratio>())
    }

    fn rate(&self, stress: Stress) -> ShearRate {
        let above = (stress - self.yield_value.quantity()).get::<pascal>().max(0.0);
        ShearRate::new::<per_second>((above / self.consistency.get::<pascal>()).powf(1.0 / self.index.get::<ratio>()))
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
pub(super) mod tests {
    use super::*;
    use crate::units::quantity::pascal_second;
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    pub(in super::super) fn law(yield_value: f64, consistency: f64, index: f64) -> HerschelBulkley {
        HerschelBulkley {
            yield_value: YieldValue::from_base(yield_value).unwrap(),
            consistency: pascals(consistency),
            index: Ratio::new::<ratio>(index),
        }
    }

    #[test]
    fn newton_is_the_straight_case() {
        let syrup = HerschelBulkley::newtonian(Viscosity::from_base(3.0).unwrap());
        for rate in [0.1, 5.0, 40.0].map(ShearRate::new::<per_second>) {
            assert_relative_eq!(syrup.apparent_viscosity(rate).get::<pascal_second>(), 3.0, max_relative = 1e-12);
        }
    }

    proptest! {
        #[test]
        fn rate_undoes_stress(yield_value in 0.0..100.0f64, consistency in 0.1..30.0f64, index in 0.2..1.5f64, at in 0.1..100.0f64) {
            let law = law(yield_value, consistency, index);
            prop_assert!((law.rate(law.stress(ShearRate::new::<per_second>(at))).get::<per_second>() / at - 1.0).abs() < 1e-6);
            prop_assert_eq!(law.rate(law.yield_value.quantity()).get::<per_second>(), 0.0);
        }
    }
}
