use super::{Runner, ratio_of};
use crate::expected::Found;
use cordial::models::water::exchange_time::{Body, Contact, half_time};
use cordial::models::water::{glucose_solubility, lactose_solubility, sucrose_solubility, water_activity};
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
    ("sucrose-solubility", |row| ratio_of(sucrose_solubility(row.get("at")?))),
    ("glucose-solubility", |row| ratio_of(glucose_solubility(row.get("at")?))),
    ("lactose-solubility", |row| ratio_of(lactose_solubility(row.get("at")?))),
];
