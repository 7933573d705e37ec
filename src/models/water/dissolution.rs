//! Sugars that crystallise: when a mixture is saturated with one of them.

use super::{
    Solute, WaterBalanceError,
    balance::{Case, spanning, splits},
    glucose_solubility, lactose_solubility,
    mixture::Mixture,
    sucrose_solubility,
};
use crate::matter::{Composition, Constituent};
use crate::units::{
    Band, Temperature,
    quantity::{Ratio, ratio},
};
use smallvec::SmallVec;
use std::cell::OnceCell;

/// A sugar that leaves its solution as crystals, at the solubility of [`sucrose_solubility`], [`glucose_solubility`] or
/// [`lactose_solubility`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SugarCrystal {
    /// Sucrose, without water.
    Sucrose,
    /// Glucose with one mole of water, the stable form below 50 °C.
    GlucoseMonohydrate,
    /// Lactose with one mole of water.
    LactoseMonohydrate,
}

impl SugarCrystal {
    /// Every sugar that can crystallise here.
    pub const ALL: &'static [Self; 3] = &[Self::Sucrose, Self::GlucoseMonohydrate, Self::LactoseMonohydrate];

    /// The crystals of a constituent; nothing if it stays dissolved.
    #[must_use]
    pub fn of(constituent: Constituent) -> Option<Self> {
        Self::ALL.iter().copied().find(|crystal| crystal.constituent() == constituent)
    }

    /// What crystallises.
    #[must_use]
    pub const fn constituent(self) -> Constituent {
        match self {
            Self::Sucrose => Constituent::Sucrose,
            Self::GlucoseMonohydrate => Constituent::Glucose,
            Self::LactoseMonohydrate => Constituent::Lactose,
        }
    }

    /// The anhydrous sugar over water at saturation, by mass.
    #[must_use]
    pub fn solubility(self, temperature: Temperature) -> Ratio {
        match self {
            Self::Sucrose => sucrose_solubility(temperature),
            Self::GlucoseMonohydrate => glucose_solubility(temperature),
            Self::LactoseMonohydrate => lactose_solubility(temperature),
        }
    }

    /// Moles of water in a mole of crystals.
    const fn water(self) -> f64 {
        match self {
            Self::Sucrose => 0.0,
            Self::GlucoseMonohydrate | Self::LactoseMonohydrate => 1.0,
        }
    }

    /// Whether it is expected to lie as crystals beside a filling's solution. Glucose is not: its crystals are slow to appear among other
    /// sugars, and no filling with them was measured.
    pub(super) const fn leaves_solution(self) -> bool {
        !matches!(self, Self::GlucoseMonohydrate)
    }
}

/// How far a mixture is from being saturated with a sugar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Supersaturation {
    /// The sugar's activity over that of its saturated solution in water: above 1 it can crystallise, at 0 there is none of it.
    pub ratio: Band<Ratio>,
    /// The sugar's mass over the most that would stay in solution in the same water beside everything else: 1 where the other is 1.
    pub by_mass: Band<Ratio>,
    /// Whether the mixture lies where water activities were tested, 15 to 30 °C, and holds no more than 5 % of ethanol in its water.
    pub in_range: bool,
}

/// How supersaturated a mixture would be with a sugar if everything soluble in it were dissolved.
///
/// # Equation
/// `ln S = ln a_s0(a) + ln y - ln a_s0(sat)`, with `a` the water activity of the mixture with all sugar dissolved, `y` the share of the sugar
/// among all dissolved particles, and `a_s0` the sugar's activity in a solution in water alone that has the water activity `a`
/// (Gibbs-Duhem: `d ln a_s0 = -w d ln a`, `w` the moles of water a mole holds). For the isotherm of [`Solute`] that is
/// `ln a_s0 = ln x + 2 K1 (x - x²/2) + 3 K2 (x²/2 - x³/3) + 4 K3 (x³/3 - x⁴/4)`, but for a constant. A crystal with a mole of water
/// compares `a_s a` instead of `a_s`. By mass: what there is over what makes `S` 1 in the same water beside everything else; its band is that of
/// `S` to the power by which the one follows the other there.
///
/// # Units
/// Dimensionless.
///
/// # Range
/// 15 to 30 °C. More than 5 % of ethanol in the water puts it out of range: no measurement was found, and the equation has ethanol help sucrose
/// into solution, 2.24 g per g of water at 20 % of ethanol against 2.00 without, where it is known to drive it out (memory).
///
/// # Error
/// 95 % within a factor of 1.2 (a choice of this project). Two series of the solubility of sucrose differ by 3 % in `S`, two figures for
/// glucose by 8 %; the usual figure for sucrose and invert sugar in equal parts comes out 5 % too high.
///
/// # Worked value
/// A syrup of sucrose and invert sugar in equal parts can be kept at no more than 75 % of solids at 20 °C.
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::{SugarCrystal, supersaturation};
/// use cordial::units::{Checked, MassFraction, Temperature, quantity::ratio};
/// let of = |solids: f64| -> Result<f64, Box<dyn std::error::Error>> {
///     let syrup = Composition::new([
///         (Constituent::Water, MassFraction::from_base(1.0 - solids)?),
///         (Constituent::Sucrose, MassFraction::from_base(solids / 2.0)?),
///         (Constituent::Glucose, MassFraction::from_base(solids / 4.0)?),
///         (Constituent::Fructose, MassFraction::from_base(solids / 4.0)?),
///     ])?;
///     Ok(supersaturation(&syrup, SugarCrystal::Sucrose, Temperature::from_base(20.0)?)?.ratio.value.get::<ratio>())
/// };
/// assert!((of(0.75)? - 1.0).abs() < 0.06);
/// assert!(of(0.74)? < 1.0 && of(0.76)? > 1.1);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// The rule of Zdanovskii, Stokes and Robinson carried over to the solute (memory; integrated here). The worked value: classic figure of
/// confectionery (memory).
///
/// # Errors
/// [`WaterBalanceError`] when there is no water, or more than 2 % of the mass is unidentified.
pub fn supersaturation(
    composition: &Composition,
    crystal: SugarCrystal,
    temperature: Temperature,
) -> Result<Supersaturation, WaterBalanceError> {
    if composition.of(Constituent::Water) <= 0.0 {
        return Err(WaterBalanceError::NoWater);
    }
    let cases: SmallVec<[(f64, Band<f64>, bool); 4]> = (splits(composition)?.iter())
        .map(|split| {
            let mixture = Mixture::new(composition, split, None);
            let case = Case::solve(&mixture, temperature, None, 0.0, |_, _| {});
            (
                supersaturated(&mixture, crystal, temperature, case.ln_u.exp()),
                by_mass(&mixture, crystal, &Saturations::at(temperature), case.ln_u),
                case.in_range,
            )
        })
        .collect();
    let ratios = cases.iter().map(|(found, ..)| Band::within_factor(*found, UNCERTAIN_BY));
    Ok(Supersaturation {
        ratio: spanning(ratios).map(Ratio::new::<ratio>),
        by_mass: spanning(cases.iter().map(|(_, by_mass, _)| *by_mass)).map(Ratio::new::<ratio>),
        in_range: dissolves_as_known(composition) && cases.iter().all(|(.., in_range)| *in_range),
    })
}

/// Whether a composition lies where the solubility of sugars is known, if its water activity is in range.
fn dissolves_as_known(composition: &Composition) -> bool {
    composition.spirit_strength() <= 0.05
}

/// What there is of a sugar over what stays in solution; its ends where the activity at saturation is off by its error, to first order in
/// the logarithms. Searched near a `ln u`.
pub(super) fn by_mass(mixture: &Mixture<'_>, crystal: SugarCrystal, saturations: &Saturations, near: f64) -> Band<f64> {
    let Some(share) = mixture.solutes.iter().find(|share| share.solute.constituent == crystal.constituent()) else {
        return Band::exact(0.0);
    };
    let (soluble, power) = mixture.soluble(share, saturations.of(crystal, share.solute), near);
    Band::within_factor(share.particles / soluble, (power * UNCERTAIN_BY.ln()).exp())
}

/// The supersaturation of a mixture at rest at `u = -ln a` with everything dissolved.
fn supersaturated(mixture: &Mixture<'_>, crystal: SugarCrystal, temperature: Temperature, u: f64) -> f64 {
    let Some(share) = mixture.solutes.iter().find(|share| share.solute.constituent == crystal.constituent()) else { return 0.0 };
    let ceiling = Saturation::of(crystal, share.solute, temperature).ceiling(share.solute, u, share.solute.fraction_at(u)).0;
    share.particles / (mixture.particles() * ceiling)
}

const UNCERTAIN_BY: f64 = 1.2;

/// The solution in which a sugar is in equilibrium with its crystals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Saturation {
    pub(super) crystal: SugarCrystal,
    /// The activity of the sugar, and of the water its crystals take in.
    pub(super) activity: f64,
}

/// Where sugars are saturated at one temperature by one set of isotherms, each reckoned when it is first asked for.
pub(crate) struct Saturations {
    temperature: Temperature,
    each: [OnceCell<Saturation>; SugarCrystal::ALL.len()],
}

impl Saturations {
    pub(crate) const fn at(temperature: Temperature) -> Self {
        Self { temperature, each: [const { OnceCell::new() }; SugarCrystal::ALL.len()] }
    }

    pub(crate) const fn temperature(&self) -> Temperature {
        self.temperature
    }

    /// Of a sugar that is a solute of that set.
    pub(super) fn of(&self, crystal: SugarCrystal, solute: &Solute) -> Saturation {
        let reckoned = || Saturation::of(crystal, solute, self.temperature);
        self.each.get(crystal as usize).map_or_else(reckoned, |kept| *kept.get_or_init(reckoned))
    }
}

impl Saturation {
    pub(super) fn of(crystal: SugarCrystal, solute: &Solute, temperature: Temperature) -> Self {
        let particles = solute.particles_per_mass() * crystal.solubility(temperature).get::<ratio>();
        let x = particles / (1.0 + particles);
        let taken_in = if crystal.water() > 0.0 { crystal.water() * solute.isotherm(x).0 } else { 0.0 };
        Self { crystal, activity: (solute.own_activity(x) - taken_in).exp() }
    }

    /// [`Self::ceiling`], and the water that each particle of the sugar holds, with their slopes in `ln u`; by the exact inverse of its isotherm.
    #[cold]
    pub(super) fn beside_water(&self, solute: &Solute, u: f64) -> ((f64, f64), (f64, f64)) {
        let x = solute.fraction_at(u);
        let in_log = |(value, slope): (f64, f64)| (value, u * slope);
        (in_log(self.ceiling(solute, u, x)), in_log(solute.held_at(x)))
    }

    /// The largest share of all dissolved particles the sugar can make up at `u = -ln a`, where its own solution has the mole
    /// fraction `x`, and the slope in `u`: it falls strictly.
    pub(super) fn ceiling(&self, solute: &Solute, u: f64, x: f64) -> (f64, f64) {
        let ceiling = self.activity / self.crystal.activity(solute, u, x);
        let taken_in = if u < DRIEST_HYDRATE { self.crystal.water() } else { 0.0 };
        (ceiling, ceiling * (taken_in - solute.particles * (1.0 - x) / x))
    }
}

/// A hydrate would give up its water somewhere below; held at this `-ln a`, the ceiling goes on falling.
const DRIEST_HYDRATE: f64 = 1.0;

impl SugarCrystal {
    /// The activity of the sugar, and of the water its crystals would take in, in its own solution; but for a constant factor.
    pub(super) fn activity(self, solute: &Solute, u: f64, x: f64) -> f64 {
        (solute.own_activity(x) - self.water() * u.min(DRIEST_HYDRATE)).exp()
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;
    use approx::assert_relative_eq;

    fn celsius(degrees: f64) -> Temperature {
        Temperature::from_base(degrees).unwrap()
    }

    fn weighed(parts: &[(Constituent, f64)]) -> Composition {
        let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
        Composition::blend(pure.iter().map(|(composition, mass)| (composition, *mass))).unwrap()
    }

    fn of(parts: &[(Constituent, f64)], crystal: SugarCrystal, degrees: f64) -> f64 {
        supersaturation(&weighed(parts), crystal, celsius(degrees)).unwrap().ratio.value.get::<ratio>()
    }

    fn syrup(solids: f64, invert: f64) -> [(Constituent, f64); 4] {
        [
            (Constituent::Water, 1.0 - solids),
            (Constituent::Sucrose, solids * (1.0 - invert)),
            (Constituent::Glucose, solids * invert / 2.0),
            (Constituent::Fructose, solids * invert / 2.0),
        ]
    }

    /// Solids of a syrup of sucrose and invert sugar that is just saturated with sucrose.
    fn saturated_solids(invert: f64, degrees: f64) -> f64 {
        let (mut low, mut high) = (0.3, 0.95);
        for _ in 0..50 {
            let middle = f64::midpoint(low, high);
            if of(&syrup(middle, invert), SugarCrystal::Sucrose, degrees) < 1.0 { low = middle } else { high = middle }
        }
        low
    }

    #[test]
    fn the_activity_of_a_solute_follows_from_the_isotherm() {
        for solute in Solute::ALL {
            for u in [1e-3, 0.01, 0.1, 0.3, 1.0, 2.0] {
                let at = |u: f64| solute.own_activity(solute.fraction_at(u));
                let held = solute.particles * solute.held_at(solute.fraction_at(u)).0;
                let slope = (at(u * (1.0 + 1e-5)) - at(u * (1.0 - 1e-5))) / (2e-5 * u);
                assert_relative_eq!(slope, held, max_relative = 1e-6);
            }
        }
    }

    #[test]
    fn slopes_are_those_of_the_ceiling() {
        for crystal in SugarCrystal::ALL {
            let solute = Solute::of(crystal.constituent()).unwrap();
            let saturation = Saturation::of(*crystal, solute, celsius(20.0));
            let at = |u: f64| saturation.ceiling(solute, u, solute.fraction_at(u));
            for u in [0.01, 0.1, 0.5, 1.5, 2.0, 4.0] {
                let (above, below) = (at(u + 1e-6).0, at(u - 1e-6).0);
                let (_, slope) = at(u);
                assert!(slope < 0.0, "{crystal:?} at {u}");
                assert_relative_eq!((above - below) / 2e-6, slope, max_relative = 1e-5);
            }
        }
    }

    #[test]
    fn each_sugar_alone_is_saturated_at_its_solubility() {
        for crystal in SugarCrystal::ALL {
            for degrees in [15.0, 20.0, 25.0] {
                let dissolved = crystal.solubility(celsius(degrees)).get::<ratio>();
                let saturated = of(&[(Constituent::Water, 1.0), (crystal.constituent(), dissolved)], *crystal, degrees);
                assert_relative_eq!(saturated, 1.0, max_relative = 1e-9);
            }
        }
        assert_relative_eq!(of(&[(Constituent::Water, 1.0), (Constituent::Fructose, 1.0)], SugarCrystal::Sucrose, 20.0), 0.0);
    }

    /// A plain implementation in another language, by bisection; with fructose on the constants of glucose it would be 74.0 % at the end. In
    /// equal parts confectionery works with 75 % (memory); sucrose counted by the gram of water alone would give 80.0 %.
    #[test]
    fn invert_sugar_keeps_sucrose_in_solution() {
        for (invert, solids) in [(0.0, 0.6672), (0.2, 0.6939), (0.3, 0.7091), (0.4, 0.7261), (0.5, 0.7454)] {
            assert_relative_eq!(saturated_solids(invert, 20.0), solids, epsilon = 1e-4);
        }
        assert!((saturated_solids(0.5, 20.0) - 0.75).abs() < 0.006);
    }

    #[test]
    fn by_mass_it_is_what_there_is_over_what_stays() {
        let of = |parts: &[(Constituent, f64)]| supersaturation(&weighed(parts), SugarCrystal::Sucrose, celsius(20.0)).unwrap();
        let soluble = SugarCrystal::Sucrose.solubility(celsius(20.0)).get::<ratio>();
        for sucrose in [0.5, 2.0, 3.0, 5.0] {
            let alone = of(&[(Constituent::Water, 1.0), (Constituent::Sucrose, sucrose)]).by_mass.value.get::<ratio>();
            assert_relative_eq!(alone, sucrose / soluble, max_relative = 1e-6);
        }
        // Beside other sugars: with so much less of it, the mixture is just saturated.
        let others = [(Constituent::Water, 1.0), (Constituent::Glucose, 0.8), (Constituent::Fructose, 0.8)];
        let with = |sucrose: f64| of(&[others.as_slice(), &[(Constituent::Sucrose, sucrose)]].concat());
        let heavy = with(3.0);
        let stays = 3.0 / heavy.by_mass.value.get::<ratio>();
        assert_relative_eq!(with(stays).ratio.value.get::<ratio>(), 1.0, max_relative = 1e-6);
        assert!(heavy.by_mass.low < heavy.by_mass.value && heavy.by_mass.value < heavy.by_mass.high);
        assert_relative_eq!(of(&others).by_mass.high.get::<ratio>(), 0.0);
    }

    #[test]
    fn ethanol_puts_it_out_of_range() {
        let in_range = |ethanol| {
            let filling = weighed(&[(Constituent::Water, 1.0 - ethanol), (Constituent::Ethanol, ethanol), (Constituent::Sucrose, 1.0)]);
            supersaturation(&filling, SugarCrystal::Sucrose, celsius(18.0)).unwrap().in_range
        };
        assert!(in_range(0.05) && !in_range(0.06));
    }

    #[test]
    fn sugars_of_unknown_kind_span_their_extremes() {
        let of = |sugar| {
            let syrup = weighed(&[(Constituent::Water, 0.25), (sugar, 0.75)]);
            supersaturation(&syrup, SugarCrystal::Sucrose, celsius(20.0)).unwrap().ratio
        };
        let (unknown, sucrose) = (of(Constituent::UnsplitSugars), of(Constituent::Sucrose));
        assert_eq!((unknown.low.get::<ratio>(), unknown.high), (0.0, sucrose.high));
        assert_relative_eq!(unknown.value.get::<ratio>(), sucrose.value.get::<ratio>() / 2.0);
    }

    /// By mass a sugar is known as far as its solubility follows the activity at saturation, to first order in the logarithms.
    #[test]
    fn by_mass_the_band_is_that_of_the_activity_to_the_power_that_it_counts_with() {
        use crate::models::water::mixture::Split;
        let parts = [(Constituent::Water, 0.3), (Constituent::Sucrose, 0.4), (Constituent::Glucose, 0.3)];
        let syrup = Composition::new(parts.map(|(constituent, part)| (constituent, crate::units::MassFraction::nearest(part)))).unwrap();
        let mixture = Mixture::new(&syrup, &Split::default(), None);
        let share = mixture.solutes.iter().find(|share| share.solute.constituent == Constituent::Sucrose).unwrap();
        let saturation = Saturation::of(SugarCrystal::Sucrose, share.solute, celsius(20.0));
        let soluble = |factor: f64| mixture.soluble(share, Saturation { activity: factor * saturation.activity, ..saturation }, -1.0).0;
        let power = (soluble(1.01) / soluble(0.99)).ln() / (1.01_f64 / 0.99).ln();
        let band = by_mass(&mixture, SugarCrystal::Sucrose, &Saturations::at(celsius(20.0)), -1.0);
        assert_relative_eq!((band.high / band.value).ln(), power * UNCERTAIN_BY.ln(), max_relative = 1e-3);
    }
}
