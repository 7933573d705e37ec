use super::{Runner, laws, length, number, ratio_of};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::models::flow::FlowLaw;
use cordial::models::flow::casting_flow::CastingFlow;
use cordial::models::flow::draining::Wall;
use cordial::models::flow::herschel_bulkley::HerschelBulkley;
use cordial::units::quantity::{Angle, Length, Stress, degree, meter, pascal, per_second};
use cordial::units::{BulkDensity, Dimension, Distance, Thickness, YieldValue};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("film", |row| length(film(row)?)),
    ("film-ratio", |row| ratio_of(row.within("thicker", film)? / row.within("thinner", film)?)),
    ("film-held", |row| {
        let held = wall(row)?.carried_by(row.get::<YieldValue>("yield_value")?.quantity());
        length(held.ok_or(LEVEL)?)
    }),
    ("film-flux", film_flux),
    ("shell", |row| {
        let flow = CastingFlow::declared(row.get("yield_value")?, row.get("plastic_viscosity")?);
        let shell = wall(row)?.shell(&flow, row.get("time")?, 1).ok_or(LEVEL)?;
        Ok(Found::Number(shell.map(|shell| shell.get::<meter>()), Dimension::Length))
    }),
];

const LEVEL: &str = "nothing drains there";

/// A place on a wall, an upright one unless the row says otherwise.
fn wall(row: &Row) -> Result<Wall> {
    let slope = if row.value("slope").is_some() { row.in_base("slope", Dimension::Angle)? } else { 90.0 };
    let above = if row.value("above").is_some() { row.base::<Distance>("above")? } else { 0.0 };
    Ok(Wall {
        slope: Angle::new::<degree>(slope),
        above: Length::new::<meter>(above),
        density: row.get::<BulkDensity>("density")?.quantity(),
    })
}

/// The film of a syrup, where only a `viscosity` is given, or of a chocolate.
fn film(row: &Row) -> Result<Length> {
    let (wall, time) = (wall(row)?, row.get("time")?);
    let film = if row.value("viscosity").is_some() {
        wall.film(&HerschelBulkley::newtonian(row.get("viscosity")?), time)
    } else {
        wall.film(&laws::casson(row)?, time)
    };
    Ok(film.ok_or(LEVEL)?)
}

/// What flows through a film on an upright wall, over its breadth, m²/s: the quadrature of what Casson's law makes of the weight above.
fn film_flux(row: &Row) -> Result<Found> {
    const SLICES: u32 = 20_000;
    let law = laws::casson(row)?;
    let pull = row.base::<BulkDensity>("density")? * 9.806_65;
    let slice = row.base::<Thickness>("thickness")? / f64::from(SLICES);
    let rate = |depth: f64| law.rate(Stress::new::<pascal>(pull * depth)).get::<per_second>();
    number((0..SLICES).map(|at| (f64::from(at) + 0.5) * slice).map(|depth| rate(depth) * depth * slice).sum())
}
