//! Allergens, the sets of them, and the markets.

use crate::units::{Choice, choices};

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

/// A set of allergens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub struct AllergenSet(u32);

impl AllergenSet {
    /// No allergen.
    pub const EMPTY: Self = Self(0);
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

    /// The set of these allergens.
    #[must_use]
    pub const fn of(allergens: &[Allergen]) -> Self {
        let mut rest = allergens;
        let mut bits = 0;
        while let [first, tail @ ..] = rest {
            bits |= 1 << *first as u32;
            rest = tail;
        }
        Self(bits)
    }

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

    /// Those in either set.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Those in both sets.
    #[must_use]
    pub const fn intersection(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// Those of this set that are not in the other.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// How many there are.
    #[must_use]
    pub const fn len(self) -> u32 {
        self.0.count_ones()
    }

    /// Each of them.
    pub fn iter(self) -> impl Iterator<Item = Allergen> {
        Allergen::ALL.iter().copied().filter(move |allergen| self.0 & (1 << *allergen as u32) != 0)
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
