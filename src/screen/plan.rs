//! Which settings are tried: every one of a grid, or points spread evenly over the ranges.

use super::row::Few;
use crate::piece::{Knob, Piece, Turn};

/// A knob and how far it is turned, in the base unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// The knob.
    pub knob: Knob,
    /// The least setting.
    pub least: f64,
    /// The most.
    pub most: f64,
}

impl Axis {
    /// As far as a knob is usually turned on a piece.
    #[must_use]
    pub fn of(knob: Knob, piece: &Piece) -> Self {
        let (least, most) = knob.range(piece);
        Self { knob, least, most }
    }

    /// The setting so far along the way, from 0 to 1; a choice, or a number of times, to the nearest whole.
    fn at(&self, way: f64) -> f64 {
        let to = self.least + way * (self.most - self.least);
        if self.knob.turns(&Piece::default()) == Turn::Whole { to.round() } else { to }
    }
}

/// The settings to try.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    axes: Vec<(Axis, Spread)>,
    count: u64,
}

/// How the settings of a knob follow each other.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Spread {
    /// So many even steps, each held while those of the knobs before are gone through.
    Steps(u32),
    /// Each so far on from the one before, round and round.
    Stride(f64),
}

/// Why a plan cannot be followed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PlanError {
    /// Nothing is turned.
    #[error("the plan turns no knob: name at least one")]
    Nothing,
    /// A range that is none.
    #[error("knob {number} of the plan cannot be turned from {least} to {most}: give two finite numbers, the lower one first")]
    Range {
        /// Which knob, counted from one.
        number: usize,
        /// The least setting given.
        least: f64,
        /// The most.
        most: f64,
    },
    /// A grid of no steps, or of more points than can be counted.
    #[error("the grid has no points, or more than can be counted: give each knob at least one step, and fewer steps in all")]
    Count,
}

impl Plan {
    /// Every combination of so many even steps of each knob, the ends of its range among them; the first knob changes fastest.
    ///
    /// # Errors
    /// [`PlanError`] when there is no knob, a range is none, or the points cannot be counted.
    pub fn grid(axes: Vec<(Axis, u32)>) -> Result<Self, PlanError> {
        let count = axes.iter().try_fold(1_u64, |count, (_, steps)| count.checked_mul(u64::from(*steps)));
        let count = count.filter(|count| *count > 0).ok_or(PlanError::Count)?;
        Self::of(axes.into_iter().map(|(axis, steps)| (axis, Spread::Steps(steps))).collect(), count)
    }

    /// So many points that fill the ranges evenly, however many there are: the additive sequence of the generalised golden ratio (Roberts,
    /// 2018). The first points of a longer plan are those of a shorter one.
    ///
    /// # Errors
    /// [`PlanError`] when there is no knob or a range is none.
    pub fn sample(axes: Vec<Axis>, count: u64) -> Result<Self, PlanError> {
        let dimensions = i32::try_from(axes.len()).map_err(|_| PlanError::Count)?;
        // The one positive root of x^(d+1) = x + 1, by the iteration that converges to it.
        let golden = (0..64).fold(2.0_f64, |x, _| (1.0 + x).powf(1.0 / f64::from(dimensions + 1)));
        let strides = (1..=dimensions).map(|power| Spread::Stride(golden.powi(-power)));
        Self::of(axes.into_iter().zip(strides).collect(), count)
    }

    fn of(axes: Vec<(Axis, Spread)>, count: u64) -> Result<Self, PlanError> {
        for (place, (Axis { least, most, .. }, _)) in axes.iter().enumerate() {
            if !(least.is_finite() && most.is_finite() && least <= most) {
                return Err(PlanError::Range { number: place + 1, least: *least, most: *most });
            }
        }
        if axes.is_empty() { Err(PlanError::Nothing) } else { Ok(Self { axes, count }) }
    }

    /// How many candidates there are.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.count
    }

    /// The knobs and their ranges.
    pub fn axes(&self) -> impl Iterator<Item = Axis> + '_ {
        self.axes.iter().map(|(axis, _)| *axis)
    }

    /// What the knobs are turned to for a candidate, in the base unit.
    #[must_use]
    pub fn settings(&self, index: u64) -> Few<f64> {
        let mut rest = index;
        let of = |(axis, spread): &(Axis, Spread)| match spread {
            Spread::Steps(steps) => {
                let (steps, step) = (u64::from(*steps), rest % u64::from(*steps));
                rest /= steps;
                axis.at(if steps > 1 { step as f64 / (steps - 1) as f64 } else { 0.5 })
            }
            Spread::Stride(stride) => axis.at((0.5 + (index + 1) as f64 * stride).fract()),
        };
        self.axes.iter().map(of).collect()
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn axis(least: f64, most: f64) -> Axis {
        Axis { knob: Knob::WallThickness, least, most }
    }

    #[test]
    fn a_grid_has_every_corner_once() {
        let plan = Plan::grid(vec![(axis(0.0, 1.0), 3), (axis(5.0, 6.0), 2)]).unwrap();
        let points: Vec<_> = (0..plan.count()).map(|index| plan.settings(index).to_vec()).collect();
        let corners = [[0.0, 5.0], [0.5, 5.0], [1.0, 5.0], [0.0, 6.0], [0.5, 6.0], [1.0, 6.0]];
        assert_eq!(points, corners.map(|corner| corner.to_vec()));
    }

    #[test]
    fn one_dimension_strides_by_the_golden_ratio() {
        let plan = Plan::sample(vec![axis(0.0, 1.0)], 2).unwrap();
        assert_relative_eq!(plan.settings(0)[0], 0.5 + 0.618_033_988_749_894_9 - 1.0, max_relative = 1e-12);
        // Roberts gives 1.324717957244746 for two.
        let plan = Plan::sample(vec![axis(0.0, 1.0), axis(0.0, 1.0)], 2).unwrap();
        assert_relative_eq!(plan.settings(0)[0], 0.5 + 1.0 / 1.324_717_957_244_746 - 1.0, max_relative = 1e-12);
    }

    #[test]
    fn a_sample_fills_its_ranges_evenly() {
        let plan = Plan::sample(vec![axis(0.0, 10.0), axis(-1.0, 1.0)], 1000).unwrap();
        let mut cells = [[0_u32; 10]; 10];
        for index in 0..plan.count() {
            let at = plan.settings(index);
            cells[at[0] as usize][(5.0 * (at[1] + 1.0)) as usize] += 1;
        }
        // Ten in each by measure; at random, one cell in a hundred would have three or fewer, or eighteen and more.
        assert!(cells.iter().flatten().all(|count| (7..=13).contains(count)), "{cells:?}");
    }

    #[test]
    fn what_cannot_be_followed_is_refused() {
        assert_eq!(Plan::sample(vec![], 3), Err(PlanError::Nothing));
        assert_eq!(Plan::grid(vec![(axis(0.0, 1.0), 0)]), Err(PlanError::Count));
        assert!(matches!(Plan::sample(vec![axis(1.0, 0.0)], 3), Err(PlanError::Range { .. })));
        assert!(matches!(Plan::sample(vec![axis(0.0, f64::NAN)], 3), Err(PlanError::Range { .. })));
        assert_eq!(Plan::grid(vec![(axis(0.0, 1.0), u32::MAX), (axis(0.0, 1.0), u32::MAX), (axis(0.0, 1.0), 2)]), Err(PlanError::Count));
    }
}
