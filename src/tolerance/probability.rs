//! Probabilities of staying on the legal side.

use crate::assess::Quantity;
use crate::engine::Side;

/// How likely a normally distributed slack is not negative; one without spread is or is not.
pub(super) fn holds(slack: f64, spread: f64) -> f64 {
    if spread > 0.0 {
        0.5 * libm::erfc(-slack / spread / std::f64::consts::SQRT_2)
    } else if slack >= 0.0 {
        1.0
    } else {
        0.0
    }
}

/// How likely it is that all hold, at least: of limits that a quantity meets on the same side the worst decides; the two sides of one quantity
/// cannot fail together; of different quantities nothing is supposed, so that the sum of their failures is the most there can be.
pub(super) fn all_hold(each: impl IntoIterator<Item = (Quantity, Side, f64)>) -> f64 {
    let mut worst: Vec<(Quantity, Side, f64)> = Vec::new();
    for (quantity, side, holds) in each {
        match worst.iter_mut().find(|(other, end, _)| *other == quantity && *end == side) {
            Some((_, _, known)) => *known = known.min(holds),
            None => worst.push((quantity, side, holds)),
        }
    }
    (1.0 - worst.iter().map(|(_, _, holds)| 1.0 - holds).sum::<f64>()).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// The normal distribution as every table of it has it.
    #[test]
    fn nineteen_in_twenty_within_two() {
        for (slack, share) in [(0.0, 0.5), (1.0, 0.841_345), (1.644_854, 0.95), (1.959_964, 0.975), (-1.0, 0.158_655), (3.0, 0.998_650)] {
            assert_abs_diff_eq!(holds(0.2 * slack, 0.2), share, epsilon = 1e-6);
        }
        assert_abs_diff_eq!(holds(0.0, 0.0), 1.0);
        assert_abs_diff_eq!(holds(-1e-9, 0.0), 0.0);
    }

    #[test]
    fn sides_add_up_and_the_same_side_does_not() {
        let water = |side, holds| (Quantity::Water, side, holds);
        assert_abs_diff_eq!(all_hold([water(Side::AtMost, 0.9), water(Side::AtMost, 0.95)]), 0.9);
        assert_abs_diff_eq!(all_hold([water(Side::AtMost, 0.9), water(Side::AtLeast, 0.95)]), 0.85, epsilon = 1e-12);
        assert_abs_diff_eq!(all_hold([water(Side::AtMost, 0.9), (Quantity::Fat, Side::AtMost, 0.05)]), 0.0);
        assert_abs_diff_eq!(all_hold([]), 1.0);
    }
}
