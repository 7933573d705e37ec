//! The one root of an increasing function.

/// Finds where `function` (value and slope) passes zero between `low` and `high`: Newton's method, which bisects wherever a step would
/// leave the bracket or fail to halve the one before, so that it cannot fail. Without a change of sign it closes in on the nearer end.
///
/// A Newton step below `tolerance` is the last one: what is left after it is of the order of its square.
pub(super) fn increasing_root(mut low: f64, mut high: f64, start: f64, tolerance: f64, mut function: impl FnMut(f64) -> (f64, f64)) -> f64 {
    let mut at = if start > low && start < high { start } else { f64::midpoint(low, high) };
    let mut last_step = high - low;
    loop {
        let (value, slope) = function(at);
        if value > 0.0 {
            high = at
        } else {
            low = at
        }
        let newton = at - value / slope;
        if (low..=high).contains(&newton) && 2.0 * (newton - at).abs() <= last_step {
            last_step = (newton - at).abs();
            at = newton;
            if last_step <= tolerance {
                return at;
            }
        } else {
            at = f64::midpoint(low, high);
            last_step = high - low;
            if at <= low || at >= high {
                return at;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn newton_alone_would_run_away() {
        let root = increasing_root(-50.0, 60.0, 30.0, 1e-12, |x| ((x - 1.0).atan(), 1.0 / (1.0 + (x - 1.0).powi(2))));
        assert_relative_eq!(root, 1.0, max_relative = 1e-14);
    }

    #[test]
    fn a_useless_slope_still_ends_in_the_root() {
        for slope in [0.0, -1.0, f64::NAN, 1e-300] {
            let root = increasing_root(0.0, 1.0, 0.9, 1e-12, |x| (x - 0.3, slope));
            assert!((root - 0.3).abs() < 1e-11, "{slope}: {root}");
        }
    }
}
