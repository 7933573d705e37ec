//! What follows from how a piece is worked and stored.

use super::chocolate::yes;
use super::{Assessed, PartAssessment, Quantity};
use crate::models::heat::condensation::dew_point;
use crate::piece::{FillingKind, Piece, Sale, Storage};
use crate::units::Checked;
use crate::units::quantity::cubic_meter;

pub(super) fn assess(piece: &Piece, whole: &mut PartAssessment, holds: impl Fn(FillingKind) -> bool) {
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
        put(whole, Quantity::MeltPool, melt_pool(piece));
    }
    let air = workshop.air_temperature.zip(workshop.air_humidity);
    let above = air.zip(workshop.cooled_at).map(|((air, humidity), piece)| piece.celsius() - dew_point(air, humidity).celsius());
    put(whole, Quantity::AboveDewPoint, above);
}

/// Chocolate melted over what fills one mould to the rim; set chocolate weighs about 1300 kg/m³.
fn melt_pool(piece: &Piece) -> Option<f64> {
    const CHOCOLATE: f64 = 1300.0;
    let (mould, melted) = (piece.mould?, piece.batch.as_ref()?.melted?);
    let full = f64::from(mould.cavities?) * mould.cavity.volume().get::<cubic_meter>() * CHOCOLATE;
    (full > 0.0).then(|| melted.base() / full)
}
