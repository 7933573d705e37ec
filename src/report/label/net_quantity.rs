//! The net quantity: what a pack weighs, as far as the pieces' own mass is estimated.

use super::Line;
use super::subject::Subject;
use crate::law::labelling::{self, LabelRule};
use crate::matter::Market;

/// The net quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NetQuantity {
    /// The mass of one piece, in kilograms: an estimate, and of a box the mean.
    pub piece: f64,
    /// How many are sold together.
    pub pieces: u32,
}

impl NetQuantity {
    /// The mass of the pack, in kilograms.
    #[must_use]
    pub fn pack(&self) -> f64 {
        self.piece * f64::from(self.pieces)
    }
}

/// Kilograms of an avoirdupois ounce.
const OUNCE: f64 = 0.028_349_523_125;

pub(super) fn net_quantity(subject: &Subject<'_>, market: Market) -> Line<NetQuantity> {
    let makeup = match subject.makeup() {
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    let quantity = match subject.parts.as_slice() {
        [part] if !subject.is_box => {
            if part.piece.mould.is_none() {
                return Line::unknown("the mould, the shell and the layers");
            }
            let Some(pieces) = part.piece.pieces_in_pack else {
                let grams = makeup.finished * 1000.0;
                return Line::unknown(format!("how many pieces a pack holds (pieces_in_pack); one weighs about {grams:.1} g"));
            };
            NetQuantity { piece: makeup.finished, pieces }
        }
        parts => {
            let pieces = parts.iter().fold(0_u32, |all, part| all.saturating_add(part.count));
            NetQuantity { piece: makeup.finished / f64::from(pieces), pieces }
        }
    };
    let mut line = Line::known(quantity);
    line.notes.push("computed from the mould and the densities: what is declared must be weighed".into());
    let Some(row) = labelling::row(market, LabelRule::NetQuantity) else {
        line.unknown.push("how this market wants it declared: no rule is held here".into());
        return line;
    };
    if quantity.pack() < row.limit() {
        line.notes.push("below 5 g none need be declared".into());
    }
    if market == Market::Us {
        line.notes.push(format!("there in ounces and grams: {:.1} oz", quantity.pack() / OUNCE));
    }
    line.by(&row.citation)
}
