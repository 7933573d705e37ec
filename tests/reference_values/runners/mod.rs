//! What a row gives, and the model or rule it is run against: one line a quantity, one file a field.

mod cavity;
mod closing;
mod density;
mod emulsifier;
mod fat;
mod fluids;
mod growth;
mod heat;
mod label;
mod law;
mod laws;
mod shell;
mod water;

use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::units::quantity::{
    DynamicViscosity, Length, Ratio, ShearRate, Stress, Time, meter, pascal, pascal_second, per_second, ratio, second,
};
use cordial::units::{Band, Dimension};

type Runner = fn(&Row) -> Result<Found>;

/// Every quantity a row can be about.
const FIELDS: &[&[(&str, Runner)]] = &[
    density::RUNNERS,
    water::RUNNERS,
    laws::RUNNERS,
    law::RUNNERS,
    emulsifier::RUNNERS,
    shell::RUNNERS,
    fluids::RUNNERS,
    closing::RUNNERS,
    cavity::RUNNERS,
    heat::RUNNERS,
    fat::RUNNERS,
    growth::RUNNERS,
    label::RUNNERS,
];

/// What the model or rule of a quantity makes of a row.
pub fn run(row: &Row) -> Result<Found> {
    let quantity = row.text("quantity")?;
    let all = || FIELDS.iter().copied().flatten();
    let runner = all().find(|(name, _)| *name == quantity).map(|(_, runner)| runner);
    let known = || all().map(|(name, _)| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    runner.ok_or_else(|| format!("nothing runs the quantity `{quantity}`: say why in `context`, or use {}", known()))?(row)
}

fn yes_or_no(answer: bool) -> Result<Found> {
    Ok(Found::Word(if answer { "yes" } else { "no" }))
}

/// A plain number, or one in a unit that documents do not know.
fn number(value: f64) -> Result<Found> {
    Ok(Found::exact(value, Dimension::Ratio))
}

fn ratio_of(value: Ratio) -> Result<Found> {
    number(value.get::<ratio>())
}

fn length(value: Length) -> Result<Found> {
    Ok(Found::exact(value.get::<meter>(), Dimension::Length))
}

fn time(value: Time) -> Result<Found> {
    Ok(Found::exact(value.get::<second>(), Dimension::Time))
}

fn stress(value: Stress) -> Result<Found> {
    Ok(Found::exact(value.get::<pascal>(), Dimension::Stress))
}

fn viscosity(band: Band<DynamicViscosity>) -> Result<Found> {
    Ok(Found::Number(band.map(|viscosity| viscosity.get::<pascal_second>()), Dimension::Viscosity))
}

fn shear_rate(row: &Row) -> Result<ShearRate> {
    Ok(ShearRate::new::<per_second>(row.number("per_second")?))
}

/// Where something is least, in a thousand steps up to the most.
fn least(most: f64, of: impl Fn(f64) -> Result<f64>) -> Result<Found> {
    let mut best = (f64::INFINITY, 0.0);
    for step in 0..=1000 {
        let at = most * f64::from(step) / 1000.0;
        let value = of(at)?;
        if value < best.0 {
            best = (value, at);
        }
    }
    number(best.1)
}
