//! What to change: a knob is turned, the piece assessed again, and the smallest change found that mends a finding, or many turns that mend
//! all. Rules know nothing of this, so every rule gets remedies, and they cure by construction.

mod repair;
mod search;

pub use repair::{Repair, repair};
pub use search::{Remedy, Upset, remedies};
