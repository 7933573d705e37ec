use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::Crystals;
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// More sucrose in solution than stays there crystallises sooner or later: the filling turns sandy, and the water it lets go wets the
    /// shell. Replace part of the sugar by glucose syrup or invert sugar, or leave more water.
    SucroseWouldGrain {
        id: "sucrose-would-grain",
        title: "the sucrose would crystallise",
        domain: Domain::Filling,
        part: PartKind::Layer,
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::CookedMass)],
    }
    limits {
        SATURATED = Limit::at_most("sucrose.saturation", Quantity::SucroseSupersaturation, 1.0, Unit::One)
            .from(Standing::Measured, &source::SUCROSE_SOLUBILITY, "saturation at storage temperature");
    }
    |look, out| {
        // Caramels, marshmallows and fondants are meant to be more than saturated; of a fruit paste acid inverts an unknown part.
        let solution = matches!(look.at.kind, None | Some(FillingKind::Ganache | FillingKind::Spirit | FillingKind::Liqueur | FillingKind::Jam));
        if solution && matches!(look.at.crystals, None | Some(Crystals::Dissolved)) {
            look.compare(&SATURATED, out);
        }
    }
}
