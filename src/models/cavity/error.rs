//! Why there is no such cavity.

use crate::units::{Measure, Unit};

/// Why there is no such cavity. Lengths are in millimetres, volumes in millilitres.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CavityError {
    /// A segment that is more than half a sphere.
    #[error("a segment `{depth}` deep under an opening of `{diameter}` could not be released: make it at most {deepest} deep")]
    TooDeep {
        /// Diameter of the opening.
        diameter: Measure,
        /// Depth that was given.
        depth: Measure,
        /// Radius of the largest sphere that releases: half the diameter.
        deepest: Measure,
    },
    /// A base that is wider than the opening.
    #[error("a base of `{base}` under an opening of `{opening}` could not be released: make the base no wider than the opening")]
    Undercut {
        /// Diameter or side of the opening.
        opening: Measure,
        /// Diameter or side of the base.
        base: Measure,
    },
    /// A volume that no cavity of that opening and depth has.
    #[error("a cavity of that opening and depth holds between {least} and {most}, found `{volume}`: measure all three again")]
    Volume {
        /// Volume that was given.
        volume: Measure,
        /// What straight lines from the rim to the deepest point enclose.
        least: Measure,
        /// Opening times depth.
        most: Measure,
    },
    /// A wall that leaves nothing, or is less than nothing.
    #[error("a wall in this cavity must be at least 0 mm and thinner than {thickest} to leave a space, found `{wall}`")]
    Wall {
        /// Wall that was given.
        wall: Measure,
        /// The wall at which nothing is left.
        thickest: Measure,
    },
}

impl CavityError {
    pub(super) const fn too_deep(diameter: f64, depth: f64) -> Self {
        Self::TooDeep { diameter: millimeters(diameter), depth: millimeters(depth), deepest: millimeters(diameter / 2.0) }
    }

    pub(super) const fn undercut(opening: f64, base: f64) -> Self {
        Self::Undercut { opening: millimeters(opening), base: millimeters(base) }
    }

    pub(super) const fn volume(volume: f64, least: f64, most: f64) -> Self {
        Self::Volume { volume: milliliters(volume), least: milliliters(least), most: milliliters(most) }
    }

    pub(super) const fn wall(wall: f64, thickest: f64) -> Self {
        Self::Wall { wall: millimeters(wall), thickest: millimeters(thickest) }
    }
}

/// Whether a dimension is larger than another by more than two units may round the same length differently.
pub(super) fn exceeds(value: f64, limit: f64) -> bool {
    value > limit * (1.0 + 1e-12)
}

const fn millimeters(meters: f64) -> Measure {
    Measure::from_base(meters, Unit::Millimeter)
}

const fn milliliters(cubic_meters: f64) -> Measure {
    Measure::from_base(cubic_meters, Unit::Milliliter)
}
