//! The cap.

use super::chocolate::Poured;
use super::{Assessed, PartAssessment, Quantity, shell};
use crate::piece::{Cap, Piece};
use crate::units::Checked;

/// The cap's chocolate as it is poured: the shell's, unless another is named.
pub(super) fn poured(piece: &Piece) -> Option<Poured<'_>> {
    let shell = shell::poured(piece);
    let Some(cap) = &piece.cap else { return shell };
    let temper = cap.temper.or(shell.and_then(|shell| shell.temper));
    let temperature = piece.workshop.chocolate_temperature;
    match (&cap.chocolate, shell) {
        (Some(chocolate), _) => {
            Some(Poured { chocolate, emulsifiers: &cap.emulsifiers, stirred_in: &cap.stirred_in, seed: None, temper, temperature })
        }
        (None, Some(shell)) => {
            let emulsifiers = if cap.emulsifiers.is_empty() { shell.emulsifiers } else { &cap.emulsifiers };
            let stirred_in = if cap.stirred_in.is_empty() { shell.stirred_in } else { &cap.stirred_in };
            Some(Poured { emulsifiers, stirred_in, temper, ..shell })
        }
        (None, None) => None,
    }
}

/// Whether its chocolate is mixed apart from the shell's.
pub(super) fn is_mixed_apart(cap: &Cap) -> bool {
    cap.chocolate.is_some() || !cap.emulsifiers.is_empty() || !cap.stirred_in.is_empty()
}

/// What follows from the cap's own description. Where it is poured from the shell's chocolate with nothing of its own, the chocolate is
/// judged once, with the shell.
pub(super) fn assess(piece: &Piece, part: &mut PartAssessment) {
    part.clear();
    let Some(cap) = &piece.cap else { return };
    if let (true, Some(poured)) = (is_mixed_apart(cap) || cap.temper.is_some(), poured(piece)) {
        poured.assess(part);
    }
    part.put(Quantity::CapThickness, Assessed::declared_or(cap.thickness.map(Checked::base), Quantity::CapThickness));
    part.put(Quantity::Coats, Assessed::declared(f64::from(cap.coats)));
}
