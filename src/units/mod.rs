//! The door between words and numbers: the only place that knows unit strings and legal ranges.
//!
//! A number enters as a [`Measure`] (`"2 mm"`), is checked once against the table in [`checked`], and from there on is a typed
//! quantity: a `uom` quantity under the name in [`quantity`], or a checked newtype where a bare ratio would let a fat fraction pass
//! for a water activity.

mod band;
pub mod checked;
mod choice;
mod measure;
#[cfg(feature = "documents")]
mod nearest;
pub mod quantity;
#[cfg(feature = "documents")]
pub(crate) mod reader;

pub use band::Band;
pub use checked::{
    AlcoholByVolume, BoilingWater, BulkDensity, Checked, DextroseEquivalent, Distance, Duration, MassFraction, Ph, Portion, RangeError,
    RelativeHumidity, Space, Temperature, Thickness, Viscosity, WaterActivity, YieldValue,
};
pub use choice::Choice;
pub(crate) use choice::{choice_sets, choices};
#[cfg(feature = "documents")]
pub(crate) use measure::shortened;
pub use measure::{Dimension, Measure, MeasureError, Unit};
#[cfg(feature = "documents")]
pub(crate) use nearest::nearest;
#[cfg(feature = "documents")]
pub use reader::{DocumentError, Fault, FaultKind};
