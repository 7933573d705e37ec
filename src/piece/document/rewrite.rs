//! A document with knobs turned: comments stay, only turned values change, what is added is marked.

use super::Document;
use crate::matter::Role;
use crate::piece::{ChocolateOf, Knob, Piece, Process};
use crate::units::{Choice, Measure};
use toml_edit::visit_mut::{VisitMut, visit_inline_table_mut};
use toml_edit::{DocumentMut, InlineTable, Item, KeyMut, TableLike, Value};

/// Why a document cannot be written again.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RewriteError {
    /// It is no TOML.
    #[error("only documents in TOML can be written again: {reason}")]
    NotToml {
        /// What the parser says.
        reason: String,
    },
    /// The document does not hold what was turned.
    #[error("piece {piece} of the document has no place for the {knob}")]
    NoPlace {
        /// The piece, counted from one.
        piece: usize,
        /// The knob.
        knob: String,
    },
}

impl Document {
    /// The text of a document with knobs of one of its pieces turned, one after the other, each to a setting in the base unit.
    ///
    /// # Errors
    /// [`RewriteError`] when the text is no TOML, or does not hold what is turned.
    pub fn rewritten(text: &str, piece: usize, described: &Piece, turns: &[(Knob, f64)]) -> Result<String, RewriteError> {
        let mut document: DocumentMut =
            text.parse().map_err(|error: toml_edit::TomlError| RewriteError::NotToml { reason: error.message().into() })?;
        let mut described = described.clone();
        for (knob, to) in turns {
            let no_place = || RewriteError::NoPlace { piece: piece + 1, knob: knob.label(&described) };
            let turned = knob.set(&described, *to).ok_or_else(no_place)?;
            let table = document.get_mut("piece").and_then(|pieces| at(pieces, piece)).ok_or_else(no_place)?;
            write(table, *knob, *to, &described, &turned).ok_or_else(no_place)?;
            described = turned;
        }
        OnOneLine.visit_document_mut(&mut document);
        Ok(document.to_string())
    }
}

/// A table in braces stays on its line: what is added to it cannot be marked there.
struct OnOneLine;

impl VisitMut for OnOneLine {
    fn visit_inline_table_mut(&mut self, table: &mut InlineTable) {
        let marked = |key: &KeyMut<'_>| key.leaf_decor().prefix().and_then(|prefix| prefix.as_str()) == Some(ADDED);
        let any_marked = table.iter_mut().any(|(key, _)| marked(&key));
        if any_marked {
            table.fmt();
        }
        visit_inline_table_mut(self, table);
    }
}

/// Marks a line that was not there.
const ADDED: &str = "# added:\n";

/// Writes one knob; none where its place is missing.
fn write(piece: &mut dyn TableLike, knob: Knob, to: f64, before: &Piece, after: &Piece) -> Option<()> {
    if let Knob::IngredientMass(index, _) | Knob::Addition(index, _) | Knob::CookedMass(index) = knob
        && before.layers.get(index)?.measured_recipe != after.layers.get(index)?.measured_recipe
    {
        keep_measured(layer(piece, index)?)?;
    }
    let measure = knob.measure(before, to);
    let word = || knob.word(to);
    match knob {
        Knob::WallThickness => put(child(piece, "shell")?, "thickness", text(measure)),
        Knob::DrainTime => put(child(child(piece, "shell")?, "drained")?, "time", text(measure)),
        Knob::Casts => put(child(piece, "shell")?, "casts", whole(to)),
        Knob::Temper(of) => put(child(piece, of.key())?, "temper", word()?.into()),
        Knob::EmulsifierDose(of, index) => put(at(child(piece, of.key())?.get_mut("emulsifier")?, index)?, "dose", text(measure)),
        Knob::EmulsifierForm(of, index) => {
            let emulsifier = at(child(piece, of.key())?.get_mut("emulsifier")?, index)?;
            let dose = Knob::EmulsifierDose(of, index);
            put(emulsifier, "form", word()?.into());
            put(emulsifier, "dose", text(dose.measure(after, dose.get(after)?)));
        }
        Knob::StirredInDose(of, index) => put(at(child(piece, of.key())?.get_mut("added")?, index)?, "dose", text(measure)),
        Knob::CocoaButter(of) => add(child(piece, of.key())?, "added", [("ingredient", "cocoa-butter".into()), ("dose", text(measure))])?,
        Knob::FillDepth(index) => put(layer(piece, index)?, "fill_to", text(measure)),
        Knob::LayerAmount(index) => {
            let layer = layer(piece, index)?;
            let key = if layer.contains_key("volume") { "volume" } else { "mass" };
            put(layer, key, text(measure));
        }
        Knob::IngredientMass(index, line) => put(at(layer(piece, index)?.get_mut("recipe")?, line)?, "mass", text(measure)),
        Knob::Addition(index, constituent) => {
            let layer = layer(piece, index)?;
            add(layer, "recipe", [("ingredient", constituent.key().into()), ("mass", text(measure))])?;
            if constituent.role() == Role::Gum {
                put(layer, "hydrated_first", true.into());
            }
        }
        Knob::CookedMass(index) => {
            let layer = layer(piece, index)?;
            layer.remove("cooked_at");
            put(layer, "cooked_to", text(measure));
        }
        Knob::PouringTemperature(index) => put(layer(piece, index)?, "temperature", text(measure)),
        Knob::Sale => {
            if !piece.contains_key("storage") {
                put(piece, "storage", Value::InlineTable(InlineTable::new()));
            }
            put(child(piece, "storage")?, "sale", word()?.into());
        }
        Knob::Barrier(index) if to < 0.5 => drop(layer(piece, index)?.remove("barrier")),
        Knob::Barrier(index) => put(layer(piece, index)?, "barrier", word()?.into()),
        Knob::CapThickness => put(child(piece, ChocolateOf::Cap.key())?, "thickness", text(measure)),
        Knob::CapCoats => put(child(piece, ChocolateOf::Cap.key())?, "coats", whole(to)),
        Knob::Process(Process::Keep) => put(piece, "keep", text(measure)),
        Knob::Process(process @ Process::StorageTemperature) => put(child(piece, "storage")?, process.key(), text(measure)),
        Knob::Process(process) => put(child(piece, "workshop")?, process.key(), text(measure)),
    }
    Some(())
}

/// Writes the recipe that was measured beside what was measured, before another takes its place.
fn keep_measured(layer: &mut dyn TableLike) -> Option<()> {
    let mut lines = toml_edit::Array::new();
    let recipe = layer.get_mut("recipe")?;
    for index in 0.. {
        let Some(line) = at(recipe, index) else { break };
        let mut kept: InlineTable = line.iter().filter_map(|(key, item)| Some((key.to_owned(), item.as_value()?.clone()))).collect();
        kept.fmt();
        lines.push(Value::InlineTable(kept));
    }
    let cooked_to = layer.get("cooked_to").and_then(Item::as_value).cloned();
    let measured = child(layer, "measured")?;
    put(measured, "recipe", Value::Array(lines));
    if let Some(cooked_to) = cooked_to {
        put(measured, "cooked_to", cooked_to.decorated(" ", ""));
    }
    Some(())
}

fn text(measure: Measure) -> Value {
    measure.to_string().into()
}

#[allow(clippy::cast_possible_truncation, reason = "settings of whole numbers are small")]
fn whole(setting: f64) -> Value {
    (setting.round() as i64).into()
}

fn child<'a>(table: &'a mut dyn TableLike, key: &str) -> Option<&'a mut dyn TableLike> {
    table.get_mut(key)?.as_table_like_mut()
}

fn layer(piece: &mut dyn TableLike, index: usize) -> Option<&mut dyn TableLike> {
    at(piece.get_mut("layer")?, index)
}

/// A table of an array, however the array is written.
fn at(item: &mut Item, index: usize) -> Option<&mut dyn TableLike> {
    match item {
        Item::ArrayOfTables(tables) => tables.get_mut(index).map(|table| table as &mut dyn TableLike),
        Item::Value(Value::Array(array)) => array.get_mut(index)?.as_inline_table_mut().map(|table| table as &mut dyn TableLike),
        _ => None,
    }
}

/// Puts a value in the place of another, with the space and comments around it; a new key is marked.
fn put(table: &mut dyn TableLike, key: &str, mut value: Value) {
    match table.get_mut(key).and_then(Item::as_value_mut) {
        Some(there) => {
            *value.decor_mut() = there.decor().clone();
            *there = value;
        }
        None => {
            table.insert(key, Item::Value(value));
            if let Some(mut key) = table.key_mut(key) {
                key.leaf_decor_mut().set_prefix(ADDED);
            }
        }
    }
}

/// Adds a line to an array of inline tables, set like the one before it and marked; makes the array where there is none.
fn add<const N: usize>(table: &mut dyn TableLike, key: &str, fields: [(&str, Value); N]) -> Option<()> {
    let mut line = InlineTable::new();
    for (key, value) in fields {
        line.insert(key, value);
    }
    let Some(item) = table.get_mut(key) else {
        let mut array = toml_edit::Array::new();
        array.push(Value::InlineTable(line));
        put(table, key, Value::Array(array));
        return Some(());
    };
    let array = item.as_array_mut()?;
    let prefix = array.iter().last().and_then(|last| last.decor().prefix()?.as_str()).unwrap_or("").to_owned();
    let mut value = Value::InlineTable(line);
    // A comment needs lines of its own.
    value.decor_mut().set_prefix(if prefix.contains('\n') { format!("{prefix}# added:{prefix}") } else { " ".into() });
    array.push_formatted(value);
    Some(())
}
