//! How a chocolate flows as it is cast, from how it was measured: other fat, temper, temperature, water, emulsifiers.

use super::casson::Casson;
use super::couverture::{Couverture, Reckoned};
use super::{pascal_seconds, pascals, yield_response};
use crate::units::quantity::{DynamicViscosity, Stress, pascal, pascal_second};
use crate::units::{Band, Checked, MassFraction, Viscosity, YieldValue};

/// What a value is good to that a laboratory declared, or that a model carried over to another chocolate.
const DECLARED: f64 = 2.0;
/// What a viscosity is good to that follows from the composition alone.
const COMPUTED: f64 = 3.0;
/// Two standard deviations of replicate batches: 16 % in yield value, 3 % in plastic viscosity.
const REPLICATE_YIELD: f64 = 1.32;
const REPLICATE_VISCOSITY: f64 = 1.06;
/// Yield values measured on untempered chocolates, Pa, with their geometric mean, and the lecithin they are taken to hold.
const USUAL_YIELD: Band<f64> = Band { value: 7.4, low: 1.9, high: 29.0 };
const USUAL_LECITHIN: f64 = 0.004;

/// How a chocolate flows, by Casson's law.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CastingFlow {
    /// The stress up to which it does not.
    pub yield_value: Band<Stress>,
    /// The viscosity that is left at high shear rates.
    pub plastic_viscosity: Band<DynamicViscosity>,
}

impl CastingFlow {
    /// As a specification sheet declares it: good to a factor 2, as laboratories differ.
    #[must_use]
    pub fn declared(yield_value: YieldValue, plastic_viscosity: Viscosity) -> Self {
        Self::within(yield_value, DECLARED, plastic_viscosity, DECLARED)
    }

    /// As measured in one's own laboratory: good to what replicate batches scatter.
    #[must_use]
    pub fn measured(yield_value: YieldValue, plastic_viscosity: Viscosity) -> Self {
        Self::within(yield_value, REPLICATE_YIELD, plastic_viscosity, REPLICATE_VISCOSITY)
    }

    fn within(yield_value: YieldValue, yield_factor: f64, plastic_viscosity: Viscosity, viscosity_factor: f64) -> Self {
        Self {
            yield_value: Band::within_factor(yield_value.base(), yield_factor).map(pascals),
            plastic_viscosity: Band::within_factor(plastic_viscosity.base(), viscosity_factor).map(pascal_seconds),
        }
    }

    /// The best estimate.
    #[must_use]
    pub fn casson(&self) -> Casson {
        Casson {
            yield_value: YieldValue::nearest(self.yield_value.value.get::<pascal>()),
            plastic_viscosity: Viscosity::nearest(self.plastic_viscosity.value.get::<pascal_second>()),
        }
    }

    /// The same while the mould is tapped: the yield value does not hold.
    #[must_use]
    pub fn tapped(self) -> Self {
        Self { yield_value: Band::exact(pascals(0.0)), ..self }
    }

    /// How the chocolate flows as it is `now`, when this is how it flowed as it was `then`. None where the solids jam.
    ///
    /// # Equation
    /// - plastic viscosity: times [`Couverture::plastic_viscosity`] now over then;
    /// - yield value: times [`yield_response::yield_factor`] now over then, as what was measured already holds the emulsifier of then; and
    ///   times the square root of the crowding now over then. The crowding is the relative viscosity of the same solids at the packing
    ///   limit that lecithin reaches at most, so that emulsifiers do not count twice. Heat alone leaves the yield value as it is.
    ///
    /// # Units
    /// Pa and Pa s.
    ///
    /// # Range
    /// [`Couverture::inside_range`], now and then.
    ///
    /// # Error
    /// With nothing changed, the band of the measurement; otherwise at least a factor 2. The square root is a default, and the band of the
    /// yield value reaches from no effect of the crowding to one as large as on the viscosity.
    ///
    /// # Worked value
    /// 8 Pa declared for a chocolate that holds 0.2 % PGPR, which halves the yield value, are 16 Pa without it:
    /// ```
    /// # use cordial::models::flow::{casting_flow::CastingFlow, couverture::Couverture, emulsifier::{self, EmulsifierTotals}};
    /// # use cordial::units::{Measure, MassFraction, quantity::pascal};
    /// let share = |text: &str| Measure::parse(text)?.check::<MassFraction>();
    /// let plain = Couverture {
    ///     fat: share("36 %")?,
    ///     crystals: share("0 %")?,
    ///     water: share("0.8 %")?,
    ///     emulsifiers: emulsifier::total([])?,
    ///     temperature: Measure::parse("40 Cel")?.check()?,
    /// };
    /// let bought = Couverture { emulsifiers: EmulsifierTotals { pgpr: share("0.2 %")?, ..plain.emulsifiers }, ..plain };
    /// let sheet = CastingFlow::declared(Measure::parse("8 Pa")?.check()?, Measure::parse("1.5 Pa.s")?.check()?);
    /// assert_eq!(sheet.carried(&bought, &bought), Some(sheet));
    /// let without = sheet.carried(&bought, &plain).map(|flow| flow.yield_value.value.get::<pascal>());
    /// assert!(without.is_some_and(|without| (without - 16.0).abs() < 0.1));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Source
    /// PGPR halves: memory. The two responses: see there. Square root of the relative viscosity: coarse particles in a yield-stress fluid,
    /// Chateau, Ovarlez & Trung (2008) J. Rheol. 52:489 (memory); that the crystals of temper act so is a default of this project. Between
    /// laboratories a factor 2 in viscosity and 7 in yield value: Aeschlimann & Beckett (2000) J. Texture Stud. (seen); replicate batches:
    /// Alamprese, Datei & Semeraro (2007) J. Food Eng. 83:629, its data (seen).
    #[must_use]
    pub fn carried(&self, then: &Couverture, now: &Couverture) -> Option<Self> {
        if now == then {
            return Some(*self);
        }
        self.carried_over(&then.reckoned()?, &now.reckoned()?)
    }

    /// The same of chocolates whose viscosities are reckoned already.
    pub(crate) fn carried_over(&self, then: &Reckoned, now: &Reckoned) -> Option<Self> {
        if now.chocolate == then.chocolate {
            return Some(*self);
        }
        let yield_value = self.yield_value.map(|stress| stress.get::<pascal>());
        let viscosity = self.plastic_viscosity.map(|viscosity| viscosity.get::<pascal_second>());
        Some(Self {
            yield_value: yield_carried(yield_value, &then.chocolate, &now.chocolate)?,
            plastic_viscosity: carried(viscosity, now.viscosity / then.viscosity, 1.0).map(pascal_seconds),
        })
    }

    /// How a chocolate probably flows of which nothing was measured. None where its solids jam.
    ///
    /// The viscosity is [`Couverture::plastic_viscosity`], to a factor 3. The yield value follows from no composition: it is the 1.9 to 29
    /// Pa measured on untempered chocolates (seen), taken to be with 0.4 % of lecithin (default), carried to the emulsifiers and the temper
    /// of this one.
    #[must_use]
    pub fn undeclared(chocolate: &Couverture) -> Option<Self> {
        Self::as_usual(&Self::usual(chocolate)?, &chocolate.reckoned()?)
    }

    /// The same chocolate as the usual yield values are taken to have been measured on. None where its solids jam.
    pub(crate) fn usual(chocolate: &Couverture) -> Option<Couverture> {
        let mut usual = Couverture { crystals: MassFraction::ZERO, ..*chocolate };
        usual.emulsifiers.lecithin = MassFraction::nearest(USUAL_LECITHIN);
        usual.emulsifiers.pgpr = MassFraction::ZERO;
        usual.emulsifiers.ammonium_phosphatides = MassFraction::ZERO;
        Some(usual).filter(|usual| !usual.jams())
    }

    /// See [`Self::undeclared`].
    pub(crate) fn as_usual(usual: &Couverture, now: &Reckoned) -> Option<Self> {
        Some(Self {
            yield_value: yield_carried(USUAL_YIELD, usual, &now.chocolate)?,
            plastic_viscosity: Band::within_factor(now.viscosity, COMPUTED).map(pascal_seconds),
        })
    }
}

/// A yield value, Pa, carried from one chocolate to another. None where the solids of either jam.
fn yield_carried(yield_value: Band<f64>, then: &Couverture, now: &Couverture) -> Option<Band<Stress>> {
    let crowded = now.crowding_root(then)?;
    let emulsified = yield_response::yield_ratio(&now.emulsifiers, &then.emulsifiers);
    Some(carried(yield_value, emulsified * crowded, crowded.max(1.0 / crowded)).map(pascals))
}

/// A band carried over by a factor that is itself in doubt: at least as wide as what was declared.
fn carried(band: Band<f64>, factor: f64, doubt: f64) -> Band<f64> {
    let value = band.value * factor;
    Band { value, low: (band.low * factor / doubt).min(value / DECLARED), high: (band.high * factor * doubt).max(value * DECLARED) }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
pub(super) mod tests {
    use super::super::couverture::tests::chocolate;
    use super::*;
    use crate::units::Temperature;
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    pub(in super::super) fn sheet(yield_value: f64, plastic_viscosity: f64) -> CastingFlow {
        CastingFlow::declared(YieldValue::from_base(yield_value).unwrap(), Viscosity::from_base(plastic_viscosity).unwrap())
    }

    fn yields(flow: CastingFlow) -> Band<f64> {
        flow.yield_value.map(|stress| stress.get::<pascal>())
    }

    fn viscosity(flow: CastingFlow) -> f64 {
        flow.plastic_viscosity.value.get::<pascal_second>()
    }

    #[test]
    fn a_measurement_keeps_its_band_until_it_is_carried() {
        let (then, now) = (chocolate(34.0, 0.3, 0.0), chocolate(34.0, 0.4, 0.0));
        let measured = CastingFlow::measured(YieldValue::from_base(8.0).unwrap(), Viscosity::from_base(2.0).unwrap());
        assert_eq!(measured.carried(&then, &then), Some(measured));
        assert_relative_eq!(yields(measured).high / yields(measured).value, 1.32, max_relative = 1e-9);
        let carried = measured.carried(&then, &now).unwrap();
        assert_relative_eq!(yields(carried).high / yields(carried).value, 2.0, max_relative = 1e-9);
        assert_relative_eq!(yields(carried).value / yields(carried).low, 2.0, max_relative = 1e-9);
    }

    #[test]
    fn temper_thickens_in_both_and_heat_only_in_one() {
        let (melted, tempered) = (chocolate(36.0, 0.4, 0.0), chocolate(36.0, 0.4, 8.0));
        let flow = sheet(8.0, 1.5).carried(&melted, &tempered).unwrap();
        assert!(viscosity(flow) > 1.5 && yields(flow).value > 8.0);
        // From no effect to one as large as on the viscosity, and a factor 2 on either.
        let crowded = tempered.crowding_root(&melted).unwrap().powi(2);
        assert_relative_eq!(yields(flow).low, 4.0, max_relative = 1e-9);
        assert_relative_eq!(yields(flow).high, 16.0 * crowded, max_relative = 1e-9);

        let cooler = Couverture { temperature: Temperature::from_base(31.0).unwrap(), ..melted };
        let flow = sheet(8.0, 1.5).carried(&melted, &cooler).unwrap();
        assert!(viscosity(flow) > 1.5 && yields(flow).value == 8.0);
    }

    #[test]
    fn nothing_is_guessed_of_the_jammed() {
        assert_eq!(CastingFlow::undeclared(&chocolate(25.0, 0.0, 0.0)), None);
    }

    #[test]
    fn tapping_leaves_no_yield_value() {
        let flow = sheet(8.0, 2.0);
        assert_eq!(yields(flow.tapped()), Band::exact(0.0));
        assert_eq!(flow.tapped().plastic_viscosity, flow.plastic_viscosity);
    }

    proptest! {
        #[test]
        fn there_and_back_again(
            fat in 32.0..42.0f64, other in 32.0..42.0f64, lecithin in 0.0..0.8f64, crystals in 0.0..6.0f64, yield_value in 0.0..40.0f64
        ) {
            let (one, two) = (chocolate(fat, lecithin, 0.0), chocolate(other, 0.4, crystals));
            let there = sheet(yield_value, 2.0).carried(&one, &two).unwrap();
            let back = there.carried(&two, &one).unwrap();
            prop_assert!((yields(back).value - yield_value).abs() <= 1e-9 * yield_value);
            prop_assert!((viscosity(back) / 2.0 - 1.0).abs() < 1e-9);
            prop_assert!(yields(there).low <= yields(there).value && yields(there).value <= yields(there).high);
        }
    }
}
