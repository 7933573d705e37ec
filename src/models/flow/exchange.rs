//! Whether a filling and the heavier chocolate above it can change places in an opening.

use crate::units::quantity::{Density, Length, Ratio, SurfaceTension, kilogram_per_cubic_meter, meter, newton_per_meter, ratio};
use crate::units::{Checked, YieldValue};
use roots::{SimpleConvergency, find_root_brent};

const GRAVITY: f64 = 9.806_65;
/// The first zero of the derivative of the Bessel function `J_1`: the widest wave that fits a round opening.
const FIRST_WAVE: f64 = 1.841_2;

/// The yield values over what would arrest a light core that rises while a heavy ring sinks: from 1 no exchange flow is possible.
///
/// None where the chocolate above is no heavier, so that nothing drives an exchange.
///
/// # Equation
/// The least, over all core radii `r` (shares of the opening's), of `(tau_cap + tau_min / r) / (drho g D / 4 (1 - r^2))`, with `tau_cap`
/// the yield value of the heavy ring at the wall and `tau_min` the smaller of both, where they slide. It lies where
/// `2 tau_cap r^3 + 3 tau_min r^2 = tau_min`, which has one root.
///
/// # Units
/// Pa, kg/m³, m.
///
/// # Range
/// A straight tube. An open mould is wide and shallow, and chocolate does not keep its yield value while it is poured: it tells why a cap
/// once at rest stays, not whether it survives the pour, for which see [`Pour`](super::cap_support::Pour).
///
/// # Error
/// That of the yield values, a factor 2 and more.
///
/// # Worked value
/// A cap of 15 Pa on a filling of 2.75 Pa that is 280 kg/m³ lighter, in 25 mm: 1.514 (computed).
/// ```
/// # use cordial::models::flow::exchange;
/// # use cordial::units::{Measure, quantity::*};
/// let margin = exchange::margin(
///     Measure::parse("2.75 Pa")?.check()?,
///     Measure::parse("15 Pa")?.check()?,
///     Density::new::<kilogram_per_cubic_meter>(280.0),
///     Length::new::<millimeter>(25.0),
/// );
/// assert!(margin.is_some_and(|margin| (margin.get::<ratio>() / 1.514 - 1.0).abs() < 0.01));
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// A balance of forces (computed); that large yield values arrest the exchange of a heavy yield-stress fluid above a light one: Charabin &
/// Frigaard (2024) J. Fluid Mech. (seen, without a number).
#[must_use]
pub fn margin(filling: YieldValue, cap: YieldValue, excess: Density, opening: Length) -> Option<Ratio> {
    let (at_wall, sliding) = (cap.base(), filling.base().min(cap.base()));
    let drive = excess.get::<kilogram_per_cubic_meter>() * GRAVITY * opening.get::<meter>() / 4.0;
    if drive <= 0.0 {
        return None;
    }
    if sliding <= 0.0 {
        return Some(Ratio::new::<ratio>(at_wall / drive));
    }
    let share = sliding / at_wall;
    let slope = |radius: f64| 2.0 * radius.powi(3) + 3.0 * share * radius.powi(2) - share;
    let radius = find_root_brent(0.0, 1.0, slope, &mut SimpleConvergency { eps: 1e-15, max_iter: 200 }).ok()?;
    Some(Ratio::new::<ratio>((at_wall + sliding / radius) / (drive * (1.0 - radius.powi(2)))))
}

/// The opening up to which surface tension alone keeps a heavy liquid above a light one. None where the one above is no heavier.
///
/// # Equation
/// `D = 2 · 1.841 sqrt(sigma / (drho g))`.
///
/// # Units
/// N/m, kg/m³, m.
///
/// # Range
/// A round opening, a quiet surface.
///
/// # Error
/// The tension between chocolate and a water-based filling, 0.005 to 0.015 N/m (memory), decides.
///
/// # Worked value
/// 0.015 N/m and 280 kg/m³: 8.607 mm (computed).
/// ```
/// # use cordial::models::flow::exchange;
/// # use cordial::units::quantity::*;
/// let tension = SurfaceTension::new::<newton_per_meter>(0.015);
/// let opening = exchange::capillary_opening(tension, Density::new::<kilogram_per_cubic_meter>(280.0));
/// assert!(opening.is_some_and(|opening| (opening.get::<millimeter>() / 8.607 - 1.0).abs() < 1e-3));
/// ```
///
/// # Source
/// The first azimuthal wave of a round interface, 1.841: memory.
#[must_use]
pub fn capillary_opening(tension: SurfaceTension, excess: Density) -> Option<Length> {
    let excess = excess.get::<kilogram_per_cubic_meter>();
    (excess > 0.0)
        .then(|| Length::new::<meter>(2.0 * FIRST_WAVE * (tension.get::<newton_per_meter>().max(0.0) / (excess * GRAVITY)).sqrt()))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn margin_of(filling: f64, cap: f64, excess: f64, opening: f64) -> Option<f64> {
        let stress = |pascals| YieldValue::from_base(pascals).unwrap();
        let margin = margin(stress(filling), stress(cap), Density::new::<kilogram_per_cubic_meter>(excess), Length::new::<meter>(opening));
        margin.map(|margin| margin.get::<ratio>())
    }

    #[test]
    fn nothing_drives_a_cap_that_floats() {
        assert_eq!(margin_of(5.0, 15.0, 0.0, 0.025), None);
        assert_eq!(margin_of(5.0, 15.0, -100.0, 0.025), None);
        assert_eq!(capillary_opening(SurfaceTension::new::<newton_per_meter>(0.01), Density::new::<kilogram_per_cubic_meter>(-1.0)), None);
    }

    proptest! {
        #[test]
        fn no_radius_does_better(filling in 0.01..50.0f64, cap in 0.01..50.0f64, radius in 0.01..0.99f64) {
            let drive = 280.0 * GRAVITY * 0.025 / 4.0;
            let there = (cap + filling.min(cap) / radius) / (drive * (1.0 - radius.powi(2)));
            let margin = margin_of(filling, cap, 280.0, 0.025).unwrap();
            prop_assert!(margin <= there * (1.0 + 1e-9));
            // Never less than the cap's yield value alone would give.
            prop_assert!(margin >= cap / drive);
        }
    }
}
