//! Why no recipe can be sought.

use super::Share;
use crate::units::Measure;
use std::fmt;

/// Everything for which no recipe can be sought.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct BalanceError {
    /// The faults.
    pub faults: Vec<BalanceFault>,
}

impl std::error::Error for BalanceError {}

impl fmt::Display for BalanceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, fault) in self.faults.iter().enumerate() {
            write!(f, "{}{fault}", if index == 0 { "" } else { "\n" })?;
        }
        Ok(())
    }
}

/// One thing that is wrong with a request.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BalanceFault {
    /// The batch weighs nothing.
    #[error("the batch weighs nothing: say how much is to be made, such as `batch = \"1 kg\"`")]
    NoBatch,
    /// Nothing may be used.
    #[error("no ingredient may be used: name at least one that is neither forbidden nor brings an allergen that must stay out")]
    NoIngredients,
    /// Nothing is wanted.
    #[error("no share is wanted: name at least one, such as `water = \"20 %\"`")]
    NoTargets,
    /// An ingredient stands there twice.
    #[error("`{ingredient}` stands there twice: keep one line of it")]
    RepeatedIngredient {
        /// Its name.
        ingredient: String,
    },
    /// A share is wanted twice.
    #[error("{} is wanted twice: keep one", .share.words())]
    RepeatedTarget {
        /// The share.
        share: Share,
    },
    /// A weight that is none.
    #[error("the weight of {} is `{found}`: it must be above 0", .share.words())]
    Weight {
        /// The share.
        share: Share,
        /// What was given.
        found: f64,
    },
    /// The ends of a target are swapped.
    #[error("{} is wanted at least {least} and at most {most}: swap them", .share.words())]
    Ends {
        /// The share.
        share: Share,
        /// The lower end.
        least: Measure,
        /// The upper end.
        most: Measure,
    },
    /// The bounds of an ingredient are swapped.
    #[error("`{ingredient}` is to be at least {least} and at most {most}: swap them")]
    Bounds {
        /// Its name.
        ingredient: String,
        /// The lower bound.
        least: Measure,
        /// The upper bound.
        most: Measure,
    },
    /// An ingredient is forbidden and needed.
    #[error("`{ingredient}` is forbidden, yet {least} of it must go in: drop one of the two")]
    ForbiddenNeeded {
        /// Its name.
        ingredient: String,
        /// What must go in.
        least: Measure,
    },
    /// An ingredient brings what must stay out and is needed.
    #[error("`{ingredient}` brings {allergens}, which must stay out, yet {least} of it must go in: drop one of the two")]
    AllergenNeeded {
        /// Its name.
        ingredient: String,
        /// What must go in.
        least: Measure,
        /// What it brings.
        allergens: String,
    },
    /// What must go in weighs more than the batch.
    #[error("what must go in weighs {least}, more than the batch of {batch}: lower a mass or make more")]
    TooHeavy {
        /// The sum of all that must go in.
        least: Measure,
        /// The batch.
        batch: Measure,
    },
    /// What may go in weighs less than the batch.
    #[error("all that may go in weighs {most}, less than the batch of {batch}: allow more of something or make less")]
    TooLight {
        /// The sum of all that may go in.
        most: Measure,
        /// The batch.
        batch: Measure,
    },
    /// An ingredient of which the share is not known.
    #[error("{} cannot be told of `{ingredient}`, whose sugars were not split: describe it with its lactose, or want something else", .share.words())]
    Untold {
        /// The share.
        share: Share,
        /// The ingredient's name.
        ingredient: String,
    },
    /// No ingredient holds any of it.
    #[error("{wanted} {} is wanted, and no ingredient that may be used holds any: add one that does", .share.words())]
    NoneHolds {
        /// The share.
        share: Share,
        /// The least that is wanted.
        wanted: Measure,
    },
    /// It cannot be reached even by itself.
    #[error(
        "{} is wanted {}, but these ingredients can only make between {lowest} and {highest}, whatever else is wanted: change that, or the ingredients",
        .share.words(), wanted(.least, .most)
    )]
    OutOfReach {
        /// The share.
        share: Share,
        /// The lower end that is wanted.
        least: Measure,
        /// The upper end that is wanted.
        most: Measure,
        /// The lowest that can be made.
        lowest: Measure,
        /// The highest that can be made.
        highest: Measure,
    },
    /// The solver gave up.
    #[error("no recipe was found, though there should be one: the solver says `{status}`")]
    Solver {
        /// What it says.
        status: String,
    },
}

fn wanted(least: &Measure, most: &Measure) -> String {
    if least == most { format!("at {least}") } else { format!("between {least} and {most}") }
}
