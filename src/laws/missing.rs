//! The law of missing inputs: what is not known must be said, or judged as at its worst.

use super::case::{Case, Fault, Lawful, place};
use super::noise::span;
use crate::assess::{Assessed, Assessment, Estimate, Part, Quantity};
use crate::engine::{Card, Findings, Unknown, Verdict};

/// How many values are tried in the place of what is missing, besides its extremes and those around the limits.
const TRIES: usize = 6;

pub(super) fn missing_input(case: &Case<'_>) -> Lawful {
    for (number, card) in (0..).zip(case.rules.cards()) {
        let mut noise = case.noise(number);
        for quantity in card.reads() {
            let known: Vec<_> = case.assessment.parts().filter_map(|(part, at)| Some((part, at.get(quantity).known()?))).collect();
            for (part, given) in known {
                let around = card.limits.iter().filter(|limit| limit.quantity == quantity).map(|limit| limit.careful.base());
                let around = around.flat_map(|bound| [0.5 * bound, bound, 1.5 * bound]);
                let (least, most) = span(quantity);
                let ends = [least, most].into_iter().filter(|end| end.is_finite());
                let random: Vec<_> = (0..TRIES).map(|_| noise.estimate(quantity).value()).collect();
                let tried: Vec<_> =
                    std::iter::once(given.value()).chain(ends).chain(around).chain(random).map(Estimate::declared).collect();
                without(case, card, quantity, part, &tried)?;
            }
        }
    }
    Ok(())
}

fn without(case: &Case<'_>, card: &'static Card, quantity: Quantity, part: Part, tried: &[Estimate]) -> Lawful {
    let put = |value: Assessed| {
        case.changed(|at_part, at| {
            if at_part == part {
                at.put(quantity, value);
            }
        })
    };
    let lacking = put(Assessed::lacking(quantity));
    let lacks = case.judge_by(card, &lacking);
    let mut lacks_more = Vec::new();
    for value in tried {
        let known = case.judge_by(card, &put(Assessed::Known(*value)));
        lacks_more.extend(known.unknown.iter().map(|unknown| unknown.part));
        for place_read in places(&lacking) {
            let (worst, found) = (known.verdict(card.id, place_read), lacks.verdict(card.id, place_read));
            if found < worst && !unknown(&lacks, card, place_read) {
                let words =
                    |verdict: Option<Verdict>| verdict.map_or("nothing".to_owned(), |verdict| format!("{verdict:?}").to_lowercase());
                return Err(Fault::new(
                    card.id,
                    format!(
                        "without {} of {} it says {} on {}, though {} would be a {}",
                        quantity.words(),
                        place(part),
                        words(found),
                        place(place_read),
                        value.measure(quantity),
                        words(worst)
                    ),
                ));
            }
        }
    }
    // It must be named, unless with some value of it another input would be missing.
    let unnamed = |lack: &&Unknown| !lack.missing.holds(quantity) && !lacks_more.contains(&lack.part);
    match lacks.unknown.iter().find(unnamed) {
        Some(_) => Err(Fault::new(card.id, format!("does not name {} as missing", quantity.words()))),
        None => Ok(()),
    }
}

fn places(assessment: &Assessment) -> impl Iterator<Item = Part> {
    assessment.parts().map(|(part, _)| part)
}

fn unknown(findings: &Findings, card: &Card, part: Part) -> bool {
    findings.unknown.iter().any(|unknown| unknown.rule.id == card.id && unknown.part == part)
}
