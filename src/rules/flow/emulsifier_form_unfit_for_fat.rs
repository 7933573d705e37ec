use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// De-oiled lecithin powder and water-phase emulsifiers disperse badly in melted chocolate and leave specks instead of thinning it.
    /// The forms differ in active matter and carrier, so one never replaces the other gram for gram: weigh the fluid form afresh.
    EmulsifierFormUnfitForFat {
        id: "emulsifier-form-unfit-for-fat",
        title: "an emulsifier in a form that does not disperse in fat",
        domain: Domain::Flow,
        part: PartKind::Chocolate,
        drivers: &[searched(KnobKind::EmulsifierForm), raises(KnobKind::EmulsifierDose)],
    }
    limits {
        UNFIT = Limit::at_most("emulsifier.unfit-form", Quantity::UnfitEmulsifier, 0.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::LECITHIN_RETAILER, "fluid for fat, de-oiled powder for the water phase");
    }
}
