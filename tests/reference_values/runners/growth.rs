use super::{Runner, number, ratio_of, yes_or_no};
use crate::expected::Found;
use cordial::law::allergen::declared;
use cordial::matter::AllergenSet;
use cordial::matter::{Allergen, Market};
use cordial::models::growth::{
    ORGANISMS, TimeTemperatureControl, Treatment, delle_units, mould_beside_ethanol, time_temperature_control, undissociated_sorbic_acid,
};
use cordial::units::{BulkDensity, Checked};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("growth-minimum", |row| {
        let name = row.text("organism")?;
        let organism = ORGANISMS.iter().find(|organism| organism.name == name).ok_or_else(|| format!("no organism is called `{name}`"))?;
        number(organism.least_activity().base())
    }),
    ("mould-beside-ethanol", |row| ratio_of(mould_beside_ethanol(row.get("ethanol")?, row.get("half")?, row.get("most")?))),
    ("delle-units", |row| number(delle_units(row.get::<BulkDensity>("sugar")?.quantity(), row.get("strength")?))),
    ("undissociated-sorbic-acid", |row| ratio_of(undissociated_sorbic_acid(row.get("ph")?))),
    ("time-temperature-control", |row| {
        let treatment = if row.flag("heated_in_pack")? { Treatment::HeatedAndPacked } else { Treatment::Other };
        let control = time_temperature_control(row.get("activity")?, row.optional("ph")?, treatment);
        Ok(Found::Word(match control {
            TimeTemperatureControl::NotNeeded => "not-needed",
            TimeTemperatureControl::UnlessAssessed => "unless-assessed",
        }))
    }),
    ("declared-allergen", |row| {
        let market: Market = row.choice("market")?;
        let list = declared(market).ok_or("no list is held of that market")?;
        yes_or_no(!list.intersection(AllergenSet::of(&[row.choice::<Allergen>("allergen")?])).is_empty())
    }),
];
