use super::{Runner, number, ratio_of};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::matter::{Composition, Constituent};
use cordial::models::density::{chocolate, ethanol_water, filling, glycerol_water, sucrose_solution};
use cordial::units::quantity::{Density, kilogram_per_cubic_meter};
use cordial::units::{Band, Checked, Dimension, MassFraction, Temperature};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("ethanol-water-density", |row| density(Band::exact(ethanol_water::density(strength(row)?, row.get("at")?)?))),
    ("ethanol-by-mass", |row| number(ethanol_water::by_mass(row.get("strength")?).base())),
    ("ethanol-in-volume", |row| {
        let share = ethanol_water::by_mass(row.get("strength")?);
        density(Band::exact(ethanol_water::density(share, Temperature::nearest(20.0))? * share.base()))
    }),
    ("mixing-contraction", |row| ratio_of(ethanol_water::mixing_contraction(row.get("strength")?))),
    ("sucrose-solution-density", |row| density(Band::exact(sucrose_solution::density(row.get("sucrose")?, row.get("at")?)?))),
    ("glycerol-water-density", |row| density(Band::exact(glycerol_water::density(row.get("glycerol")?, row.get("at")?)?))),
    ("filling-density", |row| density(filling::density(&row.composition("of")?, row.get("at")?)?)),
    ("set-chocolate-density", |row| density(chocolate::solid(&row.composition("of")?))),
    ("liquid-chocolate-density", |row| density(chocolate::liquid(&row.composition("of")?, row.get("at")?, row.flag("tempered")?))),
    ("labelled-chocolate-density", labelled_chocolate_density),
    ("dark-chocolate-density", dark_chocolate_density),
];

fn density(band: Band<Density>) -> Result<Found> {
    Ok(Found::Number(band.map(|density| density.get::<kilogram_per_cubic_meter>()), Dimension::Density))
}

/// Strength by volume or by mass, as its unit says.
pub fn strength(row: &Row) -> Result<MassFraction> {
    match row.measure("strength")?.unit().dimension() {
        Dimension::AlcoholStrength => Ok(ethanol_water::by_mass(row.get("strength")?)),
        _ => row.get("strength"),
    }
}

/// A chocolate of which only the label is known: what it does not name is fibre, minerals and water.
fn labelled_chocolate_density(row: &Row) -> Result<Found> {
    let [fat, carbohydrate, protein] = ["fat", "carbohydrate", "protein"].map(|key| row.get::<MassFraction>(key));
    let (fat, carbohydrate, protein) = (fat?, carbohydrate?, protein?);
    let rest = MassFraction::from_base(1.0 - fat.base() - carbohydrate.base() - protein.base())?;
    let parts = [
        (Constituent::CocoaButter, fat),
        (Constituent::UnsplitSugars, carbohydrate),
        (Constituent::Protein, protein),
        (Constituent::Fibre, rest),
    ];
    density(chocolate::solid(&Composition::new(parts)?))
}

/// A dark chocolate of cocoa and sugar: all its fat is the cocoa's.
fn dark_chocolate_density(row: &Row) -> Result<Found> {
    let (cocoa, fat) = (row.get::<MassFraction>("cocoa")?, row.get::<MassFraction>("fat")?);
    let (solids, sugar) = (MassFraction::from_base(cocoa.base() - fat.base())?, MassFraction::from_base(1.0 - cocoa.base())?);
    let parts = [(Constituent::CocoaButter, fat), (Constituent::FatFreeCocoa, solids), (Constituent::Sucrose, sugar)];
    density(chocolate::solid(&Composition::new(parts)?))
}
