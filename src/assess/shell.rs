//! The shell.

use super::chocolate::Poured;
use super::{Assessed, Estimate, Evidence, PartAssessment, Quantity, QuantitySet};
use crate::models::cavity::Cavity;
use crate::models::flow::casting_flow::CastingFlow;
use crate::models::flow::draining;
use crate::piece::{Piece, Shell};
use crate::units::quantity::{
    Angle, Density, DynamicViscosity, Length, Stress, kilogram_per_cubic_meter, meter, pascal, pascal_second, radian, square_meter,
};
use crate::units::{Checked, Duration};

/// The shell's chocolate as it is poured, if there is a shell.
pub(super) fn poured(piece: &Piece) -> Option<Poured<'_>> {
    piece.shell.as_ref().map(|shell| Poured {
        chocolate: &shell.chocolate,
        emulsifiers: &shell.emulsifiers,
        stirred_in: &shell.stirred_in,
        seed: shell.seed,
        temper: shell.temper,
        temperature: piece.workshop.chocolate_temperature,
    })
}

pub(super) fn assess(piece: &Piece, part: &mut PartAssessment) {
    part.clear();
    let (Some(shell), Some(poured)) = (&piece.shell, poured(piece)) else { return };
    poured.assess(part);
    if let Some(seed) = shell.seed {
        part.seed = Some(seed.kind);
        part.put(Quantity::SeedDose, Assessed::declared(seed.dose.base()));
        part.put(Quantity::SeedTemperature, Assessed::declared_or(seed.at.map(Checked::base), Quantity::SeedTemperature));
    }
    reassess_wall(piece, part);
}

/// What follows from how the wall is cast, the chocolate being assessed already.
pub(super) fn reassess_wall(piece: &Piece, part: &mut PartAssessment) {
    let Some(shell) = &piece.shell else { return };
    // A chocolate looked at by itself has no wall to ask for.
    if piece.mould.is_some() || !piece.layers.is_empty() {
        part.forget(QuantitySet::of(Quantity::WallDrained));
        assess_wall(piece, shell, part);
    }
}

fn assess_wall(piece: &Piece, shell: &Shell, part: &mut PartAssessment) {
    part.put(Quantity::Casts, Assessed::declared(f64::from(shell.casts)));
    let mould = piece.workshop.mould_temperature.map(Checked::base);
    part.put(Quantity::MouldTemperature, Assessed::declared_or(mould, Quantity::MouldTemperature));
    let [mould, chocolate] = [Quantity::MouldTemperature, Quantity::WorkingTemperature].map(|quantity| part.get(quantity));
    part.put(
        Quantity::MouldBelowChocolate,
        mould.with(chocolate, |mould, chocolate| Assessed::declared(chocolate.value() - mould.value())),
    );
    let predicted = match (piece.mould, shell.drained) {
        (_, None) => Assessed::Absent,
        (None, Some(_)) => Assessed::lacking(Quantity::CavityVolume),
        (Some(mould), Some(time)) => predicted_wall(&mould.cavity, part, time, shell.casts),
    };
    let wanted = shell.thickness.map(Checked::base);
    part.put(Quantity::PredictedWall, predicted);
    part.put(
        Quantity::WallThickness,
        match (wanted, predicted) {
            (Some(wanted), _) => Assessed::declared(wanted),
            (None, Assessed::Absent) => Assessed::lacking(Quantity::WallThickness),
            (None, predicted) => predicted,
        },
    );
    if let Some(wanted) = wanted.filter(|wanted| *wanted > 0.0) {
        part.put(
            Quantity::WallDrained,
            predicted.then(|wall| Assessed::Known(Estimate { band: wall.band.map(|wall| wall / wanted), ..wall })),
        );
    }
}

/// The wall that draining leaves half-way down the cavity.
fn predicted_wall(cavity: &Cavity, chocolate: &PartAssessment, time: Duration, casts: u32) -> Assessed {
    let known = |quantity| chocolate.get(quantity).known();
    let (Some(yield_value), Some(viscosity), Some(density)) =
        (known(Quantity::ChocolateYieldValue), known(Quantity::PlasticViscosity), known(Quantity::ChocolateDensity))
    else {
        return Assessed::lacking(Quantity::ChocolateYieldValue);
    };
    let flow = CastingFlow {
        yield_value: yield_value.band.map(Stress::new::<pascal>),
        plastic_viscosity: viscosity.band.map(DynamicViscosity::new::<pascal_second>),
    };
    halfway(cavity, density.value()).shell(&flow, time, casts).map_or(Assessed::lacking(Quantity::PredictedWall), |wall| {
        let band = wall.map(|wall| wall.get::<meter>());
        Assessed::Known(Estimate { band, evidence: Evidence::Modelled, in_range: yield_value.in_range })
    })
}

/// The wall half-way down: its slope from how the section widens there, and the wall between it and the bottom, which is uppermost while
/// the mould drains.
fn halfway(cavity: &Cavity, density: f64) -> draining::Wall {
    let depth = cavity.depth().get::<meter>();
    let radius = |share: f64| (cavity.area_at(Length::new::<meter>(share * depth)).get::<square_meter>() / std::f64::consts::PI).sqrt();
    let step = 0.05;
    let widening = radius(0.5 - step) - radius(0.5 + step);
    let slope = (2.0 * step * depth).atan2(widening);
    draining::Wall {
        slope: Angle::new::<radian>(slope),
        above: Length::new::<meter>(0.5 * depth / slope.sin()),
        density: Density::new::<kilogram_per_cubic_meter>(density),
    }
}
