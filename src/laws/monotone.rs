//! The law of signed drivers.

use super::case::{Case, Fault, Lawful, told};
use crate::assess::Evidence;
use crate::engine::{Effect, Findings, Reading};
use crate::piece::{Knob, KnobKind, Turn};

/// How far rounding may carry a value the wrong way.
const ROUNDING: f64 = 1e-9;

pub(super) fn monotone(case: &Case<'_>) -> Lawful {
    let mut noise = case.noise(0);
    for knob in Knob::all(&case.piece).filter(|knob| drives(case, knob.kind())) {
        let (Some(from), (least, most)) = (knob.get(&case.piece), knob.range(&case.piece)) else { continue };
        // Once anywhere in the range, once near where it stands.
        let near = from + 0.1 * (noise.share() - 0.5) * (most - least);
        for to in [least + noise.share() * (most - least), near.clamp(least, most)] {
            let to = if knob.turns(&case.piece) == Turn::Whole { to.round() } else { to };
            let Some(turned) = case.bench.turn(&case.piece, knob, to) else { continue };
            let (lower, upper) = (&case.findings, &case.judge_piece(&turned));
            let (lower, upper) = if to < from { (upper, lower) } else { (lower, upper) };
            rises(knob, lower, upper)?;
        }
    }
    Ok(())
}

fn drives(case: &Case<'_>, kind: KnobKind) -> bool {
    let signed = |effect: Effect| effect != Effect::Either;
    case.rules.cards().any(|card| card.drivers.iter().any(|driver| driver.knob == kind && signed(driver.effect)))
}

/// From the findings with the knob further down to those with it further up, each value goes where its card says. What was measured on another
/// recipe counts for less the further it is turned away from that, so that a value may drift back to the model's either way: nothing is promised
/// there.
fn rises(knob: Knob, lower: &Findings, upper: &Findings) -> Lawful {
    for low in &lower.readings {
        let Some(driver) = low.rule.drivers.iter().find(|driver| driver.knob == knob.kind()) else { continue };
        let same = |high: &&Reading| {
            (high.rule.id, high.limit.key, high.bound.row, high.part) == (low.rule.id, low.limit.key, low.bound.row, low.part)
        };
        let Some(high) = upper.readings.iter().find(same) else { continue };
        if [low, high].iter().any(|reading| reading.value.evidence == Evidence::Corrected) {
            continue;
        }
        let (one, two) = (low.value.value(), high.value.value());
        let rise = two - one;
        let rounding = ROUNDING * one.abs().max(two.abs());
        let (wrong, way) = match driver.effect {
            Effect::Raises => (rise < -rounding, "raises"),
            Effect::Lowers => (rise > rounding, "lowers"),
            Effect::Either => (false, ""),
        };
        if wrong {
            let what = format!("{knob:?} {way} it, says its card; turned up, it takes {} to {}", told(low), told(high));
            return Err(Fault::new(low.rule.id, what));
        }
    }
    Ok(())
}
