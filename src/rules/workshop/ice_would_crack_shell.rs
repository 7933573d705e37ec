use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Water grows by a tenth as it turns to ice, while a shell shrinks in the cold and gives nothing: a filling that freezes cracks it. Most
    /// ganaches and all good caramels hold their water too firmly to freeze; wet fillings do not. Whatever is frozen goes airtight through a
    /// day in the refrigerator both ways, and is opened only when it is as warm as the room.
    IceWouldCrackShell {
        id: "ice-would-crack-shell",
        title: "the frozen filling would crack its shell",
        domain: Domain::Workshop,
        part: PartKind::Layer,
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener), searched(KnobKind::CookedMass)],
    }
    limits {
        SWELLS = Limit::at_most("ice.swells", Quantity::Ice, 5.0, Unit::Percent)
            .from(Standing::Conjecture, &source::PROJECT, "5 % of ice swells a filling by half a per cent, about what the cold takes from it");
    }
}
