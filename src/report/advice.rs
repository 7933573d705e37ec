//! A remedy in the words of the bench.

use super::number::{self, NO_BREAK};
use crate::assess::Part;
use crate::engine::{RuleSet, Verdict};
use crate::matter::{Constituent, RecipeLine};
use crate::models::water::boiling_point;
use crate::piece::{ChocolateOf, Knob, Layer, Piece, Process};
use crate::remedy::Remedy;
use crate::units::{Checked, Choice, Measure, Temperature, Unit};

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
    /// The same without what to write, and without the recipe's name where there is no other.
    pub brief: String,
}

impl Advice {
    /// Puts a remedy for a piece in words.
    #[must_use]
    pub fn new(remedy: Remedy, piece: &Piece, rules: &RuleSet) -> Self {
        let (from, to) = (remedy.knob.measure(piece, remedy.from), remedy.knob.measure(piece, remedy.to));
        let upsets: Vec<_> = remedy
            .upsets
            .iter()
            .filter(|upset| upset.harm() > Verdict::Note)
            .map(|upset| {
                let title = rules.cards().find(|card| card.id == upset.rule).map_or(upset.rule, |card| card.title);
                let verdict = upset.verdict.map_or("can no longer be judged", Choice::key);
                format!("{title} ({verdict}, {})", part_name(piece, upset.part))
            })
            .collect();
        let but = if upsets.is_empty() { String::new() } else { format!(" But then: {}.", upsets.join("; ")) };
        let action = action(&remedy, piece, from, to);
        let text = format!("{}.{but}", unbroken(&action));
        let mut brief = format!("{}.{but}", action.split_once(" [").map_or(action.as_str(), |(action, _)| action));
        if let [only] = piece.layers.as_slice() {
            brief = brief.replace(&format!(" in the recipe of {}", only.name), "");
        }
        Self { knob: remedy.knob.label(piece), from, to, text, brief, remedy }
    }
}

/// What a part is called.
fn part_name(piece: &Piece, part: Part) -> &str {
    match part {
        Part::Layer(index) => piece.layers.get(index).map_or("layer", |layer| layer.name.as_str()),
        Part::Whole => "piece",
        Part::Shell => "shell",
        Part::Cap => "cap",
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
    let word = |setting: f64| remedy.knob.word(setting).unwrap_or("");
    match remedy.knob {
        Knob::WallThickness => format!("Cast the shell {becomes} thick instead of {was} [shell: thickness = \"{to}\"]"),
        Knob::DrainTime => format!("Let the mould drain {becomes} instead of {was} [shell: drained = {{ time = \"{to}\" }}]"),
        Knob::Casts => format!("Cast {becomes} times instead of {was}, letting each wall set [shell: casts = {to}]"),
        Knob::Temper(of) => format!("Temper the chocolate [{}: temper = \"{}\"]", of.key(), word(remedy.to)),
        Knob::EmulsifierDose(of, _) if remedy.to <= 0.0 => format!("Leave it out [{}: emulsifier]", of.key()),
        Knob::EmulsifierDose(of, _) => {
            format!("Dose {becomes} of the chocolate's weight instead of {was} [{}: emulsifier, dose = \"{to}\"]", of.key())
        }
        Knob::EmulsifierForm(of, index) => form(remedy, piece, of, index),
        Knob::StirredInDose(of, index) => {
            let added = of.stirred_in(piece).and_then(|added| added.get(index)).map_or("it", |added| &added.ingredient.title);
            format!("Stir in {becomes} of {added} instead of {was} [{}: added, dose = \"{to}\"]", of.key())
        }
        Knob::CocoaButter(of) => format!(
            "Melt in cocoa butter, {becomes} of the chocolate's weight [{}: added = [{{ ingredient = \"cocoa-butter\", dose = \"{to}\" }}]]",
            of.key()
        ),
        Knob::FillDepth(index) => {
            format!("Pour {} to {becomes} below the rim instead of {was} [layer {}: fill_to = \"{to}\"]", name(index), index + 1)
        }
        Knob::LayerAmount(index) => {
            let key = if to.unit() == Unit::Gram { "mass" } else { "volume" };
            format!("Pour {becomes} of {} instead of {was} [layer {}: {key} = \"{to}\"]", name(index), index + 1)
        }
        Knob::IngredientMass(index, line) => {
            let line = layer(index).and_then(|layer| layer.recipe.as_ref()?.lines().get(line));
            let ingredient = line.map_or("the ingredient", |line| &line.ingredient.title);
            let key = line.map_or("", |line| &line.ingredient.name);
            let change = if remedy.to <= 0.0 {
                format!("Leave out the {ingredient}, now {was},")
            } else {
                format!("Weigh {becomes} of {ingredient} instead of {was}")
            };
            format!("{change} in the recipe of {} [layer {}: {{ ingredient = \"{key}\", mass = \"{to}\" }}]", name(index), index + 1)
        }
        Knob::Addition(index, constituent) => {
            let gum = constituent == Constituent::Xanthan;
            let hint = if gum { ", wetted and swollen in the syrup or water before any spirit goes in" } else { "" };
            let hydrated = if gum { ", hydrated_first = true" } else { "" };
            let (place, charge) = (index + 1, layer(index).map_or(String::new(), charge));
            let line = format!("{{ ingredient = \"{}\", mass = \"{to}\" }}", constituent.key());
            format!(
                "Add {becomes} of {} to the recipe of {}{charge}{hint} [layer {place}: {line}{hydrated}]",
                constituent.words(),
                name(index)
            )
        }
        Knob::CookedMass(index) => {
            let boils = boils_then(remedy, piece, index).map_or_else(String::new, |at| format!(", when it boils at about {at}"));
            // Where a thermometer told when to stop, the scale takes its place.
            let (was, line) = match layer(index).and_then(|layer| layer.cooked_at) {
                Some(at) => (number::shown(at.measure(Unit::Celsius)), " for `cooked_at`"),
                None => (was, ""),
            };
            format!("Cook {} down to {becomes} instead of {was}{boils} [layer {}: cooked_to = \"{to}\"{line}]", name(index), index + 1)
        }
        Knob::PouringTemperature(index) => {
            format!("Pour {} at {becomes} instead of {was} [layer {}: temperature = \"{to}\"]", name(index), index + 1)
        }
        Knob::Process(process) => {
            let table = match process {
                Process::Keep => "",
                Process::StorageTemperature => "storage: ",
                _ => "workshop: ",
            };
            format!("Set the {} to {becomes} instead of {was} [{table}{} = \"{to}\"]", process.words(), process.key())
        }
        Knob::Sale => format!("Sell it {} instead of {} [storage: sale = \"{}\"]", word(remedy.to), word(remedy.from), word(remedy.to)),
        Knob::Barrier(index) => {
            let film = word(remedy.to);
            format!("Brush a film of {} on {} [layer {}: barrier = \"{film}\"]", film.replace('-', " "), name(index), index + 1)
        }
        Knob::CapThickness => format!("Pour a cap of {becomes} instead of {was} [cap: thickness = \"{to}\"]"),
        Knob::CapCoats => format!("Pour the cap in {becomes} coats instead of {was} [cap: coats = {to}]"),
    }
}

/// Where a recipe boils once it is cooked down; nothing where that cannot be told, as beside spirit, which goes in later.
fn boils_then(remedy: &Remedy, piece: &Piece, index: usize) -> Option<String> {
    let turned = remedy.knob.set(piece, remedy.to)?;
    let cooked = turned.layers.get(index)?.recipe.as_ref()?.composition();
    let water = piece.workshop.water_boils_at.unwrap_or(Temperature::nearest(100.0));
    let boiling = boiling_point(cooked, water).ok().filter(|boiling| boiling.in_range)?;
    Some(number::shown(Measure::new(boiling.temperature.value.celsius().round(), Unit::Celsius)))
}

fn charge(layer: &Layer) -> String {
    let grams = |line: &RecipeLine| line.mass.quantity().get::<crate::units::quantity::gram>();
    let total: f64 = layer.recipe.iter().flat_map(|recipe| recipe.lines()).map(grams).sum();
    format!(" ({} as it stands)", number::shown(Measure::new(total, Unit::Gram)))
}

fn form(remedy: &Remedy, piece: &Piece, of: ChocolateOf, index: usize) -> String {
    let turned = remedy.knob.set(piece, remedy.to);
    let emulsifier = turned.as_ref().and_then(|piece| of.emulsifiers(piece)?.get(index));
    let Some(emulsifier) = emulsifier else { return String::new() };
    let dose = emulsifier.dose.measure(Unit::Percent);
    let (kind, form, shown) = (emulsifier.kind.key(), emulsifier.form.key(), number::shown(dose));
    format!(
        "Weigh {form} {kind} afresh: {shown} of the chocolate's weight holds as much active matter; the forms never change places gram for gram \
         [{}: emulsifier, form = \"{form}\", dose = \"{dose}\"]",
        of.key()
    )
}
