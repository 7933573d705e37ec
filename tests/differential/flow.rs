//! How chocolate and fillings flow.

use crate::Result;
use crate::table::{Answer, Answers, Row, SAME, SAME_EQUATION, Table, Within, one};
use cordial::matter::{Emulsifier, EmulsifierForm, EmulsifierKind};
use cordial::models::flow::activation_energy::Flowing;
use cordial::models::flow::cap_support::{Pour, two_thin_coats};
use cordial::models::flow::casson::Casson;
use cordial::models::flow::couverture::{Couverture, fat_tied_up};
use cordial::models::flow::curve::FlowCurve;
use cordial::models::flow::draining::Wall;
use cordial::models::flow::emulsifier::{self, EmulsifierTotals};
use cordial::models::flow::herschel_bulkley::HerschelBulkley;
use cordial::models::flow::xanthan::Dispersion;
use cordial::models::flow::{FlowLaw, drink_class, exchange, glycerol_viscosity, honey, spirit_viscosity, syrup_viscosity, yield_response};
use cordial::units::quantity::{
    Angle, Density, DynamicViscosity, Length, Ratio, ShearRate, Stress, SurfaceTension, degree, kilogram_per_cubic_meter, meter,
    newton_per_meter, pascal, pascal_second, per_second, ratio,
};
use cordial::units::{AlcoholByVolume, Band, Checked, Choice, MassFraction, Temperature};

pub const TABLES: &[Table] = &[
    // Chocolate.
    Table {
        name: "flow/casson",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let law = Casson { yield_value: row.get("yield_value")?, plastic_viscosity: row.get("viscosity")? };
            let (at_5, at_40) = law.reporting_pair();
            let mut answers = law_of_flow(row, &law)?;
            answers.extend([("stress_at_5", at_5.get::<pascal>().into()), ("viscosity_at_40", at_40.get::<pascal_second>().into())]);
            Ok(answers)
        },
    },
    Table { name: "flow/herschel_bulkley", within: SAME, reason: SAME_EQUATION, run: |row| law_of_flow(row, &herschel_bulkley(row)?) },
    Table {
        name: "flow/casson_fits",
        within: SAME,
        reason: "the same equation; yield values above zero, as the other does not fit again with none",
        run: |row| {
            let law = curve(row)?.casson()?.law;
            Ok(vec![("yield_value", law.yield_value.base().into()), ("viscosity", law.plastic_viscosity.base().into())])
        },
    },
    Table {
        name: "flow/herschel_bulkley_fits",
        within: Within::NoLarger(1e-9),
        reason: "the other fits logarithms for a scanned yield value, so the least squares lie at or below its own",
        run: |row| one("misfit", curve(row)?.herschel_bulkley()?.misfit.get::<pascal>()),
    },
    Table {
        name: "flow/fluid_lecithin",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let powder = Emulsifier {
                kind: EmulsifierKind::Lecithin,
                form: EmulsifierForm::Powder,
                source: None,
                dose: row.percent("dose_percent")?,
                acetone_insoluble: Some(row.percent("acetone_insoluble_percent")?),
            };
            one("fluid_percent", 100.0 * emulsifier::total([&powder])?.lecithin.base())
        },
    },
    Table { name: "flow/yield_factor_of_lecithin", within: SAME, reason: SAME_EQUATION, run: yield_factor },
    Table {
        name: "flow/yield_factor_of_blends",
        within: Within::Relative(1.6e-4),
        reason: "the constant of PGPR is 3.4657 there and 3.466 here: 0.00015 at 0.5 %",
        run: yield_factor,
    },
    Table { name: "flow/couverture_at_40", within: SAME, reason: SAME_EQUATION, run: couverture_viscosity },
    Table {
        name: "flow/couverture",
        within: Within::Relative(0.0053),
        reason: "the fat thins with 29.7 kJ/mol there and 30 here: 0.5 % from 40 to 27 °C",
        run: couverture_viscosity,
    },
    Table {
        name: "flow/solids",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let dry = Couverture { water: MassFraction::ZERO, ..couverture(row.get("fat")?, MassFraction::ZERO)? };
            Ok(vec![
                ("solid_volume", dry.solid_volume().get::<ratio>().into()),
                ("fat_tied_up_percent", (100.0 * fat_tied_up(row.percent("water_percent")?).base()).into()),
            ])
        },
    },
    Table {
        name: "flow/cocoa_butter_spared",
        within: Within::Absolute(1e-8),
        reason: "the same equation, solved there by bisection; absolute, for no lecithin spares nothing",
        run: |row| {
            let spared = couverture(row.get("fat")?, row.percent("lecithin_percent")?)?.cocoa_butter_spared();
            one("spared_percent", 100.0 * spared.ok_or("jammed")?.base())
        },
    },
    Table {
        name: "flow/draining",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let wall =
                Wall { slope: Angle::new::<degree>(row.number("slope")?), above: length(row, "above")?, density: density(row, "density")? };
            let time = row.get("seconds")?;
            let casson = Casson { yield_value: row.get("yield_value")?, plastic_viscosity: row.get("viscosity")? };
            let newton = HerschelBulkley::newtonian(casson.plastic_viscosity);
            let films = [
                ("casson_film", wall.film(&casson, time)),
                ("newton_film", wall.film(&newton, time)),
                ("herschel_bulkley_film", wall.film(&herschel_bulkley(row)?, time)),
                ("left", wall.carried_by(casson.yield_value.quantity())),
            ];
            films.into_iter().map(|(name, film)| Ok((name, film.ok_or("nothing drains")?.get::<meter>().into()))).collect()
        },
    },
    // The cap.
    Table {
        name: "flow/arrest",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let support = pour(row, Stress::new::<pascal>(0.0))?.support();
            Ok(vec![("needed", support.needed.get::<pascal>().into()), ("needed_safe", support.needed_safe.get::<pascal>().into())])
        },
    },
    Table {
        name: "flow/verdicts",
        within: SAME,
        reason: "words; the race between a cap that falls through and one that sets has no counterpart here and is left out",
        run: |row| {
            let pour = pour(row, Stress::new::<pascal>(row.number("yield_value")?))?;
            let support = pour.support();
            let margin = exchange::margin(row.get("yield_value")?, row.get("cap_yield_value")?, support.excess, pour.opening);
            let carries = |support: Band<Ratio>| support.value.get::<ratio>() >= 1.0;
            let stays = margin.is_none_or(|margin| margin.get::<ratio>() >= 1.0);
            one(
                "verdict",
                if carries(support.support_safe) {
                    "holds"
                } else if carries(support.support) {
                    "holds-if-gentle"
                } else if stays && two_thin_coats(pour.cap.value, pour.yield_value.value, pour.depth) {
                    "two-coats"
                } else {
                    "leaks"
                },
            )
        },
    },
    Table {
        name: "flow/exchange",
        within: SAME,
        reason: "the same equation, of which the other scans 20000 radii",
        run: |row| {
            let (excess, opening) = (density(row, "excess")?, length(row, "opening")?);
            let margin = exchange::margin(row.get("filling")?, row.get("cap")?, excess, opening).ok_or("nothing drives an exchange")?;
            let tension = SurfaceTension::new::<newton_per_meter>(row.number("tension")?);
            let still = exchange::capillary_opening(tension, excess).ok_or("the one above is no heavier")?;
            Ok(vec![("margin", margin.get::<ratio>().into()), ("capillary_opening", still.get::<meter>().into())])
        },
    },
    // Fillings.
    Table {
        name: "flow/syrup",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| viscosity(syrup_viscosity::sucrose(row.percent("brix")?, row.celsius()?)?),
    },
    Table { name: "flow/glycerol", within: SAME, reason: SAME_EQUATION, run: glycerol },
    Table {
        name: "flow/spirit",
        within: Within::Relative(0.044),
        reason: "a fit on the table that is interpolated here, 4.4 % from its cells at worst",
        run: |row| viscosity(spirit_viscosity::spirit(row.percent("ethanol_percent")?, row.celsius()?)?),
    },
    Table {
        name: "flow/honey",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| viscosity(honey::viscosity(MassFraction::nearest(0.17), row.celsius()?)?),
    },
    Table {
        name: "flow/corn_syrup",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| viscosity(syrup_viscosity::corn_syrup(row.celsius()?)?),
    },
    Table {
        name: "flow/warmth",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let filling = row.text("filling")?;
            let filling = Flowing::ALL.iter().find(|known| known.key() == filling).ok_or("no such filling")?;
            one("ratio", filling.viscosity_ratio(row.get("from")?, row.get("to")?).value.get::<ratio>())
        },
    },
    Table {
        name: "flow/xanthan_yield_value",
        within: SAME,
        reason: SAME_EQUATION,
        run: |row| {
            let gum = Dispersion { grade: Some(row.get("grade")?), ..xanthan(row)? };
            one("yield_value", gum.yield_value().yield_value.value.get::<pascal>())
        },
    },
    Table {
        name: "flow/xanthan_viscosity",
        within: Within::Relative(0.0045),
        reason: "the consistency of 1 % is 10.04 Pa s^n there, rounded to 10 here",
        run: |row| {
            let rate = ShearRate::new::<per_second>(row.number("rate")?);
            one("viscosity", xanthan(row)?.apparent_viscosity(rate).get::<pascal_second>())
        },
    },
    Table {
        name: "flow/drink_classes",
        within: SAME,
        reason: "words",
        run: |row| one("class", drink_class::of(DynamicViscosity::new::<pascal_second>(row.number("viscosity")?)).key()),
    },
    Table {
        name: "flow/spirit_by_coolprop",
        within: Within::Relative(0.04),
        reason: "a brine fit of its own; the band of the model is 4 %",
        run: |row| viscosity(spirit_viscosity::spirit(row.get("strength")?, row.celsius()?)?),
    },
    Table {
        name: "flow/glycerol_by_coolprop",
        within: Within::Relative(0.05),
        reason: "a brine fit of its own, to 50 % and from 10 °C, as it parts from this formula by 10 % at 60 % and 0 °C; the band of the model is 5 %",
        run: glycerol,
    },
    Table {
        name: "flow/water_by_coolprop",
        within: Within::Relative(0.04),
        reason: "the IAPWS formula; at 20 °C the formula for syrups states 4 %, that for spirits bands 4 %",
        run: |row| {
            let at = row.celsius()?;
            let milli = |band: Band<DynamicViscosity>| Answer::from(band.value.get::<pascal_second>());
            Ok(vec![
                ("viscosity", milli(syrup_viscosity::sucrose(MassFraction::ZERO, at)?)),
                ("viscosity", milli(spirit_viscosity::spirit(MassFraction::ZERO, at)?)),
                ("viscosity", milli(glycerol_viscosity::glycerol(MassFraction::ZERO, at)?)),
            ])
        },
    },
];

fn length(row: &Row, column: &str) -> Result<Length> {
    Ok(Length::new::<meter>(row.number(column)?))
}

fn density(row: &Row, column: &str) -> Result<Density> {
    Ok(Density::new::<kilogram_per_cubic_meter>(row.number(column)?))
}

fn viscosity(band: Band<DynamicViscosity>) -> Result<Answers> {
    one("viscosity", band.value.get::<pascal_second>())
}

fn glycerol(row: &Row) -> Result<Answers> {
    viscosity(glycerol_viscosity::glycerol(row.get("glycerol")?, row.celsius()?)?)
}

fn law_of_flow(row: &Row, law: &impl FlowLaw) -> Result<Answers> {
    let rate = ShearRate::new::<per_second>(row.number("at_rate")?);
    let stress = Stress::new::<pascal>(row.number("at_stress")?);
    Ok(vec![("stress", law.stress(rate).get::<pascal>().into()), ("rate", law.rate(stress).get::<per_second>().into())])
}

fn herschel_bulkley(row: &Row) -> Result<HerschelBulkley> {
    Ok(HerschelBulkley {
        yield_value: row.get("yield_value")?,
        consistency: Stress::new::<pascal>(row.number("consistency")?),
        index: Ratio::new::<ratio>(row.number("index")?),
    })
}

fn curve(row: &Row) -> Result<FlowCurve> {
    let (rates, stresses) = (row.numbers("rates")?, row.numbers("stresses")?);
    let points = rates.into_iter().zip(stresses);
    Ok(FlowCurve::new(points.map(|(rate, stress)| (ShearRate::new::<per_second>(rate), Stress::new::<pascal>(stress))))?)
}

fn yield_factor(row: &Row) -> Result<Answers> {
    let emulsifiers =
        EmulsifierTotals { lecithin: row.percent("lecithin_percent")?, pgpr: row.percent("pgpr_percent")?, ..emulsifier::total([])? };
    one("factor", yield_response::yield_factor(&emulsifiers).get::<ratio>())
}

/// Dry, melted, at 40 °C.
fn couverture(fat: MassFraction, lecithin: MassFraction) -> Result<Couverture> {
    Ok(Couverture {
        fat,
        crystals: MassFraction::ZERO,
        water: MassFraction::ZERO,
        emulsifiers: EmulsifierTotals { lecithin, ..emulsifier::total([])? },
        temperature: Temperature::nearest(40.0),
    })
}

fn couverture_viscosity(row: &Row) -> Result<Answers> {
    let melted = couverture(row.get("fat")?, row.percent("lecithin_percent")?)?;
    let poured = Couverture { crystals: row.get("crystals")?, temperature: row.celsius()?, ..melted };
    one("viscosity", poured.plastic_viscosity().ok_or("jammed")?.get::<pascal_second>())
}

fn pour(row: &Row, yield_value: Stress) -> Result<Pour> {
    Ok(Pour {
        cap: Band::exact(density(row, "cap")?),
        filling: Band::exact(density(row, "filling")?),
        yield_value: Band::exact(yield_value),
        opening: length(row, "opening")?,
        depth: length(row, "depth")?,
    })
}

/// Without spirit.
fn xanthan(row: &Row) -> Result<Dispersion> {
    let gum = Ratio::new::<ratio>(row.number("percent")? / 100.0);
    Ok(Dispersion { gum, strength: AlcoholByVolume::nearest(0.0), hydrated_first: true, grade: None })
}
