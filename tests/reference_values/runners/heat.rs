use super::{Runner, number, ratio_of, stress, time, yes_or_no};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::models::heat::setting::LiquidLayer;
use cordial::models::heat::{condensation, expansion, properties, steam};
use cordial::units::quantity::{
    Density, HeatTransfer, LatentHeat, Length, Ratio, SpecificHeatCapacity, ThermalConductivity, joule_per_kilogram,
    joule_per_kilogram_kelvin, kilogram_per_cubic_meter, meter, ratio, second, watt_per_meter_kelvin, watt_per_square_meter_kelvin,
};
use cordial::units::{BulkDensity, Checked, Dimension, MassFraction, Temperature, Thickness};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("steam-pressure", |row| stress(steam::pressure(row.get("at")?))),
    ("saturation-pressure", |row| stress(condensation::saturation_pressure(row.get("air")?))),
    ("dew-point", |row| {
        let dew_point = condensation::dew_point(row.get("air")?, row.get("humidity")?);
        Ok(Found::exact(dew_point.celsius(), Dimension::Temperature))
    }),
    ("condenses", |row| yes_or_no(condensation::wets(row.get("air")?, row.get("humidity")?, row.get("surface")?))),
    ("chocolate-conductivity", |row| {
        let conductivity = properties::conductivity(row.get("at")?).map(|value| value.get::<watt_per_meter_kelvin>());
        Ok(Found::Number(conductivity, Dimension::Ratio))
    }),
    ("specific-heat", |row| {
        let heat = properties::specific_heat(&row.composition("of")?).map(|value| value.get::<joule_per_kilogram_kelvin>());
        Ok(Found::Number(heat, Dimension::Ratio))
    }),
    ("latent-heat", |row| {
        let heat = properties::latent_heat(&row.composition("of")?).map(|value| value.get::<joule_per_kilogram>());
        Ok(Found::Number(heat, Dimension::Ratio))
    }),
    ("linear-contraction", |row| {
        let contraction = expansion::linear_contraction(&row.composition("of")?).map(|value| value.get::<ratio>());
        Ok(Found::Number(contraction, Dimension::Ratio))
    }),
    ("volume-contraction", |row| {
        let linear = if row.value("linear").is_some() {
            Ratio::new::<ratio>(row.base::<MassFraction>("linear")?)
        } else {
            expansion::linear_contraction(&row.composition("of")?).value
        };
        ratio_of(expansion::by_volume(linear))
    }),
    ("filling-expansion", |row| {
        let growth = expansion::of_filling(&row.composition("of")?, row.get("from")?, row.get("to")?)?;
        Ok(Found::Number(growth.map(|value| value.get::<ratio>()), Dimension::Ratio))
    }),
    ("stefan-root", stefan_root),
    ("setting-time", setting_time),
];

/// `lambda` from the time of a layer of which everything else is 1.
fn stefan_root(row: &Row) -> Result<Found> {
    let layer = LiquidLayer {
        thickness: Length::new::<meter>(1.0),
        conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(1.0),
        density: Density::new::<kilogram_per_cubic_meter>(1.0),
        specific_heat: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(1.0),
        latent_heat: LatentHeat::new::<joule_per_kilogram>(1.0 / row.number("stefan")?),
        sets_at: Temperature::nearest(1.0),
    };
    let sets = layer.sets_on_cold_wall(Temperature::nearest(0.0)).ok_or("nothing sets")?;
    number(0.5 / sets.get::<second>().sqrt())
}

fn setting_time(row: &Row) -> Result<Found> {
    let layer = LiquidLayer {
        thickness: row.get::<Thickness>("thickness")?.quantity(),
        conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(row.number("conductivity")?),
        density: row.get::<BulkDensity>("density")?.quantity(),
        specific_heat: SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(row.number("specific_heat")?),
        latent_heat: LatentHeat::new::<joule_per_kilogram>(row.number("latent_heat")?),
        sets_at: row.get("sets_at")?,
    };
    let film = HeatTransfer::new::<watt_per_square_meter_kelvin>(row.number("film_coefficient")?);
    time(layer.sets_in_air(row.get("poured_at")?, row.get("air")?, film).ok_or("nothing sets")?.value)
}
