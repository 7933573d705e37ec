use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// The cap is scraped flush with the rim, so the depth left free is all the cap there will be. Too little and the scraper drags
    /// filling into the seam; too much and the piece closes with a heavy slab. Leave 1.5 to 2.5 mm, and at least 2 mm over what pours.
    HeadroomOutsideWindow {
        id: "headroom-outside-window",
        title: "the room left for the cap is not right",
        domain: Domain::Closing,
        part: PartKind::Whole,
        also_reads: &[Quantity::YieldValue],
        drivers: &[raises(KnobKind::FillDepth), searched(KnobKind::LayerAmount), searched(KnobKind::WallThickness)],
    }
    limits {
        NONE = Limit::at_least("headroom.min", Quantity::Headroom, 1.0, Unit::Millimeter)
            .breach()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "below 1 mm no cap closes");
        SCANT = Limit::at_least("headroom.scant", Quantity::Headroom, 1.5, Unit::Millimeter)
            .from(Standing::Practice, &source::MOULDING_COURSE, "leave 1.5 mm");
        SCANT_LIQUID = Limit::at_least("headroom.scant-liquid", Quantity::Headroom, 2.0, Unit::Millimeter)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "2 to 3 mm over liquids");
        AMPLE = Limit::at_most("headroom.ample", Quantity::Headroom, 2.5, Unit::Millimeter)
            .advice()
            .from(Standing::Practice, &source::COMMON_PRACTICE, "up to 2.5 mm");
        HEAVY = Limit::at_most("headroom.max", Quantity::Headroom, 3.5, Unit::Millimeter)
            .from(Standing::Practice, &source::COMMON_PRACTICE, "above 3.5 mm the base is heavy");
    }
    |look, out| {
        look.compare(&NONE, out);
        // Where it is not known whether the filling pours, the liquid's room is asked for: it suits both.
        let stands = look.assessment.layers.last().is_some_and(|top| top.may_pour() == Ok(false));
        look.compare(if stands { &SCANT } else { &SCANT_LIQUID }, out);
        look.compare(&AMPLE, out);
        look.compare(&HEAVY, out);
    }
}
