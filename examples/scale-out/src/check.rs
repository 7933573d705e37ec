//! Holds what the function says against checking the same candidates one by one.

use crate::column::Column;
use crate::function::{Cordial, IMPOSSIBLE, difference};
use crate::query::judged;
use crate::question::Question;
use crate::terminal::say;
use crate::write::Candidates;
use cordial::assess::{Part, Quantity};
use cordial::engine::{Limit, Verdict};
use cordial::units::{Choice, Measure};
use cordial::{Piece, Report};
use datafusion::arrow::array::{Array, ArrayRef, AsArray, Float64Array, RecordBatch, StructArray};
use datafusion::arrow::datatypes::Float64Type;
use datafusion::prelude::SessionContext;
use std::{error::Error, sync::Arc};

/// What there is to tell of a candidate, in the order of the function's fields.
#[derive(Debug, Clone, PartialEq, Default)]
struct Told {
    verdict: Option<String>,
    passes: Option<bool>,
    unknown: Option<bool>,
    /// The worst rule; of one by one all that might be.
    worst: Vec<String>,
    /// Each estimate and margin; of margins one by one all that might be.
    numbers: Vec<Vec<Vec<f64>>>,
}

/// Some hundred candidates, in the units of the bench and in the base units, one with a setting that lacks and one that makes no piece.
pub fn run(asked: Question, varied: &[&str], count: u64) -> Result<(), Box<dyn Error>> {
    let piece = asked.piece()?;
    let (estimates, margins) = (asked.estimates(&piece)?, asked.margins()?);
    let runtime = tokio::runtime::Builder::new_multi_thread().build()?;
    let mut verdicts = std::collections::BTreeMap::<String, u64>::new();
    for base in [false, true] {
        let candidates = Candidates::of(&piece, varied, count)?;
        let candidates = candidates.in_units(|unit| if base { unit.dimension().base_unit() } else { unit });
        let batch = spoilt(&candidates.batch(0..count)?)?;
        let found = runtime.block_on(found(asked.clone(), &batch))?;
        let columns: Vec<Column> =
            batch.schema().fields().iter().skip(1).map(|field| Column::read(field.name(), &piece)).collect::<Result<_, _>>()?;
        for row in 0..batch.num_rows() {
            let (said, wanted) =
                (told(&found, row, estimates.len() + margins.len())?, one(&piece, &batch, &columns, row, &estimates, &margins)?);
            if !same(&said, &wanted) {
                return Err(format!("candidate {row}: the function says\n{said:?}\nchecking says\n{wanted:?}").into());
            }
            *verdicts.entry(said.verdict.unwrap_or_else(|| "null".into())).or_default() += 1;
        }
    }
    let verdicts: Vec<String> = verdicts.iter().map(|(verdict, count)| format!("{count} {verdict}")).collect();
    say!("{}: the function says what checking one by one says: {}", piece.name, verdicts.join(", "));
    Ok(())
}

/// The candidates with the first setting of the first taken away, and that of the second made impossible.
fn spoilt(batch: &RecordBatch) -> Result<RecordBatch, Box<dyn Error>> {
    let mut columns = batch.columns().to_vec();
    if let Some(first) = columns.get_mut(1) {
        let settings = first.as_primitive::<Float64Type>().iter().enumerate();
        let settings = settings.map(|(row, to)| match row {
            0 => None,
            1 => Some(f64::NAN),
            _ => to,
        });
        *first = Arc::new(settings.collect::<Float64Array>()) as ArrayRef;
    }
    Ok(RecordBatch::try_new(batch.schema(), columns)?)
}

/// What the function finds, by way of SQL.
async fn found(asked: Question, batch: &RecordBatch) -> Result<RecordBatch, Box<dyn Error>> {
    let engine = SessionContext::new();
    engine.register_batch("candidates", batch.clone())?;
    judged(&engine, Cordial::new(asked)?, &batch.schema()).await?;
    let settings = batch.num_columns();
    let batches = engine.sql("SELECT * FROM judged ORDER BY candidate").await?.collect().await?;
    let all = datafusion::arrow::compute::concat_batches(&batches.first().ok_or("no row")?.schema(), &batches)?;
    Ok(all.project(&(settings..all.num_columns()).collect::<Vec<_>>())?)
}

fn told(found: &RecordBatch, row: usize, numbers: usize) -> Result<Told, Box<dyn Error>> {
    let [verdict, passes, unknown, worst, structs @ ..] = found.columns() else { return Err("the function has too few fields".into()) };
    let word = |column: &ArrayRef| column.is_valid(row).then(|| column.as_string_view().value(row).to_owned());
    let truth = |column: &ArrayRef| column.is_valid(row).then(|| column.as_boolean().value(row));
    let in_struct = |column: &StructArray| column.columns().iter().map(|part| part.as_primitive::<Float64Type>().value(row)).collect();
    let all = |column: &ArrayRef| if column.is_valid(row) { vec![in_struct(column.as_struct())] } else { Vec::new() };
    if structs.len() != numbers {
        return Err("the function has other fields than were asked for".into());
    }
    Ok(Told {
        verdict: word(verdict),
        passes: truth(passes),
        unknown: truth(unknown),
        worst: word(worst).into_iter().collect(),
        numbers: structs.iter().map(all).collect(),
    })
}

/// The same by turning each knob on the piece and checking it.
fn one(
    piece: &Piece,
    batch: &RecordBatch,
    columns: &[Column],
    row: usize,
    estimates: &[(String, Part, Quantity)],
    margins: &[&Limit],
) -> Result<Told, Box<dyn Error>> {
    let nothing = vec![Vec::new(); estimates.len() + margins.len()];
    let mut turned = Some(piece.clone());
    for (column, settings) in columns.iter().zip(batch.columns().iter().skip(1)) {
        if settings.is_null(row) {
            return Ok(Told { numbers: nothing, ..Told::default() });
        }
        let to = column.unit.to_base(settings.as_primitive::<Float64Type>().value(row));
        turned = turned.and_then(|piece| column.knob.set(&piece, to));
    }
    let Some(turned) = turned else {
        return Ok(Told {
            verdict: Some(IMPOSSIBLE.into()),
            passes: Some(false),
            unknown: Some(false),
            numbers: nothing,
            ..Told::default()
        });
    };
    let report = cordial::check(&turned)?;
    let (verdict, unknown) = (report.verdict(), !report.unknown.is_empty());
    let worst = report.findings.iter().filter(|finding| finding.counts() && finding.verdict == verdict && verdict > Verdict::Pass);
    let estimates = estimates.iter().map(|(_, part, quantity)| estimate(&report, *part, *quantity));
    Ok(Told {
        verdict: Some(verdict.key().into()),
        passes: Some(verdict <= Verdict::Note && !unknown),
        unknown: Some(unknown),
        worst: worst.map(|finding| finding.rule.id.to_owned()).collect(),
        numbers: estimates.chain(margins.iter().map(|limit| met(&report, limit))).collect(),
    })
}

fn estimate(report: &Report, part: Part, quantity: Quantity) -> Vec<Vec<f64>> {
    let known = report.assessment.part(part).and_then(|part| part.get(quantity).known());
    let shown = |base| Measure::from_base(base, quantity.unit()).value();
    known.map(|estimate| [estimate.band.value, estimate.band.low, estimate.band.high].map(shown).to_vec()).into_iter().collect()
}

fn met(report: &Report, limit: &Limit) -> Vec<Vec<f64>> {
    let readings = report.findings.iter().flat_map(|finding| &finding.readings).filter(|reading| reading.limit.key == limit.key);
    readings.map(|reading| [reading.margin, reading.assured].map(|base| difference(base, limit.careful.unit())).to_vec()).collect()
}

/// Whether what was said is among what might be, to the last bit.
fn same(said: &Told, wanted: &Told) -> bool {
    let among =
        |said: &[Vec<f64>], wanted: &[Vec<f64>]| said.is_empty() == wanted.is_empty() && said.iter().all(|one| wanted.contains(one));
    (&said.verdict, said.passes, said.unknown) == (&wanted.verdict, wanted.passes, wanted.unknown)
        && said.worst.is_empty() == wanted.worst.is_empty()
        && said.worst.iter().all(|one| wanted.worst.contains(one))
        && said.numbers.len() == wanted.numbers.len()
        && said.numbers.iter().zip(&wanted.numbers).all(|(said, wanted)| among(said, wanted))
}
