//! How emulsifiers change the yield value of a chocolate.

use super::emulsifier::EmulsifierTotals;
use crate::units::Checked;
use crate::units::quantity::{Ratio, ratio};

/// How far a little lecithin lowers the yield value, and the dose (per cent) at which most of that is done.
const DIP: f64 = 0.25;
const DIP_SCALE: f64 = 0.1;
/// The dose beyond which lecithin raises it, and how fast (per per cent).
const TURN: f64 = 0.4;
const CLIMB: f64 = 1.8;
/// PGPR alone, and with lecithin (per per cent).
const PGPR: f64 = 3.466;
const BLEND: f64 = 6.4;

/// The yield value with these emulsifiers, over that of the same chocolate without any.
///
/// # Equation
/// `(1 - 0.25 (1 - exp(-c / 0.1)) + 1.8 max(0, c - 0.4)) exp(-3.466 p - 6.4 sqrt(c p))` for `c` per cent of lecithin and `p` per cent of
/// PGPR. Ammonium phosphatides count as lecithin that never turns the yield value up (default).
///
/// # Units
/// Per cent of the chocolate inside; lecithin as fluid lecithin of 62 % acetone-insoluble matter.
///
/// # Range
/// Up to 1 % lecithin and ammonium phosphatides, up to 0.5 % PGPR: see [`inside_range`]. Beyond 0.6 % of lecithin no blend is thinner for
/// it, whatever the equation says.
///
/// # Error
/// A factor 2 (default): the constants are tied to published statements, not to tables, and sources disagree on where the yield value turns
/// up, 0.3 to 0.6 %. Replicate batches alone scatter by 16 %.
///
/// # Worked value
/// 0.2 % PGPR halves the yield value:
/// ```
/// # use cordial::models::flow::{emulsifier::{self, EmulsifierTotals}, yield_response};
/// # use cordial::units::{Measure, quantity::ratio};
/// let pgpr = EmulsifierTotals { pgpr: Measure::parse("0.2 %")?.check()?, ..emulsifier::total([])? };
/// assert!((yield_response::yield_factor(&pgpr).get::<ratio>() - 0.5).abs() < 0.02);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Turn at 0.3 to 0.5 %: Greweling (2007), a lecithin maker's page; the rise: Pombal et al. (2024) Molecules 29:5185 (all seen). Lowest
/// yield value of a blend at 30 % lecithin: Schantz & Rohm (2005) LWT 38:41 (seen). No thickening by ammonium phosphatides above 0.4 %: a
/// brochure (seen). PGPR halves: memory. The constants: defaults of this project.
#[must_use]
pub fn yield_factor(emulsifiers: &EmulsifierTotals) -> Ratio {
    let [lecithin, pgpr, ammonium] =
        [emulsifiers.lecithin, emulsifiers.pgpr, emulsifiers.ammonium_phosphatides].map(|dose| 100.0 * dose.base());
    let active = lecithin + ammonium;
    let lowered = 1.0 + DIP * (-active / DIP_SCALE).exp_m1();
    let raised = CLIMB * (lecithin - TURN).max(0.0);
    Ratio::new::<ratio>((lowered + raised) * (-PGPR * pgpr - BLEND * (active * pgpr).sqrt()).exp())
}

/// [`yield_factor`] of these over that of others.
pub(super) fn yield_ratio(emulsifiers: &EmulsifierTotals, others: &EmulsifierTotals) -> f64 {
    if emulsifiers == others { 1.0 } else { (yield_factor(emulsifiers) / yield_factor(others)).get::<ratio>() }
}

/// Whether the doses are such as [`yield_factor`] is for.
#[must_use]
pub fn inside_range(emulsifiers: &EmulsifierTotals) -> bool {
    const MOST_LECITHIN: f64 = 0.01;
    const MOST_PGPR: f64 = 0.005;
    emulsifiers.lecithin.base() + emulsifiers.ammonium_phosphatides.base() <= MOST_LECITHIN && emulsifiers.pgpr.base() <= MOST_PGPR
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::super::couverture;
    use super::*;
    use crate::matter::{Emulsifier, EmulsifierForm, EmulsifierKind};
    use crate::models::flow::emulsifier;
    use crate::units::MassFraction;
    use approx::assert_relative_eq;

    fn factor(lecithin: f64, pgpr: f64) -> f64 {
        yield_factor(&couverture::tests::doses(lecithin, pgpr)).get::<ratio>()
    }

    #[test]
    fn no_emulsifier_changes_nothing() {
        assert_eq!(factor(0.0, 0.0), 1.0);
    }

    #[test]
    fn forms_count_by_their_active_matter() {
        let powder = Emulsifier {
            kind: EmulsifierKind::Lecithin,
            form: EmulsifierForm::Powder,
            source: None,
            dose: MassFraction::from_base(0.003).unwrap(),
            acetone_insoluble: None,
        };
        let totals = emulsifier::total([&powder]).unwrap();
        assert_relative_eq!(yield_factor(&totals).get::<ratio>(), factor(0.3 * 97.0 / 62.0, 0.0), max_relative = 1e-12);
    }

    #[test]
    fn the_range_of_doses() {
        let ammonium = |percent: f64| EmulsifierTotals {
            ammonium_phosphatides: MassFraction::from_base(percent / 100.0).unwrap(),
            ..couverture::tests::doses(0.0, 0.0)
        };
        assert!(inside_range(&ammonium(0.8)) && !inside_range(&ammonium(1.1)));
    }
}
