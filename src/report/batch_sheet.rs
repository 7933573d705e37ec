//! The batch sheet: what to melt and weigh for so many moulds, in what order, at what temperature, and what a piece costs.

use super::number;
use crate::assess::{Assessment, Quantity, assess};
use crate::matter::{Emulsifier, EmulsifierForm, EmulsifierKind, RecipeLine};
use crate::piece::{Layer, Piece, Temper};
use crate::units::quantity::cubic_meter;
use crate::units::{Checked, Choice, Measure, Temperature, Unit};
use std::fmt::Write;

/// Chocolate left in bowls and on tools, and filling left in bags, as a share of what is used, where the document does not say (common
/// practice).
const CHOCOLATE_LOST: f64 = 0.05;
const FILLING_LOST: f64 = 0.08;
/// A weighing is honest from so many divisions of the scale: rounding is then at most 1 %.
const HONEST: f64 = 50.0;

/// What a batch takes. Masses in kilograms.
#[derive(Debug, Clone, PartialEq)]
pub struct BatchSheet {
    /// The piece's name.
    pub name: String,
    /// Pieces made.
    pub pieces: u32,
    /// Pieces expected to be good.
    pub good: u32,
    /// Chocolate to melt and temper.
    pub melt: f64,
    /// Of it, what the moulds give back.
    pub returned: f64,
    /// What is weighed into the chocolate.
    pub stirred_in: Vec<Weighing>,
    /// The layers.
    pub layers: Vec<LayerSheet>,
    /// What to do, in order.
    pub steps: Vec<String>,
    /// What the ingredients of a good piece cost, where all are priced.
    pub cost: Option<f64>,
    /// Ingredients without a price.
    pub unpriced: Vec<String>,
}

/// One weighing.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighing {
    /// What.
    pub what: String,
    /// How much, in kilograms.
    pub mass: f64,
    /// How to weigh it honestly, where the scale is too coarse or the stuff sticks.
    pub hint: Option<String>,
}

/// What a layer takes.
#[derive(Debug, Clone, PartialEq)]
pub struct LayerSheet {
    /// Its name.
    pub name: String,
    /// What is needed, losses included.
    pub needed: f64,
    /// What to weigh.
    pub weighings: Vec<Weighing>,
    /// What to cook it down to.
    pub cooked_to: Option<f64>,
    /// The temperature that tells when it is cooked, where a thermometer does.
    pub cooked_at: Option<Temperature>,
}

/// Why there is no batch sheet.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BatchSheetError {
    /// Something lacks.
    #[error("piece \"{piece}\": no batch sheet for want of {wants}")]
    Lacks {
        /// The piece.
        piece: String,
        /// What to give.
        wants: String,
    },
}

impl BatchSheet {
    /// The sheet for the batch that the piece describes; one mould if it says nothing.
    ///
    /// # Errors
    /// [`BatchSheetError`] when the mould, the number of cavities or a mass lacks.
    pub fn of(piece: &Piece) -> Result<Self, BatchSheetError> {
        let lacks = |wants: String| BatchSheetError::Lacks { piece: piece.name.clone(), wants };
        let mould = piece.mould.ok_or_else(|| lacks("the mould".into()))?;
        let cavities = mould.cavities.ok_or_else(|| lacks("the number of cavities (mould, cavities)".into()))?;
        let assessment = assess(piece);
        let mass = |assessed: crate::assess::Assessed| {
            assessed.value().ok_or_else(|| lacks(assessed.missing().iter().map(Quantity::ask).collect::<Vec<_>>().join("; ")))
        };
        let batch = piece.batch.clone().unwrap_or_default();
        let pieces = cavities.saturating_mul(batch.moulds.unwrap_or(1));
        let count = f64::from(pieces);
        let [shell, cap] =
            [mass(assessment.shell.get(Quantity::ShellMass))?, mass(assessment.cap.get(Quantity::CapMass))?].map(|mass| count * mass);
        let chocolate = shell + cap;
        // The last mould is filled to the rim like the first, so a full mould is melted beyond what stays in the pieces.
        let liquid = mass(assessment.shell.get(Quantity::ChocolateDensity))?;
        let drained = f64::from(cavities) * mould.cavity.volume().get::<cubic_meter>() * liquid;
        let melt = (chocolate / (1.0 - CHOCOLATE_LOST) + drained).max(batch.melted.map_or(0.0, Checked::base));
        let overage = batch.overage.map_or(FILLING_LOST, Checked::base);
        let scale = piece.workshop.scale_division.map(Checked::base);
        let layers = piece.layers.iter().zip(&assessment.layers).map(|(layer, part)| {
            let needed = count * mass(part.get(Quantity::LayerMass))? * (1.0 + overage);
            Ok(layer_sheet(layer, needed, scale))
        });
        let layers = layers.collect::<Result<Vec<_>, _>>()?;
        let good = count * (1.0 - batch.scrap.map_or(0.0, Checked::base));
        let mut sheet = Self {
            name: piece.name.clone(),
            pieces,
            good: whole(good),
            melt,
            returned: melt - chocolate / (1.0 - CHOCOLATE_LOST),
            stirred_in: stirred_in(piece, melt, scale),
            layers,
            steps: steps(piece, &assessment),
            cost: None,
            unpriced: Vec::new(),
        };
        let used = [shell, cap].map(|mass| mass / (1.0 - CHOCOLATE_LOST));
        sheet.price(piece, used, good.floor().max(1.0), &batch.prices);
        Ok(sheet)
    }

    /// Adds up what the ingredients cost, lost ones included, where all that is used has a price.
    fn price(&mut self, piece: &Piece, used: [f64; 2], good: f64, prices: &[(String, f64)]) {
        if prices.is_empty() {
            return;
        }
        let mut uses = chocolate_uses(piece, used, prices);
        for (layer, sheet) in piece.layers.iter().zip(&self.layers) {
            let lines = layer.recipe.iter().flat_map(|recipe| recipe.lines());
            uses.extend(lines.zip(&sheet.weighings).map(|(line, weighing)| (line.ingredient.name.clone(), weighing.mass)));
        }
        let price = |name: &str| prices.iter().find(|(priced, _)| priced == name).map(|(_, price)| *price);
        self.unpriced = uses.iter().filter(|(name, mass)| *mass > 0.0 && price(name).is_none()).map(|(name, _)| name.clone()).collect();
        self.unpriced.sort_unstable();
        self.unpriced.dedup();
        if self.unpriced.is_empty() {
            self.cost = Some(uses.iter().map(|(name, mass)| mass * price(name).unwrap_or(0.0)).sum::<f64>() / good);
        }
    }

    /// The sheet as Markdown; read as plain text it is as clear.
    #[must_use]
    pub fn to_markdown(&self) -> String {
        let mut text = String::new();
        // Writing to a string cannot fail.
        let _ = self.write(&mut text);
        text.replace(number::NO_BREAK, " ")
    }

    fn write(&self, text: &mut String) -> std::fmt::Result {
        writeln!(text, "# {}: {} pieces, {} expected good\n", self.name, self.pieces, self.good)?;
        writeln!(text, "Melt {} of chocolate; the moulds give back about {}.\n", grams(self.melt), grams(self.returned))?;
        table(text, &self.stirred_in)?;
        for layer in &self.layers {
            writeln!(text, "## {}: {}\n", layer.name, grams(layer.needed))?;
            table(text, &layer.weighings)?;
            match (layer.cooked_at, layer.cooked_to) {
                (Some(at), Some(cooked_to)) => {
                    let at = number::shown(at.measure(Unit::Celsius));
                    writeln!(text, "Boil it to {at}, spirit goes in after that; then it weighs about {}.\n", grams(cooked_to))?;
                }
                (None, Some(cooked_to)) => writeln!(text, "Cook it down to {}.\n", grams(cooked_to))?,
                (_, None) => {}
            }
        }
        writeln!(text, "## Work\n")?;
        for (index, step) in self.steps.iter().enumerate() {
            writeln!(text, "{}. {step}", index + 1)?;
        }
        if let Some(cost) = self.cost {
            writeln!(text, "\nIngredients cost {cost:.3} for each good piece, in the currency of the prices.")?;
        } else if !self.unpriced.is_empty() {
            writeln!(text, "\nNo cost for want of a price for: {}.", self.unpriced.join(", "))?;
        }
        Ok(())
    }

    /// The sheet in the form that programs read; masses in grams.
    #[cfg(feature = "documents")]
    #[must_use]
    pub fn to_json(&self) -> serde_json::Value {
        let mass = |kilograms: f64| serde_json::json!(Measure::new((kilograms * 1e6).round() / 1e3, Unit::Gram));
        let weighings = |list: &[Weighing]| -> serde_json::Value {
            list.iter()
                .map(|weighing| serde_json::json!({ "what": weighing.what, "mass": mass(weighing.mass), "hint": weighing.hint }))
                .collect()
        };
        serde_json::json!({
            "name": self.name,
            "pieces": self.pieces,
            "good": self.good,
            "melt": mass(self.melt),
            "returned": mass(self.returned),
            "stirred_in": weighings(&self.stirred_in),
            "layers": self.layers.iter().map(|layer| serde_json::json!({
                "name": layer.name,
                "needed": mass(layer.needed),
                "weighings": weighings(&layer.weighings),
                "cooked_to": layer.cooked_to.map(mass),
                "cooked_at": layer.cooked_at.map(|at| at.measure(Unit::Celsius)),
            })).collect::<Vec<_>>(),
            "steps": self.steps,
            "cost": self.cost,
            "unpriced": self.unpriced,
        })
    }
}

fn layer_sheet(layer: &Layer, needed: f64, scale: Option<f64>) -> LayerSheet {
    let Some(recipe) = &layer.recipe else {
        return LayerSheet { name: layer.name.clone(), needed, weighings: Vec::new(), cooked_to: None, cooked_at: None };
    };
    let factor = needed / recipe.yielded();
    let carrier = recipe.lines().iter().max_by(|one, two| one.mass.base().total_cmp(&two.mass.base()));
    let weighing = |line: &RecipeLine| {
        let mass = factor * line.mass.base();
        let carrier = carrier.filter(|carrier| !std::ptr::eq(*carrier, line)).map(|carrier| carrier.ingredient.title.as_str());
        Weighing { what: line.ingredient.title.clone(), mass, hint: too_fine(mass, scale, carrier) }
    };
    LayerSheet {
        name: layer.name.clone(),
        needed,
        weighings: recipe.lines().iter().map(weighing).collect(),
        cooked_to: recipe.cooked_to().map(|mass| factor * mass.base()),
        cooked_at: layer.cooked_at,
    }
}

/// What the chocolate of shells and caps is mixed from: in one pot, or in two where the cap's is another.
fn chocolate_uses(piece: &Piece, [of_shell, of_cap]: [f64; 2], prices: &[(String, f64)]) -> Vec<(String, f64)> {
    let Some(shell) = &piece.shell else { return Vec::new() };
    let from_shell = (&shell.chocolate, shell.emulsifiers.as_slice(), shell.stirred_in.as_slice());
    let from_cap = piece.cap.as_ref().map_or(from_shell, |cap| {
        let (chocolate, emulsifiers, stirred_in) = from_shell;
        match &cap.chocolate {
            Some(own) => (own, cap.emulsifiers.as_slice(), cap.stirred_in.as_slice()),
            None => (
                chocolate,
                if cap.emulsifiers.is_empty() { emulsifiers } else { &cap.emulsifiers },
                if cap.stirred_in.is_empty() { stirred_in } else { &cap.stirred_in },
            ),
        }
    });
    let mut uses = Vec::new();
    for ((chocolate, emulsifiers, stirred_in), mass) in [(from_shell, of_shell), (from_cap, of_cap)] {
        let added = stirred_in.iter().map(|added| (added.ingredient.name.clone(), added.dose.base()));
        let dosed = emulsifiers.iter().map(|emulsifier| (priced_as(emulsifier, prices), emulsifier.dose.base()));
        let doses: Vec<_> = added.chain(dosed).collect();
        // Doses are of the chocolate's weight, and what is poured holds both.
        let own = mass / (1.0 + doses.iter().map(|(_, dose)| dose).sum::<f64>());
        uses.push((chocolate.name.clone(), own));
        uses.extend(doses.into_iter().map(|(name, dose)| (name, own * dose)));
    }
    uses
}

/// The name under which an emulsifier is priced, as in the larder; where its plant is not said, any of its kind and form that has a price.
fn priced_as(emulsifier: &Emulsifier, prices: &[(String, f64)]) -> String {
    let kind = emulsifier.kind.key();
    if emulsifier.kind != EmulsifierKind::Lecithin {
        return kind.into();
    }
    let form = format!("{kind}-{}", emulsifier.form.key());
    match emulsifier.source {
        Some(plant) => format!("{form}-{}", plant.key()),
        None => prices.iter().map(|(name, _)| name).find(|name| name.starts_with(&form)).cloned().unwrap_or(form),
    }
}

/// What is weighed into the melted chocolate.
fn stirred_in(piece: &Piece, melt: f64, scale: Option<f64>) -> Vec<Weighing> {
    let Some(shell) = &piece.shell else { return Vec::new() };
    let emulsifiers = shell.emulsifiers.iter().map(|emulsifier| {
        let mass = melt * emulsifier.dose.base();
        Weighing { what: format!("{} {}", emulsifier.form.key(), emulsifier.kind.key()), mass, hint: sticky(emulsifier, mass, scale) }
    });
    let added = shell.stirred_in.iter().map(|added| {
        let mass = melt * added.dose.base();
        Weighing { what: added.ingredient.title.clone(), mass, hint: too_fine(mass, scale, Some("melted chocolate")) }
    });
    emulsifiers.chain(added).collect()
}

/// A fluid emulsifier leaves much of a small dose in the cup.
fn sticky(emulsifier: &Emulsifier, mass: f64, scale: Option<f64>) -> Option<String> {
    let fine = too_fine(mass, scale, Some("melted cocoa butter"));
    if emulsifier.form != EmulsifierForm::Fluid {
        return fine;
    }
    let held = format!("warm it to 40 to 50 °C, weigh {} into a cup and pour {} by difference", grams(2.0 * mass), grams(mass));
    Some(fine.map_or(held.clone(), |fine| format!("{held}; {fine}")))
}

/// What to do when a mass is too small for the scale: dose ten times as much of a mixture.
fn too_fine(mass: f64, scale: Option<f64>, carrier: Option<&str>) -> Option<String> {
    let scale = scale.filter(|scale| mass > 0.0 && mass < HONEST * scale)?;
    let carrier = carrier.unwrap_or("the recipe's liquid");
    Some(format!(
        "the scale's {} are too coarse: mix one part with nine of {carrier}, weigh {} of that, and take as much less of the carrier",
        grams(scale),
        grams(10.0 * mass)
    ))
}

/// What to do, in order, with the temperatures and times that are described.
fn steps(piece: &Piece, assessment: &Assessment) -> Vec<String> {
    let workshop = &piece.workshop;
    let at = |temperature: Option<crate::units::Temperature>| {
        temperature.map_or_else(String::new, |t| format!(" at {}", number::shown(t.measure(Unit::Celsius))))
    };
    let mut steps = Vec::new();
    if let Some(shell) = &piece.shell {
        let tempered = if shell.temper == Some(Temper::Untempered) { "" } else { ", temper it" };
        steps.push(format!("Melt {}{tempered} and hold it{}.", shell.chocolate.title, at(workshop.chocolate_temperature)));
        let drained = shell.drained.map_or_else(String::new, |time| format!(", drain {}", number::shown(time.measure(Unit::Second))));
        let wall = assessment.shell.get(Quantity::WallThickness).known();
        let wall = wall.map_or_else(String::new, |wall| format!(" to a wall of {}", number::brief(Quantity::WallThickness, &wall)));
        let casts = if shell.casts > 1 { format!(", {} times, letting each wall set", shell.casts) } else { String::new() };
        steps.push(format!("Cast the moulds{}{drained}{wall}{casts}.", at(workshop.mould_temperature)));
    }
    for layer in &piece.layers {
        let emulsified = matches!(layer.kind, Some(crate::piece::FillingKind::Ganache)).then_some(workshop.emulsified_at).flatten();
        let emulsified = emulsified.map_or_else(String::new, |t| format!(", emulsify it{}", at(Some(t))));
        let barrier = layer.barrier.map_or_else(String::new, |film| format!("; brush a film of {} on it", film.key().replace('-', " ")));
        steps.push(format!("Make {}{emulsified} and fill it in{}{barrier}.", layer.name, at(layer.temperature)));
    }
    if let Some(rest) = workshop.rest_before_cap {
        steps.push(format!("Let it rest for {}.", number::shown(rest.measure(Unit::Hour))));
    }
    if let Some(cap) = &piece.cap {
        let coats = if cap.coats > 1 { format!(" in {} thin coats", cap.coats) } else { String::new() };
        steps.push(format!("Close with the cap{coats} and scrape it flush."));
    }
    if let Some(time) = workshop.cooled_for {
        steps.push(format!("Cool{} for {}, then release.", at(workshop.cooled_at), number::shown(time.measure(Unit::Hour))));
    }
    steps
}

fn table(text: &mut String, weighings: &[Weighing]) -> std::fmt::Result {
    if weighings.is_empty() {
        return Ok(());
    }
    writeln!(text, "| weigh | of | mind |\n|---:|---|---|")?;
    for weighing in weighings {
        writeln!(text, "| {} | {} | {} |", grams(weighing.mass), weighing.what, weighing.hint.as_deref().unwrap_or(""))?;
    }
    writeln!(text)
}

fn grams(kilograms: f64) -> String {
    number::shown(Measure::from_base(kilograms, Unit::Gram))
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of pieces that was a whole number before")]
fn whole(count: f64) -> u32 {
    count.max(0.0).floor() as u32
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn a_dose_too_small_for_the_scale_is_stretched() {
        assert_eq!(too_fine(0.005, Some(0.0001), None), None, "fifty divisions are honest");
        let hint = too_fine(0.0007, Some(0.0001), Some("invert sugar syrup")).unwrap();
        assert!(hint.contains("one part with nine of invert sugar syrup, weigh 7\u{a0}g of that"), "{hint}");
    }
}
