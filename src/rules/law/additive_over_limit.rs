use crate::assess::{Assessed, Part, Quantity, QuantitySet};
use crate::engine::{Domain, Limit, PartKind, Question, searched};
use crate::law::{Additive, AdditiveSet, Category};
use crate::piece::KnobKind;

crate::rule! {
    /// The law of each market sets how much of an additive a chocolate or a filling may hold, and sums of several, each with its exact members. What is useful is
    /// another matter: the window of doses stands with the rule on emulsifiers. A coating with more than 5 % of other fats is no chocolate and has limits of its own. An additive that no row names stays open.
    AdditiveOverLimit {
        id: "additive-over-limit",
        title: "more of an additive than the law allows",
        domain: Domain::Law,
        part: PartKind::Every,
        drivers: &[searched(KnobKind::EmulsifierDose), searched(KnobKind::IngredientMass), searched(KnobKind::StirredInDose)],
    }
    limits {
        ADDITIVES = Limit::family("additives.limit", Quantity::Additives);
    }
    |look, out| {
        let category = if matches!(look.part, Part::Layer(_)) { Category::Filling } else { look.at.category.unwrap_or(Category::Chocolate) };
        let all = look.get(Quantity::Additives);
        if all == Assessed::Absent {
            return;
        }
        look.lack(all.missing(), out);
        let present = look.at.additives.present();
        let perhaps = if look.at.lecithin_undeclared { present.with(Additive::E322) } else { present };
        for market in &look.sold.markets {
            let mut named = AdditiveSet::default();
            for held_to in look.rows(Question::Additives(perhaps, category), *market) {
                let row = held_to.row;
                if row.kinds.is_empty() || look.at.chocolate.is_some_and(|kind| row.kinds.contains(&kind)) {
                    named = named.union(row.additives);
                    look.hold(&ADDITIVES, held_to, look.additives(row), out);
                }
            }
            if !present.without(named).is_empty() {
                look.lack(QuantitySet::of(Quantity::RowOfLaw), out);
            }
        }
    }
}
