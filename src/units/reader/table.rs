//! A table with known keys.

use super::fault::{FaultKind, Faults};
use super::field::Field;
use super::node::Node;
use super::place::Place;
use crate::units::nearest;
use std::cell::RefCell;
use std::collections::HashSet;
use std::error::Error;
use std::sync::Arc;

/// A table that remembers which keys it was asked for.
pub(crate) struct TableReader<'p> {
    entries: &'p [(String, Node)],
    line: Option<u32>,
    place: Place<'p>,
    faults: &'p Faults,
    known: RefCell<Vec<&'static str>>,
    taken: RefCell<HashSet<&'p str>>,
}

impl<'p> TableReader<'p> {
    pub(super) fn new(entries: &'p [(String, Node)], line: Option<u32>, place: Place<'p>, faults: &'p Faults) -> Self {
        Self { entries, line, place, faults, known: RefCell::default(), taken: RefCell::default() }
    }

    /// The value of a key that may be absent.
    pub(crate) fn optional(&self, key: &'static str) -> Field<'_> {
        self.know([key]);
        let node = self.entries.iter().find(|(name, _)| name == key).map(|(_, node)| node);
        Field::new(node, self.place.key(key), self.faults)
    }

    /// The value of a key that must be there; `example` says how it could be written.
    pub(crate) fn required(&self, key: &'static str, example: &'static str) -> Field<'_> {
        let field = self.optional(key);
        if !field.is_present() {
            self.fault(|| FaultKind::Missing { key, example });
        }
        field
    }

    /// The one that is there of keys that exclude each other.
    pub(crate) fn one_of<const N: usize>(&self, keys: [&'static str; N]) -> Option<(&'static str, Field<'_>)> {
        let present = || keys.iter().map(|key| (*key, self.optional(key))).filter(|(_, field)| field.is_present());
        if present().count() > 1 {
            self.fault(|| FaultKind::Exclusive { keys: present().map(|(key, _)| key).collect() });
        }
        present().next()
    }

    /// The values of keys that `find` knows, among those nobody asked for yet; `known` are all it knows.
    pub(crate) fn others<K>(&self, find: impl Fn(&str) -> Option<K>, known: impl Iterator<Item = &'static str>) -> Vec<(K, Field<'_>)> {
        let asked = self.known.borrow().clone();
        self.know(known);
        let unasked = self.entries.iter().filter(|(key, _)| !asked.contains(&key.as_str()));
        let found = unasked.filter_map(|(key, node)| Some((key, find(key)?, node)));
        found
            .map(|(key, what, node)| {
                self.taken.borrow_mut().insert(key);
                (what, Field::new(Some(node), self.place.key(key), self.faults))
            })
            .collect()
    }

    /// Notes a fault of the whole table.
    pub(crate) fn fault(&self, kind: impl FnOnce() -> FaultKind) {
        self.faults.note(&self.place, self.line, kind);
    }

    /// The value, or nothing with its error noted as a fault of the whole table.
    pub(crate) fn accept<T, E: Error + Send + Sync + 'static>(&self, result: Result<T, E>) -> Option<T> {
        result.map_err(|error| self.fault(|| FaultKind::Refused(Arc::new(error)))).ok()
    }

    /// Lets every key pass: what may stand here hangs on a value that could not be read.
    pub(crate) fn excuse_others(&self) {
        self.taken.borrow_mut().extend(self.entries.iter().map(|(key, _)| key.as_str()));
    }

    /// Notes the keys nobody asked for, and those that stand here twice.
    pub(super) fn finish(self) {
        let (known, taken) = (self.known.borrow(), self.taken.borrow());
        let mut seen = HashSet::new();
        for (key, node) in self.entries {
            let note = |kind: &dyn Fn() -> FaultKind| self.faults.note(&self.place, node.line, kind);
            if !seen.insert(key.as_str()) {
                note(&|| FaultKind::RepeatedKey { key: key.clone() });
            } else if !known.contains(&key.as_str()) && !taken.contains(key.as_str()) {
                note(&|| {
                    let nearest = nearest(key, known.iter().copied(), 1).first().map(ToString::to_string);
                    FaultKind::UnknownKey { key: key.clone(), nearest, known: known.clone() }
                });
            }
        }
    }

    fn know(&self, keys: impl IntoIterator<Item = &'static str>) {
        let mut known = self.known.borrow_mut();
        for key in keys {
            if !known.contains(&key) {
                known.push(key);
            }
        }
    }
}
