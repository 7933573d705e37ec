//! What a nutrition declaration lists, the energy of nutrients, daily values and how all are rounded, by market: arithmetic of the regulations alone.

use super::Citation;
use crate::matter::{Known, Market};
use crate::units::choices;
use std::fmt;

choices! {
    /// What a nutrition declaration tells.
    Nutrient: "a nutrient" {
        /// Fat, phospholipids included.
        Fat "fat",
        /// Saturated fatty acids.
        Saturates "saturates",
        /// Carbohydrate: in the EU without fibre and with polyols, in the US by difference, fibre included.
        Carbohydrate "carbohydrate",
        /// Sugars of one and two units.
        Sugars "sugars",
        /// Polyols.
        Polyols "polyols",
        /// Fibre.
        Fibre "fibre",
        /// Protein.
        Protein "protein",
        /// Salt: sodium times 2.5, wherever the sodium comes from.
        Salt "salt",
        /// Sodium.
        Sodium "sodium",
        /// Trans fatty acids.
        TransFat "trans-fat",
        /// Cholesterol.
        Cholesterol "cholesterol",
        /// Sugars that were added, part of the sugars.
        AddedSugars "added-sugars",
        /// Vitamin D.
        VitaminD "vitamin-d",
        /// Calcium.
        Calcium "calcium",
        /// Iron.
        Iron "iron",
        /// Potassium.
        Potassium "potassium",
    }
}

impl Nutrient {
    /// The unit it is declared in, and how many of it a gram is.
    #[must_use]
    pub const fn unit(self) -> (&'static str, f64) {
        match self {
            Self::Sodium | Self::Cholesterol | Self::Calcium | Self::Iron | Self::Potassium => ("mg", 1e3),
            Self::VitaminD => ("µg", 1e6),
            _ => ("g", 1.0),
        }
    }
}

/// What bears energy, in grams, of whatever amount is declared.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Energetic {
    /// Carbohydrate: as [`Nutrient::Carbohydrate`] of the market.
    pub carbohydrate: f64,
    /// Polyols without erythritol, part of the carbohydrate.
    pub polyols: f64,
    /// Erythritol, part of the carbohydrate.
    pub erythritol: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Fibre.
    pub fibre: f64,
    /// Ethanol.
    pub ethanol: f64,
    /// Organic acids.
    pub acids: f64,
}

/// Energy, not rounded. Kilojoules are no multiple of the kilocalories: each has its own factors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Energy {
    /// Kilocalories.
    pub kilocalories: f64,
    /// Kilojoules, where the market's factors give them.
    pub kilojoules: Option<f64>,
}

/// The energy factors of a market, per gram.
#[derive(Debug, PartialEq)]
pub struct Factors {
    /// The markets.
    pub markets: &'static [Market],
    /// Where they are written.
    pub citation: Citation,
    kilocalories: PerGram,
    kilojoules: Option<PerGram>,
}

#[derive(Debug, PartialEq)]
struct PerGram {
    carbohydrate: f64,
    polyols: f64,
    erythritol: f64,
    protein: f64,
    fat: f64,
    fibre: f64,
    ethanol: f64,
    acids: f64,
}

impl PerGram {
    fn of(&self, content: &Energetic) -> f64 {
        self.carbohydrate * (content.carbohydrate - content.polyols - content.erythritol)
            + self.polyols * content.polyols
            + self.erythritol * content.erythritol
            + self.protein * content.protein
            + self.fat * content.fat
            + self.fibre * content.fibre
            + self.ethanol * content.ethanol
            + self.acids * content.acids
    }
}

impl Factors {
    /// The factors of a market; none where they are not held here.
    #[must_use]
    pub fn of(market: Market) -> Option<&'static Self> {
        FACTORS.iter().find(|factors| factors.markets.contains(&market))
    }

    /// The energy of so much.
    #[must_use]
    pub fn energy(&self, content: &Energetic) -> Energy {
        Energy { kilocalories: self.kilocalories.of(content), kilojoules: self.kilojoules.as_ref().map(|factors| factors.of(content)) }
    }
}

static FACTORS: &[Factors] = &[
    Factors {
        markets: &[Market::Eu, Market::Uk],
        citation: Citation::read(
            "Regulation (EU) 1169/2011",
            "Annex XIV",
            Known::Seen,
            "https://vethyqua.scenari.eu/clients/ReglementationHygiene-HACCP_DcoD/co/09-14-Anx14.html",
        ),
        kilocalories: PerGram {
            carbohydrate: 4.0,
            polyols: 2.4,
            erythritol: 0.0,
            protein: 4.0,
            fat: 9.0,
            fibre: 2.0,
            ethanol: 7.0,
            acids: 3.0,
        },
        kilojoules: Some(PerGram {
            carbohydrate: 17.0,
            polyols: 10.0,
            erythritol: 0.0,
            protein: 17.0,
            fat: 37.0,
            fibre: 8.0,
            ethanol: 29.0,
            acids: 13.0,
        }),
    },
    // Carbohydrate by difference holds fibre, polyols and acids, so they bear 4 with it; ethanol at 7 is practice.
    Factors {
        markets: &[Market::Us],
        citation: Citation::of("21 CFR", "101.9(c)(1)(i)(B), ethanol by practice", Known::Memory),
        kilocalories: PerGram {
            carbohydrate: 4.0,
            polyols: 4.0,
            erythritol: 4.0,
            protein: 4.0,
            fat: 9.0,
            fibre: 0.0,
            ethanol: 7.0,
            acids: 0.0,
        },
        kilojoules: None,
    },
];

/// Salt as the EU defines it: sodium of any origin, times 2.5 (Regulation (EU) 1169/2011, Annex I(11), read at
/// <https://bryantresearch.co.uk/foodlaw/label/nutrition-definitions.htm>).
#[must_use]
pub fn salt(sodium: f64) -> f64 {
    2.5 * sodium
}

/// A value as a declaration prints it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rounded {
    /// A number with so many decimals.
    Number {
        /// The value, a whole number of steps.
        value: f64,
        /// How many decimals its step has.
        decimals: usize,
    },
    /// So little that a fixed phrase stands instead: `<0.5`.
    Phrase(&'static str),
}

impl fmt::Display for Rounded {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Phrase(phrase) => f.write_str(phrase),
            Self::Number { value, decimals } => {
                let text = format!("{value:.decimals$}");
                f.write_str(if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text })
            }
        }
    }
}

/// How a market's declarations round.
#[derive(Debug, PartialEq)]
pub struct Rounding {
    /// The markets.
    pub markets: &'static [Market],
    /// Where it is written.
    pub citation: Citation,
    /// Nutrients with a rule of their own.
    own: &'static [(&'static [Nutrient], &'static [Step])],
    others: &'static [Step],
    energy: &'static [Step],
}

/// What is done up to a value.
#[derive(Debug, PartialEq)]
struct Step {
    /// The largest value of the step; the last step has none.
    to: f64,
    /// Whether that value belongs to it.
    inclusive: bool,
    shown: Shown,
}

#[derive(Debug, PartialEq)]
enum Shown {
    Phrase(&'static str),
    Nearest(f64, usize),
}

impl Rounding {
    /// How a market rounds; none where it is not held here.
    #[must_use]
    pub fn of(market: Market) -> Option<&'static Self> {
        ROUNDING.iter().find(|rounding| rounding.markets.contains(&market))
    }

    /// A nutrient as it is printed, in its [`Nutrient::unit`]. Halves go up.
    #[must_use]
    pub fn nutrient(&self, nutrient: Nutrient, amount: f64) -> Rounded {
        let own = self.own.iter().find(|(nutrients, _)| nutrients.contains(&nutrient));
        rounded(own.map_or(self.others, |(_, steps)| *steps), amount)
    }

    /// An energy as it is printed.
    #[must_use]
    pub fn energy(&self, amount: f64) -> Rounded {
        rounded(self.energy, amount)
    }
}

fn rounded(steps: &[Step], amount: f64) -> Rounded {
    // Unit conversions must not decide at an edge.
    let amount = (amount.max(0.0) * 1e9).round() / 1e9;
    let step = steps.iter().find(|step| amount < step.to || (step.inclusive && amount <= step.to));
    match step.map(|step| &step.shown) {
        Some(Shown::Phrase(phrase)) => Rounded::Phrase(phrase),
        Some(Shown::Nearest(step, decimals)) => {
            let steps = (amount / step + 0.5 + 1e-9).floor();
            Rounded::Number { value: steps * step, decimals: *decimals }
        }
        None => Rounded::Number { value: amount, decimals: 2 },
    }
}

const fn phrase(to: f64, inclusive: bool, phrase: &'static str) -> Step {
    Step { to, inclusive, shown: Shown::Phrase(phrase) }
}

const fn nearest(to: f64, inclusive: bool, step: f64, decimals: usize) -> Step {
    Step { to, inclusive, shown: Shown::Nearest(step, decimals) }
}

const LAST: f64 = f64::INFINITY;

static ROUNDING: &[Rounding] = &[
    Rounding {
        markets: &[Market::Eu, Market::Uk],
        citation: Citation::read(
            "Commission guidance on tolerances, December 2012",
            "section 6",
            Known::Seen,
            "https://www.hellaschem.gr/en/news-publications/241-food-labeling-the-dietary-declaration-table",
        ),
        own: &[
            (&[Nutrient::Saturates], &[phrase(0.1, true, "<0.1"), nearest(10.0, false, 0.1, 1), nearest(LAST, true, 1.0, 0)]),
            (&[Nutrient::Salt], &[phrase(0.0125, true, "<0.01"), nearest(1.0, false, 0.01, 2), nearest(LAST, true, 0.1, 1)]),
        ],
        others: &[phrase(0.5, true, "<0.5"), nearest(10.0, false, 0.1, 1), nearest(LAST, true, 1.0, 0)],
        energy: &[nearest(LAST, true, 1.0, 0)],
    },
    Rounding {
        markets: &[Market::Us],
        citation: Citation::read("21 CFR", "101.9(c)", Known::Seen, "http://www.fda.gov/iceci/inspections/inspectionguides/ucm114098.htm"),
        own: &[
            (
                &[Nutrient::Fat, Nutrient::Saturates, Nutrient::TransFat],
                &[phrase(0.5, false, "0"), nearest(5.0, false, 0.5, 1), nearest(LAST, true, 1.0, 0)],
            ),
            (&[Nutrient::Sodium], &[phrase(5.0, false, "0"), nearest(140.0, true, 5.0, 0), nearest(LAST, true, 10.0, 0)]),
            (&[Nutrient::Cholesterol], &[phrase(2.0, false, "0"), phrase(5.0, true, "<5"), nearest(LAST, true, 5.0, 0)]),
            // Recalled: tenths below 25 of a daily value, tens from 250, and nothing below a fiftieth of it.
            (&[Nutrient::VitaminD], &[phrase(0.4, false, "0"), nearest(LAST, true, 0.1, 1)]),
            (&[Nutrient::Iron], &[phrase(0.36, false, "0"), nearest(LAST, true, 0.1, 1)]),
            (&[Nutrient::Calcium], &[phrase(26.0, false, "0"), nearest(LAST, true, 10.0, 0)]),
            (&[Nutrient::Potassium], &[phrase(94.0, false, "0"), nearest(LAST, true, 10.0, 0)]),
        ],
        others: &[phrase(0.5, false, "0"), phrase(1.0, false, "<1"), nearest(LAST, true, 1.0, 0)],
        energy: &[phrase(5.0, false, "0"), nearest(50.0, true, 5.0, 0), nearest(LAST, true, 10.0, 0)],
    },
];

/// The daily values of a market, which the per cent of a declaration are of.
#[derive(Debug, PartialEq)]
pub struct DailyValues {
    /// The markets.
    pub markets: &'static [Market],
    /// Where the values are written.
    pub citation: Citation,
    /// Where the rounding of the per cent is written.
    pub rounding: Citation,
    /// In the unit of each nutrient.
    values: &'static [(Nutrient, f64)],
    /// Those of vitamins and minerals, whose per cent are rounded otherwise.
    minor: &'static [(Nutrient, f64)],
}

impl DailyValues {
    /// The daily values of a market; none where they are not held here.
    #[must_use]
    pub fn of(market: Market) -> Option<&'static Self> {
        DAILY_VALUES.iter().find(|daily| daily.markets.contains(&market))
    }

    /// The daily value of a nutrient in its unit; none where it has none.
    #[must_use]
    pub fn value(&self, nutrient: Nutrient) -> Option<f64> {
        self.values.iter().chain(self.minor).find(|(of, _)| *of == nutrient).map(|(_, value)| *value)
    }

    /// The per cent of the daily value that an amount in the unit of the nutrient is, as printed.
    #[must_use]
    pub fn percent(&self, nutrient: Nutrient, amount: f64) -> Option<Rounded> {
        let percent = 100.0 * amount / self.value(nutrient)?;
        let minor = self.minor.iter().any(|(of, _)| *of == nutrient);
        Some(rounded(if minor { PERCENT_OF_MINOR } else { PERCENT }, percent))
    }
}

const PERCENT: &[Step] = &[nearest(LAST, true, 1.0, 0)];
const PERCENT_OF_MINOR: &[Step] =
    &[phrase(2.0, false, "0"), nearest(10.0, true, 2.0, 0), nearest(50.0, true, 5.0, 0), nearest(LAST, true, 10.0, 0)];

static DAILY_VALUES: &[DailyValues] = &[DailyValues {
    markets: &[Market::Us],
    // Read in a copy of the tables of the final rule of May 2016, not in the regulation.
    citation: Citation::read(
        "21 CFR",
        "101.9(c)(9) and (c)(8)(iv)",
        Known::Mixed,
        "https://netrition.com/pages/reference-values-for-nutrition-labeling",
    ),
    // Read as others quote it.
    rounding: Citation::read(
        "21 CFR",
        "101.9(d)(7)(ii) and (c)(8)(iii)",
        Known::Mixed,
        "https://www.accessdata.fda.gov/scripts/cdrh/cfdocs/cfcfr/cfrsearch.cfm?fr=101.9",
    ),
    values: &[
        (Nutrient::Fat, 78.0),
        (Nutrient::Saturates, 20.0),
        (Nutrient::Cholesterol, 300.0),
        (Nutrient::Sodium, 2300.0),
        (Nutrient::Carbohydrate, 275.0),
        (Nutrient::Fibre, 28.0),
        (Nutrient::AddedSugars, 50.0),
    ],
    minor: &[(Nutrient::VitaminD, 20.0), (Nutrient::Calcium, 1300.0), (Nutrient::Iron, 18.0), (Nutrient::Potassium, 4700.0)],
}];

/// What a market's declaration lists, where no more is held of it: no energy factors, no rounding.
#[derive(Debug, PartialEq)]
pub struct Listed {
    /// The market.
    pub market: Market,
    /// Where it is written.
    pub citation: Citation,
    /// The nutrients after the energy, in the order of the declaration.
    pub nutrients: &'static [Nutrient],
    /// Whether its carbohydrate is what is left by difference, fibre included. Recalled.
    pub by_difference: bool,
}

impl Listed {
    /// What a market lists; none where it is not held here.
    #[must_use]
    pub fn of(market: Market) -> Option<&'static Self> {
        LISTED.iter().find(|listed| listed.market == market)
    }
}

static LISTED: &[Listed] = &[
    Listed {
        market: Market::AuNz,
        citation: Citation::read(
            "Food Standards Code",
            "Schedule 12, S12-2",
            Known::Seen,
            "https://www.legislation.gov.au/F2015L00482/2017-04-13/2017-04-13/text/original/epub/OEBPS/document_1/document_1.html",
        ),
        nutrients: &[Nutrient::Protein, Nutrient::Fat, Nutrient::Saturates, Nutrient::Carbohydrate, Nutrient::Sugars, Nutrient::Sodium],
        by_difference: false,
    },
    Listed {
        market: Market::Ca,
        citation: Citation::read(
            "Food and Drug Regulations",
            "B.01.401",
            Known::Mixed,
            "http://www.inspection.gc.ca/food/labelling/food-labelling-for-industry/nutrition-labelling/information-within-the-nutrition-facts-table/eng/1389198568400/1389198597278?chap=0",
        ),
        nutrients: &[
            Nutrient::Fat,
            Nutrient::Saturates,
            Nutrient::TransFat,
            Nutrient::Carbohydrate,
            Nutrient::Fibre,
            Nutrient::Sugars,
            Nutrient::Protein,
            Nutrient::Cholesterol,
            Nutrient::Sodium,
            Nutrient::Potassium,
            Nutrient::Calcium,
            Nutrient::Iron,
        ],
        by_difference: true,
    },
    Listed {
        market: Market::Jp,
        citation: Citation::read(
            "Food Labeling Standards",
            "Art 3",
            Known::Mixed,
            "https://focuslabasia.com/single-post/2018/05/11/japan-guidelines-for-nutrition-labelling",
        ),
        nutrients: &[Nutrient::Protein, Nutrient::Fat, Nutrient::Carbohydrate, Nutrient::Salt],
        by_difference: true,
    },
    Listed {
        market: Market::Codex,
        citation: Citation::of("CXG 2-1985", "3.2.1", Known::Memory),
        nutrients: &[Nutrient::Protein, Nutrient::Carbohydrate, Nutrient::Sugars, Nutrient::Fat, Nutrient::Saturates, Nutrient::Sodium],
        by_difference: false,
    },
];

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Choice;
    use proptest::prelude::*;

    /// What the printed number rounds to again.
    fn again(rounding: &Rounding, nutrient: Nutrient, printed: Rounded) -> Option<Rounded> {
        match printed {
            Rounded::Number { value, .. } => Some(rounding.nutrient(nutrient, value)),
            Rounded::Phrase(_) => None,
        }
    }

    proptest! {
        /// A number that was rounded rounds to itself, unless rounding carried it down onto the edge below which the guidance prints a phrase
        /// (0.51 g of fat is 0.5 g, and 0.5 g is "<0.5").
        #[test]
        fn rounding_twice_is_rounding_once(amount in 0.0..2000.0_f64, nutrient in prop::sample::select(Nutrient::ALL)) {
            for market in [Market::Eu, Market::Us] {
                let rounding = Rounding::of(market).unwrap();
                let once = rounding.nutrient(nutrient, amount);
                match again(rounding, nutrient, once) {
                    Some(Rounded::Phrase(phrase)) => {
                        let of_guidance = market == Market::Eu && once.to_string() == phrase.trim_start_matches('<');
                        // 94.5 mg of potassium, 2 % of its daily value, are 90 mg, and 90 mg are less than 2 %.
                        let of_potassium = nutrient == Nutrient::Potassium && amount < 95.0;
                        // "<5" holds 5 mg of cholesterol too.
                        let of_cholesterol = nutrient == Nutrient::Cholesterol && phrase == "<5";
                        prop_assert!(of_guidance || of_potassium || of_cholesterol, "{once} became {phrase}");
                    }
                    Some(twice) => prop_assert_eq!(twice.to_string(), once.to_string()),
                    None => {}
                }
            }
        }

        #[test]
        fn rounding_keeps_order_and_stays_within_half_a_step(one in 0.0..200.0_f64, more in 0.0..50.0_f64) {
            let rounding = Rounding::of(Market::Eu).unwrap();
            if let (Rounded::Number { value: low, .. }, Rounded::Number { value: high, .. }) =
                (rounding.nutrient(Nutrient::Fat, one), rounding.nutrient(Nutrient::Fat, one + more)) {
                prop_assert!(low <= high + 1e-9);
                prop_assert!((low - one).abs() <= 0.5 + 1e-9);
            }
        }
    }

    #[test]
    fn the_per_cent_of_vitamins_and_minerals_go_in_coarser_steps() {
        let us = DailyValues::of(Market::Us).unwrap();
        let percent = |nutrient, amount| us.percent(nutrient, amount).map(|printed| printed.to_string());
        assert_eq!(percent(Nutrient::Fat, 9.72).as_deref(), Some("12"), "9.72 of 78 g");
        assert_eq!(percent(Nutrient::AddedSugars, 13.2).as_deref(), Some("26"), "13.2 of 50 g");
        assert_eq!(percent(Nutrient::Iron, 0.3).as_deref(), Some("0"), "1.7 %");
        assert_eq!(percent(Nutrient::Iron, 1.3).as_deref(), Some("8"), "7.2 %");
        assert_eq!(percent(Nutrient::Iron, 4.0).as_deref(), Some("20"), "22.2 %");
        assert_eq!((percent(Nutrient::Sugars, 9.0), percent(Nutrient::Protein, 9.0)), (None, None));
        assert_eq!(DailyValues::of(Market::Eu), None);
    }

    #[test]
    fn halves_go_up() {
        let eu = Rounding::of(Market::Eu).unwrap();
        assert_eq!(eu.nutrient(Nutrient::Protein, 4.05).to_string(), "4.1");
        assert_eq!(eu.nutrient(Nutrient::Salt, 2.5 * 0.42).to_string(), "1.1");
        assert_eq!(eu.nutrient(Nutrient::Fat, 10.5).to_string(), "11");
    }
}
