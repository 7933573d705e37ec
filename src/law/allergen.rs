//! What each market wants declared, in whose words, and what it exempts.

use super::Citation;
use crate::matter::{Allergen, AllergenSet, Exemption, Known, Market};
use crate::units::{Choice, choices};
use std::borrow::Cow;
use std::sync::LazyLock;

choices! {
    /// How a market wants allergens told.
    Wording: "a way to tell allergens" {
        /// Emphasised by type within the ingredient list.
        Emphasis "emphasis",
        /// In the ingredient list, or after it in a statement that begins with "Contains".
        Contains "contains",
        /// In the ingredient list and again in a summary that begins with "Contains".
        Summary "summary",
        /// By name in the ingredient list, with what brings them.
        Named "named",
    }
}

/// A list of substances that a market wants declared, as one section writes them.
#[derive(Debug, PartialEq, Eq)]
pub struct AllergenList {
    /// The market.
    pub market: Market,
    /// How they are told there.
    pub wording: Wording,
    /// What else to know of it, empty if nothing.
    pub note: &'static str,
    /// Where it is written.
    pub citation: Citation,
    /// The substances, in groups: the cereals, the nuts, the others.
    pub rows: &'static [&'static [AllergenRow]],
}

impl AllergenList {
    /// Each substance.
    pub fn substances(&self) -> impl Iterator<Item = &'static AllergenRow> {
        self.rows.iter().copied().flatten()
    }

    /// Whether it is recalled and was not read.
    #[must_use]
    pub fn is_recalled(&self) -> bool {
        self.citation.known == Known::Memory
    }
}

/// One substance of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AllergenRow {
    /// Which.
    pub allergen: Allergen,
    /// The class the list names it under, empty where it stands by itself: `nuts`.
    pub class: &'static str,
    /// The word of the list: `hazelnut`.
    pub word: &'static str,
    /// On what it depends, where it does not always have to be declared.
    pub only_if: Option<&'static str>,
}

impl AllergenRow {
    /// Class and word as the list has them: `nuts: hazelnut`.
    #[must_use]
    pub fn classed(&self) -> String {
        if self.class.is_empty() { self.word.to_owned() } else { format!("{}: {}", self.class, self.word) }
    }
}

/// A form that a market exempts.
#[derive(Debug, PartialEq, Eq)]
pub struct Exempted {
    /// The form.
    pub form: Exemption,
    /// Where it is exempt.
    pub market: Market,
    /// When it must be declared all the same.
    pub unless: Option<&'static str>,
    /// Where it is written.
    pub citation: Citation,
}

/// What a market wants of an allergen in an ingredient.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ruling {
    /// No list of the market is held here.
    Unknown,
    /// It is not on the market's list.
    NotListed,
    /// It must be declared.
    Declare(&'static AllergenList, &'static AllergenRow),
    /// It must be declared if this holds.
    OnlyIf(&'static AllergenList, &'static AllergenRow, &'static str, &'static Citation),
    /// It need not be declared in this form.
    Exempt(&'static Exempted),
}

impl Ruling {
    /// Whether it must be declared, or may have to be.
    #[must_use]
    pub const fn is_due(&self) -> bool {
        matches!(self, Self::Declare(..) | Self::OnlyIf(..))
    }

    /// Whether it rests on rows that are recalled and were not read.
    #[must_use]
    pub fn is_recalled(&self) -> bool {
        match self {
            Self::Unknown | Self::NotListed => false,
            Self::Declare(list, _) => list.is_recalled(),
            Self::OnlyIf(list, _, _, citation) => list.is_recalled() || citation.known == Known::Memory,
            Self::Exempt(exempted) => exempted.citation.known == Known::Memory,
        }
    }
}

/// The lists of a market.
pub fn lists(market: Market) -> impl Iterator<Item = &'static AllergenList> {
    LISTS.iter().filter(move |list| list.market == market)
}

/// All that a market wants declared; none where no list of it is held here, so that the question stays open.
#[must_use]
pub fn declared(market: Market) -> Option<AllergenSet> {
    told(market).0
}

/// The allergens of which what a market wants is recalled, in a form that nothing exempts.
#[must_use]
pub fn recalled(market: Market) -> AllergenSet {
    told(market).1
}

/// Both of the above, put together once.
fn told(market: Market) -> (Option<AllergenSet>, AllergenSet) {
    static TOLD: LazyLock<Vec<(Option<AllergenSet>, AllergenSet)>> = LazyLock::new(|| {
        let rows = |list: &AllergenList| list.substances().map(|row| row.allergen).collect::<AllergenSet>();
        let declared = |market| lists(market).map(rows).reduce(AllergenSet::union);
        let recalled =
            |market| Allergen::ALL.iter().copied().filter(move |allergen| ruling(market, *allergen, None).is_recalled()).collect();
        Market::ALL.iter().map(|market| (declared(*market), recalled(*market))).collect()
    });
    TOLD.get(market as usize).copied().unwrap_or_default()
}

/// What a market wants of an allergen that an ingredient brings, in an exempt form or not.
#[must_use]
pub fn ruling(market: Market, allergen: Allergen, form: Option<Exemption>) -> Ruling {
    let mut held = lists(market).peekable();
    if held.peek().is_none() {
        return Ruling::Unknown;
    }
    let found = held.find_map(|list| list.substances().find(|row| row.allergen == allergen).map(|row| (list, row)));
    let Some((list, row)) = found else { return Ruling::NotListed };
    let exempted = form.and_then(|form| EXEMPTED.iter().find(|exempted| exempted.form == form && exempted.market == market));
    match (exempted, row.only_if) {
        (Some(exempted), _) => match exempted.unless {
            Some(condition) => Ruling::OnlyIf(list, row, condition, &exempted.citation),
            None => Ruling::Exempt(exempted),
        },
        (None, Some(condition)) => Ruling::OnlyIf(list, row, condition, &list.citation),
        (None, None) => Ruling::Declare(list, row),
    }
}

const fn row(allergen: Allergen, class: &'static str, word: &'static str) -> AllergenRow {
    AllergenRow { allergen, class, word, only_if: None }
}

/// The nuts that most lists name, under the class of each.
const fn nuts(class: &'static str) -> [AllergenRow; 8] {
    [
        row(Allergen::Almond, class, "almond"),
        row(Allergen::Hazelnut, class, "hazelnut"),
        row(Allergen::Walnut, class, "walnut"),
        row(Allergen::Pecan, class, "pecan"),
        row(Allergen::Cashew, class, "cashew"),
        row(Allergen::Pistachio, class, "pistachio"),
        row(Allergen::Macadamia, class, "macadamia"),
        row(Allergen::BrazilNut, class, "Brazil nut"),
    ]
}

/// The cereals that contain gluten, under the class of each list.
const fn gluten(class: &'static str) -> [AllergenRow; 4] {
    [
        row(Allergen::Wheat, class, "wheat"),
        row(Allergen::Barley, class, "barley"),
        row(Allergen::Oats, class, "oats"),
        row(Allergen::Rye, class, "rye"),
    ]
}

const GLUTEN: &str = "cereals containing gluten";
/// Annex II of Regulation (EU) 1169/2011.
const ANNEX_II: &[&[AllergenRow]] = &[
    &nuts("nuts"),
    &gluten(GLUTEN),
    &[
        row(Allergen::Milk, "", "milk"),
        row(Allergen::Egg, "", "eggs"),
        row(Allergen::Soy, "", "soybeans"),
        row(Allergen::Peanut, "", "peanuts"),
        row(Allergen::Sesame, "", "sesame"),
        row(Allergen::Fish, "", "fish"),
        row(Allergen::Crustaceans, "", "crustaceans"),
        row(Allergen::Molluscs, "", "molluscs"),
        row(Allergen::Lupin, "", "lupin"),
        row(Allergen::Mustard, "", "mustard"),
        row(Allergen::Celery, "", "celery"),
        AllergenRow { only_if: Some("above 10 mg/kg as total sulphur dioxide"), ..row(Allergen::Sulphites, "", "sulphites") },
    ],
];
const EU_COPY: &str = "https://paninolab.it/paninolab-allergenic-ingredients-EN.html";
const UK_PAGE: &str = "https://gov.uk/government/consultations/food-labelling-changing-food-allergen-information-laws/outcome/summary-of-responses-and-government-response";
const US_PAGE: &str =
    "https://engage.hoganlovells.com/knowledgeservices/news/fda-issues-final-and-draft-guidance-on-allergen-labeling-requirements";
const CA_PAGE: &str =
    "https://www.canada.ca/en/health-canada/services/food-allergies-intolerances/avoiding-allergens-food/allergen-labelling.html";
const EU: &str = "Regulation (EU) 1169/2011";
const UK: &str = "Regulation (EU) 1169/2011 as kept in the law of the UK";
const US: &str = "FD&C Act, FALCPA 2004, FASTER Act 2021";
const CA: &str = "Food and Drug Regulations";
const AU_NZ: &str = "Food Standards Code, Standard 1.2.3 and Schedule 9";

/// Every list that is held here. A market without one answers unknown.
pub static LISTS: &[AllergenList] = &[
    AllergenList {
        market: Market::Eu,
        wording: Wording::Emphasis,
        note: "",
        citation: Citation::read(EU, "Annex II, Art 21", Known::Seen, EU_COPY),
        rows: ANNEX_II,
    },
    // The page of 2019 says that the list of 14 and its emphasis hold in the UK; the text as kept since was not read.
    AllergenList {
        market: Market::Uk,
        wording: Wording::Emphasis,
        note: "",
        citation: Citation::read(UK, "Annex II, Art 21", Known::Mixed, UK_PAGE),
        rows: ANNEX_II,
    },
    AllergenList {
        market: Market::Us,
        wording: Wording::Contains,
        note: "",
        citation: Citation::read(US, "403(w)", Known::Seen, US_PAGE),
        rows: &[
            &nuts("tree nut"),
            &[
                row(Allergen::Milk, "", "milk"),
                row(Allergen::Egg, "", "egg"),
                row(Allergen::Soy, "", "soy"),
                row(Allergen::Peanut, "", "peanut"),
                row(Allergen::Sesame, "", "sesame"),
                row(Allergen::Wheat, "", "wheat"),
                row(Allergen::Fish, "", "fish"),
                row(Allergen::Crustaceans, "", "crustacean shellfish"),
            ],
        ],
    },
    AllergenList {
        market: Market::Us,
        wording: Wording::Contains,
        note: "",
        citation: Citation::of("FDA guidance on allergens, edition 5, January 2025", "list of tree nuts", Known::Memory),
        rows: &[&[row(Allergen::PineNut, "tree nut", "pine nut")]],
    },
    AllergenList {
        market: Market::Us,
        wording: Wording::Contains,
        note: "",
        citation: Citation::of("21 CFR", "101.100(a)(4)", Known::Memory),
        rows: &[&[AllergenRow { only_if: Some("10 mg/kg or more as sulphur dioxide"), ..row(Allergen::Sulphites, "", "sulfites") }]],
    },
    AllergenList {
        market: Market::Ca,
        wording: Wording::Contains,
        note: "",
        citation: Citation::read(CA, "B.01.010.1", Known::Seen, CA_PAGE),
        rows: &[
            &nuts("tree nuts"),
            &[
                row(Allergen::Milk, "", "milk"),
                row(Allergen::Egg, "", "eggs"),
                row(Allergen::Soy, "", "soy"),
                row(Allergen::Peanut, "", "peanuts"),
                row(Allergen::Sesame, "", "sesame seeds"),
                row(Allergen::Wheat, "", "wheat"),
                row(Allergen::Barley, "gluten", "barley"),
                row(Allergen::Oats, "gluten", "oats"),
                row(Allergen::Rye, "gluten", "rye"),
                row(Allergen::PineNut, "tree nuts", "pine nut"),
                row(Allergen::Fish, "", "fish"),
                row(Allergen::Crustaceans, "", "crustaceans"),
                row(Allergen::Molluscs, "", "molluscs"),
                row(Allergen::Mustard, "", "mustard"),
                AllergenRow { only_if: Some("10 mg/kg or more"), ..row(Allergen::Sulphites, "", "sulphites") },
            ],
        ],
    },
    AllergenList {
        market: Market::AuNz,
        wording: Wording::Summary,
        note: "",
        citation: Citation::of(AU_NZ, "S9-3", Known::Memory),
        rows: &[
            &nuts(""),
            &[
                row(Allergen::Milk, "", "milk"),
                row(Allergen::Egg, "", "egg"),
                row(Allergen::Soy, "", "soy"),
                row(Allergen::Peanut, "", "peanut"),
                row(Allergen::Sesame, "", "sesame"),
                row(Allergen::Wheat, "", "wheat"),
                row(Allergen::Barley, "gluten", "barley"),
                row(Allergen::Oats, "gluten", "oats"),
                row(Allergen::Rye, "gluten", "rye"),
                row(Allergen::PineNut, "", "pine nut"),
                row(Allergen::Fish, "", "fish"),
                row(Allergen::Crustaceans, "", "crustacean"),
                row(Allergen::Molluscs, "", "mollusc"),
                row(Allergen::Lupin, "", "lupin"),
                AllergenRow { only_if: Some("10 mg/kg or more"), ..row(Allergen::Sulphites, "", "sulphites") },
            ],
        ],
    },
    // The page is the proposal as it stood before the Commission.
    AllergenList {
        market: Market::Codex,
        wording: Wording::Named,
        note: "",
        citation: Citation::read("CXS 1-1985", "4.2.1.4", Known::Mixed, "https://fao.org/4/W1715E/W1715E05.htm"),
        rows: &[
            &nuts("tree nuts"),
            &gluten(GLUTEN),
            &[
                row(Allergen::Crustaceans, "", "crustacea"),
                row(Allergen::Egg, "", "eggs"),
                row(Allergen::Fish, "", "fish"),
                row(Allergen::Peanut, "", "peanuts"),
                row(Allergen::Soy, "", "soybeans"),
                row(Allergen::Milk, "", "milk"),
                row(Allergen::PineNut, "tree nuts", "pine nut"),
                AllergenRow { only_if: Some("10 mg/kg or more"), ..row(Allergen::Sulphites, "", "sulphite") },
            ],
        ],
    },
    AllergenList {
        market: Market::Jp,
        wording: Wording::Named,
        note: "",
        citation: Citation {
            instrument: Cow::Borrowed("Food Labeling Standards"),
            section: Cow::Borrowed("Appended Table 14"),
            version: Some(Cow::Borrowed("2023-03-09")),
            known: Known::Seen,
            address: Cow::Borrowed("https://label-bank.com/blog/author/label-bank/page/2"),
        },
        rows: &[&[
            row(Allergen::Walnut, "", "walnut"),
            row(Allergen::Wheat, "", "wheat"),
            row(Allergen::Buckwheat, "", "buckwheat"),
            row(Allergen::Egg, "", "egg"),
            row(Allergen::Milk, "", "milk"),
            row(Allergen::Peanut, "", "peanut"),
            AllergenRow { only_if: Some("they are shrimp or crab"), ..row(Allergen::Crustaceans, "", "shrimp or crab") },
        ]],
    },
    AllergenList {
        market: Market::Jp,
        wording: Wording::Named,
        note: "gelatine, orange, kiwi fruit, peach, apple, banana and others are recommended to be told there too, and are no allergens here",
        citation: Citation::read(
            "notice of the Consumer Affairs Agency",
            "recommended items",
            Known::Seen,
            "https://allergenbureau.net/another-nut-added-to-japans-allergen-labelling-list/",
        ),
        rows: &[&[
            AllergenRow { only_if: RECOMMENDED, ..row(Allergen::Almond, "", "almond") },
            AllergenRow { only_if: RECOMMENDED, ..row(Allergen::Cashew, "", "cashew nut") },
            AllergenRow { only_if: RECOMMENDED, ..row(Allergen::Sesame, "", "sesame") },
            AllergenRow { only_if: RECOMMENDED, ..row(Allergen::Soy, "", "soybean") },
            AllergenRow { only_if: Some("it is salmon or mackerel"), ..row(Allergen::Fish, "", "fish") },
            AllergenRow { only_if: Some("they are abalone or squid"), ..row(Allergen::Molluscs, "", "molluscs") },
        ]],
    },
];

const RECOMMENDED: Option<&str> = Some("what is recommended is told too");

const fn exempt(form: Exemption, market: Market, unless: Option<&'static str>, citation: Citation) -> Exempted {
    Exempted { form, market, unless, citation }
}

const fn annex_ii(form: Exemption) -> Exempted {
    exempt(form, Market::Eu, None, Citation::read(EU, "Annex II, exceptions", Known::Seen, EU_COPY))
}

const fn kept_annex_ii(form: Exemption) -> Exempted {
    exempt(form, Market::Uk, None, Citation::of(UK, "Annex II, exceptions", Known::Memory))
}

const PROTEIN: Option<&str> = Some("protein remains in it");

/// Every exemption that is held here. What is not exempt is declared.
pub static EXEMPTED: &[Exempted] = &[
    annex_ii(Exemption::CerealSyrup),
    annex_ii(Exemption::Distillate),
    annex_ii(Exemption::RefinedOil),
    annex_ii(Exemption::Lactitol),
    kept_annex_ii(Exemption::CerealSyrup),
    kept_annex_ii(Exemption::Distillate),
    kept_annex_ii(Exemption::RefinedOil),
    kept_annex_ii(Exemption::Lactitol),
    exempt(Exemption::CerealSyrup, Market::Us, PROTEIN, Citation::of(US, "201(qq)", Known::Memory)),
    exempt(Exemption::Distillate, Market::Us, None, Citation::of(US, "201(qq)", Known::Memory)),
    exempt(Exemption::RefinedOil, Market::Us, None, Citation::of(US, "201(qq)(2)(A)", Known::Memory)),
    exempt(Exemption::CerealSyrup, Market::Ca, PROTEIN, Citation::of(CA, "B.01.010.1", Known::Memory)),
    exempt(Exemption::Distillate, Market::Ca, None, Citation::of(CA, "B.01.010.1", Known::Memory)),
    exempt(Exemption::RefinedOil, Market::Ca, PROTEIN, Citation::of(CA, "B.01.010.1", Known::Memory)),
    exempt(Exemption::CerealSyrup, Market::AuNz, Some("it holds more than 20 mg/kg of gluten"), Citation::of(AU_NZ, "S9-3", Known::Memory)),
    exempt(Exemption::Distillate, Market::AuNz, None, Citation::of(AU_NZ, "S9-3", Known::Memory)),
    exempt(Exemption::RefinedOil, Market::AuNz, None, Citation::of(AU_NZ, "S9-3", Known::Memory)),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Choice;

    #[test]
    fn pine_nut_is_declared_in_the_us_and_not_in_the_eu() {
        assert_eq!(ruling(Market::Eu, Allergen::PineNut, None), Ruling::NotListed);
        let us = ruling(Market::Us, Allergen::PineNut, None);
        assert!(us.is_due() && us.is_recalled());
        assert_eq!(ruling(Market::Jp, Allergen::PineNut, None), Ruling::NotListed);
    }

    #[test]
    fn no_list_names_a_substance_twice() {
        for market in Market::ALL.iter().copied() {
            let rows = lists(market).flat_map(AllergenList::substances).count();
            assert_eq!(declared(market).map(AllergenSet::len), u32::try_from(rows).ok(), "{market:?}");
        }
    }

    #[test]
    fn wheat_syrup_is_exempt_in_the_eu_and_asks_for_its_protein_in_the_us() {
        let ruling = |market| ruling(market, Allergen::Wheat, Some(Exemption::CerealSyrup));
        assert!(matches!(ruling(Market::Eu), Ruling::Exempt(exempted) if exempted.citation.known == Known::Seen));
        assert!(matches!(ruling(Market::Us), Ruling::OnlyIf(_, _, "protein remains in it", citation) if citation.known == Known::Memory));
    }
}
