//! The report as JSON.

use super::{Finding, Report, exchange, sentence};
use crate::assess::{Assessed, Estimate, Evidence, Part, PartAssessment, Quantity};
use crate::engine::{Reading, Verdict};
use crate::units::{Choice, Measure};
use serde_json::{Map, Value, json};

/// The version of the form.
const FORMAT: u32 = 1;

/// Reports in the form that programs read.
#[must_use]
pub fn to_json(reports: &[Report]) -> Value {
    json!({ "format": FORMAT, "pieces": reports.iter().map(piece).collect::<Vec<_>>() })
}

impl Report {
    /// The report in the form that programs read.
    #[must_use]
    pub fn to_json(&self) -> Value {
        to_json(std::slice::from_ref(self))
    }
}

fn piece(report: &Report) -> Value {
    let readings = report.findings.iter().flat_map(|finding| finding.readings.iter().map(move |reading| (finding, reading)));
    json!({
        "name": report.name,
        "verdict": report.verdict().key(),
        "assessment": assessment(report),
        "readings": readings.map(|(finding, reading)| entry(report, finding, reading)).collect::<Vec<_>>(),
        "accepted": report.findings.iter().filter_map(|finding| {
            Some(json!({ "rule": finding.rule.id, "part": report.part_name(finding.part), "reason": finding.accepted.as_ref()? }))
        }).collect::<Vec<_>>(),
        "unknown": report.unknown.iter().map(|unknown| json!({
            "rule": unknown.rule.id,
            "part": report.part_name(unknown.part),
            "missing": unknown.missing.iter().map(Quantity::key).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
    })
}

fn assessment(report: &Report) -> Value {
    let assessed = &report.assessment;
    let mut whole = part(&assessed.whole);
    whole.insert("shell".into(), Value::Object(part(&assessed.shell)));
    let layers = assessed.layers.iter().enumerate().map(|(index, layer)| {
        let mut entry = Map::from_iter([("name".to_owned(), json!(report.part_name(Part::Layer(index))))]);
        if let Some(kind) = layer.kind {
            entry.insert("kind".into(), json!(kind.key()));
        }
        entry.extend(part(layer));
        if let Some(Some(above)) = report.exchanges.get(index) {
            entry.insert("exchange_with_above".into(), exchange::json(above));
        }
        Value::Object(entry)
    });
    whole.insert("layers".into(), layers.collect());
    whole.insert("cap".into(), Value::Object(part(&assessed.cap)));
    Value::Object(whole)
}

fn part(assessed: &PartAssessment) -> Map<String, Value> {
    let known = Quantity::ALL.iter().filter_map(|quantity| match assessed.get(*quantity) {
        Assessed::Known(known) => Some((quantity.key().to_owned(), estimate(*quantity, &known))),
        Assessed::Missing(_) | Assessed::Absent => None,
    });
    known.collect()
}

fn estimate(quantity: Quantity, known: &Estimate) -> Value {
    let unit = quantity.unit();
    let value = |base: f64| rounded(Measure::from_base(base, unit)).value();
    if known.evidence == Evidence::Declared {
        return json!({ "value": value(known.value()), "unit": unit });
    }
    json!({
        "value": value(known.value()),
        "low": value(known.band.low),
        "high": value(known.band.high),
        "unit": unit,
        "known": known.evidence.key(),
        "in_range": known.in_range,
    })
}

fn entry(report: &Report, finding: &Finding, reading: &Reading) -> Value {
    let deciding = finding.decisive().is_some_and(|decisive| std::ptr::eq(decisive, reading)) && reading.verdict > Verdict::Pass;
    let remedies = if deciding { finding.remedies.as_slice() } else { &[] };
    json!({
        "rule": reading.rule.id,
        "part": report.part_name(reading.part),
        "verdict": reading.verdict.key(),
        "severity": reading.limit.severity.key(),
        "standing": reading.limit.standing.key(),
        "limit": reading.limit.key,
        "value": estimate(reading.limit.quantity, &reading.value),
        "bound": rounded(reading.bound_measure()),
        "margin": rounded(reading.difference(reading.margin)),
        "assured": rounded(reading.difference(reading.assured)),
        "sources": [reading.limit.source.key],
        "text": sentence::of(report, reading),
        "remedies": remedies.iter().map(|advice| json!({
            "knob": advice.knob,
            "from": rounded(advice.from),
            "to": rounded(advice.to),
            "upsets": advice.remedy.upsets.iter().map(|upset| json!({
                "rule": upset.rule, "part": report.part_name(upset.part), "verdict": upset.verdict.map_or("unknown", Choice::key),
            })).collect::<Vec<_>>(),
            "text": advice.text,
        })).collect::<Vec<_>>(),
    })
}

/// Nine significant digits: what is lost is the last bits of unit conversions.
fn rounded(measure: Measure) -> Measure {
    Measure::new(nine_digits(measure.value()), measure.unit())
}

/// The number nearest to its first nine significant digits. A whole number over a power of ten is the number those digits are read as, as long
/// as both are exact; beyond that the digits are written and read again.
fn nine_digits(value: f64) -> f64 {
    const DIGITS: i32 = 8;
    if value.abs() <= 0.0 || !value.is_finite() {
        return value;
    }
    #[allow(clippy::cast_possible_truncation, reason = "the logarithm of a number lies within a few hundred")]
    let places = DIGITS - value.abs().log10().floor() as i32;
    if (0..=22).contains(&places) {
        let power = 10_f64.powi(places);
        (value * power).round() / power
    } else {
        format!("{value:.8e}").parse().unwrap_or(value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nine_digits_are_those_that_would_be_written() {
        let mut value = 1.234_567_891_234e-16;
        while value < 1e20 {
            for sign in [1.0, -1.0] {
                let written: f64 = format!("{:.8e}", sign * value).parse().unwrap_or(f64::NAN);
                assert_eq!(nine_digits(sign * value).to_bits(), written.to_bits(), "{value:e}");
            }
            value *= 1.37;
        }
        assert_eq!(nine_digits(0.3 - 0.1).to_string(), "0.2");
        assert_eq!(nine_digits(999_999_999.6).to_string(), "1000000000");
    }
}
