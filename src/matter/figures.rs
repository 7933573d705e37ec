//! What a nutrition declaration tells of an ingredient beyond its constituents, and which of its sugars were added.

use super::{Allergen, AllergenSet, Composition, Constituent, Ingredient, Known, Role};
use crate::units::{Band, Checked, MassFraction, choices};

/// Figures of an ingredient's weight that do not follow from its constituents; none where nobody states them.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LabelFigures {
    /// Saturated fatty acids, where they do not follow from the kinds of fat.
    pub saturates: Option<MassFraction>,
    /// Trans fatty acids.
    pub trans_fat: Option<MassFraction>,
    /// Cholesterol.
    pub cholesterol: Option<MassFraction>,
    /// Sodium, that of salt included.
    pub sodium: Option<MassFraction>,
    /// Added sugars, where not all or none of its sugars are.
    pub added_sugars: Option<MassFraction>,
    /// Vitamin D.
    pub vitamin_d: Option<MassFraction>,
    /// Calcium.
    pub calcium: Option<MassFraction>,
    /// Iron.
    pub iron: Option<MassFraction>,
    /// Potassium.
    pub potassium: Option<MassFraction>,
}

choices! {
    /// Where the sugars of an ingredient come from.
    SugarOrigin: "an origin of sugars" {
        /// Refined sugars, syrups, honey, concentrated juices: sugars that count as added.
        Added "added",
        /// Milk, whole fruit, nuts, juice that was not concentrated: sugars it holds by nature.
        Own "own",
    }
}

/// Of the dry matter, what must be sugars for an ingredient to be a sugar or a syrup.
const SWEETENER: f64 = 0.95;
const NOTHING: f64 = 1e-9;

impl Ingredient {
    /// Added sugars as the US counts them, of its weight: as stated, or as its kind tells. All sugars of a sugar or a syrup are added, none of milk
    /// and cream, and of a chocolate all but the lactose. None where it does not tell: fruit with sugar, nuts with sugar, a bakery ware.
    #[must_use]
    pub fn added_sugars(&self) -> Option<Band<f64>> {
        if let Some(stated) = self.figures.added_sugars {
            return Some(Band::exact(stated.base()));
        }
        let of = |constituent| self.composition.of(constituent);
        let sugars = self.composition.of_role(Role::Sugar);
        let (lactose, unsplit) = (of(Constituent::Lactose), of(Constituent::UnsplitMilkSugars));
        match self.sugars {
            Some(SugarOrigin::Added) => Some(Band::exact(sugars)),
            Some(SugarOrigin::Own) => Some(Band::exact(0.0)),
            None if self.chocolate.is_some() => {
                let (low, high) = (sugars - lactose - unsplit, sugars - lactose);
                Some(Band { value: f64::midpoint(low, high), low, high })
            }
            None if sugars <= NOTHING => Some(Band::exact(0.0)),
            None if self.compound => None,
            None if self.is_sugar() => Some(Band::exact(sugars)),
            None => (sugars - lactose - unsplit <= NOTHING).then_some(Band::exact(0.0)),
        }
    }

    /// Whether it is a sugar, a syrup, honey or a concentrated juice: something that is put in to sweeten.
    #[must_use]
    pub fn is_sweetening(&self) -> bool {
        let simple = !self.compound && self.chocolate.is_none() && self.composition.of(Constituent::Ethanol) <= NOTHING;
        let mostly = || self.composition.of_role(Role::Sugar) >= 0.5 * self.composition.dry_matter();
        simple && (self.is_sugar() || (self.sugars == Some(SugarOrigin::Added) && mostly()))
    }

    /// Whether nearly all that is not water in it is sugars, longer saccharides with them.
    fn is_sugar(&self) -> bool {
        let sweet = self.composition.of_role(Role::Sugar) + self.composition.of_role(Role::Saccharide);
        !self.fibrous && sweet > NOTHING && sweet >= SWEETENER * self.composition.dry_matter()
    }

    /// Polyols that count as added, of its weight: those of a polyol, not what fruit holds by nature.
    #[must_use]
    pub fn added_polyols(&self) -> f64 {
        let polyols = self.composition.of_role(Role::Polyol);
        if polyols >= POLYOL { polyols } else { 0.0 }
    }

    /// Cholesterol, of its weight: as stated, or none where nothing of it comes from an animal.
    #[must_use]
    pub fn cholesterol(&self) -> Option<f64> {
        let stated = self.figures.cholesterol.map(Checked::base);
        stated.or_else(|| self.is_of_plants().then_some(0.0))
    }

    /// Whether it brings no cholesterol: neither milk, egg, fish nor gelatine. In a chocolate no other fat of animals is allowed, and the larder has
    /// none; of what a document describes only what can come from no animal is known to be free of it.
    fn is_of_plants(&self) -> bool {
        const OF_ANIMALS: AllergenSet =
            AllergenSet::of(&[Allergen::Milk, Allergen::Egg, Allergen::Fish, Allergen::Crustaceans, Allergen::Molluscs]);
        let of_animals = !self.allergens.intersection(OF_ANIMALS).is_empty() || self.composition.of(Constituent::Gelatine) > 0.0;
        !of_animals && (self.chocolate.is_some() || self.known != Known::Declared || cannot_be_of_animals(&self.composition))
    }

    /// The oil that the emulsifiers of a chocolate's sheet are dissolved in, of the chocolate's weight.
    #[must_use]
    pub(crate) fn carrier_oil(&self) -> f64 {
        let emulsifiers = self.chocolate.iter().flat_map(|sheet| &sheet.emulsifiers);
        let carriers = emulsifiers.flat_map(super::Emulsifier::constituents);
        carriers.filter(|(constituent, _)| *constituent == Constituent::LiquidOil).map(|(_, share)| share).sum()
    }

    /// Trans fatty acids, of its weight: as stated, or none where it holds no fat but cocoa butter and the oil of a lecithin.
    #[must_use]
    pub fn trans_fat(&self) -> Option<f64> {
        let fat = self.composition.fat() - self.composition.of(Constituent::CocoaButter) - self.carrier_oil();
        self.figures.trans_fat.map(Checked::base).or_else(|| (fat <= NOTHING).then_some(0.0))
    }
}

/// Share that makes an ingredient a polyol.
const POLYOL: f64 = 0.3;

/// Whether every constituent is one that no animal brings. Egg is booked as oil and protein, so those tell nothing.
fn cannot_be_of_animals(composition: &Composition) -> bool {
    composition.parts().all(|(constituent, _)| match constituent.role() {
        Role::Water | Role::Ethanol | Role::Saccharide | Role::Polyol => true,
        Role::Sugar => !matches!(constituent, Constituent::Lactose | Constituent::Galactose | Constituent::UnsplitMilkSugars),
        Role::Fat => matches!(constituent, Constituent::CocoaButter | Constituent::LauricFat),
        Role::Emulsifier => constituent == Constituent::Pgpr,
        Role::Gum => constituent != Constituent::Gelatine,
        Role::Electrolyte => matches!(constituent, Constituent::Acid | Constituent::Salt | Constituent::Minerals),
        Role::SorbingSolid => matches!(constituent, Constituent::FatFreeCocoa | Constituent::Starch | Constituent::Fibre),
        Role::Inert => false,
    })
}

#[cfg(all(test, feature = "documents"))]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::Larder;

    #[test]
    fn sugars_are_told_by_what_holds_them() {
        let added = |name: &str| Larder::built_in().get(name).unwrap().added_sugars().map(|band| (band.low, band.high));
        let sugars = |name: &str| Larder::built_in().get(name).unwrap().composition.of_role(Role::Sugar);
        for name in ["sugar", "glucose-syrup-de40", "honey", "invert-sugar-78", "quince-juice-concentrate-70"] {
            assert_eq!(added(name), Some((sugars(name), sugars(name))), "{name}");
        }
        for name in ["cream-35", "butter-82", "raspberry-puree", "almond", "sorbitol-powder", "fruit-brandy-42"] {
            assert_eq!(added(name), Some((0.0, 0.0)), "{name}");
        }
        assert_eq!(added("jam"), None, "how much of it is the fruit's nobody says");
        let (low, high) = added("milk-couverture-34").unwrap();
        assert!(low > 0.3 && high < sugars("milk-couverture-34"), "{low} to {high}");
    }

    #[test]
    fn what_is_half_sugar_by_its_dry_matter_sweetens_and_no_sugar_is_none() {
        let concentrate = |sugars: f64| {
            let parts = [(Constituent::Water, 0.4), (Constituent::Fructose, sugars), (Constituent::Fibre, 0.6 - sugars)];
            let composition = Composition::new(parts.map(|(constituent, share)| (constituent, MassFraction::nearest(share)))).unwrap();
            Ingredient { sugars: Some(SugarOrigin::Added), ..Ingredient::declared("concentrate", composition) }.is_sweetening()
        };
        assert!(concentrate(0.31) && !concentrate(0.29));
        // What is no plain sweetener, however sweet.
        let of = |name: &str| (*Larder::built_in().get(name).unwrap()).clone();
        assert!(of("sugar").is_sweetening() && of("honey").is_sweetening());
        assert!(!Ingredient { compound: true, ..of("sugar") }.is_sweetening());
        assert!(!Ingredient { chocolate: of("dark-couverture-64").chocolate, ..of("sugar") }.is_sweetening());
        let spirited = Composition::blend([(&of("sugar").composition, 95.0), (&Composition::pure(Constituent::Ethanol), 5.0)]).unwrap();
        assert!(!Ingredient { composition: spirited, ..of("sugar") }.is_sweetening());
        // Sugars of milk are none that was added, known apart or not.
        let parts =
            [(Constituent::Water, 0.7), (Constituent::MilkFat, 0.2), (Constituent::Lactose, 0.04), (Constituent::UnsplitMilkSugars, 0.06)];
        let cream = Composition::new(parts.map(|(constituent, share)| (constituent, MassFraction::nearest(share)))).unwrap();
        assert_eq!(Ingredient::declared("cream", cream).added_sugars(), Some(Band::exact(0.0)));
        // Of a compound nobody knows whose sugars they are, but none are none.
        let fat = Ingredient { compound: true, ..Ingredient::declared("frying fat", Composition::pure(Constituent::LiquidOil)) };
        assert_eq!(fat.added_sugars(), Some(Band::exact(0.0)));
    }

    #[test]
    fn only_the_oil_of_a_chocolates_lecithin_is_known_for_what_it_is() {
        let of = |name: &str| (*Larder::built_in().get(name).unwrap()).clone();
        assert_eq!((of("dark-couverture-64").trans_fat(), of("sugar").trans_fat()), (Some(0.0), Some(0.0)));
        let half_oil = Composition::blend([(&Composition::pure(Constituent::LiquidOil), 1.0), (&of("sugar").composition, 1.0)]).unwrap();
        let spread = Ingredient::declared("spread", half_oil);
        assert_eq!((spread.carrier_oil(), spread.trans_fat()), (0.0, None));
        assert!(of("dark-couverture-64").carrier_oil() > 0.0);
    }

    #[test]
    fn plants_bring_no_cholesterol_and_milk_says_nothing() {
        let of = |name: &str| Larder::built_in().get(name).unwrap().cholesterol();
        assert_eq!((of("cocoa-mass"), of("sugar"), of("almond"), of("dark-couverture-64")), (Some(0.0), Some(0.0), Some(0.0), Some(0.0)));
        assert_eq!((of("cream-35"), of("egg-yolk"), of("gelatine"), of("milk-couverture-34")), (None, None, None, None));
        let lard = Composition::new([(Constituent::FirmFat, MassFraction::nearest(1.0))]).unwrap();
        assert_eq!(Ingredient::declared("fat", lard).cholesterol(), None, "of which beast or plant nobody says");
    }
}
