//! One file is one published correlation, one folder is one property. Physics only: no rule, no piece.

pub mod bounds;
pub mod cavity;
pub mod density;
pub mod fat;
pub mod flow;
pub mod growth;
pub mod heat;
mod interpolation;
mod quadrature;
pub mod range;
mod root;
pub mod water;
