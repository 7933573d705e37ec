//! The report in plain sentences, as a confectioner reads it.

use super::sentence::{self, capitalised};
use super::{Finding, Report, number};
use crate::assess::{Part, Quantity, QuantitySet};
use crate::engine::Verdict;
use std::fmt::Write;

const WIDTH: usize = 100;
/// How many remedies are shown; the rest stands in the JSON form.
const REMEDIES: usize = 3;
/// Where the text of a finding starts, after its verdict.
const HANG: usize = 9;
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
    let counted: Vec<_> = report.findings.iter().filter(|finding| finding.counts()).collect();
    let key = |finding: &Finding| (finding.rule.id, finding.verdict, finding.decisive().map(|reading| reading.limit.key));
    for (index, finding) in counted.iter().enumerate() {
        let alike = |other: &&&Finding| key(other) == key(finding);
        if !counted.iter().take(index).any(|other| alike(&other)) {
            writeln!(text)?;
            explained(text, report, &counted.iter().filter(alike).copied().collect::<Vec<_>>())?;
        }
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
        (!idle).then(|| format!("{} {}", quantity.words(), number::brief(*quantity, &estimate)))
    });
    let figures: Vec<_> = figures.collect();
    if figures.is_empty() { Ok(()) } else { indented(text, &format!("{}: ", capitalised(report.part_name(part))), 2, &figures.join("; ")) }
}

/// What a rule found: on all parts where it found the same, in one place.
fn explained(text: &mut String, report: &Report, alike: &[&Finding]) -> std::fmt::Result {
    let Some((first, reading)) = alike.first().and_then(|first| Some((first, first.decisive()?))) else { return Ok(()) };
    let places: Vec<_> = alike.iter().map(|finding| sentence::place(report, finding.part)).collect();
    let head = format!("{}: {} [{}]", capitalised(&places.join(", ")), first.rule.title, first.rule.id);
    indented(text, &format!("{:<HANG$}", word(first.verdict)), HANG, &head)?;
    let margin = " ".repeat(HANG);
    for finding in alike {
        let Some(reading) = finding.decisive() else { continue };
        let whose = if alike.len() > 1 { format!("{}: ", capitalised(report.part_name(finding.part))) } else { String::new() };
        let shows = sentence::shows(report, reading).map_or_else(String::new, |shows| format!(" {shows}"));
        let why = if alike.len() > 1 { String::new() } else { format!(" Why: {}", first.rule.why()) };
        indented(text, &margin, HANG, &format!("{whose}{}{shows}{why}", sentence::of(report, reading)))?;
    }
    if alike.len() > 1 {
        indented(text, &margin, HANG, &format!("Why: {}", first.rule.why()))?;
    }
    let own = if first.own_limits { " A limit of this rule was set by the maker." } else { "" };
    indented(text, &margin, HANG, &format!("Basis: {}{own}", sentence::source(reading)))?;
    let most = if first.verdict == Verdict::Fail { REMEDIES } else { 1 };
    for advice in alike.iter().flat_map(|finding| &finding.remedies).take(most) {
        indented(text, &margin, HANG + 2, &format!("Fix: {}", advice.text))?;
    }
    let mendable = !first.rule.drivers.is_empty() && first.verdict > Verdict::Note;
    if mendable && alike.iter().all(|finding| finding.remedies.is_empty()) {
        let honest = "no single change within the range searched mends this: measure, or change several things together.";
        indented(text, &margin, HANG + 2, &format!("Fix: {honest}"))?;
    }
    Ok(())
}

fn accepted(text: &mut String, report: &Report) -> std::fmt::Result {
    for finding in report.findings.iter().filter(|finding| finding.verdict > Verdict::Pass) {
        if let Some(reason) = &finding.accepted {
            writeln!(text)?;
            indented(text, "Accepted ", HANG, &format!("{} ({}): {reason}", finding.rule.title, finding.rule.id))?;
        }
    }
    Ok(())
}

/// What could not be judged and what it lacks, in one paragraph.
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
    if groups.is_empty() {
        return Ok(());
    }
    let asks = |missing: QuantitySet| missing.iter().map(Quantity::ask).collect::<Vec<_>>().join("; ");
    let groups: Vec<_> = groups.iter().map(|(missing, rules)| format!("{} for want of {}", rules.join(", "), asks(*missing))).collect();
    writeln!(text)?;
    indented(text, "Unknown  ", HANG, &format!("Not judged: {}.", groups.join(". ")))
}

fn passed(text: &mut String, report: &Report) -> std::fmt::Result {
    let mut passed: Vec<_> =
        report.findings.iter().filter(|finding| finding.verdict == Verdict::Pass).map(|finding| finding.rule.id).collect();
    passed.sort_unstable();
    passed.dedup();
    match passed.as_slice() {
        [] => Ok(()),
        [rule] => writeln!(text, "\nPassed   {rule}"),
        [..] => writeln!(text, "\nPassed   {} rules", passed.len()),
    }
}

/// A paragraph whose lines after the first are indented by `hang`.
fn indented(text: &mut String, head: &str, hang: usize, body: &str) -> std::fmt::Result {
    let hang = " ".repeat(hang);
    let options =
        textwrap::Options::new(WIDTH).initial_indent(head).subsequent_indent(&hang).word_splitter(textwrap::WordSplitter::NoHyphenation);
    writeln!(text, "{}", textwrap::fill(body, options).replace(number::NO_BREAK, " "))
}
