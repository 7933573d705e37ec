//! Laws on the readings of one assessment.

use super::case::{Case, Fault, Lawful, place, same, told};
use crate::assess::{Assessment, Part, PartAssessment};
use crate::engine::{Card, PartKind};
use crate::piece::FillingKind;
use crate::units::Choice;

pub(super) fn determinism(case: &Case<'_>) -> Lawful {
    // Something else in between, for rules that remember.
    case.judge(&Assessment::default());
    same(&case.findings, &case.judge(&case.assessment), 0.0)?;
    same(&case.findings, &case.judge_piece(&case.piece), 0.0)
}

pub(super) fn finite_margins(case: &Case<'_>) -> Lawful {
    for reading in &case.findings.readings {
        let band = reading.value.band;
        if [band.value, band.low, band.high, reading.bound.value, reading.margin, reading.assured].iter().any(|number| !number.is_finite())
        {
            return Err(Fault::new(reading.rule.id, format!("{} is not finite", told(reading))));
        }
    }
    Ok(())
}

pub(super) fn applicability(case: &Case<'_>) -> Lawful {
    only_what_applies(case, &case.assessment)?;
    // The same parts, were each layer of the next kind.
    let next = |kind: FillingKind| FillingKind::ALL.iter().copied().cycle().skip_while(|other| *other != kind).nth(1);
    only_what_applies(case, &case.changed(|_, part| part.kind = part.kind.and_then(next)))
}

fn only_what_applies(case: &Case<'_>, assessment: &Assessment) -> Lawful {
    for card in case.rules.cards() {
        let found = case.judge_by(card, assessment);
        let read = found.readings.iter().map(|reading| reading.part).chain(found.unknown.iter().map(|unknown| unknown.part));
        for part in read {
            if !assessment.part(part).is_some_and(|at| applies(card, part, at)) {
                return Err(Fault::new(card.id, format!("judges {}, which its card does not name", place(part))));
            }
            if !card.markets.is_empty() && !case.piece.markets.iter().any(|market| card.markets.contains(market)) {
                return Err(Fault::new(card.id, format!("judges {}, which is sold in none of its markets", place(part))));
            }
        }
    }
    Ok(())
}

fn applies(card: &Card, part: Part, at: &PartAssessment) -> bool {
    let of_kind = card.kinds.is_empty() || at.kind.is_some_and(|kind| card.kinds.contains(&kind));
    of_kind
        && match part {
            Part::Whole => card.part == PartKind::Whole,
            Part::Shell => matches!(card.part, PartKind::Shell | PartKind::Chocolate | PartKind::Every),
            Part::Layer(_) => matches!(card.part, PartKind::Layer | PartKind::Every) || (card.part == PartKind::TopLayer && at.under_cap),
            Part::Cap => matches!(card.part, PartKind::Cap | PartKind::Chocolate | PartKind::Every),
        }
}
