use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, lowers, raises, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// What the mould keeps when it is turned over depends on the chocolate and the time: hot or untempered chocolate drains to a thin wall,
    /// tempered chocolate leaves a sound one. Drain for less time, cast twice, or work the chocolate cooler.
    ShellDrainsThin {
        id: "shell-drains-thin",
        title: "the shell would drain thinner than wanted",
        domain: Domain::Casting,
        part: PartKind::Shell,
        shows: &[Quantity::PredictedWall, Quantity::WallThickness],
        drivers: &[lowers(KnobKind::DrainTime), raises(KnobKind::Casts), searched(KnobKind::Temper)],
    }
    limits {
        THINNER = Limit::at_least("wall.drained", Quantity::WallDrained, 1.0, Unit::One)
            .from(Standing::Conjecture, &source::PROJECT, "draining film by Casson's law, half-way down the cavity");
    }
}
