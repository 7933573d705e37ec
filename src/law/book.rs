//! All rows together: those built in, and those a document adds or corrects.

use super::Row;
use std::sync::Arc;
#[cfg(feature = "documents")]
use std::sync::LazyLock;

/// The place of a row in the book it was read from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct RowId(u16);

impl RowId {
    pub(crate) fn place(self) -> usize {
        usize::from(self.0)
    }
}

/// Rows of law. Cloning it copies no row.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Book(Option<Arc<[Row]>>);

impl Book {
    /// The rows that come with this crate; none without the feature `documents`, so that every question stays open.
    #[must_use]
    pub fn built_in() -> Self {
        Self(None)
    }

    /// The same with rows added; one that bears the id of another takes its place.
    #[must_use]
    pub fn with(&self, rows: impl IntoIterator<Item = Row>) -> Self {
        let mut all = self.rows().to_vec();
        for row in rows {
            match all.iter_mut().find(|other| other.id == row.id) {
                Some(other) => *other = row,
                None => all.push(row),
            }
        }
        Self(Some(all.into()))
    }

    /// Every row.
    #[must_use]
    pub fn rows(&self) -> &[Row] {
        self.0.as_deref().unwrap_or_else(|| built_in())
    }

    /// Every row with its place.
    pub fn iter(&self) -> impl Iterator<Item = (RowId, &Row)> {
        (0..).map(RowId).zip(self.rows())
    }

    /// The row at a place.
    #[must_use]
    pub fn row(&self, id: RowId) -> Option<&Row> {
        self.rows().get(id.place())
    }
}

#[cfg(feature = "documents")]
fn built_in() -> &'static [Row] {
    // A provision that cannot be read is left out here, and found by a test.
    static BUILT_IN: LazyLock<Vec<Row>> =
        LazyLock::new(|| super::sheet::TABLES.iter().flat_map(|text| super::sheet::parse(text).0).collect());
    &BUILT_IN
}

#[cfg(not(feature = "documents"))]
const fn built_in() -> &'static [Row] {
    &[]
}

#[cfg(all(test, feature = "documents"))]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::law::sheet;
    use std::collections::HashSet;

    #[test]
    fn every_built_in_provision_can_be_read() {
        for text in sheet::TABLES {
            let (rows, read) = sheet::parse(text);
            read.unwrap();
            assert!(!rows.is_empty());
        }
    }

    #[test]
    fn every_row_says_what_it_is_of() {
        let mut ids = HashSet::new();
        for row in Book::built_in().rows() {
            assert!(ids.insert(&row.id), "two rows are called {}", row.id);
            assert!(row.names.is_empty() != (row.effect == crate::law::Effect::Name), "{}", row.id);
            let of_additives = row.term == crate::law::Term::Additives;
            assert!(of_additives != row.additives.is_empty() && !(of_additives && row.categories.is_empty()), "{}", row.id);
            let recalled = row.citation.known == crate::matter::Known::Memory;
            assert!(recalled || !row.citation.address.is_empty(), "{} was read nowhere", row.id);
        }
    }

    #[test]
    fn a_row_of_ones_own_takes_the_place_of_another() {
        let book = Book::built_in();
        let first = book.rows().first().unwrap().clone();
        let changed = book.with([Row { note: "mine".into(), ..first.clone() }, Row { id: "own".into(), ..first }]);
        assert_eq!((changed.rows().len(), changed.rows().first().unwrap().note.as_str()), (book.rows().len() + 1, "mine"));
    }
}
