use super::{Runner, least, number, ratio_of, time, yes_or_no};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::matter::{ChocolateKind, Composition, Constituent};
use cordial::models::fat::polymorph::Polymorph;
use cordial::models::fat::tempering::{self, Between};
use cordial::models::fat::{migration, solid_fat};
use cordial::units::quantity::{Diffusivity, Length, Ratio, Time, meter, ratio, second, square_meter_per_second};
use cordial::units::{Checked, Choice, Dimension, Duration, MassFraction, Temperature, Thickness};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("melting-point", |row| temperature(row.choice::<Polymorph>("form")?.melts_at())),
    ("form-survives", |row| yes_or_no(row.choice::<Polymorph>("form")?.survives(row.get("at")?))),
    ("solid-fat", |row| {
        let solid = solid_fat::solid(&row.composition("of")?, row.get("at")?).ok_or("there is no fat")?;
        Ok(Found::Number(solid.map(Checked::base), Dimension::Ratio))
    }),
    ("softest-share", softest_share),
    ("temper-low", |row| temperature(window(row)?.low)),
    ("temper-high", |row| temperature(window(row)?.high)),
    ("seed-crystals", |row| {
        let (chocolate, seed) = (row.composition("chocolate")?, row.composition("seed")?);
        let dose = Ratio::new::<ratio>(row.base::<MassFraction>("dose")?);
        number(tempering::crystals(&chocolate, &seed, dose, row.get("solid")?).ok_or("there is no fat")?.base())
    }),
    ("oil-uptake", |row| {
        ratio_of(migration::uptake(diffusivity(row.number("fourier")?), Length::new::<meter>(1.0), Time::new::<second>(1.0)))
    }),
    ("half-time-fourier", |_| number(migration::half_time(diffusivity(1.0), Length::new::<meter>(1.0)).get::<second>())),
    ("half-time", |row| time(migration::half_time(diffusivity(row.number("diffusivity")?), row.get::<Thickness>("wall")?.quantity()))),
    ("least-diffusivity", |row| number(migration::diffusivity(row.get("at")?)?.least.get::<square_meter_per_second>())),
    ("most-diffusivity", |row| number(migration::diffusivity(row.get("at")?)?.most.get::<square_meter_per_second>())),
    ("migration-risk", |row| {
        let (wall, time) = (row.get::<Thickness>("wall")?.quantity(), row.get::<Duration>("time")?.quantity());
        Ok(Found::Word(migration::risk(wall, row.get("at")?, time)?.key()))
    }),
];

/// Of a fat in cocoa butter.
fn softest_share(row: &Row) -> Result<Found> {
    let (at, fat) = (row.get("at")?, row.composition("fat")?);
    let cocoa_butter = Composition::pure(Constituent::CocoaButter);
    least(1.0, |share| {
        let blend = Composition::blend([(&cocoa_butter, 1.0 - share), (&fat, share)]).ok_or("there is no fat")?;
        Ok(solid_fat::solid(&blend, at).ok_or("there is no fat")?.value.base())
    })
}

fn temperature(value: Temperature) -> Result<Found> {
    Ok(Found::exact(value.celsius(), Dimension::Temperature))
}

fn diffusivity(square_meters_per_second: f64) -> Diffusivity {
    Diffusivity::new::<square_meter_per_second>(square_meters_per_second)
}

/// The temperatures of a `step` in one of the two tables of tempering.
fn window(row: &Row) -> Result<Between> {
    let mut tables = tempering::windows(row.choice::<ChocolateKind>("chocolate")?);
    let window = match row.text("table")? {
        "guide" => tables.next(),
        "mcgee" => tables.nth(1),
        table => return Err(format!("no table of tempering is called `{table}`").into()),
    };
    let window = window.ok_or("nothing is published for this chocolate")?;
    Ok(match row.text("step")? {
        "melt" => window.melt,
        "cool" => window.cool,
        "work" => window.work,
        step => return Err(format!("tempering has no step `{step}`").into()),
    })
}
