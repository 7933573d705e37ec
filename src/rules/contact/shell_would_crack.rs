use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A shell takes up water from a wet filling: its sugar swells and cracks the wall, round shapes before square ones. Below 0.67 hardly any
    /// shell cracks, above 0.90 most do; a film of cocoa butter and a thicker wall help.
    ShellWouldCrack {
        id: "shell-would-crack",
        title: "the water of the filling would crack the shell",
        domain: Domain::Contact,
        part: PartKind::Layer,
        also_reads: &[Quantity::RoundWalls],
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener), searched(KnobKind::CookedMass)],
    }
    limits {
        ROUND = Limit::at_most("crack.round", Quantity::WaterActivity, 0.60, Unit::One)
            .advice()
            .from(Standing::Practice, &source::DRY_FILLINGS, "0.60 is held to be safe; at 0.67 a few round shells cracked, and square ones none");
        SWELLS = Limit::at_most("crack.swells", Quantity::WaterActivity, 0.67, Unit::One)
            .from(Standing::Measured, &source::SLETTENGREN_2010, "at 0.67 few shells cracked, of the square ones none");
        CRACKS = Limit::at_most("crack.max", Quantity::WaterActivity, 0.90, Unit::One)
            .breach()
            .from(Standing::Measured, &source::SLETTENGREN_2010, "high risk from 0.90");
    }
    |look, out| {
        if look.assessment.shell.chocolate.is_some() {
            // A shape that is not told may be round.
            if look.assessment.whole.get(Quantity::RoundWalls).value().is_none_or(|round| round > 0.5) {
                look.compare(&ROUND, out);
            }
            look.compare(&SWELLS, out);
            look.compare(&CRACKS, out);
        }
    }
}
