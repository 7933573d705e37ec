//! Closed lists of words: one declaration gives the type, its words and the way back from a word.

/// A closed list of words a document may use.
pub trait Choice: Copy + PartialEq + 'static {
    /// What messages call it, with its article.
    const WHAT: &'static str;
    /// Every case, in the order it is offered.
    const ALL: &'static [Self];

    /// The word in documents and reports.
    fn key(self) -> &'static str;

    /// The case of a word.
    fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|case| case.key() == key)
    }
}

/// Declares enums that are [`Choice`]s: `/// doc` `Name: "what" { /// doc` `Case "word", ... }`.
macro_rules! choices {
    ($($(#[$doc:meta])* $name:ident: $what:literal { $($(#[$case_doc:meta])* $case:ident $key:literal,)+ })+) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
        pub enum $name {$($(#[$case_doc])* #[serde(rename = $key)] $case,)+}

        impl $crate::units::Choice for $name {
            const WHAT: &'static str = $what;
            const ALL: &'static [Self] = &[$(Self::$case),+];

            fn key(self) -> &'static str {
                match self {$(Self::$case => $key,)+}
            }
        }
    )+};
}
pub(crate) use choices;
