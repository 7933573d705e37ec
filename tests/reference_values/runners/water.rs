use super::{Runner, ratio_of};
use crate::expected::Found;
use cordial::models::water::{glucose_solubility, lactose_solubility, sucrose_solubility, water_activity};
use cordial::units::{Checked, Dimension};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("water-activity", |row| {
        let crystals = if row.value("crystals").is_some() { Some(row.choice("crystals")?) } else { None };
        let balance = water_activity(&row.composition("of")?, crystals, row.get("at")?)?;
        Ok(Found::Number(balance.activity.map(Checked::base), Dimension::Ratio))
    }),
    ("sucrose-solubility", |row| ratio_of(sucrose_solubility(row.get("at")?))),
    ("glucose-solubility", |row| ratio_of(glucose_solubility(row.get("at")?))),
    ("lactose-solubility", |row| ratio_of(lactose_solubility(row.get("at")?))),
];
