use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Scale, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A dose of a few divisions of the scale is a guess: rounding alone is a large part of it. Fluid lecithin sticks besides: weigh about
    /// twice the dose into a warm cup and pour by difference, or make a stock in cocoa butter and dose that.
    EmulsifierDoseUnweighable {
        id: "emulsifier-dose-unweighable",
        title: "the emulsifier dose is too small for the scale",
        domain: Domain::Flow,
        part: PartKind::Shell,
        scale: Scale::Batch,
        drivers: &[raises(KnobKind::EmulsifierDose)],
    }
    limits {
        ROUGH = Limit::at_least("dose.weighable", Quantity::DoseInDivisions, 50.0, Unit::One)
            .from(Standing::Measured, &source::ARITHMETIC, "half a division of rounding is then 1 % of the dose");
        GUESS = Limit::at_least("dose.min", Quantity::DoseInDivisions, 10.0, Unit::One)
            .breach()
            .from(Standing::Measured, &source::ARITHMETIC, "half a division of rounding is then 5 % of the dose");
    }
}
