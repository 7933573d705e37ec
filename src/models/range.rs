//! Where a model holds.

use crate::units::{Checked, Measure, Unit};
use std::ops::RangeInclusive;

/// A question put outside the range in which a property is known.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{what} is known from {min} to {max}, found `{found}`")]
pub struct OutOfRange {
    /// Which property.
    pub what: &'static str,
    /// Where the range begins.
    pub min: Measure,
    /// Where it ends.
    pub max: Measure,
    /// What was asked for.
    pub found: Measure,
}

/// The number in the base unit if it is inside the range of the model.
pub(super) fn within<T: Checked>(range: &RangeInclusive<f64>, value: T, unit: Unit, what: &'static str) -> Result<f64, OutOfRange> {
    let measure = |base| Measure::from_base(base, unit);
    if range.contains(&value.base()) {
        Ok(value.base())
    } else {
        Err(OutOfRange { what, min: measure(*range.start()), max: measure(*range.end()), found: measure(value.base()) })
    }
}
