//! Where a piece is sold, and the rows of law in force there.

use super::Bound;
use crate::law::{AdditiveSet, Book, NameSet, Region, Row, RowId, SalesName, Topic};
use crate::matter::{ChocolateKind, Market};
use crate::piece::Piece;
use crate::units::Choice;

/// Where a piece is sold and under what name, and the law it is held against.
#[derive(Debug, Clone, Default)]
pub struct Sold {
    /// The markets.
    pub markets: Vec<Market>,
    /// The parts of markets with a law of their own.
    pub regions: Vec<Region>,
    /// The name, where it is one the law reserves.
    pub name: Option<SalesName>,
    /// Every row of law.
    book: Book,
    /// The rows in force, by topic and market; of names those it may claim.
    in_force: [[Vec<InForce>; Market::ALL.len()]; Topic::ALL.len()],
}

/// What tells at a glance whether a row is asked for, and what it comes to, worked out once.
#[derive(Debug, Clone, Copy)]
struct InForce {
    id: RowId,
    names: NameSet,
    additives: AdditiveSet,
    bound: Option<Bound>,
}

/// A row of law that is in force where a piece is sold.
#[derive(Debug, Clone, Copy)]
pub struct RowInForce<'a> {
    /// The row.
    pub row: &'a Row,
    /// What is held against it; none where it sets no number.
    pub(super) bound: Option<&'a Bound>,
}

impl Sold {
    /// Where a piece is sold, as it is described.
    pub(super) fn of(piece: &Piece) -> Self {
        let here = |row: &Row| piece.markets.contains(&row.market) && row.region.is_none_or(|region| piece.regions.contains(&region));
        let usual =
            |row: &Row| ChocolateKind::ALL.iter().filter_map(|kind| SalesName::usual(*kind, row.market)).any(|name| row.names.holds(name));
        let claimed = |row: &Row| row.topic() != Topic::Names || piece.sold_as.is_some_and(|name| row.names.holds(name)) || usual(row);
        let mut sold = Self {
            markets: piece.markets.to_vec(),
            regions: piece.regions.to_vec(),
            name: piece.sold_as,
            book: piece.law.clone(),
            ..Self::default()
        };
        for (id, row) in piece.law.iter().filter(|(_, row)| here(row) && claimed(row)) {
            let (names, additives, bound) = (row.names, row.additives, Bound::of_row(id, row));
            let rows = sold.in_force.get_mut(row.topic() as usize).and_then(|rows| rows.get_mut(row.market as usize));
            rows.into_iter().for_each(|rows| rows.push(InForce { id, names, additives, bound }));
        }
        sold
    }

    /// The rows on a topic in a market that are asked for.
    #[inline]
    pub(super) fn rows(
        &self,
        topic: Topic,
        market: Market,
        asked: impl Fn(NameSet, AdditiveSet) -> bool,
    ) -> impl Iterator<Item = RowInForce<'_>> {
        let rows = self.in_force.get(topic as usize).and_then(|rows| rows.get(market as usize)).map_or(&[][..], Vec::as_slice);
        let asked = rows.iter().filter(move |row| asked(row.names, row.additives));
        asked.filter_map(|row| Some(RowInForce { row: self.book.row(row.id)?, bound: row.bound.as_ref() }))
    }
}
