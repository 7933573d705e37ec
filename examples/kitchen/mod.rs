//! What the examples on water activity share: a command line, and the fillings it names.

use cordial::matter::{Crystals, Larder, Recipe, RecipeLine};
use cordial::piece::{Document, Layer, Measured};
use cordial::units::{Band, Checked, Choice, Measure, MeasureError, Temperature, WaterActivity};
use std::{error::Error, fs, io::Read, str::FromStr};

/// A document to try things on.
pub const WINTER_BOX: &str = include_str!("../data/winter-box.toml");
/// Far more than a file may hold.
const MOST_READ: u64 = 100 << 20;
/// Columns of a screen.
const WIDTH: usize = 100;
/// Where nothing else is said, °C.
const ROOM: f64 = 20.0;

/// Words, and options with what follows them.
pub struct Arguments {
    pub words: Vec<String>,
    options: Vec<(String, String)>,
}

impl Arguments {
    /// The command line; `flags` stand alone, an option of `valued` takes the word after it.
    pub fn read(flags: &[&str], valued: &[&str]) -> Result<Self, String> {
        let mut all = std::env::args().skip(1);
        let mut found = Self { words: Vec::new(), options: Vec::new() };
        while let Some(argument) = all.next() {
            if flags.contains(&argument.as_str()) {
                found.options.push((argument, String::new()));
            } else if valued.contains(&argument.as_str()) {
                let value = all.next().ok_or_else(|| format!("`{argument}` needs something after it"))?;
                found.options.push((argument, value));
            } else if argument.starts_with("--") {
                return Err(format!("`{argument}` is not an option here: there are {}", [flags, valued].concat().join(", ")));
            } else {
                found.words.push(argument);
            }
        }
        Ok(found)
    }

    /// Everything that an option was given.
    pub fn all(&self, option: &str) -> impl Iterator<Item = &str> {
        self.options.iter().filter(move |(name, _)| name == option).map(|(_, value)| value.as_str())
    }

    /// What an option was last given, with its unit.
    pub fn quantity<T: Checked>(&self, option: &str) -> Result<Option<T>, String> {
        let read = |text: &str| quantity(text).map_err(|error| format!("{option}: {error}"));
        self.all(option).last().map(read).transpose()
    }

    /// The state of the sugar, if it was declared.
    pub fn crystals(&self) -> Result<Option<Crystals>, String> {
        self.all("--crystals").last().map(crystals).transpose()
    }
}

/// A checked quantity from its text.
pub fn quantity<T: Checked>(text: &str) -> Result<T, MeasureError> {
    Measure::from_str(text)?.check()
}

/// The state of the sugar from its word.
pub fn crystals(word: &str) -> Result<Crystals, String> {
    let words = || Crystals::ALL.iter().map(|state| state.key()).collect::<Vec<_>>().join(", ");
    Crystals::from_key(word).ok_or_else(|| format!("`{word}` is not {}: there are {}", Crystals::WHAT, words()))
}

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
        filling.crystals = arguments.crystals()?.or(filling.crystals);
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

/// A paragraph no wider than a screen of 100 columns, its further lines set in.
pub fn paragraph(text: &str) -> String {
    let first = " ".repeat(text.len() - text.trim_start().len());
    let further = if first.is_empty() { String::new() } else { format!("{first}  ") };
    // A number stays with its unit.
    let held = text.trim_start().replace(" %", "\u{a0}%").replace(" °C", "\u{a0}°C").replace(" g ", "\u{a0}g ");
    let options = textwrap::Options::new(WIDTH).initial_indent(&first).subsequent_indent(&further);
    textwrap::fill(&held, options).replace('\u{a0}', " ")
}

/// A temperature as it is given, to a tenth.
pub fn degrees(at: Temperature) -> String {
    // Added to zero, a negative zero has no sign.
    format!("{} °C", (at.celsius() * 10.0).round() / 10.0 + 0.0)
}

/// The text of a file.
pub fn read(file: &str) -> Result<String, Box<dyn Error>> {
    let mut text = Vec::new();
    let opened = fs::File::open(file).map_err(|error| format!("{file}: {error}"))?;
    opened.take(MOST_READ).read_to_end(&mut text).map_err(|error| format!("{file}: {error}"))?;
    Ok(String::from_utf8_lossy(&text).into_owned())
}

/// A water activity with its band, as it is spoken.
pub fn spoken(activity: Band<WaterActivity>) -> String {
    let Band { value, low, high } = activity.map(Checked::base);
    format!("{value:.3}, very likely between {low:.2} and {high:.2}")
}
