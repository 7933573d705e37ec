//! How much emulsifier a wanted flow takes.

use super::casting_flow::CastingFlow;
use super::couverture::{Couverture, LECITHIN_END};
use crate::matter::EmulsifierKind;
use crate::units::quantity::{DynamicViscosity, Stress};
use crate::units::{Band, Checked, MassFraction, Viscosity, YieldValue};

/// The steps in which a dose is weighed, and searched, of the chocolate.
const STEP: f64 = 1e-4;
/// The totals up to which the others are searched: the EU's and Codex's limit of PGPR, and where ammonium phosphatides do best.
const MOST_PGPR: f64 = 0.005;
const MOST_AMMONIUM_PHOSPHATIDES: f64 = 0.008;

/// A dose, and what it gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dose<Q> {
    /// What is to be added, of the chocolate; lecithin as fluid lecithin of 62 % acetone-insoluble matter.
    pub added: MassFraction,
    /// What it gives.
    pub gives: Band<Q>,
    /// Whether that is what was wanted. If it is not, this is the best that the emulsifier can do: more of it does no good, or harm.
    pub enough: bool,
}

/// The emulsifier to add to a chocolate that flows as `now`, to bring its yield value down to what is wanted. None where the solids jam.
///
/// # Equation
/// The smallest dose at which [`CastingFlow::carried`] gives what is wanted or less; where none does, the smallest that gives the least.
///
/// # Units
/// Mass fractions of the chocolate; Pa.
///
/// # Range
/// Steps of 0.01 %, up to totals of 0.6 % lecithin (no gain beyond), 0.5 % PGPR (its limit in the EU and Codex) and 0.8 % ammonium
/// phosphatides.
///
/// # Error
/// A factor 2 in what the dose gives: try it on a small batch.
///
/// # Worked value
/// Lecithin cannot halve a yield value: it turns up again between 0.3 and 0.6 %. PGPR halves it at 0.2 %.
/// ```
/// # use cordial::matter::EmulsifierKind;
/// # use cordial::models::flow::{casting_flow::CastingFlow, couverture::Couverture, dose, emulsifier};
/// # use cordial::units::{Checked, Measure, MassFraction};
/// # let chocolate = Couverture {
/// #     fat: Measure::parse("36 %")?.check()?,
/// #     crystals: MassFraction::ZERO,
/// #     water: Measure::parse("0.8 %")?.check()?,
/// #     emulsifiers: emulsifier::total([])?,
/// #     temperature: Measure::parse("40 Cel")?.check()?,
/// # };
/// let now = CastingFlow::declared(Measure::parse("16 Pa")?.check()?, Measure::parse("3 Pa.s")?.check()?);
/// let wanted = Measure::parse("8 Pa")?.check()?;
/// let halved = |kind| dose::for_yield_value(&chocolate, &now, kind, wanted).ok_or("jammed");
/// let (lecithin, pgpr) = (halved(EmulsifierKind::Lecithin)?, halved(EmulsifierKind::Pgpr)?);
/// assert!(!lecithin.enough && (0.003..=0.006).contains(&lecithin.added.base()));
/// assert!(pgpr.enough && (pgpr.added.base() - 0.002).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Where lecithin turns: Greweling (2007), Pombal et al. (2024) (seen). PGPR halves: memory. Best of ammonium phosphatides 0.7 to 0.8 %: a
/// brochure (seen).
#[must_use]
pub fn for_yield_value(chocolate: &Couverture, now: &CastingFlow, kind: EmulsifierKind, wanted: YieldValue) -> Option<Dose<Stress>> {
    least(chocolate, kind, wanted.quantity(), |dosed| Some(now.carried(chocolate, dosed)?.yield_value))
}

/// The same as [`for_yield_value`] for the plastic viscosity: lecithin lowers it to a plateau, PGPR not at all.
#[must_use]
pub fn for_plastic_viscosity(
    chocolate: &Couverture,
    now: &CastingFlow,
    kind: EmulsifierKind,
    wanted: Viscosity,
) -> Option<Dose<DynamicViscosity>> {
    least(chocolate, kind, wanted.quantity(), |dosed| Some(now.carried(chocolate, dosed)?.plastic_viscosity))
}

fn least<Q: Copy + PartialOrd>(
    chocolate: &Couverture,
    kind: EmulsifierKind,
    wanted: Q,
    gives: impl Fn(&Couverture) -> Option<Band<Q>>,
) -> Option<Dose<Q>> {
    let most = match kind {
        EmulsifierKind::Lecithin => LECITHIN_END,
        EmulsifierKind::Pgpr => MOST_PGPR,
        EmulsifierKind::AmmoniumPhosphatides => MOST_AMMONIUM_PHOSPHATIDES,
        EmulsifierKind::SorbitanTristearate => return None,
    };
    let mut best: Option<Dose<Q>> = None;
    for step in 0.. {
        let added = f64::from(step) * STEP;
        let mut dosed = *chocolate;
        let total = match kind {
            EmulsifierKind::Lecithin => &mut dosed.emulsifiers.lecithin,
            EmulsifierKind::Pgpr => &mut dosed.emulsifiers.pgpr,
            EmulsifierKind::AmmoniumPhosphatides => &mut dosed.emulsifiers.ammonium_phosphatides,
            EmulsifierKind::SorbitanTristearate => return None,
        };
        // Half a step, so that rounding does not lose the last one.
        if step > 0 && total.base() + added > most + STEP / 2.0 {
            break;
        }
        *total = MassFraction::nearest(total.base() + added);
        let gives = gives(&dosed)?;
        if best.is_none_or(|best| gives.value < best.gives.value) {
            let enough = gives.value <= wanted;
            best = Some(Dose { added: MassFraction::nearest(added), gives, enough });
            if enough {
                break;
            }
        }
    }
    best
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::super::casting_flow::tests::sheet;
    use super::super::couverture::tests::chocolate;
    use super::*;
    use crate::units::quantity::{pascal, pascal_second};
    use approx::assert_abs_diff_eq;

    fn for_yield(lecithin: f64, kind: EmulsifierKind, wanted: f64) -> Dose<Stress> {
        for_yield_value(&chocolate(36.0, lecithin, 0.0), &sheet(12.0, 3.0), kind, YieldValue::from_base(wanted).unwrap()).unwrap()
    }

    fn for_viscosity(lecithin: f64, kind: EmulsifierKind, wanted: f64) -> Dose<DynamicViscosity> {
        let wanted = Viscosity::from_base(wanted).unwrap();
        for_plastic_viscosity(&chocolate(36.0, lecithin, 0.0), &sheet(12.0, 3.0), kind, wanted).unwrap()
    }

    #[test]
    fn what_is_there_needs_nothing() {
        let dose = for_yield(0.3, EmulsifierKind::Lecithin, 12.0);
        assert!(dose.enough && dose.added == MassFraction::ZERO && dose.gives == sheet(12.0, 3.0).yield_value);
    }

    #[test]
    fn the_yield_value_turns_round() {
        // Seen: at 0.3 to 0.6 % lecithin, counting what the chocolate holds.
        let dose = for_yield(0.1, EmulsifierKind::Lecithin, 6.0);
        assert!(!dose.enough && (0.002..=0.005).contains(&dose.added.base()), "{dose:?}");
        let beyond = for_yield(0.7, EmulsifierKind::Lecithin, 6.0);
        assert!(!beyond.enough && beyond.added == MassFraction::ZERO, "{beyond:?}");
    }

    #[test]
    fn the_viscosity_reaches_a_plateau() {
        let dose = for_viscosity(0.0, EmulsifierKind::Lecithin, 0.5);
        assert!(!dose.enough);
        assert_abs_diff_eq!(dose.added.base(), 0.006, epsilon = 1e-9);
        let pgpr = for_viscosity(0.0, EmulsifierKind::Pgpr, 2.0);
        assert!(!pgpr.enough && pgpr.added == MassFraction::ZERO);
    }

    #[test]
    fn a_dose_is_enough_and_no_larger_than_that() {
        let (dose, wanted) = (for_viscosity(0.0, EmulsifierKind::Lecithin, 2.5), 2.5);
        assert!(dose.enough && dose.gives.value.get::<pascal_second>() <= wanted);
        let less = MassFraction::from_base(dose.added.base() - STEP).unwrap();
        let mut dosed = chocolate(36.0, 0.0, 0.0);
        dosed.emulsifiers.lecithin = less;
        let flow = sheet(12.0, 3.0).carried(&chocolate(36.0, 0.0, 0.0), &dosed).unwrap();
        assert!(flow.plastic_viscosity.value.get::<pascal_second>() > wanted);
    }

    #[test]
    fn pgpr_helps_where_lecithin_is() {
        let (alone, with_lecithin) = (for_yield(0.0, EmulsifierKind::Pgpr, 6.0), for_yield(0.3, EmulsifierKind::Pgpr, 6.0));
        assert!(alone.enough && with_lecithin.enough && with_lecithin.added < alone.added);
        assert!(with_lecithin.gives.value.get::<pascal>() <= 6.0);
    }

    #[test]
    fn nothing_is_searched_beyond_what_the_law_allows() {
        let dose = for_yield(0.0, EmulsifierKind::Pgpr, 0.0);
        assert!(!dose.enough);
        assert_abs_diff_eq!(dose.added.base(), MOST_PGPR, epsilon = 1e-12);
    }

    #[test]
    fn the_jammed_have_no_dose() {
        let wanted = YieldValue::from_base(1.0).unwrap();
        assert_eq!(
            for_yield_value(&chocolate(25.0, 0.0, 8.0), &sheet(12.0, 3.0), EmulsifierKind::Lecithin, wanted).map(|dose| dose.enough),
            None
        );
    }
}
