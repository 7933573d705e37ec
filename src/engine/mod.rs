//! The machinery that judges an assessment by rules. It knows no rule.

mod card;
mod declare;
mod findings;
mod gauge;
mod limit;
mod line;
mod listed;
mod look;
mod profile;
mod reading;
mod ruleset;
mod sold;
#[cfg(test)]
mod trial;

pub use card::{Card, Domain, Driver, Effect, PartKind, Scale, lowers, raises, searched};
pub use findings::{Findings, Unknown};
pub use gauge::{Gauge, Tally};
pub use limit::{Limit, Severity, Side, Standing};
pub use line::Line;
pub use look::Look;
pub use profile::{Profile, ProfileLimit};
pub use reading::{Bound, Mark, Reading, Verdict};
pub use ruleset::{Bounds, Rule, RuleSet, RuleSetError};
pub use sold::{Question, RowInForce, Sold};

use ruleset::SetLimit;
