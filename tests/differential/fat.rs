//! Fat: solid, melted, wandering.

use crate::table::{SAME, Table, Within, one};
use cordial::matter::{Composition, Constituent};
use cordial::models::fat::polymorph::Polymorph;
use cordial::models::fat::{migration, solid_fat};
use cordial::units::quantity::{Diffusivity, Length, Time, meter, ratio, second, square_meter_per_second};
use cordial::units::{Checked, Choice};

pub const TABLES: &[Table] = &[
    Table {
        name: "fat/solid_fat",
        within: Within::Absolute(1e-8),
        reason: "the same curves; absolute, for melted fat is 0 % solid",
        run: |row| {
            let fats = [("cocoa_butter", Constituent::CocoaButter), ("milk_fat", Constituent::MilkFat), ("oil", Constituent::LiquidOil)];
            let mut parts = Vec::new();
            for (column, constituent) in fats {
                parts.push((Composition::pure(constituent), row.number(column)?));
            }
            let blend = Composition::blend(parts.iter().map(|(fat, share)| (fat, *share))).ok_or("no fat")?;
            one("solid_percent", 100.0 * solid_fat::solid(&blend, row.celsius()?).ok_or("no fat")?.value.base())
        },
    },
    Table {
        name: "fat/polymorphs",
        within: SAME,
        reason: "the same table",
        run: |row| {
            let form = row.text("form")?;
            let form = Polymorph::ALL.iter().find(|known| known.key() == form).ok_or("no such form")?;
            let is = if form.survives(row.celsius()?) { "solid" } else { "melted" };
            Ok(vec![("melts_at", form.melts_at().celsius().into()), ("is", is.into())])
        },
    },
    Table {
        name: "fat/migration",
        within: Within::Relative(1e-5),
        reason: "the other is the series throughout, here before a tenth stands its short form, which states 0.00001",
        run: |row| {
            let diffusivity = Diffusivity::new::<square_meter_per_second>(row.number("diffusivity")?);
            let wall = Length::new::<meter>(row.number("wall")?);
            let uptake = migration::uptake(diffusivity, wall, Time::new::<second>(row.number("seconds")?));
            Ok(vec![
                ("uptake", uptake.get::<ratio>().into()),
                ("half_time", migration::half_time(diffusivity, wall).get::<second>().into()),
            ])
        },
    },
];
