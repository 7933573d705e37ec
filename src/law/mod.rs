//! The law of sweets as data: rows of limits, each with the section it is written in and how that is known. Arithmetic on published
//! limits, no advice: local authorities and a qualified person decide.

pub mod allergen;
mod citation;
pub mod labelling;
pub mod nutrition;

pub use citation::Citation;
