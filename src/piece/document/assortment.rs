//! The boxes of a document.

use super::{Names, PACK};
use crate::matter::pantry::Pantry;
use crate::matter::sheet::allergens;
use crate::piece::{Assortment, Held, Piece};
use crate::units::reader::{FaultKind, Field, Items, TableReader};
use crate::units::{nearest, shortened};
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// A box that names a piece the document does not describe.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is no piece of this document{}", shortened(.name), meant(.nearest))]
struct UnknownPiece {
    name: String,
    nearest: Option<String>,
}

fn meant(nearest: &Option<String>) -> String {
    nearest.as_ref().map_or(": describe it as a `[[piece]]` with that `name`".to_owned(), |nearest| format!(": did you mean `{nearest}`?"))
}

/// Every box; `named` are the pieces that are described, those with them that could not be read.
pub(super) fn boxes(list: &Field<'_>, pantry: &Pantry, pieces: &[Piece], named: &HashSet<String>) -> Vec<Assortment> {
    let mut names = Names::default();
    // A piece is copied once, however many boxes hold it.
    let copied = |piece: &Piece| (piece.name.clone(), Arc::new(piece.clone()));
    let pieces = if list.is_present() { pieces.iter().map(copied).collect() } else { HashMap::new() };
    let items = Items { what: "box", numbered: false, named: true, most: Items::ANY };
    list.tables(items, |table| assortment(table, &mut names, pantry, &pieces, named)).unwrap_or_default()
}

fn assortment(
    table: &TableReader<'_>,
    names: &mut Names,
    pantry: &Pantry,
    pieces: &HashMap<String, Arc<Piece>>,
    named: &HashSet<String>,
) -> Option<Assortment> {
    const HOLDS: &str = "how many of each piece, such as `holds = { \"Quince brandy\" = 6 }`";
    let name = names.read(table);
    let sold_as = table.optional("sold_as").text().map(str::to_owned);
    let markets = table.optional("markets").list("market").filter_map(Field::choice).collect();
    let free_from = allergens(&table.optional("free_from"));
    let stressed = table.optional("stressed").list("ingredient").filter_map(|name| pantry.ingredient(name)).collect();
    let holds = table.required("holds", HOLDS);
    let held = |(name, field): (&str, Field<'_>)| {
        if !named.contains(name) {
            let known = || nearest(name, named.iter().map(String::as_str), 1).first().map(|nearest| shortened(nearest));
            field.refuse(|| UnknownPiece { name: name.to_owned(), nearest: known() });
        }
        let count = field.whole(1..=PACK)?;
        Some(Held { piece: Arc::clone(pieces.get(name)?), count })
    };
    let entries: Vec<_> = holds.named().collect();
    if holds.is_table() && entries.is_empty() {
        table.fault(|| FaultKind::Missing { key: "holds", example: HOLDS });
    }
    let held = entries.into_iter().filter_map(held).collect();
    Some(Assortment { name: name?, sold_as, markets, free_from, stressed, held })
}
