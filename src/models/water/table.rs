//! The inverse of every isotherm, tabulated: polynomials in the logarithm of `u = -ln a`, cell by cell.
//!
//! Over `ln u` these functions are smooth alike, however firmly a solute holds its water, so that one grid serves all of them, and what
//! several hold together is one polynomial too. They are right to 1e-8 of what is held, most of them to 1e-12; [`Solute`] has the exact
//! inverse, which holds outside the table.

use super::{Solute, Sorbent, SugarCrystal};
use std::array::from_fn;
use std::f64::consts::PI;
use std::sync::LazyLock;

/// The table spans `ln u` from -8 to 2: activities of 0.9997 down to 0.0006.
const FIRST: f64 = -8.0;
const CELLS_PER_UNIT: usize = 8;
const CELLS: usize = 10 * CELLS_PER_UNIT;
const COEFFICIENTS: usize = 8;

/// Half the width of a cell.
const HALF: f64 = 0.5 / CELLS_PER_UNIT as f64;

/// Functions over one cell, each times `u`, which leaves little to their curves.
pub(super) struct Cell {
    /// One over `u`, itself not times `u`.
    pub(super) per_u: Curve,
    /// Water held by each particle of a solute, in the order of [`Solute::ALL`].
    pub(super) solutes: [Curve; Solute::ALL.len()],
    /// Water held by each kilogram of a solid, in the order of [`Sorbent::CLASSES`].
    pub(super) sorbents: [Curve; Sorbent::CLASSES.len()],
    /// Water held by each particle of an ideal solute.
    pub(super) ideal: Curve,
    /// One over the activity of each crystallising sugar in its own solution, beside the water held by each of its particles, in the order of
    /// [`SugarCrystal::ALL`].
    pub(super) sugars: [Twins; SugarCrystal::ALL.len()],
}

/// A place within a cell.
#[derive(Clone, Copy)]
pub(super) struct Place {
    pub(super) cell: &'static Cell,
    /// From -1 to 1.
    pub(super) along: f64,
}

/// A polynomial over a cell, lowest coefficients first, by twos, an even power and the odd one above it: a processor takes two numbers at once.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Curve([[f64; 2]; COEFFICIENTS / 2]);

static TABLE: LazyLock<[Cell; CELLS]> = LazyLock::new(|| from_fn(Cell::tabulated));

impl Place {
    /// The place of `ln u`; nothing outside the table.
    #[inline]
    pub(super) fn of(ln_u: f64) -> Option<Self> {
        let cells = (ln_u - FIRST) * CELLS_PER_UNIT as f64;
        // What is below zero, or no number, is cut to zero.
        let index = cells as u32 as usize;
        let along = 2.0 * (cells - index as f64) - 1.0;
        TABLE.get(index).filter(|_| cells >= 0.0).map(|cell| Self { cell, along })
    }
}

impl Cell {
    fn tabulated(cell: usize) -> Self {
        let middle = FIRST + HALF * (2 * cell + 1) as f64;
        // `u` stays in the cell, for at its border a ceiling may have a corner.
        let curve = |function: &dyn Fn(f64) -> f64| Curve::through(|along| function((middle + HALF * along).exp()));
        Self {
            per_u: curve(&|u| 1.0 / u),
            solutes: Solute::ALL.each_ref().map(|solute| curve(&|u| held(solute, u))),
            sorbents: Sorbent::CLASSES.each_ref().map(|sorbent| curve(&|u| u * sorbent.held((-u).exp()).0)),
            ideal: curve(&|u| u / u.exp_m1()),
            sugars: SugarCrystal::ALL.map(|crystal| {
                let Some(solute) = Solute::of(crystal.constituent()) else { return Twins::default() };
                Twins::of(curve(&|u| u / crystal.activity(solute, u, solute.fraction_at(u))), curve(&|u| held(solute, u)))
            }),
        }
    }
}

impl Curve {
    /// The polynomial that agrees with a function in the extremes of the last Chebyshev polynomial, the ends of the cell among them.
    fn through(function: impl Fn(f64) -> f64) -> Self {
        let nodes: [f64; COEFFICIENTS] = from_fn(|node| -(PI * node as f64 / (COEFFICIENTS - 1) as f64).cos());
        let mut curve = Self::default();
        for (at, node) in nodes.iter().enumerate() {
            let mut basis = Self::default();
            basis.0[0][0] = 1.0;
            for (_, other) in nodes.iter().enumerate().filter(|(other, _)| *other != at) {
                basis = basis.times_root(*other, 1.0 / (node - other));
            }
            curve.add(function(*node), &basis);
        }
        curve
    }

    /// Times `factor (t - root)`.
    fn times_root(self, root: f64, factor: f64) -> Self {
        let mut lower = 0.0;
        Self(self.0.map(|two| two.map(|coefficient| factor * (std::mem::replace(&mut lower, coefficient) - root * coefficient))))
    }

    #[inline]
    pub(super) fn add(&mut self, factor: f64, other: &Self) {
        for (sums, two) in self.0.iter_mut().zip(other.0) {
            *sums = plus(*sums, factor, two);
        }
    }

    /// The value, and the slope in `ln u`; even and odd powers apart, side by side.
    #[inline]
    pub(super) fn at(&self, along: f64) -> (f64, f64) {
        let ([lowest, middle @ .., highest], square) = (self.0, along * along);
        let (value, slope) = middle.iter().rev().fold((highest, highest), |(value, slope), two| {
            let value = plus(*two, square, value);
            (value, plus(value, square, slope))
        });
        let ([even, odd], [even_slope, odd_slope]) = (plus(lowest, square, value), slope);
        (even + along * odd, (odd + 2.0 * along * (even_slope + along * odd_slope)) / HALF)
    }
}

/// What each particle of a solute holds, times `u`.
fn held(solute: &Solute, u: f64) -> f64 {
    let x = solute.fraction_at(u);
    u * (1.0 - x) / x
}

/// Two polynomials over a cell that are always read together, power by power; even and odd powers apart, so that no number waits long for
/// another.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Twins {
    even: [[f64; 2]; COEFFICIENTS / 2],
    odd: [[f64; 2]; COEFFICIENTS / 2],
}

impl Twins {
    fn of(Curve(one): Curve, Curve(other): Curve) -> Self {
        let powers =
            |odd: usize| from_fn(|two| [&one, &other].map(|curve| curve.get(two).and_then(|two| two.get(odd)).copied().unwrap_or(0.0)));
        Self { even: powers(0), odd: powers(1) }
    }

    /// The value and the slope in `ln u` of either.
    #[inline]
    pub(super) fn at(&self, along: f64) -> [(f64, f64); 2] {
        let square = along * along;
        // The value, and the slope in the square.
        let of = |[lowest, middle @ .., highest]: [[f64; 2]; COEFFICIENTS / 2]| {
            let (value, slope) = middle.iter().rev().fold((highest, highest), |(value, slope), twin| {
                let value = plus(*twin, square, value);
                (value, plus(value, square, slope))
            });
            (plus(lowest, square, value), slope)
        };
        let ((even, even_slope), (odd, odd_slope)) = (of(self.even), of(self.odd));
        let (value, rise) = (plus(even, along, odd), plus(even_slope, along, odd_slope));
        let [[one, other], [one_slope, other_slope]] = [value, plus(odd, 2.0 * along, rise)];
        [(one, one_slope / HALF), (other, other_slope / HALF)]
    }
}

#[inline]
fn plus([one, two]: [f64; 2], factor: f64, [more_one, more_two]: [f64; 2]) -> [f64; 2] {
    [one + factor * more_one, two + factor * more_two]
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests assert on known values")]
mod tests {
    use super::super::dissolution::Saturation;
    use super::*;
    use crate::units::{Checked, Temperature};
    use approx::assert_relative_eq;

    /// Places all over the table, none of them a node.
    fn places() -> impl Iterator<Item = (f64, f64, Place)> {
        (0..4000).map(|step| FIRST + (f64::from(step) + 0.37) / 400.0).map(|ln_u| (ln_u, ln_u.exp(), Place::of(ln_u).unwrap()))
    }

    #[test]
    fn every_curve_keeps_to_its_function() {
        let room = Temperature::from_base(20.0).unwrap();
        for (_, u, Place { cell, along }) in places() {
            let of = |curve: &Curve| curve.at(along).0 / u;
            for (solute, curve) in Solute::ALL.iter().zip(&cell.solutes) {
                assert_relative_eq!(of(curve), solute.held_at(solute.fraction_at(u)).0, max_relative = 1e-8);
            }
            for (sorbent, curve) in Sorbent::CLASSES.iter().zip(&cell.sorbents) {
                assert_relative_eq!(of(curve), sorbent.held((-u).exp()).0, max_relative = 1e-9);
            }
            for (crystal, twins) in SugarCrystal::ALL.iter().zip(&cell.sugars) {
                let solute = Solute::of(crystal.constituent()).unwrap();
                let saturation = Saturation::of(*crystal, solute, room);
                let ceiling = saturation.ceiling(solute, u, solute.fraction_at(u)).0;
                let [read, held] = twins.at(along);
                assert_relative_eq!(saturation.activity * read.0 / u, ceiling, max_relative = 1e-9);
                let place = Solute::ALL.iter().position(|other| other == solute).unwrap();
                let (value, slope) = cell.solutes[place].at(along);
                assert_relative_eq!(held.0, value, max_relative = 1e-13);
                assert_relative_eq!(held.1, slope, max_relative = 1e-10);
            }
            assert_relative_eq!(of(&cell.ideal), 1.0 / u.exp_m1(), max_relative = 1e-10);
            assert_relative_eq!(cell.per_u.at(along).0, 1.0 / u, max_relative = 1e-13);
        }
    }

    #[test]
    fn slopes_are_those_of_the_curve() {
        for (ln_u, _, Place { cell, along }) in places() {
            let above = Place::of(ln_u + 1e-5).filter(|above| std::ptr::eq(above.cell, cell));
            for curve in &cell.solutes {
                let Some(above) = above else { continue };
                let chord = (curve.at(above.along).0 - curve.at(along).0) / 1e-5;
                let middle = f64::midpoint(along, above.along);
                assert_relative_eq!(curve.at(middle).1, chord, epsilon = 1e-7, max_relative = 1e-6);
            }
        }
    }

    #[test]
    fn cells_meet_in_one_value() {
        for (lower, upper) in TABLE.iter().zip(TABLE.iter().skip(1)) {
            for (lower, upper) in lower.solutes.iter().zip(&upper.solutes) {
                assert_relative_eq!(lower.at(1.0).0, upper.at(-1.0).0, max_relative = 1e-13);
            }
        }
    }

    #[test]
    fn beside_the_table_there_is_none() {
        let last = FIRST + (CELLS / CELLS_PER_UNIT) as f64;
        for outside in [FIRST - 1e-9, last, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(Place::of(outside).is_none(), "{outside}");
        }
        assert!(Place::of(FIRST).is_some() && Place::of(last - 1e-9).is_some());
    }
}
