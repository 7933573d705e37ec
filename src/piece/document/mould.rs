//! The mould: one table of lengths for each shape.

use crate::models::cavity::Cavity;
use crate::piece::Mould;
use crate::units::reader::{FaultKind, Field, TableReader};
use crate::units::{Checked, Distance, Portion, RangeError, Space, choices};

choices! {
    /// The shape of a cavity.
    Shape: "a mould shape" {
        /// Half a sphere.
        Hemisphere "hemisphere",
        /// Part of a sphere.
        Segment "segment",
        /// A round cup.
        ConeFrustum "cone-frustum",
        /// A rectangular cup.
        PyramidFrustum "pyramid-frustum",
        /// A box.
        Box "box",
        /// Any other, by what it holds.
        Measured "measured",
    }
}

/// Density of water at 20 °C, kg/m³: what a cavity filled with water weighs gives what it holds.
const WATER_AT_20: f64 = 998.2;

pub(super) fn mould(table: &TableReader<'_>) -> Option<Mould> {
    let cavities = table.optional("cavities").whole(1..=1000);
    let Some(shape) = table.required("shape", "`shape = \"hemisphere\"` or another shape").choice() else {
        table.excuse_others();
        return None;
    };
    Some(Mould { cavity: cavity(shape, table)?, cavities })
}

fn cavity(shape: Shape, table: &TableReader<'_>) -> Option<Cavity> {
    let length = |key, example| table.required(key, example);
    let diameter = || length("diameter", "that of the opening, such as `diameter = \"30 mm\"`").measure();
    let depth = || length("depth", "what is between rim and deepest point, such as `depth = \"15 mm\"`").measure();
    let opening = || length("opening", "its width at the rim, such as `opening = \"30 mm\"`");
    let base = || length("base", "its width at the bottom, such as `base = \"24 mm\"`");
    match shape {
        Shape::Hemisphere => diameter().map(Cavity::hemisphere),
        Shape::Segment => {
            let (diameter, depth) = (diameter(), depth());
            table.accept(Cavity::segment(diameter?, depth?))
        }
        Shape::ConeFrustum => {
            let (opening, base, depth) = (opening().measure(), base().measure(), depth());
            table.accept(Cavity::cone_frustum(opening?, base?, depth?))
        }
        Shape::PyramidFrustum => {
            let (opening, base, depth) = (sides(opening()), sides(base()), depth());
            table.accept(Cavity::pyramid_frustum(opening?, base?, depth?))
        }
        Shape::Box => {
            let side = |key| length(key, "the length of that side, such as `\"30 mm\"`").measure();
            let (length, width, depth) = (side("length"), side("width"), depth());
            Some(Cavity::cuboid(length?, width?, depth?))
        }
        Shape::Measured => {
            let (volume, opening, depth) = (volume(table), opening().measure(), depth());
            table.accept(Cavity::measured(volume?, opening?, depth?))
        }
    }
}

/// Two sides, or one that stands for both.
fn sides(field: Field<'_>) -> Option<[Distance; 2]> {
    if !field.is_list() {
        return field.measure().map(|side| [side; 2]);
    }
    let read: Vec<Option<Distance>> = field.list("side").map(Field::measure).collect();
    let [length, width] = read.as_slice() else {
        field.fault(|| FaultKind::Form { expected: "one length, or a list of two", found: format!("a list of {}", read.len()) });
        return None;
    };
    Some([(*length)?, (*width)?])
}

/// What a cavity holds, measured or weighed.
fn volume(table: &TableReader<'_>) -> Option<Space> {
    let Some((key, field)) = table.one_of(["volume", "water_weight"]) else {
        table.fault(|| FaultKind::Missing {
            key: "volume",
            example: "what it holds, or `water_weight`, such as `water_weight = \"8.2 g\"`",
        });
        return None;
    };
    if key == "volume" {
        return field.measure();
    }
    let weight: Portion = field.measure()?;
    let volume: Result<Space, RangeError> = Space::from_base(weight.base() / WATER_AT_20);
    field.accept(volume)
}
