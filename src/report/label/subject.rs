//! What is labelled: one piece, or a box of several.

use super::makeup::{Makeup, Use};
use crate::assess::{Assessment, assess};
use crate::matter::{AllergenSet, Ingredient};
use crate::piece::{Assortment, Piece};
use std::borrow::Cow;
use std::sync::Arc;

/// What is labelled.
pub(super) struct Subject<'a> {
    pub name: &'a str,
    pub parts: Vec<Part<'a>>,
    /// What goes into all of it.
    pub makeup: Result<Makeup, String>,
    /// What its own name stresses.
    pub stressed: &'a [Arc<Ingredient>],
    /// What it is promised to be free from; a piece's own promises are its part's.
    pub free_from: AllergenSet,
    /// Whether it is a box, whose parts are sold together.
    pub is_box: bool,
}

/// A piece, and how many of it there are.
pub(super) struct Part<'a> {
    pub piece: &'a Piece,
    pub assessment: Cow<'a, Assessment>,
    pub makeup: Result<Makeup, String>,
    pub count: u32,
}

impl<'a> Subject<'a> {
    pub fn piece(piece: &'a Piece, assessment: &'a Assessment) -> Self {
        let makeup = Makeup::of(piece, assessment);
        let part = Part { piece, assessment: Cow::Borrowed(assessment), makeup: makeup.clone(), count: 1 };
        let (stressed, free_from) = (&piece.stressed, piece.free_from);
        Self { name: &piece.name, parts: vec![part], makeup, stressed, free_from, is_box: false }
    }

    pub fn assortment(assortment: &'a Assortment) -> Self {
        let part = |held: &'a crate::piece::Held| {
            let assessment = assess(&held.piece);
            // A filling described alone is no piece of a box.
            let whole = held.piece.mould.is_some().then(|| Makeup::of(&held.piece, &assessment));
            let makeup = whole.unwrap_or_else(|| Err("the mould, the shell and the layers".into()));
            let makeup = makeup.map_err(|lacks| format!("of {}: {lacks}", held.piece.name));
            Part { piece: &held.piece, assessment: Cow::Owned(assessment), makeup, count: held.count }
        };
        let parts: Vec<_> = assortment.held.iter().map(part).collect();
        let makeup = all(&parts);
        let (stressed, free_from) = (&assortment.stressed, assortment.free_from);
        Self { name: &assortment.name, parts, makeup, stressed, free_from, is_box: true }
    }

    pub fn makeup(&self) -> Result<&Makeup, &String> {
        self.makeup.as_ref()
    }

    /// All allergens that come in.
    pub fn allergens(&self) -> AllergenSet {
        self.parts.iter().fold(AllergenSet::EMPTY, |all, part| all.union(part.assessment.whole.allergens))
    }

    /// Everything that goes in, whether or not it is known how much, once each.
    pub fn ingredients(&self) -> Vec<Arc<Ingredient>> {
        let mut found: Vec<Arc<Ingredient>> = Vec::new();
        for ingredient in self.parts.iter().flat_map(|part| super::makeup::ingredients(part.piece)) {
            if !found.contains(&ingredient) {
                found.push(ingredient);
            }
        }
        found
    }
}

/// What goes into all parts together, or what lacks to tell.
fn all(parts: &[Part<'_>]) -> Result<Makeup, String> {
    let mut sum = Makeup::default();
    let mut lacks = Vec::new();
    for part in parts {
        match &part.makeup {
            Ok(makeup) => {
                let count = f64::from(part.count);
                for Use { ingredient, mixed, boiled } in &makeup.uses {
                    sum.put(Arc::clone(ingredient), count * mixed, count * boiled);
                }
                sum.finished += count * makeup.finished;
                // Water that leaves the cream of one piece takes none from another.
                sum.added_water += count * makeup.added_water;
                sum.films.extend(&makeup.films);
            }
            Err(lack) => lacks.push(lack.clone()),
        }
    }
    sum.uses.sort_by(|one, two| two.mixed.total_cmp(&one.mixed));
    match lacks.is_empty() {
        true if sum.finished <= 0.0 => Err("what the box holds".into()),
        true => Ok(sum),
        false => Err(lacks.join("; ")),
    }
}
