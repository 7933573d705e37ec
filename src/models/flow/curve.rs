//! What a measured flow curve says, by each of three laws.

use super::casson::Casson;
use super::herschel_bulkley::HerschelBulkley;
use super::{FlowLaw, pascals};
use crate::units::quantity::{Ratio, ShearRate, Stress, pascal, per_second, ratio};
use crate::units::{Checked, Viscosity, YieldValue};
use roots::{SimpleConvergency, find_root_brent};

/// The flow indices tried for Herschel and Bulkley's law, in steps between which no more than one best fit is expected.
const LEAST_INDEX: f64 = 0.05;
const INDEX_STEP: f64 = 0.05;
const INDEX_STEPS: u32 = 39;

/// A measured flow curve.
///
/// # Equation
/// Least squares, no yield value below zero:
/// - Casson: the straight line of `sqrt(stress)` over `sqrt(rate)`;
/// - Bingham: the straight line of stress over rate;
/// - Herschel-Bulkley: for a given index `n` the straight line of stress over `rate^n`; of all `n` the one with the least sum of squares
///   `S`. As yield value and consistency are the best for their `n`, `dS/dn = -2 K sum(r rate^n ln rate)` with the residuals `r`: its
///   roots are bracketed and solved, which asks for no minimiser.
///
/// # Units
/// Shear rates in 1/s, stresses in Pa.
///
/// # Range
/// Two shear rates, for Herschel-Bulkley three; indices from 0.05 to 2. Two points are passed through: they define a Casson curve, wherever
/// it has a yield value.
///
/// # Error
/// [`Fit::misfit`] tells how well a law meets the points. It does not tell how far its yield value can be trusted: that lies below the
/// lowest rate, and laws that all meet the points put it elsewhere.
///
/// # Worked value
/// One curve (aqueous carbopol, eleven points), a yield value of 29 or of 46 Pa by the law; the vane found 46.5 Pa:
/// ```
/// # use cordial::models::flow::curve::FlowCurve;
/// # use cordial::units::{Checked, quantity::{ShearRate, Stress, pascal, per_second}};
/// let points = [
///     (0.171, 53.14), (0.316, 57.86), (0.421, 61.59), (0.603, 66.0), (0.812, 70.0), (1.124, 75.47),
///     (1.382, 78.18), (1.92, 84.37), (2.63, 90.23), (3.67, 98.26), (5.07, 106.76),
/// ];
/// let curve = FlowCurve::new(points.map(|(rate, stress)| (ShearRate::new::<per_second>(rate), Stress::new::<pascal>(stress))))?;
/// let (casson, herschel_bulkley) = (curve.casson()?, curve.herschel_bulkley()?);
/// assert!((casson.law.yield_value.base() / 46.5 - 1.0).abs() < 0.02);
/// assert!((herschel_bulkley.law.yield_value.base() / 29.31 - 1.0).abs() < 0.01);
/// # Ok::<(), cordial::models::flow::curve::CurveError>(())
/// ```
///
/// # Source
/// The points and the vane: Chhabra & Richardson, Non-Newtonian Flow and Applied Rheology, a problem (seen). 29.31 Pa: a general-purpose
/// least-squares routine on the same points (computed).
#[derive(Debug, Clone, PartialEq)]
pub struct FlowCurve {
    /// Shear rate in 1/s and stress in Pa.
    points: Vec<(f64, f64)>,
}

/// A law as it fits a flow curve best.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit<L> {
    /// The law.
    pub law: L,
    /// Root mean square of how far its stresses are off.
    pub misfit: Stress,
}

/// Why a law cannot be fitted.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CurveError {
    /// A point without flow or without stress.
    #[error("point {point} of the flow curve needs a shear rate and a stress above zero")]
    NotPositive {
        /// Which point, counted from one.
        point: usize,
    },
    /// Too few shear rates for the constants of the law.
    #[error("the fit takes at least {needed} different shear rates, found {found}")]
    TooFew {
        /// How many the law takes.
        needed: usize,
        /// How many there are.
        found: usize,
    },
    /// Stress that does not rise with the shear rate.
    #[error("the stress does not rise with the shear rate")]
    Falling,
    /// The best flow index lies outside the range.
    #[error("no flow index from 0.05 to 2 fits best: the points do not settle it")]
    NoIndex,
}

impl FlowCurve {
    /// A flow curve from its points, in any order.
    ///
    /// # Errors
    /// [`CurveError::NotPositive`] where a number is missing, infinite or not above zero; [`CurveError::TooFew`] below two shear rates.
    pub fn new(points: impl IntoIterator<Item = (ShearRate, Stress)>) -> Result<Self, CurveError> {
        let points: Vec<_> = points.into_iter().map(|(rate, stress)| (rate.get::<per_second>(), stress.get::<pascal>())).collect();
        let sound = |(rate, stress): &(f64, f64)| [rate, stress].iter().all(|number| number.is_finite() && **number > 0.0);
        if let Some(at) = points.iter().position(|point| !sound(point)) {
            return Err(CurveError::NotPositive { point: at + 1 });
        }
        let curve = Self { points };
        curve.needs(2)?;
        Ok(curve)
    }

    /// Casson's law.
    ///
    /// # Errors
    /// [`CurveError::Falling`] when the stress does not rise.
    pub fn casson(&self) -> Result<Fit<Casson>, CurveError> {
        let roots = self.points.iter().map(|(rate, stress)| (rate.sqrt(), stress.sqrt()));
        let line = Line::through(roots).ok_or(CurveError::Falling)?;
        Ok(self.fit(Casson {
            yield_value: YieldValue::nearest(line.intercept.powi(2)),
            plastic_viscosity: Viscosity::nearest(line.slope.powi(2)),
        }))
    }

    /// Bingham's law.
    ///
    /// # Errors
    /// [`CurveError::Falling`] when the stress does not rise.
    pub fn bingham(&self) -> Result<Fit<HerschelBulkley>, CurveError> {
        let line = self.line(1.0).ok_or(CurveError::Falling)?;
        Ok(self.fit(HerschelBulkley::bingham(YieldValue::nearest(line.intercept), Viscosity::nearest(line.slope))))
    }

    /// Herschel and Bulkley's law.
    ///
    /// # Errors
    /// [`CurveError::TooFew`] below three shear rates, [`CurveError::Falling`] when the stress does not rise, [`CurveError::NoIndex`] when
    /// the fit only gets better towards the end of the range of indices.
    pub fn herschel_bulkley(&self) -> Result<Fit<HerschelBulkley>, CurveError> {
        self.needs(3)?;
        self.line(1.0).ok_or(CurveError::Falling)?;
        let indices = (0..=INDEX_STEPS).map(|step| LEAST_INDEX + f64::from(step) * INDEX_STEP);
        let steps = indices.clone().zip(indices.skip(1));
        // The sum of squares falls up to a best index and grows beyond it.
        let around = steps.filter(|(below, above)| self.improvement(*below) >= 0.0 && self.improvement(*above) <= 0.0);
        let fits = around.filter_map(|(below, above)| {
            let mut convergency = SimpleConvergency { eps: 1e-12, max_iter: 100 };
            let index = find_root_brent(below, above, |index| self.improvement(index), &mut convergency).ok()?;
            let line = self.line(index)?;
            Some(self.fit(HerschelBulkley {
                yield_value: YieldValue::nearest(line.intercept),
                consistency: pascals(line.slope),
                index: Ratio::new::<ratio>(index),
            }))
        });
        fits.min_by(|one, two| one.misfit.get::<pascal>().total_cmp(&two.misfit.get::<pascal>())).ok_or(CurveError::NoIndex)
    }

    /// How fast the sum of squares falls with the flow index, as a share of what it could by any residuals; not a number where no line
    /// rises.
    fn improvement(&self, index: f64) -> f64 {
        let Some(line) = self.line(index) else { return f64::NAN };
        let (gain, all) = self.points.iter().fold((0.0, 0.0), |(gain, all), (rate, stress)| {
            let lever = rate.powf(index) * rate.ln();
            (gain + (stress - line.at(rate.powf(index))) * lever, all + (stress * lever).abs())
        });
        gain / all
    }

    /// The line of stress over a power of the shear rate.
    fn line(&self, index: f64) -> Option<Line> {
        Line::through(self.points.iter().map(|(rate, stress)| (rate.powf(index), *stress)))
    }

    fn fit<L: FlowLaw>(&self, law: L) -> Fit<L> {
        let off = |(rate, stress): &(f64, f64)| law.stress(ShearRate::new::<per_second>(*rate)).get::<pascal>() - stress;
        let squares: f64 = self.points.iter().map(|point| off(point).powi(2)).sum();
        Fit { misfit: pascals((squares / self.points.len() as f64).sqrt()), law }
    }

    fn needs(&self, needed: usize) -> Result<(), CurveError> {
        let mut rates: Vec<_> = self.points.iter().map(|(rate, _)| *rate).collect();
        rates.sort_by(f64::total_cmp);
        rates.dedup();
        if rates.len() < needed { Err(CurveError::TooFew { needed, found: rates.len() }) } else { Ok(()) }
    }
}

/// A line that rises from an intercept not below zero.
struct Line {
    intercept: f64,
    slope: f64,
}

impl Line {
    /// The line with the least sum of squared deviations; nothing if it does not rise.
    fn through(points: impl Iterator<Item = (f64, f64)> + Clone) -> Option<Self> {
        let mean = |of: fn((f64, f64)) -> f64| {
            let (sum, count) = points.clone().map(of).fold((0.0, 0.0), |(sum, count), value| (sum + value, count + 1.0));
            sum / count
        };
        let (x, y) = (mean(|(x, _)| x), mean(|(_, y)| y));
        let slope_about = |x: f64, y: f64| {
            let (products, squares) = points
                .clone()
                .fold((0.0, 0.0), |(products, squares), (at, value)| (products + (at - x) * (value - y), squares + (at - x).powi(2)));
            products / squares
        };
        let slope = slope_about(x, y);
        if slope.is_nan() || slope <= 0.0 {
            return None;
        }
        let intercept = y - slope * x;
        Some(if intercept < 0.0 { Self { intercept: 0.0, slope: slope_about(0.0, 0.0) } } else { Self { intercept, slope } })
    }

    fn at(&self, x: f64) -> f64 {
        self.intercept + self.slope * x
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::super::{casson, herschel_bulkley};
    use super::*;
    use approx::assert_abs_diff_eq;
    use proptest::prelude::*;

    /// Aqueous carbopol at 293 K (`CHHABRA`, seen).
    const CARBOPOL: [(f64, f64); 11] = [
        (0.171, 53.14),
        (0.316, 57.86),
        (0.421, 61.59),
        (0.603, 66.0),
        (0.812, 70.0),
        (1.124, 75.47),
        (1.382, 78.18),
        (1.92, 84.37),
        (2.63, 90.23),
        (3.67, 98.26),
        (5.07, 106.76),
    ];

    fn curve(points: &[(f64, f64)]) -> Result<FlowCurve, CurveError> {
        FlowCurve::new(points.iter().map(|(rate, stress)| (ShearRate::new::<per_second>(*rate), pascals(*stress))))
    }

    fn points_of(law: &impl FlowLaw, rates: &[f64]) -> Vec<(f64, f64)> {
        rates.iter().map(|rate| (*rate, law.stress(ShearRate::new::<per_second>(*rate)).get::<pascal>())).collect()
    }

    #[test]
    fn the_more_constants_the_better_the_fit() {
        let carbopol = curve(&CARBOPOL).unwrap();
        let (casson, bingham, curved) = (carbopol.casson().unwrap(), carbopol.bingham().unwrap(), carbopol.herschel_bulkley().unwrap());
        // And the further apart the yield values.
        assert!(curved.misfit < casson.misfit && casson.misfit < bingham.misfit);
        assert!(bingham.law.yield_value > casson.law.yield_value);
    }

    #[test]
    fn a_casson_curve_passes_through_two_points() {
        let fit = curve(&[(40.0, 154.04), (5.0, 46.662)]).unwrap().casson().unwrap();
        assert_abs_diff_eq!(fit.misfit.get::<pascal>(), 0.0, epsilon = 1e-9);
    }

    #[test]
    fn what_no_law_fits() {
        assert_eq!(curve(&[(1.0, 2.0)]).unwrap_err(), CurveError::TooFew { needed: 2, found: 1 });
        assert_eq!(curve(&[(1.0, 2.0), (1.0, 2.1)]).unwrap_err(), CurveError::TooFew { needed: 2, found: 1 });
        assert_eq!(curve(&[(1.0, 2.0), (0.0, 2.0)]).unwrap_err(), CurveError::NotPositive { point: 2 });
        assert_eq!(curve(&[(f64::NAN, 2.0), (2.0, 2.0)]).unwrap_err(), CurveError::NotPositive { point: 1 });
        let two = curve(&[(1.0, 2.0), (2.0, 3.0)]).unwrap();
        assert_eq!(two.herschel_bulkley().unwrap_err(), CurveError::TooFew { needed: 3, found: 2 });
        let falling = curve(&[(1.0, 3.0), (2.0, 2.0), (3.0, 1.0)]).unwrap();
        assert_eq!(falling.casson().unwrap_err(), CurveError::Falling);
        assert_eq!(falling.herschel_bulkley().unwrap_err(), CurveError::Falling);
        let steep = curve(&[(1.0, 1.0), (2.0, 8.0), (3.0, 27.0)]).unwrap();
        assert_eq!(steep.herschel_bulkley().unwrap_err(), CurveError::NoIndex);
    }

    #[test]
    fn no_yield_value_below_zero() {
        let fit = curve(&[(1.0, 1.0), (2.0, 4.0), (3.0, 9.0)]).unwrap().casson().unwrap();
        assert_eq!(fit.law.yield_value.base(), 0.0);
        assert!(fit.misfit.get::<pascal>() > 0.1);
    }

    proptest! {
        #[test]
        fn a_law_is_found_again(yield_value in 0.5..60.0f64, stiffness in 0.5..10.0f64, index in 0.15..1.8f64) {
            let rates = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0];
            let curved = herschel_bulkley::tests::law(yield_value, stiffness, index);
            let fit = curve(&points_of(&curved, &rates)).unwrap().herschel_bulkley().unwrap();
            prop_assert!((fit.law.index.get::<ratio>() - index).abs() < 1e-6, "{fit:?}");
            prop_assert!((fit.law.yield_value.base() - yield_value).abs() < 1e-4 * yield_value.max(1.0), "{fit:?}");
            let straight = casson::tests::casson(yield_value, stiffness);
            let fit = curve(&points_of(&straight, &rates)).unwrap().casson().unwrap();
            prop_assert!((fit.law.yield_value.base() / yield_value - 1.0).abs() < 1e-9);
        }
    }
}
