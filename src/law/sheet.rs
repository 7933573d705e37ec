//! The reader of provisions, shared by the tables that come with this crate and by documents.

use super::{Additive, Category, Citation, Effect, Region, Row, SalesName, Side, Term};
use crate::matter::{ChocolateKind, Known, Market};
use crate::units::reader::{DocumentError, FaultKind, Faults, Field, Items, TableReader, Tree};
use crate::units::{Choice, Measure, Unit};

/// The tables that come with this crate, one a topic.
pub(super) const TABLES: [&str; 4] =
    [include_str!("names.toml"), include_str!("additives.toml"), include_str!("alcohol.toml"), include_str!("statements.toml")];

/// A limit of another dimension than its term.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("`{found}` is not {}, as `{}` is", .term.dimension().words(), .term.key())]
struct WrongDimension {
    found: Measure,
    term: Term,
}

/// The rows of a table that can be read, and what is wrong with the others.
pub(super) fn parse(text: &str) -> (Vec<Row>, Result<(), DocumentError>) {
    let tree = match Tree::parse(text) {
        Ok(tree) => tree,
        Err(error) => return (Vec::new(), Err(error)),
    };
    let faults = Faults::default();
    let rows = tree.whole(&faults).table(|root| Some(provisions(&root.optional("provision"), None)));
    (rows.unwrap_or_default(), faults.or(()))
}

/// The rows of a list of provisions; how they are known is read off each, or given for all.
pub(crate) fn provisions(list: &Field<'_>, known: Option<Known>) -> Vec<Row> {
    let mut rows = Vec::new();
    list.tables(Items { what: "law", numbered: true, named: false, most: Items::ANY }, |table| {
        rows.extend(provision(table, known).into_iter().flatten());
        Some(())
    });
    rows
}

/// A section of an instrument: what is true of it, and its limits.
fn provision(table: &TableReader<'_>, known: Option<Known>) -> Option<Vec<Row>> {
    let text = |key| table.optional(key).text().unwrap_or_default().to_owned();
    let markets: Vec<Market> =
        table.required("markets", "where it holds, such as `markets = [\"eu\"]`").list("market").filter_map(Field::choice).collect();
    let region: Option<Region> = table.optional("region").choice();
    let instrument = table.required("instrument", "what it is written in, such as `instrument = \"Directive 2000/36/EC\"`").text();
    let section = table.required("section", "where in it, such as `section = \"Annex I.A.3(a)\"`").text();
    let known = match known {
        Some(known) => Some(known),
        None => table.required("known", "how it is known, such as `known = \"seen\"`").choice(),
    };
    let version = table.optional("version").text();
    let (address, basis, note) = (text("address"), text("basis"), text("note"));
    let effect = table.required("effect", "what it does, such as `effect = \"name\"`").choice();
    let names = table.optional("names").list("name").filter_map(Field::choice::<SalesName>).collect();
    let categories: Vec<Category> = table.optional("categories").list("category").filter_map(Field::choice).collect();
    let kinds: Vec<ChocolateKind> = table.optional("kinds").list("kind").filter_map(Field::choice).collect();
    let limits = table.required("limits", "`limits = [{ id = \"...\", term = \"cocoa-butter\", at_least = \"18 %\" }]`");
    let limits = limits.tables(Items { what: "limit", numbered: true, named: false, most: Items::ANY }, limit)?;
    let missing = |key, example| table.fault(|| FaultKind::Missing { key, example });
    let names: super::NameSet = names;
    if markets.is_empty() {
        missing("markets", "at least one, such as `markets = [\"eu\"]`");
    }
    if effect == Some(Effect::Name) && names.is_empty() {
        missing("names", "the names it is a condition of, such as `names = [\"milk chocolate\"]`");
    }
    if categories.is_empty() && limits.iter().any(|limit| limit.term == Term::Additives) {
        missing("categories", "`categories = [\"chocolate\"]`, `[\"filling\"]` or both");
    }
    let citation = Citation {
        instrument: instrument?.to_owned().into(),
        section: section?.to_owned().into(),
        version: version.map(|version| version.to_owned().into()),
        known: known?,
        address: address.into(),
    };
    let blank = Row {
        id: String::new(),
        market: *markets.first()?,
        region,
        effect: effect?,
        names,
        categories,
        kinds,
        additives: super::AdditiveSet::default(),
        as_acid: false,
        term: Term::Additives,
        side: Side::AtMost,
        value: None,
        below: false,
        basis,
        note,
        citation,
    };
    let several = markets.len() > 1;
    let in_market = |market: Market| limits.iter().map(|limit| limit.row(&blank, market, several)).collect::<Vec<_>>();
    Some(markets.iter().flat_map(|market| in_market(*market)).collect())
}

/// One limit of a provision.
struct Line {
    id: String,
    term: Term,
    side: Side,
    value: Option<Measure>,
    below: bool,
    additives: super::AdditiveSet,
    as_acid: bool,
    note: Option<String>,
}

impl Line {
    fn row(&self, blank: &Row, market: Market, several: bool) -> Row {
        Row {
            id: if several { format!("{}-{}", market.key(), self.id) } else { self.id.clone() },
            market,
            term: self.term,
            side: self.side,
            value: self.value,
            below: self.below,
            additives: self.additives,
            as_acid: self.as_acid,
            note: self.note.clone().unwrap_or_else(|| blank.note.clone()),
            ..blank.clone()
        }
    }
}

fn limit(table: &TableReader<'_>) -> Option<Line> {
    let id = table.required("id", "a name of its own, such as `id = \"own-cocoa-butter\"`").text();
    let term: Option<Term> = table.required("term", "what it limits, such as `term = \"cocoa-butter\"`").choice();
    let additives = table.optional("of").list("additive").filter_map(Field::choice::<Additive>).collect();
    let as_acid = table.optional("as_acid").flag().unwrap_or(false);
    let note = table.optional("note").text().map(str::to_owned);
    let needed = table.optional("as_needed").flag().unwrap_or(false);
    let value = table.one_of(["at_least", "at_most", "below"]);
    let (side, below, value) = match value {
        Some((key, field)) => {
            let side = if key == "at_least" { Side::AtLeast } else { Side::AtMost };
            (side, key == "below", Some(measure(field, term)?))
        }
        None if needed => (Side::AtMost, false, None),
        None => {
            table.fault(|| FaultKind::Missing {
                key: "at_most",
                example: "`at_most`, `at_least` or `below` with a value, or `as_needed = true`",
            });
            return None;
        }
    };
    if term == Some(Term::Additives) && super::AdditiveSet::is_empty(additives) {
        table.fault(|| FaultKind::Missing { key: "of", example: "the additives of the sum, such as `of = [\"E 476\"]`" });
    }
    Some(Line { id: id?.to_owned(), term: term?, side, value, below, additives, as_acid, note })
}

fn measure(field: Field<'_>, term: Option<Term>) -> Option<Measure> {
    let found = field.any_measure(Unit::One)?;
    let term = term?;
    if found.unit().dimension() == term.dimension() && found.unit() != Unit::One {
        return Some(found);
    }
    field.refuse(|| WrongDimension { found, term });
    None
}
