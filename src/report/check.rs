//! The main job: a piece in, a report out.

use super::{Advice, Finding, Report};
use crate::assess::{Part, assess};
use crate::engine::{Bounds, Findings, RuleSet, RuleSetError, Verdict};
use crate::piece::Piece;
use crate::remedy::remedies;
use crate::rules;

/// Checks a piece by every built-in rule.
///
/// # Errors
/// [`RuleSetError`] when the piece names a profile, a limit or a rule that is not there.
pub fn check(piece: &Piece) -> Result<Report, RuleSetError> {
    check_with(&rules::built_in(), piece)
}

/// Checks a piece by a set of rules of your own.
///
/// # Errors
/// As [`check`].
pub fn check_with(rules: &RuleSet, piece: &Piece) -> Result<Report, RuleSetError> {
    let bounds = rules.bounds(piece)?;
    let assessment = assess(piece);
    let mut judged = Findings::default();
    rules.judge(&assessment, &bounds, &mut judged);
    let mut findings = gathered(&judged);
    for finding in &mut findings {
        finish(finding, piece, rules, &bounds, &judged);
    }
    findings.sort_by_key(|finding| std::cmp::Reverse((finding.counts(), finding.verdict)));
    let layers = piece.layers.iter().map(|layer| layer.name.clone()).collect();
    Ok(Report { name: piece.name.clone(), layers, assessment, findings, unknown: judged.unknown })
}

/// The readings, gathered by rule and part.
fn gathered(judged: &Findings) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for reading in &judged.readings {
        let same = |finding: &&mut Finding| finding.rule.id == reading.rule.id && finding.part == reading.part;
        match findings.iter_mut().find(same) {
            Some(finding) => {
                finding.verdict = finding.verdict.max(reading.verdict);
                finding.readings.push(*reading);
            }
            None => findings.push(Finding {
                rule: reading.rule,
                part: reading.part,
                verdict: reading.verdict,
                readings: vec![*reading],
                remedies: Vec::new(),
                accepted: None,
                own_limits: false,
            }),
        }
    }
    findings
}

/// Adds remedies, and whether its maker accepts it.
fn finish(finding: &mut Finding, piece: &Piece, rules: &RuleSet, bounds: &Bounds, judged: &Findings) {
    finding.own_limits = finding.readings.iter().any(|reading| bounds.is_own(reading.limit.key));
    if finding.verdict == Verdict::Pass {
        return;
    }
    if finding.verdict < Verdict::Fail {
        let allowed =
            piece.allow.iter().find(|allowed| allowed.rule == finding.rule.id || finding.rule.aliases.contains(&allowed.rule.as_str()));
        finding.accepted = allowed.map(|allowed| allowed.reason.clone());
    }
    let found = remedies(piece, rules, bounds, judged, finding.rule, finding.part);
    let part_name = |part: Part| match part {
        Part::Layer(index) => piece.layers.get(index).map_or("layer", |layer| layer.name.as_str()),
        Part::Whole => "piece",
        Part::Shell => "shell",
        Part::Cap => "cap",
    };
    finding.remedies = found.into_iter().map(|remedy| Advice::new(remedy, piece, rules, part_name)).collect();
}
