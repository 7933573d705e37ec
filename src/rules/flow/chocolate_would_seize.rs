use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A little water wets the sugar grains and sticks them together: the chocolate turns to a stiff paste that no mould will take.
    /// Water comes in with watery flavours, honey, syrups, wet tools and steam; use oil-soluble flavours and dry powders instead.
    ChocolateWouldSeize {
        id: "chocolate-would-seize",
        title: "water stirred into the chocolate would make it seize",
        domain: Domain::Flow,
        part: PartKind::Chocolate,
        drivers: &[raises(KnobKind::StirredInDose)],
    }
    limits {
        THICKENS = Limit::at_most("added-water.thickens", Quantity::AddedWater, 0.3, Unit::Percent)
            .from(Standing::Practice, &source::VOCATIONAL_NOTES, "couverture holds at most 0.6 % (dark) or 1.0 % (milk) in all");
        SEIZES = Limit::at_most("added-water.seizes", Quantity::AddedWater, 0.8, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::VOCATIONAL_NOTES, "set on the safe side; other accounts say 2 to 4 %");
    }
}
