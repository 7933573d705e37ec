use super::{Runner, number, ratio_of, shear_rate, stress};
use crate::Result;
use crate::row::Row;
use cordial::models::flow::curve::FlowCurve;
use cordial::models::flow::{FlowLaw, casson::Casson};
use cordial::units::YieldValue;
use cordial::units::quantity::{ShearRate, Stress, pascal, per_second};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("casson-stress", |row| stress(casson(row)?.stress(shear_rate(row)?))),
    ("casson-rate", |row| number(casson(row)?.rate(row.get::<YieldValue>("stress")?.quantity()).get::<per_second>())),
    ("fitted-yield-value", |row| {
        let curve = curve(row)?;
        let fitted = match row.text("law")? {
            "casson" => curve.casson()?.law.yield_value,
            "bingham" => curve.bingham()?.law.yield_value,
            "herschel-bulkley" => curve.herschel_bulkley()?.law.yield_value,
            law => return Err(format!("no curve is fitted by the law `{law}`").into()),
        };
        stress(fitted.quantity())
    }),
    ("fitted-flow-index", |row| ratio_of(curve(row)?.herschel_bulkley()?.law.index)),
];

pub fn casson(row: &Row) -> Result<Casson> {
    Ok(Casson { yield_value: row.get("yield_value")?, plastic_viscosity: row.get("plastic_viscosity")? })
}

/// `points = [[0.171, 53.14], ...]`: shear rates in 1/s and stresses in Pa.
fn curve(row: &Row) -> Result<FlowCurve> {
    let point = |pair: &toml_edit::Value| {
        let pair: Vec<_> = pair.as_array()?.iter().filter_map(toml_edit::Value::as_float).collect();
        let [rate, stress] = pair[..] else { return None };
        Some((ShearRate::new::<per_second>(rate), Stress::new::<pascal>(stress)))
    };
    let points = row.value("points").and_then(toml_edit::Value::as_array).ok_or("`points` lack")?;
    let points = points.iter().map(point).collect::<Option<Vec<_>>>().ok_or("a point is `[1.0, 40.0]`: 1/s and Pa")?;
    Ok(FlowCurve::new(points)?)
}
