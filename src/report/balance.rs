//! A balance in words: what to weigh, what it reaches, what binds and which concession would free it.

use super::number::{self, NO_BREAK};
use crate::balance::{Active, Answer, Concession, End, Line, Request};
use crate::matter::Constituent;
use crate::units::{Checked, MassFraction, Measure, Portion, Unit};
use std::fmt::Write;

const WIDTH: usize = 100;
/// Matter of unknown nature is told from so much of the whole.
const WORTH_TELLING: f64 = 0.001;

/// What a request came to, as a confectioner reads it.
///
/// It tells nothing of what is not linear, such as water activity: check the recipe.
#[must_use]
pub fn balance_text(request: &Request, answer: &Answer) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut text, request, answer);
    text.replace(NO_BREAK, " ")
}

fn write(text: &mut String, request: &Request, answer: &Answer) -> std::fmt::Result {
    writeln!(text, "{}: {}", request.name, grams(request.batch))?;
    writeln!(text, "{}", "=".repeat(WIDTH))?;
    let missed = answer.reached.iter().filter(|reached| !reached.is_met()).count();
    let said = match missed {
        0 => "Everything that is wanted can be met.".to_owned(),
        _ => format!(
            "What is wanted cannot all be met: {missed} of {} targets are missed. This is the recipe that misses least, each miss squared and \
             weighed.",
            answer.reached.len()
        ),
    };
    paragraph(text, &said)?;
    writeln!(text)?;
    for (line, mass) in request.lines.iter().zip(&answer.masses) {
        let told = if line.forbidden {
            "  forbidden".to_owned()
        } else if !line.ingredient.allergens.intersection(request.free_from).is_empty() {
            "  left out: it brings what must stay out".to_owned()
        } else {
            String::new()
        };
        writeln!(text, "{:>12}  {}{told}", format!("{:.1} g", 1000.0 * mass.base()), line.ingredient.title)?;
    }
    writeln!(text)?;
    writeln!(text, "{:<32}{:>10}  {:<24}miss", "share", "reached", "wanted")?;
    for (target, reached) in request.targets.iter().zip(&answer.reached) {
        let wanted = wanted(target.least, target.most);
        let miss = match reached.miss {
            _ if reached.is_met() => "none".to_owned(),
            miss if miss > 0.0 => format!("{} above", points(miss)),
            miss => format!("{} below", points(-miss)),
        };
        writeln!(text, "{:<32}{:>10}  {wanted:<24}{miss}", target.share.words(), percent(reached.share))?;
    }
    unidentified(text, answer)?;
    binding(text, request, answer)?;
    concessions(text, request, answer)
}

fn unidentified(text: &mut String, answer: &Answer) -> std::fmt::Result {
    let unknown = answer.recipe().composition().of(Constituent::Unidentified);
    if unknown < WORTH_TELLING {
        return Ok(());
    }
    paragraph(
        text,
        &format!("The nature of {} of it is not known: the shares may be off by that.", percent(MassFraction::nearest(unknown))),
    )
}

/// The bounds the recipe stands on.
fn binding(text: &mut String, request: &Request, answer: &Answer) -> std::fmt::Result {
    let told = |holds: bool| {
        let words = answer.active.iter().filter(move |active| active.holds_back == holds).filter_map(|active| bound(request, active));
        words.collect::<Vec<_>>()
    };
    let (back, others) = (told(true), told(false));
    if !back.is_empty() || !others.is_empty() {
        writeln!(text)?;
    }
    if !back.is_empty() {
        paragraph(text, &format!("What binds: {}.", back.join("; ")))?;
    }
    if !others.is_empty() {
        paragraph(text, &format!("Also at their bounds, without holding anything back: {}.", others.join("; ")))?;
    }
    Ok(())
}

fn bound(request: &Request, active: &Active) -> Option<String> {
    let line = request.lines.get(active.line)?;
    let title = &line.ingredient.title;
    Some(match (active.end, line.most) {
        (End::Most, Some(most)) => format!("{title} at the {} allowed at most", grams(most)),
        (End::Least, _) if line.least.base() > 0.0 => format!("{title} at the {} wanted at least", grams(line.least)),
        (End::Least, _) if active.holds_back => format!("{title} at none, where less than none would be needed"),
        _ => format!("{title} at none"),
    })
}

fn concessions(text: &mut String, request: &Request, answer: &Answer) -> std::fmt::Result {
    if answer.is_met() {
        return Ok(());
    }
    let told: Vec<_> = answer.concessions.iter().filter_map(|concession| conceded(request, concession)).collect();
    writeln!(text)?;
    if told.is_empty() {
        return paragraph(text, "No single concession would do: at least two of the wishes must give way, or another ingredient come in.");
    }
    writeln!(text, "Any one of these would let everything else be met:")?;
    for line in told {
        writeln!(text, "{}", textwrap::fill(&line, textwrap::Options::new(WIDTH).initial_indent("  - ").subsequent_indent("    ")))?;
    }
    Ok(())
}

fn conceded(request: &Request, concession: &Concession) -> Option<String> {
    Some(match concession {
        Concession::Target { target, to } => {
            let target = request.targets.get(*target)?;
            format!("{} {} instead of {}", percent(*to), target.share.words(), wanted(target.least, target.most))
        }
        Concession::Bound { line, end, to } => {
            let line = request.lines.get(*line)?;
            let (side, was) = match end {
                End::Least => ("at least", line.least),
                End::Most => ("at most", line.most?),
            };
            let title = &line.ingredient.title;
            if is_fixed(line) {
                format!("{} of {title} instead of {}", grams(*to), grams(was))
            } else {
                format!("{side} {} of {title} instead of {}", grams(*to), grams(was))
            }
        }
        Concession::Filler { mass } => format!(
            "{} of something that holds none of {}",
            grams(*mass),
            request.targets.iter().map(|target| target.share.words()).collect::<Vec<_>>().join(", ")
        ),
    })
}

fn is_fixed(line: &Line) -> bool {
    line.most == Some(line.least)
}

fn wanted(least: MassFraction, most: MassFraction) -> String {
    match (least, most) {
        _ if least == most => percent(least),
        _ if least.base() <= 0.0 => format!("at most {}", percent(most)),
        _ if most.base() >= 1.0 => format!("at least {}", percent(least)),
        _ => format!("{} to {}", percent(least), percent(most)),
    }
}

/// Two decimals: a miss of a hundredth is told.
fn percent(share: MassFraction) -> String {
    format!("{:.2} %", 100.0 * share.base())
}

fn points(difference: f64) -> String {
    if difference < 5e-5 { "less than 0.01 %".to_owned() } else { format!("{:.2} %", 100.0 * difference) }
}

fn grams(mass: Portion) -> String {
    let mass = mass.measure(Unit::Gram);
    number::shown(Measure::new((10.0 * mass.value()).round() / 10.0, Unit::Gram))
}

fn paragraph(text: &mut String, words: &str) -> std::fmt::Result {
    writeln!(text, "{}", textwrap::fill(words, WIDTH))
}
