//! Allergens, the sets of them, and the markets.

use crate::units::{Choice, choice_sets, choices};

choices! {
    /// A substance that some market wants declared.
    Allergen: "an allergen" {
        /// Milk, lactose included.
        Milk "milk",
        /// Egg.
        Egg "egg",
        /// Soybean, lecithin from it included.
        Soy "soy",
        /// Peanut.
        Peanut "peanut",
        /// Sesame.
        Sesame "sesame",
        /// Wheat.
        Wheat "wheat",
        /// Barley.
        Barley "barley",
        /// Oats.
        Oats "oats",
        /// Rye.
        Rye "rye",
        /// Almond.
        Almond "almond",
        /// Hazelnut.
        Hazelnut "hazelnut",
        /// Walnut.
        Walnut "walnut",
        /// Pecan.
        Pecan "pecan",
        /// Cashew.
        Cashew "cashew",
        /// Pistachio.
        Pistachio "pistachio",
        /// Macadamia.
        Macadamia "macadamia",
        /// Brazil nut.
        BrazilNut "brazil-nut",
        /// Pine nut.
        PineNut "pine-nut",
        /// Fish, as in fish gelatine.
        Fish "fish",
        /// Crustaceans.
        Crustaceans "crustaceans",
        /// Molluscs.
        Molluscs "molluscs",
        /// Lupin.
        Lupin "lupin",
        /// Mustard.
        Mustard "mustard",
        /// Celery.
        Celery "celery",
        /// Buckwheat.
        Buckwheat "buckwheat",
        /// Sulphites above 10 mg/kg.
        Sulphites "sulphites",
    }

    /// A form of an allergenic ingredient that some market exempts from declaration.
    Exemption: "an exempt form" {
        /// Glucose syrup, dextrose or maltodextrin made from wheat or barley.
        CerealSyrup "cereal-syrup",
        /// A spirit distilled from cereals, nuts or whey.
        Distillate "distillate",
        /// Fully refined soybean oil.
        RefinedOil "refined-oil",
        /// Lactitol, made from whey.
        Lactitol "lactitol",
    }

    /// Where a piece is sold.
    Market: "a market" {
        /// European Union.
        Eu "eu",
        /// United Kingdom.
        Uk "uk",
        /// Codex Alimentarius.
        Codex "codex",
        /// United States.
        Us "us",
        /// Canada.
        Ca "ca",
        /// Australia and New Zealand.
        AuNz "au-nz",
        /// Japan.
        Jp "jp",
    }
}

choice_sets! {
    /// A set of allergens.
    AllergenSet(u32) of Allergen;
}

impl AllergenSet {
    /// The tree nuts.
    pub const NUTS: Self = Self::of(&[
        Allergen::Almond,
        Allergen::Hazelnut,
        Allergen::Walnut,
        Allergen::Pecan,
        Allergen::Cashew,
        Allergen::Pistachio,
        Allergen::Macadamia,
        Allergen::BrazilNut,
        Allergen::PineNut,
    ]);
    /// The cereals that contain gluten.
    pub const GLUTEN: Self = Self::of(&[Allergen::Wheat, Allergen::Barley, Allergen::Oats, Allergen::Rye]);

    /// The allergens a word of a promise stands for: one of them, `nuts` or `gluten`.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "nuts" => Some(Self::NUTS),
            "gluten" => Some(Self::GLUTEN),
            _ => Allergen::from_key(word).map(|allergen| Self::of(&[allergen])),
        }
    }

    /// The words [`Self::from_word`] knows.
    pub fn words() -> impl Iterator<Item = &'static str> {
        Allergen::ALL.iter().map(|allergen| allergen.key()).chain(["nuts", "gluten"])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sets_hold_what_was_put_in() {
        let set = AllergenSet::of(&[Allergen::Milk, Allergen::Sulphites]);
        assert_eq!(set.iter().collect::<Vec<_>>(), [Allergen::Milk, Allergen::Sulphites]);
        assert_eq!(AllergenSet::from_word("nuts").map(AllergenSet::len), Some(9));
        assert_eq!(AllergenSet::from_word("nutz"), None);
    }
}
