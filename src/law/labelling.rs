//! What a market asks of a label, one row a rule. A rule without a row for a market is unknown there.

use super::Citation;
use crate::matter::{Known, Market};

/// What a row rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LabelRule {
    /// Ingredients stand in descending order of weight.
    Order,
    /// Small amounts may stand at the end: the shares up to which they may.
    SmallAmounts,
    /// Added water up to this share of the finished product may be left out; more stands where its weight in the product puts it.
    AddedWater,
    /// What a compound ingredient is made of stands in brackets after it.
    Compound,
    /// Below this share of the finished product it need not, where the compound is defined in law.
    CompoundSmall,
    /// An additive stands with the name of its class.
    AdditiveClass,
    /// A lecithin names its plant.
    LecithinPlant,
    /// What is stressed stands with its quantity: mass used over mass of the finished product.
    Quantity,
    /// The total dry cocoa solids stand on the label.
    CocoaSolids,
    /// Above this share of added polyols a statement is due.
    PolyolStatement,
    /// A food that holds a sweetener says so beside its name.
    SweetenerStatement,
    /// The amount that a nutrition declaration is for.
    Serving,
    /// The net quantity stands on the label, from this mass in kilograms.
    NetQuantity,
}

/// One row.
#[derive(Debug, PartialEq)]
pub struct LabelRow {
    /// What it rules.
    pub rule: LabelRule,
    /// Where.
    pub markets: &'static [Market],
    /// The figures it names, as fractions or kilograms, the largest first; none where it has none.
    pub limits: &'static [f64],
    /// Where it is written.
    pub citation: Citation,
}

impl LabelRow {
    /// The largest figure; nothing where there is none.
    #[must_use]
    pub fn limit(&self) -> f64 {
        self.limits.first().copied().unwrap_or(0.0)
    }
}

/// The row of a rule in a market; none where no such row is held here.
#[must_use]
pub fn row(market: Market, rule: LabelRule) -> Option<&'static LabelRow> {
    ROWS.iter().find(|row| row.rule == rule && row.markets.contains(&market))
}

/// Whether a market's statement on polyols is due on a food with this share of added polyols; none where no rule is held here. Above, not at
/// the limit: what is the limit but for rounding is at it.
#[must_use]
pub fn polyol_statement_due(market: Market, polyols: f64) -> Option<bool> {
    row(market, LabelRule::PolyolStatement).map(|row| polyols > row.limit() * (1.0 + 1e-9))
}

/// The name by which a market lists a thing that this crate calls otherwise.
#[must_use]
pub fn name(market: Market, usual: &str) -> Option<(&'static str, &'static Citation)> {
    NAMES.iter().find(|(markets, from, ..)| markets.contains(&market) && *from == usual).map(|(_, _, to, citation)| (*to, citation))
}

const EU_UK: &[Market] = &[Market::Eu, Market::Uk];
const US: &[Market] = &[Market::Us];
const CA: &[Market] = &[Market::Ca];

const fn of(
    rule: LabelRule,
    markets: &'static [Market],
    limits: &'static [f64],
    instrument: &'static str,
    section: &'static str,
    known: Known,
    address: &'static str,
) -> LabelRow {
    LabelRow { rule, markets, limits, citation: Citation::read(instrument, section, known, address) }
}

const FIC: &str = "Regulation (EU) 1169/2011";
/// The mirror of the version of 2014-02-19 was read.
const ANNEX_III: &str = "https://legislation.gov.uk/eur/2011/1169/annex/III";
const CFR_ORDER: &str = "http://grokfood.com/regulations/101.4.htm";

/// Every row that is held here.
pub static ROWS: &[LabelRow] = &[
    of(LabelRule::Order, EU_UK, &[], FIC, "Art 18(1)", Known::Memory, ""),
    of(LabelRule::SmallAmounts, EU_UK, &[0.02], FIC, "Annex VII A(6)", Known::Memory, ""),
    of(LabelRule::AddedWater, EU_UK, &[0.05], FIC, "Annex VII A(1)", Known::Memory, ""),
    of(LabelRule::Compound, EU_UK, &[], FIC, "Art 18(4), Annex VII E(1)", Known::Memory, ""),
    of(LabelRule::CompoundSmall, EU_UK, &[0.02], FIC, "Annex VII E(2)(a)", Known::Memory, ""),
    of(LabelRule::AdditiveClass, EU_UK, &[], FIC, "Annex VII C", Known::Memory, ""),
    of(
        LabelRule::Quantity,
        EU_UK,
        &[],
        FIC,
        "Art 22, Annex VIII",
        Known::Mixed,
        "https://eur-lex.europa.eu/legal-content/EN/TXT/?uri=CELEX%3A52017XC1121%2801%29",
    ),
    of(LabelRule::CocoaSolids, EU_UK, &[], "Directive 2000/36/EC", "Art 3(3), Annex I.C", Known::Memory, ""),
    of(LabelRule::PolyolStatement, EU_UK, &[0.1], FIC, "Annex III 2.4", Known::Seen, ANNEX_III),
    of(LabelRule::SweetenerStatement, EU_UK, &[], FIC, "Annex III 2.1 and 2.2", Known::Seen, ANNEX_III),
    of(LabelRule::Serving, EU_UK, &[0.1], FIC, "Annex XV, per 100 g", Known::Memory, ""),
    of(LabelRule::NetQuantity, EU_UK, &[0.005], FIC, "Art 23, Annex IX(1)", Known::Memory, ""),
    of(LabelRule::Order, US, &[], "21 CFR", "101.4(a)(1)", Known::Seen, CFR_ORDER),
    of(LabelRule::SmallAmounts, US, &[0.02, 0.015, 0.01, 0.005], "21 CFR", "101.4(a)(2)", Known::Seen, CFR_ORDER),
    of(LabelRule::Compound, US, &[], "21 CFR", "101.4(b)(2)", Known::Memory, ""),
    of(
        LabelRule::Serving,
        US,
        &[0.03],
        "21 CFR",
        "101.12(b), all other candies",
        Known::Memory,
        "https://www.govinfo.gov/content/pkg/FR-1998-01-08/html/98-375.htm",
    ),
    of(
        LabelRule::LecithinPlant,
        CA,
        &[],
        "Food and Drug Regulations",
        "B.01.010",
        Known::Seen,
        "http://acclabel.com/en/canadian-labelling-standards-for-food-allergen-gluten-sources-added-sulphites/",
    ),
];

type Name = (&'static [Market], &'static str, &'static str, Citation);

static NAMES: &[Name] = &[(US, "cocoa mass", "chocolate liquor", Citation::of("21 CFR", "163.111", Known::Memory))];

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn a_market_without_a_row_has_none() {
        assert!(row(Market::Eu, LabelRule::Order).is_some());
        assert!(row(Market::Jp, LabelRule::Order).is_none());
        assert!(row(Market::Us, LabelRule::Quantity).is_none());
    }

    #[test]
    fn figures_stand_largest_first() {
        for row in ROWS {
            assert!(row.limits.is_sorted_by(|one, two| one > two), "{:?}", row.rule);
        }
        let us = row(Market::Us, LabelRule::SmallAmounts).unwrap();
        assert!((us.limit() - 0.02).abs() < 1e-12);
    }
}
