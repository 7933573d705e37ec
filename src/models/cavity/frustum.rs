//! Straight walls over a flat base: pyramid frustum, box, and the cone frustum inside a square one.

use super::error::{CavityError, exceeds};
use super::{Form, Solid};
use crate::units::{Checked, Distance};

/// A share of a pyramid frustum: all of it, or the `π/4` of the cone that touches its four walls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Frustum {
    share: f64,
    length: Side,
    width: Side,
    depth: f64,
}

/// A side of the rectangular section, between two walls that lean alike.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Side {
    base: f64,
    /// How much longer it gets per height: twice the tangent of the lean.
    taper: f64,
}

impl Frustum {
    pub(super) const fn is_round(&self) -> bool {
        self.share < 1.0
    }
}

impl Side {
    fn new(opening: Distance, base: Distance, depth: f64) -> Result<Self, CavityError> {
        let (opening, base) = (opening.base(), base.base());
        if exceeds(base, opening) {
            return Err(CavityError::undercut(opening, base));
        }
        Ok(Self { base, taper: (opening - base).max(0.0) / depth })
    }

    fn at(self, height: f64) -> f64 {
        self.base + self.taper * height
    }

    /// Length along the wall per height: one over the cosine of the lean.
    fn slant(self) -> f64 {
        (1.0 + self.taper * self.taper / 4.0).sqrt()
    }
}

impl Frustum {
    pub(super) fn new(share: f64, opening: [Distance; 2], base: [Distance; 2], depth: Distance) -> Result<Self, CavityError> {
        let ([long, wide], [base_long, base_wide], depth) = (opening, base, depth.base());
        Ok(Self { share, length: Side::new(long, base_long, depth)?, width: Side::new(wide, base_wide, depth)?, depth })
    }

    pub(super) fn upright(length: Distance, width: Distance, depth: Distance) -> Self {
        let side = |base: Distance| Side { base: base.base(), taper: 0.0 };
        Self { share: 1.0, length: side(length), width: side(width), depth: depth.base() }
    }
}

impl Solid for Frustum {
    fn depth(&self) -> f64 {
        self.depth
    }

    fn section(&self, height: f64) -> f64 {
        self.share * self.length.at(height) * self.width.at(height)
    }

    fn below(&self, height: f64) -> f64 {
        let (a, b) = (self.length, self.width);
        let mixed = (a.base * b.taper + b.base * a.taper) / 2.0;
        self.share * height * (a.base * b.base + height * (mixed + height * a.taper * b.taper / 3.0))
    }

    fn height_of(&self, volume: f64) -> f64 {
        // The frustum between squares of the same areas holds no more, so that it fills higher. From above, Newton's method falls without a
        // miss, for the section never narrows upwards.
        let (a, b) = (self.length, self.width);
        let (base, taper) = ((a.base * b.base).sqrt(), (a.taper * b.taper).sqrt());
        let thrice = 3.0 * volume / self.share;
        let side = (base.powi(3) + thrice * taper).cbrt();
        let mut height = self.depth.min(thrice / (side * side + side * base + base * base));
        loop {
            let lower = height - (self.below(height) - volume) / self.section(height);
            if lower < height && lower > 0.0 {
                height = lower;
            } else {
                return height;
            }
        }
    }

    fn wetted(&self) -> f64 {
        let walls = |side: Side, next: Side| (side.base + side.at(self.depth)) * next.slant() * self.depth;
        self.share * (walls(self.length, self.width) + walls(self.width, self.length) + self.section(0.0) / self.share)
    }

    fn thickest_wall(&self) -> f64 {
        let half = |side: Side| side.at(self.depth) / 2.0 / side.slant();
        self.depth.min(half(self.length)).min(half(self.width))
    }

    fn lined(&self, wall: f64) -> Form {
        let base = |side: Side| side.base - wall * (2.0 * side.slant() - side.taper);
        // Leaning walls may meet in a ridge or a tip that much above the offset bottom; upright ones never do.
        let rise = |side: Side| (-base(side) / side.taper).max(0.0);
        let rise = rise(self.length).max(rise(self.width));
        let inner = |side: Side| Side { base: (base(side) + side.taper * rise).max(0.0), ..side };
        Form::Frustum(Self { length: inner(self.length), width: inner(self.width), depth: (self.depth - wall - rise).max(0.0), ..*self })
    }
}
