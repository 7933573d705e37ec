//! The label as data.

use super::{AllergenStatement, IngredientList, Label, Line, Named, NutritionLine};
use crate::law::Citation;
use crate::law::nutrition::Rounded;
use crate::matter::{Allergen, Market};
use crate::units::Choice;
use serde_json::{Value, json};

impl Label {
    /// The label in the form that programs read. Shares are fractions, masses grams; a line without `value` could not be told.
    #[must_use]
    pub fn to_json(&self) -> Value {
        json!({
            "piece": self.piece,
            "holds": self.holds.iter().map(|(piece, count)| json!({ "piece": piece, "count": count })).collect::<Vec<_>>(),
            "market": self.market.key(),
            "complete": self.is_complete(),
            "name": line(&self.name, |name| json!(name)),
            "ingredients": line(&self.ingredients, ingredients),
            "allergens": line(&self.allergens, allergens),
            "quantities": line(&self.quantities, |all| all.iter().map(|quantity| json!({
                "label": quantity.label, "share": rounded(quantity.share), "declared": quantity.declared, "of": quantity.of,
            })).collect()),
            "cocoa": line(&self.cocoa, |all| all.iter().map(|cocoa| json!({
                "chocolate": cocoa.chocolate, "solids": rounded(cocoa.solids), "declared": cocoa.declared, "milk": cocoa.milk,
            })).collect()),
            "statements": line(&self.statements, |all| all.iter().map(|statement| json!({
                "about": statement.about, "share": rounded(statement.share), "words": statement.words,
            })).collect()),
            "alcohol": line(&self.alcohol, |alcohol| json!({
                "ethanol": rounded(alcohol.ethanol * 1000.0), "unit": "g", "by_mass": rounded(alcohol.by_mass),
                "by_volume": alcohol.by_volume.map(rounded), "litres_per_100_kg": rounded(alcohol.litres_per_100_kilograms()),
            })),
            "nutrition": line(&self.nutrition, |nutrition| json!({
                "per": nutrition.per,
                "lines": nutrition.lines.iter().map(nutrient).collect::<Vec<_>>(),
            })),
            "net_quantity": line(&self.net_quantity, |net| json!({
                "piece": rounded(net.piece * 1000.0), "pieces": net.pieces, "pack": rounded(net.pack() * 1000.0), "unit": "g",
            })),
            "recalled_figures_of": self.recalled,
            "cautions": super::text::CAUTIONS,
        })
    }
}

fn line<T>(line: &Line<T>, value: impl FnOnce(&T) -> Value) -> Value {
    json!({
        "value": line.value.as_ref().map(value),
        "unknown": line.unknown,
        "basis": line.basis.iter().map(citation).collect::<Vec<_>>(),
        "notes": line.notes,
    })
}

fn citation(citation: &Citation) -> Value {
    json!({
        "instrument": citation.instrument,
        "section": citation.section,
        "known": citation.known.key(),
        "address": (!citation.address.is_empty()).then_some(&citation.address),
    })
}

fn ingredients(list: &IngredientList) -> Value {
    let entry = |entry: &super::Entry| {
        json!({
            "named": named(&entry.named, &entry.own(), list.market),
            "contains": entry.contains.iter().map(|part| named(part, part, list.market)).collect::<Vec<_>>(),
            "share": rounded(entry.share),
            "quantity": entry.quantity,
            "ingredients": entry.ingredients,
            "group": entry.group.key(),
        })
    };
    json!({
        "text": list.text(),
        "entries": list.entries.iter().map(entry).collect::<Vec<_>>(),
        "small": list.small,
        "free": list.free().map(|entry| entry.named.label.as_str()).collect::<Vec<_>>(),
        "added_water": rounded(list.added_water),
        "omits_water": list.omits_water,
    })
}

/// A name, and what of it must be emphasised: of a compound, only what its parts do not tell.
fn named(named: &Named, own: &Named, market: Market) -> Value {
    json!({
        "label": named.label,
        "class": named.class.map(Choice::key),
        "additive": named.additive,
        "allergens": named.allergens.iter().map(Choice::key).collect::<Vec<_>>(),
        "emphasised": own.emphasised(market),
    })
}

fn allergens(statement: &AllergenStatement) -> Value {
    let keys = |allergens: &[Allergen]| allergens.iter().map(|allergen| allergen.key()).collect::<Vec<_>>();
    json!({
        "wording": statement.wording.key(),
        "sentence": statement.sentence(),
        "due": statement.due.iter().map(|due| json!({
            "allergen": due.allergen.key(), "word": due.word, "classed": due.classed, "only_if": due.only_if, "from": due.from,
            "basis": citation(due.citation),
        })).collect::<Vec<_>>(),
        "exempt": statement.spared.iter().map(|spared| json!({
            "allergen": spared.allergen.key(), "from": spared.from, "basis": citation(spared.citation),
        })).collect::<Vec<_>>(),
        "not_on_the_list": keys(&statement.unlisted),
        "shared_equipment": keys(&statement.shared),
        "broken_promises": keys(&statement.broken_promises),
    })
}

fn nutrient(line: &NutritionLine) -> Value {
    let printed = match line.printed {
        Some(Rounded::Number { .. } | Rounded::Phrase(_)) => line.printed.map(|printed| printed.to_string()),
        None => None,
    };
    json!({
        "name": line.name,
        "unit": line.unit,
        "printed": printed,
        "amount": line.amount.map(|band| json!({ "value": rounded(band.value), "low": rounded(band.low), "high": rounded(band.high) })),
        "daily_value_percent": line.daily.map(|percent| percent.to_string()),
        "unknown": line.unknown,
    })
}

/// Six significant digits.
fn rounded(value: f64) -> f64 {
    format!("{value:.5e}").parse().unwrap_or(value)
}
