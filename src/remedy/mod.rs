//! What to change: one knob is turned, the piece assessed again, and the smallest change found that mends a finding. Rules know
//! nothing of this, so every rule gets remedies, and they cure by construction.

mod search;

pub use search::{Remedy, Upset, remedies};
