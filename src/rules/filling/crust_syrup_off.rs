use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, searched};
use crate::matter::Crystals;
use crate::piece::{FillingKind, KnobKind};
use crate::source;
use crate::units::Unit;

crate::rule! {
    /// A sugar crust grows from syrup that holds more sucrose than stays dissolved beside its spirit. Too little and no crust closes before
    /// the liqueur is dipped, too much and the whole centre sets. A syrup for plain spirit is boiled to 119 °C, one for a sweet liqueur to 117 °C.
    CrustSyrupOff {
        id: "crust-syrup-off",
        title: "the syrup is too weak or too strong for a sugar crust",
        domain: Domain::Filling,
        part: PartKind::Layer,
        kinds: &[FillingKind::Liqueur, FillingKind::Spirit],
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::CookedMass)],
        shows: &[Quantity::Ethanol, Quantity::SpiritStrength],
    }
    limits {
        WEAK = Limit::at_least("crust-syrup.min", Quantity::SucroseSupersaturation, 1.15, Unit::One)
            .from(Standing::Conjecture, &source::GREWELING_2007, "57 % sugar, 20 % water, 23 % spirit, 119 °C: 1.37 here; less sets no crust");
        STRONG = Limit::at_most("crust-syrup.max", Quantity::SucroseSupersaturation, 1.7, Unit::One)
            .from(Standing::Conjecture, &source::GREWELING_2007, "57 % sugar, 20 % water, 23 % spirit, 119 °C: 1.37 here; more sets all of it");
    }
    |look, out| {
        if look.at.crystals == Some(Crystals::Crust) {
            look.compare_all(out);
        }
    }
}
