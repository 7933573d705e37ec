use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A filling that has not set sinks under the cap and traps moist air. Let a ganache, a caramel or a fondant rest twelve hours, a syrup
    /// overnight until its crust has formed.
    CapPouredTooSoon {
        id: "cap-poured-too-soon",
        title: "the filling has not set when it is capped",
        domain: Domain::Closing,
        part: PartKind::Whole,
        drivers: &[searched(KnobKind::Process)],
    }
    limits {
        RESTED = Limit::at_least("rest.min", Quantity::RestBeforeCap, 12.0, Unit::Hour)
            .from(Standing::Practice, &source::NOTTER_2011, "fully crystallised before capping; the hours are common practice");
    }
    |look, out| {
        let top = look.assessment.layers.last().and_then(|top| top.kind);
        if matches!(top, Some(FillingKind::Ganache | FillingKind::Caramel | FillingKind::Fondant | FillingKind::Liqueur)) {
            look.compare(&RESTED, out);
        }
    }
}
