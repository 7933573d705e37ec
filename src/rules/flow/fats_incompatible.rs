use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Lauric fats, as in coatings of coconut or palm kernel, and cocoa butter do not crystallise together: the mixture stays soft and blooms
    /// within days. Keep coatings and chocolate apart, tools included.
    FatsIncompatible {
        id: "fats-incompatible",
        title: "lauric fat and cocoa butter do not set together",
        domain: Domain::Flow,
        part: PartKind::Chocolate,
        drivers: &[raises(KnobKind::StirredInDose)],
    }
    limits {
        LAURIC = Limit::at_most("lauric.max", Quantity::LauricOfFat, 5.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "more than 5 % of the fat phase");
    }
}
