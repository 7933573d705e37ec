//! One file is one published correlation, one folder is one property. Physics only: no rule, no piece.

pub mod cavity;
pub mod density;
pub mod flow;
pub mod water;
