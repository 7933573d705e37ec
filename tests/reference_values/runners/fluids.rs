use super::density::strength;
use super::{Runner, number, ratio_of, shear_rate, viscosity, yes_or_no};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::models::density::ethanol_water;
use cordial::models::flow::activation_energy::Flowing;
use cordial::models::flow::xanthan::Dispersion;
use cordial::models::flow::{drink_class, glycerol_viscosity, honey, spirit_viscosity, syrup_viscosity};
use cordial::units::quantity::{Ratio, pascal, ratio};
use cordial::units::{AlcoholByVolume, Band, Checked, Choice, Dimension, MassFraction, Temperature, Viscosity};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("syrup-viscosity", |row| viscosity(syrup_viscosity::sucrose(row.get("sucrose")?, row.get("at")?)?)),
    ("corn-syrup-viscosity", |row| viscosity(syrup_viscosity::corn_syrup(row.get("at")?)?)),
    ("spirit-viscosity", |row| viscosity(spirit_viscosity::spirit(strength(row)?, row.get("at")?)?)),
    ("glycerol-viscosity", |row| viscosity(glycerol_viscosity::glycerol(row.get("glycerol")?, row.get("at")?)?)),
    ("honey-viscosity", |row| viscosity(honey::viscosity(row.get("water")?, row.get("at")?)?)),
    ("warmth-ratio", |row| {
        let flowing = row.choice::<Flowing>("flows")?;
        ratio_of(flowing.viscosity_ratio(row.get("from")?, row.get("to")?).value)
    }),
    ("activation-energy", activation_energy),
    ("drink-class", |row| Ok(Found::Word(drink_class::of(row.get::<Viscosity>("viscosity")?.quantity()).key()))),
    ("xanthan-yield-value", |row| {
        Ok(Found::Number(dispersion(row)?.yield_value().yield_value.map(|stress| stress.get::<pascal>()), Dimension::Stress))
    }),
    ("xanthan-viscosity", |row| viscosity(Band::exact(dispersion(row)?.apparent_viscosity(shear_rate(row)?)))),
    ("xanthan-in-range", |row| yes_or_no(dispersion(row)?.yield_value().inside_range)),
];

/// In kJ/mol, from the ratio of the viscosities at two temperatures.
fn activation_energy(row: &Row) -> Result<Found> {
    const GAS: f64 = 8.314_462_618e-3;
    let inverse = |celsius: f64| 1.0 / (celsius + 273.15);
    let [cold, warm] = [20.0, 30.0];
    let thicker = row.choice::<Flowing>("flows")?.viscosity_ratio(Temperature::nearest(warm), Temperature::nearest(cold));
    number(GAS * thicker.value.get::<ratio>().ln() / (inverse(cold) - inverse(warm)))
}

fn dispersion(row: &Row) -> Result<Dispersion> {
    let strength = if row.value("strength").is_some() { ethanol_water::by_volume(strength(row)?) } else { AlcoholByVolume::nearest(0.0) };
    Ok(Dispersion {
        gum: Ratio::new::<ratio>(row.base::<MassFraction>("gum")?),
        strength,
        hydrated_first: row.flag("hydrated_first")?,
        grade: row.optional("grade")?,
    })
}
