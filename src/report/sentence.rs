//! What a reading says, in a sentence.

use super::{Report, exchange, number};
use crate::assess::{Estimate, Evidence, Part, Quantity};
use crate::engine::{Reading, Side};
use crate::law::Row;
use crate::law::allergen::{self, Ruling};
use crate::matter::{AllergenSet, Constituent, Known};
use crate::units::{Choice, Measure};

/// Value, limit and by how much, in a sentence.
pub(super) fn of(report: &Report, reading: &Reading) -> String {
    match reading.bound.quantity {
        Quantity::Tempered => "It is cast from chocolate that was merely melted.".into(),
        Quantity::AllergensToDeclare => format!("Declare: {}.", to_declare(report)),
        Quantity::RecalledAllergenLists => {
            let due = if report.assessment.to_declare.is_empty() { String::new() } else { format!("Declare: {}. ", to_declare(report)) };
            format!("{due}What a market wants of them is recalled here and was not read: hold the label against its law.")
        }
        Quantity::BrokenPromises => {
            format!("Promised free from, but in an ingredient or on shared equipment: {}.", allergens(report.assessment.broken_promises))
        }
        _ => match report.row(reading) {
            Some(row) => of_row(row, reading),
            None => pair(report, reading).unwrap_or_else(|| comparison(report, reading)),
        },
    }
}

/// Value and limit in a few words for the screen; nothing where the fault says it all.
pub(super) fn brief(report: &Report, reading: &Reading) -> Option<String> {
    let quantity = reading.bound.quantity;
    match quantity {
        Quantity::Tempered => return None,
        Quantity::AllergensToDeclare => return Some(to_declare(report)),
        Quantity::RecalledAllergenLists if report.assessment.to_declare.is_empty() => return Some("recalled: look it up".into()),
        Quantity::RecalledAllergenLists => return Some(format!("{}, recalled: look it up", to_declare(report))),
        Quantity::BrokenPromises => return Some(allergens(report.assessment.broken_promises)),
        _ => {}
    }
    let doubt = if !reading.value.in_range {
        ", outside the tested range: measure this"
    } else if reading.is_uncertain() {
        ", measure this"
    } else {
        ""
    };
    let bound = || format!("{} {}", side(reading.bound.side), number::shown(reading.bound_measure()));
    if let Some(row) = report.row(reading) {
        let place = row.region.map_or_else(|| row.market.key(), Choice::key).to_uppercase();
        let law = row.citation.to_string();
        let law = match row.citation.known {
            Known::Memory => format!("{}; recalled, look it up", law.trim_end_matches(row.citation.known.remark())),
            _ => law,
        };
        let value = number::estimate_in(reading.bound.unit, quantity, &reading.value);
        return Some(format!("{} {value}, {place} {} ({law}){doubt}", subject(row, reading), bound()));
    }
    let recalled = if reading.bound.known == Known::Memory { " (recalled)" } else { "" };
    // What the fault has named already needs no name.
    let named = |words: &str| if reading.rule.title.contains(words) { String::new() } else { format!("{words} ") };
    if let Some([(there, is), (due, against)]) = pair_of(report, reading) {
        let (is, against) = (number::brief(there, &is), number::brief(due, &against));
        return Some(format!("{}{is} against {against}{recalled}{doubt}", named(there.words())));
    }
    Some(format!("{}{}, {}{recalled}{doubt}", named(words(report, reading)), number::estimate(quantity, &reading.value), bound()))
}

/// What a row of law limits: the additives by number, or the quantity; where, and that a recalled row must be looked up.
fn of_row(row: &Row, reading: &Reading) -> String {
    let place = row.region.map_or_else(|| row.market.key(), Choice::key);
    let recalled = if row.citation.known == Known::Memory { " Look it up." } else { "" };
    let value = number::estimate_in(reading.bound.unit, reading.bound.quantity, &reading.value);
    format!("{}{recalled}", held(&subject(row, reading), &value, &format!(" in {} ({})", place.to_uppercase(), row.citation), reading))
}

fn subject(row: &Row, reading: &Reading) -> String {
    let additives: Vec<_> = row.additives.iter().map(Choice::key).collect();
    match additives.as_slice() {
        [] => reading.bound.quantity.words().to_owned(),
        [one] => (*one).to_owned(),
        [one, two] => format!("the sum of {one} and {two}"),
        // The members stand in the JSON form and in the table.
        [first, .., last] => format!("the sum of {} additives, {first} to {last},", additives.len()),
    }
}

/// What a ratio is made of: what there is, and what it is held against. At the bench both say more than their ratio.
const fn terms(ratio: Quantity) -> Option<(Quantity, Quantity)> {
    match ratio {
        Quantity::KeepOverUsual => Some((Quantity::KeepPromised, Quantity::UsualKeep)),
        Quantity::CapSupport => Some((Quantity::YieldValue, Quantity::YieldNeeded)),
        Quantity::CapSupportAnyPour => Some((Quantity::YieldValue, Quantity::YieldNeededAnyPour)),
        Quantity::WallDrained => Some((Quantity::PredictedWall, Quantity::WallThickness)),
        _ => None,
    }
}

/// A ratio held against one, by what it is made of; nothing where the ratio rests on something else, as a cap does that floats.
fn pair(report: &Report, reading: &Reading) -> Option<String> {
    let [(there, is), (due, against)] = pair_of(report, reading)?;
    let by = is.value() - against.value();
    let missed = match reading.bound.side {
        _ if reading.margin >= 0.0 => String::new(),
        side => format!(", {} {}", number::shown(Measure::from_base(by.abs(), due.unit())), missed_by(side)),
    };
    let (is, against) = (number::brief(there, &is), number::brief(due, &against));
    Some(format!(
        "{} is {is}; {} is {against}{}{missed}.{}",
        capitalised(there.words()),
        due.words(),
        known_as(reading.value.evidence),
        doubt(reading)
    ))
}

/// What there is, how much of it, and what it is held against.
fn pair_of(report: &Report, reading: &Reading) -> Option<[(Quantity, Estimate); 2]> {
    let (there, due) = terms(reading.bound.quantity)?;
    let known = |quantity| {
        let of_part = report.assessment.part(reading.part)?.get(quantity).known();
        of_part.or_else(|| report.assessment.whole.get(quantity).known())
    };
    let (is, against) = (known(there)?, known(due)?);
    let by = is.value() - against.value();
    let rests_elsewhere = (reading.bound.value - 1.0).abs() > f64::EPSILON || (by < 0.0) != (reading.value.value() < 1.0);
    (!rests_elsewhere).then_some([(there, is), (due, against)])
}

const fn side(side: Side) -> &'static str {
    match side {
        Side::AtLeast => "at least",
        Side::AtMost => "at most",
    }
}

const fn missed_by(side: Side) -> &'static str {
    match side {
        Side::AtLeast => "short",
        Side::AtMost => "over",
    }
}

const fn known_as(evidence: Evidence) -> &'static str {
    match evidence {
        Evidence::Declared => "",
        Evidence::Measured => ", measured",
        Evidence::Modelled => ", estimated",
        Evidence::Corrected => ", estimated from the batch that was measured",
        Evidence::Assumed => ", assumed",
    }
}

fn doubt(reading: &Reading) -> &'static str {
    if !reading.value.in_range {
        " It lies outside the range the model was tested in: measure this."
    } else if reading.is_uncertain() {
        " The limit lies inside the uncertainty: measure this."
    } else {
        ""
    }
}

fn comparison(report: &Report, reading: &Reading) -> String {
    held(words(report, reading), &number::estimate(reading.bound.quantity, &reading.value), "", reading)
}

fn words(report: &Report, reading: &Reading) -> &'static str {
    // Where there is no ethanol nothing is left out.
    let spirited =
        report.assessment.part(reading.part).and_then(|part| part.get(Quantity::Ethanol).value()).is_some_and(|share| share > 0.0);
    match reading.bound.quantity {
        Quantity::ActivityWithoutEthanol if !spirited => Quantity::WaterActivity.words(),
        quantity => quantity.words(),
    }
}

/// What solutes widen the band of a modelled water activity because they are more concentrated than measurements cover, where that matters.
fn beyond_range(report: &Report, reading: &Reading) -> Option<String> {
    let modelled = matches!(reading.bound.quantity, Quantity::WaterActivity | Quantity::ActivityWithoutEthanol)
        && reading.value.evidence == Evidence::Modelled
        && reading.is_uncertain();
    let part = report.assessment.part(reading.part).filter(|_| modelled);
    let solutes: Vec<_> = part.iter().flat_map(|part| part.beyond_range.iter()).map(Constituent::words).collect();
    (!solutes.is_empty()).then(|| format!("More concentrated than was ever measured, which widens the band: {}.", solutes.join(", ")))
}

/// A value against its limit, in a sentence.
fn held(what: &str, value: &str, place: &str, reading: &Reading) -> String {
    let known = known_as(reading.value.evidence);
    let (side, bound) = (side(reading.bound.side), number::shown(reading.bound_measure()));
    let by = number::shown(reading.difference(reading.margin.abs()));
    let missed = match reading.bound.side {
        _ if reading.margin >= 0.0 => String::new(),
        side => format!(", {by} {}", missed_by(side)),
    };
    format!("{} is {value}{known}; the limit{place} is {side} {bound}{missed}.{}", capitalised(what), doubt(reading))
}

/// How much water a crisp takes up, and how fast.
pub(super) fn softening(report: &Report, reading: &Reading) -> Option<String> {
    if reading.bound.quantity == Quantity::ActivityAtRest { exchange::words(report, reading.part, false) } else { None }
}

/// The quantities a card shows beside its reading.
pub(super) fn shows(report: &Report, reading: &Reading) -> Option<String> {
    let part = report.assessment.part(reading.part)?;
    let shown = reading.rule.shows.iter().filter_map(|quantity| {
        let estimate = part.get(*quantity).known()?;
        let idle = matches!(quantity, Quantity::SpiritStrength | Quantity::SorbicAcid) && estimate.value() <= 0.0;
        let said = terms(reading.bound.quantity).is_some_and(|(there, due)| [there, due].contains(quantity));
        (!idle && !said && *quantity != reading.bound.quantity)
            .then(|| format!("{} {}", quantity.words(), number::brief(*quantity, &estimate)))
    });
    let shown: Vec<_> = shown.collect();
    let shown = (!shown.is_empty()).then(|| format!("{}.", capitalised(&shown.join("; "))));
    let traded = match reading.bound.quantity {
        Quantity::ActivityGap => exchange::words(report, reading.part, true),
        _ => softening(report, reading),
    };
    let told: Vec<_> = [shown, traded, beyond_range(report, reading)].into_iter().flatten().collect();
    (!told.is_empty()).then(|| told.join(" "))
}

/// Where a limit comes from, on what evidence.
pub(super) fn source(report: &Report, reading: &Reading) -> String {
    let limit = reading.limit;
    if let Some(row) = report.row(reading) {
        let of = [row.subject(), row.basis.clone(), row.note.clone()].into_iter().filter(|text| !text.is_empty());
        let of: Vec<_> = of.collect();
        return format!("{}; {} [{}]: {}.", row.effect.key(), row.citation, row.id, of.join("; "));
    }
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

/// The allergens to declare in the words of each market, markets of the same words together.
fn to_declare(report: &Report) -> String {
    let mut groups: Vec<(Vec<String>, String)> = Vec::new();
    for (market, due) in &report.assessment.to_declare_in {
        let words = due.iter().filter_map(|allergen| match allergen::ruling(*market, allergen, None) {
            Ruling::Declare(_, row) => Some(row.word.to_owned()),
            Ruling::OnlyIf(_, row, condition, _) => Some(format!("{} (if {condition})", row.word)),
            Ruling::Unknown | Ruling::NotListed | Ruling::Exempt(_) => None,
        });
        let words = words.collect::<Vec<_>>().join(", ");
        let words = if words.is_empty() { "nothing".into() } else { words };
        match groups.iter_mut().find(|(_, other)| *other == words) {
            Some((markets, _)) => markets.push(market.key().to_uppercase()),
            None => groups.push((vec![market.key().to_uppercase()], words)),
        }
    }
    match groups.as_slice() {
        [] => allergens(report.assessment.to_declare),
        groups => groups.iter().map(|(markets, words)| format!("{words} ({})", markets.join(", "))).collect::<Vec<_>>().join("; "),
    }
}

fn allergens(set: AllergenSet) -> String {
    set.iter().map(Choice::key).collect::<Vec<_>>().join(", ")
}

pub(super) fn capitalised(text: &str) -> String {
    let mut characters = text.chars();
    characters.next().map_or_else(String::new, |first| first.to_uppercase().chain(characters).collect())
}

pub(super) fn uncapitalised(text: &str) -> String {
    let mut characters = text.chars();
    characters.next().map_or_else(String::new, |first| first.to_lowercase().chain(characters).collect())
}
