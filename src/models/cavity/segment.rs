//! A bowl cut from a sphere.

use super::error::{CavityError, exceeds};
use super::{Form, Solid};
use crate::units::{Checked, Distance};
use std::f64::consts::PI;

/// The sphere's centre lies in the plane of the rim or above it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Segment {
    pub(super) radius: f64,
    pub(super) depth: f64,
}

impl Segment {
    pub(super) fn new(diameter: Distance, depth: Distance) -> Result<Self, CavityError> {
        let (opening, depth) = (diameter.base() / 2.0, depth.base());
        if exceeds(depth, opening) {
            return Err(CavityError::too_deep(diameter.base(), depth));
        }
        Ok(Self { radius: (opening * opening / depth + depth) / 2.0, depth })
    }
}

impl Solid for Segment {
    fn depth(&self) -> f64 {
        self.depth
    }

    fn section(&self, height: f64) -> f64 {
        PI * height * (2.0 * self.radius - height)
    }

    fn below(&self, height: f64) -> f64 {
        PI / 3.0 * height * height * (3.0 * self.radius - height)
    }

    /// The trigonometric root of the cubic, in half angles so that a small volume loses no digits.
    fn height_of(&self, volume: f64) -> f64 {
        let third = (0.75 * volume / (PI * self.radius.powi(3))).sqrt().asin() / 3.0;
        self.radius * (2.0 * third.sin().powi(2) + 3f64.sqrt() * (2.0 * third).sin())
    }

    fn wetted(&self) -> f64 {
        2.0 * PI * self.radius * self.depth
    }

    fn thickest_wall(&self) -> f64 {
        self.depth
    }

    fn lined(&self, wall: f64) -> Form {
        Form::Segment(Self { radius: self.radius - wall, depth: (self.depth - wall).max(0.0) })
    }
}
