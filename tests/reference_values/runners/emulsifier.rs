use super::{Runner, least, number, ratio_of, shear_rate, viscosity};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::assess::{Part, assess};
use cordial::engine::{Findings, Verdict};
use cordial::matter::{Chocolate, ChocolateKind, Constituent, Emulsifier, EmulsifierForm, EmulsifierKind, Ingredient};
use cordial::models::flow::casson::Casson;
use cordial::models::flow::casting_flow::CastingFlow;
use cordial::models::flow::couverture::{Couverture, fat_tied_up};
use cordial::models::flow::emulsifier::{EmulsifierTotals, total};
use cordial::models::flow::{FlowLaw, yield_response};
use cordial::piece::{Piece, Shell};
use cordial::rules;
use cordial::units::quantity::{DynamicViscosity, pascal, pascal_second, ratio};
use cordial::units::{Band, Checked, Choice, Dimension, MassFraction, Temperature, Viscosity, YieldValue};
use smallvec::smallvec;
use std::sync::Arc;

pub const RUNNERS: &[(&str, Runner)] = &[
    ("fluid-lecithin", |row| number(total([&lecithin(row, "dose")?])?.lecithin.base())),
    ("verdict-on-lecithin", verdict_on_lecithin),
    ("fat-tied-up", |row| number(fat_tied_up(row.get("water")?).base())),
    ("solid-volume", |row| ratio_of(couverture(row)?.solid_volume())),
    ("plastic-viscosity", |row| viscosity(Band::exact(plastic(&couverture(row)?)?))),
    ("undeclared-yield-value", |row| {
        let flow = CastingFlow::undeclared(&couverture(row)?).ok_or(JAMS)?;
        Ok(Found::Number(flow.yield_value.map(|stress| stress.get::<pascal>()), Dimension::Stress))
    }),
    ("undeclared-plastic-viscosity", |row| viscosity(CastingFlow::undeclared(&couverture(row)?).ok_or(JAMS)?.plastic_viscosity)),
    ("cocoa-butter-spared", |row| number(couverture(row)?.cocoa_butter_spared().ok_or(JAMS)?.base())),
    ("yield-change", |row| {
        let factor = |key| -> Result<f64> { Ok(yield_factor(&row.within(key, doses)?)) };
        number(factor("to")? / factor("from")? - 1.0)
    }),
    ("viscosity-change", |row| {
        let (from, to) = (row.within("from", couverture)?, row.within("to", couverture)?);
        number((plastic(&to)? / plastic(&from)?).get::<ratio>() - 1.0)
    }),
    ("thinnest-lecithin", thinnest_lecithin),
    ("least-yield-lecithin", |_| least(0.012, |dose| Ok(yield_factor(&blend(dose, 0.0))))),
    ("least-yield-share", |row| {
        let all = row.base::<MassFraction>("total")?;
        least(1.0, |share| Ok(yield_factor(&blend(all * share, all * (1.0 - share)))))
    }),
    ("thinnest-share", |row| {
        let (plain, all) = (couverture(row)?, row.base::<MassFraction>("total")?);
        least(1.0, |share| {
            let emulsifiers = blend(all * share, all * (1.0 - share));
            Ok(plastic(&Couverture { emulsifiers, ..plain })?.get::<pascal_second>())
        })
    }),
];

const JAMS: &str = "its solids jam";

/// A melted chocolate at 40 °C, unless the row says otherwise.
fn couverture(row: &Row) -> Result<Couverture> {
    Ok(Couverture {
        fat: row.get("fat")?,
        crystals: row.optional("crystals")?.unwrap_or(MassFraction::ZERO),
        water: row.optional("water")?.unwrap_or(MassFraction::ZERO),
        emulsifiers: doses(row)?,
        temperature: row.optional("at")?.unwrap_or(Temperature::nearest(40.0)),
    })
}

/// What a chocolate holds, lecithin as fluid lecithin.
fn doses(row: &Row) -> Result<EmulsifierTotals> {
    let dose = |key| -> Result<MassFraction> { Ok(row.optional(key)?.unwrap_or(MassFraction::ZERO)) };
    Ok(EmulsifierTotals {
        lecithin: dose("lecithin")?,
        pgpr: dose("pgpr")?,
        ammonium_phosphatides: dose("ammonium_phosphatides")?,
        unfit: MassFraction::ZERO,
    })
}

fn blend(lecithin: f64, pgpr: f64) -> EmulsifierTotals {
    let [lecithin, pgpr] = [lecithin, pgpr].map(MassFraction::nearest);
    EmulsifierTotals { lecithin, pgpr, ammonium_phosphatides: MassFraction::ZERO, unfit: MassFraction::ZERO }
}

fn plastic(chocolate: &Couverture) -> Result<DynamicViscosity> {
    Ok(chocolate.plastic_viscosity().ok_or(JAMS)?)
}

fn yield_factor(emulsifiers: &EmulsifierTotals) -> f64 {
    yield_response::yield_factor(emulsifiers).get::<ratio>()
}

/// The dose at which a chocolate that flows as the row says without lecithin has the least apparent viscosity.
fn thinnest_lecithin(row: &Row) -> Result<Found> {
    let (plain, rate) = (couverture(row)?, shear_rate(row)?);
    let (yield_value, viscosity) = (row.base::<YieldValue>("yield_value")?, row.base::<Viscosity>("plastic_viscosity")?);
    least(0.012, |dose| {
        let emulsifiers = blend(dose, 0.0);
        let thinned = plastic(&Couverture { emulsifiers, ..plain })? / plastic(&plain)?;
        let law = Casson {
            yield_value: YieldValue::nearest(yield_value * yield_factor(&emulsifiers)),
            plastic_viscosity: Viscosity::nearest(viscosity * thinned.get::<ratio>()),
        };
        Ok(law.apparent_viscosity(rate).get::<pascal_second>())
    })
}

fn lecithin(row: &Row, dose: &str) -> Result<Emulsifier> {
    let form = if row.value("form").is_some() { row.choice("form")? } else { EmulsifierForm::Fluid };
    let acetone_insoluble = row.optional("acetone_insoluble")?;
    Ok(Emulsifier { kind: EmulsifierKind::Lecithin, form, source: None, dose: row.get(dose)?, acetone_insoluble })
}

/// The verdict of the rule on the dose, for a chocolate that `holds` fluid lecithin and has a `dose` added.
fn verdict_on_lecithin(row: &Row) -> Result<Found> {
    let held = Emulsifier {
        kind: EmulsifierKind::Lecithin,
        form: EmulsifierForm::Fluid,
        source: None,
        dose: row.get("holds")?,
        acetone_insoluble: None,
    };
    let sheet = Chocolate { emulsifiers: smallvec![held], ..Chocolate::of_kind(ChocolateKind::Dark) };
    let couverture = Ingredient::pure(Constituent::CocoaButter).as_chocolate(sheet);
    let piece = Piece { profile: Some(row.text("profile")?.to_owned()), ..Piece::named("shell") }
        .with_shell(Shell::of(Arc::new(couverture)).with_emulsifier(lecithin(row, "dose")?));
    let rules = rules::built_in();
    let mut findings = Findings::default();
    rules.judge(&assess(&piece), &rules.bounds(&piece)?, &mut findings);
    let verdict = findings.verdict("emulsifier-dose-outside-window", Part::Shell);
    Ok(Found::Word(verdict.map_or("unknown", Verdict::key)))
}
