//! How fine a scale a piece takes.

use super::{Care, RuleStudy, Study};
use crate::engine::{RuleSet, RuleSetError, Verdict};
use crate::piece::Piece;
use crate::units::{Checked, Portion};

/// The divisions that scales usually have, in kilograms, the coarsest first.
const USUAL: [f64; 10] = [0.01, 0.005, 0.002, 0.001, 0.0005, 0.0002, 0.0001, 0.000_05, 0.000_02, 0.000_01];
/// Below every scale there is: what remains then is not the scale's doing.
const PERFECT: f64 = 1e-9;

/// How fine a scale keeps the verdicts of a piece.
#[derive(Debug, Clone)]
pub struct ScaleNeed {
    /// The share of batches in which a verdict is to be kept.
    pub kept: f64,
    /// The smallest weighing of a recipe: no scale that shows coarser steps than that is considered.
    pub smallest: Option<Portion>,
    /// The coarsest usual division with which every rule that passes on the piece as described, and could be kept by a scale at all, passes in
    /// that share of batches; none where even the finest does not do.
    pub division: Option<Portion>,
    /// The rule that the next coarser division would lose first, and the share of batches that would then pass; none for the coarsest.
    pub lost_next: Option<(RuleStudy, f64)>,
    /// Rules that pass on the piece as described and in fewer batches than that, whatever the scale: something else matters there.
    pub beyond_scales: Vec<RuleStudy>,
}

impl ScaleNeed {
    /// Whether a coarser scale was left out only because it could not show the smallest weighing.
    #[must_use]
    pub fn ends_at_smallest(&self) -> bool {
        let coarser = self.division.and_then(|division| USUAL.into_iter().rev().find(|other| *other > 1.5 * division.base()));
        self.lost_next.is_none() && coarser.is_some()
    }
}

/// The coarsest usual division at which every rule that passes on a piece passes in this share of batches, such as 0.95.
///
/// # Errors
/// [`RuleSetError`] when the piece names a profile, a limit or a rule that is not there.
pub fn scale_need(piece: &Piece, rules: &RuleSet, care: &Care, kept: f64) -> Result<ScaleNeed, RuleSetError> {
    let described = Study::of(piece, rules, care)?;
    let with = |division: f64| {
        let mut weighed = piece.clone();
        weighed.workshop.scale_division = Some(Portion::nearest(division));
        Study::of(&weighed, rules, care)
    };
    let perfect = with(PERFECT)?;
    let share = |study: &Study, rule: &RuleStudy| study.rule(rule.rule.id, rule.part).map_or(1.0, |study| study.batches);
    let (beyond, within): (Vec<_>, Vec<_>) =
        described.rules.iter().filter(|rule| rule.verdict == Verdict::Pass).partition(|rule| share(&perfect, rule) < kept);
    let lines = piece.layers.iter().filter_map(|layer| layer.recipe.as_ref()).flat_map(|recipe| recipe.lines());
    let smallest = lines.map(|line| line.mass).filter(|mass| mass.base() > 0.0).min_by(|one, two| one.base().total_cmp(&two.base()));
    let mut need = ScaleNeed { kept, smallest, division: None, lost_next: None, beyond_scales: beyond.into_iter().cloned().collect() };
    for division in USUAL.into_iter().filter(|division| smallest.is_none_or(|smallest| *division <= smallest.base())) {
        let study = with(division)?;
        let lost = within.iter().map(|rule| (*rule, share(&study, rule))).min_by(|(_, one), (_, two)| one.total_cmp(two));
        match lost.filter(|(_, share)| *share < kept) {
            Some((rule, share)) => need.lost_next = Some((rule.clone(), share)),
            None => {
                need.division = Some(Portion::nearest(division));
                break;
            }
        }
    }
    Ok(need)
}
