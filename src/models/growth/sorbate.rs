//! Sorbic acid as a hurdle to yeast and mould.

use crate::units::quantity::{Ratio, ratio};
use crate::units::{Checked, Ph};

/// The pH at which half of the acid is undissociated.
const PK_A: f64 = 4.76;
/// Molar masses of sorbic acid and of its potassium salt, g/mol.
const ACID: f64 = 112.13;
const POTASSIUM_SALT: f64 = 150.22;

/// The share of sorbic acid that is undissociated, which alone acts on yeast and mould.
///
/// # Equation
/// `1 / (1 + 10^(pH - 4.76))`.
///
/// # Units
/// A ratio of amounts.
///
/// # Range
/// Any pH in water; sugar and ethanol shift the 4.76 a little.
///
/// # Error
/// That of the pH: a tenth of it is a sixth of the share near pH 5.
///
/// # Worked value
/// 0.365 at pH 5.0 and 0.784 at 4.2:
/// ```
/// # use cordial::models::growth::undissociated_sorbic_acid;
/// # use cordial::units::{Checked, Ph, quantity::ratio};
/// for (ph, share) in [(5.0, 0.3653), (4.2, 0.7841)] {
///     assert!((undissociated_sorbic_acid(Ph::from_base(ph)?).get::<ratio>() / share - 1.0).abs() < 0.005);
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Acid-base chemistry; pKa 4.76 (memory).
#[must_use]
pub fn undissociated_sorbic_acid(ph: Ph) -> Ratio {
    Ratio::new::<ratio>(1.0 / (1.0 + 10_f64.powf(ph.base() - PK_A)))
}

/// The sorbic acid in an additive, by mass: all of E 200, three quarters of its potassium salt E 202, none of anything else. How much of it
/// acts, [`undissociated_sorbic_acid`] tells.
#[must_use]
pub fn sorbic_acid_of(additive: &str) -> Ratio {
    Ratio::new::<ratio>(match additive {
        "E 200" => 1.0,
        "E 202" => ACID / POTASSIUM_SALT,
        _ => 0.0,
    })
}
