//! Something wet got into the chocolate and it seized: what it is still good for, and what to weigh in to make a ganache of it.
//!
//! ```text
//! cargo run --release --example rescue_chocolate -- [CHOCOLATE=MASS WET=MASS] [--cream cream-36]
//! ```
//!
//! Without arguments: a kilogram of dark chocolate with a spoon of water, one with honey, one with a drop of vanilla extract.
//! Exit code 0, or 2 if the input cannot be used, and standard error says why.

mod kitchen;
mod terminal;

use cordial::assess::{Part, Quantity, assess};
use cordial::engine::Verdict;
use cordial::matter::{Composition, Constituent, Ingredient, Larder, Recipe, RecipeLine};
use cordial::piece::{FillingKind, Knob, Layer, Piece, Shell, StirredIn};
use cordial::report::{Report, check};
use cordial::rules::BUILT_IN;
use cordial::units::{Checked, Choice, MassFraction, Portion, Unit};
use kitchen::line;
use std::{error::Error, process::ExitCode, sync::Arc};
use terminal::{Arguments, ended, paragraph, say};

type Result<T> = std::result::Result<T, Box<dyn Error>>;

/// Fat over water that a ganache is brought to: inside the window of the rules, with as little water as keeps its proportion to the cream.
const FAT_TO_WATER: f64 = 1.8;
/// More than this of the chocolate's mass did not get in by mistake.
const MOST_GOT_IN: f64 = 0.25;
/// No cream is drier.
const WATER_OF_CREAM: f64 = 0.4;

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<()> {
    let arguments = Arguments::read(&[], &["--cream"])?;
    let cream = arguments.all("--cream").last().unwrap_or("cream-36");
    match arguments.words.as_slice() {
        [] => {
            for wet in ["water=15 g", "honey=40 g", "vanilla-extract=4 g"] {
                rescue(&line("dark-couverture-64=1000 g")?, &line(wet)?, cream)?;
            }
        }
        [chocolate, wet] => rescue(&line(chocolate)?, &line(wet)?, cream)?,
        _ => return Err("name a chocolate and what got in, as in `dark-couverture-64=1000 g` `water=15 g`".into()),
    }
    let text = "Each fix is told by itself and may undo another: weigh one, then check the recipe again. A ganache of rescued chocolate keeps no \
                longer than any other; measure its water activity before you promise a time. Allergens are only as complete as the makers' labels.";
    say!("{}", paragraph(text));
    Ok(())
}

fn rescue(chocolate: &RecipeLine, wet: &RecipeLine, cream: &str) -> Result<()> {
    let shown = |line: &RecipeLine| format!("{} of {}", line.mass.measure(Unit::Gram), line.ingredient.title);
    if chocolate.ingredient.chocolate.is_none() {
        return Err(format!("`{}` is no chocolate: `larder couverture` names some", chocolate.ingredient.name).into());
    }
    if wet.mass.base() > MOST_GOT_IN * chocolate.mass.base() {
        return Err(format!("{} in {} is a recipe, no accident: see `water_activity`", shown(wet), shown(chocolate)).into());
    }
    let cream = Larder::built_in().get(cream)?;
    if cream.composition.of(Constituent::Water) < WATER_OF_CREAM || fat_beyond(&cream.composition) >= 0.0 {
        return Err(
            format!("--cream: `{}` makes no ganache of it: name what holds more water than fat, such as `cream-36`", cream.name).into()
        );
    }
    say!("{}, and {} got in", shown(chocolate), shown(wet));
    let dose = MassFraction::from_base(wet.mass.base() / chocolate.mass.base())?;
    let stirred_in = vec![StirredIn { ingredient: Arc::clone(&wet.ingredient), dose }];
    let shell = Shell { stirred_in, ..Shell::of(Arc::clone(&chocolate.ingredient)) };
    let piece = Piece { name: "shell".into(), shell: Some(shell), ..Piece::default() };
    let added = assess(&piece).shell.get(Quantity::AddedWater).value().unwrap_or(0.0);
    say!("  It brought {:.1} % of water into the chocolate.", 100.0 * added);
    let verdict = verdict(&check(&piece)?, Part::Shell);
    let limits = BUILT_IN.iter().flat_map(|rule| rule.card().limits);
    let thickens = limits.into_iter().find(|limit| limit.key == "added-water.thickens").map_or(f64::INFINITY, |limit| limit.careful.base());
    let more = chocolate.mass.base() * (added / thickens - 1.0);
    match verdict {
        Verdict::Fail => say!("  For shells and caps: lost. Nothing takes the water out again, more chocolate leaves the lumps."),
        Verdict::Caution | Verdict::Note => say!("  For shells and caps: too thick. Do not add more of it, and try a mould first."),
        Verdict::Pass => say!("  For shells and caps: still good. Use it soon, and keep the rest dry."),
    }
    if more > 0.0 && verdict < Verdict::Fail {
        let text = format!(
            "  Stirred into {more:.1} kg more of dry chocolate it is thin enough again; cocoa butter thins it too, but the water stays."
        );
        say!("{}", paragraph(&text));
    }
    if verdict > Verdict::Pass {
        ganache(chocolate, wet, cream)?;
    }
    say!();
    Ok(())
}

/// The cream that turns it into a ganache, and what the rules say of that.
fn ganache(chocolate: &RecipeLine, wet: &RecipeLine, cream: Arc<Ingredient>) -> Result<()> {
    let excess = |line: &RecipeLine| line.mass.base() * fat_beyond(&line.ingredient.composition);
    let grams = ((excess(chocolate) + excess(wet)) / -fat_beyond(&cream.composition) * 1000.0).round();
    if grams < 1.0 {
        say!("  For a ganache: it is wet enough without cream. Warm it to 35 to 40 °C and blend: the lumps go.");
        return Ok(());
    }
    let mass = Portion::from_base(grams / 1000.0)?;
    let text = format!(
        "  For a ganache: all of it is good. Heat {} of {}, melt the chocolate into it at 35 to 40 °C and blend: the lumps go.",
        mass.measure(Unit::Gram),
        cream.title
    );
    say!("{}", paragraph(&text));
    let brought = cream.allergens.union(wet.ingredient.allergens).without(chocolate.ingredient.allergens);
    let brought: Vec<_> = brought.iter().map(Choice::key).collect();
    let lines = vec![chocolate.clone(), wet.clone(), RecipeLine { ingredient: cream, mass }];
    let layer = Layer::named("ganache").with_kind(FillingKind::Ganache).with_recipe(Recipe::new(lines, None)?);
    let piece = Piece { name: "ganache".into(), layers: vec![layer], ..Piece::default() };
    let report = check(&piece)?;
    let known = |quantity: Quantity| report.assessment.part(Part::Layer(0)).and_then(|part| part.get(quantity).value()).unwrap_or(0.0);
    say!(
        "    {:.0} g: {:.1} % water, {:.1} % fat, {:.1} fat per water; water activity about {:.2}",
        1000.0 * piece.layers.iter().filter_map(|layer| layer.recipe.as_ref()).map(Recipe::yielded).sum::<f64>(),
        100.0 * known(Quantity::Water),
        100.0 * known(Quantity::Fat),
        known(Quantity::FatToWater),
        known(Quantity::WaterActivity)
    );
    for finding in report.findings.iter().filter(|finding| finding.counts() && finding.verdict > Verdict::Note) {
        // The chocolate and what fell into it are as they are.
        let fix = finding.remedies.iter().find(|advice| {
            let ruins = advice.remedy.upsets.iter().any(|upset| upset.verdict == Some(Verdict::Fail));
            !ruins && !matches!(advice.remedy.knob, Knob::IngredientMass(0, 0 | 1))
        });
        let fix = fix.map_or_else(String::new, |advice| format!(": {}", advice.brief));
        say!("{}", paragraph(&format!("    Mind: {}{fix}", finding.rule.title)));
    }
    if !brought.is_empty() {
        say!("    Mind: it now holds allergens that the chocolate did not: {}", brought.join(", "));
    }
    Ok(())
}

/// The fat of a gram beyond that which a ganache has to its water.
fn fat_beyond(composition: &Composition) -> f64 {
    composition.fat() - FAT_TO_WATER * composition.of(Constituent::Water)
}

/// The worst that water does to a part.
fn verdict(report: &Report, part: Part) -> Verdict {
    let seizes = report.of("chocolate-would-seize").filter(|finding| finding.part == part);
    seizes.map(|finding| finding.verdict).max().unwrap_or(Verdict::Pass)
}
