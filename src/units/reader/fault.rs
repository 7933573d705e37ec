//! What is wrong with a document: where, on which line, and what would do.

use super::place::Place;
use crate::units::{Dimension, MeasureError, Unit, shortened};
use std::cell::{Cell, RefCell};
use std::error::Error;
use std::fmt;
use std::sync::Arc;

/// One thing that is wrong with a document.
#[derive(Debug, Clone)]
pub struct Fault {
    /// Where, in the words of the document: `piece "Quince brandy", layer 1 "quince brandy", recipe line 3, mass`.
    pub place: String,
    /// The line, counted from one, where it is known.
    pub line: Option<u32>,
    /// What is wrong.
    pub kind: FaultKind,
}

impl Fault {
    pub(super) fn of_document(line: Option<u32>, kind: FaultKind) -> Self {
        Self { place: Place::DOCUMENT.to_string(), line, kind }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(line) = self.line {
            write!(f, "line {line}: ")?;
        }
        write!(f, "{}: {}", self.place, self.kind)
    }
}

/// What can be wrong with a value, a table or a whole document.
#[derive(Debug, Clone, thiserror::Error)]
#[non_exhaustive]
pub enum FaultKind {
    /// The text is longer than documents may be.
    #[error("{size} bytes are too long, the limit is {limit}: split it into several documents")]
    TooLong {
        /// Its length in bytes.
        size: usize,
        /// The longest that is read.
        limit: usize,
    },
    /// The text breaks the rules of its language.
    #[error("this is not {language}{}: {detail}; nothing else was read", .column.map_or(String::new(), |column| format!(" at column {column}")))]
    Syntax {
        /// TOML or JSON.
        language: &'static str,
        /// The column, counted from one.
        column: Option<usize>,
        /// What the parser found.
        detail: String,
    },
    /// A format of documents that is not known.
    #[error("`format = {found}` is not known here: write `format = {supported}`")]
    Format {
        /// What was given.
        found: u32,
        /// What is read.
        supported: u32,
    },
    /// A key that means nothing where it stands.
    #[error("`{}` is not a key here{}", shortened(.key), meant(.nearest.as_slice(), .known))]
    UnknownKey {
        /// What was given.
        key: String,
        /// The key that may be meant.
        nearest: Option<String>,
        /// Every key that may stand here.
        known: Vec<&'static str>,
    },
    /// A key that stands in one table twice.
    #[error("`{}` stands here twice: keep one", shortened(.key))]
    RepeatedKey {
        /// The key.
        key: String,
    },
    /// A name that two things of the same kind bear.
    #[error("`{}` is the name of another one too: give each its own, reports go by them", shortened(.name))]
    RepeatedName {
        /// The name.
        name: String,
    },
    /// A key that must be there is not.
    #[error("`{key}` is missing: add {example}")]
    Missing {
        /// The key.
        key: &'static str,
        /// How it could be written.
        example: &'static str,
    },
    /// Keys of which only one may be there.
    #[error("only one of {} may be given: keep one", spelled(.keys))]
    Exclusive {
        /// The keys that are there.
        keys: Vec<&'static str>,
    },
    /// A value of another form than the key wants.
    #[error("expected {expected}, found {found}")]
    Form {
        /// What was wanted.
        expected: &'static str,
        /// What was given, as it is shown.
        found: String,
    },
    /// A text with nothing in it.
    #[error("this is blank: write something between the quotes, or leave the key out")]
    Blank,
    /// A number without the unit it needs.
    #[error("`{found}` has no unit: write {what} in quotes with one of {}", spelled_units(*.dimension))]
    NoUnit {
        /// What was given.
        found: f64,
        /// What is measured.
        what: &'static str,
        /// Its dimension.
        dimension: Dimension,
    },
    /// A number that is not whole, or outside its range.
    #[error("expected a whole number from {least} to {most}, found `{found}`")]
    Whole {
        /// The smallest that will do.
        least: u32,
        /// The largest that will do.
        most: u32,
        /// What was given.
        found: f64,
    },
    /// A list longer than anybody needs, who would wait long for what is made of it.
    #[error("{found} are listed here, each a {what}; at most {most} are read: add up what is alike")]
    Many {
        /// What is listed.
        what: &'static str,
        /// How many of it.
        found: usize,
        /// How many are read.
        most: usize,
    },
    /// A number that is negative, infinite or none.
    #[error("expected a number of at least 0, found `{found}`")]
    Negative {
        /// What was given.
        found: f64,
    },
    /// A word that is not in the list it comes from.
    #[error("`{}` is not {what} known here{}", shortened(.word), meant(.nearest.as_slice(), .known))]
    UnknownWord {
        /// What was given.
        word: String,
        /// What it should name, with its article.
        what: &'static str,
        /// The word that may be meant.
        nearest: Option<String>,
        /// Every word that would do.
        known: Vec<&'static str>,
    },
    /// A text that is not the measure that was wanted.
    #[error(transparent)]
    Measure(#[from] MeasureError),
    /// Values that can each be read but describe nothing there can be: see [`Self::reason`].
    #[error("{0}")]
    Refused(Arc<dyn Error + Send + Sync>),
}

impl FaultKind {
    /// Why the values were refused, if they were and for a reason of this type: the error of a composition, a recipe, a cavity, an unknown
    /// name or an ingredient that is no chocolate.
    #[must_use]
    pub fn reason<E: Error + 'static>(&self) -> Option<&E> {
        match self {
            Self::Refused(reason) => reason.downcast_ref(),
            _ => None,
        }
    }

    pub(super) fn syntax(language: &'static str, column: Option<usize>, detail: &str) -> Self {
        let detail = detail.split_whitespace().collect::<Vec<_>>().join(" ");
        Self::Syntax { language, column, detail }
    }
}

/// The way out of an unknown word: the nearest one, or all there are.
fn meant(nearest: &[String], known: &[&str]) -> String {
    match nearest {
        [] if known.is_empty() => String::new(),
        [] => format!(": use one of {}", spelled(known)),
        nearest => format!(": did you mean {}?", spelled(nearest)),
    }
}

fn spelled(words: &[impl AsRef<str>]) -> String {
    words.iter().map(|word| format!("`{}`", word.as_ref())).collect::<Vec<_>>().join(", ")
}

fn spelled_units(dimension: Dimension) -> String {
    let codes: Vec<_> = dimension.units().filter(|unit| *unit != Unit::One).map(Unit::code).collect();
    spelled(&codes)
}

/// Everything that is wrong with a document, in the order of its lines.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct DocumentError {
    /// The faults.
    pub faults: Vec<Fault>,
    /// How many more there are; only the first few hundred are kept.
    pub more: usize,
}

impl Error for DocumentError {}

impl fmt::Display for DocumentError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, fault) in self.faults.iter().enumerate() {
            write!(f, "{}{fault}", if index == 0 { "" } else { "\n" })?;
        }
        if self.more > 0 { write!(f, "\nand {} more", self.more) } else { Ok(()) }
    }
}

impl From<Fault> for DocumentError {
    fn from(fault: Fault) -> Self {
        Self { faults: vec![fault], more: 0 }
    }
}

/// The faults found so far.
#[derive(Default)]
pub(crate) struct Faults {
    kept: RefCell<Vec<Fault>>,
    more: Cell<usize>,
}

impl Faults {
    /// Nobody reads more than this; looking for the nearest word costs time for each.
    const KEPT: usize = 500;

    /// Notes a fault; what is wrong is worked out only if the fault is kept.
    pub(super) fn note(&self, place: &Place<'_>, line: Option<u32>, kind: impl FnOnce() -> FaultKind) {
        if self.kept.borrow().len() < Self::KEPT {
            let fault = Fault { place: place.to_string(), line, kind: kind() };
            self.kept.borrow_mut().push(fault);
        } else {
            self.more.set(self.more.get() + 1);
        }
    }

    /// The value if there is no fault, all faults if there are.
    pub(crate) fn or<T>(self, value: T) -> Result<T, DocumentError> {
        let mut faults = self.kept.into_inner();
        if faults.is_empty() {
            return Ok(value);
        }
        faults.sort_by_key(|fault| fault.line.unwrap_or(0));
        Err(DocumentError { faults, more: self.more.get() })
    }
}
