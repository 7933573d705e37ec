//! Laws of invariance: what makes no difference to a piece makes none to its readings.

use super::case::{Case, Fault, Lawful, same};
use crate::engine::{Findings, Scale};
use crate::matter::{Recipe, RecipeLine};
use crate::piece::{Document, Piece};
use crate::units::{Checked, Portion};

/// How far rounding may carry a value.
const ROUNDING: f64 = 1e-9;
/// No dimension has more units than this.
const UNITS: usize = 6;

pub(super) fn units(case: &Case<'_>) -> Lawful {
    let unreadable = |what: String| Fault::new("any rule", format!("in other units it cannot be read: {what}"));
    for turned in 1..UNITS {
        let read = Document::parse(&case.described.text(turned)).map_err(|error| unreadable(error.to_string()))?;
        let piece = read.pieces().first().ok_or_else(|| unreadable("there is no piece".into()))?;
        same(&case.findings, &case.judge_piece(piece), ROUNDING)?;
    }
    Ok(())
}

pub(super) fn batch_scale(case: &Case<'_>) -> Lawful {
    let double = |mass: Portion| Portion::from_base(2.0 * mass.base()).ok();
    let twice = |recipe: &Recipe| {
        let lines = recipe.lines().iter().map(|line| Some(RecipeLine { mass: double(line.mass)?, ..line.clone() }));
        Recipe::new(lines.collect::<Option<_>>()?, recipe.cooked_to().and_then(double)).ok()
    };
    let mut piece = remade(&case.piece, twice);
    if let Some(moulds) = piece.batch.as_mut().and_then(|batch| batch.moulds.as_mut()) {
        *moulds = moulds.saturating_mul(2);
    }
    same(&without_batch(&case.findings), &without_batch(&case.judge_piece(&piece)), ROUNDING)
}

fn without_batch(findings: &Findings) -> Findings {
    let mut findings = findings.clone();
    findings.readings.retain(|reading| reading.rule.scale != Scale::Batch);
    findings.unknown.retain(|unknown| unknown.rule.scale != Scale::Batch);
    findings
}

pub(super) fn ingredient_order(case: &Case<'_>) -> Lawful {
    let reversed = |recipe: &Recipe| Recipe::new(recipe.lines().iter().rev().cloned().collect(), recipe.cooked_to()).ok();
    same(&case.findings, &case.judge_piece(&remade(&case.piece, reversed)), ROUNDING)
}

/// The piece with every recipe made anew.
fn remade(piece: &Piece, make: impl Fn(&Recipe) -> Option<Recipe>) -> Piece {
    let mut piece = piece.clone();
    for recipe in piece.layers.iter_mut().filter_map(|layer| layer.recipe.as_mut()) {
        *recipe = make(recipe).unwrap_or_else(|| recipe.clone());
    }
    piece
}
