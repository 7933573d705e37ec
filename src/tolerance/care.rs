//! How carefully a piece is worked.

use crate::source::{COMMON_PRACTICE, Source};
use crate::units::{Checked, MassFraction, Portion};

/// What differs from batch to batch, as standard uncertainties: two cases in three lie within one of them, nineteen in twenty within two.
///
/// Depths, walls and amounts poured differ from piece to piece too; here one is drawn for all pieces of a batch, so that for what hangs on them a
/// share of batches is as well one of pieces. Rests and cooling times are no cause: what is told to wait so long waits at least so long.
///
/// The defaults are common practice of the trade, recalled and measured nowhere ([`Care::SOURCE`]): what a careful small workshop reaches. Replace
/// them by your own: weigh ten doses, ten layers, ten walls, and take the standard deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Care {
    /// The smallest step of the scale, where the piece does not say (workshop, `scale_division`). Usually 1 g.
    pub scale_division: Portion,
    /// What stays in bowls and on spoons, of what was weighed. Usually 0.5 %.
    pub left_behind: MassFraction,
    /// The same of an emulsifier, which sticks, poured by difference. Usually 5 %.
    pub dose_left_behind: MassFraction,
    /// How much of what lots of an ingredient may be off, by [`Ingredient::lot`](crate::matter::Ingredient::lot), they differ by here: nothing where
    /// all is made from one lot. Usually all of it.
    pub lots: MassFraction,
    /// When a pot is taken off: of the mass it is cooked to, besides the scale. Usually 0.5 %.
    pub cooking_out: MassFraction,
    /// What a layer poured by mass or volume is off by, of it. Usually 3 %.
    pub depositing: MassFraction,
    /// How far off the depth is that a layer is poured to, in metres. Usually 0.2 mm.
    pub fill_depth: f64,
    /// How far off a wall is, in metres. Usually 0.1 mm.
    pub wall: f64,
    /// How far off the temperature of tempered chocolate is, in kelvin. Usually 0.3 K.
    pub chocolate_temperature: f64,
    /// How far off a temperature is that a hand and a thermometer see to: pouring, emulsifying, moulds; in kelvin. Usually 1 K.
    pub temperature: f64,
    /// How far off a cabinet and a store are, in kelvin. Usually 0.5 K.
    pub cabinet: f64,
    /// How far off a draining time is, in seconds. Usually 1 s.
    pub draining: f64,
    /// The chocolate that a dose is weighed for, where the batch does not say (batch, `melted`). Usually 1 kg.
    pub melted: Portion,
}

impl Care {
    /// How the defaults are known.
    pub const SOURCE: &'static Source = &COMMON_PRACTICE;

    /// What one weighing is off by: it is shown to the division, half of it to either side, and the hand stops within one division to either side;
    /// every value between being as likely.
    pub(super) fn weighing(division: f64) -> f64 {
        division * (1.0_f64 / 12.0 + 1.0 / 3.0).sqrt()
    }
}

impl Default for Care {
    fn default() -> Self {
        Self {
            scale_division: Portion::nearest(0.001),
            left_behind: MassFraction::nearest(0.005),
            dose_left_behind: MassFraction::nearest(0.05),
            lots: MassFraction::nearest(1.0),
            cooking_out: MassFraction::nearest(0.005),
            depositing: MassFraction::nearest(0.03),
            fill_depth: 0.0002,
            wall: 0.0001,
            chocolate_temperature: 0.3,
            temperature: 1.0,
            cabinet: 0.5,
            draining: 1.0,
            melted: Portion::nearest(1.0),
        }
    }
}
