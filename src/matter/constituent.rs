//! The closed list of what a filling or a chocolate can be made of.

use serde::{Deserialize, Serialize};

/// What a constituent does in a filling: which phase it belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// The solvent.
    Water,
    /// Ethanol.
    Ethanol,
    /// A sugar: counts as sugars on a label, dissolves in the water phase.
    Sugar,
    /// A saccharide longer than two units: dissolves, but is no sugar on a label.
    Saccharide,
    /// A polyol: dissolves, sweetens, is declared apart.
    Polyol,
    /// An acid or a salt: dissolves in small amounts.
    Electrolyte,
    /// Fat of any kind.
    Fat,
    /// An insoluble solid that takes up water: cocoa, protein, starch, fibre.
    SorbingSolid,
    /// A gum or gelling agent, which thickens the water phase.
    Gum,
    /// An emulsifier.
    Emulsifier,
    /// Takes no part.
    Inert,
}

macro_rules! constituents {
    ($($(#[$doc:meta])* $name:ident $key:literal $role:ident $words:literal;)+) => {
        /// What a filling or a chocolate can be made of.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        pub enum Constituent {$($(#[$doc])* $name,)+}

        impl Constituent {
            /// Every constituent, in the order of [`super::Composition`].
            pub const ALL: &'static [Self] = &[$(Self::$name),+];
            /// How many there are.
            pub const COUNT: usize = Self::ALL.len();

            /// The key in documents and data files.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {$(Self::$name => $key,)+}
            }

            /// What it does.
            #[must_use]
            pub const fn role(self) -> Role {
                match self {$(Self::$name => Role::$role,)+}
            }

            /// The name in sentences.
            #[must_use]
            pub const fn words(self) -> &'static str {
                match self {$(Self::$name => $words,)+}
            }

            /// The constituent of a key.
            #[must_use]
            pub fn from_key(key: &str) -> Option<Self> {
                match key {$($key => Some(Self::$name),)+ _ => None}
            }
        }
    };
}

constituents! {
    /// Water.
    Water "water" Water "water";
    /// Ethanol.
    Ethanol "ethanol" Ethanol "ethanol";
    /// Sucrose.
    Sucrose "sucrose" Sugar "sucrose";
    /// Glucose (dextrose), anhydrous.
    Glucose "glucose" Sugar "glucose";
    /// Fructose.
    Fructose "fructose" Sugar "fructose";
    /// Lactose, anhydrous.
    Lactose "lactose" Sugar "lactose";
    /// Maltose and other reducing disaccharides of starch syrups.
    Maltose "maltose" Sugar "maltose";
    /// Galactose.
    Galactose "galactose" Sugar "galactose";
    /// Trehalose, anhydrous.
    Trehalose "trehalose" Sugar "trehalose";
    /// Plant sugars whose total is known and whose kinds are not.
    UnsplitSugars "unsplit-sugars" Sugar "sugars of unknown kind";
    /// Sucrose and lactose in unknown shares, as in milk chocolate.
    UnsplitMilkSugars "unsplit-milk-sugars" Sugar "sucrose and lactose in unknown shares";
    /// Saccharides of three units.
    Trisaccharides "trisaccharides" Saccharide "trisaccharides";
    /// Saccharides of four units and more: the body of a glucose syrup, inulin, dextrins.
    HigherSaccharides "higher-saccharides" Saccharide "higher saccharides";
    /// Sorbitol.
    Sorbitol "sorbitol" Polyol "sorbitol";
    /// Maltitol.
    Maltitol "maltitol" Polyol "maltitol";
    /// Xylitol.
    Xylitol "xylitol" Polyol "xylitol";
    /// Mannitol.
    Mannitol "mannitol" Polyol "mannitol";
    /// Glycerol.
    Glycerol "glycerol" Polyol "glycerol";
    /// Citric acid, and other fruit acids counted with it.
    Acid "acid" Electrolyte "acid";
    /// Lactic acid.
    LacticAcid "lactic-acid" Electrolyte "lactic acid";
    /// Sodium chloride.
    Salt "salt" Electrolyte "salt";
    /// Milk salts.
    MilkSalts "milk-salts" Electrolyte "milk salts";
    /// Other minerals (ash).
    Minerals "minerals" Electrolyte "minerals";
    /// Cocoa butter.
    CocoaButter "cocoa-butter" Fat "cocoa butter";
    /// Milk fat.
    MilkFat "milk-fat" Fat "milk fat";
    /// Lauric fat: coconut, palm kernel.
    LauricFat "lauric-fat" Fat "lauric fat";
    /// Other fat that is firm at room temperature.
    FirmFat "firm-fat" Fat "firm vegetable fat";
    /// Fat that is liquid at room temperature: nut oils, sunflower oil.
    LiquidOil "liquid-oil" Fat "liquid oil";
    /// Fat-free cocoa solids.
    FatFreeCocoa "fat-free-cocoa" SorbingSolid "fat-free cocoa";
    /// Milk protein.
    MilkProtein "milk-protein" SorbingSolid "milk protein";
    /// Other protein.
    Protein "protein" SorbingSolid "protein";
    /// Starch.
    Starch "starch" SorbingSolid "starch";
    /// Fibre and plant cell wall.
    Fibre "fibre" SorbingSolid "fibre";
    /// Lecithin as its acetone-insoluble matter.
    Phospholipid "phospholipid" Emulsifier "phospholipid";
    /// Polyglycerol polyricinoleate.
    Pgpr "pgpr" Emulsifier "PGPR";
    /// Xanthan.
    Xanthan "xanthan" Gum "xanthan";
    /// Guar gum.
    Guar "guar" Gum "guar";
    /// Locust bean gum.
    LocustBeanGum "locust-bean-gum" Gum "locust bean gum";
    /// Pectin.
    Pectin "pectin" Gum "pectin";
    /// Gelatine.
    Gelatine "gelatine" Gum "gelatine";
    /// Agar.
    Agar "agar" Gum "agar";
    /// Carrageenan.
    Carrageenan "carrageenan" Gum "carrageenan";
    /// Solids of no consequence to any model here.
    Inert "inert" Inert "other solids";
    /// Mass whose nature is not known.
    Unidentified "unidentified" Inert "unidentified matter";
}

/// Where the constituents of each role lie, first and one past the last: the list keeps them together.
#[allow(clippy::indexing_slicing, reason = "evaluated at compile time, where a miss is an error")]
const SPANS: [(usize, usize); Role::ALL.len()] = {
    let mut spans = [(0, 0); Role::ALL.len()];
    let mut at = 0;
    while at < Constituent::COUNT {
        let span = &mut spans[Constituent::ALL[at].role() as usize];
        assert!(span.1 == 0 || span.1 == at, "the constituents of a role must be listed together");
        *span = (if span.1 == 0 { at } else { span.0 }, at + 1);
        at += 1;
    }
    spans
};

impl Role {
    /// Every role.
    pub(crate) const ALL: &'static [Self; 11] = &[
        Self::Water,
        Self::Ethanol,
        Self::Sugar,
        Self::Saccharide,
        Self::Polyol,
        Self::Electrolyte,
        Self::Fat,
        Self::SorbingSolid,
        Self::Gum,
        Self::Emulsifier,
        Self::Inert,
    ];
    /// The roles of what holds water, dissolved or swollen with it.
    pub(crate) const HOLD_WATER: &'static [Self] =
        &[Self::Ethanol, Self::Sugar, Self::Saccharide, Self::Polyol, Self::Electrolyte, Self::SorbingSolid, Self::Gum];

    /// Where its constituents lie in [`Constituent::ALL`].
    pub(super) fn span(self) -> std::ops::Range<usize> {
        let (first, end) = SPANS.get(self as usize).copied().unwrap_or_default();
        first..end
    }
}

impl Constituent {
    /// The place in [`super::Composition`].
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }
}

/// Some constituents, in the order of [`Constituent::ALL`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ConstituentSet(u64);

const _: () = assert!(Constituent::COUNT <= u64::BITS as usize);

impl ConstituentSet {
    /// None of them.
    pub const EMPTY: Self = Self(0);

    /// These and one more.
    #[must_use]
    pub const fn with(self, constituent: Constituent) -> Self {
        Self(self.0 | 1 << constituent.index())
    }

    /// Those in either set.
    #[must_use]
    pub(crate) const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether one is among them.
    #[must_use]
    pub const fn contains(self, constituent: Constituent) -> bool {
        self.0 & 1 << constituent.index() != 0
    }

    /// Each of them.
    pub fn iter(self) -> impl Iterator<Item = Constituent> {
        let mut rest = self.0;
        std::iter::from_fn(move || {
            let first = Constituent::ALL.get(rest.trailing_zeros() as usize)?;
            rest &= rest - 1;
            Some(*first)
        })
    }
}

impl FromIterator<Constituent> for ConstituentSet {
    fn from_iter<I: IntoIterator<Item = Constituent>>(constituents: I) -> Self {
        constituents.into_iter().fold(Self::EMPTY, Self::with)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique_and_read_back() {
        for (index, constituent) in Constituent::ALL.iter().enumerate() {
            assert_eq!(constituent.index(), index);
            assert_eq!(Constituent::from_key(constituent.key()), Some(*constituent));
        }
    }
}
