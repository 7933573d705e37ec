//! TOML into the neutral tree, with the line of every key.

use super::fault::{Fault, FaultKind};
use super::node::{Node, Value};
use std::ops::Range;
use toml_edit::{Array, Document, Item, TableLike, Value as TomlValue};

/// Reads a TOML text. Its parser bounds how deep values nest, so the recursion here is bounded too.
pub(super) fn read(text: &str) -> Result<Node, Fault> {
    let lines = Lines::of(text);
    let document = Document::parse(text).map_err(|error| {
        let (line, column) = error.span().map_or((None, None), |span| lines.position(text, span.start));
        Fault::of_document(line, FaultKind::syntax("TOML", column, error.message()))
    })?;
    Ok(Node { line: None, value: table(document.as_table(), &lines) })
}

fn table(table: &dyn TableLike, lines: &Lines) -> Value {
    let entry = |(key, item): (&str, &Item)| {
        let span = table.key(key).and_then(toml_edit::Key::span).or_else(|| item.span());
        (key.to_owned(), Node { line: lines.line(span), value: value(item, lines) })
    };
    Value::Table(table.iter().map(entry).collect())
}

fn value(item: &Item, lines: &Lines) -> Value {
    match item {
        Item::None => Value::Null,
        Item::Value(value) => plain(value, lines),
        Item::Table(inner) => table(inner, lines),
        Item::ArrayOfTables(tables) => {
            Value::List(tables.iter().map(|inner| Node { line: lines.line(inner.span()), value: table(inner, lines) }).collect())
        }
    }
}

fn plain(value: &TomlValue, lines: &Lines) -> Value {
    match value {
        TomlValue::String(text) => Value::Text(text.value().clone()),
        TomlValue::Integer(number) => Value::Number(*number.value() as f64),
        TomlValue::Float(number) => Value::Number(*number.value()),
        TomlValue::Boolean(flag) => Value::Flag(*flag.value()),
        TomlValue::Datetime(_) => Value::Date,
        TomlValue::Array(array) => list(array, lines),
        TomlValue::InlineTable(inner) => table(inner, lines),
    }
}

fn list(array: &Array, lines: &Lines) -> Value {
    Value::List(array.iter().map(|element| Node { line: lines.line(element.span()), value: plain(element, lines) }).collect())
}

/// Where each line starts.
struct Lines(Vec<usize>);

impl Lines {
    fn of(text: &str) -> Self {
        Self(std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect())
    }

    fn line(&self, span: Option<Range<usize>>) -> Option<u32> {
        self.number(span?.start)
    }

    fn number(&self, at: usize) -> Option<u32> {
        u32::try_from(self.0.partition_point(|start| *start <= at)).ok()
    }

    /// Line and column, both counted from one.
    fn position(&self, text: &str, at: usize) -> (Option<u32>, Option<usize>) {
        let start = self.0.iter().rev().find(|start| **start <= at).copied().unwrap_or(0);
        (self.number(at), text.get(start..at).map(|before| before.chars().count() + 1))
    }
}
