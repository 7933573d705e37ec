//! Statements that the composition brings about: polyols, sweeteners and other vegetable fats.

use super::Line;
use super::ingredients::percent;
use super::subject::Subject;
use crate::law::labelling::{self, LabelRule};
use crate::law::{Row, Term, Topic};
use crate::matter::{AdditiveClass, Constituent, Ingredient, Market, Role};

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

pub(super) fn due(subject: &Subject<'_>, market: Market) -> Line<Vec<Statement>> {
    let (of_polyols, of_sweeteners) = (polyol_row(subject, market), labelling::row(market, LabelRule::SweetenerStatement));
    let of_fat = labelling::row(market, LabelRule::VegetableFatStatement);
    let of_sorbitol = labelling::row(market, LabelRule::SorbitolStatement);
    if of_polyols.is_none() && of_sweeteners.is_none() && of_fat.is_none() && of_sorbitol.is_none() {
        return Line::no_rule("statements");
    }
    let makeup = match subject.makeup() {
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    let of = |share: &dyn Fn(&Ingredient) -> f64| {
        makeup.uses.iter().map(|used| used.mixed * share(&used.ingredient)).sum::<f64>() / makeup.finished
    };
    let mut line = Line::known(Vec::new());
    match of_polyols {
        Some(row) => {
            let share = of(&Ingredient::added_polyols);
            // What is the limit but for rounding is at it.
            let warns = row.bound().is_some_and(|bound| share > bound * (1.0 + 1e-9));
            let words = warns.then_some("excessive consumption may produce laxative effects");
            line.value.iter_mut().for_each(|all| all.push(Statement { about: "added polyols", share, words }));
            line = line.by(&row.citation);
        }
        None => line.unknown.push("statements on polyols in all: no rule is held here".into()),
    }
    if let Some(row) = of_sorbitol {
        let share = makeup.share(|constituent| constituent == Constituent::Sorbitol);
        if share > 0.0 {
            line.value.iter_mut().for_each(|all| all.push(Statement { about: "sorbitol", share, words: None }));
            let (grams, much) = (row.limit() * 1000.0, row.limit() / share);
            line.unknown.push(format!(
                "whether a day may bring {grams:.0} g of sorbitol, {much:.1} kg of this: then \"Excess consumption may have a laxative effect\""
            ));
        }
        line = line.by(&row.citation);
    }
    match of_sweeteners {
        Some(row) => {
            let share = of(&|ingredient| if ingredient.class == Some(AdditiveClass::Sweetener) { 1.0 } else { 0.0 });
            if share > 0.0 {
                let sugars = makeup.share(|constituent| constituent.role() == Role::Sugar) > 0.0;
                let words = if sugars { "with sugar(s) and sweetener(s)" } else { "with sweetener(s)" };
                line.value.iter_mut().for_each(|all| all.push(Statement { about: "sweeteners", share, words: Some(words) }));
                line = line.by(&row.citation);
            }
        }
        None => line.unknown.push("statements on sweeteners: no rule is held here".into()),
    }
    match of_fat {
        Some(row) => {
            let share = of(&|ingredient| ingredient.chocolate.as_ref().map_or(0.0, |_| other_fat(ingredient)));
            if share > 0.0 {
                let words = Some("contains vegetable fats in addition to cocoa butter");
                line.value.iter_mut().for_each(|all| all.push(Statement { about: "other vegetable fat in chocolate", share, words }));
                line = line.by(&row.citation);
            }
        }
        None => line.unknown.push("statements on vegetable fat in chocolate: no rule is held here".into()),
    }
    line
}

/// The row on polyols that the piece is held against; in a box that of its first piece.
fn polyol_row<'a>(subject: &'a Subject<'_>, market: Market) -> Option<&'a Row> {
    let rows = subject.parts.first()?.piece.law.rows();
    rows.iter().find(|row| row.market == market && row.topic() == Topic::Statements && row.term == Term::Polyols)
}

/// Vegetable fat other than cocoa butter of a chocolate, by its constituents.
fn other_fat(chocolate: &Ingredient) -> f64 {
    crate::assess::ChocolateLaw::of([(chocolate, 1.0)]).get(Term::VegetableFat).value().unwrap_or(0.0)
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
