//! What came of one candidate.

use crate::assess::Assessed;
use crate::engine::{Card, Mark, Verdict};
use smallvec::SmallVec;

/// A few things, kept in the row itself.
pub(super) type Few<T> = SmallVec<[T; 4]>;

/// One candidate.
#[derive(Debug, Clone)]
pub struct Row {
    /// Its place in the plan, or among the pieces.
    pub index: u64,
    /// What each knob was turned to, in the base unit; nothing where whole pieces were given.
    pub settings: SmallVec<[f64; 4]>,
    /// What was found; none where these settings make no piece.
    pub found: Option<Found>,
}

/// What was found of a candidate.
#[derive(Debug, Clone)]
pub struct Found {
    /// The worst verdict that the maker does not accept, a failure in any case; what could not be judged is no pass, see [`Self::unknown`].
    pub verdict: Verdict,
    /// The rule that gave it, the first of several; none where all pass.
    pub worst: Option<&'static Card>,
    /// Whether some rule could not judge some part.
    pub unknown: bool,
    /// What was asked for of the assessment, in order.
    pub estimates: SmallVec<[Assessed; 4]>,
    /// How the limits asked for are met, in order; none where nothing was read against one.
    pub marks: SmallVec<[Option<Mark>; 4]>,
}

impl Found {
    /// Whether it passes: nothing above a note, and nothing unknown.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.verdict <= Verdict::Note && !self.unknown
    }
}
