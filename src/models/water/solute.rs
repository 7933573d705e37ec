//! What one dissolved substance makes of water on its own.

use super::WATER;
use crate::matter::Constituent;
use crate::models::root::increasing_root;
use crate::units::{
    Checked, WaterActivity,
    quantity::{Ratio, ratio},
};

/// The water isotherm of one solute in water, by the extended Norrish equation.
///
/// # Equation
/// `ln a = ln(1 - x) - x² (K1 + K2 x + K3 x²)`, and one mole of solute holds `ν (1 - x)/x` moles of water.
///
/// # Units
/// `x` is the mole fraction of particles, ions counted separately; `ν` is the particles a formula unit splits into.
///
/// # Range
/// 15 to 30 °C. Every isotherm falls strictly over all `x`, so that each activity belongs to one concentration; [`Self::covered`] tells
/// how far measurements support it.
///
/// # Error
/// Root mean square / largest miss in activity: sucrose at 25 °C 0.0013 / 0.004, sugars from freezing points 0.0006 / 0.003, sodium and
/// potassium chloride 0.0008 / 0.002, glycerol and mannitol 0.0027 / 0.011, fructose to 94 % 0.012 / 0.027. Ethanol to 60 %: 0.0033 / 0.005
/// against partial pressures, 0.0079 / 0.011 against a later optical series. A free fit to the same measurements would be better by 0.0003 or
/// less, but for five solutes; `tests/refit.rs` says which and why they stay. Sucrose beyond 85 %, in glass, reads too dry: 0.39 at 90 %, where
/// a formula for droplets has 0.47. Galactose, trehalose, sorbitol, maltitol and the longer
/// saccharides stand on no measurement here.
///
/// # Worked value
/// Saturated sodium chloride, 26.45 % by mass, has 0.7525 at 25 °C.
/// ```
/// use cordial::{matter::Constituent, models::water::Solute, units::{Checked, WaterActivity, quantity::ratio}};
/// let salt = Solute::of(Constituent::Salt).expect("salt dissolves");
/// let held = salt.water_held(WaterActivity::from_base(0.7525)?).get::<ratio>();
/// let measured = (73.55 / 18.0153) / (26.45 / 58.443);
/// assert!((held / measured - 1.0).abs() < 0.005, "{held}");
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Form: Norrish 1966, with two more terms. Constants: [`Self::source`] of each. The worked value: Greenspan 1977 (seen), with the
/// solubility from memory.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solute {
    /// What it is.
    pub constituent: Constituent,
    /// Grams per mole.
    pub molar_mass: f64,
    /// Particles a formula unit splits into.
    pub particles: f64,
    /// `K1`, `K2`, `K3`.
    pub constants: [f64; 3],
    /// Mass fraction in water up to which measurements support the isotherm; zero where none do.
    pub covered: f64,
    /// Where the constants come from and how that is known.
    pub source: &'static str,
}

const MONOSACCHARIDE: f64 = 180.156;
const DISACCHARIDE: f64 = 342.297;
const HEXITOL: f64 = 182.172;

const FREEZING: &str = "computed: fitted, and checked against freezing points of the CRC Handbook, 102nd edition (seen)";
const VAPOUR: &str = "computed: fitted, and checked against Ebrahimi and Sadeghi 2016 (copy seen)";
const SCALED: &str = "computed: K = 2.25 (M/180.16)^1.3, weak";

const fn solute(constituent: Constituent, molar_mass: f64, constants: [f64; 3], covered: f64, source: &'static str) -> Solute {
    Solute { constituent, molar_mass, particles: 1.0, constants, covered, source }
}

const fn salt(constituent: Constituent, molar_mass: f64, constants: [f64; 3], covered: f64, source: &'static str) -> Solute {
    Solute { particles: 2.0, ..solute(constituent, molar_mass, constants, covered, source) }
}

impl Solute {
    /// Every solute with an isotherm.
    pub const ALL: &'static [Self; 19] = &[
        solute(
            Constituent::Sucrose,
            DISACCHARIDE,
            [6.8379, -4.3022, 0.0],
            0.679,
            "computed: fitted, and checked against Robinson and Stokes (memory) and freezing points (seen)",
        ),
        solute(Constituent::Glucose, MONOSACCHARIDE, [2.379, -0.3801, 0.0], 0.466, VAPOUR),
        solute(
            Constituent::Fructose,
            MONOSACCHARIDE,
            [2.1058, -2.7444, 0.0],
            0.937,
            "computed: fitted, and checked against He, Fowler and Toner 2006 (copy seen) and freezing points of the CRC Handbook (seen)",
        ),
        // Dilute data cannot tell lactose from maltose.
        solute(Constituent::Lactose, DISACCHARIDE, [4.5408, -0.0025, 0.0], 0.08, FREEZING),
        solute(Constituent::Maltose, DISACCHARIDE, [5.0568, -1.5689, 0.0], 0.44, FREEZING),
        solute(Constituent::Galactose, MONOSACCHARIDE, [2.379, -0.3801, 0.0], 0.0, "assumed: the constants of glucose"),
        solute(Constituent::Trehalose, DISACCHARIDE, [5.0568, -1.5689, 0.0], 0.0, "assumed: the constants of maltose"),
        solute(Constituent::Trisaccharides, 504.44, [8.58, 0.0, 0.0], 0.0, SCALED),
        // Counted as seven units and more, the body of a glucose syrup.
        solute(Constituent::HigherSaccharides, 1153.0, [25.13, 0.0, 0.0], 0.0, SCALED),
        solute(
            Constituent::Sorbitol,
            HEXITOL,
            [1.65, 0.0, 0.0],
            0.0,
            "seen: Norrish constant of the literature, as a review prints it; measured at what concentrations is not said",
        ),
        solute(Constituent::Maltitol, 344.313, [4.54, 0.0, 0.0], 0.0, "assumed: near maltose and lactose"),
        solute(Constituent::Xylitol, 152.146, [1.2976, 0.0, 0.0], 0.402, VAPOUR),
        solute(Constituent::Mannitol, HEXITOL, [1.6544, -0.0128, 0.0], 0.14, FREEZING),
        solute(Constituent::Glycerol, 92.094, [1.4253, -1.9102, 0.0], 0.80, FREEZING),
        solute(
            Constituent::Ethanol,
            46.068,
            [-1.7671, 0.1991, 0.7228],
            0.60,
            "computed: fitted, and checked against partial pressures over ethanol and water at 25 °C (seen)",
        ),
        // Fruit acids count as citric. The literature's K of 6.17 fits the solid's deliquescence better: keep to small amounts.
        solute(Constituent::Acid, 192.124, [1.9338, 0.0, 0.0], 0.05, FREEZING),
        solute(Constituent::LacticAcid, 90.078, [-1.59, 0.0, 0.0], 0.20, FREEZING),
        salt(
            Constituent::Salt,
            58.443,
            [-0.6311, 17.739, 0.0],
            0.2645,
            "computed: fitted, and checked against Robinson and Stokes (memory) and the saturated solution (seen)",
        ),
        // Plant ash is potassium before all else, so other minerals count as potassium chloride.
        salt(
            Constituent::Minerals,
            74.551,
            [-3.7065, 29.6908, 0.0],
            0.2622,
            "computed: potassium chloride, fitted to freezing points (seen) and the saturated solution (seen)",
        ),
    ];

    /// The isotherm of a constituent; nothing if it does not dissolve or its solution is unknown.
    #[must_use]
    pub fn of(constituent: Constituent) -> Option<&'static Self> {
        Self::ALL.iter().find(|solute| solute.constituent == constituent)
    }

    /// Moles of water that one mole holds at an activity: none at zero, without limit at one.
    #[must_use]
    pub fn water_held(&self, activity: WaterActivity) -> Ratio {
        Ratio::new::<ratio>(self.particles * self.held_at(self.fraction_at(-activity.base().ln())).0)
    }

    /// Water that one particle holds at mole fraction `x`, and the slope in `u = -ln a`.
    pub(super) fn held_at(&self, x: f64) -> (f64, f64) {
        ((1.0 - x) / x, -1.0 / (x * x * self.isotherm(x).1))
    }

    /// Dissolved particles of a kilogram, as kilograms of water of as many moles.
    pub(super) fn particles_per_mass(&self) -> f64 {
        self.particles * WATER / self.molar_mass
    }

    /// `-ln a` at mole fraction `x`, and its slope.
    pub(super) fn isotherm(&self, x: f64) -> (f64, f64) {
        let [k1, k2, k3] = self.constants;
        (-(-x).ln_1p() + x * x * (k1 + x * (k2 + x * k3)), 1.0 / (1.0 - x) + x * (2.0 * k1 + x * (3.0 * k2 + x * 4.0 * k3)))
    }

    /// Logarithm of the activity of the solute itself at mole fraction `x`, but for a constant: the isotherm by Gibbs and Duhem.
    pub(super) fn own_activity(&self, x: f64) -> f64 {
        let [k1, k2, k3] = self.constants;
        self.particles * (x.ln() + x * (2.0 * k1 + x * (1.5 * k2 - k1 + x * (4.0 / 3.0 * k3 - k2 - x * k3))))
    }

    /// The mole fraction at `u = -ln a`.
    pub(super) fn fraction_at(&self, u: f64) -> f64 {
        // The root of `x + (1/2 + K1) x² = u`, the equation to second order.
        let [k1, ..] = self.constants;
        let start = 2.0 * u / (1.0 + (1.0 + 4.0 * (0.5 + k1) * u).max(0.0).sqrt());
        increasing_root(0.0, 1.0, start, 1e-10 * u.min(1.0), |x| {
            let (at, slope) = self.isotherm(x);
            (at - u, slope)
        })
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, clippy::indexing_slicing, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::Role;
    use approx::assert_relative_eq;

    fn u(solute: &Solute, x: f64) -> f64 {
        solute.isotherm(x).0
    }

    fn held(solute: &Solute, u: f64) -> (f64, f64) {
        solute.held_at(solute.fraction_at(u))
    }

    #[test]
    fn every_soluble_constituent_has_an_isotherm_or_counts_as_another() {
        for constituent in Constituent::ALL {
            let soluble = matches!(constituent.role(), Role::Ethanol | Role::Sugar | Role::Saccharide | Role::Polyol | Role::Electrolyte);
            let elsewhere = matches!(constituent, Constituent::UnsplitSugars | Constituent::UnsplitMilkSugars | Constituent::MilkSalts);
            assert_eq!(Solute::of(*constituent).is_some(), soluble && !elsewhere, "{constituent:?}");
        }
    }

    #[test]
    fn what_no_measurement_supports_follows_from_its_source() {
        let mut seen = 0;
        for solute in Solute::ALL {
            if let Some(other) = solute.source.strip_prefix("assumed: the constants of ") {
                let other = Solute::ALL.iter().find(|solute| solute.constituent.key() == other).unwrap();
                assert_eq!((solute.constants, solute.molar_mass), (other.constants, other.molar_mass), "{:?}", solute.constituent);
                seen += 1;
            } else if solute.source == SCALED {
                assert_relative_eq!(solute.constants[0], 2.25 * (solute.molar_mass / 180.16).powf(1.3), max_relative = 1e-3);
                assert_eq!(solute.constants.map(|constant| constant != 0.0), [true, false, false]);
                seen += 1;
            }
        }
        assert!(seen >= 4, "{seen}");
    }

    #[test]
    fn isotherms_fall_strictly() {
        for solute in Solute::ALL {
            for step in 0..9999 {
                let x = f64::from(step) / 1e4;
                assert!(u(solute, x) < u(solute, x + 1e-4), "{:?} at {x}", solute.constituent);
            }
        }
    }

    #[test]
    fn inverse_of_every_isotherm_is_exact() {
        for solute in Solute::ALL {
            for x in [1e-12, 1e-6, 1e-3, 0.01, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 0.97, 0.999] {
                assert_relative_eq!(held(solute, u(solute, x)).0, (1.0 - x) / x, max_relative = 1e-12);
            }
        }
    }

    #[test]
    fn slopes_are_those_of_the_isotherm() {
        for solute in Solute::ALL {
            for u in [0.01, 0.05, 0.16, 0.4, 1.0, 2.0] {
                let (above, below) = (held(solute, u * (1.0 + 1e-6)).0, held(solute, u * (1.0 - 1e-6)).0);
                assert_relative_eq!((above - below) / (2e-6 * u), held(solute, u).1, max_relative = 1e-6);
            }
        }
    }

    #[test]
    fn pure_water_is_held_without_limit_and_vacuum_holds_none() {
        let sucrose = Solute::of(Constituent::Sucrose).unwrap();
        assert!(sucrose.water_held(WaterActivity::from_base(1.0).unwrap()).get::<ratio>().is_infinite());
        assert!(sucrose.water_held(WaterActivity::from_base(0.0).unwrap()).get::<ratio>() < 1e-12);
    }
}
