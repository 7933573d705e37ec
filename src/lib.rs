//! Formulation rules for filled chocolates: flow, casting, closing, keeping and allergens, each number with its source and its
//! uncertainty.
//!
//! A described [`Piece`] is assessed once by models, judged by rules, and reported:
//!
//! ```text
//! document -> piece -> assessment -> readings -> findings -> report
//!                ^----------- remedy: turn a knob, assess again
//! ```
//!
//! | module | holds |
//! |---|---|
//! | [`units`] | the door: measures, checked ranges, the `uom` quantities used |
//! | [`matter`] | constituents, compositions, ingredients, the larder, recipes |
//! | [`law`] | the law as rows of data, each with its section |
//! | [`models`] | physics: one file is one published correlation |
//! | `balance` | what to weigh for wanted shares of water, sugars, fats (feature `balance`) |
//! | [`piece`] | what a person describes, its knobs, its document form |
//! | [`assess`] | everything that follows from a piece, with its uncertainty |
//! | [`engine`] | cards, limits, readings, verdicts: the machinery of judging |
//! | [`rules`] | one file is one rule |
//! | [`remedy`] | the smallest change that mends a finding |
//! | [`tolerance`] | how many batches pass, what makes them differ, and how fine a scale that takes |
//! | [`screen`] | many variants of a piece in numbers, a row each |
//! | [`report`] | words and figures |
//! | `laws` | what every rule must satisfy, as a test kit for rule authors (feature `laws`) |
//! | [`source`] | every publication once |
//!
#![cfg_attr(feature = "documents", doc = "```")]
#![cfg_attr(not(feature = "documents"), doc = "```ignore")]
//! use cordial::{Document, check};
//!
//! let document = Document::parse(
//!     r#"
//!     format = 1
//!     [[piece]]
//!     name = "orange spirit"
//!     mould = { shape = "hemisphere", diameter = "28 mm" }
//!     shell = { chocolate = "dark-couverture-64", thickness = "2 mm", casts = 2, temper = "tempered" }
//!     [[piece.layer]]
//!     name = "spirit"
//!     fill_to = "2 mm"
//!     recipe = [{ ingredient = "orange-liqueur-40", mass = "100 g" }]
//!     [piece.cap]
//!     "#,
//! )?;
//! let report = check(&document.pieces()[0])?;
//! assert!(report.to_text().contains("the filling cannot carry the cap"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! An estimate is not a measurement: confirm water activity with a calibrated meter and keeping with a trial, and follow local food law
//! and a qualified person.

pub mod assess;
#[cfg(feature = "balance")]
pub mod balance;
pub mod engine;
pub mod law;
#[cfg(feature = "laws")]
pub mod laws;
pub mod matter;
pub mod models;
pub mod piece;
pub mod remedy;
pub mod report;
pub mod rules;
pub mod screen;
pub mod source;
pub mod tolerance;
pub mod units;

#[cfg(feature = "documents")]
pub use piece::Document;
pub use piece::Piece;
pub use report::{Report, check};

/// The examples of the README, compiled and run.
#[cfg(all(doctest, feature = "documents"))]
#[doc = include_str!("../README.md")]
pub struct ReadmeExamples;
