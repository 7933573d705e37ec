//! How far a computed water activity may be off.

/// What the uncertainty of a balance depends on.
pub(super) struct Makeup {
    /// The water activity found.
    pub(super) activity: f64,
    /// Share of the dissolved water that the one leading solute holds; ethanol never leads.
    pub(super) leading: f64,
    /// Mass fraction of sorbing solids and crystals.
    pub(super) undissolved: f64,
}

/// Standard uncertainty of a water activity. Nowhere does it jump, so that a small change of a recipe stays a small change.
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
