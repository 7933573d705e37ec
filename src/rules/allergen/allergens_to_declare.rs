use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// These allergens come in with the ingredients and must stand on the label of the markets named. The list is only as complete as the
    /// ingredients' own: check every maker's label.
    AllergensToDeclare {
        id: "allergens-to-declare",
        title: "allergens must be declared",
        domain: Domain::Allergen,
        part: PartKind::Whole,
        also_reads: &[Quantity::AllergenLists],
    }
    limits {
        DECLARE = Limit::at_most("allergens.declare", Quantity::AllergensToDeclare, 0.0, Unit::One)
            .advice()
            .from(Standing::Statute, &source::ALLERGEN_LISTS, "substances that must be declared");
    }    |look, out| {
        look.compare(&DECLARE, out);
        look.lack(look.get(Quantity::AllergenLists).missing(), out);
    }
}
