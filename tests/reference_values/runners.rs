//! One line a quantity: what a row gives, and the model or rule it is run against.

use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::assess::{Part, assess};
use cordial::engine::{Findings, Verdict};
use cordial::matter::{Chocolate, ChocolateKind, Composition, Constituent, Emulsifier, EmulsifierForm, EmulsifierKind, Ingredient};
use cordial::models::cavity::Cavity;
use cordial::models::density::{chocolate, ethanol_water, filling, sucrose_solution};
use cordial::models::flow::cap_support::{CapSupport, Pour, two_thin_coats};
use cordial::models::flow::xanthan::Dispersion;
use cordial::models::flow::{consistency, emulsifier};
use cordial::models::water::water_activity;
use cordial::piece::{Piece, Shell};
use cordial::rules;
use cordial::units::quantity::{Density, Length, Ratio, ShearRate, Stress, cubic_meter, kilogram_per_cubic_meter, meter, pascal};
use cordial::units::quantity::{pascal_second, per_second, ratio};
use cordial::units::{
    AlcoholByVolume, Band, BulkDensity, Checked, Choice, Dimension, Distance, MassFraction, Space, Thickness, YieldValue,
};
use smallvec::smallvec;
use std::sync::Arc;

type Runner = fn(&Row) -> Result<Found>;

/// Every quantity a row can be about.
const RUNNERS: &[(&str, Runner)] = &[
    ("ethanol-water-density", ethanol_water_density),
    ("ethanol-by-mass", |row| ratio_of(ethanol_water::by_mass(row.get("strength")?).base())),
    ("mixing-contraction", |row| ratio_of(ethanol_water::mixing_contraction(row.get("strength")?).get::<ratio>())),
    ("sucrose-solution-density", |row| density(Band::exact(sucrose_solution::density(row.get("sucrose")?, row.get("at")?)?))),
    ("filling-density", |row| density(filling::density(&row.composition("of")?, row.get("at")?)?)),
    ("set-chocolate-density", |row| density(chocolate::solid(&row.composition("of")?))),
    ("liquid-chocolate-density", |row| density(chocolate::liquid(&row.composition("of")?, row.get("at")?, row.flag("tempered")?))),
    ("labelled-chocolate-density", labelled_chocolate_density),
    ("dark-chocolate-density", dark_chocolate_density),
    ("water-activity", |row| {
        let crystals = if row.value("crystals").is_some() { Some(row.choice("crystals")?) } else { None };
        let balance = water_activity(&row.composition("of")?, crystals, row.get("at")?)?;
        Ok(Found::Number(balance.activity.map(Checked::base), Dimension::Ratio))
    }),
    ("fluid-lecithin", fluid_lecithin),
    ("xanthan-yield-value", |row| {
        Ok(Found::Number(dispersion(row)?.yield_value().yield_value.map(|stress| stress.get::<pascal>()), Dimension::Stress))
    }),
    ("xanthan-viscosity", |row| {
        let rate = ShearRate::new::<per_second>(row.number("per_second")?);
        Ok(Found::exact(dispersion(row)?.apparent_viscosity(rate).get::<pascal_second>(), Dimension::Viscosity))
    }),
    ("xanthan-in-range", |row| Ok(Found::Word(if dispersion(row)?.yield_value().inside_range { "yes" } else { "no" }))),
    ("consistency", |row| Ok(Found::Word(consistency::of(row.get("yield_value")?).key()))),
    ("cap-support", |row| Ok(Found::Word(cap_support(&pour(row)?)))),
    ("sphere-arrest-number", |row| {
        let (excess, opening) = (row.base::<BulkDensity>("excess")?, row.base::<Distance>("opening")?);
        Ok(Found::exact(plug(excess, opening)?.needed.get::<pascal>() / (excess * 9.806_65 * opening), Dimension::Ratio))
    }),
    ("sphere-arrest", |row| stress(plug(row.base::<BulkDensity>("excess")?, row.base::<Distance>("opening")?)?.needed)),
    ("tube-arrest", |row| stress(plug(row.base::<BulkDensity>("excess")?, row.base::<Distance>("opening")?)?.needed_safe)),
    ("puddle-bearing", |row| stress(puddle(row)?.needed)),
    ("cavity-volume", |row| Ok(Found::exact(cavity(row)?.volume().get::<cubic_meter>(), Dimension::Volume))),
    ("shell-volume", |row| {
        let wall = row.get::<Thickness>("wall")?.quantity();
        Ok(Found::exact(cavity(row)?.shell_volume(wall)?.get::<cubic_meter>(), Dimension::Volume))
    }),
    ("headroom-share", |row| {
        let (cavity, left) = (cavity(row)?, row.get::<Thickness>("headroom")?.quantity());
        ratio_of(1.0 - (cavity.volume_below(left) / cavity.volume()).get::<ratio>())
    }),
    ("verdict-on-lecithin", verdict_on_lecithin),
];

/// What the model or rule of a quantity makes of a row.
pub fn run(row: &Row) -> Result<Found> {
    let quantity = row.text("quantity")?;
    let runner = RUNNERS.iter().find(|(name, _)| *name == quantity).map(|(_, runner)| runner);
    let known = || RUNNERS.iter().map(|(name, _)| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    runner.ok_or_else(|| format!("nothing runs the quantity `{quantity}`: say why in `context`, or use {}", known()))?(row)
}

fn ratio_of(value: f64) -> Result<Found> {
    Ok(Found::exact(value, Dimension::Ratio))
}

fn stress(value: Stress) -> Result<Found> {
    Ok(Found::exact(value.get::<pascal>(), Dimension::Stress))
}

fn density(band: Band<Density>) -> Result<Found> {
    Ok(Found::Number(band.map(|density| density.get::<kilogram_per_cubic_meter>()), Dimension::Density))
}

/// Strength by volume or by mass, as its unit says.
fn strength(row: &Row) -> Result<MassFraction> {
    match row.measure("strength")?.unit().dimension() {
        Dimension::AlcoholStrength => Ok(ethanol_water::by_mass(row.get("strength")?)),
        _ => row.get("strength"),
    }
}

fn ethanol_water_density(row: &Row) -> Result<Found> {
    density(Band::exact(ethanol_water::density(strength(row)?, row.get("at")?)?))
}

/// A chocolate of which only the label is known: what it does not name is fibre, minerals and water.
fn labelled_chocolate_density(row: &Row) -> Result<Found> {
    let [fat, carbohydrate, protein] = ["fat", "carbohydrate", "protein"].map(|key| row.get::<MassFraction>(key));
    let (fat, carbohydrate, protein) = (fat?, carbohydrate?, protein?);
    let rest = MassFraction::from_base(1.0 - fat.base() - carbohydrate.base() - protein.base())?;
    let parts = [
        (Constituent::CocoaButter, fat),
        (Constituent::UnsplitSugars, carbohydrate),
        (Constituent::Protein, protein),
        (Constituent::Fibre, rest),
    ];
    density(chocolate::solid(&Composition::new(parts)?))
}

/// A dark chocolate of cocoa and sugar: all its fat is the cocoa's.
fn dark_chocolate_density(row: &Row) -> Result<Found> {
    let (cocoa, fat) = (row.get::<MassFraction>("cocoa")?, row.get::<MassFraction>("fat")?);
    let (solids, sugar) = (MassFraction::from_base(cocoa.base() - fat.base())?, MassFraction::from_base(1.0 - cocoa.base())?);
    let parts = [(Constituent::CocoaButter, fat), (Constituent::FatFreeCocoa, solids), (Constituent::Sucrose, sugar)];
    density(chocolate::solid(&Composition::new(parts)?))
}

fn lecithin(row: &Row, dose: &str) -> Result<Emulsifier> {
    let form = if row.value("form").is_some() { row.choice("form")? } else { EmulsifierForm::Fluid };
    let acetone_insoluble = row.optional("acetone_insoluble")?;
    Ok(Emulsifier { kind: EmulsifierKind::Lecithin, form, source: None, dose: row.get(dose)?, acetone_insoluble })
}

fn fluid_lecithin(row: &Row) -> Result<Found> {
    ratio_of(emulsifier::total([&lecithin(row, "dose")?])?.lecithin.base())
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

fn dispersion(row: &Row) -> Result<Dispersion> {
    let strength = if row.value("strength").is_some() { ethanol_water::by_volume(strength(row)?) } else { AlcoholByVolume::nearest(0.0) };
    Ok(Dispersion {
        gum: Ratio::new::<ratio>(row.base::<MassFraction>("gum")?),
        strength,
        hydrated_first: row.flag("hydrated_first")?,
        grade: row.optional("grade")?,
    })
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

fn cavity(row: &Row) -> Result<Cavity> {
    row.within("cavity", |cavity| {
        let length = |key: &str| cavity.get::<Distance>(key);
        Ok(match cavity.text("shape")? {
            "hemisphere" => Cavity::hemisphere(length("diameter")?),
            "segment" if cavity.value("sphere").is_some() => {
                let (sphere, depth) = (length("sphere")?.base(), length("depth")?);
                Cavity::segment(Distance::from_base(2.0 * (depth.base() * (sphere - depth.base())).sqrt())?, depth)?
            }
            "segment" => Cavity::segment(length("diameter")?, length("depth")?)?,
            "cone-frustum" => Cavity::cone_frustum(length("opening")?, length("base")?, length("depth")?)?,
            "pyramid-frustum" => Cavity::pyramid_frustum([length("opening")?; 2], [length("base")?; 2], length("depth")?)?,
            "box" => Cavity::cuboid(length("length")?, length("width")?, length("depth")?),
            "measured" => Cavity::measured(cavity.get::<Space>("volume")?, length("opening")?, length("depth")?)?,
            shape => return Err(format!("no cavity has the shape `{shape}`").into()),
        })
    })
}
