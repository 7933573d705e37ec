//! Thickness in words, by the yield value.

use super::pascals;
use crate::matter::Consistency;
use crate::units::quantity::Stress;
use crate::units::{Band, Checked, YieldValue};

const SOFT: f64 = 1.0;
const PIPES: f64 = 5.0;
const STANDS: f64 = 25.0;
/// Where the open top band ends: set nut butter yields at 1000 Pa and more.
const STIFFEST: f64 = 1000.0;

/// The word for a yield value.
///
/// # Equation
/// Below 1 Pa pours; from 1 soft; from 5 pipes; above 25 stands.
///
/// # Units
/// Pa.
///
/// # Range
/// Every yield value.
///
/// # Error
/// The words are those of a bench: neighbours overlap.
///
/// # Worked value
/// Set nut butter, 1000 Pa and more, stands; neat spirit pours:
/// ```
/// # use cordial::{matter::Consistency, models::flow::consistency, units::Measure};
/// assert_eq!(consistency::of(Measure::parse("1000 Pa")?.check()?), Consistency::Stands);
/// assert_eq!(consistency::of(Measure::parse("0 Pa")?.check()?), Consistency::Pours);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// Defaults of this project, set so that a filling that pipes carries a gently poured 2 mm cap (computed). Nut butter: seen.
#[must_use]
pub fn of(yield_value: YieldValue) -> Consistency {
    match yield_value.base() {
        pascals if pascals < SOFT => Consistency::Pours,
        pascals if pascals < PIPES => Consistency::Soft,
        pascals if pascals <= STANDS => Consistency::Pipes,
        _ => Consistency::Stands,
    }
}

/// The yield value of a filling of which only the word is known, [`of`] turned round: the whole band of the word, at its geometric mean; what pours may have no
/// yield value at all and is put at the middle. The top band is open and ends at 1000 Pa here.
#[must_use]
pub fn band(consistency: Consistency) -> Band<Stress> {
    let between = |low: f64, high: f64| Band { value: (low * high).sqrt(), low, high };
    let band = match consistency {
        Consistency::Pours => Band { value: SOFT / 2.0, low: 0.0, high: SOFT },
        Consistency::Soft => between(SOFT, PIPES),
        Consistency::Pipes => between(PIPES, STANDS),
        Consistency::Stands => between(STANDS, STIFFEST),
    };
    band.map(pascals)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Choice;

    #[test]
    fn every_word_is_the_word_of_its_own_band() {
        for word in Consistency::ALL {
            assert_eq!(of(band(*word).value.try_into().unwrap()), *word);
        }
    }

    #[test]
    fn bands_meet() {
        for pair in Consistency::ALL.windows(2) {
            let [thinner, thicker] = pair else { unreachable!() };
            assert_eq!(band(*thinner).high, band(*thicker).low);
        }
    }

    #[test]
    fn edges_belong_to_the_word_that_names_them() {
        let word = |pascals| of(YieldValue::from_base(pascals).unwrap());
        assert_eq!(word(1.0), Consistency::Soft);
        assert_eq!(word(5.0), Consistency::Pipes);
        assert_eq!(word(25.0), Consistency::Pipes);
        assert_eq!(word(25.1), Consistency::Stands);
    }
}
