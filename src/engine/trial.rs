//! A rule for the tests of the engine.

use super::{Domain, Limit, PartKind};
use crate::assess::Quantity;
use crate::units::Unit;

crate::rule! {
    /// Too much water. A rule of the tests.
    TooWet { id: "too-wet", title: "too wet", domain: Domain::Filling, part: PartKind::Layer }
    limits { WET = Limit::at_most("wet.max", Quantity::Water, 20.0, Unit::Percent).breach(); }
}

/// Its limit.
pub(super) fn wet() -> &'static Limit {
    &WET
}
