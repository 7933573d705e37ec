//! How long a filling takes to cool.

use crate::models::heat::properties;
use crate::units::quantity::{
    Area, HeatTransfer, Length, Mass, SpecificHeatCapacity, Time, joule_per_kilogram_kelvin, kilogram, meter, second, square_meter,
    watt_per_meter_kelvin, watt_per_square_meter_kelvin,
};
use crate::units::{Band, Temperature};

/// A warm filling behind a wall of chocolate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmBody {
    /// Its mass.
    pub mass: Mass,
    /// Its specific heat.
    pub specific_heat: SpecificHeatCapacity,
    /// The surface through which it gives off heat.
    pub surface: Area,
    /// The wall of chocolate around it.
    pub wall: Length,
}

impl WarmBody {
    /// The time to cool in air from one temperature to another; nothing if the air is not colder than that.
    ///
    /// # Equation
    /// One temperature throughout: `m c / A (1 / h + s / k) ln((t_from - t_air) / (t_to - t_air))`, `k` of chocolate at the air's
    /// temperature.
    ///
    /// # Units
    /// °C, s; `h` in W/(m² K), as in [`super::setting`].
    ///
    /// # Range
    /// Pieces of a praline's size in air, where the film holds heat back more than the filling does. Fat or sugar that crystallises
    /// meanwhile makes it longer and is not counted.
    ///
    /// # Error
    /// A factor 2, most of it from the film coefficient.
    ///
    /// # Worked value
    /// An exponential: each time constant leaves 1 / e of the difference (arithmetic):
    /// ```
    /// # use cordial::models::heat::cooling::WarmBody;
    /// # use cordial::units::{Checked, Measure, Temperature, quantity::*};
    /// let filling = WarmBody {
    ///     mass: Mass::new::<gram>(6.0),
    ///     specific_heat: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(2500.0),
    ///     surface: Area::new::<square_meter>(10e-4),
    ///     wall: Length::new::<millimeter>(0.0),
    /// };
    /// let film = HeatTransfer::new::<watt_per_square_meter_kelvin>(15.0);
    /// let (from, air) = (Measure::parse("30 Cel")?.check()?, Measure::parse("16 Cel")?.check()?);
    /// let to = Temperature::nearest(16.0 + 14.0 / std::f64::consts::E);
    /// assert!((filling.cools(from, to, air, film).unwrap().value.get::<second>() - 1000.0).abs() < 1e-6);
    /// # Ok::<(), cordial::units::MeasureError>(())
    /// ```
    ///
    /// # Source
    /// Newton's law of cooling: memory.
    #[must_use]
    pub fn cools(&self, from: Temperature, to: Temperature, air: Temperature, film: HeatTransfer) -> Option<Band<Time>> {
        let (above, left) = (from.celsius() - air.celsius(), to.celsius() - air.celsius());
        (left > 0.0).then(|| {
            let conductivity = properties::conductivity(air).value.get::<watt_per_meter_kelvin>();
            let resistance = 1.0 / film.get::<watt_per_square_meter_kelvin>() + self.wall.get::<meter>() / conductivity;
            let capacity = self.mass.get::<kilogram>() * self.specific_heat.get::<joule_per_kilogram_kelvin>();
            let seconds = capacity / self.surface.get::<square_meter>() * resistance * (above / left).ln().max(0.0);
            Band::within_factor(seconds, 2.0).map(Time::new::<second>)
        })
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;

    fn seconds(wall: f64, from: f64, to: f64, air: f64) -> Option<f64> {
        let body = WarmBody {
            mass: Mass::new::<kilogram>(0.006),
            specific_heat: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(2500.0),
            surface: Area::new::<square_meter>(1e-3),
            wall: Length::new::<meter>(wall),
        };
        let celsius = |value| Temperature::from_base(value).unwrap();
        let film = HeatTransfer::new::<watt_per_square_meter_kelvin>(15.0);
        Some(body.cools(celsius(from), celsius(to), celsius(air), film)?.value.get::<second>())
    }

    #[test]
    fn the_shell_insulates_a_little() {
        let (bare, clad) = (seconds(0.0, 30.0, 20.0, 16.0).unwrap(), seconds(0.002, 30.0, 20.0, 16.0).unwrap());
        assert!(bare < clad && clad < 1.2 * bare);
        // 15 J/K behind 10 cm² of air film alone, and behind 2 mm of chocolate too.
        let conductivity = properties::conductivity(Temperature::from_base(16.0).unwrap()).value.get::<watt_per_meter_kelvin>();
        let by = |resistance: f64| 15_000.0 * resistance * 3.5_f64.ln();
        approx::assert_relative_eq!(bare, by(1.0 / 15.0), max_relative = 1e-12);
        approx::assert_relative_eq!(clad, by(1.0 / 15.0 + 0.002 / conductivity), max_relative = 1e-12);
    }

    #[test]
    fn it_never_gets_colder_than_the_air_and_is_already_as_cold_as_it_is() {
        assert_eq!(seconds(0.002, 30.0, 16.0, 16.0), None);
        assert_eq!(seconds(0.002, 18.0, 20.0, 16.0), Some(0.0));
    }
}
