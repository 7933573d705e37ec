//! The filling itself.

// <registry> kept in step by tests/registry.rs
mod caramel_moisture_off;
mod caramel_would_grain;
mod chocolate_cream_ratio_off;
mod crust_syrup_off;
mod fruit_gel_will_not_set;
mod ganache_cocoa_too_dry;
mod ganache_fat_water_unbalanced;
mod ganache_short_of_sugars;
mod ganache_too_fat;
mod ganache_too_soft_to_set;
mod ganache_too_wet;
mod gum_fails_in_spirit;
mod humectants_overused;
mod jam_would_weep;
mod marshmallow_moisture_off;
mod spirit_level_off;
mod spirit_slackens_ganache;
mod sucrose_would_grain;
mod water_in_fat_filling;

pub use caramel_moisture_off::CaramelMoistureOff;
pub use caramel_would_grain::CaramelWouldGrain;
pub use chocolate_cream_ratio_off::ChocolateCreamRatioOff;
pub use crust_syrup_off::CrustSyrupOff;
pub use fruit_gel_will_not_set::FruitGelWillNotSet;
pub use ganache_cocoa_too_dry::GanacheCocoaTooDry;
pub use ganache_fat_water_unbalanced::GanacheFatWaterUnbalanced;
pub use ganache_short_of_sugars::GanacheShortOfSugars;
pub use ganache_too_fat::GanacheTooFat;
pub use ganache_too_soft_to_set::GanacheTooSoftToSet;
pub use ganache_too_wet::GanacheTooWet;
pub use gum_fails_in_spirit::GumFailsInSpirit;
pub use humectants_overused::HumectantsOverused;
pub use jam_would_weep::JamWouldWeep;
pub use marshmallow_moisture_off::MarshmallowMoistureOff;
pub use spirit_level_off::SpiritLevelOff;
pub use spirit_slackens_ganache::SpiritSlackensGanache;
pub use sucrose_would_grain::SucroseWouldGrain;
pub use water_in_fat_filling::WaterInFatFilling;
// </registry>
