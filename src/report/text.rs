//! The report in plain sentences, as a confectioner reads it: on one screen, or in full with reasons, sources and every fix.

use super::sentence::{self, capitalised, uncapitalised};
use super::{Finding, Report, missing, number};
use crate::assess::{Part, Quantity};
use crate::engine::{Reading, Verdict};
use std::fmt::Write;

const WIDTH: usize = 100;
/// How many remedies of a failure are shown in full; the rest stands in the JSON form.
const REMEDIES: usize = 3;
/// Where the text of a finding starts, after its verdict.
const HANG: usize = 9;
/// The usual cautions.
const CAUTIONS: &str = "An estimate is not a measurement: confirm water activity with a calibrated meter and keeping with a trial. Allergens are \
    only as complete as the makers' labels. What is said of law is arithmetic on published limits, no advice: local authorities and a qualified \
    person decide.";
const NO_FIX: &str = "No single change mends it.";

/// How much is told.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Detail {
    /// What is wrong and what to do, on one screen.
    Screen,
    /// Also why, on what basis, every figure, and the lines to write.
    Full,
}

/// Several reports, each on about one screen, with the cautions once at the end.
#[must_use]
pub fn to_text(reports: &[Report]) -> String {
    told(reports, Detail::Screen)
}

/// The same in full: why each finding matters, on what basis it stands, further fixes with the lines to write, what passed.
#[must_use]
pub fn to_full_text(reports: &[Report]) -> String {
    told(reports, Detail::Full)
}

fn told(reports: &[Report], detail: Detail) -> String {
    let mut text = String::new();
    for report in reports {
        // Writing to a string cannot fail.
        let _ = piece(&mut text, report, detail);
        text.push('\n');
    }
    text + &textwrap::fill(CAUTIONS, WIDTH) + "\n"
}

fn piece(text: &mut String, report: &Report, detail: Detail) -> std::fmt::Result {
    let verdict = word(report.verdict());
    writeln!(text, "{}{verdict:>width$}", report.name, width = WIDTH.saturating_sub(report.name.chars().count()).max(verdict.len() + 1))?;
    writeln!(text, "{}", "=".repeat(WIDTH))?;
    for (part, _) in report.assessment.parts() {
        figures(text, report, part, detail)?;
    }
    findings(text, report, detail)?;
    accepted(text, report)?;
    unknown(text, report, detail)?;
    passed(text, report, detail)
}

const fn word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Pass => "PASS",
        Verdict::Note => "NOTE",
        Verdict::Caution => "CAUTION",
        Verdict::Fail => "FAIL",
    }
}

/// What a part comes to: on the screen what is asked for most.
fn figures(text: &mut String, report: &Report, part: Part, detail: Detail) -> std::fmt::Result {
    let (on_screen, more): (&[Quantity], &[Quantity]) = match part {
        Part::Whole => (&[Quantity::PieceMass, Quantity::Headroom, Quantity::ChocolateShare], &[Quantity::InnerVolume]),
        Part::Shell => (&[Quantity::WallThickness, Quantity::ShellMass, Quantity::ChocolateFat, Quantity::Lecithin], &[]),
        Part::Layer(_) => (
            &[Quantity::LayerMass, Quantity::WaterActivity, Quantity::Water, Quantity::Fat, Quantity::Sugars, Quantity::Ethanol],
            &[Quantity::Density, Quantity::YieldValue],
        ),
        Part::Cap => (&[], &[Quantity::CapRoom, Quantity::CapMass]),
    };
    let Some(assessed) = report.assessment.part(part) else { return Ok(()) };
    let more = if detail == Detail::Full { more } else { &[] };
    let figures = on_screen.iter().chain(more).filter_map(|quantity| {
        let estimate = assessed.get(*quantity).known()?;
        let idle = matches!(quantity, Quantity::Fat | Quantity::Ethanol) && estimate.value() < TRACE;
        let told = || format!("{} {}", label(*quantity, detail), number::brief(*quantity, &estimate)).trim_start().to_owned();
        (!idle).then(told)
    });
    let figures: Vec<_> = figures.collect();
    if figures.is_empty() { Ok(()) } else { indented(text, &format!("{}: ", capitalised(report.part_name(part))), 2, &figures.join("; ")) }
}

/// Fat or ethanol below this share is not worth a word.
const TRACE: f64 = 0.001;

/// What a figure is called: on the screen in a word.
const fn label(quantity: Quantity, detail: Detail) -> &'static str {
    match (detail, quantity) {
        (Detail::Screen, Quantity::PieceMass | Quantity::LayerMass | Quantity::ShellMass) => "",
        (Detail::Screen, Quantity::WallThickness) => "wall",
        (Detail::Screen, Quantity::Fat | Quantity::ChocolateFat) => "fat",
        (Detail::Screen, Quantity::Lecithin) => "lecithin",
        (Detail::Screen, Quantity::Sugars) => "sugars",
        (Detail::Screen, Quantity::Ethanol) => "ethanol",
        _ => quantity.words(),
    }
}

/// What was found, what is alike in one place: on the screen a paragraph each.
fn findings(text: &mut String, report: &Report, detail: Detail) -> std::fmt::Result {
    let counted: Vec<_> = report.findings.iter().filter(|finding| finding.counts()).collect();
    let key = |finding: &Finding| (finding.rule.id, finding.verdict, finding.decisive().map(|reading| reading.limit.key));
    let mut told: Vec<(Verdict, String, String)> = Vec::new();
    for (index, finding) in counted.iter().enumerate() {
        let alike = |other: &&&Finding| key(other) == key(finding);
        if counted.iter().take(index).any(|other| alike(&other)) {
            continue;
        }
        let alike: Vec<_> = counted.iter().filter(alike).copied().collect();
        let body = if detail == Detail::Full { explained(report, &alike)? } else { briefly(report, &alike) };
        let (verdict, head) = (finding.verdict, head(report, &alike, detail));
        // On the screen two rules that say the same of the same value say it together.
        match told.iter_mut().find(|(other, _, said)| detail == Detail::Screen && *other == verdict && *said == body) {
            Some((_, heads, _)) => *heads = format!("{heads}; {head}"),
            None => told.push((verdict, head, body)),
        }
    }
    for (index, (verdict, head, body)) in told.iter().enumerate() {
        if index == 0 || detail == Detail::Full {
            writeln!(text)?;
        }
        let said = if detail == Detail::Full { capitalised(head) } else { format!("{}{body}", capitalised(head)) };
        indented(text, &format!("{:<HANG$}", word(*verdict)), HANG, &said)?;
        if detail == Detail::Full {
            text.push_str(body);
        }
    }
    Ok(())
}

/// The parts and the fault; in full also the rule's name.
fn head(report: &Report, alike: &[&Finding], detail: Detail) -> String {
    let places: Vec<_> = alike.iter().map(|finding| sentence::place(report, finding.part)).collect();
    // Where one of several is a breach, so they are all told.
    let Some(finding) = alike.iter().find(|finding| !finding.keeps()).or(alike.first()) else { return places.join(", ") };
    let id = if detail == Detail::Full { format!(" [{}]", finding.rule.id) } else { String::new() };
    format!("{}: {}{id}", places.join(", "), finding.fault())
}

/// What one rule found on one or several parts, and the least that mends it, on the screen: value, limit, fix.
fn briefly(report: &Report, alike: &[&Finding]) -> String {
    let figures = alike.iter().filter_map(|finding| {
        let reading = finding.decisive()?;
        let mut told: Vec<_> = sentence::brief(report, reading).into_iter().collect();
        // The other rows of law that are as bad stand in full.
        let more = as_bad(finding, reading).count();
        told.extend((more > 0).then(|| format!("and {more} more of law")));
        let whose = if alike.len() > 1 { format!("{}: ", report.part_name(finding.part)) } else { String::new() };
        (!told.is_empty()).then(|| format!("{whose}{}", told.join("; ")))
    });
    let figures: Vec<_> = figures.collect();
    let mut text = if figures.is_empty() { ".".into() } else { format!(": {}.", figures.join("; ")) };
    // How fast a crisp goes soft is news on the screen too.
    let softening = alike.iter().filter_map(|finding| sentence::softening(report, finding.decisive()?));
    softening.for_each(|softening| text += &format!(" {softening}"));
    let mut fixes: Vec<_> =
        alike.iter().filter_map(|finding| finding.remedies.first()).map(|advice| uncapitalised(&advice.brief)).collect();
    fixes.dedup();
    match fixes.as_slice() {
        [] if mendable(alike) => text + " " + NO_FIX,
        [] => text,
        fixes => format!("{text} Fix: {}", fixes.join(" And: ")),
    }
}

/// Of a family of limits, each other row that is as bad.
fn as_bad<'f>(finding: &'f Finding, decisive: &Reading) -> impl Iterator<Item = &'f Reading> {
    let others = finding.readings.iter().filter(|other| other.bound.row.is_some() && other.bound.row != decisive.bound.row);
    others.filter(|other| other.verdict == finding.verdict && other.blame() > Verdict::Pass)
}

/// Whether turning something could mend it at all.
fn mendable(alike: &[&Finding]) -> bool {
    alike.first().is_some_and(|first| {
        let blamed = first.readings.iter().any(|reading| reading.blame() > Verdict::Note);
        !first.rule.drivers.is_empty() && first.verdict > Verdict::Note && blamed
    })
}

/// What one rule found on one or several parts, why it matters, on what basis, and what to do.
fn explained(report: &Report, alike: &[&Finding]) -> Result<String, std::fmt::Error> {
    let (several, margin) = (alike.len() > 1, " ".repeat(HANG));
    let mut text = String::new();
    let Some((first, reading)) = alike.first().and_then(|first| Some((first, first.decisive()?))) else { return Ok(text) };
    for finding in alike {
        let Some(reading) = finding.decisive() else { continue };
        let whose = if several { format!("{}: ", capitalised(report.part_name(finding.part))) } else { String::new() };
        let shows = sentence::shows(report, reading).map_or_else(String::new, |shows| format!(" {shows}"));
        let why = if several { String::new() } else { format!(" Why: {}", first.rule.why()) };
        indented(&mut text, &margin, HANG, &format!("{whose}{}{shows}{why}", sentence::of(report, reading)))?;
        for other in as_bad(finding, reading) {
            let basis = capitalised(&sentence::source(report, other));
            indented(&mut text, &margin, HANG, &format!("Also: {} {basis}", sentence::of(report, other)))?;
        }
    }
    if several {
        indented(&mut text, &margin, HANG, &format!("Why: {}", first.rule.why()))?;
    }
    let own = if first.own_limits { " A limit of this rule was set by the maker." } else { "" };
    indented(&mut text, &margin, HANG, &format!("Basis: {}{own}", sentence::source(report, reading)))?;
    let most = if first.verdict == Verdict::Fail { REMEDIES } else { 1 };
    for advice in alike.iter().flat_map(|finding| &finding.remedies).take(most) {
        indented(&mut text, &margin, HANG + 2, &format!("Fix: {}", advice.text))?;
    }
    if mendable(alike) && alike.iter().all(|finding| finding.remedies.is_empty()) {
        indented(&mut text, &margin, HANG + 2, NO_FIX)?;
    }
    Ok(text)
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

/// What could not be judged, by what must be told to settle it: on the screen in one paragraph.
fn unknown(text: &mut String, report: &Report, detail: Detail) -> std::fmt::Result {
    let lines: Vec<_> = missing::groups(report).iter().map(|group| told_of(group, detail)).collect();
    if lines.is_empty() {
        return Ok(());
    }
    if detail == Detail::Screen {
        return indented(text, "Unknown  ", HANG, &lines.join(" "));
    }
    writeln!(text)?;
    for (index, line) in lines.iter().enumerate() {
        indented(text, if index == 0 { "Unknown  " } else { "         " }, HANG + 2, line)?;
    }
    Ok(())
}

fn told_of(group: &missing::Group, detail: Detail) -> String {
    let settles = match group.rules.as_slice() {
        [rule] => (*rule).to_owned(),
        rules if detail == Detail::Full => rules.join(", "),
        rules => format!("{} rules", rules.len()),
    };
    let lacking = group.lacking(detail == Detail::Full);
    if group.is_tellable() {
        format!("Tell {lacking}: settles {settles}.")
    } else {
        format!("Not known to anyone yet: {lacking}; {settles} stays open.")
    }
}

fn passed(text: &mut String, report: &Report, detail: Detail) -> std::fmt::Result {
    let mut passed: Vec<_> =
        report.findings.iter().filter(|finding| finding.verdict == Verdict::Pass).map(|finding| finding.rule.id).collect();
    passed.sort_unstable();
    passed.dedup();
    if passed.is_empty() {
        return Ok(());
    }
    if detail == Detail::Full {
        writeln!(text)?;
    }
    let told = match passed.as_slice() {
        [rule] => (*rule).to_owned(),
        rules if detail == Detail::Full => format!("{} rules: {}.", rules.len(), rules.join(", ")),
        rules => format!("{} rules", rules.len()),
    };
    indented(text, "Passed   ", HANG, &told)
}

/// A paragraph whose lines after the first are indented by `hang`.
fn indented(text: &mut String, head: &str, hang: usize, body: &str) -> std::fmt::Result {
    let hang = " ".repeat(hang);
    let options =
        textwrap::Options::new(WIDTH).initial_indent(head).subsequent_indent(&hang).word_splitter(textwrap::WordSplitter::NoHyphenation);
    writeln!(text, "{}", textwrap::fill(body, options).replace(number::NO_BREAK, " "))
}
