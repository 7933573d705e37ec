use super::{Runner, length, number, ratio_of, stress};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::models::flow::cap_support::{CapSupport, Pour, two_thin_coats};
use cordial::models::flow::{consistency, exchange};
use cordial::units::quantity::{
    Density, Length, Ratio, Stress, SurfaceTension, kilogram_per_cubic_meter, meter, newton_per_meter, pascal, ratio,
};
use cordial::units::{Band, BulkDensity, Choice, Distance, Thickness, YieldValue};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("consistency", |row| Ok(Found::Word(consistency::of(row.get("yield_value")?).key()))),
    ("cap-support", |row| Ok(Found::Word(cap_support(&pour(row)?)))),
    ("sphere-arrest-number", |row| {
        let (excess, opening) = (row.base::<BulkDensity>("excess")?, row.base::<Distance>("opening")?);
        number(plug(excess, opening)?.needed.get::<pascal>() / (excess * 9.806_65 * opening))
    }),
    ("sphere-arrest", |row| stress(plug(row.base::<BulkDensity>("excess")?, row.base::<Distance>("opening")?)?.needed)),
    ("tube-arrest", |row| stress(plug(row.base::<BulkDensity>("excess")?, row.base::<Distance>("opening")?)?.needed_safe)),
    ("puddle-bearing", |row| stress(puddle(row)?.needed)),
    ("exchange-margin", |row| {
        let (filling, cap) = (row.get("yield_value")?, row.get("cap_yield_value")?);
        let margin = exchange::margin(filling, cap, excess(row)?, row.get::<Distance>("opening")?.quantity());
        ratio_of(margin.ok_or("nothing drives an exchange")?)
    }),
    ("capillary-opening", |row| {
        let tension = SurfaceTension::new::<newton_per_meter>(row.number("tension")?);
        length(exchange::capillary_opening(tension, excess(row)?).ok_or("nothing drives an exchange")?)
    }),
];

/// By how much the cap is denser than the filling.
fn excess(row: &Row) -> Result<Density> {
    Ok(Density::new::<kilogram_per_cubic_meter>(row.base::<BulkDensity>("excess")?))
}

fn pour(row: &Row) -> Result<Pour> {
    Ok(Pour {
        cap: Band::exact(row.get::<BulkDensity>("cap")?.quantity()),
        filling: Band::exact(row.get::<BulkDensity>("filling")?.quantity()),
        yield_value: Band::exact(row.get::<YieldValue>("yield_value")?.quantity()),
        opening: row.get::<Distance>("opening")?.quantity(),
        depth: row.get::<Thickness>("depth")?.quantity(),
    })
}

/// The words of the project for how a filling carries its cap.
fn cap_support(pour: &Pour) -> &'static str {
    let support = pour.support();
    let carries = |support: Band<Ratio>| support.value.get::<ratio>() >= 1.0;
    if carries(support.support_safe) {
        "holds"
    } else if carries(support.support) {
        "holds-if-gentle"
    } else if two_thin_coats(pour.cap.value, pour.yield_value.value, pour.depth) {
        "two-coats"
    } else {
        "leaks"
    }
}

/// What a filling needs under a cap without depth, so that only the exchange of the two counts.
fn plug(excess: f64, opening: f64) -> Result<CapSupport> {
    let density = |value| Band::exact(Density::new::<kilogram_per_cubic_meter>(value));
    let pour = Pour {
        cap: density(1230.0),
        filling: density(1230.0 - excess),
        yield_value: Band::exact(Stress::new::<pascal>(0.0)),
        opening: Length::new::<meter>(opening),
        depth: Length::new::<meter>(0.0),
    };
    Ok(pour.support())
}

/// What a filling as dense as its cap needs, so that only the bearing load counts.
fn puddle(row: &Row) -> Result<CapSupport> {
    let cap = Band::exact(row.get::<BulkDensity>("cap")?.quantity());
    let pour = Pour {
        cap,
        filling: cap,
        yield_value: Band::exact(Stress::new::<pascal>(0.0)),
        opening: Length::new::<meter>(0.025),
        depth: row.get::<Thickness>("depth")?.quantity(),
    };
    Ok(pour.support())
}
