//! What a reading says, in a sentence.

use super::{Report, exchange, number};
use crate::assess::{Evidence, Part, Quantity};
use crate::engine::{Reading, Side};
use crate::matter::AllergenSet;
use crate::units::Choice;

/// Value, limit and by how much, in a sentence.
pub(super) fn of(report: &Report, reading: &Reading) -> String {
    match reading.limit.quantity {
        Quantity::Tempered => "It is cast from chocolate that was merely melted.".into(),
        Quantity::AllergensToDeclare => format!("Declare: {}.", allergens(report.assessment.to_declare)),
        Quantity::BrokenPromises => {
            format!("Promised free from, but in an ingredient or on shared equipment: {}.", allergens(report.assessment.broken_promises))
        }
        quantity => comparison(quantity, reading),
    }
}

fn comparison(quantity: Quantity, reading: &Reading) -> String {
    let value = number::estimate(quantity, &reading.value);
    let known = match reading.value.evidence {
        Evidence::Declared => "",
        Evidence::Measured => ", measured",
        Evidence::Modelled => ", estimated",
        Evidence::Corrected => ", estimated from the batch that was measured",
        Evidence::Assumed => ", assumed",
    };
    let side = match reading.limit.side {
        Side::AtLeast => "at least",
        Side::AtMost => "at most",
    };
    let bound = number::shown(reading.bound_measure());
    let by = number::shown(reading.difference(reading.margin.abs()));
    let missed = match reading.limit.side {
        _ if reading.margin >= 0.0 => String::new(),
        Side::AtLeast => format!(", {by} short"),
        Side::AtMost => format!(", {by} over"),
    };
    let doubt = if !reading.value.in_range {
        " It lies outside the range the model was tested in: measure this."
    } else if reading.is_uncertain() {
        " The limit lies inside the uncertainty: measure this."
    } else {
        ""
    };
    format!("{} is {value}{known}; the limit is {side} {bound}{missed}.{doubt}", capitalised(quantity.words()))
}

/// The quantities a card shows beside its reading.
pub(super) fn shows(report: &Report, reading: &Reading) -> Option<String> {
    let part = report.assessment.part(reading.part)?;
    let shown = reading.rule.shows.iter().filter_map(|quantity| {
        let estimate = part.get(*quantity).known()?;
        let idle = *quantity == Quantity::SpiritStrength && estimate.value() <= 0.0;
        (!idle && *quantity != reading.limit.quantity).then(|| format!("{} {}", quantity.words(), number::brief(*quantity, &estimate)))
    });
    let shown: Vec<_> = shown.collect();
    let shown = (!shown.is_empty()).then(|| format!("{}.", capitalised(&shown.join("; "))));
    let traded = match reading.limit.quantity {
        Quantity::ActivityGap => exchange::words(report, reading.part, true),
        Quantity::ActivityAtRest => exchange::words(report, reading.part, false),
        _ => None,
    };
    match (shown, traded) {
        (Some(shown), Some(traded)) => Some(format!("{shown} {traded}")),
        (shown, traded) => shown.or(traded),
    }
}

/// Where a limit comes from, on what evidence.
pub(super) fn source(reading: &Reading) -> String {
    let limit = reading.limit;
    let place = if limit.place.is_empty() { String::new() } else { format!(": {}", limit.place) };
    format!("{}; {}{place}.", limit.standing.key(), limit.source)
}

/// What a part is called when it stands before a sentence.
pub(super) fn place(report: &Report, part: Part) -> String {
    match part {
        Part::Whole => "the piece".into(),
        Part::Shell | Part::Cap => format!("the {}", report.part_name(part)),
        Part::Layer(_) => report.part_name(part).into(),
    }
}

fn allergens(set: AllergenSet) -> String {
    set.iter().map(Choice::key).collect::<Vec<_>>().join(", ")
}

pub(super) fn capitalised(text: &str) -> String {
    let mut characters = text.chars();
    characters.next().map_or_else(String::new, |first| first.to_uppercase().chain(characters).collect())
}
