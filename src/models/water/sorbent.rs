//! Insoluble solids that take up water.

use crate::matter::Constituent;
use crate::units::{
    Checked, WaterActivity,
    quantity::{Ratio, ratio},
};

/// The sorption isotherm of an insoluble solid, by Guggenheim, Anderson and de Boer (GAB).
///
/// # Equation
/// `X = Xm C K a / ((1 - K a)(1 - K a + C K a))`
///
/// # Units
/// `X` and the monolayer `Xm` in kg of water per kg of dry solid; `C` and `K` are plain numbers.
///
/// # Range
/// 15 to 30 °C, water activity 0.1 to 0.93.
///
/// # Error
/// Order of magnitude: a class of solids, not a batch. Fibre and gums stand on the constants of starch for want of better. With the solubles of
/// cocoa, a bean of half fat reads 0.04 too dry from 0.75 to 0.9, and a fermented nib 0.04 too wet at 0.75 and right at 0.85; at 0.4 and less
/// both read too wet, by 0.09 to 0.19. Protein and fibre of almonds read within 0.03 from 0.2 to 0.65. Semolina reads 0.12 to 0.2 too dry: the
/// constants of starch hold a quarter more water than those fitted to it.
///
/// # Worked value
/// Whole unfermented cocoa beans, doubled to fat-free, hold 0.17 and 0.24 kg/kg at 0.75 and 0.85, solubles and all: more than the solids alone.
/// ```
/// use cordial::{matter::Constituent, models::water::Sorbent, units::{Checked, WaterActivity, quantity::ratio}};
/// let cocoa = Sorbent::of(Constituent::FatFreeCocoa).expect("cocoa takes up water");
/// for (activity, computed, bound) in [(0.75, 0.135, 0.17), (0.85, 0.189, 0.24)] {
///     let held = cocoa.water_held(WaterActivity::from_base(activity)?).get::<ratio>();
///     assert!((held - computed).abs() < 0.001 && held < bound, "{activity}: {held}");
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Typical of published isotherms; all constants known from memory. The beans: Sandoval and Barreiro 2002, abstract seen; the nibs: Sandoval
/// and others 2020, abstract seen; almonds: a growers' board, seen; semolina: Erbas and others 2005, transcription seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sorbent {
    /// What it is.
    pub constituent: Constituent,
    /// Water of the monolayer, kg per kg of dry solid.
    pub monolayer: f64,
    /// How much firmer the monolayer is held than the layers above it.
    pub c: f64,
    /// How much firmer the layers above it are held than water itself.
    pub k: f64,
}

impl Sorbent {
    /// Every solid that takes up water.
    pub const ALL: &'static [Self; 12] = &[
        Self::new(Constituent::FatFreeCocoa, COCOA),
        Self::new(Constituent::MilkProtein, PROTEIN),
        Self::new(Constituent::Protein, PROTEIN),
        Self::new(Constituent::Starch, STARCH),
        Self::new(Constituent::Fibre, STARCH),
        Self::new(Constituent::Xanthan, STARCH),
        Self::new(Constituent::Guar, STARCH),
        Self::new(Constituent::LocustBeanGum, STARCH),
        Self::new(Constituent::Pectin, STARCH),
        Self::new(Constituent::Gelatine, STARCH),
        Self::new(Constituent::Agar, STARCH),
        Self::new(Constituent::Carrageenan, STARCH),
    ];

    const fn new(constituent: Constituent, [monolayer, c, k]: [f64; 3]) -> Self {
        Self { constituent, monolayer, c, k }
    }

    /// The isotherm of a constituent; nothing if it is not an insoluble solid that takes up water.
    #[must_use]
    pub fn of(constituent: Constituent) -> Option<&'static Self> {
        Self::ALL.iter().find(|sorbent| sorbent.constituent == constituent)
    }

    /// Water held at an activity, over dry solid, by mass.
    #[must_use]
    pub fn water_held(&self, activity: WaterActivity) -> Ratio {
        Ratio::new::<ratio>(self.held(activity.base()).0)
    }

    /// Water held at activity `a`, kg/kg, and its slope.
    pub(super) fn held(&self, a: f64) -> (f64, f64) {
        let Self { monolayer, c, k, .. } = *self;
        let (free, all) = (1.0 - k * a, 1.0 + (c - 1.0) * k * a);
        let over = monolayer * c * k / (free * all);
        (over * a, over * (1.0 + (c - 1.0) * (k * a) * (k * a)) / (free * all))
    }
}

impl Sorbent {
    /// What differs among those that ship: many stand on the constants of one.
    pub(super) const CLASSES: [Self; 3] =
        [Self::new(Constituent::FatFreeCocoa, COCOA), Self::new(Constituent::Protein, PROTEIN), Self::new(Constituent::Starch, STARCH)];

    /// Which of [`Self::CLASSES`] it is one of, if any.
    pub(super) fn class(&self) -> Option<usize> {
        Self::CLASSES.iter().position(|class| (class.monolayer, class.c, class.k) == (self.monolayer, self.c, self.k))
    }
}

const COCOA: [f64; 3] = [0.045, 20.0, 0.90];
const PROTEIN: [f64; 3] = [0.070, 9.0, 0.84];
pub(super) const STARCH: [f64; 3] = [0.097, 25.0, 0.74];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matter::Role;
    use approx::assert_relative_eq;

    #[test]
    fn every_sorbing_solid_and_gum_has_an_isotherm() {
        for constituent in Constituent::ALL {
            assert_eq!(
                Sorbent::of(*constituent).is_some(),
                matches!(constituent.role(), Role::SorbingSolid | Role::Gum),
                "{constituent:?}"
            );
        }
    }

    #[test]
    fn isotherms_rise_with_the_slope_they_state() {
        for sorbent in Sorbent::ALL {
            for step in 1..100 {
                let a = f64::from(step) / 100.0;
                let (below, above) = (sorbent.held(a - 1e-6).0, sorbent.held(a + 1e-6).0);
                assert!(below < above, "{sorbent:?}");
                assert_relative_eq!((above - below) / 2e-6, sorbent.held(a).1, max_relative = 1e-7);
            }
        }
    }
}
