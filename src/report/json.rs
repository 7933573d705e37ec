//! The report as JSON. It holds every reading and every remedy and is fifty times as long as the text, so it is written straight from what
//! is borrowed; a tree built branch by branch would be copied anew at every level.

use super::{Advice, Finding, Report, exchange, sentence};
use crate::assess::{Assessed, Estimate, Evidence, Part, PartAssessment, Quantity};
use crate::engine::{Reading, Unknown, Verdict};
use crate::law::Row;
use crate::matter::{Constituent, ConstituentSet};
use crate::remedy::Upset;
use crate::units::{Choice, Measure, Unit};
use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::Value;

/// The version of the form.
const FORMAT: u32 = 1;

/// Reports in the form that programs read, as a tree to look into; [`to_json_text`] writes it out without one.
#[must_use]
pub fn to_json(reports: &[Report]) -> Value {
    // Nothing of it can fail to be a tree: every key is a text.
    serde_json::to_value(all(reports)).unwrap_or_default()
}

/// The same written out, indented.
#[must_use]
pub fn to_json_text(reports: &[Report]) -> String {
    serde_json::to_string_pretty(&all(reports)).unwrap_or_default()
}

impl Report {
    /// The report in the form that programs read.
    #[must_use]
    pub fn to_json(&self) -> Value {
        to_json(std::slice::from_ref(self))
    }
}

fn all(reports: &[Report]) -> Reports<'_> {
    Reports { format: FORMAT, pieces: reports.iter().map(piece).collect() }
}

#[derive(serde::Serialize)]
struct Reports<'a> {
    format: u32,
    pieces: Vec<Piece<'a>>,
}

#[derive(serde::Serialize)]
struct Piece<'a> {
    name: &'a str,
    verdict: &'static str,
    assessment: Assessments<'a>,
    readings: Vec<Entry<'a>>,
    accepted: Vec<Accepted<'a>>,
    unknown: Vec<Lacking<'a>>,
}

#[derive(serde::Serialize)]
struct Accepted<'a> {
    rule: &'static str,
    part: &'a str,
    reason: &'a str,
}

#[derive(serde::Serialize)]
struct Lacking<'a> {
    rule: &'static str,
    part: &'a str,
    missing: Vec<&'static str>,
}

fn piece<'a>(report: &'a Report) -> Piece<'a> {
    let readings = report.findings.iter().flat_map(|finding| finding.readings.iter().map(move |reading| (finding, reading)));
    let accepted = |finding: &'a Finding| {
        Some(Accepted { rule: finding.rule.id, part: report.part_name(finding.part), reason: finding.accepted.as_ref()? })
    };
    let lacking = |unknown: &Unknown| Lacking {
        rule: unknown.rule.id,
        part: report.part_name(unknown.part),
        missing: unknown.missing.iter().map(Quantity::key).collect(),
    };
    Piece {
        name: &report.name,
        verdict: report.verdict().key(),
        assessment: Assessments(report),
        readings: readings.map(|(finding, reading)| entry(report, finding, reading)).collect(),
        accepted: report.findings.iter().filter_map(accepted).collect(),
        unknown: report.unknown.iter().map(lacking).collect(),
    }
}

/// The whole, and in it shell, layers and cap.
struct Assessments<'a>(&'a Report);

impl Serialize for Assessments<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let (report, assessed) = (self.0, &self.0.assessment);
        let mut map = serializer.serialize_map(None)?;
        known(&assessed.whole, &mut map)?;
        map.serialize_entry("shell", &Quantities(&assessed.shell))?;
        map.serialize_entry("layers", &(0..assessed.layers.len()).map(|index| Layer { report, index }).collect::<Vec<_>>())?;
        map.serialize_entry("cap", &Quantities(&assessed.cap))?;
        map.end()
    }
}

struct Layer<'a> {
    report: &'a Report,
    index: usize,
}

impl Serialize for Layer<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { report, index } = self;
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("name", report.part_name(Part::Layer(*index)))?;
        if let Some(layer) = report.assessment.layers.get(*index) {
            if let Some(kind) = layer.kind {
                map.serialize_entry("kind", kind.key())?;
            }
            if layer.beyond_range != ConstituentSet::EMPTY {
                map.serialize_entry("beyond_range", &layer.beyond_range.iter().map(Constituent::key).collect::<Vec<_>>())?;
            }
            known(layer, &mut map)?;
        }
        if let Some(Some(above)) = report.exchanges.get(*index) {
            map.serialize_entry("exchange_with_above", &exchange::json(above))?;
        }
        map.end()
    }
}

struct Quantities<'a>(&'a PartAssessment);

impl Serialize for Quantities<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        known(self.0, &mut map)?;
        map.end()
    }
}

/// What is known on a part, by its keys.
fn known<M: SerializeMap>(part: &PartAssessment, map: &mut M) -> Result<(), M::Error> {
    Quantity::ALL.iter().try_for_each(|quantity| match part.get(*quantity) {
        Assessed::Known(known) => map.serialize_entry(quantity.key(), &Number(*quantity, known)),
        Assessed::Missing(_) | Assessed::Absent => Ok(()),
    })
}

/// A number, with its band unless it is stated.
struct Number(Quantity, Estimate);

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let (unit, known) = (self.0.unit(), &self.1);
        let value = |base: f64| nine_digits(Measure::from_base(base, unit).value());
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("value", &value(known.value()))?;
        if known.evidence == Evidence::Declared {
            map.serialize_entry("unit", &unit)?;
            return map.end();
        }
        map.serialize_entry("low", &value(known.band.low))?;
        map.serialize_entry("high", &value(known.band.high))?;
        map.serialize_entry("unit", &unit)?;
        map.serialize_entry("known", known.evidence.key())?;
        map.serialize_entry("in_range", &known.in_range)?;
        map.end()
    }
}

#[derive(serde::Serialize)]
struct Bare {
    value: f64,
    unit: Unit,
}

impl From<Measure> for Bare {
    fn from(measure: Measure) -> Self {
        Self { value: nine_digits(measure.value()), unit: measure.unit() }
    }
}

#[derive(serde::Serialize)]
struct Entry<'a> {
    rule: &'static str,
    part: &'a str,
    verdict: &'static str,
    severity: &'static str,
    standing: &'static str,
    limit: &'static str,
    value: Number,
    bound: Bare,
    margin: Bare,
    assured: Bare,
    sources: [&'static str; 1],
    basis: String,
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    law: Option<Law<'a>>,
    remedies: Vec<Turn<'a>>,
}

/// The row of law a reading is of: where it is written and how it is known.
#[derive(serde::Serialize)]
struct Law<'a> {
    row: &'a str,
    market: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    region: Option<&'static str>,
    effect: &'static str,
    names: Vec<&'static str>,
    additives: Vec<&'static str>,
    basis: &'a str,
    note: &'a str,
    instrument: &'a str,
    section: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    version: Option<&'a str>,
    known: &'static str,
    address: &'a str,
    caution: &'static str,
}

impl<'a> Law<'a> {
    fn of(row: &'a Row) -> Self {
        Self {
            row: &row.id,
            market: row.market.key(),
            region: row.region.map(Choice::key),
            effect: row.effect.key(),
            names: row.names.iter().map(Choice::key).collect(),
            additives: row.additives.iter().map(Choice::key).collect(),
            basis: &row.basis,
            note: &row.note,
            instrument: &row.citation.instrument,
            section: &row.citation.section,
            version: row.citation.version.as_deref(),
            known: row.citation.known.key(),
            address: &row.citation.address,
            caution: "arithmetic on published limits, no advice: local authorities and a qualified person decide",
        }
    }
}

#[derive(serde::Serialize)]
struct Turn<'a> {
    knob: &'a str,
    from: Bare,
    to: Bare,
    upsets: Vec<Worse<'a>>,
    text: &'a str,
}

#[derive(serde::Serialize)]
struct Worse<'a> {
    rule: &'static str,
    part: &'a str,
    verdict: &'static str,
}

fn entry<'a>(report: &'a Report, finding: &'a Finding, reading: &Reading) -> Entry<'a> {
    let deciding = finding.decisive().is_some_and(|decisive| std::ptr::eq(decisive, reading)) && reading.verdict > Verdict::Pass;
    let remedies = if deciding { finding.remedies.as_slice() } else { &[] };
    let worse = |upset: &Upset| Worse {
        rule: upset.rule,
        part: report.part_name(upset.part),
        verdict: upset.verdict.map_or("unknown", Choice::key),
    };
    let turn = |advice: &'a Advice| Turn {
        knob: &advice.knob,
        from: advice.from.into(),
        to: advice.to.into(),
        upsets: advice.remedy.upsets.iter().map(worse).collect(),
        text: &advice.text,
    };
    Entry {
        rule: reading.rule.id,
        part: report.part_name(reading.part),
        verdict: reading.verdict.key(),
        severity: reading.limit.severity.key(),
        standing: reading.limit.standing.key(),
        limit: reading.limit.key,
        value: Number(reading.bound.quantity, reading.value),
        bound: reading.bound_measure().into(),
        margin: reading.difference(reading.margin).into(),
        assured: reading.difference(reading.assured).into(),
        sources: [reading.limit.source.key],
        basis: sentence::source(report, reading),
        text: sentence::of(report, reading),
        law: report.row(reading).map(Law::of),
        remedies: remedies.iter().map(turn).collect(),
    }
}

/// The number nearest to its first nine significant digits: what is lost is the last bits of unit conversions. A whole number over a power of ten is the number those digits are read as, as long
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
