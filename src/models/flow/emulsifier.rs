//! How much emulsifier a chocolate holds in all.

use crate::matter::{Emulsifier, EmulsifierForm, EmulsifierKind};
use crate::units::{Checked, MassFraction, RangeError};

/// All the emulsifier in a chocolate, each kind of the chocolate's weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EmulsifierTotals {
    /// Lecithin in every form, as fluid lecithin of 62 % acetone-insoluble matter.
    pub lecithin: MassFraction,
    /// Polyglycerol polyricinoleate.
    pub pgpr: MassFraction,
    /// Ammonium phosphatides.
    pub ammonium_phosphatides: MassFraction,
    /// Lecithin, as weighed, in forms that are not made for fat: powder, and dispersions for the water phase.
    pub unfit: MassFraction,
}

/// Adds up what the couverture holds and what was added.
///
/// # Equation
/// Fluid equivalent = dose times acetone-insoluble matter over 62 %; PGPR and ammonium phosphatides as weighed.
///
/// # Units
/// Mass fractions of the chocolate.
///
/// # Range
/// As far as each total is a mass fraction.
///
/// # Error
/// Fluid lecithin is sold at 60 to 65 % acetone-insoluble: 4 %. Equal active matter is not equal effect; powder disperses badly in fat.
///
/// # Worked value
/// 0.3 % of a powder of 97 % acetone-insoluble matter counts as 0.469 % fluid:
/// ```
/// # use cordial::matter::{Emulsifier, EmulsifierForm, EmulsifierKind};
/// # use cordial::models::flow::emulsifier;
/// # use cordial::units::{Checked, Measure};
/// let powder = Emulsifier {
///     kind: EmulsifierKind::Lecithin,
///     form: EmulsifierForm::Powder,
///     source: None,
///     dose: Measure::parse("0.3 %")?.check()?,
///     acetone_insoluble: Some(Measure::parse("97 %")?.check()?),
/// };
/// let totals = emulsifier::total([&powder])?;
/// assert!((totals.lecithin.base() - 0.00469).abs() < 0.00001);
/// assert_eq!(totals.unfit, powder.dose);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Trade specifications of fluid and de-oiled lecithin (seen); the rule is arithmetic (computed).
///
/// # Errors
/// [`RangeError`] when one kind adds up to more than the whole chocolate.
pub fn total<'a>(doses: impl IntoIterator<Item = &'a Emulsifier>) -> Result<EmulsifierTotals, RangeError> {
    let (mut lecithin, mut pgpr, mut ammonium_phosphatides, mut unfit) = (0.0, 0.0, 0.0, 0.0);
    for emulsifier in doses {
        let dose = emulsifier.dose.base();
        match emulsifier.kind {
            EmulsifierKind::Lecithin => {
                lecithin += dose * emulsifier.active() / Emulsifier::FLUID_ACTIVE;
                if emulsifier.form != EmulsifierForm::Fluid {
                    unfit += dose;
                }
            }
            EmulsifierKind::Pgpr => pgpr += dose,
            EmulsifierKind::AmmoniumPhosphatides => ammonium_phosphatides += dose,
            // Against bloom: no measurement of what it does to flow was found.
            EmulsifierKind::SorbitanTristearate => {}
        }
    }
    Ok(EmulsifierTotals {
        lecithin: MassFraction::from_base(lecithin)?,
        pgpr: MassFraction::from_base(pgpr)?,
        ammonium_phosphatides: MassFraction::from_base(ammonium_phosphatides)?,
        unfit: MassFraction::from_base(unfit)?,
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn dose(kind: EmulsifierKind, form: EmulsifierForm, percent: f64) -> Emulsifier {
        Emulsifier { kind, form, source: None, dose: MassFraction::from_base(percent / 100.0).unwrap(), acetone_insoluble: None }
    }

    #[test]
    fn declared_and_added_doses_add_up() {
        use EmulsifierForm::{Fluid, Powder, WaterPhase};
        use EmulsifierKind::{AmmoniumPhosphatides, Lecithin, Pgpr};
        let doses = [
            dose(Lecithin, Fluid, 0.4),
            dose(Lecithin, Fluid, 0.2),
            dose(Lecithin, Powder, 0.1),
            dose(Lecithin, WaterPhase, 0.05),
            dose(Pgpr, Fluid, 0.2),
            dose(AmmoniumPhosphatides, Powder, 0.3),
        ];
        let totals = total(&doses).unwrap();
        assert_relative_eq!(totals.lecithin.base(), 0.0065 + 0.001 * 97.0 / 62.0, max_relative = 1e-12);
        assert_relative_eq!(totals.unfit.base(), 0.0015, max_relative = 1e-12);
        assert_eq!((totals.pgpr.base(), totals.ammonium_phosphatides.base()), (0.002, 0.003));
    }

    #[test]
    fn stated_active_matter_comes_first() {
        let weak = Emulsifier {
            acetone_insoluble: Some(MassFraction::from_base(0.31).unwrap()),
            ..dose(EmulsifierKind::Lecithin, EmulsifierForm::Fluid, 0.4)
        };
        assert_relative_eq!(total([&weak]).unwrap().lecithin.base(), 0.002, max_relative = 1e-12);
    }

    #[test]
    fn nothing_is_nothing_and_too_much_is_an_error() {
        assert_eq!(total([]).unwrap().lecithin, MassFraction::ZERO);
        let much = dose(EmulsifierKind::Lecithin, EmulsifierForm::Powder, 70.0);
        assert!(total([&much]).is_err(), "70 % powder would be 109.5 % fluid");
    }
}
