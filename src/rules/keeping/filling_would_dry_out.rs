use crate::assess::{Assessed, Quantity};
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

/// How long a filling may lie open, in seconds.
const DAY: f64 = 86_400.0;

crate::rule! {
    /// A filling left open in dry air loses water at its surface: it skins over, shrinks from the shell and cracks. Cover it or cap it within a
    /// day when its activity is more than 15 points above the humidity of the room.
    FillingWouldDryOut {
        id: "filling-would-dry-out",
        title: "the filling would dry out before it is capped",
        domain: Domain::Keeping,
        part: PartKind::Layer,
        also_reads: &[Quantity::RestBeforeCap],
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        SKINS = Limit::at_most("drying.gap", Quantity::DryingGap, 15.0, Unit::PercentHumidity)
            .from(Standing::Practice, &source::VOCATIONAL_NOTES, "more than 15 points above the room for more than 24 h");
    }
    |look, out| {
        let rest = look.assessment.whole.get(Quantity::RestBeforeCap);
        match rest.value() {
            Some(rest) if rest > DAY => look.compare(&SKINS, out),
            None if look.get(Quantity::DryingGap) != Assessed::Absent => look.lack(rest.missing(), out),
            _ => {}
        }
    }
}
