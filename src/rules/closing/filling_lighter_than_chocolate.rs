use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A filling that pours and is lighter than liquid chocolate lets the cap sink. A syrup passes the density of chocolate near 50 Brix;
    /// a film of melted cocoa butter, lighter than most spirits, floats where chocolate would sink.
    FillingLighterThanChocolate {
        id: "filling-lighter-than-chocolate",
        title: "a filling that pours is lighter than the chocolate that closes it",
        domain: Domain::Closing,
        part: PartKind::TopLayer,
        also_reads: &[Quantity::YieldValue],
        shows: &[Quantity::Density],
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener)],
    }
    limits {
        LIGHTER = Limit::at_least("density-ratio.floats", Quantity::DensityRatio, 1.0, Unit::One)
            .advice()
            .from(Standing::Conjecture, &source::ARITHMETIC, "the lighter liquid rises");
    }
    |look, out| {
        match look.at.may_pour() {
            Ok(true) => look.compare(&LIGHTER, out),
            Ok(false) => {}
            Err(missing) => look.lack(missing, out),
        }
    }
}
