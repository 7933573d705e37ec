//! Units.

use crate::table::{Table, Within, one};
use cordial::units::{Dimension, Unit};

pub const TABLES: &[Table] = &[Table {
    name: "units/conversions",
    within: Within::Relative(1e-9),
    reason: "definitions",
    run: |row| one("base", row.text("unit")?.parse::<Unit>()?.to_base(row.number("value")?)),
}];

#[test]
fn every_unit_is_converted_or_the_trades_own() {
    let text = include_str!("../../reference-values/differential/units/conversions.csv");
    for unit in Unit::ALL {
        let own = matches!(
            unit.dimension(),
            Dimension::AlcoholStrength
                | Dimension::Humidity
                | Dimension::Acidity
                | Dimension::Brix
                | Dimension::DextroseEquivalent
                | Dimension::GelStrength
        );
        let converted = text.lines().any(|line| line.split(',').next() == Some(unit.code()));
        assert!(own != converted, "{unit}: a unit that others know belongs into the table");
    }
}
