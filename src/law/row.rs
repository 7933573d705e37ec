//! One row of law: what must be how much of what, where, and where that is written.

use super::{AdditiveSet, Citation, NameSet};
use crate::matter::{ChocolateKind, Market};
use crate::units::{Choice, Dimension, Measure, choices};

choices! {
    /// Which side of a limit is legal. The limit itself is always legal.
    Side: "a side" {
        /// The value must reach the limit.
        AtLeast "at-least",
        /// The value must not exceed the limit.
        AtMost "at-most",
    }
    /// What a row limits.
    Term: "a term of law" {
        /// Cocoa butter and fat-free cocoa, dry.
        TotalCocoa "total-dry-cocoa",
        /// Cocoa butter.
        CocoaButter "cocoa-butter",
        /// Fat-free cocoa, dry.
        FatFreeCocoa "dry-fat-free-cocoa",
        /// Milk solids, dry, with their fat.
        MilkSolids "dry-milk-solids",
        /// Milk fat.
        MilkFat "milk-fat",
        /// Cocoa butter and milk fat together.
        TotalFat "cocoa-butter-and-milk-fat",
        /// Vegetable fat other than cocoa butter.
        VegetableFat "vegetable-fat",
        /// Other edible matter, of the whole.
        OtherEdible "other-edible",
        /// Chocolate liquor as the US reckons it: 2.2 times what in the liquor is no fat.
        Liquor "chocolate-liquor",
        /// Sugars added as sweeteners.
        Sweeteners "sweeteners",
        /// Whey and products of it.
        Whey "whey",
        /// Colours, and what is coloured with them, of the whole.
        Colours "colours",
        /// Milk solids, dry, with their fat, of the whole.
        MilkOfWhole "dry-milk-solids-of-the-whole",
        /// Ground hazelnut, of the whole.
        Hazelnut "hazelnut",
        /// All nuts, of the whole.
        Nuts "nuts",
        /// Cocoa beans and what is made of them, as declared by weight.
        CocoaDerivatives "cocoa-derivatives",
        /// Shell and cap, of the whole piece.
        OuterChocolate "outer-chocolate",
        /// Chocolate in all, of the whole piece; whether what was melted into a filling counts is open.
        Chocolate "chocolate",
        /// Additives, one or a sum.
        Additives "additives",
        /// Ethanol by mass of the piece.
        EthanolByMass "ethanol-by-mass",
        /// Ethanol by volume of the piece.
        EthanolByVolume "ethanol-by-volume",
        /// Pure alcohol by volume over the mass of the piece.
        PureAlcohol "pure-alcohol",
        /// Spirits as poured in, by volume over the mass of the piece.
        Spirit "spirit",
        /// The strength of the strongest spirit that goes in.
        SpiritStrength "spirit-strength",
        /// Mass of the piece.
        PieceMass "piece-mass",
        /// Added polyols, of the whole piece.
        Polyols "added-polyols",
    }
    /// What a row does to a piece that is beyond it.
    Effect: "an effect of law" {
        /// It may not bear the name.
        Name "name",
        /// It may not be sold so.
        Restriction "restriction",
        /// It counts as alcohol: another licence and other ages.
        Licence "licence",
        /// It may not be sold to the young.
        Age "age",
        /// A relief from duty is lost; nothing is forbidden.
        Duty "duty",
        /// It must bear a statement.
        Statement "statement",
    }
    /// What a row is about.
    Topic: "a topic of law" {
        /// Names.
        Names "names",
        /// Additives.
        Additives "additives",
        /// Alcohol.
        Alcohol "alcohol",
        /// Statements on the label.
        Statements "statements",
    }
    /// What a limit on additives or alcohol is for.
    Category: "a category of food" {
        /// Cocoa and chocolate products.
        Chocolate "chocolate",
        /// Coatings like chocolate, of other fats.
        Compound "compound",
        /// Fillings and other confectionery.
        Filling "filling",
    }
    /// A part of a market with a law of its own.
    Region: "a region" {
        /// Kentucky.
        Kentucky "us-ky",
        /// New York.
        NewYork "us-ny",
        /// Minnesota.
        Minnesota "us-mn",
        /// Massachusetts.
        Massachusetts "us-ma",
        /// California.
        California "us-ca",
        /// England and Wales.
        EnglandWales "uk-ew",
        /// Scotland.
        Scotland "uk-sct",
    }
}

impl Term {
    /// The dimension of its values.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::EthanolByVolume | Self::SpiritStrength => Dimension::AlcoholStrength,
            Self::PureAlcohol | Self::Spirit => Dimension::SpecificVolume,
            Self::PieceMass => Dimension::Mass,
            _ => Dimension::Ratio,
        }
    }
}

impl Region {
    /// The market it is a part of.
    #[must_use]
    pub const fn market(self) -> Market {
        match self {
            Self::Kentucky | Self::NewYork | Self::Minnesota | Self::Massachusetts | Self::California => Market::Us,
            Self::EnglandWales | Self::Scotland => Market::Uk,
        }
    }
}

/// A row of law.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What reports call it, unique among all rows.
    pub id: String,
    /// Where it holds.
    pub market: Market,
    /// The part of the market it is the law of; the whole if none.
    pub region: Option<Region>,
    /// What it does.
    pub effect: Effect,
    /// The names it is a condition of; none where it is of no name.
    pub names: NameSet,
    /// The categories of food it is for; all if empty, which rows on additives never are.
    pub categories: Vec<Category>,
    /// The kinds of chocolate it is for; all if empty.
    pub kinds: Vec<ChocolateKind>,
    /// The additives whose sum it limits.
    pub additives: AdditiveSet,
    /// Whether that sum is taken as the free acid.
    pub as_acid: bool,
    /// What it limits.
    pub term: Term,
    /// Which side is legal.
    pub side: Side,
    /// The limit; none where as much is allowed as is needed.
    pub value: Option<Measure>,
    /// Whether the limit itself is not legal any more: the text says "less than".
    pub below: bool,
    /// Of what the value is a share, in the words of the text.
    pub basis: String,
    /// What else to know.
    pub note: String,
    /// Where it is written.
    pub citation: Citation,
}

impl Row {
    /// How far below a limit "less than" is: nothing a scale can tell, and more than rounding.
    const LESS_THAN: f64 = 1e-9;

    /// The limit in the base unit, the nearest legal value where the text says "less than".
    #[must_use]
    pub fn bound(&self) -> Option<f64> {
        let value = self.value?.base();
        Some(if self.below { value * (1.0 - Self::LESS_THAN) } else { value })
    }

    /// What it is about.
    #[must_use]
    pub const fn topic(&self) -> Topic {
        match (self.effect, self.term) {
            (Effect::Name, _) => Topic::Names,
            (Effect::Statement, _) => Topic::Statements,
            (_, Term::Additives) => Topic::Additives,
            _ => Topic::Alcohol,
        }
    }

    /// What it applies to, in words.
    #[must_use]
    pub fn subject(&self) -> String {
        let names: Vec<_> = self.names.iter().map(Choice::key).collect();
        let categories: Vec<_> = self.categories.iter().map(|category| category.key()).collect();
        if names.is_empty() { categories.join(", ") } else { names.join(", ") }
    }
}
