//! One row: its own keys and those of its table, with a note of which were read.

use crate::Result;
use cordial::matter::{Composition, Constituent};
use cordial::units::{Checked, Choice, Dimension, MassFraction, Measure, Unit};
use std::{cell::Cell, collections::BTreeMap};
use toml_edit::{InlineTable, TableLike, Value};

/// Keys with their values. A key that nobody reads is a slip of the pen, so reading is counted.
pub struct Row<'a>(BTreeMap<&'a str, (&'a Value, Cell<bool>)>);

impl<'a> Row<'a> {
    /// The keys of a row, over those that stand at its table for all rows.
    pub fn new(table: &'a dyn TableLike, row: &'a InlineTable) -> Self {
        let shared = table.iter().filter_map(|(key, item)| Some((key, item.as_value()?)));
        Self::of(shared.filter(|(key, _)| !matches!(*key, "count" | "rows")).chain(row.iter()))
    }

    fn of(keys: impl Iterator<Item = (&'a str, &'a Value)>) -> Self {
        Self(keys.map(|(key, value)| (key, (value, Cell::new(false)))).collect())
    }

    pub fn value(&self, key: &str) -> Option<&'a Value> {
        let (value, read) = self.0.get(key)?;
        read.set(true);
        Some(value)
    }

    fn needed(&self, key: &str) -> Result<&'a Value> {
        self.value(key).ok_or_else(|| format!("`{key}` lacks").into())
    }

    /// Every key.
    pub fn keys(&self) -> impl Iterator<Item = &'a str> + '_ {
        self.0.keys().copied()
    }

    /// The keys that nobody read.
    pub fn unread(&self) -> impl Iterator<Item = &'a str> + '_ {
        self.0.iter().filter(|(_, (_, read))| !read.get()).map(|(key, _)| *key)
    }

    /// A sentence or a word; empty if it is blank or not there.
    pub fn text(&self, key: &str) -> Result<&'a str> {
        match self.value(key) {
            None => Ok(""),
            Some(value) => value.as_str().map(str::trim).ok_or_else(|| format!("`{key}` must be text").into()),
        }
    }

    pub fn measure(&self, key: &str) -> Result<Measure> {
        measure(self.needed(key)?).map_err(|fault| format!("`{key}`: {fault}").into())
    }

    pub fn get<T: Checked>(&self, key: &str) -> Result<T> {
        self.measure(key)?.check().map_err(|fault| format!("`{key}`: {fault}").into())
    }

    pub fn optional<T: Checked>(&self, key: &str) -> Result<Option<T>> {
        if self.0.contains_key(key) { self.get(key).map(Some) } else { Ok(None) }
    }

    /// The number of a measure in the base unit of what `T` measures, even where it lies outside the legal range of a `T`.
    pub fn base<T: Checked>(&self, key: &str) -> Result<f64> {
        self.in_base(key, T::DIMENSION)
    }

    /// The number of a measure in the base unit of its dimension.
    pub fn in_base(&self, key: &str, dimension: Dimension) -> Result<f64> {
        let measure = self.measure(key)?.to(dimension.base_unit()).map_err(|fault| format!("`{key}`: {fault}"))?;
        Ok(measure.base())
    }

    pub fn choice<T: Choice>(&self, key: &str) -> Result<T> {
        let word = self.text(key)?;
        T::from_key(word).ok_or_else(|| format!("`{key}`: `{word}` is not {}", T::WHAT).into())
    }

    pub fn flag(&self, key: &str) -> Result<bool> {
        self.needed(key)?.as_bool().ok_or_else(|| format!("`{key}` must be true or false").into())
    }

    pub fn number(&self, key: &str) -> Result<f64> {
        let value = self.needed(key)?;
        value.as_float().or_else(|| value.as_integer().map(|whole| whole as f64)).ok_or_else(|| format!("`{key}` must be a number").into())
    }

    /// What a table of keys inside this row gives; all of its keys must be read.
    pub fn within<T>(&self, key: &str, read: impl FnOnce(&Row<'a>) -> Result<T>) -> Result<T> {
        let table = self.needed(key)?.as_inline_table().ok_or_else(|| format!("`{key}` must be a table"))?;
        let inner = Row::of(table.iter());
        let found = read(&inner).map_err(|fault| format!("`{key}`: {fault}"))?;
        match inner.unread().next() {
            Some(unread) => Err(format!("`{key}`: nothing reads `{unread}`").into()),
            None => Ok(found),
        }
    }

    /// What something is made of: `{ water = "40 %", sucrose = "60 %" }`.
    pub fn composition(&self, key: &str) -> Result<Composition> {
        self.within(key, |parts| {
            let part = |key: &&str| -> Result<(Constituent, MassFraction)> {
                let constituent = Constituent::from_key(key).ok_or_else(|| format!("`{key}` is no constituent"))?;
                Ok((constituent, parts.get(key)?))
            };
            let parts: Vec<_> = parts.0.keys().map(part).collect::<Result<_>>()?;
            Ok(Composition::new(parts)?)
        })
    }
}

/// `"2 mm"`, or a bare number where there is no unit.
pub fn measure(value: &Value) -> Result<Measure> {
    match value {
        Value::String(text) => Ok(Measure::parse(text.value())?),
        Value::Float(number) => Ok(Measure::new(*number.value(), Unit::One)),
        Value::Integer(number) => Ok(Measure::new(*number.value() as f64, Unit::One)),
        _ => Err("must be a number with its unit".into()),
    }
}
