//! How many batches pass: what weighing, ingredients, cooking out and temperatures make of a piece from batch to batch.
//!
//! Two kinds of uncertainty must not be mixed up. What differs **from batch to batch**, by chance, makes some batches pass and others not: the
//! scale, the hand that pours, another lot of cream, a pot taken off a little late. What is uncertain **in the estimate** itself, the band of
//! every assessed number, is the same in all batches: if the model is off, they are off together, and making more of them tells nothing. A
//! [`Study`] gives both, and never adds up the one to the other without saying so.
//!
//! It is of first order: each cause is turned by its standard uncertainty to either side, the piece assessed and judged again, and the changes
//! are taken as straight and independent. How far a lot may be off is told by [`Ingredient::lot`](crate::matter::Ingredient::lot); the band of a
//! water activity holds that too, because nobody knows which lot was bought: on the safe side, it counts in both. [`RuleStudy::is_rough`] says where they are not straight.

mod care;
mod cause;
mod probability;
mod scale;
mod study;

pub use care::Care;
pub use cause::Cause;
pub use scale::{ScaleNeed, scale_need};
pub use study::{RuleStudy, Study};
