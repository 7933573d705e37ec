//! What a row expects, and whether what was found meets it.

use crate::Result;
use crate::row::{Row, measure};
use cordial::units::{Band, Dimension, Measure};

/// What a model or a rule gave.
pub enum Found {
    /// A number in the base unit of its dimension, with its 95 % band; a band of no width where the model states none.
    Number(Band<f64>, Dimension),
    /// A word.
    Word(&'static str),
}

impl Found {
    /// A number without a band.
    pub const fn exact(value: f64, dimension: Dimension) -> Self {
        Self::Number(Band::exact(value), dimension)
    }
}

/// What a row expects.
pub enum Expected {
    /// A value, reached within so much in the base unit; within anything if its class is judged as a whole.
    Near { value: Measure, tolerance: f64 },
    /// A value that the band of the model holds.
    Held { value: Measure },
    /// A value between two.
    Between(Measure, Measure),
    /// A word, one of these.
    Word(Vec<String>),
}

/// How far off a row was.
pub struct Outcome {
    /// Whether the row is met.
    pub met: bool,
    /// What was found less what was expected, in the base unit, where a single value was expected.
    pub miss: Option<f64>,
    /// What was found, in the unit of the row.
    pub found: String,
    /// What was expected.
    pub expected: String,
}

impl Expected {
    /// Reads what a row expects. Rows of a class may leave the tolerance to the class.
    pub fn read(row: &Row, of_a_class: bool) -> Result<Self> {
        let tolerance = row.value("tolerance").map(measure).transpose()?;
        let relative = row.value("relative").map(measure).transpose()?;
        let held = row.value("in_band").is_some() && row.flag("in_band")?;
        let expected = match (row.value("value"), row.value("between"), row.value("is")) {
            (Some(value), None, None) => {
                let value = measure(value)?;
                match (tolerance, relative, held) {
                    (Some(tolerance), None, false) => Self::Near { value, tolerance: width(tolerance.to(value.unit())?) },
                    (None, Some(relative), false) => Self::Near { value, tolerance: relative.base() * value.base().abs() },
                    (None, None, true) => Self::Held { value },
                    (None, None, false) if of_a_class => Self::Near { value, tolerance: f64::INFINITY },
                    _ => return Err("say `tolerance`, `relative` or `in_band = true`, one of them".into()),
                }
            }
            (None, Some(ends), None) => {
                let ends: Vec<_> = ends.as_array().into_iter().flatten().map(measure).collect::<Result<_>>()?;
                let [low, high] = ends[..] else { return Err("`between` takes two ends".into()) };
                Self::Between(low, high.to(low.unit())?)
            }
            (None, None, Some(word)) => {
                let words = word.as_array().map_or_else(|| vec![word], |words| words.iter().collect());
                Self::Word(
                    words
                        .into_iter()
                        .map(|word| word.as_str().map(str::to_owned).ok_or("`is` takes words"))
                        .collect::<std::result::Result<_, _>>()?,
                )
            }
            _ => return Err("say `value`, `between` or `is`, one of them".into()),
        };
        let bare = !matches!(expected, Self::Near { .. } | Self::Held { .. });
        if bare && (tolerance.is_some() || relative.is_some() || held) {
            return Err("a tolerance belongs to a `value`".into());
        }
        if row.text("reason")?.is_empty() && !of_a_class {
            return Err("`reason` lacks: say why this far and no farther".into());
        }
        Ok(expected)
    }

    /// Holds what was found against it.
    pub fn judge(&self, found: &Found) -> Result<Outcome> {
        match (self, found) {
            (Self::Word(expected), Found::Word(found)) => {
                let met = expected.iter().any(|word| word == found);
                Ok(Outcome { met, miss: None, found: (*found).into(), expected: expected.join(" or ") })
            }
            (Self::Word(_), Found::Number(..)) => Err("a number was found, so no word can be expected".into()),
            (_, Found::Word(_)) => Err("a word was found: say `is`".into()),
            (Self::Near { value, tolerance }, Found::Number(band, dimension)) => {
                same(*dimension, *value)?;
                let miss = band.value - value.base();
                // Rounding must not decide: a value that sits on the edge of its tolerance is inside.
                let met = miss.abs() <= tolerance * (1.0 + 1e-9);
                let expected = format!("{value} within {}", plus_minus(*tolerance, *value));
                Ok(Outcome { met, miss: Some(miss), found: print(band.value, *value), expected })
            }
            (Self::Held { value }, Found::Number(band, dimension)) => {
                same(*dimension, *value)?;
                if band.high <= band.low {
                    return Err("this model states no band: give a tolerance".into());
                }
                let found = format!("{} to {}", print(band.low, *value), print(band.high, *value));
                let met = (band.low..=band.high).contains(&value.base());
                Ok(Outcome { met, miss: Some(band.value - value.base()), found, expected: format!("a band that holds {value}") })
            }
            (Self::Between(low, high), Found::Number(band, dimension)) => {
                same(*dimension, *low)?;
                let met = (low.base()..=high.base()).contains(&band.value);
                Ok(Outcome { met, miss: None, found: print(band.value, *low), expected: format!("{low} to {high}") })
            }
        }
    }

    /// What was found, as a note on a disagreement writes it: with as many decimals as `written`.
    pub fn printed_like(&self, found: &Found, written: &str) -> Result<String> {
        let (number, unit) = match (self, found) {
            (_, Found::Word(word)) => return Ok((*word).to_owned()),
            (Self::Near { value, .. } | Self::Held { value } | Self::Between(value, _), Found::Number(band, _)) => {
                (Measure::from_base(band.value, value.unit()).value(), value.unit())
            }
            (Self::Word(_), Found::Number(..)) => return Err("a number was found, so no word can be expected".into()),
        };
        let decimals = written.split(' ').next().and_then(|number| number.split_once('.')).map_or(0, |(_, decimals)| decimals.len());
        let printed = format!("{number:.decimals$}");
        Ok(if unit.code() == "1" { printed } else { format!("{printed} {unit}") })
    }
}

/// A difference in the base unit: a tolerance of 1 °C is 1 K, not 274.
fn width(tolerance: Measure) -> f64 {
    tolerance.base() - tolerance.unit().to_base(0.0)
}

fn same(found: Dimension, expected: Measure) -> Result<()> {
    if expected.unit().dimension() == found { Ok(()) } else { Err(format!("`{expected}` is not {}", found.words()).into()) }
}

fn print(base: f64, like: Measure) -> String {
    Measure::from_base(base, like.unit()).to_string()
}

fn plus_minus(tolerance: f64, like: Measure) -> String {
    if tolerance.is_infinite() { "its class".into() } else { print(tolerance + like.unit().to_base(0.0), like) }
}
