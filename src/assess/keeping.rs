//! How long a filling keeps, and what happens to its water before it is closed.

use super::{Assessed, Estimate, Evidence, PartAssessment, Quantity};
use crate::matter::{Market, Recipe, RecipeLine};
use crate::models::growth::{TimeTemperatureControl, Treatment, mould_free, shelf_life_class, sorbic_acid_of, time_temperature_control};
use crate::piece::{Layer, Piece};
use crate::units::quantity::{ratio, second};
use crate::units::{Band, Checked, Ph, Temperature, WaterActivity};

/// A store that is not described, in degrees Celsius.
const ROOM: f64 = 20.0;
/// Below this share of water a filling is a fat with solids in it, and does not dry out.
const WATERY: f64 = 0.05;
/// The wettest class is only said to keep for days: one at least.
const DAY: f64 = 86_400.0;
/// A year: nothing here promises more than that.
const YEAR: f64 = 365.0 * 86_400.0;
/// The activities between which the mould-free time was measured.
const MOULDS: std::ops::RangeInclusive<f64> = 0.74..=0.90;

/// Puts what follows from the water activity, which must have been put.
pub(super) fn assess(part: &mut PartAssessment, piece: &Piece, layer: &Layer) {
    let activity = part.get(Quantity::WaterActivity);
    part.put(Quantity::DryingGap, drying_gap(part, piece));
    let keep = Assessed::declared_or(piece.keep.map(Checked::base), Quantity::KeepPromised);
    let store = piece.storage.temperature.unwrap_or(Temperature::nearest(ROOM));
    let usual = activity.then(|activity| {
        let band = usual_life(&activity, store);
        Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range: activity.in_range })
    });
    part.put(Quantity::UsualKeep, usual);
    part.put(
        Quantity::KeepOverUsual,
        keep.with(usual, |keep, usual| {
            let Band { value, low, high } = usual.band;
            let band = Band { value: keep.value() / value, low: keep.value() / high, high: keep.value() / low };
            Assessed::Known(Estimate { band, ..usual })
        }),
    );
    part.put(Quantity::SorbicAcid, layer.recipe.as_ref().map_or(Assessed::lacking(Quantity::SorbicAcid), sorbic_acid));
    if piece.markets.contains(&Market::Us) {
        part.put(Quantity::NeedsCold, needs_cold(part, layer));
    }
    if layer.measured.water_activity.is_some() && layer.measured_recipe.is_none() {
        part.put(Quantity::EthanolAtMeter, part.get(Quantity::Ethanol));
    }
}

/// The preservative of yeasts and moulds.
fn sorbic_acid(recipe: &Recipe) -> Assessed {
    let acid = |line: &RecipeLine| Some(line.mass.base() * sorbic_acid_of(line.ingredient.additive.as_deref()?).get::<ratio>());
    Assessed::declared(recipe.lines().iter().filter_map(acid).sum::<f64>() / recipe.yielded())
}

/// How far a watery filling is above the humidity of the room.
fn drying_gap(part: &PartAssessment, piece: &Piece) -> Assessed {
    if part.get(Quantity::Water).value().is_some_and(|water| water < WATERY) {
        return Assessed::Absent;
    }
    part.get(Quantity::WaterActivity).then(|activity| match piece.workshop.air_humidity.map(Checked::base) {
        Some(humidity) => Assessed::Known(Estimate { band: activity.band.map(|activity| activity - humidity), ..activity }),
        None => Assessed::lacking(Quantity::DryingGap),
    })
}

/// How long fillings of such an activity keep, in seconds: the class's times, and where moulds decide the mould-free time, the shorter. The
/// band is that of the activity and of both.
fn usual_life(activity: &Estimate, store: Temperature) -> Band<f64> {
    let class = |activity: f64| {
        let class = shelf_life_class(WaterActivity::nearest(activity));
        let most = class.at_most().map_or(YEAR, |time| time.get::<second>());
        let least = class.at_least().map_or(DAY, |time| time.get::<second>());
        (least, most)
    };
    let (shortest, _) = class(activity.band.high);
    let (_, longest) = class(activity.band.low);
    let (least, most) = class(activity.value());
    let value = (least * most).sqrt();
    let band = Band { value, low: shortest.min(value), high: longest.max(value) };
    if !MOULDS.contains(&activity.value()) {
        return band;
    }
    let moulds = mould_free(WaterActivity::nearest(activity.value()), store).time.map(|time| time.get::<second>());
    let value = value.min(moulds.value);
    Band { value, low: band.low.min(moulds.low).min(value), high: band.high.max(value) }
}

/// Whether the Food Code wants it kept cold, at both ends of the bands of activity and pH.
fn needs_cold(part: &PartAssessment, layer: &Layer) -> Assessed {
    let ph = part.get(Quantity::Ph).known().map(|ph| ph.band.map(Ph::nearest));
    let treatment = if layer.heat_treated_in_pack { Treatment::HeatedAndPacked } else { Treatment::Other };
    let answer = |activity: f64, ph: Option<Ph>| {
        let control = time_temperature_control(WaterActivity::nearest(activity), ph, treatment);
        f64::from(u8::from(control == TimeTemperatureControl::UnlessAssessed))
    };
    part.get(Quantity::ActivityWithoutEthanol).then(|activity| {
        let Band { value, low, high } = activity.band;
        let band = Band {
            value: answer(value, ph.map(|ph| ph.value)),
            low: answer(low, ph.map(|ph| ph.low)),
            high: answer(high, ph.map(|ph| ph.high)),
        };
        // Without a pH the careful answer stands only where no pH could change it.
        if ph.is_none() && band.high > answer(activity.band.high, Some(Ph::nearest(0.0))) {
            return Assessed::lacking(Quantity::Ph);
        }
        Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range: activity.in_range })
    })
}
