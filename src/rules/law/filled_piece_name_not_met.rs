use crate::assess::{Assessed, Quantity, QuantitySet};
use crate::engine::{Domain, Limit, PartKind, Question, searched};
use crate::law::{Category, Term};
use crate::piece::KnobKind;

crate::rule! {
    /// A filled chocolate, and a praline, must be a quarter chocolate by weight of the whole piece. For a praline it is open whether chocolate melted into
    /// the filling counts: both ways are reckoned, and a piece that needs it counted is told so. A coating of other fat is no chocolate and counts as none. A praline must also be of a single mouthful, for which no law gives grams.
    FilledPieceNameNotMet {
        id: "filled-piece-name-not-met",
        title: "the piece holds too little chocolate for its name",
        domain: Domain::Law,
        part: PartKind::Whole,
        also_reads: &[Quantity::ChocolateShare, Quantity::ChocolateInAll],
        shows: &[Quantity::ChocolateShare, Quantity::ChocolateInAll, Quantity::PieceMass],
        drivers: &[
            searched(KnobKind::WallThickness),
            searched(KnobKind::FillDepth),
            searched(KnobKind::LayerAmount),
            searched(KnobKind::IngredientMass),
        ],
    }
    limits {
        SHARE = Limit::family("filled-name.share", Quantity::ChocolateShare);
        OUTER = Limit::family("filled-name.outer-alone", Quantity::ChocolateShare).warning();
    }
    |look, out| {
        let Some(name) = look.sold.name.filter(|name| name.is_of_piece()) else { return };
        for market in &look.sold.markets {
            let mut held = false;
            for held_to in look.rows(Question::Name(name), *market) {
                let term = held_to.row.term;
                held = true;
                let coated = look.at.category == Some(Category::Compound);
                if coated && term == Term::OuterChocolate {
                    look.hold(&SHARE, held_to, Assessed::declared(0.0), out);
                    continue;
                }
                look.compare_row(&SHARE, held_to, out);
                if term == Term::Chocolate && !coated {
                    look.compare_row_as(&OUTER, held_to, Quantity::ChocolateShare, out);
                }
            }
            if !held {
                look.lack(QuantitySet::of(Quantity::RowOfLaw), out);
            }
        }
    }
}
