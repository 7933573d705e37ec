//! Candidates as Parquet files, one after the other, never more than one batch and one row group in memory.

use crate::asked::axis;
use crate::column::Column;
use crate::terminal::say;
use cordial::Piece;
use cordial::piece::Knob;
use cordial::screen::{Axis, Plan};
use cordial::units::{Measure, Unit};
use datafusion::arrow::array::{ArrayRef, Float64Array, RecordBatch, UInt64Array};
use datafusion::arrow::datatypes::{DataType, Field, Schema};
use parquet::arrow::ArrowWriter;
use parquet::file::properties::WriterProperties;
use std::{error::Error, fs, ops::Range, path::Path, sync::Arc, time::Instant};

/// Rows of a batch, and of a row group: what is held in memory.
const BATCH: u64 = 8192;
const ROW_GROUP: usize = 1 << 17;

/// The candidates of a plan as record batches.
pub struct Candidates<'a> {
    piece: &'a Piece,
    plan: Plan,
    columns: Vec<Column>,
}

impl<'a> Candidates<'a> {
    /// So many, spread evenly over the ranges given as in `shell thickness=1 mm..3 mm`; where none is given, over thicknesses, depths and
    /// the masses of ingredients, as far as they are usually turned.
    pub fn of(piece: &'a Piece, varied: &[&str], count: u64) -> Result<Self, Box<dyn Error>> {
        let usual = |knob: &Knob| matches!(knob, Knob::WallThickness | Knob::CapThickness | Knob::FillDepth(_) | Knob::IngredientMass(..));
        let axes: Vec<Axis> = if varied.is_empty() {
            Knob::all(piece).filter(usual).map(|knob| Axis::of(knob, piece)).collect()
        } else {
            varied.iter().map(|text| axis(text, piece)).collect::<Result<_, _>>()?
        };
        let columns: Vec<Column> = axes.iter().map(|axis| Column::of(axis.knob, piece)).collect();
        // What cannot be read back is better not written.
        columns.iter().try_for_each(|column| Column::read(&column.heading(piece), piece).map(|_| ()))?;
        Ok(Self { piece, plan: Plan::sample(axes, count)?, columns })
    }

    /// The same in other units.
    pub fn in_units(self, unit: impl Fn(Unit) -> Unit) -> Self {
        Self { columns: self.columns.into_iter().map(|Column { knob, unit: bench }| Column { knob, unit: unit(bench) }).collect(), ..self }
    }

    /// The number of the candidate, and a column for each knob.
    pub fn schema(&self) -> Arc<Schema> {
        let settings = self.columns.iter().map(|column| Field::new(column.heading(self.piece), DataType::Float64, true));
        Arc::new(Schema::new([Field::new("candidate", DataType::UInt64, false)].into_iter().chain(settings).collect::<Vec<_>>()))
    }

    /// A stretch of them as one batch.
    pub fn batch(&self, range: Range<u64>) -> Result<RecordBatch, Box<dyn Error>> {
        let mut settings: Vec<Vec<f64>> = self.columns.iter().map(|_| Vec::new()).collect();
        for index in range.clone() {
            for ((column, turned), to) in self.columns.iter().zip(&mut settings).zip(self.plan.settings(index)) {
                turned.push(Measure::from_base(to, column.unit).value());
            }
        }
        let settings = settings.into_iter().map(|column| Arc::new(Float64Array::from(column)) as ArrayRef);
        let candidates: ArrayRef = Arc::new(UInt64Array::from_iter_values(range));
        Ok(RecordBatch::try_new(self.schema(), [candidates].into_iter().chain(settings).collect())?)
    }
}

/// Writes so many candidates into so many files of a folder.
pub fn candidates(piece: &Piece, varied: &[&str], count: u64, files: u64, folder: &Path) -> Result<(), Box<dyn Error>> {
    let candidates = Candidates::of(piece, varied, count)?;
    let there = |error| format!("{}: {error}", folder.display());
    fs::create_dir_all(folder).map_err(there)?;
    if fs::read_dir(folder).map_err(there)?.next().is_some() {
        return Err(format!("{}: it holds something already: name a new folder", folder.display()).into());
    }
    // Numbers that fill a range evenly neither repeat nor compress.
    let properties = WriterProperties::builder().set_dictionary_enabled(false).set_max_row_group_row_count(Some(ROW_GROUP)).build();
    let (started, each, mut bytes) = (Instant::now(), count.div_ceil(files), 0);
    for file in 0..files {
        let path = folder.join(format!("candidates-{file:04}.parquet"));
        let range = file.saturating_mul(each).min(count)..(file + 1).saturating_mul(each).min(count);
        let mut writer = ArrowWriter::try_new(fs::File::create(&path)?, candidates.schema(), Some(properties.clone()))?;
        for first in range.clone().step_by(BATCH as usize) {
            writer.write(&candidates.batch(first..(first + BATCH).min(range.end))?)?;
        }
        writer.close()?;
        bytes += fs::metadata(&path)?.len();
    }
    let seconds = started.elapsed().as_secs_f64();
    say!("{}: {count} candidates of {} knobs, {:.0} MB in {files} files", piece.name, candidates.columns.len(), bytes as f64 / 1e6);
    say!("{seconds:.1} s, {:.0} a second{}", count as f64 / seconds, crate::query::peak());
    Ok(())
}
