use super::{Runner, number, ratio_of};
use crate::expected::Found;
use cordial::matter::{Constituent, Crystals};
use cordial::models::water::exchange_time::{Body, Contact, half_time};
use cordial::models::water::{
    boiled_to, boiling_point, freezing_point, glucose_solubility, ice, ice_activity, inversion_to_dissolve, invertase_left, inverted,
    lactose_solubility, sucrose_beside_spirit, sucrose_solubility, water_activity,
};
use cordial::units::quantity::{Area, Mass, Ratio, gram, ratio, second, square_meter};
use cordial::units::{Band, Checked, Dimension, Thickness};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("water-activity", |row| {
        let crystals = if row.value("crystals").is_some() { Some(row.choice("crystals")?) } else { None };
        let balance = water_activity(&row.composition("of")?, crystals, row.get("at")?)?;
        Ok(Found::Number(balance.activity.map(Checked::base), Dimension::Ratio))
    }),
    ("softens-within", |row| {
        let depth = row.get::<Thickness>("depth")?.quantity();
        let contact = Contact { area: Area::new::<square_meter>(1e-3), depth, body: Body::Porous, film: false };
        let found = half_time(Mass::new::<gram>(0.1), Ratio::new::<ratio>(0.5), contact, row.get("at")?);
        let [soonest, latest] = [found.least, found.most].map(|time| time.get::<second>());
        Ok(Found::Number(Band { value: (soonest * latest).sqrt(), low: soonest, high: latest }, Dimension::Time))
    }),
    ("boiling-point", |row| {
        let boiling = boiling_point(&row.composition("of")?, row.get("water_boils_at")?)?;
        Ok(Found::Number(boiling.temperature.map(Checked::base), Dimension::Temperature))
    }),
    ("water-at-the-boil", |row| {
        let mix = row.composition("of")?;
        let kept = boiled_to(&mix, row.get("at")?, row.get("water_boils_at")?)?.kept;
        let dry = 1.0 - mix.of(Constituent::Water);
        Ok(Found::Number(kept.map(|kept| 1.0 - dry / kept.get::<ratio>()), Dimension::Ratio))
    }),
    ("ice-activity", |row| number(ice_activity(row.get("at")?).base())),
    ("freezing-point", |row| {
        Ok(Found::Number(freezing_point(&row.composition("of")?, Some(Crystals::Dissolved))?.map(Checked::base), Dimension::Temperature))
    }),
    ("ice", |row| Ok(Found::Number(ice(&row.composition("of")?, row.get("at")?)?.share.map(Checked::base), Dimension::Ratio))),
    ("invertase-left", |row| Ok(Found::Number(invertase_left(row.get("at")?, row.get("time")?), Dimension::Ratio))),
    ("inversion-to-dissolve", |row| {
        let share = inversion_to_dissolve(&row.composition("of")?, row.get("at")?)?.ok_or("no share is enough")?;
        Ok(Found::Number(share.map(Checked::base), Dimension::Ratio))
    }),
    ("inverted-water", |row| number(inverted(&row.composition("of")?, row.get("share")?)?.of(Constituent::Water))),
    ("sucrose-beside-spirit", |row| {
        let relative = sucrose_beside_spirit(row.get("strength")?);
        Ok(Found::Number(relative.map(|relative| relative.get::<ratio>()), Dimension::Ratio))
    }),
    ("sucrose-solubility", |row| ratio_of(sucrose_solubility(row.get("at")?))),
    ("glucose-solubility", |row| ratio_of(glucose_solubility(row.get("at")?))),
    ("lactose-solubility", |row| ratio_of(lactose_solubility(row.get("at")?))),
];
