//! One value of a document, to be read as what its key wants.

use super::fault::{FaultKind, Faults};
use super::node::{Node, Value};
use super::place::Place;
use super::table::TableReader;
use crate::units::{Checked, Choice, Measure, MeasureError, RangeError, Unit, nearest};
use std::error::Error;
use std::ops::RangeInclusive;
use std::sync::Arc;

/// A value, or the place where one could be. Reading what is absent gives nothing; reading what is wrong gives nothing and notes a fault.
#[derive(Clone, Copy)]
pub(crate) struct Field<'p> {
    node: Option<&'p Node>,
    place: Place<'p>,
    faults: &'p Faults,
}

impl<'p> Field<'p> {
    pub(super) const fn new(node: Option<&'p Node>, place: Place<'p>, faults: &'p Faults) -> Self {
        Self { node, place, faults }
    }

    pub(crate) const fn is_present(&self) -> bool {
        self.node.is_some()
    }

    /// Notes a fault at this place.
    pub(crate) fn fault(&self, kind: impl FnOnce() -> FaultKind) {
        self.faults.note(&self.place, self.node.and_then(|node| node.line), kind);
    }

    /// Notes at this place why its value was refused.
    pub(crate) fn refuse<E: Error + Send + Sync + 'static>(&self, reason: impl FnOnce() -> E) {
        self.fault(|| FaultKind::Refused(Arc::new(reason())));
    }

    /// The value, or nothing with its error noted as a fault at this place.
    pub(crate) fn accept<T, E: Error + Send + Sync + 'static>(&self, result: Result<T, E>) -> Option<T> {
        result.map_err(|error| self.refuse(|| error)).ok()
    }

    /// A text that is not blank.
    pub(crate) fn text(self) -> Option<&'p str> {
        match &self.node?.value {
            Value::Text(text) if text.trim().is_empty() => self.none(|| FaultKind::Blank),
            Value::Text(text) => Some(text),
            other => self.wrong_form("a text in quotes", other),
        }
    }

    /// Yes or no.
    pub(crate) fn flag(self) -> Option<bool> {
        match &self.node?.value {
            Value::Flag(flag) => Some(*flag),
            other => self.wrong_form("`true` or `false`", other),
        }
    }

    /// A number that is no measure.
    pub(crate) fn number(self) -> Option<f64> {
        match &self.node?.value {
            Value::Number(number) => Some(*number),
            other => self.wrong_form("a number", other),
        }
    }

    /// A finite number that is no measure and at least 0.
    pub(crate) fn nonnegative(self) -> Option<f64> {
        let found = self.number()?;
        if found >= 0.0 && found.is_finite() { Some(found) } else { self.none(|| FaultKind::Negative { found }) }
    }

    /// A count.
    pub(crate) fn whole(self, range: RangeInclusive<u32>) -> Option<u32> {
        let found = self.number()?;
        let (least, most) = range.into_inner();
        if found.fract() == 0.0 && (f64::from(least)..=f64::from(most)).contains(&found) {
            // A whole number between two that fit.
            Some(found as u32)
        } else {
            self.none(|| FaultKind::Whole { least, most, found })
        }
    }

    /// One of a closed list of words.
    pub(crate) fn choice<T: Choice>(self) -> Option<T> {
        let known = || T::ALL.iter().map(|case| case.key());
        self.word(T::WHAT, T::from_key, known)
    }

    /// A word that `find` knows; `known` are all there are.
    pub(crate) fn word<T, K: Iterator<Item = &'static str>>(
        self,
        what: &'static str,
        find: impl FnOnce(&str) -> Option<T>,
        known: impl Fn() -> K,
    ) -> Option<T> {
        let word = self.text()?;
        find(word).or_else(|| {
            self.none(|| FaultKind::UnknownWord {
                word: word.to_owned(),
                what,
                nearest: nearest(word, known(), 1).first().map(ToString::to_string),
                known: known().collect(),
            })
        })
    }

    /// A quantity inside its range: `"2 mm"`, `{ value = 2.0, unit = "mm" }`, or a bare number if it is dimensionless by nature.
    pub(crate) fn measure<T: Checked>(self) -> Option<T> {
        self.measure_in(Unit::One)
    }

    /// A quantity whose dimension is not known beforehand; numbers without a unit are in the unit given.
    pub(crate) fn any_measure(self, unit: Unit) -> Option<Measure> {
        self.raw(unit)
    }

    /// A measured quantity, and its standard uncertainty in the base unit if it is given as `{ value = ..., uncertainty = ... }`.
    pub(crate) fn reported<T: Checked>(self) -> Option<(T, Option<f64>)> {
        let Value::Table(entries) = &self.node?.value else { return self.measure().map(|value| (value, None)) };
        if !entries.iter().any(|(key, _)| key == "uncertainty") {
            return self.measure().map(|value| (value, None));
        }
        self.table(|table| {
            let (value, uncertainty) = (table.required("value", "the measured value"), table.optional("uncertainty"));
            let unit = table.optional("unit").unit()?;
            let (value, uncertainty) = (value.measure_in(unit), uncertainty.uncertainty::<T>(unit));
            Some((value?, Some(uncertainty?)))
        })
    }

    /// A quantity; numbers without a unit are in the unit given.
    fn measure_in<T: Checked>(self, unit: Unit) -> Option<T> {
        let measure = self.dimensioned::<T>(unit)?;
        measure.check().map_err(|error| self.fault(|| error.into())).ok()
    }

    /// A standard uncertainty, in the base unit: at least nothing and no wider than the range.
    fn uncertainty<T: Checked>(self, unit: Unit) -> Option<f64> {
        let found = self.dimensioned::<T>(unit)?;
        if found.unit().dimension() != T::DIMENSION {
            return self.none(|| MeasureError::Dimension { expected: T::DIMENSION, found }.into());
        }
        // Differences: the zero of a temperature scale must not count.
        let (zero, unit) = (Measure::new(0.0, found.unit()), found.unit());
        let width = Measure::from_base(zero.base() + T::MAX - T::MIN, unit);
        if (0.0..=width.value()).contains(&found.value()) {
            return Some(found.base() - zero.base());
        }
        let range = RangeError { what: "an uncertainty", min: zero, max: width, found };
        self.none(|| MeasureError::from(range).into())
    }

    /// A measure with a unit, unless the quantity needs none.
    fn dimensioned<T: Checked>(self, unit: Unit) -> Option<Measure> {
        let measure = self.raw(unit)?;
        match measure.unit() {
            Unit::One if T::BARE => Some(Measure::new(measure.value(), T::DIMENSION.base_unit())),
            Unit::One => self.none(|| FaultKind::NoUnit { found: measure.value(), what: T::WHAT, dimension: T::DIMENSION }),
            _ => Some(measure),
        }
    }

    /// A finite number in its unit, or in the unit given.
    fn raw(self, unit: Unit) -> Option<Measure> {
        let measure = match &self.node?.value {
            Value::Text(text) => Measure::parse(text).map_err(|error| self.fault(|| error.into())).ok()?,
            Value::Number(number) => Measure::new(*number, unit),
            Value::Table(_) => self.table(|table| {
                let (value, unit) = (table.required("value", "the number").number(), table.optional("unit").unit());
                Some(Measure::new(value?, unit?))
            })?,
            other => return self.wrong_form("a number with its unit in quotes", other),
        };
        if measure.value().is_finite() {
            Some(measure)
        } else {
            self.none(|| MeasureError::NotFinite { text: measure.value().to_string() }.into())
        }
    }

    /// A unit; that of plain numbers if none is given.
    pub(crate) fn unit(self) -> Option<Unit> {
        if !self.is_present() {
            return Some(Unit::One);
        }
        self.text()?.parse().map_err(|error: MeasureError| self.fault(|| error.into())).ok()
    }

    /// The elements of a list; `what` is what one of them is called.
    pub(crate) fn list(&self, what: &'static str) -> impl Iterator<Item = Field<'_>> {
        let nodes = match self.node.map(|node| &node.value) {
            Some(Value::List(nodes)) => nodes.as_slice(),
            Some(other) => {
                let _: Option<()> = self.wrong_form("a list", other);
                &[]
            }
            None => &[],
        };
        let field = move |(index, node)| Field::new(Some(node), self.place.element(what, index + 1), self.faults);
        nodes.iter().enumerate().map(field)
    }

    /// A list of tables, each read by `read`; nothing if one of them could not be read.
    pub(crate) fn tables<R>(&self, what: Items, mut read: impl FnMut(&TableReader<'_>) -> Option<R>) -> Option<Vec<R>> {
        let Value::List(nodes) = &self.node?.value else {
            return self.wrong_form("a list of tables (`[[...]]` in TOML)", &self.node?.value);
        };
        if nodes.len() > what.most {
            return self.none(|| FaultKind::Many { what: what.what, found: nodes.len(), most: what.most });
        }
        let one = |(index, node): (usize, &Node)| {
            let name = what.named.then(|| name_of(&node.value)).flatten();
            let number = (what.numbered || name.is_none()).then_some(index + 1);
            Field::new(Some(node), self.place.item(what.what, number, name), self.faults).table(&mut read)
        };
        // Every table is read before one that could not be spoils the list.
        let all: Vec<Option<R>> = nodes.iter().enumerate().map(one).collect();
        all.into_iter().collect()
    }

    /// A table whose keys are names of the user's, each the name of a table; `what` is what one of them is called.
    pub(crate) fn named_tables(&self, what: &'static str, mut read: impl FnMut(&str, &TableReader<'_>)) {
        for (name, node) in self.entries() {
            let field = Field::new(Some(node), self.place.item(what, None, Some(name)), self.faults);
            field.table(|table| {
                read(name, table);
                Some(())
            });
        }
    }

    /// A table whose keys are names of the user's.
    pub(crate) fn named(&self) -> impl Iterator<Item = (&'p str, Field<'_>)> {
        self.entries().iter().map(|(name, node)| (name.as_str(), Field::new(Some(node), self.place.key(name), self.faults)))
    }

    /// A table with known keys, read by `read`; whatever else stands in it is a fault.
    pub(crate) fn table<R>(self, read: impl FnOnce(&TableReader<'_>) -> Option<R>) -> Option<R> {
        let Value::Table(entries) = &self.node?.value else { return self.wrong_form("a table", &self.node?.value) };
        let table = TableReader::new(entries, self.node?.line, self.place, self.faults);
        let result = read(&table);
        table.finish();
        result
    }

    /// Whether it is a table that has one of these keys.
    pub(crate) fn has_any(&self, keys: &[&str]) -> bool {
        matches!(self.node.map(|node| &node.value), Some(Value::Table(entries)) if entries.iter().any(|(key, _)| keys.contains(&key.as_str())))
    }

    /// Whether it is a table.
    pub(crate) fn is_table(&self) -> bool {
        matches!(self.node.map(|node| &node.value), Some(Value::Table(_)))
    }

    /// Whether it is a list.
    pub(crate) fn is_list(&self) -> bool {
        matches!(self.node.map(|node| &node.value), Some(Value::List(_)))
    }

    fn entries(&self) -> &'p [(String, Node)] {
        match self.node.map(|node| &node.value) {
            Some(Value::Table(entries)) => entries,
            Some(other) => {
                let _: Option<()> = self.wrong_form("a table of names, such as `{ \"a name\" = ... }`", other);
                &[]
            }
            None => &[],
        }
    }

    fn wrong_form<T>(&self, expected: &'static str, found: &Value) -> Option<T> {
        self.none(|| FaultKind::Form { expected, found: found.to_string() })
    }

    fn none<T>(&self, kind: impl FnOnce() -> FaultKind) -> Option<T> {
        self.fault(kind);
        None
    }
}

/// How the tables of a list are called in places.
#[derive(Clone, Copy)]
pub(crate) struct Items {
    /// What one of them is called.
    pub what: &'static str,
    /// Whether they are counted even if they have a name.
    pub numbered: bool,
    /// Whether they have a `name`.
    pub named: bool,
    /// More of them are not read.
    pub most: usize,
}

impl Items {
    /// However many there are.
    pub const ANY: usize = usize::MAX;
}

fn name_of(value: &Value) -> Option<&str> {
    let Value::Table(entries) = value else { return None };
    entries.iter().find_map(|(key, node)| match &node.value {
        Value::Text(name) if key == "name" && !name.trim().is_empty() => Some(name.as_str()),
        _ => None,
    })
}
