//! What the label of a piece must say, as far as it can be told from the piece: data for a printer, after a qualified person's check.
//!
//! Arithmetic on published rules, no advice. A line that something lacks for is unknown and says what; a market without a rule answers
//! unknown; what rests on rows from memory says so.

mod allergens;
mod cocoa;
mod ingredients;
#[cfg(feature = "documents")]
mod json;
mod makeup;
mod net_quantity;
mod nutrition;
mod quantity;
mod statements;
mod text;

pub use allergens::{AllergenStatement, Due, Spared};
pub use cocoa::{CocoaDeclaration, cocoa_solids};
pub use ingredients::{Entry, IngredientList, Named};
pub use makeup::{Film, Makeup, Use};
pub use net_quantity::NetQuantity;
pub use nutrition::{Nutrition, NutritionLine};
pub use quantity::StressedQuantity;
pub use statements::Statement;

use crate::assess::{Assessment, assess};
use crate::law::Citation;
use crate::matter::{Known, Market};
use crate::piece::Piece;
use crate::units::Choice;

/// The label of a piece in one market.
#[derive(Debug, Clone)]
pub struct Label {
    /// The piece.
    pub piece: String,
    /// The market.
    pub market: Market,
    /// The name it is sold under.
    pub name: Line<String>,
    /// What it is made of.
    pub ingredients: Line<IngredientList>,
    /// Its allergens.
    pub allergens: Line<AllergenStatement>,
    /// The quantities of what is stressed.
    pub quantities: Line<Vec<StressedQuantity>>,
    /// The cocoa of its chocolates.
    pub cocoa: Line<Vec<CocoaDeclaration>>,
    /// Statements that are due.
    pub statements: Line<Vec<Statement>>,
    /// Its nutrition, estimated from its composition.
    pub nutrition: Line<Nutrition>,
    /// Its net quantity.
    pub net_quantity: Line<NetQuantity>,
    /// Ingredients whose figures are recalled and were not read: titles.
    pub recalled: Vec<String>,
}

/// A line of a label: its value, or what lacks to tell it.
#[derive(Debug, Clone, PartialEq)]
pub struct Line<T> {
    /// The value, if it can be told.
    pub value: Option<T>,
    /// What lacks: of the whole line if it has no value, else of what is still open in it.
    pub unknown: Vec<String>,
    /// Where the rules it follows are written.
    pub basis: Vec<&'static Citation>,
    /// What to mind.
    pub notes: Vec<String>,
}

impl<T> Line<T> {
    fn known(value: T) -> Self {
        Self { value: Some(value), unknown: Vec::new(), basis: Vec::new(), notes: Vec::new() }
    }

    fn unknown(lacks: impl Into<String>) -> Self {
        Self { value: None, unknown: vec![lacks.into()], basis: Vec::new(), notes: Vec::new() }
    }

    /// For want of a rule of the market.
    fn no_rule(what: &str) -> Self {
        Self::unknown(format!("no rule of this market on {what} is held here"))
    }

    fn by(mut self, citation: &'static Citation) -> Self {
        if !self.basis.contains(&citation) {
            self.basis.push(citation);
        }
        self
    }

    /// Whether a rule it follows is recalled and was not read.
    #[must_use]
    pub fn is_recalled(&self) -> bool {
        self.basis.iter().any(|citation| citation.known == Known::Memory)
    }

    /// Whether it says all that it must.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.value.is_some() && self.unknown.is_empty()
    }
}

impl Label {
    /// The label of a piece in a market.
    #[must_use]
    pub fn of(piece: &Piece, market: Market) -> Self {
        Self::assessed(piece, &assess(piece), market)
    }

    /// The labels of a piece in each of its markets.
    #[must_use]
    pub fn all(piece: &Piece) -> Vec<Self> {
        let assessment = assess(piece);
        piece.markets.iter().map(|market| Self::assessed(piece, &assessment, *market)).collect()
    }

    fn assessed(piece: &Piece, assessment: &Assessment, market: Market) -> Self {
        let makeup = Makeup::of(piece, assessment);
        let recalled = makeup.iter().flat_map(|makeup| &makeup.uses).filter(|used| used.ingredient.known == Known::Memory);
        Self {
            piece: piece.name.clone(),
            market,
            name: piece
                .sold_as
                .map_or_else(|| Line::unknown("the name it is sold under (sold_as)"), |name| Line::known(name.key().to_owned())),
            ingredients: ingredients::list(piece, makeup.as_ref(), market),
            allergens: allergens::statement(piece, assessment, market),
            quantities: quantity::quantities(piece, makeup.as_ref(), market),
            cocoa: cocoa::declarations(piece, market),
            statements: statements::due(makeup.as_ref(), market),
            nutrition: nutrition::nutrition(makeup.as_ref(), market),
            net_quantity: net_quantity::net_quantity(piece, makeup.as_ref(), market),
            recalled: recalled.map(|used| used.ingredient.title.clone()).collect(),
        }
    }

    /// Whether every line says all that it must.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.name.is_complete()
            && self.ingredients.is_complete()
            && self.allergens.is_complete()
            && self.quantities.is_complete()
            && self.cocoa.is_complete()
            && self.statements.is_complete()
            && self.nutrition.is_complete()
            && self.nutrition.value.iter().flat_map(|nutrition| &nutrition.lines).all(|line| line.unknown.is_empty())
            && self.net_quantity.is_complete()
    }
}
