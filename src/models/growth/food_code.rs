//! Whether a food must be kept cold by its water activity and pH together, after the tables of the US Food Code.

use crate::units::{Checked, Ph, WaterActivity};

/// How a food was treated, which decides the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Treatment {
    /// Heated so that growing cells die, and packed so that none come in again: table A.
    HeatedAndPacked,
    /// Anything else, as nearly all fillings are: table B.
    Other,
}

/// What the tables say. They never say outright that a food needs control.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TimeTemperatureControl {
    /// It needs none to be safe.
    NotNeeded,
    /// A product assessment is required; until one clears it, it needs control.
    UnlessAssessed,
}

/// Whether a food needs time and temperature control to be safe.
///
/// # Equation
/// None is needed up to a pH that depends on the water activity. Table A: any pH up to 0.92, 5.6 up to 0.95, 4.6 above. Table B: any pH below
/// 0.88, 5.0 up to 0.90, 4.6 up to 0.92, and below 4.2 above that. Every edge belongs to the better side but those of 0.88 and of pH 4.2.
///
/// # Units
/// Water activity and pH are plain numbers.
///
/// # Range
/// All. Without a pH the food counts as not acid. Pathogens only: spoilage is judged apart.
///
/// # Error
/// That of the measurements; the tables hold a margin of their own.
///
/// # Worked value
/// At 0.91 and pH 4.8 a filling needs an assessment, and none if heated in its pack.
/// ```
/// use cordial::models::growth::{TimeTemperatureControl, Treatment, time_temperature_control};
/// use cordial::units::{Checked, Ph, WaterActivity};
/// let of = |treatment| -> Result<_, cordial::units::RangeError> {
///     Ok(time_temperature_control(WaterActivity::from_base(0.91)?, Some(Ph::from_base(4.8)?), treatment))
/// };
/// assert_eq!(of(Treatment::Other)?, TimeTemperatureControl::UnlessAssessed);
/// assert_eq!(of(Treatment::HeatedAndPacked)?, TimeTemperatureControl::NotNeeded);
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// FDA Food Code 2022, 1-201.10, interaction tables A and B (seen in States' copies).
#[must_use]
pub fn time_temperature_control(activity: WaterActivity, ph: Option<Ph>, treatment: Treatment) -> TimeTemperatureControl {
    let (activity, ph) = (activity.base(), ph.map_or(Ph::MAX, Checked::base));
    let safe = match treatment {
        Treatment::HeatedAndPacked if activity <= 0.92 => true,
        Treatment::HeatedAndPacked if activity <= 0.95 => ph <= 5.6,
        Treatment::HeatedAndPacked => ph <= 4.6,
        Treatment::Other if activity < 0.88 => true,
        Treatment::Other if activity <= 0.90 => ph <= 5.0,
        Treatment::Other if activity <= 0.92 => ph <= 4.6,
        Treatment::Other => ph < 4.2,
    };
    if safe { TimeTemperatureControl::NotNeeded } else { TimeTemperatureControl::UnlessAssessed }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    /// Rows by water activity, columns by pH, each at and just past every edge: `+` where none is needed.
    fn sheet(treatment: Treatment, activities: &[f64], acidities: &[f64]) -> Vec<String> {
        let cell = |activity: &f64, ph: &f64| {
            let (activity, ph) = (WaterActivity::from_base(*activity).unwrap(), Ph::from_base(*ph).unwrap());
            if time_temperature_control(activity, Some(ph), treatment) == TimeTemperatureControl::NotNeeded { '+' } else { '-' }
        };
        activities.iter().map(|activity| acidities.iter().map(|ph| cell(activity, ph)).collect()).collect()
    }

    #[test]
    fn table_a_cell_by_cell() {
        let found = sheet(Treatment::HeatedAndPacked, &[0.5, 0.92, 0.921, 0.95, 0.951, 1.0], &[3.0, 4.6, 4.61, 5.6, 5.61, 7.0]);
        assert_eq!(found, ["++++++", "++++++", "++++--", "++++--", "++----", "++----"]);
    }

    #[test]
    fn table_b_cell_by_cell() {
        let activities = [0.5, 0.879, 0.88, 0.90, 0.901, 0.92, 0.921, 1.0];
        let found = sheet(Treatment::Other, &activities, &[3.0, 4.19, 4.2, 4.6, 4.61, 5.0, 5.01, 7.0]);
        let rows = ["++++++++", "++++++++", "++++++--", "++++++--", "++++----", "++++----", "++------", "++------"];
        assert_eq!(found, rows);
    }

    #[test]
    fn an_unknown_ph_counts_as_not_acid() {
        let of = |activity| time_temperature_control(WaterActivity::from_base(activity).unwrap(), None, Treatment::Other);
        assert_eq!([of(0.87), of(0.88)], [TimeTemperatureControl::NotNeeded, TimeTemperatureControl::UnlessAssessed]);
    }
}
