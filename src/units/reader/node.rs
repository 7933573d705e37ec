//! The neutral tree both forms of a document are read into.

use crate::units::shortened;
use std::fmt;

/// A value and the line it stands on.
pub(super) struct Node {
    pub line: Option<u32>,
    pub value: Value,
}

/// What TOML and JSON can say. Keys keep their order, and repeated ones are kept for the reader to find.
pub(super) enum Value {
    Text(String),
    Number(f64),
    Flag(bool),
    List(Vec<Node>),
    Table(Vec<(String, Node)>),
    Date,
    Null,
}

impl fmt::Display for Value {
    /// As messages show it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) => write!(f, "`\"{}\"`", shortened(text)),
            Self::Number(number) => write!(f, "`{number}`"),
            Self::Flag(flag) => write!(f, "`{flag}`"),
            Self::List(_) => f.write_str("a list"),
            Self::Table(_) => f.write_str("a table"),
            Self::Date => f.write_str("a date"),
            Self::Null => f.write_str("`null`"),
        }
    }
}
