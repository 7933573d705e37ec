//! Water activity.

use crate::Result;
use crate::table::{Answers, Row, SAME, SAME_EQUATION, Table, Within, one};
use cordial::matter::{Composition, Constituent, Crystals};
use cordial::models::water::{Isotherm, Layer, Material, Solute, Sorbent, at_rest, sucrose_solubility, water_activity};
use cordial::units::quantity::{Mass, Ratio, gram, ratio};
use cordial::units::{Checked, MassFraction, Temperature};

pub const TABLES: &[Table] = &[
    Table {
        name: "water/solutes",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let solute = Solute::of(constituent(row.text("constituent")?)?).ok_or("does not dissolve")?;
            one("held", solute.water_held(row.get("activity")?).get::<ratio>())
        },
    },
    Table {
        name: "water/sorbents",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let sorbent = Sorbent::of(constituent(row.text("constituent")?)?).ok_or("takes up no water")?;
            one("held", sorbent.water_held(row.get("activity")?).get::<ratio>())
        },
    },
    Table { name: "water/solutions", within: SAME, reason: SAME_EQUATION, run: dissolved },
    Table { name: "water/dissolved_fillings", within: SAME, reason: SAME_EQUATION, run: dissolved },
    Table {
        name: "water/sucrose_with_crystals",
        within: SAME,
        reason: "the same equation; sucrose alone, as the other limits a sugar by the gram of water and the model by the mixture",
        run: sucrose_with_crystals,
    },
    Table { name: "water/fillings_with_crystals", within: SAME, reason: INTEGRAL, run: with_crystals },
    Table { name: "water/measured_fillings", within: SAME, reason: INTEGRAL, run: with_crystals },
    Table {
        name: "water/layers",
        within: Within::Absolute(1e-8),
        reason: "the same equation; absolute, for the gain may be nothing",
        run: layers,
    },
    Table {
        name: "water/ethanol_by_unifac",
        within: Within::RootMeanSquare(0.0088),
        reason: "modified UNIFAC misses the measured activities by 0.0081 root mean square, the model by 0.0033",
        run: |row| {
            let ethanol: MassFraction = row.get("ethanol")?;
            let water = MassFraction::from_base(1.0 - ethanol.base())?;
            let spirit = Composition::new([(Constituent::Ethanol, ethanol), (Constituent::Water, water)])?;
            one("activity", activity(&spirit, None, Temperature::nearest(25.0))?)
        },
    },
];

const INTEGRAL: &str = "the same equation, of which the other integrates numerically what the model does in closed form";

fn constituent(key: &str) -> Result<Constituent> {
    Constituent::from_key(key).ok_or_else(|| format!("`{key}` is no constituent").into())
}

/// `water=0.4;sucrose=0.6`
pub fn composition(row: &Row) -> Result<Composition> {
    let part = |part: &str| -> Result<_> {
        let (key, share) = part.split_once('=').ok_or("a part is `key=share`")?;
        Ok((constituent(key)?, MassFraction::from_base(share.parse()?)?))
    };
    let parts: Vec<_> = row.text("of")?.split(';').map(part).collect::<Result<_>>()?;
    Ok(Composition::new(parts)?)
}

fn activity(filling: &Composition, crystals: Option<Crystals>, at: Temperature) -> Result<f64> {
    Ok(water_activity(filling, crystals, at)?.activity.value.base())
}

fn dissolved(row: &Row) -> Result<Answers> {
    one("activity", activity(&composition(row)?, Some(Crystals::Dissolved), Temperature::nearest(25.0))?)
}

/// The other implementation takes one solubility of sucrose, the model computes it from the temperature: it is asked at the temperature
/// where both are the same, as nothing else in the balance depends on it.
fn sucrose_with_crystals(row: &Row) -> Result<Answers> {
    let wanted = row.number("sucrose_solubility")?;
    let (mut colder, mut warmer) = (0.0, 100.0);
    for _ in 0..60 {
        let between = f64::midpoint(colder, warmer);
        let dissolves = sucrose_solubility(Temperature::from_base(between)?).get::<ratio>();
        if dissolves < wanted { colder = between } else { warmer = between }
    }
    one("activity", activity(&composition(row)?, None, Temperature::from_base(colder)?)?)
}

fn with_crystals(row: &Row) -> Result<Answers> {
    one("activity", activity(&composition(row)?, None, row.celsius()?)?)
}

fn layers(row: &Row) -> Result<Answers> {
    let filling = composition(row)?;
    let ratio_of = |column| Ok::<_, crate::Fault>(Ratio::new::<ratio>(row.number(column)?));
    let isotherm = Isotherm::new(ratio_of("monolayer")?, row.number("c")?, row.number("k")?)?;
    let layers = [
        Layer {
            mass: Mass::new::<gram>(row.number("grams")?),
            material: Material::Filling { composition: &filling, crystals: Some(Crystals::Dissolved) },
        },
        Layer {
            mass: Mass::new::<gram>(row.number("solid_grams")?),
            material: Material::Solid { isotherm, water: row.get("solid_water")? },
        },
    ];
    let rest = at_rest(&layers, Temperature::nearest(25.0))?;
    let gain = rest.layers.last().ok_or("no layer")?.gain.value.get::<gram>();
    Ok(vec![("activity", rest.activity.value.base().into()), ("gain", gain.into())])
}
