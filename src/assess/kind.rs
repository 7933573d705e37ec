//! The kind of a filling, recognised from what it is made of.

use crate::matter::{Composition, Constituent, Role};
use crate::piece::{FillingKind, Layer};

/// The kind as declared, else as recognised; none where the composition fits no kind.
pub(super) fn of(layer: &Layer, composition: Option<&Composition>) -> Option<FillingKind> {
    layer.kind.or_else(|| recognised(layer, composition?))
}

fn recognised(layer: &Layer, composition: &Composition) -> Option<FillingKind> {
    let of = |constituent| composition.of(constituent);
    let (water, fat, sugars) = (of(Constituent::Water), composition.fat(), composition.sweeteners());
    if of(Constituent::Gelatine) >= 0.01 && layer.aerated_density.is_some() {
        Some(FillingKind::Marshmallow)
    } else if of(Constituent::CocoaButter) >= 0.05 && water >= 0.08 {
        Some(FillingKind::Ganache)
    } else if of(Constituent::Ethanol) >= 0.05 && fat < 0.05 {
        Some(FillingKind::Spirit)
    } else if of(Constituent::LiquidOil) >= 0.05 && fat >= 0.25 && water < 0.05 {
        Some(FillingKind::NutPaste)
    } else if of(Constituent::Pectin) >= 0.003 && sugars >= 0.4 && fat < 0.05 {
        Some(if water < 0.28 { FillingKind::FruitGel } else { FillingKind::Jam })
    } else if of(Constituent::MilkProtein) > 0.0 && (0.02..0.35).contains(&fat) && water < 0.25 && sugars >= 0.35 {
        Some(FillingKind::Caramel)
    } else {
        None
    }
}

/// Whether nothing in it could hold a shape: a solution, with no gum, no fat to speak of and no solids.
pub(super) fn is_solution(composition: &Composition) -> bool {
    let solids = composition.fat() + composition.of_role(Role::SorbingSolid) + composition.of_role(Role::Inert);
    composition.of(Constituent::Water) > 0.0 && composition.of_role(Role::Gum) <= 0.0 && solids < 0.02
}
