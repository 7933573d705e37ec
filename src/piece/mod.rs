//! What a person describes: only facts, nothing derived. Every part but the name may be missing.

mod assortment;
mod cap;
mod cooking;
#[cfg(feature = "documents")]
mod document;
mod knob;
mod layer;
mod mould;
mod shell;
mod storage;
mod workshop;

pub use assortment::{Assortment, Held};
pub use cap::Cap;
pub use cooking::CookingError;
pub(crate) use cooking::cooked_mass;
#[cfg(feature = "documents")]
pub use document::{Document, RewriteError};
pub use knob::{ChocolateOf, Knob, KnobKind, Process, Turn};
pub use layer::{Amount, Barrier, FillingKind, Layer, Measured, Reported};
pub use mould::Mould;
pub use shell::{Seed, SeedKind, Shell, StirredIn, Temper};
pub use storage::{Sale, Storage};
pub use workshop::{Batch, Workshop};

use crate::law::{Book, Region, SalesName};
use crate::matter::{AllergenSet, Ingredient, Market};
use crate::units::{Duration, Measure};
use smallvec::SmallVec;
use std::sync::Arc;

/// A filled chocolate, or as much of it as was described.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Piece {
    /// What it is called.
    pub name: String,
    /// The name it is sold under, where that is one the law reserves.
    pub sold_as: Option<SalesName>,
    /// Where it is sold.
    pub markets: SmallVec<[Market; 4]>,
    /// The parts of a market with a law of their own where it is sold.
    pub regions: SmallVec<[Region; 2]>,
    /// The rows of law it is held against.
    pub law: Book,
    /// The allergens its seller promises it is free from.
    pub free_from: AllergenSet,
    /// The ingredients that its name, a word or a picture stresses.
    pub stressed: Vec<Arc<Ingredient>>,
    /// How many pieces are sold in a pack.
    pub pieces_in_pack: Option<u32>,
    /// How long it is promised to keep.
    pub keep: Option<Duration>,
    /// The named set of limits it is judged by; the careful one if absent.
    pub profile: Option<String>,
    /// Limits its maker sets otherwise, each with a reason.
    pub limits: Vec<OwnLimit>,
    /// Findings its maker accepts, each with a reason.
    pub allow: Vec<Allowance>,
    /// The mould.
    pub mould: Option<Mould>,
    /// The shell.
    pub shell: Option<Shell>,
    /// The layers, in pouring order.
    pub layers: Vec<Layer>,
    /// The cap.
    pub cap: Option<Cap>,
    /// How it is worked.
    pub workshop: Workshop,
    /// How it is stored and sold.
    pub storage: Storage,
    /// How much of it is made.
    pub batch: Option<Batch>,
}

/// A limit set otherwise by the maker.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnLimit {
    /// The key of the limit: `headroom.min`.
    pub key: String,
    /// The value it takes.
    pub value: Measure,
    /// Why.
    pub reason: String,
}

/// A finding accepted by the maker.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Allowance {
    /// The rule whose findings are accepted.
    pub rule: String,
    /// Why.
    pub reason: String,
}

impl Piece {
    /// A piece of which only the name is known. Set the parts you know, or chain the `with_` methods.
    #[must_use]
    pub fn named(name: impl Into<String>) -> Self {
        Self { name: name.into(), ..Self::default() }
    }

    /// With a mould.
    #[must_use]
    pub fn with_mould(self, mould: Mould) -> Self {
        Self { mould: Some(mould), ..self }
    }

    /// With a shell.
    #[must_use]
    pub fn with_shell(self, shell: Shell) -> Self {
        Self { shell: Some(shell), ..self }
    }

    /// With one more layer, poured after those there are.
    #[must_use]
    pub fn with_layer(mut self, layer: Layer) -> Self {
        self.layers.push(layer);
        self
    }

    /// With a cap.
    #[must_use]
    pub fn with_cap(self, cap: Cap) -> Self {
        Self { cap: Some(cap), ..self }
    }

    /// Sold in one more market.
    #[must_use]
    pub fn with_market(mut self, market: Market) -> Self {
        self.markets.push(market);
        self
    }

    /// Sold under a name that the law reserves.
    #[must_use]
    pub fn with_sold_as(self, name: SalesName) -> Self {
        Self { sold_as: Some(name), ..self }
    }

    /// Promised to be free from these allergens.
    #[must_use]
    pub fn with_free_from(self, allergens: AllergenSet) -> Self {
        Self { free_from: self.free_from.union(allergens), ..self }
    }

    /// Promised to keep this long.
    #[must_use]
    pub fn with_keep(self, keep: Duration) -> Self {
        Self { keep: Some(keep), ..self }
    }

    /// Worked in this way.
    #[must_use]
    pub fn with_workshop(self, workshop: Workshop) -> Self {
        Self { workshop, ..self }
    }

    /// Stored and sold in this way.
    #[must_use]
    pub fn with_storage(self, storage: Storage) -> Self {
        Self { storage, ..self }
    }
}
