use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// The piece is promised to be free from an allergen that one of its ingredients or shared equipment brings. Allergens hide in compound
    /// ingredients and in the lecithin, whose plant must be known before anything is promised.
    PromiseBroken {
        id: "promise-broken",
        title: "the piece may hold an allergen it is promised to be free from",
        domain: Domain::Allergen,
        part: PartKind::Whole,
    }
    limits {
        BROKEN = Limit::at_most("promise.broken", Quantity::BrokenPromises, 0.0, Unit::One)
            .breach()
            .from(Standing::Statute, &source::ALLERGEN_LISTS, "a claim must be true");
    }
}
