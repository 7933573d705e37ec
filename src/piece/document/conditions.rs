//! The conditions: workshop, storage and batch.

use crate::matter::pantry::Pantry;
use crate::matter::sheet::allergens;
use crate::piece::{Batch, Storage, Workshop};
use crate::units::BoilingWater;
use crate::units::reader::TableReader;

pub(super) fn workshop(table: &TableReader<'_>) -> Option<Workshop> {
    Some(Workshop {
        air_temperature: table.optional("air_temperature").measure(),
        air_humidity: table.optional("air_humidity").measure(),
        mould_temperature: table.optional("mould_temperature").measure(),
        chocolate_temperature: table.optional("chocolate_temperature").measure(),
        emulsified_at: table.optional("emulsified_at").measure(),
        rest_before_cap: table.optional("rest_before_cap").measure(),
        cooled_at: table.optional("cooled_at").measure(),
        cooled_for: table.optional("cooled_for").measure(),
        water_boils_at: table.optional("water_boils_at").measure().map(BoilingWater::into),
        scale_division: table.optional("scale_division").measure(),
        shared_equipment: allergens(&table.optional("shared_equipment")),
    })
}

pub(super) fn storage(table: &TableReader<'_>) -> Option<Storage> {
    Some(Storage {
        temperature: table.optional("temperature").measure(),
        humidity: table.optional("humidity").measure(),
        wrapped: table.optional("wrapped").flag(),
        sale: table.optional("sale").choice(),
    })
}

pub(super) fn batch(table: &TableReader<'_>, pantry: &Pantry) -> Option<Batch> {
    let prices = table.optional("prices");
    let price = |(name, field)| pantry.find(name, field).and_then(|_| Some((name.to_owned(), field.nonnegative()?)));
    Some(Batch {
        moulds: table.optional("moulds").whole(1..=100_000),
        melted: table.optional("melted").measure(),
        overage: table.optional("overage").measure(),
        scrap: table.optional("scrap").measure(),
        prices: prices.named().filter_map(price).collect(),
    })
}
