//! What the examples on water activity share: the fillings that a command line names.
#![allow(dead_code, reason = "no example uses all of it")]

use super::terminal::{Arguments, WINTER_BOX, quantity, read};
use cordial::matter::{Crystals, Larder, Recipe, RecipeLine};
use cordial::piece::{Document, Layer, Measured};
use cordial::units::{Band, Checked, Temperature, WaterActivity};
use std::error::Error;

/// Where nothing else is said, °C.
const ROOM: f64 = 20.0;

/// What is to be looked at.
pub struct Filling {
    pub name: String,
    pub recipe: Recipe,
    pub crystals: Option<Crystals>,
    /// Where it is kept.
    pub temperature: Temperature,
    pub measured: Measured,
}

/// The fillings the command line names: a recipe (`"cream-35=250 g" ...`), the layers of a document, or those of the winter box.
pub fn fillings(arguments: &Arguments) -> Result<Vec<Filling>, Box<dyn Error>> {
    let mut found = match arguments.words.as_slice() {
        [] => layers(WINTER_BOX)?,
        [file] if !file.contains('=') => layers(&read(file)?).map_err(|error| format!("{file}: {error}"))?,
        lines => vec![weighed(lines, arguments)?],
    };
    for filling in &mut found {
        filling.crystals = arguments.choice("--crystals")?.or(filling.crystals);
        filling.temperature = arguments.quantity("--at")?.unwrap_or(filling.temperature);
    }
    Ok(found)
}

/// A line of a recipe, as in `cream-35=250 g`.
pub fn line(text: &str) -> Result<RecipeLine, Box<dyn Error>> {
    let (name, mass) = text.split_once('=').ok_or_else(|| format!("`{text}`: write an ingredient and its mass, as in `cream-35=250 g`"))?;
    let mass = quantity(mass).map_err(|error| format!("`{text}`: {error}"))?;
    Ok(RecipeLine { ingredient: Larder::built_in().get(name.trim())?, mass })
}

fn weighed(lines: &[String], arguments: &Arguments) -> Result<Filling, Box<dyn Error>> {
    let recipe = Recipe::new(lines.iter().map(|text| line(text)).collect::<Result<_, _>>()?, arguments.quantity("--cooked-to")?)?;
    Ok(Filling { name: lines.join(", "), recipe, crystals: None, temperature: Temperature::nearest(ROOM), measured: Measured::default() })
}

/// Every layer of a document that has a recipe.
fn layers(text: &str) -> Result<Vec<Filling>, Box<dyn Error>> {
    let document = Document::parse(text)?;
    let filling = |piece: &cordial::Piece, layer: &Layer| {
        Some(Filling {
            name: format!("{}: {}", piece.name, layer.name),
            recipe: layer.recipe.clone()?,
            crystals: layer.crystals,
            temperature: piece.storage.temperature.unwrap_or(Temperature::nearest(ROOM)),
            measured: layer.measured,
        })
    };
    let found: Vec<_> =
        document.pieces().iter().flat_map(|piece| piece.layers.iter().filter_map(move |layer| filling(piece, layer))).collect();
    if found.is_empty() { Err("no layer of it has a recipe".into()) } else { Ok(found) }
}

/// A water activity with its band, as it is spoken.
pub fn spoken(activity: Band<WaterActivity>) -> String {
    let Band { value, low, high } = activity.map(Checked::base);
    format!("{value:.3}, very likely between {low:.2} and {high:.2}")
}
