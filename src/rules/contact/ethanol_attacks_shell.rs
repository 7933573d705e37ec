use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::Crystals;
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Spirit softens a chocolate shell and brings bloom, the more so the stronger it is. Up to 5 % of the filling does little, above 15 %
    /// only a crust of sugar between spirit and shell keeps the piece whole.
    EthanolAttacksShell {
        id: "ethanol-attacks-shell",
        title: "the spirit would attack the shell",
        domain: Domain::Contact,
        part: PartKind::Layer,
        shows: &[Quantity::SpiritStrength],
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener)],
    }
    limits {
        FELT = Limit::at_most("ethanol.felt", Quantity::Ethanol, 5.0, Unit::Percent)
            .advice()
            .from(Standing::Practice, &source::BOEHME_2012, "softening rises with ethanol from 0 to 15 %");
        HARMS = Limit::at_most("ethanol.harms", Quantity::Ethanol, 10.0, Unit::Percent)
            .from(Standing::Practice, &source::BOEHME_2012, "softening and bloom rise with ethanol");
        DISSOLVES = Limit::at_most("ethanol.max", Quantity::Ethanol, 15.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::BOEHME_2012, "the strongest filling studied; beyond it only with a crust");
    }
    |look, out| {
        if look.assessment.shell.chocolate.is_none() {
            return;
        }
        look.compare(&FELT, out);
        look.compare(&HARMS, out);
        if look.at.crystals != Some(Crystals::Crust) {
            look.compare(&DISSOLVES, out);
        }
    }
}
