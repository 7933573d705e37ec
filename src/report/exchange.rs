//! The water that neighbours trade, in words and as JSON.

use super::{Report, number};
use crate::assess::{Exchange, Part};
use crate::models::bounds::Bounds;
use crate::models::water::{Fate, LayerAtRest};
use crate::units::quantity::{Time, gram, second};
use crate::units::{Checked, Measure, Unit};

/// What moves across the top and the bottom of a layer, in sentences.
pub(super) fn words(report: &Report, part: Part, above_only: bool) -> Option<String> {
    let Part::Layer(index) = part else { return None };
    let below = if above_only { None } else { index.checked_sub(1) };
    let told: Vec<_> = [below, Some(index)].into_iter().flatten().filter_map(|lower| between(report, lower)).collect();
    (!told.is_empty()).then(|| told.join(" "))
}

fn between(report: &Report, lower: usize) -> Option<String> {
    let exchange = report.exchanges.get(lower)?.as_ref()?;
    let name = |index: usize| report.part_name(Part::Layer(index));
    let (taker, from, to) = match (exchange.lower.fate(), exchange.upper.fate()) {
        (Fate::Softens, Fate::Dries) => (&exchange.lower, name(lower + 1), name(lower)),
        (Fate::Dries, Fate::Softens) => (&exchange.upper, name(lower), name(lower + 1)),
        _ => return None,
    };
    let how_long = exchange.half_time.map_or_else(String::new, |bounds| format!(", half of it {}", within(bounds)));
    let film = if exchange.film { " through the film" } else { "" };
    let moved = grams(taker);
    Some(format!("About {moved} of water would go{film} from {from} into {to}{how_long}, until both stand at {}.", activity(exchange)))
}

fn activity(exchange: &Exchange) -> String {
    number::shown(Measure::from_base(exchange.activity.value.base(), Unit::One))
}

/// What a layer takes up, in milligrams where it is little.
fn grams(layer: &LayerAtRest) -> String {
    let grams = layer.gain.value.get::<gram>();
    if grams < 0.1 { format!("{:.0}{}mg", 1000.0 * grams, number::NO_BREAK) } else { number::shown(Measure::new(grams, Unit::Gram)) }
}

/// Two ends of a time, in hours up to two days, in days up to three months.
fn within(bounds: Bounds<Time>) -> String {
    let [least, most] = [bounds.least, bounds.most].map(|time| {
        let hours = time.get::<second>() / 3600.0;
        match hours {
            _ if hours < 1.0 => "an hour".to_owned(),
            _ if hours < 48.0 => format!("{hours:.0}{}hours", number::NO_BREAK),
            _ if hours < 90.0 * 24.0 => format!("{:.0}{}days", hours / 24.0, number::NO_BREAK),
            _ => "months".to_owned(),
        }
    });
    if least == most { format!("within {least}") } else { format!("within {least} at the soonest, {most} at the latest") }
}

/// The exchange of a layer with the one above it.
#[cfg(feature = "documents")]
pub(super) fn json(exchange: &Exchange) -> serde_json::Value {
    use serde_json::json;
    let gain = |layer: &LayerAtRest| {
        let [value, low, high] = [layer.gain.value, layer.gain.low, layer.gain.high].map(|mass| mass.get::<gram>());
        json!({ "value": value, "low": low, "high": high, "unit": Unit::Gram })
    };
    let band = exchange.activity.map(Checked::base);
    let hours = |time: Time| time.get::<second>() / 3600.0;
    let mut told = json!({
        "activity_at_rest": { "value": band.value, "low": band.low, "high": band.high, "unit": Unit::One },
        "gain": gain(&exchange.lower),
        "gain_above": gain(&exchange.upper),
        "film": exchange.film,
    });
    if let (Some(bounds), Some(entry)) = (exchange.half_time, told.as_object_mut()) {
        entry.insert("half_time".into(), json!({ "low": hours(bounds.least), "high": hours(bounds.most), "unit": Unit::Hour }));
    }
    told
}
