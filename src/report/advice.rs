//! A remedy in the words of the bench.

use super::number::{self, NO_BREAK};
use crate::assess::Part;
use crate::engine::{RuleSet, Verdict};
use crate::matter::{Constituent, RecipeLine};
use crate::piece::{Knob, Layer, Piece};
use crate::remedy::Remedy;
use crate::units::{Choice, Measure};

/// A remedy with what to do, what to write in the document, and what it would upset.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// The remedy.
    pub remedy: Remedy,
    /// The knob in words.
    pub knob: String,
    /// Where it stands, as a person would write it.
    pub from: Measure,
    /// Where it goes, as a person would write it.
    pub to: Measure,
    /// What to do, and what to write.
    pub text: String,
}

impl Advice {
    pub(super) fn new<'a>(remedy: Remedy, piece: &'a Piece, rules: &RuleSet, part_name: impl Fn(Part) -> &'a str) -> Self {
        let (from, to) = (remedy.knob.measure(piece, remedy.from), remedy.knob.measure(piece, remedy.to));
        let upsets: Vec<_> = remedy
            .upsets
            .iter()
            .filter(|upset| upset.verdict > Verdict::Note)
            .map(|upset| {
                let title = rules.cards().find(|card| card.id == upset.rule).map_or(upset.rule, |card| card.title);
                let verdict = upset.verdict.key();
                format!("{title} ({verdict}, {})", part_name(upset.part))
            })
            .collect();
        let but = if upsets.is_empty() { String::new() } else { format!(" But then: {}.", upsets.join("; ")) };
        let text = format!("{}.{but}", unbroken(&action(&remedy, piece, from, to)));
        Self { knob: remedy.knob.label(piece), from, to, text, remedy }
    }
}

/// The line of a document that stands in brackets, held on one line.
fn unbroken(text: &str) -> String {
    match text.split_once('[') {
        Some((action, line)) => format!("{action}[{}", line.replace(' ', &NO_BREAK.to_string())),
        None => text.into(),
    }
}

/// What to do at the bench, with the line of the document in brackets.
fn action(remedy: &Remedy, piece: &Piece, from: Measure, to: Measure) -> String {
    let (was, becomes) = (number::shown(from), number::shown(to));
    let layer = |index: usize| piece.layers.get(index);
    let name = |index: usize| layer(index).map_or("", |layer| layer.name.as_str());
    match remedy.knob {
        Knob::WallThickness => format!("Cast the shell {becomes} thick instead of {was} [shell: thickness = \"{to}\"]"),
        Knob::Casts => format!("Cast {becomes} times instead of {was}, letting each wall set [shell: casts = {to}]"),
        Knob::Temper => "Temper the chocolate [shell: temper = \"tempered\"]".into(),
        Knob::EmulsifierDose(_) if remedy.to <= 0.0 => "Leave it out [shell: emulsifier]".into(),
        Knob::EmulsifierDose(_) => {
            format!("Dose {becomes} of the chocolate's weight instead of {was} [shell: emulsifier, dose = \"{to}\"]")
        }
        Knob::EmulsifierForm(index) => form(remedy, piece, index),
        Knob::StirredInDose(index) => {
            let added = piece.shell.as_ref().and_then(|shell| shell.stirred_in.get(index)).map_or("it", |added| &added.ingredient.title);
            format!("Stir in {becomes} of {added} instead of {was} [shell: added, dose = \"{to}\"]")
        }
        Knob::CocoaButter => {
            format!(
                "Melt in cocoa butter, {becomes} of the chocolate's weight [shell: added = [{{ ingredient = \"cocoa-butter\", dose = \"{to}\" }}]]"
            )
        }
        Knob::FillDepth(index) => {
            format!("Pour {} to {becomes} below the rim instead of {was} [layer {}: fill_to = \"{to}\"]", name(index), index + 1)
        }
        Knob::LayerAmount(index) => format!("Pour {becomes} of {} instead of {was} [layer {}]", name(index), index + 1),
        Knob::IngredientMass(index, line) => {
            let line = layer(index).and_then(|layer| layer.recipe.as_ref()?.lines().get(line));
            let ingredient = line.map_or("the ingredient", |line| &line.ingredient.title);
            let key = line.map_or("", |line| &line.ingredient.name);
            let verb = if remedy.to <= 0.0 {
                format!("Leave out the {ingredient}, now {was},")
            } else {
                format!("Weigh {becomes} of {ingredient} instead of {was}")
            };
            format!("{verb} in the recipe of {} [layer {}: {{ ingredient = \"{key}\", mass = \"{to}\" }}]", name(index), index + 1)
        }
        Knob::Addition(index, constituent) => {
            let gum = constituent == Constituent::Xanthan;
            let hint = if gum { ", wetted and swollen in the syrup or water before any spirit goes in" } else { "" };
            let hydrated = if gum { ", hydrated_first = true" } else { "" };
            let charge = layer(index).map_or(String::new(), charge);
            format!(
                "Add {becomes} of {} to the recipe of {}{charge}{hint} [layer {}: {{ ingredient = \"{}\", mass = \"{to}\" }}{hydrated}]",
                constituent.words(),
                name(index),
                index + 1,
                constituent.key()
            )
        }
        Knob::CookedMass(index) => {
            format!("Cook {} down to {becomes} instead of {was} [layer {}: cooked_to = \"{to}\"]", name(index), index + 1)
        }
        Knob::Barrier(index) => {
            format!("Brush a film of {} on {} [layer {}: barrier]", remedy.knob.word(remedy.to).unwrap_or(""), name(index), index + 1)
        }
    }
}

fn charge(layer: &Layer) -> String {
    let grams = |line: &RecipeLine| line.mass.quantity().get::<crate::units::quantity::gram>();
    let total: f64 = layer.recipe.iter().flat_map(|recipe| recipe.lines()).map(grams).sum();
    format!(" ({} as it stands)", number::shown(Measure::new(total, crate::units::Unit::Gram)))
}

fn form(remedy: &Remedy, piece: &Piece, index: usize) -> String {
    let turned = remedy.knob.set(piece, remedy.to);
    let emulsifier = turned.as_ref().and_then(|piece| piece.shell.as_ref()?.emulsifiers.get(index));
    let Some(emulsifier) = emulsifier else { return String::new() };
    let dose = number::shown(crate::units::Checked::measure(emulsifier.dose, crate::units::Unit::Percent));
    let (kind, form) = (emulsifier.kind.key(), emulsifier.form.key());
    format!(
        "Weigh {form} {kind} afresh: {dose} of the chocolate's weight holds as much active matter; the forms never change places gram for gram \
         [shell: emulsifier, form = \"{form}\", dose = \"{dose}\"]"
    )
}
