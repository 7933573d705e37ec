//! What the label of a piece, or of a box of several, must say, as far as it can be told: data for a printer, after a qualified person's check.
//!
//! Arithmetic on published rules, no advice. A line that something lacks for is unknown and says what; a market without a rule answers
//! unknown; what rests on rows from memory says so.

mod alcohol;
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
mod subject;
mod text;

pub use alcohol::AlcoholContent;
pub use allergens::{AllergenStatement, Due, Spared};
pub use cocoa::{CocoaDeclaration, cocoa_solids};
pub use ingredients::{Entry, Group, IngredientList, Named};
pub use makeup::{Film, Makeup, Use};
pub use net_quantity::NetQuantity;
pub use nutrition::{Nutrition, NutritionLine};
pub use quantity::StressedQuantity;
pub use statements::Statement;

use crate::assess::assess;
use crate::law::Citation;
use crate::law::labelling::{self, LabelRule};
use crate::matter::{Known, Market};
use crate::piece::{Assortment, Piece};
use crate::units::Choice;
use subject::Subject;

/// The label of a piece or a box in one market.
#[derive(Debug, Clone)]
pub struct Label {
    /// The piece or the box.
    pub piece: String,
    /// What a box holds: pieces and how many of each. Empty for a piece.
    pub holds: Vec<(String, u32)>,
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
    /// Its alcohol.
    pub alcohol: Line<AlcoholContent>,
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
    pub basis: Vec<Citation>,
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

    fn by(mut self, citation: &Citation) -> Self {
        if !self.basis.contains(citation) {
            self.basis.push(citation.clone());
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

/// The name; that chocolates of several kinds may bear one is a rule.
fn name_line(subject: &Subject<'_>, name: Option<&str>, market: Market) -> Line<String> {
    let Some(name) = name else { return Line::unknown("the name it is sold under (sold_as)") };
    let rule = labelling::row(market, LabelRule::Assortment).filter(|_| subject.is_box);
    rule.into_iter().fold(Line::known(name.to_owned()), |line, rule| line.by(&rule.citation))
}

impl Label {
    /// The label of a piece in a market.
    #[must_use]
    pub fn of(piece: &Piece, market: Market) -> Self {
        Self::sold_as(&Subject::piece(piece, &assess(piece)), piece.sold_as.map(Choice::key), market)
    }

    /// The labels of a piece in each of its markets.
    #[must_use]
    pub fn all(piece: &Piece) -> Vec<Self> {
        let assessment = assess(piece);
        let subject = Subject::piece(piece, &assessment);
        piece.markets.iter().map(|market| Self::sold_as(&subject, piece.sold_as.map(Choice::key), *market)).collect()
    }

    /// The label of a box in a market: one list of ingredients over all its pieces, and every allergen of any of them.
    #[must_use]
    pub fn of_box(assortment: &Assortment, market: Market) -> Self {
        Self::sold_as(&Subject::assortment(assortment), assortment.sold_as.as_deref(), market)
    }

    /// The labels of a box in each of its markets.
    #[must_use]
    pub fn all_of_box(assortment: &Assortment) -> Vec<Self> {
        let subject = Subject::assortment(assortment);
        assortment.markets.iter().map(|market| Self::sold_as(&subject, assortment.sold_as.as_deref(), *market)).collect()
    }

    fn sold_as(subject: &Subject<'_>, name: Option<&str>, market: Market) -> Self {
        let uses = subject.makeup().into_iter().flat_map(|makeup| &makeup.uses);
        let recalled = uses.filter(|used| used.ingredient.known == Known::Memory).map(|used| used.ingredient.title.clone());
        let quantities = quantity::quantities(subject, market);
        let stressed = quantities.value.as_deref().unwrap_or_default();
        Self {
            piece: subject.name.to_owned(),
            holds: subject.parts.iter().filter(|_| subject.is_box).map(|part| (part.piece.name.clone(), part.count)).collect(),
            market,
            name: name_line(subject, name, market),
            ingredients: ingredients::list(subject, stressed, market),
            allergens: allergens::statement(subject, market),
            cocoa: cocoa::declarations(subject, market),
            statements: statements::due(subject, market),
            alcohol: alcohol::content(subject, market),
            nutrition: nutrition::nutrition(subject, market),
            net_quantity: net_quantity::net_quantity(subject, market),
            recalled: recalled.collect(),
            quantities,
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
            && self.alcohol.is_complete()
            && self.nutrition.is_complete()
            && self.nutrition.value.iter().flat_map(|nutrition| &nutrition.lines).all(|line| line.unknown.is_empty())
            && self.net_quantity.is_complete()
    }
}
