//! Named sets of limits.

use crate::source::Source;
use crate::units::Measure;

/// One limit that a profile sets otherwise than the careful one.
#[derive(Debug, Clone, Copy)]
pub struct ProfileLimit {
    /// The key of the limit.
    pub key: &'static str,
    /// The value it takes.
    pub value: Measure,
    /// Where that comes from.
    pub source: &'static Source,
}

/// A named set of limits. What it does not name is as in the careful profile, which every limit carries itself.
#[derive(Debug, Clone, Copy)]
pub struct Profile {
    /// The name documents use.
    pub name: &'static str,
    /// Whom it suits.
    pub suits: &'static str,
    /// What it sets otherwise.
    pub limits: &'static [ProfileLimit],
}

impl Profile {
    /// The careful profile: each limit as its rule declares it.
    pub const CAREFUL: Self = Self { name: "careful", suits: "pieces made for sale", limits: &[] };
}
