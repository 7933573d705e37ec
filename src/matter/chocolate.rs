//! What a chocolate's specification sheet says beyond its composition.

use super::{Composition, Constituent, Emulsifier};
use crate::units::{MassFraction, Temperature, Viscosity, YieldValue, choices};
use smallvec::SmallVec;

choices! {
    /// The kind of a chocolate.
    ChocolateKind: "a kind of chocolate" {
        /// Dark.
        Dark "dark",
        /// Milk.
        Milk "milk",
        /// White.
        White "white",
        /// Ruby.
        Ruby "ruby",
    }
}

impl ChocolateKind {
    /// Whether it is made with milk, whose fat softens it.
    #[must_use]
    pub const fn holds_milk(self) -> bool {
        matches!(self, Self::Milk | Self::White | Self::Ruby)
    }
}

/// A chocolate as its maker's sheet describes it.
#[derive(Debug, Clone, PartialEq)]
pub struct Chocolate {
    /// Dark, milk, white or ruby.
    pub kind: ChocolateKind,
    /// The emulsifiers it already holds.
    pub emulsifiers: SmallVec<[Emulsifier; 2]>,
    /// Casson yield value, untempered, with the emulsifiers it holds.
    pub yield_value: Option<YieldValue>,
    /// Casson plastic viscosity, untempered, with the emulsifiers it holds.
    pub plastic_viscosity: Option<Viscosity>,
    /// Where both were measured.
    pub measured_at: Option<Temperature>,
    /// How much of it went in as cocoa powder, which US law does not count as chocolate liquor.
    pub cocoa_powder: Option<MassFraction>,
    /// How much of it is whey and products of it.
    pub whey: Option<MassFraction>,
}

impl Chocolate {
    /// A chocolate of which only the kind is known.
    #[must_use]
    pub fn of_kind(kind: ChocolateKind) -> Self {
        Self {
            kind,
            emulsifiers: SmallVec::new(),
            yield_value: None,
            plastic_viscosity: None,
            measured_at: None,
            cocoa_powder: None,
            whey: None,
        }
    }
}

/// How fat-free milk solids divide: lactose, protein and milk salts of skim milk powder, dry (USDA SR28, NDB 01091).
const FAT_FREE_MILK: [(Constituent, f64); 3] =
    [(Constituent::Lactose, 51.98 / 96.07), (Constituent::MilkProtein, 36.16 / 96.07), (Constituent::MilkSalts, 7.93 / 96.07)];

/// The constituents of a mass of fat-free milk solids, as sheets declare it.
pub fn fat_free_milk(fraction: f64) -> impl Iterator<Item = (Constituent, f64)> {
    FAT_FREE_MILK.into_iter().map(move |(constituent, share)| (constituent, fraction * share))
}

/// The share of a composition that is cocoa: cocoa butter and fat-free cocoa.
#[must_use]
pub fn cocoa(composition: &Composition) -> f64 {
    composition.of(Constituent::CocoaButter) + composition.of(Constituent::FatFreeCocoa)
}
