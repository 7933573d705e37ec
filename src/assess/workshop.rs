//! What follows from how a piece is worked and stored.

use super::chocolate::yes;
use super::{Assessed, Estimate, PartAssessment, Quantity};
use crate::models::heat::condensation::dew_point;
use crate::piece::{FillingKind, Piece, Sale, Storage};
use crate::units::quantity::cubic_meter;
use crate::units::{Band, Checked};

pub(super) fn assess(piece: &Piece, shell: &PartAssessment, whole: &mut PartAssessment, holds: impl Fn(FillingKind) -> bool) {
    let workshop = &piece.workshop;
    let put = |whole: &mut PartAssessment, quantity, value: Option<f64>| whole.put(quantity, Assessed::declared_or(value, quantity));
    put(whole, Quantity::AmbientSale, Some(yes(piece.storage.sale() == Sale::Ambient)));
    put(whole, Quantity::FreshSale, Some(yes(piece.storage.sale() == Sale::Fresh)));
    put(whole, Quantity::KeepPromised, piece.keep.map(Checked::base));
    // A name or a chocolate by itself is not asked where it lies.
    if !piece.layers.is_empty() || piece.storage != Storage::default() {
        put(whole, Quantity::StorageTemperature, piece.storage.temperature.map(Checked::base));
        put(whole, Quantity::StorageHumidity, piece.storage.humidity.map(Checked::base));
    }
    if holds(FillingKind::Ganache) {
        put(whole, Quantity::EmulsifiedAt, workshop.emulsified_at.map(Checked::base));
    }
    // What was never filled and capped is not asked how it rested and cooled.
    if piece.layers.is_empty() || piece.mould.is_none() {
        return;
    }
    put(whole, Quantity::RestBeforeCap, workshop.rest_before_cap.map(Checked::base));
    put(whole, Quantity::CooledAt, workshop.cooled_at.map(Checked::base));
    put(whole, Quantity::CooledFor, workshop.cooled_for.map(Checked::base));
    // Whoever says nothing of the batch is not asked about it.
    if piece.batch.as_ref().is_some_and(|batch| batch.melted.is_some()) {
        whole.put(Quantity::MeltPool, melt_pool(piece, shell.get(Quantity::ChocolateDensity)));
    }
    let air = workshop.air_temperature.zip(workshop.air_humidity);
    let dew_point = Assessed::declared_or(air.map(|(air, humidity)| dew_point(air, humidity).celsius()), Quantity::AboveDewPoint);
    // What comes unwrapped out of a colder store sweats as well; wrapped, it warms up in its own air.
    let store = piece.storage.temperature.filter(|_| piece.storage.wrapped != Some(true)).map_or(f64::INFINITY, Checked::base);
    let coldest = whole.get(Quantity::CooledAt).then(|cooled| Assessed::declared(cooled.value().min(store)));
    let above = coldest.with(dew_point, |piece, dew| Assessed::declared(piece.value() - dew.value()));
    whole.put(Quantity::AboveDewPoint, above);
}

/// Chocolate melted over what fills one mould to the rim.
fn melt_pool(piece: &Piece, density: Assessed) -> Assessed {
    let volume = piece.mould.and_then(|mould| Some(f64::from(mould.cavities?) * mould.cavity.volume().get::<cubic_meter>()));
    let melted = piece.batch.as_ref().and_then(|batch| batch.melted);
    let Some((volume, melted)) = volume.filter(|volume| *volume > 0.0).zip(melted) else { return Assessed::lacking(Quantity::MeltPool) };
    let density = if density == Assessed::Absent { Assessed::lacking(Quantity::ChocolateDensity) } else { density };
    density.then(|density| {
        let Band { value, low, high } = density.band.map(|density| melted.base() / (volume * density));
        Assessed::Known(Estimate { band: Band { value, low: high, high: low }, ..density })
    })
}
