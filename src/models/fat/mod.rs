//! Fat: how much of it is solid, in which crystals, and where it wanders.

pub mod migration;
pub mod polymorph;
pub mod solid_fat;
pub mod tempering;
