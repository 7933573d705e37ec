//! The function of SQL: a struct of settings in, one field a knob, and a struct of what was found out.

use crate::asked::heading;
use crate::column::Column;
use crate::question::Question;
use cordial::Piece;
use cordial::assess::{Part, Quantity};
use cordial::engine::{Limit, Mark};
use cordial::piece::Knob;
use cordial::rules;
use cordial::screen::{Found, Screen};
use cordial::units::{Choice, Measure, Unit};
use datafusion::arrow::array::{Array, ArrayRef, AsArray, BooleanArray, Float64Array, StringViewBuilder, StructArray};
use datafusion::arrow::buffer::NullBuffer;
use datafusion::arrow::compute::cast;
use datafusion::arrow::datatypes::{DataType, Field, Fields, Float64Type};
use datafusion::common::utils::take_function_args;
use datafusion::error::{DataFusionError, Result};
use datafusion::logical_expr::{ColumnarValue, ScalarFunctionArgs, ScalarUDFImpl, Signature, Volatility};
use std::hash::{Hash, Hasher};
use std::sync::Arc;

/// What a candidate is called whose settings make no piece.
pub const IMPOSSIBLE: &str = "impossible";

/// `cordial(named_struct('shell thickness (mm)', ...))`. All of its state follows from the text of its question.
#[derive(Debug)]
pub struct Cordial {
    question: Question,
    piece: Piece,
    estimates: Vec<(String, Part, Quantity)>,
    margins: Vec<&'static Limit>,
    signature: Signature,
    found: Fields,
}

impl Cordial {
    pub fn new(question: Question) -> Result<Self, String> {
        let piece = question.piece()?;
        let (estimates, margins) = (question.estimates(&piece)?, question.margins()?);
        let judged = [("verdict", DataType::Utf8View), ("passes", DataType::Boolean), ("unknown", DataType::Boolean)];
        let judged = judged.into_iter().chain([("worst", DataType::Utf8View)]).map(|(name, kind)| Field::new(name, kind, true));
        let three = |name: &str, unit, parts| Field::new(heading(name, unit), DataType::Struct(numbers(parts)), true);
        let estimated = estimates.iter().map(|(name, _, quantity)| three(name, quantity.unit(), &ESTIMATE));
        let met = margins.iter().map(|limit| three(&format!("margin of {}", limit.key), limit.careful.unit(), &MARGIN));
        let found = judged.chain(estimated).chain(met).collect();
        let function = Self { signature: Signature::any(1, Volatility::Immutable), question, piece, estimates, margins, found };
        function.screen().map(|_| ()).map_err(|error| error.to_string())?;
        Ok(function)
    }

    /// The fields of what is found.
    pub fn found(&self) -> &Fields {
        &self.found
    }

    /// Laid out anew for every batch of some thousand candidates, which costs as much as a few of them.
    fn screen(&self) -> Result<Screen<'_>, Box<dyn std::error::Error + Send + Sync>> {
        let mut screen = Screen::new(&self.piece, &rules::built_in())?;
        for (_, part, quantity) in &self.estimates {
            screen = screen.with_estimate(*part, *quantity);
        }
        self.margins.iter().try_fold(screen, |screen, limit| Ok(screen.with_margin(limit.key)?))
    }

    fn columns(&self, kind: &DataType) -> Result<Vec<Column>> {
        let DataType::Struct(fields) = kind else {
            return Err(refused("cordial takes one struct with a field for each knob: named_struct('shell thickness (mm)', ...)"));
        };
        if let Some(field) = fields.iter().find(|field| !field.data_type().is_numeric() && !field.data_type().is_null()) {
            return Err(refused(format!("`{}`: settings are numbers, not {}", field.name(), field.data_type())));
        }
        fields.iter().map(|field| Column::read(field.name(), &self.piece).map_err(refused)).collect()
    }

    /// One row for each of the candidates; none where a setting is null.
    fn rows(&self, candidates: &StructArray) -> Result<(Option<NullBuffer>, Vec<Option<Found>>)> {
        let columns = self.columns(candidates.data_type())?;
        let knobs: Vec<Knob> = columns.iter().map(|column| column.knob).collect();
        let settings: Vec<ArrayRef> =
            candidates.columns().iter().map(|column| cast(column, &DataType::Float64)).collect::<Result<_, _>>()?;
        let nulls = settings.iter().fold(candidates.nulls().cloned(), |nulls, column| NullBuffer::union(nulls.as_ref(), column.nulls()));
        let settings: Vec<&Float64Array> = settings.iter().map(|column| column.as_primitive::<Float64Type>()).collect();
        let turned = (0..candidates.len()).map(|row| {
            let there = nulls.as_ref().is_none_or(|nulls| nulls.is_valid(row));
            let to = || settings.iter().zip(&columns).map(|(column, Column { unit, .. })| unit.to_base(column.value(row)));
            // Settings that lack make no piece, and cost nothing.
            if there { to().collect() } else { Vec::new() }
        });
        let screen = self.screen().map_err(DataFusionError::External)?;
        let found = screen.turned(&knobs, turned).map(|row| row.found).collect();
        Ok((nulls, found))
    }
}

impl ScalarUDFImpl for Cordial {
    fn name(&self) -> &str {
        "cordial"
    }

    fn signature(&self) -> &Signature {
        &self.signature
    }

    /// Wrong columns and units are refused here, before anything is read.
    fn return_type(&self, arguments: &[DataType]) -> Result<DataType> {
        let [candidate] = take_function_args(self.name(), arguments)?;
        self.columns(candidate)?;
        Ok(DataType::Struct(self.found.clone()))
    }

    fn invoke_with_args(&self, arguments: ScalarFunctionArgs) -> Result<ColumnarValue> {
        let [candidates] = take_function_args(self.name(), arguments.args)?;
        let candidates = candidates.into_array(arguments.number_rows)?;
        let candidates = candidates.as_struct_opt().ok_or_else(|| refused("cordial takes one struct"))?;
        let (nulls, rows) = self.rows(candidates)?;
        let there = |row: usize| nulls.as_ref().is_none_or(|nulls| nulls.is_valid(row));
        let told = |of: fn(&Found) -> Option<&'static str>, otherwise: Option<&'static str>| {
            let mut words = StringViewBuilder::new().with_deduplicate_strings();
            for (row, found) in rows.iter().enumerate() {
                words.append_option(found.as_ref().map_or(otherwise.filter(|_| there(row)), of));
            }
            Arc::new(words.finish()) as ArrayRef
        };
        let whether = |of: fn(&Found) -> bool| {
            let all = rows.iter().enumerate().map(|(row, found)| there(row).then(|| found.as_ref().is_some_and(of)));
            Arc::new(all.collect::<BooleanArray>()) as ArrayRef
        };
        let mut columns = vec![
            told(|found| Some(found.verdict.key()), Some(IMPOSSIBLE)),
            whether(Found::passes),
            whether(|found| found.unknown),
            told(|found| found.worst.map(|card| card.id), None),
        ];
        for (place, (_, _, quantity)) in self.estimates.iter().enumerate() {
            let estimate = |found: &Found| found.estimates.get(place)?.known().map(|estimate| estimate.band);
            let shown = |base: f64| Measure::from_base(base, quantity.unit()).value();
            columns.push(structs(&ESTIMATE, &rows, |found| estimate(found).map(|band| [band.value, band.low, band.high].map(shown)))?);
        }
        for (place, limit) in self.margins.iter().enumerate() {
            let mark = |found: &Found| found.marks.get(place).copied().flatten();
            let shown = |base: f64| difference(base, limit.careful.unit());
            columns.push(structs(&MARGIN, &rows, |found| mark(found).map(|Mark { margin, assured, .. }| [margin, assured].map(shown)))?);
        }
        Ok(ColumnarValue::Array(Arc::new(StructArray::try_new(self.found.clone(), columns, nulls)?)))
    }
}

/// Two are the same when they ask the same.
impl PartialEq for Cordial {
    fn eq(&self, other: &Self) -> bool {
        self.question == other.question
    }
}

impl Eq for Cordial {}

impl Hash for Cordial {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.question.hash(state);
    }
}

const ESTIMATE: [&str; 3] = ["value", "low", "high"];
const MARGIN: [&str; 2] = ["margin", "assured"];

fn numbers(names: &[&str]) -> Fields {
    names.iter().map(|name| Field::new(*name, DataType::Float64, true)).collect()
}

/// A column of structs of numbers, null where there is nothing to tell.
fn structs<const N: usize>(names: &[&str; N], rows: &[Option<Found>], of: impl Fn(&Found) -> Option<[f64; N]>) -> Result<ArrayRef> {
    let told: Vec<Option<[f64; N]>> = rows.iter().map(|found| found.as_ref().and_then(&of)).collect();
    let column = |place: usize| told.iter().map(|told| told.as_ref().and_then(|told| told.get(place).copied())).collect::<Float64Array>();
    let columns = (0..N).map(|place| Arc::new(column(place)) as ArrayRef).collect();
    let nulls = told.iter().map(Option::is_some).collect::<Vec<bool>>().into();
    Ok(Arc::new(StructArray::try_new(numbers(names), columns, Some(nulls))?))
}

/// A difference in a unit, whose zero may lie elsewhere.
pub fn difference(base: f64, unit: Unit) -> f64 {
    Measure::from_base(base, unit).value() - Measure::from_base(0.0, unit).value()
}

fn refused(why: impl Into<String>) -> DataFusionError {
    let why: String = why.into();
    DataFusionError::External(why.into())
}
