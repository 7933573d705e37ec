use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A chocolate low in fat drains thick and traps air in the corners of the mould. Couverture for thin shells holds at least 35 % fat;
    /// below 30 % a sound wall cannot be cast by draining.
    CouvertureTooLeanToMould {
        id: "couverture-too-lean-to-mould",
        title: "the chocolate holds too little fat to cast a thin shell",
        domain: Domain::Flow,
        part: PartKind::Shell,
        drivers: &[raises(KnobKind::CocoaButter)],
    }
    limits {
        LEAN = Limit::at_least("shell-fat.moulds", Quantity::ChocolateFat, 35.0, Unit::Percent)
            .from(Standing::Practice, &source::BEAN_TO_BAR_COLUMN, "at least 35 % for a thin moulded shell");
        TOO_LEAN = Limit::at_least("shell-fat.min", Quantity::ChocolateFat, 30.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "below 30 % chocolate is for baking, not for moulding");
    }
}
