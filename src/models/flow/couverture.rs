//! Chocolate as solids crowded in liquid fat: what fat, crystals, water and lecithin do to its plastic viscosity.

use super::{emulsifier::EmulsifierTotals, pascal_seconds, yield_response};
use crate::matter::{Composition, Constituent};
use crate::units::quantity::{DynamicViscosity, Ratio, ratio};
use crate::units::{Checked, MassFraction, Temperature};

/// Liquid cocoa butter at 40 °C, Pa s, and how strongly it thins with heat, J/mol.
const FAT_VISCOSITY: f64 = 0.042;
const REFERENCE: f64 = 40.0;
const ACTIVATION_ENERGY: f64 = 30e3;
const GAS_CONSTANT: f64 = 8.314_462_618;
const ZERO_CELSIUS: f64 = 273.15;
/// Densities, kg/m³.
const FAT: f64 = 890.0;
const SOLIDS: f64 = 1550.0;
/// The share of its fat that tempered chocolate holds as crystals.
const TEMPERED: f64 = 0.08;
/// The packing limit without emulsifier, how far lecithin can raise it, at which dose most of that is done, and where it ends (fractions of
/// the chocolate).
const BARE_LIMIT: f64 = 0.589;
const LECITHIN_GAIN: f64 = 0.049;
const LECITHIN_SCALE: f64 = 0.0015;
/// The dose of lecithin, as fluid, beyond which the plastic viscosity falls no further.
pub const LECITHIN_END: f64 = 0.006;
/// Einstein's intrinsic viscosity of spheres.
const INTRINSIC: f64 = 2.5;
/// Water that no fat has to pay for, and how much more costs one part of fat.
const FREE_WATER: f64 = 0.01;
const WATER_PER_FAT: f64 = 0.3;

/// A chocolate as it is poured, or as it was measured: solids crowded in liquid fat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Couverture {
    /// All fat, liquid or not, of the chocolate.
    pub fat: MassFraction,
    /// Of the fat: what has crystallised.
    pub crystals: MassFraction,
    /// Of the chocolate.
    pub water: MassFraction,
    /// Of the chocolate.
    pub emulsifiers: EmulsifierTotals,
    /// Where it is poured.
    pub temperature: Temperature,
}

impl Couverture {
    /// A chocolate of this composition and emulsifiers. Tempered, 8 % of its fat is crystals (default).
    #[must_use]
    pub fn of(chocolate: &Composition, emulsifiers: EmulsifierTotals, tempered: bool, temperature: Temperature) -> Self {
        Self {
            fat: MassFraction::nearest(chocolate.fat()),
            crystals: MassFraction::nearest(if tempered { TEMPERED } else { 0.0 }),
            water: MassFraction::nearest(chocolate.of(Constituent::Water)),
            emulsifiers,
            temperature,
        }
    }

    /// The plastic viscosity; none where the solids jam.
    ///
    /// # Equation
    /// Krieger-Dougherty: `eta_fat (1 - phi / phi_m)^(-2.5 phi_m)`.
    /// - `phi`, the volume fraction of the solids, from fat of 890 and solids of 1550 kg/m³; crystals leave the liquid,
    ///   `phi + (1 - phi) crystals`; water above 1 % costs fat, see [`fat_tied_up`];
    /// - `phi_m = 0.589 + 0.049 (1 - exp(-c / 0.15))` for `c` per cent of lecithin, counted up to 0.6; ammonium phosphatides count as
    ///   lecithin, PGPR does not (default);
    /// - `eta_fat` = 0.042 Pa s at 40 °C, thinning with 30 kJ/mol.
    ///
    /// # Units
    /// Pa s.
    ///
    /// # Range
    /// 25 to 45 % fat, up to 2 % water, and not where it comes out stiffer than any chocolate measured, 14.6 Pa s: near the packing limit
    /// it rises without bound. See [`Self::inside_range`].
    ///
    /// # Error
    /// A factor 2 to 3 at best, as the size of the particles is not asked for: it is meant to carry a measured viscosity to another fat or
    /// dose. Replicate batches scatter by 3 %.
    ///
    /// # Worked value
    /// At 30 % fat 8.20 Pa s without lecithin, 2.02 with 0.2 %, 1.68 with 0.4 % (computed). Tempered milk chocolate of 30 % fat was
    /// measured at 8.7 Pa s (Bingham's law); its 0.4 % of lecithin and 30 °C are assumed here:
    /// ```
    /// # use cordial::models::flow::{emulsifier, couverture::Couverture};
    /// # use cordial::matter::{Emulsifier, EmulsifierForm, EmulsifierKind};
    /// # use cordial::units::{Measure, MassFraction, quantity::pascal_second};
    /// let share = |text: &str| Measure::parse(text)?.check::<MassFraction>();
    /// let lecithin = Emulsifier {
    ///     kind: EmulsifierKind::Lecithin,
    ///     form: EmulsifierForm::Fluid,
    ///     source: None,
    ///     dose: share("0.4 %")?,
    ///     acetone_insoluble: None,
    /// };
    /// let melted = Couverture {
    ///     fat: share("30 %")?,
    ///     crystals: MassFraction::ZERO,
    ///     water: share("0.8 %")?,
    ///     emulsifiers: emulsifier::total([&lecithin])?,
    ///     temperature: Measure::parse("40 Cel")?.check()?,
    /// };
    /// let tempered = Couverture { crystals: share("8 %")?, temperature: Measure::parse("30 Cel")?.check()?, ..melted };
    /// let viscosity = |chocolate: Couverture| chocolate.plastic_viscosity().map(|viscosity| viscosity.get::<pascal_second>());
    /// assert!(viscosity(melted).is_some_and(|melted| (melted - 1.68).abs() < 0.01));
    /// assert!(viscosity(tempered).is_some_and(|tempered| (tempered / 8.7 - 1.0).abs() < 0.03));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Source
    /// Krieger & Dougherty (1959) (memory). Fat at 40 °C: 0.040 to 0.045 Pa s (memory), its activation energy 25 to 35 kJ/mol (memory) and
    /// 29.7 of butter fat on a viscosity chart (seen). Both packing limits and the scale: defaults of this project,
    /// chosen so that 0.5 % of lecithin spares the 3 to 4 % of fat that is published, and tempered milk chocolate comes out as measured. Flat beyond 0.6 %:
    /// Pombal et al. (2024) Molecules 29:5185 (seen). Tempered milk chocolate of 30 % fat: Bergemann et al. (2018) J. Rheol. 62:1187
    /// (seen).
    #[must_use]
    pub fn plastic_viscosity(&self) -> Option<DynamicViscosity> {
        self.reckoned().map(|reckoned| pascal_seconds(reckoned.viscosity))
    }

    /// The same to be asked again: it takes powers to reckon.
    pub(crate) fn reckoned(self) -> Option<Reckoned> {
        let crowded = crowding(self.solids(), self.packing_limit())?;
        Some(Reckoned { chocolate: self, viscosity: self.fat_viscosity() * crowded })
    }

    /// Whether there are more solids than will flow.
    pub(super) fn jams(&self) -> bool {
        // No emulsifier lets them pack worse than none does.
        self.solids() >= BARE_LIMIT && self.solids() >= self.packing_limit()
    }

    /// Whether it is a chocolate the figures are for.
    #[must_use]
    pub fn inside_range(&self) -> bool {
        self.reckoned().is_some_and(|reckoned| reckoned.inside_range())
    }

    /// The cocoa butter that the emulsifier spares: as much more fat, of the chocolate, would thin it as far without. None where the solids
    /// jam even with the emulsifier.
    ///
    /// Published: 3 to 4 % for 0.5 % lecithin, and 1 part for 10 parts; this gives 3.2 % and 2.9 % (for 0.3 %) at 28 % fat.
    #[must_use]
    pub fn cocoa_butter_spared(&self) -> Option<MassFraction> {
        let crowded = crowding(self.solids(), self.packing_limit())?;
        let solids = BARE_LIMIT * (1.0 - crowded.powf(-1.0 / (INTRINSIC * BARE_LIMIT)));
        let without_crystals = (solids - self.crystals.base()) / (1.0 - self.crystals.base());
        let (fat, rest) = (FAT * (1.0 - without_crystals), SOLIDS * without_crystals);
        Some(MassFraction::nearest(fat / (fat + rest) - self.flowing_fat()))
    }

    /// How much stiffer the crowding of its solids alone makes it than another, whatever the emulsifiers, as a square root. None where the
    /// solids of either jam.
    pub(super) fn crowding_root(&self, other: &Self) -> Option<f64> {
        let limit = BARE_LIMIT + LECITHIN_GAIN;
        let room = |chocolate: &Self| Some(limit - chocolate.solids()).filter(|room| *room > 0.0);
        Some((room(other)? / room(self)?).powf(INTRINSIC * limit / 2.0))
    }

    /// Volume fraction of all that is not liquid fat.
    #[must_use]
    pub fn solid_volume(&self) -> Ratio {
        Ratio::new::<ratio>(self.solids())
    }

    fn solids(&self) -> f64 {
        let fat = self.flowing_fat();
        let (fat, solids) = (fat / FAT, (1.0 - fat) / SOLIDS);
        let solids = solids / (fat + solids);
        solids + (1.0 - solids) * self.crystals.base()
    }

    fn flowing_fat(&self) -> f64 {
        (self.fat.base() - fat_tied_up(self.water).base()).max(0.0)
    }

    fn packing_limit(&self) -> f64 {
        let dose = self.emulsifiers.lecithin.base() + self.emulsifiers.ammonium_phosphatides.base();
        BARE_LIMIT + LECITHIN_GAIN * -(-dose.min(LECITHIN_END) / LECITHIN_SCALE).exp_m1()
    }

    fn fat_viscosity(&self) -> f64 {
        let inverse = |celsius: f64| 1.0 / (celsius + ZERO_CELSIUS);
        FAT_VISCOSITY * (ACTIVATION_ENERGY / GAS_CONSTANT * (inverse(self.temperature.celsius()) - inverse(REFERENCE))).exp()
    }
}

/// A chocolate with its plastic viscosity, Pa s.
#[derive(Clone, Copy)]
pub(crate) struct Reckoned {
    pub(super) chocolate: Couverture,
    pub(super) viscosity: f64,
}

impl Reckoned {
    /// See [`Couverture::inside_range`].
    pub(crate) fn inside_range(&self) -> bool {
        const FAT_RANGE: std::ops::RangeInclusive<f64> = 0.25..=0.45;
        const MOST_WATER: f64 = 0.02;
        const STIFFEST: f64 = 14.6;
        FAT_RANGE.contains(&self.chocolate.fat.base())
            && self.chocolate.water.base() <= MOST_WATER
            && self.viscosity <= STIFFEST
            && yield_response::inside_range(&self.chocolate.emulsifiers)
    }
}

/// Krieger and Dougherty's relative viscosity; none where the solids jam.
fn crowding(solids: f64, limit: f64) -> Option<f64> {
    (solids < limit).then(|| (1.0 - solids / limit).powf(-INTRINSIC * limit))
}

/// The fat that water takes from the flow of a chocolate: 1 % for each 0.3 % of water above 1 %, both of the chocolate (seen, a technical
/// note on moisture in chocolate). It moves the fat that [`Couverture::plastic_viscosity`] goes by; it says nothing of stirred-in water, which
/// clumps the sugar.
#[must_use]
pub fn fat_tied_up(water: MassFraction) -> MassFraction {
    MassFraction::nearest((water.base() - FREE_WATER) / WATER_PER_FAT)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
pub(super) mod tests {
    use super::*;
    use crate::units::quantity::pascal_second;
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    fn percent(value: f64) -> MassFraction {
        MassFraction::from_base(value / 100.0).unwrap()
    }

    /// Lecithin and PGPR in per cent of the chocolate.
    pub(in super::super) fn doses(lecithin: f64, pgpr: f64) -> EmulsifierTotals {
        EmulsifierTotals {
            lecithin: percent(lecithin),
            pgpr: percent(pgpr),
            ammonium_phosphatides: MassFraction::ZERO,
            unfit: MassFraction::ZERO,
        }
    }

    /// Fat, lecithin and crystals in per cent, at 40 °C.
    pub(in super::super) fn chocolate(fat: f64, lecithin: f64, crystals: f64) -> Couverture {
        Couverture {
            fat: percent(fat),
            crystals: percent(crystals),
            water: percent(0.8),
            emulsifiers: doses(lecithin, 0.0),
            temperature: Temperature::from_base(40.0).unwrap(),
        }
    }

    fn viscosity(couverture: Couverture) -> f64 {
        couverture.plastic_viscosity().unwrap().get::<pascal_second>()
    }

    fn spared(fat: f64, lecithin: f64) -> f64 {
        100.0 * chocolate(fat, lecithin, 0.0).cocoa_butter_spared().unwrap().base()
    }

    #[test]
    fn water_above_one_per_cent_costs_fat() {
        let wet = Couverture { water: percent(1.6), ..chocolate(32.0, 0.4, 0.0) };
        assert_relative_eq!(viscosity(wet), viscosity(chocolate(30.0, 0.4, 0.0)), max_relative = 1e-9);
    }

    #[test]
    fn the_cocoa_butter_spared_thins_as_far_as_the_lecithin() {
        assert_relative_eq!(
            viscosity(chocolate(28.0 + spared(28.0, 0.4), 0.0, 0.0)),
            viscosity(chocolate(28.0, 0.4, 0.0)),
            max_relative = 1e-9
        );
        let tempered = chocolate(33.0, 0.4, 8.0);
        let richer = Couverture {
            fat: MassFraction::from_base(0.33 + tempered.cocoa_butter_spared().unwrap().base()).unwrap(),
            ..chocolate(33.0, 0.0, 8.0)
        };
        assert_relative_eq!(viscosity(richer), viscosity(tempered), max_relative = 1e-9);
    }

    #[test]
    fn jammed_is_no_viscosity() {
        assert_eq!(chocolate(25.0, 0.0, 0.0).plastic_viscosity(), None);
        assert!(!chocolate(25.0, 0.0, 0.0).inside_range() && !chocolate(28.0, 0.0, 0.0).inside_range());
        assert!(chocolate(30.0, 0.0, 0.0).inside_range() && chocolate(38.5, 0.4, 8.0).inside_range());
        assert_eq!(chocolate(5.0, 0.6, 8.0).cocoa_butter_spared(), None);
    }

    proptest! {
        #[test]
        fn fat_and_lecithin_thin_and_crystals_thicken(
            fat in 30.0..45.0f64, lecithin in 0.0..1.0f64, crystals in 0.0..4.0f64, more in 0.01..0.5f64
        ) {
            let here = viscosity(chocolate(fat, lecithin, 0.0));
            prop_assert!(viscosity(chocolate(fat + more, lecithin, 0.0)) < here);
            prop_assert!(viscosity(chocolate(fat, lecithin + more, 0.0)) <= here);
            let stiffer = chocolate(fat, lecithin, crystals + more).plastic_viscosity();
            prop_assert!(stiffer.is_none_or(|stiffer| stiffer.get::<pascal_second>() > here));
        }
    }
}
