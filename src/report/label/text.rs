//! The label as text.

use super::ingredients::percent;
use super::{AllergenStatement, Label, Line, Nutrition};
use crate::law::Citation;
use crate::law::allergen::Wording;
use crate::matter::Market;
use crate::report::sentence::capitalised;
use crate::units::Choice;
use std::fmt::Write;

const WIDTH: usize = 100;
/// Where the text of a line starts.
const HANG: usize = 16;
/// The usual cautions.
pub(super) const CAUTIONS: &str = "Arithmetic on published rules, no advice: local authorities and a qualified person decide. Allergens are as complete as \
    the makers' labels; mind shared equipment. Nutrition from composition is an estimate. Laws change: see that each rule still stands.";

impl Label {
    /// The label as text, for a qualified person to check.
    #[must_use]
    pub fn to_text(&self) -> String {
        let mut text = String::new();
        // Writing to a string cannot fail.
        let _ = self.write(&mut text);
        text
    }

    /// The usual cautions.
    #[must_use]
    pub fn cautions() -> String {
        textwrap::fill(CAUTIONS, WIDTH)
    }

    fn write(&self, text: &mut String) -> std::fmt::Result {
        let head = format!("{}: label data for {}", self.piece, market(self.market));
        writeln!(text, "{head}\n{}", "-".repeat(WIDTH))?;
        if !self.holds.is_empty() {
            paragraph(text, "Holds", &joined(&self.holds, |(piece, count)| format!("{piece} ({count})")))?;
        }
        line(text, "Name", &self.name, |name| name.clone())?;
        line(text, "Ingredients", &self.ingredients, super::IngredientList::text)?;
        line(text, "Allergens", &self.allergens, allergens)?;
        line(text, "Quantities", &self.quantities, |all| match all.as_slice() {
            [] => "none".into(),
            all => joined(all, super::StressedQuantity::text),
        })?;
        line(text, "Cocoa", &self.cocoa, |all| match all.as_slice() {
            [] => "no chocolate".into(),
            all => joined(all, |cocoa| {
                let milk = cocoa.milk.as_ref().map_or_else(String::new, |milk| format!(", \"{milk}\""));
                format!("\"{}\"{milk} ({})", cocoa.declared, cocoa.chocolate)
            }),
        })?;
        line(text, "Statements", &self.statements, |all| match all.as_slice() {
            [] => "none due by the rules held here".into(),
            all => joined(all, super::Statement::text),
        })?;
        line(text, "Alcohol", &self.alcohol, alcohol)?;
        self.write_nutrition(text)?;
        line(text, "Net quantity", &self.net_quantity, |net| {
            format!("about {:.0} g: {} pieces of about {:.1} g", net.pack() * 1000.0, net.pieces, net.piece * 1000.0)
        })?;
        if !self.recalled.is_empty() {
            paragraph(text, "Recalled", &format!("these figures are typical and were not read in a sheet: {}", self.recalled.join("; ")))?;
        }
        writeln!(text)
    }

    fn write_nutrition(&self, text: &mut String) -> std::fmt::Result {
        let head = |nutrition: &Nutrition| format!("per {}", nutrition.per);
        let Some(nutrition) = &self.nutrition.value else { return line(text, "Nutrition", &self.nutrition, head) };
        paragraph(text, "Nutrition", &head(nutrition))?;
        let kilojoules = nutrition.lines.iter().find(|line| line.unit == "kJ").and_then(|line| line.printed);
        for each in nutrition.lines.iter().filter(|line| line.unit != "kJ") {
            match (&each.printed, each.amount) {
                // Both energies stand on one line.
                (Some(kilocalories), _) if each.unit == "kcal" => {
                    let both = kilojoules.map_or_else(String::new, |kilojoules| format!("{kilojoules} kJ / "));
                    writeln!(text, "{:HANG$}{:<20}{:>12} kcal", "", each.name, format!("{both}{kilocalories}"))?;
                }
                (Some(printed), Some(band)) => {
                    let wide = (band.high - band.low) > 0.06 * band.value.abs() && band.value > 0.0;
                    let doubt = if wide { format!("  (between {} and {})", short(band.low), short(band.high)) } else { String::new() };
                    let daily = each.daily.map_or_else(String::new, |percent| format!("{:>5} %DV", percent.to_string()));
                    let line = format!("{:HANG$}{:<20}{:>12} {:<2}{daily}{doubt}", "", each.name, printed.to_string(), each.unit);
                    writeln!(text, "{}", line.trim_end())?;
                }
                (None, Some(band)) => {
                    let doubt = format!("between {} and {}", short(band.low), short(band.high));
                    let doubt = if band.high > band.low { format!("  ({doubt})") } else { String::new() };
                    writeln!(text, "{:HANG$}{:<20}{:>12} {}{doubt}", "", each.name, format!("about {}", short(band.value)), each.unit)?;
                }
                _ => {}
            }
        }
        for (names, lacks) in unknown(nutrition) {
            paragraph(text, "", &format!("Still unknown: {}, for want of {lacks}.", names.join(", ")))?;
        }
        rest(text, &self.nutrition)
    }
}

/// What lacks, the first few of it where there is much; the data has all.
fn some_of(lacks: &[String]) -> String {
    const MOST: usize = 3;
    match lacks.get(..MOST) {
        Some(first) if lacks.len() > MOST + 1 => format!("{}; and {} more", first.join("; "), lacks.len() - MOST),
        _ => lacks.join("; "),
    }
}

/// The lines that cannot be told, those with the same lack together.
fn unknown(nutrition: &Nutrition) -> Vec<(Vec<&'static str>, String)> {
    let mut groups: Vec<(Vec<&'static str>, String)> = Vec::new();
    for line in nutrition.lines.iter().filter(|line| line.amount.is_none()) {
        let lacks = some_of(&line.unknown);
        match groups.iter_mut().find(|(_, other)| *other == lacks) {
            Some((names, _)) => names.push(line.name),
            None => groups.push((vec![line.name], lacks)),
        }
    }
    groups
}

fn alcohol(content: &super::AlcoholContent) -> String {
    if content.ethanol <= 0.0 {
        return "none".into();
    }
    let by_volume = content.by_volume.map_or_else(String::new, |share| format!(", {} by volume", percent(share)));
    format!(
        "{:.2} g of ethanol, none evaporated: {} by mass{by_volume}; {:.2} L of pure alcohol in 100 kg",
        content.ethanol * 1000.0,
        percent(content.by_mass),
        content.litres_per_100_kilograms()
    )
}

fn joined<T>(all: &[T], each: impl Fn(&T) -> String) -> String {
    all.iter().map(each).collect::<Vec<_>>().join("; ")
}

fn allergens(statement: &AllergenStatement) -> String {
    let keys = |allergens: &[crate::matter::Allergen]| allergens.iter().map(|allergen| allergen.key()).collect::<Vec<_>>().join(", ");
    let brought = joined(&statement.due, |due| format!("{} by {}", due.word, due.from.join(" and ")));
    let told = statement.classed().join(", ");
    let mut sentences = match (statement.due.is_empty(), statement.sentence()) {
        (true, _) => vec!["none of the market's list comes in with the ingredients".to_owned()],
        (false, Some(sentence)) => {
            let also = if statement.wording == Wording::Summary { ", and by name in the list" } else { "" };
            vec![format!("\"{}\"{also}: {brought}", sentence.trim_end_matches('.'))]
        }
        (false, None) if statement.wording == Wording::Named => {
            vec![format!("by name in the list: {told}"), format!("Brought in: {brought}")]
        }
        (false, None) => vec![format!("emphasised in the list: {told}"), format!("Brought in: {brought}")],
    };
    for spared in &statement.spared {
        sentences.push(format!("{} from {} is exempt ({})", spared.allergen.key(), spared.from.join(", "), spared.citation));
    }
    for (allergens, words) in [
        (&statement.unlisted, "inside, but not on the market's list"),
        (&statement.shared, "on shared equipment"),
        (&statement.broken_promises, "PROMISED FREE FROM, BUT INSIDE OR ON SHARED EQUIPMENT"),
    ] {
        if !allergens.is_empty() {
            sentences.push(format!("{words}: {}", keys(allergens)));
        }
    }
    let sentences: Vec<_> = sentences.iter().map(|sentence| capitalised(sentence)).collect();
    sentences.join(". ")
}

/// A line, what lacks in it, what it rests on and what to mind.
fn line<T>(text: &mut String, head: &str, line: &Line<T>, value: impl FnOnce(&T) -> String) -> std::fmt::Result {
    match &line.value {
        Some(known) => paragraph(text, head, &value(known))?,
        None => paragraph(text, head, &format!("unknown: {}", line.unknown.join("; ")))?,
    }
    rest(text, line)
}

fn rest<T>(text: &mut String, line: &Line<T>) -> std::fmt::Result {
    if line.value.is_some() && !line.unknown.is_empty() {
        paragraph(text, "", &format!("Still unknown: {}.", line.unknown.join("; ")))?;
    }
    for note in &line.notes {
        paragraph(text, "", &format!("Mind: {note}."))?;
    }
    if !line.basis.is_empty() {
        paragraph(text, "", &format!("Basis: {}.", bases(&line.basis)))?;
    }
    Ok(())
}

/// Citations, the sections of one instrument known alike told together.
fn bases(all: &[Citation]) -> String {
    let mut groups: Vec<(&str, &'static str, Vec<&str>)> = Vec::new();
    for citation in all {
        let remark = citation.known.remark();
        match groups.iter_mut().find(|(instrument, known, _)| *instrument == citation.instrument && *known == remark) {
            Some((.., sections)) => sections.push(&citation.section),
            None => groups.push((&citation.instrument, remark, vec![&citation.section])),
        }
    }
    let groups: Vec<_> =
        groups.into_iter().map(|(instrument, remark, sections)| format!("{instrument}, {}{remark}", sections.join(", "))).collect();
    groups.join("; ")
}

fn paragraph(text: &mut String, head: &str, body: &str) -> std::fmt::Result {
    let (head, hang) = (format!("{head:<HANG$}"), " ".repeat(HANG));
    let options =
        textwrap::Options::new(WIDTH).initial_indent(&head).subsequent_indent(&hang).word_splitter(textwrap::WordSplitter::NoHyphenation);
    writeln!(text, "{}", textwrap::fill(&body.replace(" %", "\u{a0}%"), options).replace('\u{a0}', " "))
}

/// Three significant digits are enough for a band.
fn short(value: f64) -> String {
    match value.abs() {
        size if size >= 100.0 => format!("{value:.0}"),
        size if size >= 10.0 => format!("{value:.1}"),
        _ => format!("{value:.2}"),
    }
}

const fn market(market: Market) -> &'static str {
    match market {
        Market::Eu => "the European Union",
        Market::Uk => "the United Kingdom",
        Market::Codex => "Codex Alimentarius",
        Market::Us => "the United States",
        Market::Ca => "Canada",
        Market::AuNz => "Australia and New Zealand",
        Market::Jp => "Japan",
    }
}
