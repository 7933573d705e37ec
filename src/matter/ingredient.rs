//! Something a kitchen weighs out: its composition and what a label must say of it.

use super::{AllergenSet, Chocolate, Composition, Constituent, Exemption, LabelFigures, Role, SugarOrigin};
use crate::units::{Checked, MassFraction, choices};

choices! {
    /// How values are known. Never upgraded from one to another.
    Known: "a standing of evidence" {
        /// Read at the source named.
        Seen "seen",
        /// Computed from a source named.
        Computed "computed",
        /// Partly read, partly recalled.
        Mixed "mixed",
        /// Recalled, unverified.
        Memory "memory",
        /// Stated by the user.
        Declared "declared",
    }
    /// What an additive does in a food: the class a label names it by.
    AdditiveClass: "a class of additives" {
        /// Makes or keeps an emulsion; in chocolate, makes it flow.
        Emulsifier "emulsifier",
        /// Keeps from drying out.
        Humectant "humectant",
        /// Sweetens.
        Sweetener "sweetener",
        /// Thickens.
        Thickener "thickener",
        /// Sets a gel.
        GellingAgent "gelling-agent",
        /// Makes sour.
        Acid "acid",
        /// Changes or holds acidity.
        AcidityRegulator "acidity-regulator",
        /// Protects against spoilage.
        Preservative "preservative",
        /// Colours.
        Colour "colour",
        /// Protects against oxidation.
        Antioxidant "antioxidant",
        /// Makes dough rise.
        RaisingAgent "raising-agent",
        /// Keeps a food in its state.
        Stabiliser "stabiliser",
        /// Makes shine.
        GlazingAgent "glazing-agent",
    }
}

impl Known {
    /// What a reader must be told of it, after the name of a source; nothing where it was read or computed.
    #[must_use]
    pub const fn remark(self) -> &'static str {
        match self {
            Self::Memory => " (recalled, unverified)",
            Self::Mixed => " (partly recalled)",
            Self::Seen | Self::Computed | Self::Declared => "",
        }
    }
}

/// One thing a compound ingredient is made of, as a label names it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Component {
    /// The name in an ingredient list.
    pub label: String,
    /// The allergens it brings.
    pub allergens: AllergenSet,
    /// The number of the additive it is, if it is one: `E 322`.
    pub additive: Option<String>,
    /// What the additive does.
    pub class: Option<AdditiveClass>,
}

impl Component {
    /// One that is no additive and brings no allergen.
    #[must_use]
    pub fn named(label: impl Into<String>) -> Self {
        Self { label: label.into(), allergens: AllergenSet::EMPTY, additive: None, class: None }
    }
}

/// What a lot of an ingredient holds more or less of than its record says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Lot {
    /// Water.
    Water,
    /// Fat.
    Fat,
}

impl Lot {
    /// An ingredient holds water to speak of from here.
    const WATERY: f64 = 0.02;
    /// An ingredient holds fat to speak of from here.
    const FATTY: f64 = 0.05;
    /// What lots differ by where nothing is stated.
    pub(crate) const USUAL: f64 = 0.02;

    pub(crate) fn holds(self, constituent: Constituent) -> bool {
        match self {
            Self::Water => constituent == Constituent::Water,
            Self::Fat => constituent.role() == Role::Fat,
        }
    }
}

/// An ingredient.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// The name documents use: `cream-36`.
    pub name: String,
    /// The name in sentences.
    pub title: String,
    /// The name in an ingredient list.
    pub label: String,
    /// What it is made of.
    pub composition: Composition,
    /// The allergens it brings, those of its emulsifiers included.
    pub allergens: AllergenSet,
    /// The number of the additive it is, if it is one: `E 420`.
    pub additive: Option<String>,
    /// What the additive does here.
    pub class: Option<AdditiveClass>,
    /// The form its allergens come in, where some market exempts that form.
    pub exempt: Option<Exemption>,
    /// What a compound ingredient is made of, by weight at mixing, most first; the emulsifiers of a chocolate's sheet follow from the sheet.
    pub contains: Vec<Component>,
    /// Whether it is made of several things, even where they are not known here.
    pub compound: bool,
    /// Whether its longer saccharides count as fibre on a label, as those of inulin do.
    pub fibrous: bool,
    /// What a nutrition declaration tells of it beyond its constituents.
    pub figures: LabelFigures,
    /// Where its sugars come from, where its kind does not tell.
    pub sugars: Option<SugarOrigin>,
    /// What more is known of it if it is a chocolate.
    pub chocolate: Option<Chocolate>,
    /// How far a lot may be off what is told of it, where that is stated; see [`Self::lot`].
    pub spread: Option<MassFraction>,
    /// Where the composition comes from.
    pub record: String,
    /// How it is known.
    pub known: Known,
    /// What to mind about the values.
    pub note: Option<String>,
}

impl Ingredient {
    /// An ingredient a user describes; lots are off as is usual, see [`Self::lot`].
    #[must_use]
    pub fn declared(name: impl Into<String>, composition: Composition) -> Self {
        let name = name.into();
        let declared = Self {
            title: name.replace('-', " "),
            label: name.replace('-', " "),
            name,
            composition,
            allergens: AllergenSet::EMPTY,
            additive: None,
            class: None,
            exempt: None,
            contains: Vec::new(),
            compound: false,
            fibrous: false,
            figures: LabelFigures::default(),
            sugars: None,
            chocolate: None,
            spread: None,
            record: "declared in the document".into(),
            known: Known::Declared,
            note: None,
        };
        declared.spreading()
    }

    /// The same with how far a lot may be off, as a standard uncertainty of its water, or of its fat: see [`Self::lot`].
    #[must_use]
    pub fn with_spread(mut self, spread: MassFraction) -> Self {
        self.spread = Some(spread);
        self.spreading()
    }

    /// What a lot may hold more or less of than is told of it, and how much of its mass that is, as a standard uncertainty; the rest gives way in
    /// proportion. It is water where there are 2 % of it and more, else fat where there are 5 % and more, and nothing in what holds neither.
    ///
    /// Where no spread is stated, 2 % of it or of all else, whichever is less (a choice of this project).
    #[must_use]
    pub fn lot(&self) -> Option<(Lot, f64)> {
        let (water, fat) = (self.composition.of(Constituent::Water), self.composition.fat());
        let (of, share) = match (water, fat) {
            _ if water >= Lot::WATERY => (Lot::Water, water),
            _ if fat >= Lot::FATTY => (Lot::Fat, fat),
            _ => return None,
        };
        let by = self.spread.map_or(Lot::USUAL * share.min(1.0 - share), Checked::base);
        (share < 1.0 && by > 0.0).then_some((of, by))
    }

    /// Its composition known no better than a lot is.
    fn spreading(mut self) -> Self {
        self.composition = self.composition.certain();
        if let Some((of, by)) = self.lot() {
            self.composition = self.composition.uncertain_by(|constituent| of.holds(constituent), MassFraction::nearest(by));
        }
        self
    }

    /// A pure substance under its own name.
    #[must_use]
    pub fn pure(constituent: Constituent) -> Self {
        Self {
            title: constituent.words().into(),
            label: constituent.words().into(),
            ..Self::declared(constituent.key(), Composition::pure(constituent))
        }
    }

    /// The same with allergens added.
    #[must_use]
    pub fn with_allergens(mut self, allergens: AllergenSet) -> Self {
        self.allergens = self.allergens.union(allergens);
        self
    }

    /// The same as a chocolate; the allergens of its declared emulsifiers are added.
    #[must_use]
    pub fn as_chocolate(mut self, chocolate: Chocolate) -> Self {
        let emulsifiers = chocolate.emulsifiers.iter().filter_map(|emulsifier| emulsifier.source);
        self.allergens = emulsifiers.fold(self.allergens, |all, source| all.union(source.allergens()));
        self.chocolate = Some(chocolate);
        self
    }

    /// Whether it is a gum and little else: what thickens a filling by the gram.
    #[must_use]
    pub fn is_gum(&self) -> bool {
        self.composition.of_role(Role::Gum) > 0.5
    }

    /// Whether its composition is known well enough to compute with: at most 2 % of it unidentified.
    #[must_use]
    pub fn is_identified(&self) -> bool {
        self.composition.of(Constituent::Unidentified) <= Self::UNIDENTIFIED_AT_MOST
    }

    /// How much of an ingredient may be of unknown nature before what depends on its composition is unknown.
    pub const UNIDENTIFIED_AT_MOST: f64 = 0.02;
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn lots_differ_in_their_water_or_in_their_fat() {
        let held =
            |lot: Lot| [Constituent::Water, Constituent::CocoaButter, Constituent::Sucrose].map(|constituent| lot.holds(constituent));
        assert_eq!((held(Lot::Water), held(Lot::Fat)), ([true, false, false], [false, true, false]));
    }

    #[test]
    fn a_gum_is_gum_for_the_most_part() {
        let with = |gum: f64| {
            let (xanthan, sugar) = (Composition::pure(Constituent::Xanthan), Composition::pure(Constituent::Sucrose));
            Ingredient::declared("thickener", Composition::blend([(&xanthan, gum), (&sugar, 1.0 - gum)]).unwrap()).is_gum()
        };
        assert_eq!([0.0, 0.4, 0.6, 1.0].map(with), [false, false, true, true]);
    }

    #[test]
    fn two_hundredths_of_unknown_nature_are_borne() {
        let with = |share: f64| {
            let (water, unknown) = (Composition::pure(Constituent::Water), Composition::pure(Constituent::Unidentified));
            let composition = Composition::blend([(&water, 1.0 - share), (&unknown, share)]).unwrap();
            Ingredient::declared("syrup", composition).is_identified()
        };
        assert!(with(0.0) && with(0.019) && !with(0.021) && !with(0.5));
    }
}
