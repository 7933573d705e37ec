//! A described piece in the form of its document, so that whatever breaks a law can be printed and pasted into a check.

use crate::units::{Measure, Unit};
use std::fmt::{self, Write};

/// A value of a document.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    Text(&'static str),
    Count(u32),
    Bare(f64),
    Flag(bool),
    Measure(Measure),
    List(Vec<Value>),
    Table(Table),
}

/// The keys of a table that are given, with their values.
pub(super) type Table = Vec<(&'static str, Value)>;

/// A document of one piece.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Described {
    /// The sheet of a chocolate called `house`, if the piece is made of one.
    pub(super) house: Option<Table>,
    /// The piece, its layers under `layer`.
    pub(super) piece: Table,
}

impl Described {
    /// The document, with every measure in the unit that stands so many places after the one it was drawn in.
    pub(super) fn text(&self, turned: usize) -> String {
        let mut text = String::from("format = 1\n");
        let written = self.write(turned, &mut text);
        debug_assert!(written.is_ok(), "a string takes whatever is written");
        text
    }

    fn write(&self, turned: usize, out: &mut String) -> fmt::Result {
        if let Some(house) = &self.house {
            writeln!(out, "\n[chocolate.house]")?;
            keys(house, turned, out)?;
        }
        writeln!(out, "\n[[piece]]")?;
        let (layers, plain): (Table, Table) = self.piece.iter().cloned().partition(|(key, _)| *key == "layer");
        keys(&plain, turned, out)?;
        for (_, layers) in layers {
            let Value::List(layers) = layers else { continue };
            for layer in layers {
                let Value::Table(layer) = layer else { continue };
                writeln!(out, "\n[[piece.layer]]")?;
                keys(&layer, turned, out)?;
            }
        }
        Ok(())
    }
}

fn keys(table: &Table, turned: usize, out: &mut String) -> fmt::Result {
    for (key, value) in table {
        write!(out, "{key} = ")?;
        inline(value, turned, out)?;
        writeln!(out)?;
    }
    Ok(())
}

fn inline(value: &Value, turned: usize, out: &mut String) -> fmt::Result {
    match value {
        Value::Text(text) => write!(out, "\"{text}\""),
        Value::Count(count) => write!(out, "{count}"),
        Value::Bare(number) => write!(out, "{number}"),
        Value::Flag(flag) => write!(out, "{flag}"),
        Value::Measure(measure) => {
            let measure = in_another_unit(*measure, turned);
            // All digits: what is rounded here would be a difference that no unit makes.
            write!(out, "\"{} {}\"", measure.value(), measure.unit())
        }
        Value::List(values) => joined("[", values, "]", out, |value, out| inline(value, turned, out)),
        Value::Table(table) => joined("{ ", table, " }", out, |(key, value), out| {
            write!(out, "{key} = ")?;
            inline(value, turned, out)
        }),
    }
}

fn joined<T>(open: &str, items: &[T], close: &str, out: &mut String, item: impl Fn(&T, &mut String) -> fmt::Result) -> fmt::Result {
    out.write_str(open)?;
    for (index, one) in items.iter().enumerate() {
        out.write_str(if index == 0 { "" } else { ", " })?;
        item(one, out)?;
    }
    out.write_str(close)
}

fn in_another_unit(measure: Measure, turned: usize) -> Measure {
    // A ratio without a unit could be anything, so documents refuse it.
    let units: Vec<Unit> = measure.unit().dimension().units().filter(|unit| *unit != Unit::One).collect();
    let drawn = units.iter().position(|unit| *unit == measure.unit()).unwrap_or(0);
    let unit = units.get((drawn + turned) % units.len().max(1)).copied().unwrap_or(measure.unit());
    measure.to(unit).unwrap_or(measure)
}
