//! The balance of a recipe: what to weigh of which ingredients so that so much of it is water, sugars, cocoa butter, milk fat.
//!
//! A [`Request`] names the ingredients, with bounds, and the shares that are wanted; [`Request::solve`] answers with an [`Answer`]: the masses,
//! what is reached and what is missed, what binds, and which single concession would let everything else be met. All of it is linear in the
//! masses, so what is found is the best there is, not the best that a search came across. What is not linear, such as water activity, is told of
//! the recipe found by assessing it.

mod answer;
#[cfg(feature = "documents")]
mod document;
mod fault;
mod program;
mod request;
mod share;

pub use answer::{Active, Answer, Concession, End, Reached};
#[cfg(feature = "documents")]
pub use document::Requests;
pub use fault::{BalanceError, BalanceFault};
pub use request::{Line, Request, Target};
pub use share::Share;
