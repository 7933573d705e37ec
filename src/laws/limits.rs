//! Laws on limits.

use super::case::{Case, Fault, Lawful, told};
use super::noise::span;
use crate::assess::{Assessed, Estimate, PartAssessment, Quantity};
use crate::engine::{Card, Findings, Limit, Reading, Verdict};
use crate::matter::Known;
use crate::piece::OwnLimit;
use crate::units::Measure;

/// Some of anything, in the base unit, where it only matters that it is known.
const SOME: f64 = 0.05;

pub(super) fn inclusive(case: &Case<'_>) -> Lawful {
    for reading in &case.findings.readings {
        well_made(reading)?;
        let at_limit = case.changed(|part, at| {
            if part == reading.part {
                at.put(reading.bound.quantity, Assessed::declared(reading.bound.value));
            }
        });
        for read in case.judge_by(reading.rule, &at_limit).of(reading.rule.id, reading.part) {
            well_made(read)?;
            if (read.value.value() - read.bound.value).abs() <= 0.0 && !(read.margin.abs() <= 0.0 && passes(read)) {
                return Err(Fault::new(read.rule.id, format!("{} does not pass, though it is at its limit", told(read))));
            }
        }
    }
    Ok(())
}

/// A pass, as far as the limit's source lets anything pass.
fn passes(reading: &Reading) -> bool {
    let recalled = reading.rule.domain.is_law_or_safety() && reading.bound.known == Known::Memory;
    let certain = reading.value.in_range && reading.value.half_width() <= 0.0;
    reading.verdict == Verdict::Pass || recalled || !certain
}

fn well_made(reading: &Reading) -> Lawful {
    let due = Reading::held(reading.rule, reading.limit, reading.part, reading.value, reading.bound);
    let parts = |reading: &Reading| (reading.margin.to_bits(), reading.assured.to_bits(), reading.verdict);
    if parts(reading) == parts(&due) {
        return Ok(());
    }
    Err(Fault::new(reading.rule.id, format!("{} has margin {}, and {} is due", told(reading), reading.margin, due.margin)))
}

pub(super) fn declared(case: &Case<'_>) -> Lawful {
    for card in case.rules.cards() {
        for reading in case.judge_by(card, &case.assessment).readings {
            let own = card
                .limits
                .iter()
                .any(|limit| limit.key == reading.limit.key && (limit.family || limit.quantity == reading.bound.quantity));
            if !own || reading.rule.id != card.id {
                return Err(Fault::new(card.id, format!("{} is none of its limits", told(&reading))));
            }
        }
        set_otherwise(case, card)?;
    }
    Ok(())
}

/// With every limit set otherwise by the maker, no reading keeps the careful value.
fn set_otherwise(case: &Case<'_>, card: &'static Card) -> Lawful {
    let moved = |limit: &Limit| limit.careful.base() * 1.25 + if limit.careful.base().abs() > 0.0 { 0.0 } else { 0.25 };
    let mut piece = case.piece.clone();
    // What the law sets, no maker sets otherwise.
    piece.limits = (card.limits.iter().filter(|limit| !limit.family))
        .map(|limit| OwnLimit {
            key: limit.key.into(),
            value: Measure::from_base(moved(limit), limit.careful.unit()),
            reason: "to see whether it is heeded".into(),
        })
        .collect();
    let bounds = case.rules.bounds(&piece).map_err(|error| Fault::new(card.id, error.to_string()))?;
    let mut found = Findings::default();
    case.rules.judge_by(card.id, &case.assessment, &bounds, &mut found);
    match found
        .readings
        .iter()
        .filter(|reading| !reading.limit.family)
        .find(|reading| (reading.bound.value - moved(reading.limit)).abs() > 1e-9 * moved(reading.limit).abs())
    {
        Some(reading) => Err(Fault::new(card.id, format!("{} does not heed the limit its maker set", told(reading)))),
        None => Ok(()),
    }
}

pub(super) fn reachable(cases: &[Case<'_>]) -> Lawful {
    let Some(rules) = cases.first().map(|case| case.rules) else { return Ok(()) };
    for card in rules.cards() {
        for limit in card.limits {
            let mut met = false;
            let mut broken = false;
            for case in cases {
                for reading in readings(case, card, limit) {
                    met |= reading.margin >= 0.0;
                    broken |= reading.margin < 0.0;
                }
                if met && broken {
                    break;
                }
            }
            let never = match (met, broken) {
                (true, true) => continue,
                (true, false) => "is never broken",
                (false, true) => "is never met",
                (false, false) => "is never read",
            };
            return Err(Fault::new(card.id, format!("{} {never} by any of {} pieces", limit.key, cases.len())));
        }
    }
    Ok(())
}

/// What is read against a limit on a case as it is, and with its quantity a little to either side.
fn readings(case: &Case<'_>, card: &'static Card, limit: &'static Limit) -> Vec<Reading> {
    let of_limit = |reading: &Reading| reading.rule.id == card.id && reading.limit.key == limit.key;
    let known = |quantity: Quantity, value: f64| (quantity, Assessed::Known(Estimate::declared(value)));
    // Of a family each row has a limit of its own, and holds wherever the piece is sold once what it limits is known.
    let all_known = case.changed(|_, at: &mut PartAssessment| {
        let lacking = card.reads().filter(|quantity| at.get(*quantity).value().is_none()).collect::<Vec<_>>();
        lacking.into_iter().map(|quantity| known(quantity, SOME)).for_each(|(quantity, some)| at.put(quantity, some));
    });
    let (base, limits) = if limit.family {
        let read = case.judge_by(card, &all_known).readings;
        let limits = read.iter().filter(|reading| of_limit(reading)).map(|reading| (reading.bound.quantity, reading.bound.value)).collect();
        (&all_known, limits)
    } else {
        (&case.assessment, vec![(limit.quantity, limit.careful.base())])
    };
    let aside = |(quantity, bound): (Quantity, f64)| {
        let (least, most) = span(quantity);
        let aside = if bound.abs() > 0.0 { 0.2 * bound.abs() } else { 1.0 };
        [(bound - aside).max(least), (bound + aside).min(most)].map(|value| known(quantity, value))
    };
    let put_aside = limits.into_iter().flat_map(aside).flat_map(|(quantity, value)| {
        let mut changed = base.clone();
        changed.parts_mut().for_each(|part| part.put(quantity, value));
        case.judge_by(card, &changed).readings
    });
    case.findings.readings.iter().copied().chain(put_aside).filter(of_limit).collect()
}
