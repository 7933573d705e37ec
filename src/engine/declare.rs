//! The declaration of a rule: one macro, no more.

/// Declares a rule: its doc comment is the rationale, its limits are statics, its card is data. A function is written only where
/// quantities are combined or the kind of filling picks the limit; without one, each limit is held against its own quantity.
///
/// ```
/// use cordial::assess::Quantity;
/// use cordial::engine::{Card, Domain, Limit, PartKind, Rule};
/// use cordial::units::Unit;
///
/// cordial::rule! {
///     /// A piece above 20 g is no single mouthful. Guests bite it in half and the filling runs.
///     PieceTooLarge {
///         id: "piece-too-large",
///         title: "the piece is no single mouthful",
///         domain: Domain::Batch,
///         part: PartKind::Whole,
///     }
///     limits {
///         LARGE = Limit::at_most("piece.large", Quantity::PieceMass, 20.0, Unit::Gram).advice();
///     }
/// }
///
/// assert_eq!(PieceTooLarge.card().limits[0].key, "piece.large");
/// assert_eq!(PieceTooLarge.card().why(), "A piece above 20 g is no single mouthful.");
/// ```
#[macro_export]
macro_rules! rule {
    (
        $(#[doc = $doc:literal])+
        $name:ident { $($field:ident: $value:expr),+ $(,)? }
        limits { $($limit:ident = $declared:expr;)+ }
        $(|$look:ident, $out:ident| $read:block)?
    ) => {
        $(static $limit: $crate::engine::Limit = $declared;)+

        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy)]
        pub struct $name;

        impl $crate::engine::Rule for $name {
            fn card(&self) -> &'static $crate::engine::Card {
                static CARD: $crate::engine::Card = $crate::engine::Card {
                    rationale: concat!($($doc),+),
                    file: file!(),
                    limits: &[$(&$limit),+],
                    $($field: $value,)+
                    ..$crate::engine::Card::BLANK
                };
                &CARD
            }

            fn only_compares(&self) -> bool {
                const FUNCTIONS: &[&str] = &[$(stringify!($look))?];
                FUNCTIONS.is_empty()
            }

            $(fn read(&self, $look: &$crate::engine::Look<'_>, $out: &mut $crate::engine::Findings) $read)?
        }
    };
}
