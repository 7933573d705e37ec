use crate::assess::{Quantity, QuantitySet};
use crate::engine::{Domain, Limit, PartKind, Question, searched};
use crate::piece::KnobKind;

crate::rule! {
    /// Above a tenth of added polyols the label must warn that too much may have a laxative effect. Sorbitol that keeps a filling soft and glycerol count
    /// like any other; what fruit holds by nature does not.
    PolyolWarningDue {
        id: "polyol-warning-due",
        title: "so much added polyol must be warned of on the label",
        domain: Domain::Law,
        part: PartKind::Whole,
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::LayerAmount), searched(KnobKind::FillDepth)],
    }
    limits {
        STATEMENT = Limit::family("polyols.statement", Quantity::AddedPolyols).advice();
    }
    |look, out| {
        let polyols = look.get(Quantity::AddedPolyols);
        if polyols.known().is_none() {
            return look.lack(polyols.missing(), out);
        }
        for market in &look.sold.markets {
            let mut held = false;
            for row in look.rows(Question::Statements, *market) {
                held = true;
                look.compare_row(&STATEMENT, row, out);
            }
            if !held {
                look.lack(QuantitySet::of(Quantity::RowOfLaw), out);
            }
        }
    }
}
