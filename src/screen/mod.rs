//! Many variants of one piece, or many pieces, assessed and judged in numbers: a row each, as they come, in constant memory.
//!
//! Nothing is put in words and nothing is kept, so that millions of candidates can be looked through; of a row that is worth it, make a
//! report by [`crate::check`]. With the feature `parallel` blocks of rows are shared out among threads; the rows and their order stay the same.
#![cfg_attr(feature = "documents", doc = "```")]
#![cfg_attr(not(feature = "documents"), doc = "```ignore")]
//! use cordial::engine::Verdict;
//! use cordial::piece::Knob;
//! use cordial::screen::{Axis, Plan, Screen};
//! use cordial::{Document, rules};
//!
//! let document = Document::parse(
//!     r#"
//!     format = 1
//!     [[piece]]
//!     name = "orange ganache"
//!     mould = { shape = "hemisphere", diameter = "28 mm" }
//!     shell = { chocolate = "dark-couverture-64", thickness = "2 mm" }
//!     [[piece.layer]]
//!     name = "ganache"
//!     fill_to = "2 mm"
//!     recipe = [{ ingredient = "cream-36", mass = "200 g" }, { ingredient = "dark-couverture-64", mass = "420 g" }]
//!     [piece.cap]
//!     "#,
//! )?;
//! let piece = &document.pieces()[0];
//! let plan = Plan::grid(vec![
//!     (Axis { knob: Knob::FillDepth(0), least: 0.0005, most: 0.003 }, 6),
//!     (Axis { knob: Knob::IngredientMass(0, 0), least: 0.1, most: 0.3 }, 5),
//! ])?;
//! let screen = Screen::new(piece, &rules::built_in())?.with_margin("headroom.min")?;
//! let rows: Vec<_> = screen.rows(&plan).collect();
//! assert_eq!(rows.len(), 30);
//! // The filling poured almost to the rim fails.
//! assert_eq!(rows[0].found.as_ref().map(|found| found.verdict), Some(Verdict::Fail));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod plan;
mod row;
mod trial;

pub use plan::{Axis, Plan, PlanError};
pub use row::{Found, Row};

use crate::assess::{Part, Quantity};
use crate::engine::{Card, Gauge, RuleSet, RuleSetError};
use crate::piece::{Knob, Piece};
use row::Few;
use trial::Trial;

/// How many rows are made at a time.
const BLOCK: usize = 4096;
/// So many candidates are enough work to be worth a thread.
#[cfg(feature = "parallel")]
const A_THREADS_WORTH: usize = 256;

/// What variants of a piece are screened for.
#[derive(Clone)]
pub struct Screen<'a> {
    piece: &'a Piece,
    gauge: Gauge,
    /// By the place of each limit, whether the maker accepts what its rule finds, short of a failure.
    accepted: Vec<bool>,
    estimates: Vec<(Part, Quantity)>,
    limits: Vec<usize>,
}

/// A limit asked for that no rule has.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no limit is called `{key}`: `cargo run --example rule_book` lists them")]
pub struct UnknownLimit {
    /// The key given.
    pub key: String,
}

impl<'a> Screen<'a> {
    /// A screen by a set of rules, with the limits of this piece.
    ///
    /// # Errors
    /// [`RuleSetError`] when the piece names a profile, a limit or a rule that is not there.
    pub fn new(piece: &'a Piece, rules: &RuleSet) -> Result<Self, RuleSetError> {
        let gauge = Gauge::new(rules, &rules.bounds(piece)?);
        let names = |card: &Card, rule: &str| card.id == rule || card.aliases.contains(&rule);
        let accepted = gauge.limits().iter().map(|(card, _)| piece.allow.iter().any(|allowed| names(card, &allowed.rule))).collect();
        Ok(Self { piece, gauge, accepted, estimates: Vec::new(), limits: Vec::new() })
    }

    /// With what is assessed of a quantity in every row.
    #[must_use]
    pub fn with_estimate(mut self, part: Part, quantity: Quantity) -> Self {
        self.estimates.push((part, quantity));
        self
    }

    /// With how a limit is met in every row.
    ///
    /// # Errors
    /// [`UnknownLimit`] when no rule has it.
    pub fn with_margin(mut self, key: &str) -> Result<Self, UnknownLimit> {
        self.limits.push(self.gauge.place(key).ok_or_else(|| UnknownLimit { key: key.to_owned() })?);
        Ok(self)
    }

    /// One row for each candidate of a plan, in order. To go on where another run was left, skip the rows there are: those left out by
    /// [`Rows::from`] cost nothing.
    #[must_use]
    pub fn rows<'s>(&'s self, plan: &'s Plan) -> Rows<'s> {
        Rows { screen: self, plan, next: 0, block: Vec::new().into_iter() }
    }

    /// One row for each of many settings of the same knobs, which come from anywhere: a table, a search, another program. Each holds what
    /// the knobs are turned to, in their order and in the base unit ([`Unit::to_base`](crate::units::Unit::to_base)); one that holds more or
    /// fewer makes no piece.
    pub fn turned<'s>(
        &'s self,
        knobs: &'s [Knob],
        settings: impl IntoIterator<Item: AsRef<[f64]>, IntoIter: 's>,
    ) -> impl Iterator<Item = Row> + 's {
        let settings = settings.into_iter().map(|settings| Few::from_slice(settings.as_ref()));
        blocks(settings).flat_map(move |(first, block)| {
            let one = |trial: &mut Trial<'_>, at: usize| {
                let settings = block.get(at).cloned().unwrap_or_default();
                let found = if settings.len() == knobs.len() { trial.turned(&settings) } else { None };
                Row { index: first + at as u64, settings, found }
            };
            self.block(block.len(), || Trial::new(self, Some(knobs)), one)
        })
    }

    /// One row for each of many pieces, which need have nothing in common; they are judged by the limits of the piece the screen was made for.
    pub fn pieces<'s>(&'s self, pieces: impl IntoIterator<Item = Piece, IntoIter: 's>) -> impl Iterator<Item = Row> + 's {
        blocks(pieces.into_iter()).flat_map(move |(first, block)| {
            let one = |trial: &mut Trial<'_>, at: usize| {
                let found = block.get(at).map(|piece| trial.of(piece));
                Row { index: first + at as u64, settings: Few::new(), found }
            };
            self.block(block.len(), || Trial::new(self, None), one)
        })
    }

    /// Rows of a block, each by a trial that is used for many of them; on threads where that pays.
    fn block<'t>(
        &self,
        count: usize,
        trial: impl Fn() -> Trial<'t> + Sync + Send,
        one: impl Fn(&mut Trial<'t>, usize) -> Row + Sync + Send,
    ) -> Vec<Row> {
        #[cfg(feature = "parallel")]
        if count >= 2 * A_THREADS_WORTH && rayon::current_num_threads() > 1 {
            use rayon::prelude::*;
            let rows = (0..count).into_par_iter().with_min_len(A_THREADS_WORTH);
            return rows.map_init(trial, one).collect();
        }
        let mut trial = trial();
        (0..count).map(|at| one(&mut trial, at)).collect()
    }
}

/// What comes, in blocks, each with the place of its first.
fn blocks<T>(mut all: impl Iterator<Item = T>) -> impl Iterator<Item = (u64, Vec<T>)> {
    let mut first = 0;
    std::iter::from_fn(move || {
        let block: Vec<T> = all.by_ref().take(BLOCK).collect();
        let from = first;
        first += block.len() as u64;
        (!block.is_empty()).then_some((from, block))
    })
}

/// The rows of a plan.
pub struct Rows<'s> {
    screen: &'s Screen<'s>,
    plan: &'s Plan,
    next: u64,
    block: std::vec::IntoIter<Row>,
}

impl Rows<'_> {
    /// The rows from this one on.
    #[must_use]
    pub fn from(self, index: u64) -> Self {
        Self { next: index, block: Vec::new().into_iter(), ..self }
    }
}

impl Iterator for Rows<'_> {
    type Item = Row;

    fn next(&mut self) -> Option<Row> {
        if let Some(row) = self.block.next() {
            return Some(row);
        }
        let first = self.next;
        let count = usize::try_from(self.plan.count().saturating_sub(first)).unwrap_or(BLOCK).min(BLOCK);
        let knobs: Vec<Knob> = self.plan.axes().map(|axis| axis.knob).collect();
        let rows = self.screen.block(
            count,
            || Trial::new(self.screen, Some(&knobs)),
            |trial, at| {
                let index = first + at as u64;
                let settings = self.plan.settings(index);
                let found = trial.turned(&settings);
                Row { index, settings, found }
            },
        );
        self.next += count as u64;
        self.block = rows.into_iter();
        self.block.next()
    }
}
