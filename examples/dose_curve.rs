//! What an emulsifier does to a couverture: yield value and plastic viscosity against the total dose, as a table and a picture.
//!
//! `cargo run --release --example dose_curve -- [CHOCOLATE [lecithin|pgpr [PICTURE]]]`, by default the house couverture of the winter box,
//! lecithin and `target/dose_curve.svg`. Another chocolate goes by its name in the larder: `cargo run --example larder -- couverture`.

#[path = "drawing/chart.rs"]
mod chart;

mod terminal;

use chart::{Axis, BLUE, Chart, Curve, Mark, Panel, Pen, Sign, VERMILION, Zone};
use cordial::Document;
use cordial::matter::{Chocolate, EmulsifierKind, Ingredient};
use cordial::models::flow::{
    casting_flow::CastingFlow,
    couverture::{Couverture, LECITHIN_END},
    dose,
    emulsifier::{self, EmulsifierTotals},
};
use cordial::units::quantity::{pascal, pascal_second};
use cordial::units::{Band, Checked, Choice, MassFraction, Temperature, YieldValue};
use std::{error::Error, path::Path, process::ExitCode};
use terminal::{Arguments, WINTER_BOX, ended, say};

/// Where laboratories measure melted chocolate, in degrees Celsius.
const MEASURED_AT: f64 = 40.0;
/// What a couverture probably holds whose sheet names no emulsifier.
const USUAL_LECITHIN: f64 = 0.004;
/// Where published sources see lecithin turn the yield value up, in per cent.
const TURN: std::ops::Range<f64> = 0.3..0.6;

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&[], &[])?;
    let told = |place: usize, usual| arguments.words.get(place).map_or(usual, String::as_str);
    let (name, word, picture) = (told(0, "house-dark"), told(1, EmulsifierKind::Lecithin.key()), told(2, "target/dose_curve.svg"));
    let kind = EmulsifierKind::from_key(word).filter(|kind| matches!(kind, EmulsifierKind::Lecithin | EmulsifierKind::Pgpr));
    let kind = kind.ok_or_else(|| format!("`{word}` has no curve here: lecithin or pgpr"))?;

    let document = Document::parse(WINTER_BOX)?;
    let ingredient = document.larder().get(name)?;
    let sheet = ingredient.chocolate.as_ref().ok_or_else(|| format!("`{name}` is not a chocolate"))?;
    let response = Response::of(&ingredient, sheet, kind)?;
    response.tell();
    response.chart().write(Path::new(picture))?;
    say!("\nThe picture is in {picture}.");
    Ok(())
}

/// How it flows, in Pa and Pa s.
struct Flow {
    yield_value: Band<f64>,
    viscosity: Band<f64>,
}

/// How a chocolate, melted, answers to one emulsifier.
struct Response {
    name: String,
    kind: EmulsifierKind,
    as_bought: Couverture,
    flow: CastingFlow,
    /// Where its flow is known from.
    known: &'static str,
    lecithin_assumed: bool,
}

impl Response {
    fn of(ingredient: &Ingredient, sheet: &Chocolate, kind: EmulsifierKind) -> Result<Self, Box<dyn Error>> {
        let lecithin_assumed = sheet.emulsifiers.is_empty();
        let declared = emulsifier::total(&sheet.emulsifiers)?;
        let held =
            if lecithin_assumed { EmulsifierTotals { lecithin: MassFraction::from_base(USUAL_LECITHIN)?, ..declared } } else { declared };
        let at = sheet.measured_at.unwrap_or(Temperature::from_base(MEASURED_AT)?);
        let as_bought = Couverture::of(&ingredient.composition, held, false, at);
        let (flow, known) = match (sheet.yield_value, sheet.plastic_viscosity) {
            (Some(yield_value), Some(viscosity)) => (CastingFlow::declared(yield_value, viscosity), "by its sheet"),
            _ => (CastingFlow::undeclared(&as_bought).ok_or("its solids jam: it does not flow")?, "as such couvertures usually flow"),
        };
        Ok(Self { name: ingredient.name.clone(), kind, as_bought, flow, known, lecithin_assumed })
    }

    /// The chocolate with another total of the emulsifier, in per cent.
    fn dosed(&self, total: f64) -> Couverture {
        let mut dosed = self.as_bought;
        *total_of(&mut dosed.emulsifiers, self.kind) = MassFraction::nearest(total / 100.0);
        dosed
    }

    /// How it flows at a total dose in per cent; none where its solids jam.
    fn at(&self, total: f64) -> Option<Flow> {
        let flow = self.flow.carried(&self.as_bought, &self.dosed(total))?;
        Some(Flow {
            yield_value: flow.yield_value.map(|stress| stress.get::<pascal>()),
            viscosity: flow.plastic_viscosity.map(|viscosity| viscosity.get::<pascal_second>()),
        })
    }

    /// What it holds already, in per cent.
    fn held(&self) -> f64 {
        let mut totals = self.as_bought.emulsifiers;
        100.0 * total_of(&mut totals, self.kind).base()
    }

    /// The total, in per cent, that brings the yield value lowest.
    fn optimum(&self) -> Option<f64> {
        let bare = self.dosed(0.0);
        let flow = self.flow.carried(&self.as_bought, &bare)?;
        dose::for_yield_value(&bare, &flow, self.kind, YieldValue::nearest(0.0)).map(|best| 100.0 * best.added.base())
    }

    /// The end of the model's range, in per cent.
    fn most(&self) -> f64 {
        if self.kind == EmulsifierKind::Lecithin { 1.0 } else { 0.5 }
    }

    fn doses(&self, steps: u32) -> impl Iterator<Item = f64> {
        let step = self.most() / f64::from(steps);
        (0..=steps).map(move |index| f64::from(index) * step)
    }

    /// The lowest total above the optimum at which lecithin has undone all it did, in per cent.
    fn undone(&self) -> Option<f64> {
        let (bare, optimum) = (self.at(0.0)?.yield_value.value, self.optimum()?);
        self.doses(100).find(|total| *total > optimum && self.at(*total).is_some_and(|flow| flow.yield_value.value >= bare))
    }

    fn title(&self) -> String {
        format!(
            "{} in {}, melted at {} °C",
            if self.kind == EmulsifierKind::Lecithin { "Lecithin" } else { "PGPR" },
            self.name,
            self.as_bought.temperature.celsius()
        )
    }

    fn tell(&self) {
        let held = self.held();
        say!("{}: untempered, {}. Uncertain values with the band of 95 % of cases.\n", self.title(), self.known);
        say!("total dose   to add      yield value, Pa          plastic viscosity, Pa s");
        for total in self.doses(10) {
            let add = if total + 1e-9 < held { "-".into() } else { format!("{:.1} g/kg", 10.0 * (total - held).abs()) };
            match self.at(total) {
                Some(flow) => {
                    let (yield_value, viscosity) = (banded(flow.yield_value), banded(flow.viscosity));
                    say!("{total:>7.2} %   {add:>8}    {yield_value:<22}   {viscosity}");
                }
                None => say!("{total:>7.2} %   {add:>8}    does not flow: its solids jam"),
            }
        }
        say!();
        self.tell_what_it_holds();
        match self.kind {
            EmulsifierKind::Lecithin => self.tell_of_lecithin(),
            _ => self.tell_of_pgpr(),
        }
    }

    fn tell_what_it_holds(&self) {
        let assumed = if self.lecithin_assumed { ", which is assumed: its sheet names no emulsifier" } else { "" };
        let lecithin = 100.0 * self.as_bought.emulsifiers.lecithin.base();
        say!("- It holds {lecithin:.2} % of lecithin as bought{assumed}. No dose below that can be had.");
    }

    fn tell_of_lecithin(&self) {
        let (Some(optimum), Some(least)) = (self.optimum(), self.optimum().and_then(|optimum| self.at(optimum))) else { return };
        let add = optimum - self.held();
        let then = if add > 0.005 { format!("add {:.1} g per kg", 10.0 * add) } else { "so nothing is to be added".into() };
        let as_good = |total: &f64| self.at(*total).is_some_and(|flow| flow.yield_value.value <= 1.05 * least.yield_value.value);
        let near: Vec<f64> = self.doses(100).filter(as_good).collect();
        say!("- Optimum: {optimum:.2} % in all gives the lowest yield value, {:.1} Pa; {then}.", least.yield_value.value);
        if let (Some(from), Some(to)) = (near.first(), near.last()) {
            say!("  It is a broad one: from {from:.2} to {to:.2} % the yield value is within 5 % of the lowest.");
        }
        let undone =
            self.undone().map_or(String::new(), |undone| format!(" At {undone:.2} % it flows no easier than without any lecithin."));
        say!("- Reversal: more raises the yield value again; sources see the turn between {} and {} %.{undone}", TURN.start, TURN.end);
        say!("- Plateau: the plastic viscosity falls little after 0.3 % and no further from {:.1} %.", 100.0 * LECITHIN_END);
    }

    fn tell_of_pgpr(&self) {
        let wanted = YieldValue::nearest(self.flow.yield_value.value.get::<pascal>() / 2.0);
        if let Some(halved) = dose::for_yield_value(&self.as_bought, &self.flow, self.kind, wanted).filter(|dose| dose.enough) {
            let (grams, pascals) = (1000.0 * halved.added.base(), halved.gives.value.get::<pascal>());
            say!("- {grams:.1} g per kg bring the yield value to half or less, {pascals:.1} Pa. Weigh it on a scale fine enough for that.");
        }
        say!("- No reversal: each dose lowers the yield value further, to the legal limit of 0.5 % in the EU and Codex.");
        say!("- It leaves the plastic viscosity as it is: lecithin, or cocoa butter, lowers that.");
    }

    fn chart(&self) -> Chart {
        let points: Vec<_> = self.doses(200).filter_map(|total| Some((total, self.at(total)?))).collect();
        let curves = |name: &str, colour, dash, of: fn(&Flow) -> Band<f64>| {
            let line = |kept: &dyn Fn(f64) -> bool| {
                points.iter().filter(|(total, _)| kept(*total)).map(|(total, flow)| (*total, of(flow).value)).collect()
            };
            let band = points.iter().map(|(total, flow)| (*total, of(flow).low, of(flow).high)).collect();
            let held = self.held() - 1e-9;
            let had = Curve { name: Some(name.into()), points: line(&|total| total >= held), band, pen: Pen { colour, width: 9, dash } };
            let pen = Pen { colour, width: 3, dash };
            [had, Curve { name: None, points: line(&|total| total <= held + 0.005), band: Vec::new(), pen }]
        };
        let yields = curves("yield value: the stress it takes to make it flow at all (thin: less than it holds)", BLUE, None, |flow| {
            flow.yield_value
        });
        let viscosities = curves("plastic viscosity: how slowly it then flows", VERMILION, Some((40, 16)), |flow| flow.viscosity);
        let lecithin = self.kind == EmulsifierKind::Lecithin;
        let (mut on_yield, mut on_viscosity) = (Vec::new(), Vec::new());
        if let Some(flow) = self.at(self.held()) {
            let held = self.held();
            on_yield.push(Mark {
                name: Some(format!("as bought: {held:.2} % in it")),
                at: (held, flow.yield_value.value),
                sign: Sign::Dot,
            });
            on_viscosity.push(Mark { name: None, at: (held, flow.viscosity.value), sign: Sign::Dot });
        }
        if let Some((optimum, flow)) = self.optimum().and_then(|optimum| Some((optimum, self.at(optimum)?))) {
            let name = if lecithin { "optimum" } else { "lowest, at the legal limit" };
            let name = format!("{name}: {optimum:.2} % in all, {:.2} Pa", flow.yield_value.value);
            on_yield.push(Mark { name: Some(name), at: (optimum, flow.yield_value.value), sign: Sign::Ring });
        }
        if let Some(flow) = self.at(100.0 * LECITHIN_END).filter(|_| lecithin) {
            let name = format!("plateau: no thinner from {:.1} % on", 100.0 * LECITHIN_END);
            on_viscosity.push(Mark { name: Some(name), at: (100.0 * LECITHIN_END, flow.viscosity.value), sign: Sign::Triangle });
        }
        let turn = format!("reversal: sources see lecithin turn the yield value up between {} and {} %", TURN.start, TURN.end);
        let name = if lecithin { "lecithin in all, % of the chocolate" } else { "PGPR in all, % of the chocolate" };
        Chart {
            title: self.title(),
            across: Axis { name, range: 0.0..self.most() },
            panels: vec![
                Panel {
                    up: Axis { name: "yield value, Pa", range: 0.0..top(&yields) },
                    zone: lecithin.then_some(Zone { name: turn, range: TURN }),
                    curves: yields.into(),
                    marks: on_yield,
                },
                Panel {
                    up: Axis { name: "plastic viscosity, Pa s", range: 0.0..top(&viscosities) },
                    zone: None,
                    curves: viscosities.into(),
                    marks: on_viscosity,
                },
            ],
            band: "where 95 % of cases lie",
        }
    }
}

fn total_of(totals: &mut EmulsifierTotals, kind: EmulsifierKind) -> &mut MassFraction {
    match kind {
        EmulsifierKind::Lecithin => &mut totals.lecithin,
        EmulsifierKind::Pgpr => &mut totals.pgpr,
        // Others have no curve and are refused at the door.
        EmulsifierKind::AmmoniumPhosphatides | EmulsifierKind::SorbitanTristearate => &mut totals.ammonium_phosphatides,
    }
}

/// A little above the bands.
fn top(curves: &[Curve]) -> f64 {
    1.05 * curves.iter().flat_map(|curve| &curve.band).map(|(_, _, high)| *high).fold(0.0, f64::max)
}

fn banded(band: Band<f64>) -> String {
    format!("{:>5.2} ({:.2} to {:.2})", band.value, band.low, band.high)
}
