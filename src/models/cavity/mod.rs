//! The open cavity of a mould: how much it holds, to what level, and what a shell of a given wall leaves.

mod error;
mod frustum;
mod measured;
mod segment;
mod solid;
#[cfg(test)]
mod tests;

pub use error::CavityError;

use crate::units::quantity::{Area, Length, Volume, cubic_meter, meter, square_meter};
use crate::units::{Distance, Space};
use frustum::Frustum;
use measured::Measured;
use segment::Segment;
use solid::{Solid, share_with};
use std::f64::consts::PI;

/// An open cavity, described from the plane of its rim down.
///
/// # Equation
/// With `y` the height above the deepest point and `h` the depth:
/// - segment of a sphere of radius `R`, hemisphere included: section `π y (2R - y)`, volume `π y² (3R - y) / 3`;
/// - pyramid frustum: section `a(y) b(y)` with sides that grow evenly from base to opening, volume its integral; a box is one with
///   upright walls; a cone frustum is `π/4` of the square pyramid frustum drawn round it, in every volume, section and wall area;
/// - measured: section `A (y/h)^p`, with `p` such that the volume comes out as measured.
///
/// A shell of wall `t`, measured square to the mould everywhere, leaves a cavity of the same kind under the same rim: sphere radius
/// `R - t`, depth `h - t`; for flat or conical walls that lean by `θ`, sides shorter by `2t / cos θ` at the rim and a depth of `h - t`, or
/// less where the walls meet before the bottom does. A measured cavity becomes `h - t` deep and `2t / cos θ` narrower, with the lean its
/// section has at the rim and the same `p`.
///
/// # Units
/// Any length and volume in; lengths in metres, areas in square metres, volumes in cubic metres inside.
///
/// # Range
/// Dimensions of a mould as in [`Distance`]. No undercut: a segment no deeper than its sphere's radius, a base no wider than the opening.
/// A measured volume lies between a third of opening times depth, which every cavity without inward bulges holds, and the whole of it.
///
/// # Error
/// Exact for the named shapes; rounded edges and draft beyond the shape given are not seen. For a measured cavity the volume, opening
/// and depth are exact; everything between them is modelled: see [`Cavity::is_exact`].
///
/// # Worked value
/// A frustum of sides 4 and 2 and height 6 holds 56; a hemisphere holds two thirds of the cylinder round it.
/// ```
/// use cordial::{models::cavity::Cavity, units::{Distance, Measure, MeasureError, quantity::milliliter}};
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let length = |text: &str| Measure::parse(text)?.check::<Distance>();
/// let frustum = Cavity::pyramid_frustum([length("4 cm")?; 2], [length("2 cm")?; 2], length("6 cm")?)?;
/// assert!((frustum.volume().get::<milliliter>() - 56.0).abs() < 1e-9);
///
/// let hemisphere = Cavity::hemisphere(length("28 mm")?);
/// let cylinder = Cavity::cone_frustum(length("28 mm")?, length("28 mm")?, length("14 mm")?)?;
/// assert!(((hemisphere.volume() / cylinder.volume()).value - 2.0 / 3.0).abs() < 1e-12);
/// # Ok(())
/// # }
/// ```
///
/// # Source
/// Moscow Mathematical Papyrus, problem 14 (frustum of sides 4 and 2, height 6: 56; seen in translation); Archimedes, On the Sphere and
/// Cylinder I (the two thirds; memory). The offsets are derived here and checked by integrating over slices (computed).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cavity(Form);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Form {
    Segment(Segment),
    Frustum(Frustum),
    Measured(Measured),
}

impl Cavity {
    /// Half a sphere.
    #[must_use]
    pub fn hemisphere(diameter: Distance) -> Self {
        let radius = diameter.quantity().get::<meter>() / 2.0;
        Self(Form::Segment(Segment { radius, depth: radius }))
    }

    /// A bowl cut from a sphere, by the diameter of its opening.
    ///
    /// # Errors
    /// [`CavityError::TooDeep`] when it is deeper than half its diameter: it would narrow towards the rim.
    pub fn segment(diameter: Distance, depth: Distance) -> Result<Self, CavityError> {
        Segment::new(diameter, depth).map(Form::Segment).map(Self)
    }

    /// A round cup with straight walls, by the diameters of opening and base.
    ///
    /// # Errors
    /// [`CavityError::Undercut`] when the base is wider than the opening.
    pub fn cone_frustum(opening: Distance, base: Distance, depth: Distance) -> Result<Self, CavityError> {
        Frustum::new(PI / 4.0, [opening; 2], [base; 2], depth).map(Form::Frustum).map(Self)
    }

    /// A rectangular cup with straight walls, by the sides of opening and base.
    ///
    /// # Errors
    /// [`CavityError::Undercut`] when a side of the base is longer than that of the opening.
    pub fn pyramid_frustum(opening: [Distance; 2], base: [Distance; 2], depth: Distance) -> Result<Self, CavityError> {
        Frustum::new(1.0, opening, base, depth).map(Form::Frustum).map(Self)
    }

    /// A box with upright walls.
    #[must_use]
    pub fn cuboid(length: Distance, width: Distance, depth: Distance) -> Self {
        Self(Form::Frustum(Frustum::upright(length, width, depth)))
    }

    /// Any other shape, filled with water and weighed; of an opening that is not round, the diameter of the circle of the same area.
    ///
    /// # Errors
    /// [`CavityError::Volume`] when no cavity of that opening and depth holds that volume.
    pub fn measured(volume: Space, opening: Distance, depth: Distance) -> Result<Self, CavityError> {
        Measured::new(volume, opening, depth).map(Form::Measured).map(Self)
    }

    /// What it holds, filled to the rim.
    #[must_use]
    pub fn volume(&self) -> Volume {
        cubic_meters(self.capacity())
    }

    /// From the plane of the rim to the deepest point.
    #[must_use]
    pub fn depth(&self) -> Length {
        meters(self.solid().depth())
    }

    /// The area a cap has to span.
    #[must_use]
    pub fn opening_area(&self) -> Area {
        self.area_at(meters(0.0))
    }

    /// The diameter of the circle that has the area of the opening.
    #[must_use]
    pub fn opening(&self) -> Length {
        (self.opening_area() * (4.0 / PI)).sqrt()
    }

    /// Walls and bottom, without the opening; of a measured cavity the rate at which a thin shell takes its space.
    #[must_use]
    pub fn wetted_area(&self) -> Area {
        square_meters(self.solid().wetted())
    }

    /// The horizontal section at a level; the rim and the bottom stand for what lies beyond them.
    #[must_use]
    pub fn area_at(&self, below_rim: Length) -> Area {
        square_meters(self.solid().section(self.height(below_rim)))
    }

    /// The space under a level; the rim and the bottom stand for what lies beyond them.
    #[must_use]
    pub fn volume_below(&self, below_rim: Length) -> Volume {
        cubic_meters(self.solid().below(self.height(below_rim)))
    }

    /// The depth left under the rim when this volume lies in the cavity; `None` when it does not fit.
    #[must_use]
    pub fn level_of(&self, poured: Volume) -> Option<Length> {
        let poured = poured.get::<cubic_meter>();
        let solid = self.solid();
        (0.0..=self.capacity()).contains(&poured).then(|| meters((solid.depth() - solid.height_of(poured)).max(0.0)))
    }

    /// The cavity that a shell of this wall leaves, walls and bottom alike, open at the same rim.
    ///
    /// # Errors
    /// [`CavityError::Wall`] when nothing is left, or the wall is below zero.
    pub fn lined(&self, wall: Length) -> Result<Self, CavityError> {
        let solid = self.solid();
        let wall = wall.get::<meter>();
        let inner = Self(solid.lined(wall));
        if wall >= 0.0 && inner.capacity() > 0.0 { Ok(inner) } else { Err(CavityError::wall(wall, solid.thickest_wall())) }
    }

    /// What a shell of this wall takes.
    ///
    /// # Errors
    /// As for [`Cavity::lined`].
    pub fn shell_volume(&self, wall: Length) -> Result<Volume, CavityError> {
        self.lined(wall).map(|inner| self.volume() - inner.volume())
    }

    /// The wall of a shell of this volume; `None` when it leaves nothing to fill.
    #[must_use]
    pub fn wall_of(&self, shell_volume: Volume) -> Option<Length> {
        let capacity = self.capacity();
        let left = capacity - shell_volume.get::<cubic_meter>();
        if !(left > 0.0 && left <= capacity) {
            return None;
        }
        let thickest = self.solid().thickest_wall();
        let left_by = |share: f64| Self(self.solid().lined(share * thickest)).capacity() / capacity;
        Some(meters(share_with(left_by, left / capacity) * thickest))
    }

    /// Whether sections, levels and shells follow from the shape; for a measured cavity they are modelled.
    ///
    /// Described by volume, opening and depth only, frusta and bowls 20 to 40 mm wide and 10 to 20 mm deep, with bases up to 8 mm narrower,
    /// get levels within 6 % of the depth, and shells of 1 to 3 mm within 9 % of their volume when round, 17 % when square (too small:
    /// corners have more wall).
    #[must_use]
    pub const fn is_exact(&self) -> bool {
        !matches!(self.0, Form::Measured(_))
    }

    /// Whether its walls are round; not known of a measured one.
    #[must_use]
    pub const fn is_round(&self) -> Option<bool> {
        match &self.0 {
            Form::Segment(_) => Some(true),
            Form::Frustum(frustum) => Some(frustum.is_round()),
            Form::Measured(_) => None,
        }
    }

    fn solid(&self) -> &dyn Solid {
        match &self.0 {
            Form::Segment(segment) => segment,
            Form::Frustum(frustum) => frustum,
            Form::Measured(measured) => measured,
        }
    }

    fn capacity(&self) -> f64 {
        self.solid().capacity()
    }

    fn height(&self, below_rim: Length) -> f64 {
        (self.solid().depth() - below_rim.get::<meter>().max(0.0)).max(0.0)
    }
}

fn meters(value: f64) -> Length {
    Length::new::<meter>(value)
}

fn square_meters(value: f64) -> Area {
    Area::new::<square_meter>(value)
}

fn cubic_meters(value: f64) -> Volume {
    Volume::new::<cubic_meter>(value)
}
