//! The report in plain sentences, as a confectioner reads it.

use super::sentence::{self, capitalised};
use super::{Finding, Report, number};
use crate::assess::{Part, Quantity, QuantitySet};
use crate::engine::Verdict;
use std::fmt::Write;

const WIDTH: usize = 100;
/// How many remedies are shown; the rest stands in the JSON form.
const REMEDIES: usize = 3;
/// The usual cautions.
const CAUTIONS: &str = "An estimate is not a measurement: confirm water activity with a calibrated meter and keeping with a trial. Allergens are \
    only as complete as the makers' labels. Follow local food law and ask a qualified person.";

/// Several reports, with the cautions once at the end.
#[must_use]
pub fn to_text(reports: &[Report]) -> String {
    let mut text = String::new();
    for report in reports {
        // Writing to a string cannot fail.
        let _ = piece(&mut text, report);
        text.push('\n');
    }
    text + &textwrap::fill(CAUTIONS, WIDTH) + "\n"
}

fn piece(text: &mut String, report: &Report) -> std::fmt::Result {
    let verdict = word(report.verdict());
    writeln!(text, "{}{verdict:>width$}", report.name, width = WIDTH.saturating_sub(report.name.chars().count()).max(verdict.len() + 1))?;
    writeln!(text, "{}", "=".repeat(WIDTH))?;
    for (part, _) in report.assessment.parts() {
        figures(text, report, part)?;
    }
    for finding in report.findings.iter().filter(|finding| finding.counts()) {
        writeln!(text)?;
        explained(text, report, finding)?;
    }
    accepted(text, report)?;
    unknown(text, report)?;
    passed(text, report)
}

const fn word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Pass => "PASS",
        Verdict::Note => "NOTE",
        Verdict::Caution => "CAUTION",
        Verdict::Fail => "FAIL",
    }
}

/// What a part comes to, on one line.
fn figures(text: &mut String, report: &Report, part: Part) -> std::fmt::Result {
    let shown: &[Quantity] = match part {
        Part::Whole => &[Quantity::PieceMass, Quantity::InnerVolume, Quantity::Headroom, Quantity::ChocolateShare],
        Part::Shell => &[Quantity::WallThickness, Quantity::ShellMass, Quantity::ChocolateFat, Quantity::Lecithin],
        Part::Layer(_) => &[
            Quantity::LayerMass,
            Quantity::WaterActivity,
            Quantity::Water,
            Quantity::Fat,
            Quantity::Sugars,
            Quantity::Ethanol,
            Quantity::Density,
            Quantity::YieldValue,
        ],
        Part::Cap => &[Quantity::CapRoom, Quantity::CapMass],
    };
    let Some(assessed) = report.assessment.part(part) else { return Ok(()) };
    let figures = shown.iter().filter_map(|quantity| {
        let estimate = assessed.get(*quantity).known()?;
        let idle = matches!(quantity, Quantity::Fat | Quantity::Ethanol) && estimate.value() <= 0.0;
        (!idle).then(|| format!("{} {}", quantity.words(), number::estimate(*quantity, &estimate)))
    });
    let figures: Vec<_> = figures.collect();
    if figures.is_empty() { Ok(()) } else { indented(text, &format!("{}: ", capitalised(report.part_name(part))), &figures.join("; ")) }
}

fn explained(text: &mut String, report: &Report, finding: &Finding) -> std::fmt::Result {
    let head = format!("{:<9}", word(finding.verdict));
    let place = sentence::place(report, finding.part);
    indented(text, &head, &format!("{}: {} [{}]", capitalised(&place), finding.rule.title, finding.rule.id))?;
    let Some(reading) = finding.decisive() else { return Ok(()) };
    let margin = " ".repeat(9);
    indented(text, &margin, &sentence::of(report, reading))?;
    if let Some(shows) = sentence::shows(report, reading) {
        indented(text, &margin, &shows)?;
    }
    indented(text, &format!("{margin}Why: "), finding.rule.why())?;
    let own = if finding.own_limits { " A limit of this rule was set by the maker." } else { "" };
    indented(text, &format!("{margin}Basis: "), &format!("{}{own}", sentence::source(reading)))?;
    for advice in finding.remedies.iter().take(REMEDIES) {
        indented(text, &format!("{margin}Fix: "), &advice.text)?;
    }
    if finding.remedies.is_empty() && !finding.rule.drivers.is_empty() && finding.verdict > Verdict::Note {
        indented(
            text,
            &format!("{margin}Fix: "),
            "No single change within the range searched mends this; change several things together.",
        )?;
    }
    Ok(())
}

fn accepted(text: &mut String, report: &Report) -> std::fmt::Result {
    for finding in report.findings.iter().filter(|finding| finding.verdict > Verdict::Pass) {
        if let Some(reason) = &finding.accepted {
            writeln!(text)?;
            indented(text, "Accepted ", &format!("{} ({}): {reason}", finding.rule.title, finding.rule.id))?;
        }
    }
    Ok(())
}

/// What could not be judged, gathered by what lacks.
fn unknown(text: &mut String, report: &Report) -> std::fmt::Result {
    let mut groups: Vec<(QuantitySet, Vec<String>)> = Vec::new();
    for unknown in &report.unknown {
        let who = match unknown.part {
            Part::Layer(_) => format!("{} of {}", unknown.rule.id, report.part_name(unknown.part)),
            _ => unknown.rule.id.to_owned(),
        };
        match groups.iter_mut().find(|(missing, _)| *missing == unknown.missing) {
            Some((_, rules)) => rules.push(who),
            None => groups.push((unknown.missing, vec![who])),
        }
    }
    for (index, (missing, rules)) in groups.iter().enumerate() {
        if index == 0 {
            writeln!(text)?;
        }
        let asks: Vec<_> = missing.iter().map(Quantity::ask).collect();
        indented(text, "Unknown  ", &format!("{}. To judge: {}.", rules.join(", "), asks.join("; ")))?;
    }
    Ok(())
}

fn passed(text: &mut String, report: &Report) -> std::fmt::Result {
    let mut passed: Vec<_> =
        report.findings.iter().filter(|finding| finding.verdict == Verdict::Pass).map(|finding| finding.rule.id).collect();
    passed.sort_unstable();
    passed.dedup();
    if passed.is_empty() {
        return Ok(());
    }
    writeln!(text)?;
    indented(text, "Passed   ", &passed.join(", "))
}

/// A paragraph whose lines after the first stand under the text of the first.
fn indented(text: &mut String, head: &str, body: &str) -> std::fmt::Result {
    let hang = " ".repeat(if head.trim_start().is_empty() || head.len() > 12 {
        head.len() - head.trim_start().len() + usize::from(head.len() > 12) * 2
    } else {
        head.len()
    });
    let options = textwrap::Options::new(WIDTH).initial_indent(head).subsequent_indent(&hang);
    writeln!(text, "{}", textwrap::fill(body, options))
}
