//! Fillings thickened with xanthan.

use super::pascals;
use crate::matter::{Composition, Constituent};
use crate::models::density::ethanol_water;
use crate::units::quantity::{DynamicViscosity, Ratio, ShearRate, Stress, pascal, pascal_second, per_second, ratio};
use crate::units::{AlcoholByVolume, Band, Checked, MassFraction, Viscosity};

/// Yield value of 1 g per 100 g of water, Pa.
const YIELD: f64 = 11.0;
/// Consistency of 1 g per 100 g of water, Pa s^n, and flow index.
const CONSISTENCY: f64 = 10.0;
const INDEX: f64 = 0.22;
/// The grade these figures are for: 1 % in 1 % KCl at 60 turns a minute, Pa s.
const GRADE: f64 = 1.4;
/// Grams per 100 g of water: near-Newtonian up to the one, the figures reach to the other.
const NEAR_NEWTONIAN: f64 = 0.1;
const MOST: f64 = 1.5;
/// Of the water phase: below this strength the gum need not be wetted first (default), above the next the band widens, above the last no
/// figure holds.
const HYDRATES: f64 = 0.05;
const UNSURE: f64 = 0.20;
const STRONGEST: f64 = 0.50;

/// Xanthan in the water of a filling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dispersion {
    /// Gum over water by mass. Ethanol does not count as water.
    pub gum: Ratio,
    /// Of the water with its ethanol.
    pub strength: AlcoholByVolume,
    /// Whether the gum was wetted before the spirit came in.
    pub hydrated_first: bool,
    /// Viscosity of 1 % of this gum in 1 % KCl at 60 turns a minute, if its maker states it; 1.2 to 1.6 Pa s is usual.
    pub grade: Option<Viscosity>,
}

/// What xanthan gives a filling to stand on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct XanthanYield {
    /// The yield value.
    pub yield_value: Band<Stress>,
    /// Whether the filling is one the figures are for.
    pub inside_range: bool,
}

impl Dispersion {
    /// The gum of a filling; nothing when it holds no water.
    #[must_use]
    pub fn of(filling: &Composition, hydrated_first: bool, grade: Option<Viscosity>) -> Option<Self> {
        let water = filling.of(Constituent::Water);
        (water > 0.0).then(|| Self {
            gum: Ratio::new::<ratio>(filling.of(Constituent::Xanthan) / water),
            strength: ethanol_water::by_volume(MassFraction::nearest(filling.spirit_strength())),
            hydrated_first,
            grade,
        })
    }

    /// The yield value.
    ///
    /// # Equation
    /// `11 c^2`, times the grade over 1.4 Pa s.
    ///
    /// # Units
    /// `c` in grams per 100 g of water, ethanol not counted; Pa.
    ///
    /// # Range
    /// To 1.5 g per 100 g of water and 50 %vol of the water phase; above 5 %vol (default) only for gum hydrated first. Outside the figure
    /// is still given, and said to be outside.
    ///
    /// # Error
    /// 95 % within a factor 2, above 20 %vol a factor 3 (defaults). Up to 0.1 g per 100 g of water it may be nothing at all: such solutions
    /// are near-Newtonian (seen), and even 0.4 % shows no true yield value in creep (seen): this is the stress it bears over minutes.
    ///
    /// # Worked value
    /// 0.5 % bears about 3 Pa, 1.5 to 4 (memory):
    /// ```
    /// # use cordial::models::flow::xanthan::Dispersion;
    /// # use cordial::units::{Measure, quantity::{Ratio, pascal, ratio}};
    /// let strength = Measure::parse("0 %vol")?.check()?;
    /// let gum = Dispersion { gum: Ratio::new::<ratio>(0.005), strength, hydrated_first: true, grade: None };
    /// let bears = gum.yield_value();
    /// assert!(bears.inside_range && (1.5..4.0).contains(&bears.yield_value.value.get::<pascal>()));
    /// # Ok::<(), cordial::units::MeasureError>(())
    /// ```
    ///
    /// # Source
    /// Working yield values of a maker's booklet, 0.3 % 1, 0.5 % 3, 1 % 11 Pa: memory, low confidence. Near-Newtonian to 0.10 %: Lei et al.
    /// (2000), seen. Finished systems carry up to 60 % ethanol: seen; 50 %vol is the careful limit.
    #[must_use]
    pub fn yield_value(&self) -> XanthanYield {
        let (per_100, strength) = (self.per_100(), self.strength.base());
        let factor = if strength > UNSURE { 3.0 } else { 2.0 };
        let band = Band::within_factor(YIELD * per_100.powi(2) * scale(self.grade), factor);
        let low = if per_100 <= NEAR_NEWTONIAN { 0.0 } else { band.low };
        let inside_range = per_100 <= MOST && strength <= STRONGEST && (self.hydrated_first || strength <= HYDRATES);
        XanthanYield { yield_value: Band { low, ..band }.map(pascals), inside_range }
    }

    /// The viscosity it shows at a shear rate above zero.
    ///
    /// # Equation
    /// `K rate^(n - 1)` with `K = 10 c^1.5` Pa s^n, times the grade over 1.4 Pa s, and `n = 0.22`.
    ///
    /// # Units
    /// `c` in grams per 100 g of water; the rate in 1/s; Pa s.
    ///
    /// # Range
    /// As [`Self::yield_value`].
    ///
    /// # Error
    /// As [`Self::yield_value`]; pure water solutions are said to be thicker (1.5 to 2.5 Pa s at 1 %, seen).
    ///
    /// # Worked value
    /// 1 % in 1 % KCl shows 1.2 to 1.6 Pa s at 60 turns a minute, about 12.5 1/s:
    /// ```
    /// # use cordial::models::flow::xanthan::Dispersion;
    /// # use cordial::units::{Measure, quantity::{Ratio, ShearRate, pascal_second, per_second, ratio}};
    /// let strength = Measure::parse("0 %vol")?.check()?;
    /// let gum = Dispersion { gum: Ratio::new::<ratio>(0.01), strength, hydrated_first: true, grade: None };
    /// let viscosity = gum.apparent_viscosity(ShearRate::new::<per_second>(12.5));
    /// assert!((1.2..1.6).contains(&viscosity.get::<pascal_second>()));
    /// # Ok::<(), cordial::units::MeasureError>(())
    /// ```
    ///
    /// # Source
    /// Food-grade specification (seen); its shear rate and the two exponents: memory.
    #[must_use]
    pub fn apparent_viscosity(&self, rate: ShearRate) -> DynamicViscosity {
        let consistency = CONSISTENCY * self.per_100().powf(1.5) * scale(self.grade);
        DynamicViscosity::new::<pascal_second>(consistency * rate.get::<per_second>().powf(INDEX - 1.0))
    }

    fn per_100(&self) -> f64 {
        100.0 * self.gum.get::<ratio>()
    }
}

/// The gum over water that gives a wanted yield value, the inverse of [`Dispersion::yield_value`]; nothing when the grade thickens nothing.
#[must_use]
pub fn gum_for(yield_value: Stress, grade: Option<Viscosity>) -> Option<Ratio> {
    let of_one_percent = YIELD * scale(grade);
    (of_one_percent > 0.0).then(|| Ratio::new::<ratio>((yield_value.get::<pascal>().max(0.0) / of_one_percent).sqrt() / 100.0))
}

fn scale(grade: Option<Viscosity>) -> f64 {
    grade.map_or(1.0, |grade| grade.base() / GRADE)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn dispersion(percent: f64, strength: f64, hydrated_first: bool) -> Dispersion {
        let strength = AlcoholByVolume::from_base(strength / 100.0).unwrap();
        Dispersion { gum: Ratio::new::<ratio>(percent / 100.0), strength, hydrated_first, grade: None }
    }

    fn yields(dispersion: Dispersion) -> Band<f64> {
        dispersion.yield_value().yield_value.map(|stress| stress.get::<pascal>())
    }

    #[test]
    fn working_yield_values() {
        // Memory.
        for (percent, pascals, tolerance) in [(0.3, 1.0, 0.05), (0.5, 3.0, 0.3), (1.0, 11.0, 0.01)] {
            assert!((yields(dispersion(percent, 0.0, true)).value - pascals).abs() <= tolerance);
        }
        let thin = yields(dispersion(0.1, 0.0, true));
        assert!(thin.low == 0.0 && (0.0..=0.3).contains(&thin.value) && thin.high <= 0.3, "{thin:?}");
    }

    #[test]
    fn spirit_widens_the_band_and_then_ends_the_range() {
        let inside = |strength, hydrated_first| dispersion(0.6, strength, hydrated_first).yield_value().inside_range;
        assert!(inside(0.0, false) && inside(40.0, true) && inside(50.0, true));
        assert!(!inside(40.0, false) && !inside(51.0, true));
        assert!(!dispersion(2.0, 0.0, true).yield_value().inside_range);
        let (weak, strong) = (yields(dispersion(0.6, 20.0, true)), yields(dispersion(0.6, 40.0, true)));
        assert_relative_eq!(weak.high / weak.low, 4.0, max_relative = 1e-12);
        assert_relative_eq!(strong.high / strong.low, 9.0, max_relative = 1e-12);
    }

    #[test]
    fn ethanol_is_no_water_to_the_gum() {
        let share = |fraction| MassFraction::from_base(fraction).unwrap();
        let parts = [(Constituent::Water, share(0.6)), (Constituent::Ethanol, share(0.394)), (Constituent::Xanthan, share(0.006))];
        let gum = Dispersion::of(&Composition::new(parts).unwrap(), true, None).unwrap();
        assert_relative_eq!(gum.gum.get::<ratio>(), 0.01, max_relative = 1e-12);
        assert_relative_eq!(yields(gum).value, 11.0, max_relative = 1e-12);
        assert!((0.40..0.50).contains(&gum.strength.base()));
        assert_eq!(Dispersion::of(&Composition::pure(Constituent::LiquidOil), true, None), None);
    }

    #[test]
    fn the_criterion_asks_a_spirit_under_two_millimetres_for_two_thirds_of_a_per_cent() {
        let gum = gum_for(pascals(4.7), None).unwrap();
        assert_relative_eq!(gum.get::<ratio>(), 0.0065, max_relative = 0.01);
    }

    #[test]
    fn a_weaker_grade_takes_more() {
        let grade = |pascal_seconds| Some(Viscosity::from_base(pascal_seconds).unwrap());
        let (usual, weak) = (gum_for(pascals(5.0), grade(1.4)).unwrap(), gum_for(pascals(5.0), grade(0.7)).unwrap());
        assert_eq!(gum_for(pascals(5.0), None), Some(usual));
        assert_relative_eq!(weak.get::<ratio>() / usual.get::<ratio>(), 2f64.sqrt(), max_relative = 1e-12);
        assert_relative_eq!(
            yields(Dispersion { gum: weak, grade: grade(0.7), ..dispersion(0.0, 0.0, true) }).value,
            5.0,
            max_relative = 1e-12
        );
        assert_eq!(gum_for(pascals(5.0), grade(0.0)), None);
        assert_eq!(gum_for(pascals(-1.0), None).unwrap().get::<ratio>(), 0.0);
    }
}
