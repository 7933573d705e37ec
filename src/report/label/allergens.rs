//! The allergens of a piece or a box as its market wants them told.

use super::Line;
use super::subject::{Part, Subject};
use crate::assess::{Assessed, Quantity};
use crate::law::Citation;
use crate::law::allergen::{self, AllergenRow, Ruling, Wording};
use crate::matter::{Allergen, AllergenSet, EmulsifierKind, Exemption, Ingredient, Market};
use crate::units::{Checked, Choice};
use std::sync::Arc;

/// What must be told of allergens.
#[derive(Debug, Clone, PartialEq)]
pub struct AllergenStatement {
    /// How the market wants them told.
    pub wording: Wording,
    /// Those to declare, in the order of the list.
    pub due: Vec<Due>,
    /// Those that come in and need no declaration, in a form that is exempt.
    pub spared: Vec<Spared>,
    /// Those that come in and are not on the market's list.
    pub unlisted: Vec<Allergen>,
    /// Those handled on the same equipment and not inside.
    pub shared: Vec<Allergen>,
    /// Those it is promised to be free from and may hold all the same.
    pub broken_promises: Vec<Allergen>,
}

/// An allergen to declare.
#[derive(Debug, Clone, PartialEq)]
pub struct Due {
    /// Which.
    pub allergen: Allergen,
    /// The market's word: `hazelnut`.
    pub word: &'static str,
    /// Class and word: `nuts: hazelnut`.
    pub classed: String,
    /// When it must be declared, where not always.
    pub only_if: Option<&'static str>,
    /// The ingredients that bring it, by their names on a label.
    pub from: Vec<String>,
    /// Where it is written.
    pub citation: &'static Citation,
}

/// An allergen whose form is exempt.
#[derive(Debug, Clone, PartialEq)]
pub struct Spared {
    /// Which.
    pub allergen: Allergen,
    /// The ingredients that bring it, by their names on a label.
    pub from: Vec<String>,
    /// Where it is written.
    pub citation: &'static Citation,
}

impl AllergenStatement {
    /// The sentence for the label; nothing where none is due, or where the allergens are told within the ingredient list alone.
    #[must_use]
    pub fn sentence(&self) -> Option<String> {
        if self.due.is_empty() || matches!(self.wording, Wording::Emphasis | Wording::Named) {
            return None;
        }
        let words = self.due.iter().map(|due| match due.only_if {
            None => due.word.to_owned(),
            Some(condition) => format!("{} [only if {condition}]", due.word),
        });
        Some(format!("Contains: {}.", words.collect::<Vec<_>>().join(", ")))
    }

    /// The allergens to declare, each with its class, as the list has them.
    #[must_use]
    pub fn classed(&self) -> Vec<String> {
        let classed = |due: &Due| match due.only_if {
            None => due.classed.clone(),
            Some(condition) => format!("{} only if {condition}", due.classed),
        };
        self.due.iter().map(classed).collect()
    }
}

pub(super) fn statement(subject: &Subject<'_>, market: Market) -> Line<AllergenStatement> {
    let Some(list) = allergen::lists(market).next() else { return Line::no_rule("allergens") };
    let (brought, inside) = (subject.ingredients(), subject.allergens());
    let of_parts = |of: fn(&Part<'_>) -> AllergenSet| subject.parts.iter().fold(AllergenSet::EMPTY, |all, part| all.union(of(part)));
    let shared = of_parts(|part| part.piece.workshop.shared_equipment);
    // What the box promises, and what each piece does of itself.
    let of_box = subject.free_from.intersection(if subject.is_box { inside.union(shared) } else { AllergenSet::EMPTY });
    let mut statement = AllergenStatement {
        wording: list.wording,
        due: Vec::new(),
        spared: Vec::new(),
        unlisted: Vec::new(),
        shared: shared.without(inside).iter().collect(),
        broken_promises: of_box.union(of_parts(|part| part.assessment.broken_promises)).iter().collect(),
    };
    for allergen in inside.iter() {
        tell(&mut statement, &brought, market, allergen);
    }
    let mut line = Line::known(statement).by(&list.citation);
    for citation in line.value.iter().flat_map(citations).collect::<Vec<_>>() {
        line = line.by(citation);
    }
    for part in &subject.parts {
        if part.piece.layers.is_empty() && super::makeup::ingredients(part.piece).is_empty() {
            line.unknown.push(format!("what {} is made of: neither a shell nor a layer is described", part.piece.name));
        }
        if let Assessed::Missing(missing) = part.assessment.whole.get(Quantity::Ingredients) {
            let lacks = missing.iter().map(Quantity::ask).collect::<Vec<_>>().join("; ");
            let of = if subject.is_box { format!(" of {}", part.piece.name) } else { String::new() };
            line.unknown.push(format!("more may come in: {lacks}{of} lacks"));
        }
    }
    if brought.iter().any(|ingredient| has_lecithin_of_unknown_plant(ingredient)) {
        line.unknown.push("soy may come in: the plant of a lecithin lacks (source)".into());
    }
    if line.value.iter().any(|statement| !statement.shared.is_empty()) {
        line.notes.push(
            "what the equipment is shared with may come in by contact: whether that must be told follows from a risk assessment".into(),
        );
    }
    line.notes.extend(allergen::lists(market).map(|list| list.note).filter(|note| !note.is_empty()).map(str::to_owned));
    for part in subject.parts.iter().filter(|_| subject.is_box) {
        let lost = part.piece.free_from.intersection(inside.without(part.assessment.whole.allergens));
        if !lost.is_empty() {
            let lost: Vec<_> = lost.iter().map(Choice::key).collect();
            line.notes.push(format!("that {} is free from {} cannot be said of the box", part.piece.name, lost.join(", ")));
        }
    }
    line
}

/// Sorts one allergen: to be declared, exempt, or not listed.
fn tell(statement: &mut AllergenStatement, brought: &[Arc<Ingredient>], market: Market, allergen: Allergen) {
    // What is due in any form is due; where it is due without condition, the condition falls away.
    let (mut due, mut spared, mut listed): (Option<Due>, Option<Spared>, bool) = (None, None, false);
    for ingredient in brought.iter().filter(|ingredient| ingredient.allergens.holds(allergen)) {
        let from = || ingredient.label.clone();
        let mut add = |row: &AllergenRow, only_if: Option<&'static str>, citation: &'static Citation| match &mut due {
            Some(due) => {
                if !due.from.contains(&ingredient.label) {
                    due.from.push(from());
                }
                due.only_if = due.only_if.and(only_if);
            }
            None => due = Some(Due { allergen, word: row.word, classed: row.classed(), only_if, from: vec![from()], citation }),
        };
        match allergen::ruling(market, allergen, ingredient.exempt) {
            Ruling::Unknown | Ruling::NotListed => continue,
            Ruling::Declare(list, row) => add(row, None, &list.citation),
            Ruling::OnlyIf(_, row, condition, citation) => add(row, Some(condition), citation),
            Ruling::Exempt(exempted) => match &mut spared {
                Some(spared) => spared.from.push(from()),
                None => spared = Some(Spared { allergen, from: vec![from()], citation: &exempted.citation }),
            },
        }
        listed = true;
    }
    statement.due.extend(due);
    statement.spared.extend(spared);
    if !listed {
        statement.unlisted.push(allergen);
    }
}

fn citations(statement: &AllergenStatement) -> impl Iterator<Item = &'static Citation> {
    statement.due.iter().map(|due| due.citation).chain(statement.spared.iter().map(|spared| spared.citation))
}

/// Whether a chocolate's own emulsifier, or one stirred in, may be made from soy without saying so.
fn has_lecithin_of_unknown_plant(ingredient: &Ingredient) -> bool {
    let mut sheet = ingredient.chocolate.iter().flat_map(|sheet| &sheet.emulsifiers);
    let unnamed = sheet.any(|emulsifier| emulsifier.source.is_none() && emulsifier.dose.base() > 0.0);
    unnamed || ingredient.label == EmulsifierKind::Lecithin.words()
}

/// A name on a label with what must be emphasised of it in capitals, and the words so emphasised. What the name does not say stands after it
/// in brackets; so it does where a market wants allergens named and not emphasised.
pub(super) fn emphasised(market: Market, label: &str, allergens: AllergenSet, form: Option<Exemption>) -> (String, Vec<String>) {
    let (mut text, mut words, mut beside) = (label.to_owned(), Vec::new(), Vec::new());
    for allergen in allergens.iter() {
        let (Ruling::Declare(list, row) | Ruling::OnlyIf(list, row, ..)) = allergen::ruling(market, allergen, form) else { continue };
        if list.wording == Wording::Contains {
            continue;
        }
        let capitals = |word: &str| if list.wording == Wording::Named { word.to_owned() } else { word.to_uppercase() };
        match place(&text, &allergen.key().replace('-', " ")) {
            Some(range) => {
                let word = capitals(text.get(range.clone()).unwrap_or_default());
                text.replace_range(range, &word);
                words.push(word);
            }
            None => beside.push(capitals(row.word)),
        }
    }
    if !beside.is_empty() {
        text = format!("{text} ({})", beside.join(", "));
        words.extend(beside);
    }
    (text, words)
}

/// Where a word stands in a name, with its ending.
fn place(text: &str, word: &str) -> Option<std::ops::Range<usize>> {
    let start = text.to_lowercase().find(word)?;
    let begins = text.get(..start)?.chars().next_back().is_none_or(|before| !before.is_alphabetic());
    let rest = text.get(start + word.len()..)?;
    let ending = rest.find(|next: char| !next.is_alphabetic()).unwrap_or(rest.len());
    begins.then_some(start..start + word.len() + ending)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_name_says_is_emphasised_in_it_and_what_it_hides_stands_beside() {
        let set = |allergens: &[Allergen]| AllergenSet::of(allergens);
        let text = |label, allergens: &[Allergen]| emphasised(Market::Eu, label, set(allergens), None).0;
        assert_eq!(text("whole milk powder", &[Allergen::Milk]), "whole MILK powder");
        assert_eq!(text("hazelnuts", &[Allergen::Hazelnut]), "HAZELNUTS");
        assert_eq!(text("cream", &[Allergen::Milk]), "cream (MILK)");
        assert_eq!(text("buttermilk crumb", &[Allergen::Milk]), "buttermilk crumb (MILK)");
        assert_eq!(text("wafer flakes", &[Allergen::Wheat, Allergen::Soy]), "wafer flakes (SOYBEANS, WHEAT)");
        assert_eq!(text("pine nuts", &[Allergen::PineNut]), "pine nuts", "no allergen of the EU list");
        assert_eq!(emphasised(Market::Jp, "cream", set(&[Allergen::Milk]), None).0, "cream (milk)", "named, in no capitals");
        assert_eq!(emphasised(Market::Us, "cream", set(&[Allergen::Milk]), None).0, "cream", "told after the list");
    }
}
