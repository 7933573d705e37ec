//! JSON into the neutral tree, with the line of every key.

use super::fault::{Fault, FaultKind};
use super::node::{Node, Value};
use serde::de::{DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use std::cell::Cell;
use std::fmt;
use std::io::{self, Read};

/// Reads a JSON text. Its parser bounds how deep values nest.
pub(super) fn read(text: &str) -> Result<Node, Fault> {
    let line = Cell::new(1);
    let mut parser = serde_json::Deserializer::from_reader(CountingReader { rest: text.as_bytes(), line: &line });
    let read = NodeSeed { lines: &line }.deserialize(&mut parser).and_then(|node| parser.end().map(|()| node));
    read.map_err(|error| {
        let whole = error.to_string();
        let detail = whole.rsplit_once(" at line ").map_or(whole.as_str(), |(detail, _)| detail);
        Fault::of_document(u32::try_from(error.line()).ok(), FaultKind::syntax("JSON", Some(error.column()), detail))
    })
}

/// Hands out one byte at a time, as the parser asks for them, and counts the lines.
struct CountingReader<'t> {
    rest: &'t [u8],
    line: &'t Cell<u32>,
}

impl Read for CountingReader<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let (Some((first, rest)), Some(place)) = (self.rest.split_first(), buffer.first_mut()) else { return Ok(0) };
        *place = *first;
        self.rest = rest;
        self.line.set(self.line.get() + u32::from(*first == b'\n'));
        Ok(1)
    }
}

/// Reads the next value, of which the parser has seen the first character.
#[derive(Clone, Copy)]
struct NodeSeed<'t> {
    lines: &'t Cell<u32>,
}

impl<'de> DeserializeSeed<'de> for NodeSeed<'_> {
    type Value = Node;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Node, D::Error> {
        let line = Some(self.lines.get());
        Ok(Node { line, value: deserializer.deserialize_any(self)? })
    }
}

impl<'de> Visitor<'de> for NodeSeed<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_str<E>(self, text: &str) -> Result<Value, E> {
        Ok(Value::Text(text.to_owned()))
    }

    fn visit_i64<E>(self, number: i64) -> Result<Value, E> {
        Ok(Value::Number(number as f64))
    }

    fn visit_u64<E>(self, number: u64) -> Result<Value, E> {
        Ok(Value::Number(number as f64))
    }

    fn visit_f64<E>(self, number: f64) -> Result<Value, E> {
        Ok(Value::Number(number))
    }

    fn visit_bool<E>(self, flag: bool) -> Result<Value, E> {
        Ok(Value::Flag(flag))
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut elements: A) -> Result<Value, A::Error> {
        let mut nodes = Vec::new();
        while let Some(node) = elements.next_element_seed(self)? {
            nodes.push(node);
        }
        Ok(Value::List(nodes))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Value, A::Error> {
        let mut nodes = Vec::new();
        while let Some(key) = entries.next_key::<String>()? {
            let line = Some(self.lines.get());
            let value = entries.next_value_seed(self)?.value;
            nodes.push((key, Node { line, value }));
        }
        Ok(Value::Table(nodes))
    }
}
