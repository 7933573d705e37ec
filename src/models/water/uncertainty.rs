//! How far a computed water activity may be off.

use super::{Solute, mixture::Reader};
use crate::models::quadrature::in_quadrature;

/// What the uncertainty of a balance depends on.
pub(super) struct Makeup {
    /// The water activity found.
    pub(super) activity: f64,
    /// Share of the dissolved water that the one leading solute holds; ethanol never leads.
    pub(super) leading: f64,
    /// Mass fraction of sorbing solids and crystals.
    pub(super) undissolved: f64,
}

/// Standard uncertainty of a water activity whose composition and isotherms are known. Nowhere does it jump, so that a small change of a recipe
/// stays a small change.
///
/// Syrup of one solute 0.005, rising to 0.01 where the leading solute holds 90 % of the water or less. Sorbing solids and crystals raise it
/// to 0.027 as they grow to 1 % of the mass. Below 0.75 it grows with dryness, from 0.65 down to 0.025 for one solute, 0.035 for several.
///
/// The figures are this project's. Each class of measurements was held to its own: where there are ten or more, 95 % of them lie within two
/// standard uncertainties; where there are fewer, the figure is no less than their root mean square (0.0264 in four credible fillings, 0.033
/// in six honeys, 0.0345 in the four of flowers, between whose laboratories there are 0.04 to 0.08). The ramps are a choice.
pub(super) fn standard_uncertainty(makeup: &Makeup) -> f64 {
    let one = (makeup.leading - 0.9) / 0.1;
    let syrup = between(0.01, 0.005, one);
    let filling = between(syrup, 0.027, makeup.undissolved / 0.01);
    let dry = between(0.035, 0.025, one).max(filling);
    between(filling, dry, (0.75 - makeup.activity) / 0.1)
}

/// How far the water that is held may be off, by mass of the whole, besides what [`standard_uncertainty`] tells.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Unsure {
    /// Water of solutes, each as far as it is beyond the range that measurements cover.
    pub(super) beyond: f64,
    /// Water in sorbing solids.
    pub(super) sorbed: f64,
    /// What a lot of the ingredients may bring more or less of, as a standard uncertainty.
    pub(super) composition: f64,
}

impl Unsure {
    /// Relative standard uncertainty of the water that a solute holds beyond its range: measurements of sorbitol, maltitol, xylitol and sucrose miss
    /// by 0.11, root mean square; rounded up, for glucose, maltose and the longer saccharides stand on none there.
    pub(super) const BEYOND: f64 = 0.15;
    /// Relative standard uncertainty of the water that a solid holds: the isotherms of cocoa and semolina miss by 0.24, root mean square.
    pub(super) const SORBED: f64 = 0.25;

    /// Standard uncertainty of the water held. What several solutes hold is taken as off together, and so what several solids hold: their
    /// isotherms stand on the same assumptions.
    fn of_water(self) -> f64 {
        in_quadrature([Self::BEYOND * self.beyond, Self::SORBED * self.sorbed, self.composition])
    }

    /// Standard uncertainty of the activity that follows by first order: `a u δW / |dH/d ln u|`, with `u = -ln a` and `H` what is held; given `a u`.
    pub(super) fn of_activity(self, reader: &mut Reader<'_, '_>, ln_u: f64, activity_u: f64) -> f64 {
        let water = self.of_water();
        if water <= 0.0 {
            return 0.0;
        }
        let slope = reader.fall(ln_u);
        if slope > 0.0 { (activity_u * water / slope).min(1.0) } else { 1.0 }
    }
}

/// How far a solute is beyond the range that measurements cover, from 0 at its end to 1, by the masses of its own solution.
pub(super) fn beyond_range(solute: &Solute, dissolved: f64, water: f64) -> f64 {
    /// A ramp, so that a band does not jump at the end of the range; in mass fractions.
    const RAMP: f64 = 0.1;
    let (solution, beyond) = (dissolved + water, dissolved - solute.covered * (dissolved + water));
    if beyond > 0.0 { (beyond / (RAMP * solution)).min(1.0) } else { 0.0 }
}

fn between(from: f64, to: f64, way: f64) -> f64 {
    from + (to - from) * way.clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn of(activity: f64, leading: f64, undissolved: f64) -> f64 {
        standard_uncertainty(&Makeup { activity, leading, undissolved })
    }

    #[test]
    fn classes_have_their_stated_uncertainty() {
        assert_relative_eq!(of(0.9, 1.0, 0.0), 0.005);
        assert_relative_eq!(of(0.9, 0.6, 0.0), 0.01);
        assert_relative_eq!(of(0.87, 0.9, 0.15), 0.027);
        assert_relative_eq!(of(0.6, 1.0, 0.0), 0.025);
        assert_relative_eq!(of(0.6, 0.6, 0.0), 0.035);
        assert_relative_eq!(of(0.6, 1.0, 0.15), 0.027);
    }
}
