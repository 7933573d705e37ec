//! How a piece is worked, and how much of it is made.

use crate::matter::AllergenSet;
use crate::units::{Duration, MassFraction, Portion, RelativeHumidity, Temperature};

/// How a piece is worked.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Workshop {
    /// Air temperature.
    pub air_temperature: Option<Temperature>,
    /// Air humidity.
    pub air_humidity: Option<RelativeHumidity>,
    /// Temperature of the moulds at casting.
    pub mould_temperature: Option<Temperature>,
    /// Temperature of the chocolate at casting and capping.
    pub chocolate_temperature: Option<Temperature>,
    /// Temperature at which a ganache is emulsified.
    pub emulsified_at: Option<Temperature>,
    /// How long filled shells rest before they are capped.
    pub rest_before_cap: Option<Duration>,
    /// Temperature at which capped pieces are cooled.
    pub cooled_at: Option<Temperature>,
    /// How long capped pieces are cooled before release.
    pub cooled_for: Option<Duration>,
    /// Where the thermometer for cooking shows boiling water; 100 °C if absent. Lower in the mountains.
    pub water_boils_at: Option<Temperature>,
    /// The smallest step of the scale.
    pub scale_division: Option<Portion>,
    /// Allergens handled on the same equipment.
    pub shared_equipment: AllergenSet,
}

/// How much of a piece is made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Batch {
    /// How many moulds are filled.
    pub moulds: Option<u32>,
    /// How much chocolate is melted for casting.
    pub melted: Option<Portion>,
    /// Filling made beyond what is needed, as a share of it.
    pub overage: Option<MassFraction>,
    /// Pieces expected to be lost, as a share of those made.
    pub scrap: Option<MassFraction>,
    /// Prices per kilogram, in a currency of the maker's choice, by ingredient.
    pub prices: Vec<(String, f64)>,
}
