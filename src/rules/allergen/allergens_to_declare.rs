use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// These allergens come in with the ingredients and must stand on the label of the markets named. The list is only as complete as the
    /// ingredients' own: check every maker's label, and read the law of a market whose rows are only recalled here.
    AllergensToDeclare {
        id: "allergens-to-declare",
        title: "allergens must be declared",
        domain: Domain::Allergen,
        part: PartKind::Whole,
        also_reads: &[Quantity::AllergenLists, Quantity::Ingredients],
    }
    limits {
        DECLARE = Limit::at_most("allergens.declare", Quantity::AllergensToDeclare, 0.0, Unit::One)
            .advice()
            .from(Standing::Statute, &source::ALLERGEN_LISTS, "substances that must be declared");
        RECALLED = Limit::at_most("allergens.recalled", Quantity::RecalledAllergenLists, 0.0, Unit::One)
            .from(Standing::Statute, &source::ALLERGEN_LISTS, "rows that were not read in their source");
    }
    |look, out| {
        look.compare(&DECLARE, out);
        look.compare(&RECALLED, out);
        look.lack(look.get(Quantity::AllergenLists).missing().union(look.get(Quantity::Ingredients).missing()), out);
    }
}
