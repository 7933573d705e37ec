//! The quantities of what a name, a word or a picture stresses.

use super::Line;
use super::ingredients::{Entry, percent};
use super::makeup::{self, Makeup};
use crate::law::labelling::{self, LabelRule};
use crate::matter::Market;
use crate::piece::Piece;

/// A stressed ingredient and its quantity.
#[derive(Debug, Clone, PartialEq)]
pub struct StressedQuantity {
    /// Its name on the label.
    pub label: String,
    /// Mass that went in over the mass of the finished piece; above one where more was used than is left.
    pub share: f64,
    /// As it is declared: `12.3 %`, or `130 g per 100 g`.
    pub declared: String,
}

/// The quantities to declare.
pub(super) fn quantities(piece: &Piece, makeup: Result<&Makeup, &String>, market: Market) -> Line<Vec<StressedQuantity>> {
    let Some(row) = labelling::row(market, LabelRule::Quantity) else { return Line::no_rule("quantities of ingredients") };
    let makeup = match makeup {
        _ if piece.stressed.is_empty() => {
            let mut line = Line::known(Vec::new()).by(&row.citation);
            line.notes
                .push("no ingredient is named as stressed (stressed): where name, words or picture stress one, its quantity is due".into());
            return line;
        }
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    let mut line = Line::known(Vec::<StressedQuantity>::new()).by(&row.citation);
    for stressed in &piece.stressed {
        let Some(used) = makeup.uses.iter().find(|used| used.ingredient == *stressed) else {
            line.unknown.push(format!("{}: it is stressed, but no part of the piece holds it", stressed.title));
            continue;
        };
        if makeup::is_volatile(stressed) && used.boiled > 0.0 {
            line.unknown.push(format!("how much of {} is left after boiling", stressed.title));
            continue;
        }
        let share = used.mixed / makeup.finished;
        let Some(quantities) = &mut line.value else { continue };
        match quantities.iter_mut().find(|quantity| quantity.label == stressed.label) {
            Some(quantity) => {
                quantity.share += share;
                quantity.declared = declared(quantity.share);
            }
            None => quantities.push(StressedQuantity { label: stressed.label.clone(), share, declared: declared(share) }),
        }
    }
    line
}

/// The quantity that stands with an entry of the list, where one is due and can be told.
pub(super) fn beside(piece: &Piece, makeup: &Makeup, entry: &Entry, market: Market) -> Option<String> {
    let quantities = quantities(piece, Ok(makeup), market).value?;
    let stressed = piece.stressed.iter().find(|stressed| entry.ingredients.contains(&stressed.name))?;
    quantities.into_iter().find(|quantity| quantity.label == stressed.label).map(|quantity| quantity.declared)
}

/// Above 100 % the grams that went into 100 g are declared.
fn declared(share: f64) -> String {
    if share > 1.0 { format!("{} g per 100 g", percent(share).replace(" %", "")) } else { percent(share) }
}
