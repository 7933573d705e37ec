//! What could not be judged, gathered by what must be told to settle it.

use super::Report;
use crate::assess::{Part, Quantity, QuantitySet};

/// Rules that wait for the same.
pub(super) struct Group {
    missing: QuantitySet,
    /// The table of the document in which all of it is told, if it is one.
    table: Option<&'static str>,
    /// The layers that lack it.
    layers: Vec<String>,
    /// The rules that wait for it.
    pub(super) rules: Vec<&'static str>,
}

/// The groups, those that settle most first.
pub(super) fn groups(report: &Report) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for unknown in &report.unknown {
        let table = table_of(unknown.missing);
        let same = |group: &Group| match table {
            Some(_) => group.table == table,
            None => asks(group.missing).eq(asks(unknown.missing)),
        };
        let index = groups.iter().position(same).unwrap_or_else(|| {
            groups.push(Group { missing: QuantitySet::default(), table, layers: Vec::new(), rules: Vec::new() });
            groups.len() - 1
        });
        let Some(group) = groups.get_mut(index) else { continue };
        group.missing = group.missing.union(unknown.missing);
        let layer = report.part_name(unknown.part);
        if table.is_none() && matches!(unknown.part, Part::Layer(_)) && !group.layers.iter().any(|known| known == layer) {
            group.layers.push(layer.to_owned());
        }
        if !group.rules.contains(&unknown.rule.id) {
            group.rules.push(unknown.rule.id);
        }
    }
    groups.sort_by_key(|group| (!group.is_tellable(), std::cmp::Reverse(group.rules.len())));
    groups
}

impl Group {
    /// Whether anybody can tell it.
    pub(super) fn is_tellable(&self) -> bool {
        self.missing != QuantitySet::of(Quantity::SucroseSupersaturation)
    }

    /// What lacks, and where it is written; with an example of the line if so wished.
    pub(super) fn lacking(&self, example: bool) -> String {
        let told = |quantity: Quantity| {
            let lined = quantity.ask().contains(" = ") || quantity.ask().contains('`');
            if self.table.is_some() || lined && !example { plain(quantity) } else { quantity.ask() }
        };
        let mut asks: Vec<_> = self.missing.iter().map(told).collect();
        asks.dedup();
        let placed = asks.last().is_some_and(|ask| ask.ends_with(')'));
        let place = match (self.table, self.layers.as_slice()) {
            (Some(table), _) => format!(" ({table})"),
            (None, []) => String::new(),
            (None, _) if placed => String::new(),
            (None, layers) => format!(" ({})", layers.join(", ")),
        };
        format!("{}{place}", asks.join(", "))
    }
}

/// What is asked for, each once.
fn asks(missing: QuantitySet) -> impl Iterator<Item = &'static str> {
    let mut before = "";
    missing.iter().map(Quantity::ask).filter(move |ask| std::mem::replace(&mut before, ask) != *ask)
}

/// The one table of the document in which all of this is told.
fn table_of(missing: QuantitySet) -> Option<&'static str> {
    let mut tables = missing.iter().map(table);
    let first = tables.next()??;
    tables.all(|table| table == Some(first)).then_some(first)
}

/// The table that the ask of a quantity names first, in brackets.
fn table(quantity: Quantity) -> Option<&'static str> {
    let (_, place) = quantity.ask().rsplit_once('(')?;
    let table = place.split([',', ')']).next()?;
    ["workshop", "storage", "batch"].into_iter().find(|known| *known == table)
}

/// The ask without where it is written.
fn plain(quantity: Quantity) -> &'static str {
    quantity.ask().rsplit_once(" (").map_or(quantity.ask(), |(ask, _)| ask)
}
