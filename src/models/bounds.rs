//! What is known by its two ends only.

/// Two ends between which a value lies, and no best value: such a range promises no date.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds<Q> {
    /// At least.
    pub least: Q,
    /// At most.
    pub most: Q,
}
