use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Oil and milk fat soften cocoa butter: the shell sets late, does not shrink from the mould and sticks to the fingers. Thin a chocolate
    /// with cocoa butter, never with oil, and mind what oily flavours and nut pastes bring.
    SoftFatInShell {
        id: "soft-fat-in-shell",
        title: "soft fat keeps the chocolate from setting firm",
        domain: Domain::Flow,
        part: PartKind::Chocolate,
        drivers: &[searched(KnobKind::StirredInDose), searched(KnobKind::CocoaButter)],
    }
    limits {
        OILY = Limit::at_most("shell-oil.felt", Quantity::OilOfChocolate, 2.0, Unit::Percent)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "chocolate thinned with oil set too soft to unmould");
        SOFT = Limit::at_most("shell-oil.max", Quantity::OilOfChocolate, 5.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "chocolate thinned with oil set too soft to unmould");
        MILKY = Limit::at_most("shell-milk-fat.max", Quantity::MilkFatOfFat, 25.0, Unit::Percent)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "a quarter of the fat; milk couvertures hold up to a fifth");
    }
}
