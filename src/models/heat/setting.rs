//! How long chocolate takes to set.

use crate::units::quantity::{
    Density, HeatTransfer, LatentHeat, Length, SpecificHeatCapacity, ThermalConductivity, Time, joule_per_kilogram,
    joule_per_kilogram_kelvin, kilogram_per_cubic_meter, meter, second, watt_per_meter_kelvin, watt_per_square_meter_kelvin,
};
use crate::units::{Band, Temperature};
use roots::{SimpleConvergency, find_root_brent};

/// A layer of liquid chocolate that gives its heat off to one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LiquidLayer {
    /// How thick; half of it if both sides give off heat.
    pub thickness: Length,
    /// How well it conducts once set.
    pub conductivity: ThermalConductivity,
    /// Its density.
    pub density: Density,
    /// Its specific heat.
    pub specific_heat: SpecificHeatCapacity,
    /// What it gives off as it sets.
    pub latent_heat: LatentHeat,
    /// Where it sets.
    pub sets_at: Temperature,
}

impl LiquidLayer {
    /// The least time to set against a wall kept cold; nothing where the wall is too warm or there is no latent heat.
    ///
    /// # Equation
    /// Stefan's problem with one phase: `s^2 / (4 lambda^2 k / (rho c))`, `lambda exp(lambda^2) erf(lambda) = Ste / sqrt(pi)`,
    /// `Ste = c (t_sets - t_wall) / L`.
    ///
    /// # Units
    /// °C, s.
    ///
    /// # Range
    /// A layer already at the temperature where it sets, on a wall that takes any heat: cold metal. Polycarbonate and air take far less:
    /// [`Self::sets_in_air`].
    ///
    /// # Error
    /// Exact for that problem; a lower bound in a workshop, for crystals grow no faster than heat leaves.
    ///
    /// # Worked value
    /// At `Ste = 1`, `lambda` is 0.620 (textbook):
    /// ```
    /// # use cordial::models::heat::setting::LiquidLayer;
    /// # use cordial::units::{Measure, quantity::*};
    /// let layer = LiquidLayer {
    ///     thickness: Length::new::<millimeter>(2.0),
    ///     conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(0.2),
    ///     density: Density::new::<kilogram_per_cubic_meter>(1000.0),
    ///     specific_heat: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(2000.0),
    ///     latent_heat: LatentHeat::new::<joule_per_kilogram>(20e3),
    ///     sets_at: Measure::parse("25 Cel")?.check()?,
    /// };
    /// let time = layer.sets_on_cold_wall(Measure::parse("15 Cel")?.check()?).unwrap();
    /// assert!((time.get::<second>() - (1e-3f64 / 0.620).powi(2) / 1e-7).abs() < 0.05);
    /// # Ok::<(), cordial::units::MeasureError>(())
    /// ```
    ///
    /// # Source
    /// Stefan, in any textbook of heat conduction: memory; `lambda` against SciPy (computed).
    #[must_use]
    pub fn sets_on_cold_wall(&self, wall: Temperature) -> Option<Time> {
        let specific_heat = self.specific_heat.get::<joule_per_kilogram_kelvin>();
        let colder = self.sets_at.celsius() - wall.celsius();
        let square = front_squared(specific_heat * colder / self.latent_heat.get::<joule_per_kilogram>())?;
        let volumetric = self.density.get::<kilogram_per_cubic_meter>() * specific_heat;
        let diffusivity = self.conductivity.get::<watt_per_meter_kelvin>() / volumetric;
        Some(Time::new::<second>(self.thickness.get::<meter>().powi(2) / (4.0 * square * diffusivity)))
    }

    /// The time to set in air; nothing where the air is too warm.
    ///
    /// # Equation
    /// Plank, with the sensible heat added: `rho s (L + c (t_poured - t_air)) / (t_sets - t_air) (1 / h + s / (2 k))`.
    ///
    /// # Units
    /// °C, s; the film coefficient `h` in W/(m² K): 5 to 10 in still air, 15 to 25 before a fan (memory).
    ///
    /// # Range
    /// Layers of a few millimetres, poured tempered; the mould or filling behind insulates.
    ///
    /// # Error
    /// A factor 2, most of it from the film coefficient: published times are 6 to 12 min in a tunnel, 30 min in a still refrigerator.
    ///
    /// # Worked value
    /// 2 mm poured at 31 °C into air of 14 °C sets within the published 5 to 30 min:
    /// ```
    /// # use cordial::models::heat::setting::LiquidLayer;
    /// # use cordial::units::{Measure, quantity::*};
    /// let layer = LiquidLayer {
    ///     thickness: Length::new::<millimeter>(2.0),
    ///     conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(0.26),
    ///     density: Density::new::<kilogram_per_cubic_meter>(1250.0),
    ///     specific_heat: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(1590.0),
    ///     latent_heat: LatentHeat::new::<joule_per_kilogram>(46e3),
    ///     sets_at: Measure::parse("28 Cel")?.check()?,
    /// };
    /// let film = HeatTransfer::new::<watt_per_square_meter_kelvin>(15.0);
    /// let time = layer.sets_in_air(Measure::parse("31 Cel")?.check()?, Measure::parse("14 Cel")?.check()?, film).unwrap();
    /// assert!((5.0..30.0).contains(&(time.value.get::<second>() / 60.0)));
    /// # Ok::<(), cordial::units::MeasureError>(())
    /// ```
    ///
    /// # Source
    /// Plank (1913): memory. Tunnels: Sundara (2014) in FoodReview Indonesia; refrigerator: couverture makers' training pages (seen).
    #[must_use]
    pub fn sets_in_air(&self, poured_at: Temperature, air: Temperature, film: HeatTransfer) -> Option<Band<Time>> {
        let colder = self.sets_at.celsius() - air.celsius();
        (colder > 0.0).then(|| {
            let sensible = self.specific_heat.get::<joule_per_kilogram_kelvin>() * (poured_at.celsius() - air.celsius()).max(0.0);
            let thickness = self.thickness.get::<meter>();
            let heat =
                self.density.get::<kilogram_per_cubic_meter>() * thickness * (self.latent_heat.get::<joule_per_kilogram>() + sensible);
            let resistance =
                1.0 / film.get::<watt_per_square_meter_kelvin>() + thickness / (2.0 * self.conductivity.get::<watt_per_meter_kelvin>());
            Band::within_factor(heat / colder * resistance, 2.0).map(Time::new::<second>)
        })
    }
}

/// `lambda^2` of Stefan's problem; nothing where there is no such front.
fn front_squared(stefan: f64) -> Option<f64> {
    // What is sought grows with lambda^2 faster than twice it, and beyond 1 faster than its exponential.
    let most = (stefan / 2.0).min(stefan.ln().max(1.0));
    let excess = |share: f64| stefan_left(share * most) / stefan - 1.0;
    let possible = stefan > 0.0 && stefan < 1e300;
    let share = possible.then(|| find_root_brent(0.0, 1.0, excess, &mut SimpleConvergency { eps: 1e-13, max_iter: 100 }).ok())??;
    Some(share * most)
}

/// `sqrt(pi) lambda exp(lambda^2) erf(lambda)` of `s = lambda^2`.
fn stefan_left(s: f64) -> f64 {
    let (mut sum, mut term) = (0.0, 2.0 * s);
    let mut odd = 3.0;
    while term > 1e-17 * sum {
        sum += term;
        term *= 2.0 * s / odd;
        odd += 2.0;
    }
    sum
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;
    use approx::assert_relative_eq;

    fn celsius(value: f64) -> Temperature {
        Temperature::from_base(value).unwrap()
    }

    fn layer() -> LiquidLayer {
        LiquidLayer {
            thickness: Length::new::<meter>(0.002),
            conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(0.26),
            density: Density::new::<kilogram_per_cubic_meter>(1250.0),
            specific_heat: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(1590.0),
            latent_heat: LatentHeat::new::<joule_per_kilogram>(46_000.0),
            sets_at: celsius(28.0),
        }
    }

    #[test]
    fn the_front_of_stefan_solves_his_equation() {
        for stefan in [1e-6, 0.01, 3.0, 50.0, 1e6] {
            assert_relative_eq!(stefan_left(front_squared(stefan).unwrap()), stefan, max_relative = 1e-9);
        }
    }

    #[test]
    fn a_cap_sets_in_minutes() {
        let film = HeatTransfer::new::<watt_per_square_meter_kelvin>(15.0);
        let minutes = layer().sets_in_air(celsius(31.0), celsius(14.0), film).unwrap().map(|time| time.get::<second>() / 60.0);
        // The whole published span lies in the band: 8 min is a tunnel, 30 min a still refrigerator.
        assert!(minutes.low < 8.0 && minutes.high > 30.0, "{minutes:?}");
        // A cold wall is always faster than air of its temperature.
        assert!(layer().sets_on_cold_wall(celsius(14.0)).unwrap().get::<second>() / 60.0 < minutes.low);
    }

    #[test]
    fn warm_surroundings_set_nothing() {
        let film = HeatTransfer::new::<watt_per_square_meter_kelvin>(15.0);
        assert_eq!(layer().sets_in_air(celsius(31.0), celsius(28.0), film), None);
        assert_eq!(layer().sets_on_cold_wall(celsius(30.0)), None);
        let inert = LiquidLayer { latent_heat: LatentHeat::new::<joule_per_kilogram>(0.0), ..layer() };
        assert_eq!(inert.sets_on_cold_wall(celsius(14.0)), None);
    }
}
