use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// Lecithin thins a chocolate up to about half a per cent of its weight; beyond that the yield value climbs again and the shell
    /// drains worse. What counts is the total: a couverture usually holds 0.3 to 0.5 % before anything is added.
    EmulsifierDoseOutsideWindow {
        id: "emulsifier-dose-outside-window",
        title: "the emulsifier is outside its useful dose",
        domain: Domain::Flow,
        part: PartKind::Chocolate,
        drivers: &[raises(KnobKind::EmulsifierDose)],
    }
    limits {
        UNDERDOSED = Limit::at_least("lecithin.useful", Quantity::Lecithin, 0.2, Unit::Percent)
            .advice()
            .from(Standing::Practice, &source::MCGEE_2004, "usual dose 0.3 to 0.5 %");
        PAST_OPTIMUM = Limit::at_most("lecithin.optimum", Quantity::Lecithin, 0.5, Unit::Percent)
            .from(Standing::Measured, &source::CHOCOLATE_SCHOOL, "dose above which thinning stops");
        EXCESSIVE = Limit::at_most("lecithin.max", Quantity::Lecithin, 1.0, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::PROJECT, "twice the dose at which thinning stops; some laws cap the emulsifiers' sum there");
        PGPR = Limit::at_most("pgpr.max", Quantity::Pgpr, 0.5, Unit::Percent)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "also the ceiling of EU and Codex, as recalled");
    }
}
