use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Cocoa butter thins a couverture, but above 15 % of its weight the shell drains to nothing, tastes of fat and blooms sooner. Keep
    /// thinned stock apart and temper it afresh.
    CouvertureOverthinned {
        id: "couverture-overthinned",
        title: "too much cocoa butter was added",
        domain: Domain::Flow,
        part: PartKind::Chocolate,
        drivers: &[raises(KnobKind::StirredInDose), raises(KnobKind::CocoaButter)],
    }
    limits {
        MUCH = Limit::at_most("thinning.usual", Quantity::CocoaButterAdded, 10.0, Unit::Percent)
            .advice()
            .from(Standing::Practice, &source::GREWELING_2007, "Thinning: 10 to 15 %");
        OVERTHINNED = Limit::at_most("thinning.max", Quantity::CocoaButterAdded, 15.0, Unit::Percent)
            .from(Standing::Practice, &source::GREWELING_2007, "Thinning: 10 to 15 %");
    }
}
