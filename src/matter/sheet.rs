//! Ingredients and chocolates as they are written down: one form for the larder and for documents.

use super::{
    Allergen, AllergenSet, Chocolate, ChocolateKind, Component, Composition, Constituent, Emulsifier, EmulsifierForm, EmulsifierKind,
    Ingredient, LabelFigures, Role, fat_free_milk,
};
use crate::units::reader::{FaultKind, Field, TableReader};
use crate::units::{Checked, Choice, MassFraction, Measure, Unit};

/// An ingredient: its constituents, and what a label must say of it. With `chocolate = "dark"` it is a chocolate.
pub(crate) fn ingredient(name: &str, table: &TableReader<'_>) -> Option<Ingredient> {
    let kind = table.optional("chocolate");
    if kind.is_present() {
        return of_kind(kind.choice(), name, table);
    }
    let mut parts = Parts::default();
    parts.read(table);
    described(name, table, parts)
}

/// A chocolate from its specification sheet.
pub(crate) fn chocolate(name: &str, table: &TableReader<'_>) -> Option<Ingredient> {
    of_kind(table.required("kind", "`kind = \"dark\"`, `\"milk\"`, `\"white\"` or `\"ruby\"`").choice(), name, table)
}

/// An emulsifier with its dose under the key given; `form` is what it is if it does not say.
pub(crate) fn emulsifier(
    table: &TableReader<'_>,
    kind: Option<EmulsifierKind>,
    dose: &'static str,
    form: Option<EmulsifierForm>,
) -> Option<Emulsifier> {
    let dose = table.required(dose, "its share of the chocolate's weight, such as `\"0.4 %\"`").measure();
    let source = table.optional("source").choice();
    let acetone_insoluble = table.optional("acetone_insoluble").measure();
    let form = match form {
        Some(usual) => table.optional("form").choice().unwrap_or(usual),
        None => table.required("form", "`\"fluid\"`, `\"powder\"` or `\"water-phase\"`").choice()?,
    };
    Some(Emulsifier { kind: kind?, form, source, dose: dose?, acetone_insoluble })
}

/// The allergens a list of words stands for.
pub(crate) fn allergens(words: &Field<'_>) -> AllergenSet {
    let sets = words.list("allergen").filter_map(|word| word.word("an allergen", AllergenSet::from_word, AllergenSet::words));
    sets.fold(AllergenSet::EMPTY, AllergenSet::union)
}

fn of_kind(kind: Option<ChocolateKind>, name: &str, table: &TableReader<'_>) -> Option<Ingredient> {
    let mut parts = Parts::default();
    let mut sheet = Chocolate {
        kind: kind.unwrap_or(ChocolateKind::Dark),
        emulsifiers: EmulsifierKind::ALL.iter().filter_map(|kind| parts.declared(*kind, table)).collect(),
        yield_value: table.optional("yield_value").measure(),
        plastic_viscosity: table.optional("plastic_viscosity").measure(),
        measured_at: table.optional("measured_at").measure(),
        cocoa_powder: table.optional("cocoa_powder").measure(),
        whey: table.optional("whey").measure(),
    };
    if let Some((_, field)) = table.one_of(["sugar", "sucrose"]) {
        parts.add(field.measure(), |fraction| [(Constituent::Sucrose, fraction)]);
    }
    if let Some((_, field)) = table.one_of(["fat_free_milk", "milk_solids_non_fat"]) {
        parts.add(field.measure(), fat_free_milk);
    }
    parts.read(table);
    // A sheet that names the phospholipid has booked its lecithin already.
    let booked = parts.has(Constituent::Phospholipid);
    let unbooked = sheet.emulsifiers.iter().filter(|emulsifier| !(booked && emulsifier.kind == EmulsifierKind::Lecithin));
    parts.known.extend(unbooked.flat_map(Emulsifier::constituents));
    sheet.emulsifiers.shrink_to_fit();
    Some(described(name, table, parts)?.as_chocolate(Chocolate { kind: kind?, ..sheet }))
}

/// What sheets round away, of the weight.
const ROUNDED: f64 = 0.005;

/// A figure for a label that its constituents cannot hold.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{part} is more than the {whole} of {of} among its constituents: state the {of} there, each kind by its name")]
struct PartOfNothing {
    part: Measure,
    of: &'static str,
    whole: Measure,
}

/// The constituents read so far.
#[derive(Default)]
struct Parts {
    known: Vec<(Constituent, f64)>,
    /// Whether one could not be read, so that the rest cannot close.
    broken: bool,
}

impl Parts {
    /// Adds what a fraction stands for.
    fn add<P: IntoIterator<Item = (Constituent, f64)>>(&mut self, fraction: Option<MassFraction>, parts: impl FnOnce(f64) -> P) {
        match fraction {
            Some(fraction) => self.known.extend(parts(fraction.base())),
            None => self.broken = true,
        }
    }

    /// Adds every constituent the table names, written `cocoa-butter` or `cocoa_butter`.
    fn read(&mut self, table: &TableReader<'_>) {
        let find = |key: &str| Constituent::from_key(&key.replace('_', "-"));
        let mut named = Vec::new();
        for (constituent, field) in table.others(find, Constituent::ALL.iter().map(|constituent| constituent.key())) {
            if named.contains(&constituent) {
                field.fault(|| FaultKind::RepeatedKey { key: constituent.key().to_owned() });
            }
            named.push(constituent);
            self.add(field.measure(), |fraction| [(constituent, fraction)]);
        }
    }

    /// An emulsifier that a sheet declares under its own name: `lecithin = { amount = "0.4 %" }`. Chocolate is made with the fluid form.
    fn declared(&mut self, kind: EmulsifierKind, table: &TableReader<'_>) -> Option<Emulsifier> {
        let key = match kind {
            EmulsifierKind::Lecithin => "lecithin",
            EmulsifierKind::Pgpr => "pgpr",
            EmulsifierKind::AmmoniumPhosphatides => "ammonium_phosphatides",
            EmulsifierKind::SorbitanTristearate => "sorbitan_tristearate",
        };
        let field = table.optional(key);
        let read = field.is_present().then(|| field.table(|dose| emulsifier(dose, Some(kind), "amount", Some(EmulsifierForm::Fluid))));
        self.broken |= matches!(read, Some(None));
        read.flatten()
    }

    fn has(&self, constituent: Constituent) -> bool {
        self.known.iter().any(|(known, _)| *known == constituent)
    }
}

/// The ingredient these parts make, with what else its entry says.
fn described(name: &str, table: &TableReader<'_>, parts: Parts) -> Option<Ingredient> {
    let text = |key| table.optional(key).text().map(str::to_owned);
    let (title, label, additive, note) = (text("title"), text("label"), text("additive"), text("note"));
    let record = table.one_of(["record", "source"]).and_then(|(_, field)| field.text());
    let known = table.optional("known").choice();
    let allergens = allergens(&table.optional("allergens"));
    let (class, exempt) = (table.optional("class").choice(), table.optional("exempt").choice());
    let contains: Vec<_> = table.optional("contains").list("component").filter_map(component).collect();
    let (compound, fibrous) = (table.optional("compound").flag(), table.optional("fibrous").flag());
    let figures = LabelFigures {
        saturates: table.optional("saturates").measure(),
        trans_fat: table.optional("trans_fat").measure(),
        cholesterol: table.optional("cholesterol").measure(),
        sodium: table.optional("sodium").measure(),
        added_sugars: table.optional("added_sugars").measure(),
        vitamin_d: table.optional("vitamin_d").measure(),
        calcium: table.optional("calcium").measure(),
        iron: table.optional("iron").measure(),
        potassium: table.optional("potassium").measure(),
    };
    let sugars = table.optional("sugars").choice();
    let spread = table.optional("spread").measure();
    if parts.broken {
        return None;
    }
    let fractions = parts.known.iter().filter_map(|(constituent, fraction)| Some((*constituent, MassFraction::from_base(*fraction).ok()?)));
    let usual = Ingredient::declared(name, table.accept(Composition::new(fractions))?);
    let usual = spread.map_or(usual.clone(), |spread| usual.with_spread(spread));
    hold(table, &usual.composition, &figures);
    let inside = contains.iter().fold(AllergenSet::EMPTY, |all, component| all.union(component.allergens));
    Some(Ingredient {
        title: title.unwrap_or(usual.title),
        label: label.unwrap_or(usual.label),
        allergens: allergens.union(inside).union(milk_in(&usual.composition)),
        additive,
        class,
        exempt,
        compound: compound.unwrap_or(!contains.is_empty()),
        fibrous: fibrous.unwrap_or(false),
        contains,
        figures,
        sugars,
        record: record.map_or(usual.record, str::to_owned),
        known: known.unwrap_or(usual.known),
        note,
        ..usual
    })
}

/// Faults what a declaration is told of that the constituents do not hold.
fn hold(table: &TableReader<'_>, composition: &Composition, figures: &LabelFigures) {
    // Phospholipids hold fatty acids too.
    let fat = composition.fat() + composition.of(Constituent::Phospholipid);
    let sugars = composition.of_role(Role::Sugar);
    let stated = [("saturates", figures.saturates, "fat", fat), ("trans_fat", figures.trans_fat, "fat", fat)];
    for (key, part, of, whole) in stated.into_iter().chain([("added_sugars", figures.added_sugars, "sugars", sugars)]) {
        if let Some(part) = part.filter(|part| part.base() > whole + ROUNDED) {
            let [part, whole] = [part.base(), whole].map(|share| Measure::from_base(share, Unit::Percent));
            table.optional(key).refuse(|| PartOfNothing { part, of, whole });
        }
    }
}

/// `"sugar"`, or `{ label = "whole milk powder", allergens = ["milk"] }`.
fn component(field: Field<'_>) -> Option<Component> {
    if !field.is_table() {
        return field.text().map(Component::named);
    }
    field.table(|table| {
        let label = table.required("label", "its name on a label, such as `label = \"whole milk powder\"`").text();
        let allergens = allergens(&table.optional("allergens"));
        let additive = table.optional("additive").text().map(str::to_owned);
        let class = table.optional("class").choice();
        Some(Component { label: label?.to_owned(), allergens, additive, class })
    })
}

/// The milk allergen, if anything here comes from milk.
fn milk_in(composition: &Composition) -> AllergenSet {
    const OF_MILK: [Constituent; 5] =
        [Constituent::MilkFat, Constituent::Lactose, Constituent::MilkProtein, Constituent::MilkSalts, Constituent::UnsplitMilkSugars];
    if OF_MILK.iter().any(|constituent| composition.of(*constituent) > 0.0) {
        AllergenSet::of(&[Allergen::Milk])
    } else {
        AllergenSet::EMPTY
    }
}
