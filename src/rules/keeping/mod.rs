//! Keeping and safety.

// <registry> kept in step by tests/registry.rs
mod activity_meter_misled;
mod filling_not_shelf_stable;
mod filling_would_dry_out;
mod keeping_claim_too_long;
mod storage_off;
mod yeast_could_ferment;

pub use activity_meter_misled::ActivityMeterMisled;
pub use filling_not_shelf_stable::FillingNotShelfStable;
pub use filling_would_dry_out::FillingWouldDryOut;
pub use keeping_claim_too_long::KeepingClaimTooLong;
pub use storage_off::StorageOff;
pub use yeast_could_ferment::YeastCouldFerment;
// </registry>
