//! Statements that the composition brings about: polyols and sweeteners.

use super::Line;
use super::ingredients::percent;
use super::makeup::Makeup;
use crate::law::labelling::{self, LabelRule};
use crate::matter::{AdditiveClass, Market, Role};

/// A statement that is due, or a figure below the line from which it would be.
#[derive(Debug, Clone, PartialEq)]
pub struct Statement {
    /// What it is about.
    pub about: &'static str,
    /// The figure it follows from, as a fraction of the finished piece.
    pub share: f64,
    /// The words, where they are due.
    pub words: Option<&'static str>,
}

pub(super) fn due(makeup: Result<&Makeup, &String>, market: Market) -> Line<Vec<Statement>> {
    let rule = |rule| labelling::row(market, rule);
    let Some(polyols) = rule(LabelRule::PolyolStatement) else { return Line::no_rule("statements on polyols") };
    let makeup = match makeup {
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    let share = makeup.share(|constituent| constituent.role() == Role::Polyol);
    let warns = labelling::polyol_statement_due(market, share) == Some(true);
    let mut statements =
        vec![Statement { about: "polyols", share, words: warns.then_some("excessive consumption may produce laxative effects") }];
    let mut line_basis = vec![&polyols.citation];
    if let Some(row) = rule(LabelRule::SweetenerStatement) {
        let sweet = makeup.uses.iter().filter(|used| used.ingredient.class == Some(AdditiveClass::Sweetener)).map(|used| used.mixed);
        let share = sweet.sum::<f64>() / makeup.finished;
        if share > 0.0 {
            let sugars = makeup.share(|constituent| constituent.role() == Role::Sugar) > 0.0;
            let words = if sugars { "with sugar(s) and sweetener(s)" } else { "with sweetener(s)" };
            statements.push(Statement { about: "sweeteners", share, words: Some(words) });
            line_basis.push(&row.citation);
        }
    }
    line_basis.into_iter().fold(Line::known(statements), Line::by)
}

impl Statement {
    /// The statement, or why none is due.
    #[must_use]
    pub fn text(&self) -> String {
        match self.words {
            Some(words) => format!("{} {}: \"{words}\"", self.about, percent(self.share)),
            None => format!("{} {}: none due", self.about, percent(self.share)),
        }
    }
}
