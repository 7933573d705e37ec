//! How many batches pass, in a table and a few sentences that a confectioner reads.

use super::number::{self, NO_BREAK};
use super::sentence::capitalised;
use crate::assess::Part;
use crate::engine::Verdict;
use crate::matter::Lot;
use crate::piece::{Knob, Piece};
use crate::tolerance::{Care, Cause, RuleStudy, ScaleNeed, Study};
use crate::units::{Checked, MassFraction, Portion, Unit};
use std::fmt::Write;

const WIDTH: usize = 100;
/// From here on every batch is said to do.
const ALL: f64 = 0.9995;

/// What a piece comes to from batch to batch.
#[must_use]
pub fn tolerance_text(piece: &Piece, care: &Care, study: &Study, need: &ScaleNeed) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut text, piece, care, study, need);
    text.replace(NO_BREAK, " ")
}

fn write(text: &mut String, piece: &Piece, care: &Care, study: &Study, need: &ScaleNeed) -> std::fmt::Result {
    writeln!(text, "{}", piece.name)?;
    writeln!(text, "{}", "=".repeat(WIDTH))?;
    summary(text, piece, care, study)?;
    let (shown, sure): (Vec<_>, Vec<_>) =
        study.passing().partition(|rule| [rule.batches, rule.estimate, rule.either].iter().any(|share| *share < ALL));
    if !shown.is_empty() {
        writeln!(text)?;
        writeln!(text, "{:>8}{:>10}{:>7}  of 100; rule and part: what matters most", "batches", "estimate", "both")?;
        for rule in shown {
            row(text, piece, rule)?;
        }
    }
    if !sure.is_empty() {
        writeln!(text, "{:>8}{:>10}{:>7}  {} more", 100, 100, 100, sure.len())?;
    }
    let lost: Vec<_> = study.rules.iter().filter(|rule| rule.verdict > Verdict::Pass).map(|rule| named(piece, rule)).collect();
    if !lost.is_empty() {
        writeln!(text)?;
        paragraph(text, &format!("Not counted, as they do not pass as described: {}.", lost.join(", ")))?;
    }
    writeln!(text)?;
    scale(text, piece, need)
}

fn summary(text: &mut String, piece: &Piece, care: &Care, study: &Study) -> std::fmt::Result {
    let division = grams(piece.workshop.scale_division.unwrap_or(care.scale_division));
    let assumed = if piece.workshop.scale_division.is_none() { ", as is assumed where nothing is said" } else { "" };
    let passing = study.passing().count();
    if passing == 0 {
        return paragraph(text, "No rule passes on the piece as described, so there is nothing that a batch could lose.");
    }
    let rules =
        if study.rules.iter().any(|rule| rule.verdict > Verdict::Pass) { "every rule that it passes as described" } else { "every rule" };
    let first = study.passing().find(|rule| rule.batches < ALL);
    let first = first.map_or(String::new(), |rule| {
        let cause = rule.causes.first().map_or(String::new(), |(cause, _)| format!("; what matters most is {}", words(piece, *cause)));
        format!(" The first to be lost is {}{cause}.", named(piece, rule))
    });
    paragraph(text, &format!("If you weigh to {division}{assumed}, {} of 100 batches pass {rules}.{first}", hundred(study.all_pass)))
}

fn row(text: &mut String, piece: &Piece, rule: &RuleStudy) -> std::fmt::Result {
    let rough = if rule.is_rough() { "about " } else { "" };
    let cause = rule
        .causes
        .first()
        .filter(|_| rule.batches < ALL)
        .map_or(String::new(), |(cause, share)| format!(": {} ({}{NO_BREAK}%)", words(piece, *cause), hundred(*share)));
    let [batches, estimate, both] = [rule.batches, rule.estimate, rule.either].map(hundred);
    let lead = format!("{:>8}{estimate:>10}{both:>7}  ", format!("{rough}{batches}"));
    let hang = " ".repeat(lead.len() + 2);
    let options =
        textwrap::Options::new(WIDTH).initial_indent(&lead).subsequent_indent(&hang).word_splitter(textwrap::WordSplitter::NoHyphenation);
    writeln!(text, "{}", textwrap::fill(&format!("{}{cause}", named(piece, rule)), options))
}

fn scale(text: &mut String, piece: &Piece, need: &ScaleNeed) -> std::fmt::Result {
    let kept = hundred(need.kept);
    let answer = match need.division {
        Some(division) => {
            let next = match (&need.lost_next, need.smallest) {
                (Some((rule, share)), _) => {
                    format!(" With the next coarser {} passes only {} of 100.", named(piece, rule), hundred(*share))
                }
                (None, Some(smallest)) if need.ends_at_smallest() => {
                    format!(" A coarser one was not tried: the smallest weighing is {}.", grams(smallest))
                }
                (None, _) => String::new(),
            };
            format!("Scale: {} is fine enough to keep every rule that a scale can keep in {kept} of 100 batches.{next}", grams(division))
        }
        None => format!("Scale: none of the usual ones is fine enough to keep every rule in {kept} of 100 batches."),
    };
    paragraph(text, &answer)?;
    if need.beyond_scales.is_empty() {
        return Ok(());
    }
    let beyond = need.beyond_scales.iter().map(|rule| {
        let cause = rule.causes.first().map_or(String::new(), |(cause, _)| format!(" (mind {})", words(piece, *cause)));
        format!("{}{cause}", named(piece, rule))
    });
    paragraph(text, &format!("Whatever the scale, fewer pass: {}.", beyond.collect::<Vec<_>>().join("; ")))
}

fn named(piece: &Piece, rule: &RuleStudy) -> String {
    match rule.part {
        Part::Layer(index) => format!("{} of {}", rule.rule.id, piece.layers.get(index).map_or("", |layer| &layer.name)),
        _ => rule.rule.id.to_owned(),
    }
}

/// What a cause is called.
fn words(piece: &Piece, cause: Cause) -> String {
    match cause {
        Cause::Setting(knob @ (Knob::IngredientMass(..) | Knob::EmulsifierDose(..) | Knob::StirredInDose(..))) => {
            format!("the weighing of {}", knob.label(piece))
        }
        Cause::Setting(knob) => format!("the {}", knob.label(piece)),
        Cause::Lot { layer, line, of } => {
            let weighed = piece.layers.get(layer).and_then(|layer| layer.recipe.as_ref()?.lines().get(line));
            let what = match of {
                Lot::Water => "water",
                Lot::Fat => "fat",
            };
            format!("the {what} in the lot of {}", weighed.map_or("", |line| line.ingredient.title.as_str()))
        }
    }
}

/// The legend of the table, once under all of them.
#[must_use]
pub fn tolerance_legend(care: &Care) -> String {
    let kelvin = |kelvin: f64| format!("{kelvin} K");
    let percent = |share: crate::units::MassFraction| number::shown(share.measure(Unit::Percent));
    let paragraphs = [
        "batches: of 100 batches, how many the rule passes. What differs from batch to batch, by chance, is weighing, lots, cooking out, temperatures and \
         depths; depths, walls and amounts differ from piece to piece as well, so there read pieces. The band of an estimate counts as it does in the verdict."
            .to_owned(),
        "estimate: of 100, how likely the recipe lies on the right side of the limit at all, the models being uncertain. That is the same for \
         every batch: if the estimate is wrong it is wrong for all of them, and no care at the bench helps, only a measurement."
            .to_owned(),
        "both: how likely the next batch lies on the right side, all that is counted. It is no share of batches.".to_owned(),
        format!(
            "Assumed, each as a standard deviation ({}; replace it by your own): a weighing is shown to the division and stopped within one; {} of it \
             stays in the bowl, {} of an emulsifier; lots differ as the larder or the document states, or by {} of their water or dry matter, whichever is less, or of their fat; a pot is \
             taken off within {} of its mass; layers poured by mass or volume are off by {}, depths by {} mm, walls by {} mm; tempered chocolate by {}, \
             what a hand and a thermometer see to by {}, cabinets and stores by {}. Rests and cooling times are kept.",
            Care::SOURCE.title,
            percent(care.left_behind),
            percent(care.dose_left_behind),
            percent(MassFraction::nearest(Lot::USUAL)),
            percent(care.cooking_out),
            percent(care.depositing),
            1000.0 * care.fill_depth,
            1000.0 * care.wall,
            kelvin(care.chocolate_temperature),
            kelvin(care.temperature),
            kelvin(care.cabinet),
        ),
    ];
    paragraphs.map(|words| capitalised(&textwrap::fill(&words, WIDTH)) + "\n").concat().replace(NO_BREAK, " ")
}

/// Of a hundred. What is not quite all is not rounded up to all, what is not quite none not down to none.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share lies between zero and one")]
fn hundred(share: f64) -> u32 {
    let rounded = (100.0 * share).round() as u32;
    if rounded == 100 && share < ALL {
        99
    } else if rounded == 0 && share > 1.0 - ALL {
        1
    } else {
        rounded
    }
}

fn grams(mass: Portion) -> String {
    number::shown(mass.measure(Unit::Gram))
}

fn paragraph(text: &mut String, words: &str) -> std::fmt::Result {
    writeln!(text, "{}", textwrap::fill(words, textwrap::Options::new(WIDTH).word_splitter(textwrap::WordSplitter::NoHyphenation)))
}
