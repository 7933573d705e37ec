//! What every shape answers, in metres above its deepest point.

use super::Form;
use roots::{SimpleConvergency, find_root_brent};

/// A solid whose section does not shrink from the bottom up. Heights lie between 0 and the depth.
pub(super) trait Solid {
    fn depth(&self) -> f64;

    /// Area of the horizontal section.
    fn section(&self, height: f64) -> f64;

    /// Volume under a height.
    fn below(&self, height: f64) -> f64;

    /// Volume of the whole.
    fn capacity(&self) -> f64 {
        self.below(self.depth())
    }

    /// The height under which a volume lies that is no larger than the whole.
    fn height_of(&self, volume: f64) -> f64;

    /// Area of walls and bottom.
    fn wetted(&self) -> f64;

    /// The wall at which nothing is left.
    fn thickest_wall(&self) -> f64;

    /// What a shell leaves: a solid without volume when that is nothing.
    fn lined(&self, wall: f64) -> Form;
}

/// The share, from 0 to 1, of a length at which a monotone share of the volume reaches `wanted`.
pub(super) fn share_with(volume: impl Fn(f64) -> f64, wanted: f64) -> f64 {
    // Cube roots make volumes grow about as fast as lengths, so that one tolerance serves a tip and a broad base.
    let excess = |share: f64| volume(share).cbrt() - wanted.cbrt();
    // Rounding can hide the change of sign only next to 1, where a wall leaves almost nothing.
    find_root_brent(0.0, 1.0, excess, &mut SimpleConvergency { eps: 1e-15, max_iter: 200 }).unwrap_or(1.0)
}
