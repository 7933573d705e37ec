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
/// to 0.025 as they grow to 1 % of the mass. Below 0.75 it grows with dryness, to 0.025 from 0.65 down.
/// The figures are this project's, from the misses against measurements; the ramps between them are a choice.
pub(super) fn standard_uncertainty(makeup: &Makeup) -> f64 {
    const WORST: f64 = 0.025;
    let syrup = between(0.01, 0.005, (makeup.leading - 0.9) / 0.1);
    let filling = between(syrup, WORST, makeup.undissolved / 0.01);
    between(filling, WORST, (0.75 - makeup.activity) / 0.1)
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
        assert_relative_eq!(of(0.87, 0.9, 0.15), 0.025);
        assert_relative_eq!(of(0.6, 1.0, 0.0), 0.025);
    }
}
