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
    fn from_key(key: &str) -> Option<Self>;
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

            fn from_key(key: &str) -> Option<Self> {
                match key {$($key => Some(Self::$case),)+ _ => None}
            }
        }
    )+};
}
pub(crate) use choices;

/// Declares small sets of the cases of a [`Choice`], a bit for each: `/// doc` `AllergenSet(u32) of Allergen;`.
macro_rules! choice_sets {
    ($($(#[$doc:meta])* $name:ident($bits:ty) of $case:ident;)+) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
        pub struct $name($bits);

        const _: () = assert!(<$case as $crate::units::Choice>::ALL.len() <= <$bits>::BITS as usize, "a case has no bit left");

        impl $name {
            /// None of them.
            pub const EMPTY: Self = Self(0);

            /// The set of these.
            #[must_use]
            pub const fn of(cases: &[$case]) -> Self {
                let (mut rest, mut set) = (cases, Self::EMPTY);
                while let [first, tail @ ..] = rest {
                    set = set.with(*first);
                    rest = tail;
                }
                set
            }

            /// With one more.
            #[must_use]
            pub const fn with(self, case: $case) -> Self {
                Self(self.0 | 1 << case as u32)
            }

            /// Whether it holds one.
            #[must_use]
            pub const fn holds(self, case: $case) -> bool {
                self.0 & (1 << case as u32) != 0
            }

            /// Those in either set.
            #[must_use]
            pub const fn union(self, other: Self) -> Self {
                Self(self.0 | other.0)
            }

            /// Those in both sets.
            #[must_use]
            pub const fn intersection(self, other: Self) -> Self {
                Self(self.0 & other.0)
            }

            /// Those of this set that are not in the other.
            #[must_use]
            pub const fn without(self, other: Self) -> Self {
                Self(self.0 & !other.0)
            }

            /// Whether there is none.
            #[must_use]
            pub const fn is_empty(self) -> bool {
                self.0 == 0
            }

            /// How many there are.
            #[must_use]
            pub const fn len(self) -> u32 {
                self.0.count_ones()
            }

            /// Each of them.
            pub fn iter(self) -> impl Iterator<Item = $case> {
                let mut rest = self.0;
                std::iter::from_fn(move || {
                    let first = <$case as $crate::units::Choice>::ALL.get(rest.trailing_zeros() as usize)?;
                    rest &= rest - 1;
                    Some(*first)
                })
            }
        }

        impl FromIterator<$case> for $name {
            fn from_iter<T: IntoIterator<Item = $case>>(cases: T) -> Self {
                cases.into_iter().fold(Self::EMPTY, Self::with)
            }
        }
    )+};
}
pub(crate) use choice_sets;
