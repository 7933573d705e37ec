//! The named sets of limits besides the careful one.

use crate::engine::{Profile, ProfileLimit};
use crate::source;
use crate::units::{Measure, Unit};

/// Every profile but the careful one.
pub static ALL: &[Profile] = &[Profile {
    name: "small-kitchen",
    suits: "kitchens that weigh emulsifier by habit, 0.5 to 1 % of the chocolate",
    limits: &[ProfileLimit { key: "lecithin.optimum", value: Measure::new(1.0, Unit::Percent), source: &source::COMMON_PRACTICE }],
}];
