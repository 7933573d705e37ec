//! Where a piece is sold, and the rows of law in force there.

use super::Bound;
use crate::law::{AdditiveSet, Book, Category, Region, Row, RowId, SalesName, Topic};
use crate::matter::Market;
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
    /// The rows in force, by question and market.
    in_force: Vec<Vec<InForce>>,
}

/// What a rule asks of the law of a market.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// What may bear this name?
    Name(SalesName),
    /// How much of any of these additives may be in this?
    Additives(AdditiveSet, Category),
    /// How much alcohol may be in it?
    Alcohol,
    /// What must be told on the label?
    Statements,
}

/// A row that answers a question, with what it comes to.
#[derive(Debug, Clone, Copy)]
struct InForce {
    id: RowId,
    /// Those it limits, so that most rows need not be looked up to be passed over.
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

impl Question {
    const COUNT: usize = SalesName::ALL.len() + Category::ALL.len() + 2;

    /// What a row answers.
    fn answered_by(row: &Row) -> impl Iterator<Item = Self> {
        let topic = row.topic();
        let names = row.names.iter().filter(move |_| topic == Topic::Names).map(Self::Name);
        let categories =
            row.categories.iter().filter(move |_| topic == Topic::Additives).map(|category| Self::Additives(row.additives, *category));
        let others = match topic {
            Topic::Alcohol => Some(Self::Alcohol),
            Topic::Statements => Some(Self::Statements),
            Topic::Names | Topic::Additives => None,
        };
        names.chain(categories).chain(others)
    }

    #[inline]
    const fn place(self, market: Market) -> usize {
        let question = match self {
            Self::Alcohol => 0,
            Self::Statements => 1,
            Self::Additives(_, category) => 2 + category as usize,
            Self::Name(name) => 2 + Category::ALL.len() + name as usize,
        };
        market as usize * Self::COUNT + question
    }
}

impl Sold {
    /// Where a piece is sold, as it is described.
    pub(super) fn of(piece: &Piece) -> Self {
        let mut in_force = vec![Vec::new(); Question::COUNT * Market::ALL.len()];
        let here = |row: &Row| piece.markets.contains(&row.market) && row.region.is_none_or(|region| piece.regions.contains(&region));
        for (id, row) in piece.law.iter().filter(|(_, row)| here(row)) {
            let bound = Bound::of_row(id, row);
            for question in Question::answered_by(row) {
                let answers = in_force.get_mut(question.place(row.market));
                answers.into_iter().for_each(|rows| rows.push(InForce { id, additives: row.additives, bound }));
            }
        }
        let (markets, regions) = (piece.markets.to_vec(), piece.regions.to_vec());
        Self { markets, regions, name: piece.sold_as, book: piece.law.clone(), in_force }
    }

    /// The rows that answer a question in a market.
    pub(super) fn rows(&self, question: Question, market: Market) -> impl Iterator<Item = RowInForce<'_>> {
        let (rows, book) = (self.in_force.get(question.place(market)).map_or(&[][..], Vec::as_slice), self.book.rows());
        let asked = move |row: &&InForce| match question {
            Question::Additives(any, _) => !row.additives.intersection(any).is_empty(),
            _ => true,
        };
        rows.iter().filter(asked).filter_map(|row| Some(RowInForce { row: book.get(row.id.place())?, bound: row.bound.as_ref() }))
    }
}
