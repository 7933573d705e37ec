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
    /// An additive stands by its name alone.
    AdditiveName,
    /// Additives stand after the other ingredients, marked off from them, in an order of their own.
    AdditivesApart,
    /// Additives may stand at the end in any order.
    AdditivesLast,
    /// Sugars and syrups stand together in brackets after one word, where their weight in all puts it.
    SugarsGrouped,
    /// A lecithin names its plant.
    LecithinPlant,
    /// What is stressed stands with its quantity: mass used over mass of the finished product.
    Quantity,
    /// The total dry cocoa solids stand on the label.
    CocoaSolids,
    /// The dry milk solids of milk chocolate stand on the label too.
    MilkSolids,
    /// So much sorbitol, in kilograms, that a day may bring wants a statement.
    SorbitolStatement,
    /// Chocolate that holds vegetable fat other than cocoa butter says so.
    VegetableFatStatement,
    /// Chocolates of several kinds in one box may bear one name and one list.
    Assortment,
    /// A food that holds a sweetener says so beside its name.
    SweetenerStatement,
    /// The amount that a nutrition declaration is for.
    Serving,
    /// Pieces that weigh at most half of it are served whole, as many as come nearest; up to twice of it one is a serving.
    WholePieces,
    /// Only beverages state their alcoholic strength.
    Strength,
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
    /// Whether a figure itself is outside: the text says "less than".
    pub below: bool,
    /// Where it is written.
    pub citation: Citation,
}

impl LabelRow {
    /// The largest figure; nothing where there is none.
    #[must_use]
    pub fn limit(&self) -> f64 {
        self.limits.first().copied().unwrap_or(0.0)
    }

    /// Whether a share is within a figure of the row. What is the figure but for rounding is the figure.
    #[must_use]
    pub fn is_within(&self, share: f64, limit: f64) -> bool {
        if self.below { share < limit * (1.0 - 1e-9) } else { share <= limit * (1.0 + 1e-9) }
    }
}

/// The row of a rule in a market; none where no such row is held here.
#[must_use]
pub fn row(market: Market, rule: LabelRule) -> Option<&'static LabelRow> {
    ROWS.iter().find(|row| row.rule == rule && row.markets.contains(&market))
}

/// The name by which a market lists a thing that this crate calls otherwise.
#[must_use]
pub fn name(market: Market, usual: &str) -> Option<(&'static str, &'static Citation)> {
    NAMES.iter().find(|(markets, from, ..)| markets.contains(&market) && *from == usual).map(|(_, _, to, citation)| (*to, citation))
}

const EU: &[Market] = &[Market::Eu];
const UK: &[Market] = &[Market::Uk];
const US: &[Market] = &[Market::Us];
const CA: &[Market] = &[Market::Ca];
const AU_NZ: &[Market] = &[Market::AuNz];
const CODEX: &[Market] = &[Market::Codex];
const JP: &[Market] = &[Market::Jp];

/// A row that was read at an address, in full or in part.
const fn of(
    rule: LabelRule,
    markets: &'static [Market],
    limits: &'static [f64],
    instrument: &'static str,
    section: &'static str,
    known: Known,
    address: &'static str,
) -> LabelRow {
    LabelRow { rule, markets, limits, below: false, citation: Citation::read(instrument, section, known, address) }
}

/// A row that is recalled.
const fn recalled(
    rule: LabelRule,
    markets: &'static [Market],
    limits: &'static [f64],
    instrument: &'static str,
    section: &'static str,
) -> LabelRow {
    of(rule, markets, limits, instrument, section, Known::Memory, "")
}

/// The same whose text says "less than".
const fn recalled_below(
    rule: LabelRule,
    markets: &'static [Market],
    limits: &'static [f64],
    instrument: &'static str,
    section: &'static str,
) -> LabelRow {
    LabelRow { rule, markets, limits, below: true, citation: Citation::of(instrument, section, Known::Memory) }
}

const FIC: &str = "Regulation (EU) 1169/2011";
/// That its text was kept unchanged is recalled.
const KEPT: &str = "Regulation (EU) 1169/2011 as kept in the law of the UK";
const DIRECTIVE: &str = "Directive 2000/36/EC";
const UK_CHOCOLATE: &str = "SI 2003/1659";
const FDR: &str = "Food and Drug Regulations";
const CODE: &str = "Food Standards Code";
const CXS_1: &str = "CXS 1-1985";
const JP_STANDARDS: &str = "Food Labeling Standards";
/// The mirror of the version of 2014-02-19 was read.
const ANNEX_III: &str = "https://legislation.gov.uk/eur/2011/1169/annex/III";
const FIC_ART_9: &str = "http://www.prenku.de/landmark-immigration-mvmk/d3abc4-fir-1169-2011";
/// Both texts as somebody quotes them, in Lithuanian.
const FIC_WATER: &str = "https://newsgroups.lt/gurmanai,52/2446878:re-kepimas-emoje-65-tempreratroje";
const QUID_NOTICE: &str = "https://eur-lex.europa.eu/legal-content/EN/TXT/?uri=CELEX%3A52017XC1121%2801%29";
const CFR_ORDER: &str = "http://grokfood.com/regulations/101.4.htm";
const CFR_SERVING: &str = "https://www.govinfo.gov/content/pkg/FR-1998-01-08/html/98-375.htm";
/// A summary by a trade association.
const CFR_SORBITOL: &str = "http://replay.waybackmachine.org/20090301033842/http:/www.sugar.org/consumers/sweet_by_nature.asp?id=278";
/// Its summary was read: cocoa and, where there are any, milk solids are declared in the form prescribed, other vegetable fats too.
const UK_GUIDANCE: &str = "https://wixlib.com/document/3b0fe_guidance-on-the-cocoa-and-chocolate-products-regulations-2003-food-alert.html";
/// Read in the French transposition, decree 76-692 as amended in 2003.
const DECREE_3: &str = "github.com/etalab/lois-non-codifiees-et-reglements-francais, decret-n76-692-du-13-juillet-1976, article-3.md";
const DECREE_7: &str = "github.com/etalab/lois-non-codifiees-et-reglements-francais, decret-n76-692-du-13-juillet-1976, article-7.md";
const DIRECTIVE_2: &str = "https://www.eumonitor.eu/9353000/1/j4nvhdfcs8bljza_j9vvik7m1c3gyxp/vi8rm2y8wevc";
/// Versions of 2022-09-27, 2022-06-21 and the page of the inspection agency.
const FDR_LIST: &str = "https://laws-lois.justice.gc.ca/eng/regulations/c.r.c.,_c._870/section-B.01.008.2-20220927.html";
const FDR_SUGARS: &str = "https://laws-lois.justice.gc.ca/eng/Regulations/c.r.c.,_c._870/section-B.01.008.3-20220621.html";
const FDR_NAMES: &str = "https://laws-lois.justice.gc.ca/eng/regulations/c.r.c.,_c._870/section-B.01.010-20220621.html";
const FDR_LAST: &str = "https://www.inspection.gc.ca/food/requirements-and-guidance/labelling/industry/list-of-ingredients-and-allergens/eng/1383612857522/1383612932341?chap=2";
const FDR_COMPOUND: &str =
    "https://bac-lac.wayback.archive-it.org/web/20131012163558/http://www.inspection.gc.ca/english/fssa/labeti/ingrede.shtml";
const FDR_LECITHIN: &str = "http://acclabel.com/en/canadian-labelling-standards-for-food-allergen-gluten-sources-added-sulphites/";
/// The edition before the present one: its clauses 5, 6 and 8.
const CODE_1_2_4: &str = "https://www.legislation.gov.au/Details/F2013C00264";
/// An amendment as it stood before the Commission.
const CODEX_COMPOUND: &str = "https://fao.org/4/X1919E/x1919e0j.htm";
const JP_PAGE: &str = "https://phjapan.da.gov.ph/help-desk/food-labeling/";

/// Every row that is held here.
pub static ROWS: &[LabelRow] = &[
    of(LabelRule::Order, EU, &[], FIC, "Art 18(1)", Known::Mixed, FIC_WATER),
    recalled_below(LabelRule::SmallAmounts, EU, &[0.02], FIC, "Annex VII A(6)"),
    of(LabelRule::AddedWater, EU, &[0.05], FIC, "Annex VII A(1)", Known::Mixed, FIC_WATER),
    recalled(LabelRule::Compound, EU, &[], FIC, "Art 18(4), Annex VII E(1)"),
    recalled_below(LabelRule::CompoundSmall, EU, &[0.02], FIC, "Annex VII E(2)(a)"),
    recalled(LabelRule::AdditiveClass, EU, &[], FIC, "Annex VII C"),
    of(LabelRule::Quantity, EU, &[], FIC, "Art 22, Annex VIII", Known::Mixed, QUID_NOTICE),
    of(LabelRule::CocoaSolids, EU, &[], DIRECTIVE, "Art 3(3), Annex I.C", Known::Seen, DECREE_7),
    of(LabelRule::VegetableFatStatement, EU, &[], DIRECTIVE, "Art 2(2)", Known::Seen, DIRECTIVE_2),
    of(LabelRule::Assortment, EU, &[], DIRECTIVE, "Art 3(2)", Known::Seen, DECREE_3),
    of(LabelRule::SweetenerStatement, EU, &[], FIC, "Annex III 2.1 and 2.2", Known::Seen, ANNEX_III),
    of(LabelRule::Strength, EU, &[], FIC, "Art 9(1)(k)", Known::Seen, FIC_ART_9),
    recalled(LabelRule::Serving, EU, &[0.1], FIC, "Annex XV, per 100 g"),
    recalled(LabelRule::NetQuantity, EU, &[0.005], FIC, "Art 23, Annex IX(1)"),
    recalled(LabelRule::Order, UK, &[], KEPT, "Art 18(1)"),
    recalled_below(LabelRule::SmallAmounts, UK, &[0.02], KEPT, "Annex VII A(6)"),
    recalled(LabelRule::AddedWater, UK, &[0.05], KEPT, "Annex VII A(1)"),
    recalled(LabelRule::Compound, UK, &[], KEPT, "Art 18(4), Annex VII E(1)"),
    recalled_below(LabelRule::CompoundSmall, UK, &[0.02], KEPT, "Annex VII E(2)(a)"),
    recalled(LabelRule::AdditiveClass, UK, &[], KEPT, "Annex VII C"),
    recalled(LabelRule::Quantity, UK, &[], KEPT, "Art 22, Annex VIII"),
    of(LabelRule::CocoaSolids, UK, &[], UK_CHOCOLATE, "on labelling, by the guidance of 2009", Known::Mixed, UK_GUIDANCE),
    of(LabelRule::MilkSolids, UK, &[], UK_CHOCOLATE, "on labelling, by the guidance of 2009", Known::Mixed, UK_GUIDANCE),
    of(LabelRule::VegetableFatStatement, UK, &[], UK_CHOCOLATE, "on labelling, by the guidance of 2009", Known::Mixed, UK_GUIDANCE),
    recalled(LabelRule::Assortment, UK, &[], UK_CHOCOLATE, "on labelling"),
    recalled(LabelRule::SweetenerStatement, UK, &[], KEPT, "Annex III 2.1 and 2.2"),
    recalled(LabelRule::Strength, UK, &[], KEPT, "Art 9(1)(k)"),
    recalled(LabelRule::Serving, UK, &[0.1], KEPT, "Annex XV, per 100 g"),
    recalled(LabelRule::NetQuantity, UK, &[0.005], KEPT, "Art 23, Annex IX(1)"),
    of(LabelRule::Order, US, &[], "21 CFR", "101.4(a)(1)", Known::Seen, CFR_ORDER),
    of(LabelRule::SmallAmounts, US, &[0.02, 0.015, 0.01, 0.005], "21 CFR", "101.4(a)(2)", Known::Seen, CFR_ORDER),
    of(LabelRule::AdditiveName, US, &[], "21 CFR", "101.4(a)(1)", Known::Seen, CFR_ORDER),
    recalled(LabelRule::Compound, US, &[], "21 CFR", "101.4(b)(2)"),
    of(LabelRule::Serving, US, &[0.03], "21 CFR", "101.12(b), all other candies", Known::Memory, CFR_SERVING),
    recalled(LabelRule::WholePieces, US, &[2.0, 0.5], "21 CFR", "101.9(b)(2)(i)"),
    of(LabelRule::SorbitolStatement, US, &[0.05], "21 CFR", "184.1835(e)", Known::Mixed, CFR_SORBITOL),
    recalled(LabelRule::NetQuantity, US, &[], "21 CFR", "101.7"),
    of(LabelRule::Order, CA, &[], FDR, "B.01.008.2(3)(a)", Known::Seen, FDR_LIST),
    of(LabelRule::SugarsGrouped, CA, &[], FDR, "B.01.008.3", Known::Seen, FDR_SUGARS),
    of(LabelRule::AdditivesLast, CA, &[], FDR, "B.01.008.2(4)", Known::Seen, FDR_LAST),
    of(LabelRule::AdditiveName, CA, &[], FDR, "B.01.010(2)", Known::Seen, FDR_NAMES),
    // Read on an older page of the inspection agency, which named another section.
    of(LabelRule::Compound, CA, &[], FDR, "B.01.008.2", Known::Mixed, FDR_COMPOUND),
    of(LabelRule::LecithinPlant, CA, &[], FDR, "B.01.010", Known::Seen, FDR_LECITHIN),
    of(LabelRule::Order, AU_NZ, &[], CODE, "1.2.4-5", Known::Mixed, CODE_1_2_4),
    recalled_below(LabelRule::AddedWater, AU_NZ, &[0.05], CODE, "1.2.4-3(2)"),
    recalled(LabelRule::Compound, AU_NZ, &[], CODE, "1.2.4-6"),
    recalled_below(LabelRule::CompoundSmall, AU_NZ, &[0.05], CODE, "1.2.4-6(2)"),
    recalled(LabelRule::AdditiveClass, AU_NZ, &[], CODE, "1.2.4-7"),
    recalled(LabelRule::Quantity, AU_NZ, &[], CODE, "1.2.10-3"),
    recalled(LabelRule::Order, CODEX, &[], CXS_1, "4.2.1.2"),
    of(LabelRule::Compound, CODEX, &[], CXS_1, "4.2.1.3", Known::Mixed, CODEX_COMPOUND),
    LabelRow {
        rule: LabelRule::CompoundSmall,
        markets: CODEX,
        limits: &[0.05],
        below: true,
        citation: Citation::read(CXS_1, "4.2.1.3", Known::Mixed, CODEX_COMPOUND),
    },
    recalled(LabelRule::AdditiveClass, CODEX, &[], CXS_1, "4.2.3.3"),
    recalled(LabelRule::Quantity, CODEX, &[], CXS_1, "5.1"),
    recalled(LabelRule::NetQuantity, CODEX, &[], CXS_1, "4.3"),
    of(LabelRule::Order, JP, &[], JP_STANDARDS, "names of raw materials", Known::Mixed, JP_PAGE),
    of(LabelRule::AdditivesApart, JP, &[], JP_STANDARDS, "additives", Known::Mixed, JP_PAGE),
    of(LabelRule::NetQuantity, JP, &[], JP_STANDARDS, "net contents", Known::Mixed, JP_PAGE),
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
        assert!(row(Market::Jp, LabelRule::Quantity).is_none());
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
