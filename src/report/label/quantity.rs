//! The quantities of what a name, a word or a picture stresses.

use super::Line;
use super::ingredients::{Entry, percent};
use super::makeup::{self, Makeup};
use super::subject::Subject;
use crate::law::labelling::{self, LabelRule};
use crate::matter::{Ingredient, Market};
use std::sync::Arc;

/// A stressed ingredient and its quantity.
#[derive(Debug, Clone, PartialEq)]
pub struct StressedQuantity {
    /// Its name on the label.
    pub label: String,
    /// Mass that went in over the mass of the finished piece; above one where more was used than is left.
    pub share: f64,
    /// As it is declared: `12.3 %`, or `130 g per 100 g`.
    pub declared: String,
    /// The piece of a box whose name stresses it, and whose share it is.
    pub of: Option<String>,
}

/// The quantities to declare: of what the name of a piece stresses in that piece, of what the name of a box stresses in the box.
pub(super) fn quantities(subject: &Subject<'_>, market: Market) -> Line<Vec<StressedQuantity>> {
    let Some(row) = labelling::row(market, LabelRule::Quantity) else { return Line::no_rule("quantities of ingredients") };
    let mut line = Line::known(Vec::new()).by(&row.citation);
    if let Err(lacks) = add(&mut line, subject.stressed, subject.makeup(), None, if subject.is_box { "the box" } else { "the piece" }) {
        return Line::unknown(lacks);
    }
    for part in subject.parts.iter().filter(|_| subject.is_box) {
        if let Err(lacks) = add(&mut line, &part.piece.stressed, part.makeup.as_ref(), Some(&part.piece.name), "") {
            return Line::unknown(lacks);
        }
    }
    if line.value.iter().all(Vec::is_empty) && line.unknown.is_empty() {
        line.notes
            .push("no ingredient is named as stressed (stressed): where name, words or picture stress one, its quantity is due".into());
    }
    line
}

fn add(
    line: &mut Line<Vec<StressedQuantity>>,
    stressed: &[Arc<Ingredient>],
    makeup: Result<&Makeup, &String>,
    of: Option<&str>,
    whole: &str,
) -> Result<(), String> {
    if stressed.is_empty() {
        return Ok(());
    }
    let makeup = makeup.map_err(String::clone)?;
    for stressed in stressed {
        let Some(used) = makeup.uses.iter().find(|used| used.ingredient == *stressed) else {
            line.unknown.push(format!("{}: it is stressed, but no part of {} holds it", stressed.title, of.unwrap_or(whole)));
            continue;
        };
        if makeup::is_volatile(stressed) && used.boiled > 0.0 {
            line.unknown.push(format!("how much of {} is left after boiling", stressed.title));
            continue;
        }
        let share = used.mixed / makeup.finished;
        let Some(quantities) = &mut line.value else { continue };
        match quantities.iter_mut().find(|quantity| quantity.label == stressed.label && quantity.of.as_deref() == of) {
            Some(quantity) => {
                quantity.share += share;
                quantity.declared = declared(quantity.share);
            }
            None => quantities.push(StressedQuantity {
                label: stressed.label.clone(),
                share,
                declared: declared(share),
                of: of.map(str::to_owned),
            }),
        }
    }
    Ok(())
}

/// The quantity that stands with an entry of the list, where one is due of the whole and can be told.
pub(super) fn beside(subject: &Subject<'_>, entry: &Entry, quantities: &[StressedQuantity]) -> Option<String> {
    let stressed = subject.stressed.iter().find(|stressed| entry.ingredients.contains(&stressed.name))?;
    let quantity = quantities.iter().find(|quantity| quantity.label == stressed.label && quantity.of.is_none());
    quantity.map(|quantity| quantity.declared.clone())
}

/// Above 100 % the grams that went into 100 g are declared.
fn declared(share: f64) -> String {
    if share > 1.0 { format!("{} g per 100 g", percent(share).replace(" %", "")) } else { percent(share) }
}

impl StressedQuantity {
    /// `quince brandy 27.7 %`, in a box with the piece whose name stresses it.
    #[must_use]
    pub fn text(&self) -> String {
        match &self.of {
            Some(piece) => format!("{} {} of {piece}", self.label, self.declared),
            None => format!("{} {}", self.label, self.declared),
        }
    }
}
