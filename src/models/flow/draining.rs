//! The film of chocolate that a draining mould keeps: its shell.

use super::casson::Casson;
use super::casting_flow::CastingFlow;
use super::{FlowLaw, pascals};
use crate::models::quadrature::in_quadrature;
use crate::units::quantity::{
    Angle, Density, DynamicViscosity, Length, ShearRate, Stress, Time, kilogram_per_cubic_meter, meter, pascal, pascal_second, per_second,
    radian, second,
};
use crate::units::{Band, Checked, Duration, Viscosity, YieldValue};
use roots::{SimpleConvergency, find_root_brent};

const GRAVITY: f64 = 9.806_65;
/// Shear rates at the wall, as logarithms of 1/s, beyond which nothing flows in any time or everything at once.
const SLOWEST: f64 = -60.0;
const FASTEST: f64 = 60.0;

/// A place on the wall of a mould that is turned over to drain.
///
/// # Equation
/// With `h` the thickness, `z` the wall above the place, `a` its slope, `t` the time and `rate = F(stress)` the law of flow:
/// `z / t = h F(rho g h sin a)`, the way a film of any law thins that has been left to itself. Put with the shear rate at the wall,
/// `stress(rate) rate = rho g sin a z / t` and `h = stress(rate) / (rho g sin a)`: one root for any law. For Casson's law it is a square:
/// `sqrt(h rho g sin a) = (sqrt(tau_CA) + sqrt(tau_CA + 4 sqrt(eta_CA rho g sin a z / t))) / 2`; for Newton's
/// `h = sqrt(eta z / (rho g sin a t))`. After a long time `h = tau_CA / (rho g sin a)` is left.
///
/// # Units
/// m, kg/m³, s; any angle.
///
/// # Range
/// Films much thinner than the cavity is wide, and chocolate that does not set while it drains. On a level wall nothing drains. Turned
/// over, the bottom of the cavity is uppermost: `z` counts from there, along the wall.
///
/// # Error
/// Of the law itself under 0.3 % on a plane wall (computed, against a numerical solution of the film equation); near the crown of a dome,
/// where the wall turns, a Newtonian film is 13 % thinner than this (computed). What counts is the flow: see [`Wall::shell`].
///
/// # Worked value
/// Without a yield value it is the film of Jeffreys: 1 Pa s and 1200 kg/m³ leave 0.2915 mm, 10 mm below the upper edge after 10 s. With 2
/// Pa besides it is 0.615 mm:
/// ```
/// # use cordial::models::flow::{casson::Casson, draining::Wall, herschel_bulkley::HerschelBulkley};
/// # use cordial::units::{Measure, quantity::*};
/// let wall = Wall {
///     slope: Angle::new::<degree>(90.0),
///     above: Length::new::<millimeter>(10.0),
///     density: Density::new::<kilogram_per_cubic_meter>(1200.0),
/// };
/// let (viscosity, time) = (Measure::parse("1 Pa.s")?.check()?, Measure::parse("10 s")?.check()?);
/// let syrup = wall.film(&HerschelBulkley::newtonian(viscosity), time);
/// assert!(syrup.is_some_and(|film| (film.get::<millimeter>() / 0.29151 - 1.0).abs() < 1e-4));
/// let chocolate = Casson { yield_value: Measure::parse("2 Pa")?.check()?, plastic_viscosity: viscosity };
/// let film = wall.film(&chocolate, time);
/// assert!(film.is_some_and(|film| (film.get::<millimeter>() / 0.61473 - 1.0).abs() < 0.005));
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// Jeffreys (1930) Proc. Camb. Phil. Soc., The draining of a vertical plate (seen: the abstract; its formula: memory, derived again). For
/// other laws derived here the same way; 0.61473 mm by a general-purpose root-finder (computed).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// Against the horizontal: 90° is upright.
    pub slope: Angle,
    /// How much wall lies above the place while it drains.
    pub above: Length,
    /// Of the liquid chocolate.
    pub density: Density,
}

impl Wall {
    /// The film left after a time. None where nothing drains: on a level wall, or in no time.
    #[must_use]
    pub fn film(&self, law: &impl FlowLaw, time: Duration) -> Option<Length> {
        let power = self.power(time)?;
        let excess =
            |logarithm: f64| law.stress(ShearRate::new::<per_second>(logarithm.exp())).get::<pascal>().ln() + logarithm - power.ln();
        let mut convergency = SimpleConvergency { eps: 1e-12, max_iter: 200 };
        // Without a change of sign everything has drained that can.
        let logarithm = find_root_brent(SLOWEST, FASTEST, excess, &mut convergency).unwrap_or(SLOWEST);
        self.carried_by(law.stress(ShearRate::new::<per_second>(logarithm.exp())))
    }

    /// The film that a yield value alone holds, however long it drains. None on a level wall, which holds any.
    #[must_use]
    pub fn carried_by(&self, yield_value: Stress) -> Option<Length> {
        self.pull().map(|pull| Length::new::<meter>(yield_value.get::<pascal>() / pull))
    }

    /// How long it takes to drain to a wanted film. None where that never happens: the yield value alone holds as much, or the wall is
    /// level.
    #[must_use]
    pub fn time_to(&self, law: &impl FlowLaw, wanted: Length) -> Option<Time> {
        let rate = law.rate(pascals(self.pull()? * wanted.get::<meter>())).get::<per_second>();
        (rate > 0.0).then(|| Time::new::<second>(self.above.get::<meter>() / (wanted.get::<meter>() * rate)))
    }

    /// The shell that a chocolate leaves, cast this often and drained this long each time. None where nothing drains.
    ///
    /// Every cast drains on the one before, which has set: the films add up. The bands of yield value and viscosity are taken to be
    /// independent. For a mould that is tapped all the time it drains, ask with [`CastingFlow::tapped`].
    ///
    /// Measured: milk chocolates of 1.9 to 15 Pa and 6.0 to 14.6 Pa s left coatings of 1.1 to 2.7 mm (Wichchukit et al. 2005, seen); this
    /// gives 0.9 to 2.6 mm, 10 mm below the edge after 20 s.
    #[must_use]
    pub fn shell(&self, flow: &CastingFlow, time: Duration, casts: u32) -> Option<Band<Length>> {
        let film = |yield_value, viscosity| self.casson_film(&casson(yield_value, viscosity), time);
        let (tau, eta) = (flow.yield_value, flow.plastic_viscosity);
        let value = film(tau.value, eta.value)?;
        let apart = |yield_value, viscosity| {
            let log = |other: f64| if value > 0.0 { (other / value).ln() } else { 0.0 };
            Some(in_quadrature([log(film(yield_value, eta.value)?), log(film(tau.value, viscosity)?)]).exp())
        };
        let once = Band { value, low: value / apart(tau.low, eta.low)?, high: value * apart(tau.high, eta.high)? };
        Some(once.map(|film| Length::new::<meter>(film * f64::from(casts))))
    }

    /// [`Self::film`] of Casson's law in closed form, m.
    fn casson_film(&self, law: &Casson, time: Duration) -> Option<f64> {
        let (yield_value, viscosity) = (law.yield_value.base(), law.plastic_viscosity.base());
        let viscous = (viscosity * self.power(time)?).sqrt();
        let root = (yield_value.sqrt() + (yield_value + 4.0 * viscous).sqrt()) / 2.0;
        Some(root.powi(2) / self.pull()?)
    }

    /// Weight of the film along the wall, by area and thickness, Pa/m.
    fn pull(&self) -> Option<f64> {
        let pull = self.density.get::<kilogram_per_cubic_meter>() * GRAVITY * self.slope.get::<radian>().sin();
        (pull > 0.0).then_some(pull)
    }

    /// Stress times shear rate at the wall, W/m³.
    fn power(&self, time: Duration) -> Option<f64> {
        (time.base() > 0.0).then_some(self.pull()? * self.above.get::<meter>() / time.base())
    }
}

fn casson(yield_value: Stress, plastic_viscosity: DynamicViscosity) -> Casson {
    Casson {
        yield_value: YieldValue::nearest(yield_value.get::<pascal>()),
        plastic_viscosity: Viscosity::nearest(plastic_viscosity.get::<pascal_second>()),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::super::casson::tests::casson;
    use super::super::casting_flow::tests::sheet;
    use super::super::herschel_bulkley::{self, HerschelBulkley};
    use super::*;
    use crate::units::quantity::{degree, millimeter};
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    /// Millimetres of upright wall above, 1200 kg/m³.
    fn wall(above: f64) -> Wall {
        Wall {
            slope: Angle::new::<degree>(90.0),
            above: Length::new::<millimeter>(above),
            density: Density::new::<kilogram_per_cubic_meter>(1200.0),
        }
    }

    fn seconds(time: f64) -> Duration {
        Duration::from_base(time).unwrap()
    }

    fn film(wall: Wall, law: &impl FlowLaw, time: f64) -> f64 {
        wall.film(law, seconds(time)).unwrap().get::<millimeter>()
    }

    #[test]
    fn what_a_yield_value_holds_is_left_in_the_end() {
        for yield_value in [8.0, 14.28, 29.02] {
            let held = wall(10.0).carried_by(pascals(yield_value)).unwrap().get::<millimeter>();
            assert_relative_eq!(film(wall(10.0), &casson(yield_value, 2.0), 1e7), held, max_relative = 0.01);
            assert_relative_eq!(film(wall(0.0), &casson(yield_value, 2.0), 10.0), held, max_relative = 1e-6);
        }
    }

    #[test]
    fn the_flux_of_a_film() {
        // Its slope over the thickness is what the law of the film rests on.
        let (law, pull) = (casson(8.0, 2.0), wall(10.0).pull().unwrap());
        let rate = |depth: f64| law.rate(pascals(pull * depth)).get::<per_second>();
        let flux = |film: f64| {
            let step = film / 20_000.0;
            (0..20_000).map(|at| (f64::from(at) + 0.5) * step).map(|from_surface| rate(from_surface) * from_surface * step).sum::<f64>()
        };
        assert_relative_eq!((flux(0.00201) - flux(0.00199)) / 2e-5, 0.002 * rate(0.002), max_relative = 1e-3);
    }

    /// The film by the conservation of volume: what flows in from above, in cells down a wall that starts out thickly covered.
    fn marched(law: &Casson, above: f64, time: f64) -> f64 {
        const CELLS: usize = 400;
        let (pull, cell) = (wall(above).pull().unwrap(), above / 1000.0 / CELLS as f64);
        let (tau, eta) = (law.yield_value.base(), law.plastic_viscosity.base());
        let flux = |film: f64| {
            let wall = pull * film;
            if wall <= tau {
                return 0.0;
            }
            let cubes = wall.powi(3) / 3.0 - 0.8 * tau.sqrt() * wall.powf(2.5) + tau * wall.powi(2) / 2.0 - tau.powi(3) / 30.0;
            cubes / (eta * pull * pull)
        };
        let mut films = [0.006; CELLS];
        let mut now = 0.0;
        while now < time {
            let thickest = films.iter().copied().fold(0.0, f64::max);
            let speed = thickest * law.rate(pascals(pull * thickest)).get::<per_second>();
            let step = (0.5 * cell / speed).min(time - now);
            let mut inflow = 0.0;
            for film in &mut films {
                let outflow = flux(*film);
                *film += step / cell * (inflow - outflow);
                inflow = outflow;
            }
            now += step;
        }
        1000.0 * films.last().unwrap()
    }

    #[test]
    fn a_numerical_solution_agrees() {
        for (yield_value, viscosity) in [(2.0, 1.0), (8.0, 2.0)] {
            let law = casson(yield_value, viscosity);
            assert_relative_eq!(marched(&law, 10.0, 10.0), film(wall(10.0), &law, 10.0), max_relative = 0.003);
        }
    }

    #[test]
    fn casts_add_up_and_tapping_thins() {
        let shell = |flow: CastingFlow, casts| wall(10.0).shell(&flow, seconds(20.0), casts).unwrap();
        let flow = sheet(8.0, 2.0);
        let millimeters = |band: Band<Length>| band.map(|length| length.get::<millimeter>());
        let (once, twice) = (millimeters(shell(flow, 1)), millimeters(shell(flow, 2)));
        assert_relative_eq!(twice.value, 2.0 * once.value, max_relative = 1e-12);
        assert_relative_eq!(twice.high, 2.0 * once.high, max_relative = 1e-12);
        assert!(once.low < once.value && once.high > once.value && once.high < 2.0 * once.value);
        assert!(shell(flow.tapped(), 1).value < shell(flow, 1).value);
    }

    #[test]
    fn each_doubt_widens_the_band() {
        let (flow, here) = (sheet(8.0, 2.0), film(wall(10.0), &casson(8.0, 2.0), 20.0));
        let band = |flow: CastingFlow| wall(10.0).shell(&flow, seconds(20.0), 1).unwrap().map(|length| length.get::<millimeter>() / here);
        let sure_of_yield = band(CastingFlow { yield_value: Band::exact(flow.yield_value.value), ..flow });
        let sure_of_viscosity = band(CastingFlow { plastic_viscosity: Band::exact(flow.plastic_viscosity.value), ..flow });
        assert_relative_eq!(sure_of_yield.high, film(wall(10.0), &casson(8.0, 4.0), 20.0) / here, max_relative = 1e-9);
        assert_relative_eq!(sure_of_yield.low, film(wall(10.0), &casson(8.0, 1.0), 20.0) / here, max_relative = 1e-9);
        assert_relative_eq!(sure_of_viscosity.high, film(wall(10.0), &casson(16.0, 2.0), 20.0) / here, max_relative = 1e-9);
        assert_relative_eq!(band(flow).high.ln(), sure_of_yield.high.ln().hypot(sure_of_viscosity.high.ln()), max_relative = 1e-9);
    }

    #[test]
    fn a_dome_from_crown_to_rim() {
        // Slope and wall above, from the crown of a dome of 14 mm radius: thicker downwards, steeper where thinner.
        let thickness = |degrees: f64| {
            let slope = Angle::new::<degree>(degrees);
            film(Wall { slope, above: Length::new::<millimeter>(14.0 * slope.get::<radian>()), ..wall(0.0) }, &casson(0.0, 2.0), 20.0)
        };
        let profile = [5.0, 30.0, 60.0, 90.0].map(thickness);
        assert!(profile.is_sorted(), "{profile:?}");
    }

    #[test]
    fn nothing_drains_from_a_level_wall_or_in_no_time() {
        let law = casson(8.0, 2.0);
        let level = Wall { slope: Angle::new::<degree>(0.0), ..wall(10.0) };
        assert_eq!(level.film(&law, seconds(10.0)), None);
        assert_eq!(level.carried_by(pascals(8.0)), None);
        assert_eq!(level.shell(&sheet(8.0, 2.0), seconds(10.0), 1), None);
        assert_eq!(wall(10.0).film(&law, seconds(0.0)), None);
        let nothing = HerschelBulkley::newtonian(Viscosity::from_base(0.0).unwrap());
        assert_eq!(film(wall(10.0), &nothing, 10.0), 0.0);
        assert_eq!(wall(10.0).shell(&sheet(0.0, 0.0), seconds(10.0), 1).unwrap().high.get::<millimeter>(), 0.0);
    }

    #[test]
    fn the_static_film_is_never_drained_further() {
        let law = casson(8.0, 2.0);
        assert_eq!(wall(10.0).time_to(&law, Length::new::<millimeter>(0.67)), None);
        let time = wall(10.0).time_to(&law, Length::new::<millimeter>(1.3813)).unwrap();
        assert_relative_eq!(time.get::<second>(), 10.0, max_relative = 0.005);
    }

    proptest! {
        #[test]
        fn the_time_to_a_film_gives_that_film(
            yield_value in 0.0..40.0f64, viscosity in 0.2..20.0f64, index in 0.2..1.2f64, above in 1.0..40.0f64, time in 1.0..100.0f64,
            slope in 10.0..90.0f64
        ) {
            let wall = Wall { slope: Angle::new::<degree>(slope), ..wall(above) };
            let curved = herschel_bulkley::tests::law(yield_value, viscosity, index);
            let film = wall.film(&curved, seconds(time)).unwrap();
            // Close to the static film the time grows without bound: too little is left of it to compare.
            if film > 1.01 * wall.carried_by(pascals(yield_value)).unwrap() {
                prop_assert!((wall.time_to(&curved, film).unwrap().get::<second>() / time - 1.0).abs() < 1e-5);
            }
            let law = casson(yield_value, viscosity);
            let (closed, solved) = (wall.casson_film(&law, seconds(time)).unwrap(), wall.film(&law, seconds(time)).unwrap().get::<meter>());
            prop_assert!((closed / solved - 1.0).abs() < 1e-9, "{closed} {solved}");
        }

        #[test]
        fn stiffer_is_thicker_and_longer_is_thinner(yield_value in 0.0..40.0f64, viscosity in 0.2..20.0f64, more in 1.01..2.0f64) {
            let here = film(wall(10.0), &casson(yield_value, viscosity), 10.0);
            prop_assert!(film(wall(10.0), &casson(yield_value + more, viscosity), 10.0) > here);
            prop_assert!(film(wall(10.0), &casson(yield_value, viscosity * more), 10.0) > here);
            prop_assert!(film(wall(10.0), &casson(yield_value, viscosity), 10.0 * more) < here);
        }
    }
}
