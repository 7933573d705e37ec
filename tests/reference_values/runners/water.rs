use super::Runner;
use crate::expected::Found;
use cordial::models::water::water_activity;
use cordial::units::{Checked, Dimension};

pub const RUNNERS: &[(&str, Runner)] = &[("water-activity", |row| {
    let crystals = if row.value("crystals").is_some() { Some(row.choice("crystals")?) } else { None };
    let balance = water_activity(&row.composition("of")?, crystals, row.get("at")?)?;
    Ok(Found::Number(balance.activity.map(Checked::base), Dimension::Ratio))
})];
