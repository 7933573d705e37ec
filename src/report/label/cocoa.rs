//! The cocoa of the chocolates in a piece: total dry cocoa solids, of the chocolate without what else is in it.

use super::Line;
use super::subject::Subject;
use crate::assess::ChocolateLaw;
use crate::law::labelling::{self, LabelRule};
use crate::law::{SalesName, Term};
use crate::matter::{ChocolateKind, Composition, Ingredient, Market, cocoa};
use crate::units::{Checked, MassFraction};

/// The cocoa of one chocolate.
#[derive(Debug, Clone, PartialEq)]
pub struct CocoaDeclaration {
    /// The chocolate.
    pub chocolate: String,
    /// Its total dry cocoa solids, as a fraction.
    pub solids: f64,
    /// As it is declared, rounded down because it promises a minimum: `Cocoa solids: 64 % minimum`.
    pub declared: String,
    /// Its milk solids in the same form, where the market wants them of milk chocolate.
    pub milk: Option<String>,
}

/// Total dry cocoa solids of a chocolate, of its weight without the other edible matter in it (nuts, pieces of biscuit), which counts by its
/// share of the weight.
#[must_use]
pub fn cocoa_solids(chocolate: &Composition, other_edible: MassFraction) -> CocoaDeclaration {
    let net = 1.0 - other_edible.base();
    let solids = if net > 0.0 { cocoa(chocolate) / net } else { 0.0 };
    CocoaDeclaration { chocolate: String::new(), solids, declared: minimum("Cocoa", solids), milk: None }
}

fn minimum(of: &str, solids: f64) -> String {
    // A number that is whole but for rounding must not lose a per cent.
    let whole = (solids * 100.0 + 1e-6).floor();
    format!("{of} solids: {whole:.0} % minimum")
}

/// The milk solids of a milk chocolate, at the low end of what is known of them.
fn milk(chocolate: &Ingredient) -> Option<String> {
    let is_milk = chocolate.chocolate.as_ref().is_some_and(|sheet| sheet.kind == ChocolateKind::Milk);
    let solids = ChocolateLaw::of([(chocolate, 1.0)]).get(Term::MilkSolids).known().filter(|_| is_milk)?;
    Some(minimum("Milk", solids.band.low))
}

pub(super) fn declarations(subject: &Subject<'_>, market: Market) -> Line<Vec<CocoaDeclaration>> {
    let Some(row) = labelling::row(market, LabelRule::CocoaSolids) else { return Line::no_rule("cocoa solids") };
    let is_told = |ingredient: &Ingredient| ingredient.chocolate.as_ref().is_some_and(|sheet| sheet.kind != ChocolateKind::White);
    let chocolates = subject.ingredients().into_iter().filter(|ingredient| is_told(ingredient));
    let of_milk = labelling::row(market, LabelRule::MilkSolids);
    let declared = chocolates.map(|chocolate| CocoaDeclaration {
        chocolate: chocolate.title.clone(),
        milk: of_milk.and_then(|_| milk(&chocolate)),
        ..cocoa_solids(&chocolate.composition, MassFraction::nearest(0.0))
    });
    let line = Line::known(declared.collect::<Vec<_>>()).by(&row.citation);
    let mut line = of_milk.into_iter().fold(line, |line, row| line.by(&row.citation));
    let filled = subject.parts.iter().all(|part| part.piece.sold_as.is_some_and(SalesName::is_of_piece));
    line.notes.push(
        if filled && !subject.parts.is_empty() {
            "not due under the names of filled chocolates and pralines; it is where a chocolate in them is named by its own sales name"
        } else {
            "due where the chocolate itself is sold or named, and not for filled chocolates, pralines and white chocolate"
        }
        .into(),
    );
    line
}
