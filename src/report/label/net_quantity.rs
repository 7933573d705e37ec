//! The net quantity: what a pack weighs, as far as the piece's own mass is estimated.

use super::Line;
use super::makeup::Makeup;
use crate::law::labelling::{self, LabelRule};
use crate::matter::Market;
use crate::piece::Piece;

/// The net quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NetQuantity {
    /// The mass of one piece, in kilograms: an estimate.
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

pub(super) fn net_quantity(piece: &Piece, makeup: Result<&Makeup, &String>, market: Market) -> Line<NetQuantity> {
    let makeup = match makeup {
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    if piece.mould.is_none() {
        return Line::unknown("the mould, the shell and the layers");
    }
    let Some(pieces) = piece.pieces_in_pack else {
        let grams = makeup.finished * 1000.0;
        return Line::unknown(format!("how many pieces a pack holds (pieces_in_pack); one weighs about {grams:.1} g"));
    };
    let quantity = NetQuantity { piece: makeup.finished, pieces };
    let mut line = Line::known(quantity);
    line.notes.push("computed from the mould and the densities: what is declared must be weighed".into());
    match labelling::row(market, LabelRule::NetQuantity) {
        Some(row) => {
            if quantity.pack() < row.limit() {
                line.notes.push("below 5 g none need be declared".into());
            }
            line.by(&row.citation)
        }
        None => {
            line.unknown.push("how this market wants it declared: no rule is held here".into());
            line
        }
    }
}
