//! What a share of a recipe can be wanted of: everything here is linear in the masses.

use crate::matter::{Composition, Constituent, Role};
use crate::units::choices;

choices! {
    /// A share of a recipe's mass. Those that are assessed on a filling too bear the same key there and mean the same.
    Share: "a share" {
        /// Water.
        Water "water",
        /// Sugars and polyols, those of every ingredient: of chocolate and milk too.
        Sugars "sugars",
        /// Polyols alone.
        Polyols "polyols",
        /// Total fat.
        Fat "fat",
        /// Cocoa butter.
        CocoaButter "cocoa_butter",
        /// Milk fat.
        MilkFat "milk_fat",
        /// Fat that is liquid at room temperature.
        FreeOil "free_oil",
        /// Fat-free cocoa.
        FatFreeCocoa "fat_free_cocoa",
        /// Cocoa butter and fat-free cocoa.
        Cocoa "cocoa",
        /// Lactose, protein and salts of milk.
        FatFreeMilk "fat_free_milk",
        /// The same with milk fat.
        MilkSolids "milk_solids",
        /// Ethanol.
        Ethanol "ethanol",
        /// Everything but water and ethanol.
        DryMatter "dry_matter",
        /// Sodium chloride, as far as it was weighed as such.
        Salt "salt",
    }
}

impl Share {
    /// Its mass fraction in a composition; none where that cannot be told, as the lactose of a milk chocolate whose sugars were not split.
    #[must_use]
    pub fn of(self, composition: &Composition) -> Option<f64> {
        let of = |constituent| composition.of(constituent);
        let fat_free_milk = || {
            let split = of(Constituent::UnsplitMilkSugars) <= 0.0;
            split.then(|| of(Constituent::Lactose) + of(Constituent::MilkProtein) + of(Constituent::MilkSalts))
        };
        match self {
            Self::Water => Some(of(Constituent::Water)),
            Self::Sugars => Some(composition.sweeteners()),
            Self::Polyols => Some(composition.of_role(Role::Polyol)),
            Self::Fat => Some(composition.fat()),
            Self::CocoaButter => Some(of(Constituent::CocoaButter)),
            Self::MilkFat => Some(of(Constituent::MilkFat)),
            Self::FreeOil => Some(of(Constituent::LiquidOil)),
            Self::FatFreeCocoa => Some(of(Constituent::FatFreeCocoa)),
            Self::Cocoa => Some(of(Constituent::CocoaButter) + of(Constituent::FatFreeCocoa)),
            Self::FatFreeMilk => fat_free_milk(),
            Self::MilkSolids => Some(fat_free_milk()? + of(Constituent::MilkFat)),
            Self::Ethanol => Some(of(Constituent::Ethanol)),
            Self::DryMatter => Some(composition.dry_matter()),
            Self::Salt => Some(of(Constituent::Salt)),
        }
    }

    /// The name in sentences.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::Sugars => "sugars and polyols",
            Self::Polyols => "polyols",
            Self::Fat => "total fat",
            Self::CocoaButter => "cocoa butter",
            Self::MilkFat => "milk fat",
            Self::FreeOil => "liquid oil",
            Self::FatFreeCocoa => "fat-free cocoa",
            Self::Cocoa => "cocoa butter and fat-free cocoa",
            Self::FatFreeMilk => "fat-free milk",
            Self::MilkSolids => "milk solids",
            Self::Ethanol => "ethanol by mass",
            Self::DryMatter => "dry matter",
            Self::Salt => "salt",
        }
    }
}
