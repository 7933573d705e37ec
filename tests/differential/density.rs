//! Densities.

use crate::Result;
use crate::table::{Answers, Row, SAME, SAME_EQUATION, Table, Within, one};
use crate::water::composition;
use cordial::matter::{Composition, Constituent};
use cordial::models::density::{chocolate, ethanol_water, filling, glycerol_water, sucrose_solution};
use cordial::units::quantity::{Density, kilogram_per_cubic_meter, ratio};
use cordial::units::{Checked, MassFraction};

fn kilograms(density: Density) -> f64 {
    density.get::<kilogram_per_cubic_meter>()
}

pub const TABLES: &[Table] = &[
    Table {
        name: "density/ethanol_water",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| one("density", kilograms(ethanol_water::density(row.get("strength")?, row.celsius()?)?)),
    },
    Table {
        name: "density/strengths",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let strength = row.get("by_volume")?;
            Ok(vec![
                ("by_mass", ethanol_water::by_mass(strength).base().into()),
                ("contraction", ethanol_water::mixing_contraction(strength).get::<ratio>().into()),
            ])
        },
    },
    Table {
        name: "density/sucrose_solution",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| one("density", kilograms(sucrose_solution::density(row.get("sucrose")?, row.celsius()?)?)),
    },
    Table {
        name: "density/glycerol_water",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| one("density", kilograms(glycerol_water::density(row.get("glycerol")?, row.celsius()?)?)),
    },
    Table {
        name: "density/chocolate",
        within: SAME,
        reason: "the same equation; cocoa butter alone, as milk fat is lighter there and not here",
        run: |row| {
            let [fat, carbohydrate, protein] = ["fat", "carbohydrate", "protein"].map(|key| row.get::<MassFraction>(key));
            let (fat, carbohydrate, protein) = (fat?, carbohydrate?, protein?);
            let rest = MassFraction::from_base(1.0 - fat.base() - carbohydrate.base() - protein.base())?;
            let bar = Composition::new([
                (Constituent::CocoaButter, fat),
                (Constituent::UnsplitSugars, carbohydrate),
                (Constituent::Protein, protein),
                (Constituent::Fibre, rest),
            ])?;
            Ok(vec![
                ("set", kilograms(chocolate::solid(&bar).value).into()),
                ("tempered", kilograms(chocolate::liquid(&bar, row.celsius()?, true).value).into()),
            ])
        },
    },
    Table {
        name: "density/fillings",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| one("density", kilograms(filling::density(&composition(row)?, row.celsius()?)?.value)),
    },
    Table {
        name: "density/ethanol_water_by_coolprop",
        within: Within::Relative(0.001),
        reason: "a brine fit of its own, held to what the equation of state of ethanol is",
        run: |row| one("density", kilograms(ethanol_water::density(row.get("strength")?, row.celsius()?)?)),
    },
    Table {
        name: "density/ethanol_by_coolprop",
        within: Within::Relative(0.001),
        reason: "the equation of state of ethanol, which the alcoholometric formula meets to 0.1 %",
        run: |row| one("density", kilograms(ethanol_water::density(MassFraction::nearest(1.0), row.celsius()?)?)),
    },
    Table {
        name: "density/glycerol_water_by_coolprop",
        within: Within::Relative(0.001),
        reason: "a brine fit of its own; the model states 0.1 %",
        run: |row| one("density", kilograms(glycerol_water::density(row.get("glycerol")?, row.celsius()?)?)),
    },
    Table { name: "density/water_by_coolprop", within: Within::Absolute(0.03), reason: WATER, run: water },
    Table { name: "density/water_by_chemicals", within: Within::Absolute(0.03), reason: WATER, run: water },
];

const WATER: &str = "IAPWS-95, which the formula for syrups meets to 0.03 kg/m3";

fn water(row: &Row) -> Result<Answers> {
    one("density", kilograms(sucrose_solution::density(MassFraction::ZERO, row.celsius()?)?))
}
