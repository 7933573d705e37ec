//! The file form of pieces: TOML for people, the same shape in JSON for programs.

mod assortment;
mod conditions;
mod layer;
mod mould;
mod rewrite;
mod shell;
mod terms;

pub use rewrite::RewriteError;

use super::{Assortment, Piece};
use crate::law::{Book, sheet};
use crate::matter::pantry::Pantry;
use crate::matter::sheet::allergens;
use crate::matter::{Known, Larder};
use crate::units::DocumentError;
use crate::units::reader::{FaultKind, Faults, Field, Items, TableReader, Tree};
use std::collections::HashSet;

/// The pieces a document describes, the boxes they are sold in, and the larder they are made from.
#[derive(Debug, Clone)]
pub struct Document {
    pieces: Vec<Piece>,
    boxes: Vec<Assortment>,
    larder: Larder,
}

impl Document {
    /// The format of documents that is read.
    pub const FORMAT: u32 = 1;

    /// Reads a document in TOML, or in JSON if it begins with a brace, with the built-in larder.
    ///
    /// ```
    /// use cordial::piece::Document;
    /// let faults = Document::parse("format = 1\n[[piece]]\nname = \"Quince brandy\"\nkeep = \"30 dd\"\n").unwrap_err();
    /// assert_eq!(faults.to_string(), "line 4: piece \"Quince brandy\", keep: `dd` is not a unit known here: did you mean `d`?");
    /// ```
    ///
    /// # Errors
    /// [`DocumentError`] with everything that is wrong with it.
    pub fn parse(text: &str) -> Result<Self, DocumentError> {
        Self::parse_with(text, Larder::built_in())
    }

    /// The same with another larder.
    ///
    /// # Errors
    /// [`DocumentError`] with everything that is wrong with it.
    pub fn parse_with(text: &str, larder: &Larder) -> Result<Self, DocumentError> {
        let tree = Tree::parse(text)?;
        let faults = Faults::default();
        let mut pantry = Pantry::new(larder.clone());
        let (pieces, boxes) = tree.whole(&faults).table(|root| read(root, &mut pantry)).unwrap_or_default();
        faults.or(Self { pieces, boxes, larder: pantry.into_larder() })
    }

    /// The pieces, in order.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// The boxes that several pieces are sold in, in order.
    #[must_use]
    pub fn boxes(&self) -> &[Assortment] {
        &self.boxes
    }

    /// The larder, with what the document adds to it.
    #[must_use]
    pub fn larder(&self) -> &Larder {
        &self.larder
    }
}

/// No pack holds more pieces.
const PACK: u32 = 10_000;
/// No recipe has more lines, and no piece more layers: every one of them is a knob, and each turn of it weighs all.
const MOST_LINES: usize = 500;
const MOST_LAYERS: usize = 20;

fn read(root: &TableReader<'_>, pantry: &mut Pantry) -> Option<(Vec<Piece>, Vec<Assortment>)> {
    const PIECE: FaultKind = FaultKind::Missing { key: "piece", example: "`[[piece]]` with a `name`" };
    let (chocolates, ingredients, pieces) = (root.optional("chocolate"), root.optional("ingredient"), root.optional("piece"));
    let format = root.required("format", "`format = 1`");
    if let Some(found) = format.whole(0..=u32::MAX).filter(|found| *found != Document::FORMAT) {
        // What else would do in another format is not known.
        root.excuse_others();
        format.fault(|| FaultKind::Format { found, supported: Document::FORMAT });
        return None;
    }
    pantry.read(&chocolates, &ingredients);
    let own = sheet::provisions(&root.optional("law"), Some(Known::Declared));
    let law = if own.is_empty() { Book::built_in() } else { Book::built_in().with(own) };
    if !pieces.is_present() {
        root.fault(|| PIECE);
    }
    let mut names = Names::default();
    let boxes = root.optional("box");
    let pieces_read = pieces
        .tables(Items { what: "piece", numbered: false, named: true, most: Items::ANY }, |table| piece(table, &mut names, pantry, &law));
    let boxes = assortment::boxes(&boxes, pantry, pieces_read.as_deref().unwrap_or_default(), &names.0);
    let pieces_read = pieces_read?;
    if pieces_read.is_empty() {
        pieces.fault(|| PIECE);
    }
    Some((pieces_read, boxes))
}

fn piece(table: &TableReader<'_>, names: &mut Names, pantry: &Pantry, law: &Book) -> Option<Piece> {
    let name = names.read(table);
    let markets = table.optional("markets");
    let mut layers = Names::default();
    let workshop = table.optional("workshop").table(conditions::workshop).unwrap_or_default();
    let boils = workshop.water_boils_at;
    let piece = Piece {
        name: String::new(),
        sold_as: table.optional("sold_as").choice(),
        markets: markets.list("market").filter_map(Field::choice).collect(),
        regions: table.optional("regions").list("region").filter_map(Field::choice).collect(),
        law: law.clone(),
        free_from: allergens(&table.optional("free_from")),
        stressed: table.optional("stressed").list("ingredient").filter_map(|name| pantry.ingredient(name)).collect(),
        pieces_in_pack: table.optional("pieces_in_pack").whole(1..=PACK),
        keep: table.optional("keep").measure(),
        profile: table.optional("profile").text().map(str::to_owned),
        limits: terms::limits(&table.optional("limits")),
        allow: terms::allowances(&table.optional("allow")),
        mould: table.optional("mould").table(mould::mould),
        shell: table.optional("shell").table(|shell| shell::shell(shell, pantry)),
        layers: table
            .optional("layer")
            .tables(Items { what: "layer", numbered: true, named: true, most: MOST_LAYERS }, |layer| {
                layer::layer(layer, &mut layers, pantry, boils)
            })
            .unwrap_or_default(),
        cap: table.optional("cap").table(|cap| shell::cap(cap, pantry)),
        workshop,
        storage: table.optional("storage").table(conditions::storage).unwrap_or_default(),
        batch: table.optional("batch").table(|batch| conditions::batch(batch, pantry)),
    };
    Some(Piece { name: name?, ..piece })
}

/// Names that must differ, because reports go by them.
#[derive(Default)]
struct Names(HashSet<String>);

impl Names {
    fn read(&mut self, table: &TableReader<'_>) -> Option<String> {
        let field = table.required("name", "a name, such as `name = \"Quince brandy\"`");
        let name = field.text()?.to_owned();
        if !self.0.insert(name.clone()) {
            field.fault(|| FaultKind::RepeatedName { name: name.clone() });
        }
        Some(name)
    }
}
