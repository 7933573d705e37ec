//! The main job: a piece in, a report out.

use super::{Advice, Finding, Report};
use crate::assess::{assess, exchange};
use crate::engine::{Bounds, Findings, RuleSet, RuleSetError, Verdict};
use crate::piece::Piece;
use crate::remedy::{Remedy, remedies};
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
    let targets: Vec<_> = findings.iter().map(|finding| (finding.rule, finding.part)).collect();
    for (finding, remedies) in findings.iter_mut().zip(remedies(piece, rules, &bounds, &judged, &targets)) {
        finish(finding, piece, rules, &bounds, remedies);
    }
    findings.sort_by_key(|finding| std::cmp::Reverse((finding.counts(), finding.verdict)));
    let layers = piece.layers.iter().map(|layer| layer.name.clone()).collect();
    let exchanges = (0..piece.layers.len()).map(|lower| exchange(piece, &assessment, lower)).collect();
    Ok(Report { name: piece.name.clone(), layers, assessment, exchanges, findings, unknown: judged.unknown, law: piece.law.clone() })
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

/// Adds remedies in words, and whether its maker accepts it.
fn finish(finding: &mut Finding, piece: &Piece, rules: &RuleSet, bounds: &Bounds, remedies: Vec<Remedy>) {
    finding.own_limits = finding.readings.iter().any(|reading| bounds.is_own(reading.limit.key));
    if finding.verdict > Verdict::Pass && finding.verdict < Verdict::Fail {
        let names = |rule: &str| rule == finding.rule.id || finding.rule.aliases.contains(&rule);
        finding.accepted = piece.allow.iter().find(|allowed| names(&allowed.rule)).map(|allowed| allowed.reason.clone());
    }
    finding.remedies = remedies.into_iter().map(|remedy| Advice::new(remedy, piece, rules)).collect();
}
