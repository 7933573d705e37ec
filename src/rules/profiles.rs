//! The named sets of limits besides the careful one.

use crate::engine::{Profile, ProfileLimit};
use crate::source;
use crate::units::{Measure, Unit};

/// Every profile but the careful one.
pub static ALL: &[Profile] = &[
    Profile {
        name: "small-kitchen",
        suits: "kitchens that weigh emulsifier by habit, 0.5 to 1 % of the chocolate",
        limits: &[ProfileLimit { key: "lecithin.optimum", value: Measure::new(1.0, Unit::Percent), source: &source::COMMON_PRACTICE }],
    },
    Profile {
        name: "framed-ganache",
        suits: "ganaches that are framed, cut and dipped",
        limits: &[ProfileLimit {
            key: "ganache-cocoa-butter.min",
            value: Measure::new(21.0, Unit::Percent),
            source: &source::GANACHE_TABLES,
        }],
    },
    Profile {
        name: "soft-ganache",
        suits: "soft ganaches by the second balance table: sugars from 25 %",
        limits: &[ProfileLimit { key: "ganache-sugars.min", value: Measure::new(25.0, Unit::Percent), source: &source::GANACHE_TABLES }],
    },
];
