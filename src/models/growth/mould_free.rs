//! How long a filling may stay free of mould.

use super::shelf_life::days;
use crate::units::{Band, Checked, Temperature, WaterActivity, quantity::Time};

/// How long something may stay free of mould: a range, not a date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MouldFree {
    /// The time with its 95 % band.
    pub time: Band<Time>,
    /// What the time says where the equations end.
    pub reach: Reach,
}

/// What a time says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// About so long.
    Within,
    /// At least so long: it is drier or colder than was measured.
    AtLeast,
    /// At most so long: it is wetter or warmer than was measured.
    AtMost,
    /// Neither: it is beyond what was measured, one way by activity and the other by temperature.
    Unknown,
}

/// The time until mould shows on intermediate-moisture food without preservative.
///
/// # Equation
/// `log10 d = 7.91 - 0.081 h` at 21 °C and `6.42 - 0.0647 h` at 27 °C, straight between them; `h` is the water activity in per cent.
///
/// # Units
/// `d` in days.
///
/// # Range
/// Water activity 0.74 to 0.90 and 21 to 27 °C, held at the ends outside, as [`MouldFree::reach`] then says. Measured on cakes, not on
/// fillings in a shell; mould only.
///
/// # Error
/// 95 % within a factor of 2, a choice of this project: on madeira cake the equations are off by 8 to 13 %, but nobody tried them on ganache.
///
/// # Worked value
/// Madeira cake at 0.81 was given 24 days at 21 °C and 14 at 27 °C, at 0.85 12 and 8.
/// ```
/// use cordial::models::growth::{Reach, mould_free};
/// use cordial::units::{Checked, Temperature, WaterActivity, quantity::second};
/// for (activity, celsius, cake) in [(0.81, 21.0, 24.0), (0.81, 27.0, 14.0), (0.85, 21.0, 12.0), (0.85, 27.0, 8.0)] {
///     let found = mould_free(WaterActivity::from_base(activity)?, Temperature::from_base(celsius)?);
///     let days = found.time.value.get::<second>() / 86_400.0;
///     assert!((days / cake - 1.0).abs() < 0.13, "{activity} {celsius}: {days}");
///     assert_eq!(found.reach, Reach::Within);
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Cauvain and Seiler 1992, FMBRA: 27 °C quoted in Adams and Moss, *Food Microbiology* (seen), 21 °C and the range quoted on a confectioners'
/// forum (seen). The cakes: a trade note (seen).
#[must_use]
pub fn mould_free(activity: WaterActivity, temperature: Temperature) -> MouldFree {
    let (activity, celsius) = (activity.base(), temperature.celsius());
    let (held, way) = (100.0 * activity.clamp(DRIEST, WETTEST), (celsius.clamp(COLDEST, WARMEST) - COLDEST) / (WARMEST - COLDEST));
    let (cold, warm) = (7.91 - 0.081 * held, 6.42 - 0.0647 * held);
    let (better, worse) = (activity < DRIEST || celsius < COLDEST, activity > WETTEST || celsius > WARMEST);
    MouldFree {
        time: Band::within_factor(10.0_f64.powf(cold + way * (warm - cold)), UNCERTAIN_BY).map(days),
        reach: match (better, worse) {
            (false, false) => Reach::Within,
            (true, false) => Reach::AtLeast,
            (false, true) => Reach::AtMost,
            (true, true) => Reach::Unknown,
        },
    }
}

const DRIEST: f64 = 0.74;
const WETTEST: f64 = 0.90;
const COLDEST: f64 = 21.0;
const WARMEST: f64 = 27.0;
const UNCERTAIN_BY: f64 = 2.0;

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::quantity::second;
    use approx::assert_relative_eq;

    fn of(activity: f64, celsius: f64) -> (f64, Reach) {
        let found = mould_free(WaterActivity::from_base(activity).unwrap(), Temperature::from_base(celsius).unwrap());
        (found.time.value.get::<second>() / 86_400.0, found.reach)
    }

    /// Days at the edges of the shelf-life classes, as tabled to a tenth.
    #[test]
    fn edges_of_the_classes() {
        let table = [(0.75, 68.4, 36.9), (0.80, 26.9, 17.5), (0.85, 10.6, 8.3), (0.88, 6.1, 5.3)];
        for (activity, cold, warm) in table {
            assert!((of(activity, 21.0).0 - cold).abs() < 0.051 && (of(activity, 27.0).0 - warm).abs() < 0.051, "{activity}");
        }
    }

    #[test]
    fn ends_are_held_and_said() {
        assert_eq!([of(0.73, 24.0).1, of(0.80, 18.0).1, of(0.60, 4.0).1], [Reach::AtLeast; 3]);
        assert_eq!([of(0.91, 24.0).1, of(0.80, 28.0).1, of(1.0, 40.0).1], [Reach::AtMost; 3]);
        assert_eq!([of(0.73, 28.0).1, of(0.91, 18.0).1], [Reach::Unknown; 2]);
        // The ends themselves are inside.
        assert_eq!([of(DRIEST, COLDEST).1, of(WETTEST, WARMEST).1], [Reach::Within; 2]);
        assert_eq!(of(0.60, 15.0).0, of(0.74, 21.0).0);
        assert_eq!(of(1.0, 40.0).0, of(0.90, 27.0).0);
    }

    #[test]
    fn warmer_and_wetter_never_keeps_longer() {
        for step in 0..16 {
            let activity = 0.74 + 0.01 * f64::from(step);
            assert!(of(activity, 21.0).0 > of(activity, 24.0).0 && of(activity, 24.0).0 > of(activity, 27.0).0);
            assert!(of(activity, 22.0).0 > of(activity + 0.01, 22.0).0 || step == 15);
        }
        assert_relative_eq!(of(0.80, 24.0).0, (of(0.80, 21.0).0 * of(0.80, 27.0).0).sqrt(), max_relative = 1e-12);
    }
}
