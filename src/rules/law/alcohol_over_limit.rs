use crate::assess::{Quantity, QuantitySet};
use crate::engine::{Domain, Limit, PartKind, Question, searched};
use crate::law::{Effect, Row};
use crate::matter::Market;
use crate::piece::KnobKind;

crate::rule! {
    /// Laws on alcohol in sweets do four different things, and each is told apart: some forbid the sale, some make the sweet count as alcohol, some set the age of
    /// the buyer, and some only end a relief from duty. It is reckoned as if none of the spirit evaporated. In the United States the State decides.
    AlcoholOverLimit {
        id: "alcohol-over-limit",
        title: "more alcohol than a law of the market knows for sweets",
        domain: Domain::Law,
        part: PartKind::Whole,
        also_reads: &[
            Quantity::EthanolByVolume,
            Quantity::PureAlcohol,
            Quantity::SpiritPerMass,
            Quantity::StrongestSpirit,
            Quantity::PieceMass,
        ],
        shows: &[Quantity::EthanolMass, Quantity::EthanolByMass, Quantity::EthanolByVolume, Quantity::PureAlcohol],
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::LayerAmount), searched(KnobKind::FillDepth)],
    }
    limits {
        RESTRICTION = Limit::family("alcohol.restriction", Quantity::EthanolByMass);
        FEDERAL = Limit::family("alcohol.unless-the-state-permits", Quantity::EthanolByMass).warning();
        LICENCE = Limit::family("alcohol.licence", Quantity::EthanolByMass).warning();
        AGE = Limit::family("alcohol.age", Quantity::EthanolByMass).advice();
        DUTY = Limit::family("alcohol.duty", Quantity::EthanolByMass).advice();
    }
    |look, out| {
        let ethanol = look.get(Quantity::EthanolByMass);
        if ethanol.known().is_none() {
            return look.lack(ethanol.missing(), out);
        }
        let state = look.sold.regions.iter().any(|region| region.market() == Market::Us);
        for market in &look.sold.markets {
            let mut held = false;
            // Relief from duty differs between chocolates and other foods; where no shell tells, both are told.
            let of_category = |row: &Row| row.categories.is_empty() || look.at.category.is_none_or(|here| row.categories.contains(&here));
            for held_to in look.rows(Question::Alcohol, *market).filter(|held_to| of_category(held_to.row)) {
                let row = held_to.row;
                let federal = *market == Market::Us && row.region.is_none();
                let family = match row.effect {
                    Effect::Restriction if federal && state => continue,
                    Effect::Restriction if federal => &FEDERAL,
                    Effect::Restriction => &RESTRICTION,
                    Effect::Licence => &LICENCE,
                    Effect::Age => &AGE,
                    Effect::Duty => &DUTY,
                    Effect::Name | Effect::Statement => continue,
                };
                held = true;
                look.compare_row(family, held_to, out);
                let within = row.bound().zip(look.get(Quantity::EthanolByVolume).value()).is_some_and(|(most, value)| value <= most);
                if federal && !within {
                    look.lack(QuantitySet::of(Quantity::StateLaw), out);
                }
            }
            if !held {
                look.lack(QuantitySet::of(Quantity::RowOfLaw), out);
            }
        }
    }
}
