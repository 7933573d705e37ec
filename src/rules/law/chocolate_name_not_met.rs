use crate::assess::{Quantity, QuantitySet};
use crate::engine::{Domain, Limit, PartKind, Question, searched};
use crate::law::SalesName;
use crate::piece::KnobKind;

crate::rule! {
    /// What is called chocolate must hold as much cocoa, milk and fat as the law of the market says, reckoned on the chocolate itself: nuts and other
    /// edible matter are taken off first, cocoa and milk are counted dry. In the United States cocoa butter earns nothing towards a dark chocolate.
    ChocolateNameNotMet {
        id: "chocolate-name-not-met",
        title: "the chocolate does not meet the name it would be sold under",
        domain: Domain::Law,
        part: PartKind::Chocolate,
        also_reads: &[
            Quantity::NetCocoaButter,
            Quantity::NetFatFreeCocoa,
            Quantity::NetMilkSolids,
            Quantity::NetMilkFat,
            Quantity::NetFat,
            Quantity::NetVegetableFat,
            Quantity::NetSweeteners,
            Quantity::Liquor,
            Quantity::Whey,
            Quantity::Colours,
            Quantity::MilkOfWhole,
            Quantity::OtherEdible,
            Quantity::Hazelnut,
            Quantity::Nuts,
        ],
        drivers: &[searched(KnobKind::StirredInDose), searched(KnobKind::CocoaButter)],
    }
    limits {
        NAME = Limit::family("chocolate-name.composition", Quantity::NetCocoa);
    }
    |look, out| {
        let Some(kind) = look.at.chocolate else { return };
        for market in &look.sold.markets {
            let claimed = look.sold.name.filter(|name| !name.is_of_piece());
            let name = claimed.or(SalesName::usual(kind, *market));
            let mut held = false;
            for row in name.into_iter().flat_map(|name| look.rows(Question::Name(name), *market)) {
                held = true;
                look.compare_row(&NAME, row, out);
            }
            if !held {
                look.lack(QuantitySet::of(Quantity::RowOfLaw), out);
            }
        }
    }
}
