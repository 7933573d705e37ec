use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::ChocolateKind;
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A spirit thins a ganache like so much cream. Add one to three grams of chocolate for each gram, or leave out as much cream, so that
    /// chocolate over cream and spirit together stays in proportion.
    SpiritSlackensGanache {
        id: "spirit-slackens-ganache",
        title: "the spirit is not made up for by chocolate",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Ganache],
        drivers: &[searched(KnobKind::IngredientMass)],
    }
    limits {
        DARK = Limit::at_least("spirit-ganache.dark", Quantity::ChocolateToLiquid, 1.0, Unit::One)
            .from(Standing::Practice, &source::GREWELING_2007, "1 to 3 g of chocolate per gram of spirit, or as much cream left out");
        MILK = Limit::at_least("spirit-ganache.milk", Quantity::ChocolateToLiquid, 1.5, Unit::One)
            .from(Standing::Practice, &source::GREWELING_2007, "1 to 3 g of chocolate per gram of spirit, or as much cream left out");
        WHITE = Limit::at_least("spirit-ganache.white", Quantity::ChocolateToLiquid, 2.5, Unit::One)
            .from(Standing::Practice, &source::GREWELING_2007, "1 to 3 g of chocolate per gram of spirit, or as much cream left out");
    }
    |look, out| {
        match look.at.chocolate {
            Some(ChocolateKind::Dark) => look.compare(&DARK, out),
            Some(ChocolateKind::Milk) => look.compare(&MILK, out),
            Some(ChocolateKind::White) => look.compare(&WHITE, out),
            Some(ChocolateKind::Ruby) => {}
            None => look.lack(look.get(Quantity::ChocolateToLiquid).missing(), out),
        }
    }
}
