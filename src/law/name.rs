//! The names that the law reserves, and sets of them.

use crate::matter::{ChocolateKind, Market};
use crate::units::{choice_sets, choices};

choices! {
    /// A name under which chocolate may only be sold if it is made as the law says.
    SalesName: "a name the law reserves" {
        /// Chocolate.
        Chocolate "chocolate",
        /// Dark chocolate; where the law only knows chocolate, that.
        Dark "dark chocolate",
        /// Bittersweet chocolate.
        Bittersweet "bittersweet chocolate",
        /// Semisweet chocolate.
        Semisweet "semisweet chocolate",
        /// Sweet chocolate.
        Sweet "sweet chocolate",
        /// Couverture chocolate.
        Couverture "couverture chocolate",
        /// Chocolate vermicelli or flakes.
        Vermicelli "chocolate vermicelli",
        /// Gianduja hazelnut chocolate.
        Gianduja "gianduja chocolate",
        /// Chocolate with a quality claim, such as finest.
        Finest "finest chocolate",
        /// Couverture with a quality claim.
        FinestCouverture "finest couverture chocolate",
        /// Milk chocolate.
        Milk "milk chocolate",
        /// Milk chocolate couverture.
        MilkCouverture "milk chocolate couverture",
        /// Milk chocolate vermicelli or flakes.
        MilkVermicelli "milk chocolate vermicelli",
        /// Gianduja hazelnut milk chocolate.
        MilkGianduja "gianduja milk chocolate",
        /// Milk chocolate with a quality claim.
        FinestMilk "finest milk chocolate",
        /// Cream chocolate.
        Cream "cream chocolate",
        /// Skimmed milk chocolate.
        SkimmedMilk "skimmed milk chocolate",
        /// Family milk chocolate.
        FamilyMilk "family milk chocolate",
        /// Mixed dairy product chocolate.
        MixedDairy "mixed dairy product chocolate",
        /// White chocolate.
        White "white chocolate",
        /// Filled chocolate.
        Filled "filled chocolate",
        /// A chocolate or a praline: filled, of a single mouthful.
        Praline "praline",
    }
}

impl SalesName {
    /// Whether it names a filled piece rather than a chocolate.
    #[must_use]
    pub const fn is_of_piece(self) -> bool {
        matches!(self, Self::Filled | Self::Praline)
    }

    /// The least that a chocolate of a kind is called in a market, where nothing else is claimed.
    #[must_use]
    pub const fn usual(kind: ChocolateKind, market: Market) -> Option<Self> {
        match (kind, market) {
            (ChocolateKind::Dark, Market::Us) => Some(Self::Sweet),
            (ChocolateKind::Dark, _) => Some(Self::Chocolate),
            (ChocolateKind::Milk, _) => Some(Self::Milk),
            (ChocolateKind::White, _) => Some(Self::White),
            (ChocolateKind::Ruby, _) => None,
        }
    }
}

choice_sets! {
    /// A set of names.
    NameSet(u32) of SalesName;
}
