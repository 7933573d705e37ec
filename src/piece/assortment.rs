//! A box of several pieces, sold together.

use super::Piece;
use crate::matter::{AllergenSet, Ingredient, Market};
use smallvec::SmallVec;
use std::sync::Arc;

/// A box that holds so many of each piece.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Assortment {
    /// What it is called.
    pub name: String,
    /// The name it is sold under: `assorted filled chocolates`.
    pub sold_as: Option<String>,
    /// Where it is sold.
    pub markets: SmallVec<[Market; 4]>,
    /// The allergens its seller promises it is free from.
    pub free_from: AllergenSet,
    /// The ingredients that the name of the box, its words or its picture stress.
    pub stressed: Vec<Arc<Ingredient>>,
    /// What it holds.
    pub held: Vec<Held>,
}

/// A piece and how many of it a box holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// The piece, which many boxes may share.
    pub piece: Arc<Piece>,
    /// How many, at least one.
    pub count: u32,
}
