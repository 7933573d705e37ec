//! Setting, shrinking, and the moisture of air.

use crate::table::{SAME, SAME_EQUATION, Table, Within, one};
use cordial::models::heat::condensation::{dew_point, saturation_pressure, wets};
use cordial::models::heat::expansion::by_volume;
use cordial::models::heat::setting::LiquidLayer;
use cordial::units::quantity::{
    Density, HeatTransfer, LatentHeat, Length, Ratio, SpecificHeatCapacity, ThermalConductivity, joule_per_kilogram,
    joule_per_kilogram_kelvin, kilogram_per_cubic_meter, meter, pascal, ratio, second, watt_per_meter_kelvin, watt_per_square_meter_kelvin,
};

pub const TABLES: &[Table] = &[
    Table {
        name: "heat/setting",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let layer = LiquidLayer {
                thickness: Length::new::<meter>(row.number("thickness")?),
                conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(row.number("conductivity")?),
                density: Density::new::<kilogram_per_cubic_meter>(row.number("density")?),
                specific_heat: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(row.number("specific_heat")?),
                latent_heat: LatentHeat::new::<joule_per_kilogram>(row.number("latent_heat")?),
                sets_at: row.get("sets_at")?,
            };
            let (cold, film) = (row.get("cold")?, HeatTransfer::new::<watt_per_square_meter_kelvin>(row.number("film")?));
            let on_cold_wall = layer.sets_on_cold_wall(cold).ok_or("never sets on the wall")?;
            let in_air = layer.sets_in_air(row.get("poured_at")?, cold, film).ok_or("never sets in air")?;
            Ok(vec![("on_cold_wall", on_cold_wall.get::<second>().into()), ("in_air", in_air.value.get::<second>().into())])
        },
    },
    Table {
        name: "heat/shrinkage",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| one("by_volume", by_volume(Ratio::new::<ratio>(row.number("linear")?)).get::<ratio>()),
    },
    Table {
        name: "heat/air",
        within: Within::Absolute(1e-8),
        reason: "the same equation; absolute, for a dew point may be 0 °C",
        run: |row| {
            let (air, humidity) = (row.celsius()?, row.get("humidity")?);
            let surface = if wets(air, humidity, row.get("surface")?) { "wet" } else { "dry" };
            Ok(vec![("dew_point", dew_point(air, humidity).celsius().into()), ("surface_is", surface.into())])
        },
    },
    Table {
        name: "heat/dew_point_by_psychrolib",
        within: Within::Absolute(0.05),
        reason: "the ASHRAE formulas, which the Magnus form meets to 0.05 °C from 18 to 30 °C and 50 to 80 % humidity",
        run: |row| one("dew_point", dew_point(row.celsius()?, row.get("humidity")?).celsius()),
    },
    Table {
        name: "heat/vapour_by_psychrolib",
        within: Within::Relative(0.004),
        reason: "the ASHRAE formulas against the Magnus form",
        run: |row| one("saturation_pressure", saturation_pressure(row.celsius()?).get::<pascal>()),
    },
    Table {
        name: "heat/vapour_by_chemicals",
        within: Within::Relative(0.004),
        reason: "the IAPWS formula against the Magnus form",
        run: |row| one("saturation_pressure", saturation_pressure(row.celsius()?).get::<pascal>()),
    },
];
