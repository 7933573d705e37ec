//! Whether a filling carries the liquid chocolate that closes it.

use super::pascals;
use crate::models::quadrature::in_quadrature;
use crate::units::Band;
use crate::units::quantity::{Density, Length, Ratio, Stress, kilogram_per_cubic_meter, meter, pascal, ratio};
use std::f64::consts::PI;

const GRAVITY: f64 = 9.806_65;
/// Load over yield value that a puddle on a soft body may reach.
const BEARING: f64 = 2.0 + PI;
/// Yield value over `drho g D` that arrests a sinking sphere.
const SPHERE: f64 = 0.143 / 3.0;
/// Yield value over `drho g D` that arrests any exchange in a tube: the wall carries the plug.
const TUBE: f64 = 0.25;
/// Support beyond this says no more.
const AMPLE: f64 = 100.0;
/// The share of the bearing load that two thin coats, the first one set, ask for.
const TWO_COATS: f64 = 0.5;

/// A cap about to be poured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pour {
    /// Density of the liquid cap chocolate.
    pub cap: Band<Density>,
    /// Density of the filling.
    pub filling: Band<Density>,
    /// Yield value of the filling.
    pub yield_value: Band<Stress>,
    /// Width of the filling's surface.
    pub opening: Length,
    /// How deep the cap chocolate stands: the headroom, as it is scraped flush.
    pub depth: Length,
}

/// How well a filling carries its cap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CapSupport {
    /// Density of the cap less that of the filling: the cap floats when it is negative.
    pub excess: Density,
    /// The yield value that is enough under a gentle pour, were the filling to carry by it alone.
    pub needed: Stress,
    /// The same under any pour.
    pub needed_safe: Stress,
    /// Support under a gentle pour, 0 to 100: carries from 1.
    pub support: Band<Ratio>,
    /// Support under any pour, 0 to 100.
    pub support_safe: Band<Ratio>,
}

impl Pour {
    /// Whether, and how well, the filling carries the cap.
    ///
    /// # Equation
    /// With `drho` the density of the cap less that of the filling, `d` the depth and `D` the opening, enough is
    /// `tau_needed = max(rho_cap g d / 5.14, 0.0477 drho g D)`; safe with any pour has 0.25 in place of 0.0477. Then
    /// `support = max(rho_filling / rho_cap, tau / tau_needed)`, at most 100, and the filling carries from 1: a cap no denser than its
    /// filling floats, whatever the yield value, and the reading is continuous where it begins to float.
    ///
    /// # Units
    /// Densities in kg/m³, lengths in m, stresses in Pa.
    ///
    /// # Range
    /// Openings of a praline. The cap lies on the filling as a puddle, or pushes through as one drop. What the wall of the shell and
    /// surface tension add (the latter alone may hold openings under about 9 mm: computed from a remembered tension) is left out: the safe
    /// side.
    ///
    /// # Error
    /// That of the densities (normal) and of the yield value (log-normal), each branch with its own 95 % band; the upper branch decides at
    /// each end. The criterion itself has not been tested on poured caps: that neat spirit leaks and ganache holds is common practice.
    ///
    /// # Worked value
    /// A sphere is arrested when `3 tau / (drho g D)` exceeds 0.143 (Beris et al.): 3.27 Pa for 280 kg/m³ and 25 mm.
    /// ```
    /// # use cordial::models::flow::cap_support::Pour;
    /// # use cordial::units::{Band, quantity::*};
    /// let density = |value| Band::exact(Density::new::<kilogram_per_cubic_meter>(value));
    /// let pour = Pour {
    ///     cap: density(1230.0),
    ///     filling: density(950.0),
    ///     yield_value: Band::exact(Stress::new::<pascal>(0.0)),
    ///     opening: Length::new::<millimeter>(25.0),
    ///     depth: Length::new::<millimeter>(0.0),
    /// };
    /// assert!((pour.support().needed.get::<pascal>() - 0.143 / 3.0 * 280.0 * 9.80665 * 0.025).abs() < 1e-9);
    /// ```
    ///
    /// # Source
    /// Sphere: Beris, Tsamopoulos, Armstrong & Brown (1985) J. Fluid Mech. 158:219 (seen; the factor 3 between their group and this one:
    /// memory). Puddle: Prandtl (1920) (memory). Tube: a force balance (computed).
    #[must_use]
    pub fn support(&self) -> CapSupport {
        let load = Load {
            cap: self.cap.map(|density| density.get::<kilogram_per_cubic_meter>()),
            filling: self.filling.map(|density| density.get::<kilogram_per_cubic_meter>()),
            opening: self.opening.get::<meter>(),
            depth: self.depth.get::<meter>(),
        };
        let strength = Strength::of(self.yield_value.map(|stress| stress.get::<pascal>().max(0.0)));
        let by_density = load.floats();
        let reading = |needed| {
            let by_strength = strength.carries(needed);
            let better = |branch: fn(Band<f64>) -> f64| branch(by_density).max(branch(by_strength)).clamp(0.0, AMPLE);
            Band { value: better(|band| band.value), low: better(|band| band.low), high: better(|band| band.high) }.map(Ratio::new::<ratio>)
        };
        let (gentle, any) = (load.needed(SPHERE), load.needed(TUBE));
        let support = reading(gentle);
        CapSupport {
            excess: self.cap.value - self.filling.value,
            needed: pascals(gentle.value),
            needed_safe: pascals(any.value),
            support,
            // Where the puddle weighs more than any drop, the pour does not matter.
            support_safe: if any == gentle { support } else { reading(any) },
        }
    }
}

/// Whether a cap poured in two thin coats of together this depth is carried, the first left to set: half the bearing load of [`Pour::support`]
/// will do.
#[must_use]
pub fn two_thin_coats(cap: Density, yield_value: Stress, depth: Length) -> bool {
    yield_value.get::<pascal>() >= TWO_COATS * bearing(cap.get::<kilogram_per_cubic_meter>(), depth.get::<meter>())
}

/// The yield value that carries a puddle, Pa.
fn bearing(cap: f64, depth: f64) -> f64 {
    cap * GRAVITY * depth / BEARING
}

/// A [`Pour`] in plain SI numbers.
struct Load {
    cap: Band<f64>,
    filling: Band<f64>,
    opening: f64,
    depth: f64,
}

impl Load {
    /// The filling's density over the cap's.
    fn floats(&self) -> Band<f64> {
        let value = over(self.filling.value, self.cap.value);
        let doubt = value * in_quadrature([over(half(self.filling), self.filling.value), over(half(self.cap), self.cap.value)]);
        Band { value, low: value - doubt, high: value + doubt }
    }

    /// The yield value that carries the cap, with the band the densities give it.
    fn needed(&self, arrests: f64) -> Band<f64> {
        let needed = |cap, excess: f64| bearing(cap, self.depth).max(arrests * excess * GRAVITY * self.opening);
        let excess = self.cap.value - self.filling.value;
        let doubt = in_quadrature([half(self.cap), half(self.filling)]);
        Band {
            value: needed(self.cap.value, excess),
            low: needed(self.cap.low, excess - doubt),
            high: needed(self.cap.high, excess + doubt),
        }
    }
}

/// The yield value of a filling, Pa, and how far its ends lie from it, as logarithms.
struct Strength {
    yield_value: Band<f64>,
    low: f64,
    high: f64,
}

impl Strength {
    fn of(yield_value: Band<f64>) -> Self {
        let Band { value, low, high } = yield_value;
        Self { yield_value, low: (low / value).ln(), high: (high / value).ln() }
    }

    /// Yield value over what is needed. The factors of the two are independent, so their logarithms add as squares.
    fn carries(&self, needed: Band<f64>) -> Band<f64> {
        let Self { yield_value, low, high } = *self;
        let value = over(yield_value.value, needed.value);
        if yield_value.value > 0.0 && needed.low > 0.0 {
            let plain = yield_value.value / needed.value;
            let factor = |strength: f64, load: f64| in_quadrature([strength, (load / needed.value).ln()]).exp();
            Band { value, low: plain / factor(low, needed.high), high: plain * factor(high, needed.low) }
        } else {
            Band { value, low: over(yield_value.low, needed.high), high: over(yield_value.high, needed.low) }
        }
    }
}

/// What there is over what is needed, at most [`AMPLE`]: of nothing needed any is ample, and nothing is none.
fn over(there: f64, needed: f64) -> f64 {
    if there <= 0.0 {
        0.0
    } else if needed > 0.0 {
        (there / needed).min(AMPLE)
    } else {
        AMPLE
    }
}

/// Half a band: two standard uncertainties.
fn half(band: Band<f64>) -> f64 {
    (band.high - band.low) / 2.0
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, clippy::approx_constant, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use approx::{assert_abs_diff_eq, assert_relative_eq};
    use proptest::prelude::*;

    /// Densities in kg/m³, the yield value in Pa, lengths in mm, all exact.
    fn pour(cap: f64, filling: f64, yield_value: f64, opening: f64, depth: f64) -> Pour {
        let density = |value| Band::exact(Density::new::<kilogram_per_cubic_meter>(value));
        let length = |value: f64| Length::new::<meter>(value / 1000.0);
        Pour {
            cap: density(cap),
            filling: density(filling),
            yield_value: Band::exact(pascals(yield_value)),
            opening: length(opening),
            depth: length(depth),
        }
    }

    fn with_bands(pour: Pour, density: f64, factor: f64) -> Pour {
        let widen = |band: Band<Density>| {
            Band::normal(band.value.get::<kilogram_per_cubic_meter>(), density).map(Density::new::<kilogram_per_cubic_meter>)
        };
        let yield_value = Band::within_factor(pour.yield_value.value.get::<pascal>(), factor).map(pascals);
        Pour { cap: widen(pour.cap), filling: widen(pour.filling), yield_value, ..pour }
    }

    fn support(pour: Pour) -> f64 {
        pour.support().support.value.get::<ratio>()
    }

    fn safe(pour: Pour) -> f64 {
        pour.support().support_safe.value.get::<ratio>()
    }

    #[test]
    fn a_sphere_is_arrested() {
        assert_relative_eq!(SPHERE, 0.04767, max_relative = 1e-3);
        for (excess, opening, arrests, stays) in
            [(280.0, 25.0, 3.2722, 17.162), (280.0, 8.0, 1.0471, 5.4917), (150.0, 30.0, 2.1035, 11.032)]
        {
            let needs = pour(1230.0, 1230.0 - excess, 0.0, opening, 0.0).support();
            assert_relative_eq!(needs.needed.get::<pascal>(), arrests, max_relative = 1e-3);
            assert_relative_eq!(needs.needed_safe.get::<pascal>(), stays, max_relative = 1e-3);
        }
    }

    #[test]
    fn a_puddle_is_borne() {
        for (cap, depth, computed) in [(1230.0, 2.0, 4.692), (1250.0, 1.5, 3.5762), (1230.0, 3.0, 7.038)] {
            assert_relative_eq!(bearing(cap, depth / 1000.0), computed, max_relative = 1e-3);
            // A filling as dense as the cap needs nothing else.
            assert_relative_eq!(pour(cap, cap, 0.0, 25.0, depth).support().needed.get::<pascal>(), computed, max_relative = 1e-3);
        }
    }

    #[test]
    fn what_fillings_need_under_two_millimetres() {
        // Computed: spirit of 40 %vol, liqueur, marshmallow.
        for (filling, enough, any) in [(948.0, 4.7, 17.3), (1100.0, 4.7, 8.0), (400.0, 9.7, 51.0)] {
            let needs = pour(1230.0, filling, 0.0, 25.0, 2.0).support();
            assert_relative_eq!(needs.needed.get::<pascal>(), enough, max_relative = 0.01);
            assert_relative_eq!(needs.needed_safe.get::<pascal>(), any, max_relative = 0.01);
        }
    }

    #[test]
    fn practice() {
        // Memory: neat spirit leaks, ganache holds.
        assert!(support(pour(1230.0, 948.0, 0.0, 25.0, 2.0)) < 1.0);
        assert!(safe(pour(1230.0, 1180.0, 150.0, 25.0, 2.0)) > 1.0);
        // A cap floats on honey and on jam.
        assert!(safe(pour(1230.0, 1420.0, 0.0, 25.0, 2.0)) > 1.0);
        assert!(safe(pour(1230.0, 1300.0, 40.0, 25.0, 2.0)) > 1.0);
    }

    #[test]
    fn gum_in_a_spirit_regression() {
        // The rule's own earlier output, not an independent fact.
        for (filling, yield_value, coats, enough, any) in [
            (948.0, 0.0, false, false, false),
            (948.0, 0.44, false, false, false),
            (950.0, 2.75, true, false, false),
            (952.0, 11.0, true, true, false),
            (955.0, 21.6, true, true, true),
            (1080.0, 0.0, false, false, false),
        ] {
            let pour = pour(1230.0, filling, yield_value, 25.0, 2.0);
            assert_eq!(two_thin_coats(pour.cap.value, pour.yield_value.value, pour.depth), coats);
            assert_eq!((support(pour) >= 1.0, safe(pour) >= 1.0), (enough, any), "{filling} kg/m³, {yield_value} Pa");
        }
    }

    #[test]
    fn each_branch_has_its_band() {
        let pour_of = |filling, yield_value, density, factor| {
            with_bands(pour(1230.0, filling, yield_value, 25.0, 2.0), density, factor)
                .support()
                .support
                .map(|support| support.get::<ratio>())
        };
        let strong = pour_of(948.0, 11.0, 0.0, 3.0);
        assert_relative_eq!(strong.high / strong.value, 3.0, max_relative = 1e-9);
        // However weak the gum turns out, the spirit's density still carries as much as it does.
        assert_abs_diff_eq!(strong.low, (strong.value / 3.0).max(948.0 / 1230.0), epsilon = 1e-9);
        // The densities doubt what is needed by 2.4 %, which hardly shows beside a factor 3.
        let doubted = pour_of(948.0, 11.0, 15.0, 3.0);
        assert!(doubted.high > strong.high && doubted.high < 1.01 * strong.high, "{doubted:?}");
        let dense = pour_of(1300.0, 0.0, 15.0, 2.0);
        assert_relative_eq!(
            dense.high - dense.value,
            1300.0 / 1230.0 * 30.0 * (1300f64.powi(-2) + 1230f64.powi(-2)).sqrt(),
            max_relative = 1e-9
        );
        assert!(dense.low > 1.0 && dense.low < dense.value);
    }

    #[test]
    fn where_the_hole_decides_the_densities_doubt_their_difference() {
        // Worked by hand: 30 Pa against 0.25 g D (280 ± 42.43) kg/m³, the doubt being two standard uncertainties of 15 kg/m³ of each density.
        let safe = with_bands(pour(1230.0, 950.0, 30.0, 25.0, 2.0), 15.0, 1.0).support().support_safe.map(|support| support.get::<ratio>());
        for (found, excess) in [(safe.low, 322.43), (safe.value, 280.0), (safe.high, 237.57)] {
            assert_relative_eq!(found, 30.0 / (0.25 * 9.80665 * 0.025 * excess), max_relative = 1e-4);
        }
    }

    #[test]
    fn nothing_poured_on_nothing() {
        assert_eq!(support(pour(1230.0, 948.0, 0.1, 25.0, 0.0)), 948.0 / 1230.0);
        assert_eq!(support(pour(1230.0, 1300.0, 0.1, 25.0, 0.0)), AMPLE);
        assert_eq!(support(pour(1230.0, 1300.0, 0.0, 25.0, 0.0)), 1300.0 / 1230.0);
        assert_eq!(support(pour(1230.0, 948.0, 5000.0, 25.0, 2.0)), AMPLE);
    }

    proptest! {
        #[test]
        fn always_a_number_in_order(
            cap in 0.0..1500.0f64, filling in 0.0..1500.0f64, yield_value in prop_oneof![Just(0.0), 0.0..1e5], opening in 0.0..60.0,
            depth in prop_oneof![Just(0.0), 0.0..10.0], density in prop_oneof![Just(0.0), 0.0..60.0], factor in 1.0..5.0
        ) {
            let support = with_bands(pour(cap, filling, yield_value, opening, depth), density, factor).support();
            for band in [support.support, support.support_safe] {
                let band = band.map(|support| support.get::<ratio>());
                prop_assert!(0.0 <= band.low && band.low <= band.value && band.value <= band.high && band.high <= AMPLE, "{band:?}");
            }
            prop_assert!(support.support_safe.value <= support.support.value);
            prop_assert!(support.needed.get::<pascal>().is_finite() && support.needed <= support.needed_safe);
        }

        #[test]
        fn more_yield_and_a_thinner_cap_never_hurt(
            filling in 400.0..1400.0f64, yield_value in 0.0..60.0f64, more in 0.0..20.0f64, depth in 0.0..5.0f64
        ) {
            let support = |yield_value, depth| support(pour(1230.0, filling, yield_value, 25.0, depth));
            prop_assert!(support(yield_value + more, depth) >= support(yield_value, depth));
            prop_assert!(support(yield_value, depth) >= support(yield_value, depth + 1.0));
        }

        #[test]
        fn no_step_where_the_cap_begins_to_float(yield_value in 0.0..40.0f64, depth in 0.1..4.0f64) {
            let beside = |excess: f64| support(pour(1230.0, 1230.0 - excess, yield_value, 25.0, depth));
            prop_assert!((beside(1e-6) - beside(-1e-6)).abs() < 1e-6);
        }
    }
}
