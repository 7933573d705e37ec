//! A cavity known by what it holds.

use super::error::{CavityError, exceeds};
use super::{Form, Solid};
use crate::units::{Checked, Distance, Space};
use std::f64::consts::PI;

/// Section `opening area * (height / depth)^exponent`: 0 is a cylinder, 1/2 holds what a hemisphere does, 2 is a cone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Measured {
    radius: f64,
    depth: f64,
    exponent: f64,
}

impl Measured {
    pub(super) fn new(volume: Space, opening: Distance, depth: Distance) -> Result<Self, CavityError> {
        let (radius, depth, volume) = (opening.base() / 2.0, depth.base(), volume.base());
        let most = PI * radius * radius * depth;
        // Straight lines from the rim to the deepest point stay inside a wall that bulges outwards only: it holds at least their cone.
        let least = most / 3.0;
        if exceeds(volume, most) || exceeds(least, volume) {
            return Err(CavityError::volume(volume, least, most));
        }
        Ok(Self { radius, depth, exponent: (most / volume - 1.0).clamp(0.0, 2.0) })
    }

    /// One over the cosine of the wall's lean at the rim.
    fn slant(&self) -> f64 {
        (self.radius * self.exponent / (2.0 * self.depth)).hypot(1.0)
    }
}

impl Solid for Measured {
    fn depth(&self) -> f64 {
        self.depth
    }

    fn section(&self, height: f64) -> f64 {
        // Nothing over nothing, when a wall has taken the whole depth, is the bottom.
        PI * self.radius * self.radius * (height / self.depth).max(0.0).powf(self.exponent)
    }

    fn below(&self, height: f64) -> f64 {
        self.section(height) * height / (self.exponent + 1.0)
    }

    fn height_of(&self, volume: f64) -> f64 {
        self.depth * (volume / self.capacity()).powf((self.exponent + 1.0).recip())
    }

    fn wetted(&self) -> f64 {
        self.capacity() * (2.0 * self.slant() / self.radius + self.depth.recip())
    }

    fn thickest_wall(&self) -> f64 {
        self.depth.min(self.radius / self.slant())
    }

    fn lined(&self, wall: f64) -> Form {
        let left = |from: f64, taken: f64| (from - taken).max(0.0);
        Form::Measured(Self { radius: left(self.radius, wall * self.slant()), depth: left(self.depth, wall), ..*self })
    }
}
