//! The shell.

use super::chocolate::Poured;
use super::{Assessed, PartAssessment, Quantity};
use crate::piece::{Piece, Wall};
use crate::units::Checked;

/// The shell's chocolate as it is poured, if there is a shell.
pub(super) fn poured(piece: &Piece) -> Option<Poured<'_>> {
    piece.shell.as_ref().map(|shell| Poured {
        chocolate: &shell.chocolate,
        emulsifiers: &shell.emulsifiers,
        stirred_in: &shell.stirred_in,
        temper: shell.temper,
        temperature: piece.workshop.chocolate_temperature,
    })
}

pub(super) fn assess(piece: &Piece) -> PartAssessment {
    let mut part = PartAssessment::NOTHING;
    let (Some(shell), Some(poured)) = (&piece.shell, poured(piece)) else { return part };
    poured.assess(&mut part);
    // A chocolate looked at by itself has no wall to ask for.
    if piece.mould.is_some() || !piece.layers.is_empty() {
        let thickness = match shell.wall {
            Some(Wall::Thickness(thickness)) => Some(thickness.base()),
            _ => None,
        };
        part.put(Quantity::WallThickness, Assessed::declared_or(thickness, Quantity::WallThickness));
        part.put(Quantity::Casts, Assessed::declared(f64::from(shell.casts)));
    }
    part
}
