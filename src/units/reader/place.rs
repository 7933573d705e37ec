//! Where in a document something stands, in the user's words.

use crate::units::shortened;
use std::fmt;

/// A place, as a path of borrowed parts: it becomes words only when there is a fault to report.
#[derive(Clone, Copy)]
pub(super) struct Place<'p> {
    parent: Option<&'p Place<'p>>,
    part: Part<'p>,
}

/// One step of the path.
#[derive(Clone, Copy)]
enum Part<'p> {
    Document,
    Key(&'p str),
    Item { what: &'static str, number: Option<usize>, name: Option<&'p str> },
}

impl<'p> Place<'p> {
    /// The whole document.
    pub(super) const DOCUMENT: Place<'static> = Place { parent: None, part: Part::Document };

    /// The value of a key here.
    pub(super) const fn key(&'p self, key: &'p str) -> Self {
        Self { parent: Some(self), part: Part::Key(key) }
    }

    /// One of the elements of the list here.
    pub(super) const fn element(&'p self, what: &'static str, number: usize) -> Self {
        Self { parent: Some(self), part: Part::Item { what, number: Some(number), name: None } }
    }

    /// One of the several things the value here holds; what one is called stands for the key.
    pub(super) const fn item(self, what: &'static str, number: Option<usize>, name: Option<&'p str>) -> Self {
        Self { parent: self.parent, part: Part::Item { what, number, name } }
    }
}

impl fmt::Display for Place<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(parent) = self.parent.filter(|parent| parent.parent.is_some()) {
            write!(f, "{parent}, ")?;
        }
        match self.part {
            Part::Document => f.write_str("document"),
            Part::Key(key) => f.write_str(&shortened(key)),
            Part::Item { what, number, name } => {
                f.write_str(what)?;
                number.map_or(Ok(()), |number| write!(f, " {number}"))?;
                name.map_or(Ok(()), |name| write!(f, " \"{}\"", shortened(name)))
            }
        }
    }
}
