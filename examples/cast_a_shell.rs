//! What wall a draining mould keeps: thickness against drain time, of tempered and of hot untempered chocolate, cast once and twice.
//!
//! `cargo run --release --example cast_a_shell -- [FILE [PICTURE]]`: mould, couverture and wanted wall are those of the first piece of the
//! document, by default of the winter box; the picture goes to `target/cast_a_shell.svg`.

#[path = "drawing/chart.rs"]
mod chart;

mod terminal;

use chart::{Axis, BLACK, BLUE, Chart, Curve, Mark, Panel, Pen, Sign, VERMILION};
use cordial::assess::{Quantity, assess};
use cordial::models::{cavity::Cavity, flow::casting_flow::CastingFlow, flow::draining::Wall};
use cordial::piece::{Piece, Temper};
use cordial::units::quantity::{
    Angle, Density, DynamicViscosity, Length, Stress, kilogram_per_cubic_meter, meter, millimeter, pascal, pascal_second, radian, second,
    square_meter,
};
use cordial::units::{Band, Checked, Duration, Temperature};
use std::{error::Error, path::Path, process::ExitCode};
use terminal::{Arguments, document, ended, put, say};

/// Degrees Celsius.
const TEMPERED_AT: f64 = 31.5;
const HOT: f64 = 45.0;
/// Seconds.
const LONGEST: f64 = 60.0;
const TIMES: [f64; 8] = [5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 45.0, LONGEST];

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&[], &[])?;
    let picture = arguments.words.get(1).map_or("target/cast_a_shell.svg", String::as_str);
    let document = document(arguments.words.first())?;
    let piece = document.pieces().first().ok_or("the document holds no piece")?;
    let cavity = piece.mould.ok_or("the first piece names no mould")?.cavity;

    let (tempered, hot) = (Cast::of(piece, &cavity, Temper::Tempered, TEMPERED_AT)?, Cast::of(piece, &cavity, Temper::Untempered, HOT)?);
    let shown = Shells::of(tempered, hot);
    let wanted = piece.shell.as_ref().and_then(|shell| shell.thickness).map(|wall| wall.quantity().get::<millimeter>());
    say!(
        "{}: {}, wall half-way down a cavity {:.0} mm wide and {:.0} mm deep.\n",
        piece.name,
        piece.shell.as_ref().map_or("", |shell| &shell.chocolate.name),
        cavity.opening().get::<millimeter>(),
        cavity.depth().get::<millimeter>()
    );
    tempered.describe("tempered");
    hot.describe("untempered");
    shown.tabulate();
    shown.tell(wanted);
    shown.chart(wanted).write(Path::new(picture))?;
    say!("\nThe picture is in {picture}.");
    Ok(())
}

/// A chocolate on the wall of a mould.
#[derive(Clone, Copy)]
struct Cast {
    wall: Wall,
    flow: CastingFlow,
    celsius: f64,
}

impl Cast {
    /// The shell of a piece, were its chocolate cast like this.
    fn of(piece: &Piece, cavity: &Cavity, temper: Temper, celsius: f64) -> Result<Self, Box<dyn Error>> {
        let mut cast = piece.clone();
        cast.shell.as_mut().ok_or("the first piece names no shell")?.temper = Some(temper);
        cast.workshop.chocolate_temperature = Some(Temperature::from_base(celsius)?);
        let shell = assess(&cast).shell;
        let band = |quantity| shell.get(quantity).known().map(|estimate| estimate.band).ok_or("how the chocolate flows is not known");
        let flow = CastingFlow {
            yield_value: band(Quantity::ChocolateYieldValue)?.map(Stress::new::<pascal>),
            plastic_viscosity: band(Quantity::PlasticViscosity)?.map(DynamicViscosity::new::<pascal_second>),
        };
        let density = Density::new::<kilogram_per_cubic_meter>(band(Quantity::ChocolateDensity)?.value);
        Ok(Self { wall: halfway(cavity, density), flow, celsius })
    }

    /// Millimetres of wall after seconds of draining at each cast.
    fn shell(&self, seconds: f64, casts: u32) -> Option<Band<f64>> {
        let shell = self.wall.shell(&self.flow, Duration::nearest(seconds), casts)?;
        Some(shell.map(|wall| wall.get::<millimeter>()))
    }

    /// Millimetres that stay however long it drains.
    fn stays(&self) -> Option<f64> {
        self.wall.carried_by(self.flow.yield_value.value).map(|wall| wall.get::<millimeter>())
    }

    /// Seconds of draining at each cast that leave so many millimetres; none where the yield value holds more.
    fn time_to(&self, wanted: f64, casts: u32) -> Option<f64> {
        let once = Length::new::<millimeter>(wanted / f64::from(casts));
        self.wall.time_to(&self.flow.casson(), once).map(|time| time.get::<second>())
    }

    fn tapped(&self) -> Self {
        Self { flow: self.flow.tapped(), ..*self }
    }

    fn describe(&self, temper: &str) {
        let (tau, eta) =
            (self.flow.yield_value.map(|stress| stress.get::<pascal>()), self.flow.plastic_viscosity.map(|eta| eta.get::<pascal_second>()));
        say!(
            "  {temper} at {} °C: yield value {:.1} Pa ({:.1} to {:.1}), plastic viscosity {:.2} Pa s ({:.2} to {:.2})",
            self.celsius,
            tau.value,
            tau.low,
            tau.high,
            eta.value,
            eta.low,
            eta.high
        );
    }
}

/// The wall half-way down, and how much of it lies between there and the bottom, which is uppermost while the mould drains.
fn halfway(cavity: &Cavity, density: Density) -> Wall {
    const STEP: f64 = 0.05;
    let depth = cavity.depth();
    let radius = |share: f64| (cavity.area_at(depth * share).get::<square_meter>() / std::f64::consts::PI).sqrt();
    let slope = (2.0 * STEP * depth.get::<meter>()).atan2(radius(0.5 - STEP) - radius(0.5 + STEP));
    Wall { slope: Angle::new::<radian>(slope), above: Length::new::<meter>(0.5 * depth.get::<meter>() / slope.sin()), density }
}

/// The shells compared, each with the name it goes by.
struct Shells {
    tempered: Cast,
    hot: Cast,
    rows: [(&'static str, Cast, u32, Pen); 5],
}

impl Shells {
    fn of(tempered: Cast, hot: Cast) -> Self {
        let pen = |colour, width, dash| Pen { colour, width, dash };
        let rows = [
            ("tempered, once", tempered, 1, pen(BLUE, 9, None)),
            ("tempered, twice", tempered, 2, pen(BLUE, 9, Some((60, 24)))),
            ("tempered, once, tapped all the time", tempered.tapped(), 1, pen(BLACK, 5, Some((10, 14)))),
            ("hot untempered, once", hot, 1, pen(VERMILION, 5, None)),
            ("hot untempered, twice", hot, 2, pen(VERMILION, 5, Some((30, 16)))),
        ];
        Self { tempered, hot, rows }
    }

    fn tabulate(&self) {
        say!("\nWall in mm, after draining so many seconds at each cast:\n");
        put!("{:37}", "");
        TIMES.iter().for_each(|time| put!("{time:>6.0} s"));
        say!();
        for (name, cast, casts, _) in &self.rows {
            put!("{name:37}");
            TIMES.iter().filter_map(|time| cast.shell(*time, *casts)).for_each(|wall| put!("{:>8.2}", wall.value));
            say!();
        }
        for high in [false, true] {
            put!("{:37}", format!("tempered, once: {} end of 95 %", if high { "upper" } else { "lower" }));
            let walls = TIMES.iter().filter_map(|time| self.tempered.shell(*time, 1));
            walls.for_each(|wall| put!("{:>8.2}", if high { wall.high } else { wall.low }));
            say!();
        }
    }

    fn tell(&self, wanted: Option<f64>) {
        say!();
        for (name, cast) in [("tempered", self.tempered), ("hot untempered", self.hot)] {
            if let Some(stays) = cast.stays() {
                say!("- {name}: {stays:.2} mm a cast stay however long it drains: the yield value holds them.");
            }
        }
        if let (Some(still), Some(tapped)) = (self.tempered.shell(20.0, 1), self.tempered.tapped().shell(20.0, 1)) {
            let (still, tapped) = (still.value, tapped.value);
            say!("- Tapped all the time the yield value does not hold: after 20 s {tapped:.2} mm instead of {still:.2} mm.");
        }
        let Some(wanted) = wanted else { return };
        for (name, cast, casts, _) in self.rows.iter().filter(|(name, ..)| !name.contains("tapped")) {
            match cast.time_to(wanted, *casts) {
                Some(time) if time < 1.0 => say!("- {name}: the {wanted} mm wanted have run off within a second."),
                Some(time) if time > 600.0 => say!("- {name}: it does not drain to the {wanted} mm wanted in any useful time."),
                Some(time) => say!("- {name}: drain {time:.0} s each time for the {wanted} mm wanted."),
                None => say!("- {name}: it never drains to the {wanted} mm wanted, unless it is tapped."),
            }
        }
        say!("  Times follow from the best estimates; weigh the first shells and correct.");
    }

    fn chart(&self, wanted: Option<f64>) -> Chart {
        let times: Vec<f64> = (4..=240).map(|quarter| f64::from(quarter) / 240.0 * LONGEST).collect();
        let curve = |name: &str, cast: &Cast, casts, pen, banded: bool| {
            let walls: Vec<_> = times.iter().filter_map(|time| Some((*time, cast.shell(*time, casts)?))).collect();
            Curve {
                name: Some(name.to_owned()),
                points: walls.iter().map(|(time, wall)| (*time, wall.value)).collect(),
                band: if banded { walls.iter().map(|(time, wall)| (*time, wall.low, wall.high)).collect() } else { Vec::new() },
                pen,
            }
        };
        let mut curves: Vec<Curve> =
            self.rows.iter().map(|(name, cast, casts, pen)| curve(name, cast, *casts, *pen, *name == "tempered, once")).collect();
        let level = |name: String, height: f64, pen| Curve {
            name: Some(name),
            points: [0.0, LONGEST].map(|time| (time, height)).to_vec(),
            band: Vec::new(),
            pen,
        };
        if let Some(stays) = self.tempered.stays() {
            let pen = Pen { colour: BLUE, width: 3, dash: Some((24, 12)) };
            curves.push(level(format!("static limit: {stays:.2} mm of tempered chocolate stay at each cast"), stays, pen));
        }
        if let Some(wanted) = wanted {
            curves.push(level(format!("wanted: {wanted} mm"), wanted, Pen { colour: BLACK, width: 3, dash: None }));
        }
        let reached = wanted.into_iter().flat_map(|wanted| {
            let times = self.rows.iter().filter_map(move |(name, cast, casts, _)| Some((name, cast.time_to(wanted, *casts)?)));
            times.filter(|(_, time)| (2.0..=LONGEST).contains(time)).map(move |(name, time)| (name, (time, wanted)))
        });
        let marks = reached.zip([Sign::Dot, Sign::Ring, Sign::Triangle]).map(|((name, at), sign)| Mark {
            name: Some(format!("{name}: {:.0} s for the {} mm wanted", at.0, at.1)),
            at,
            sign,
        });
        let marks = marks.collect();
        let highest = self.tempered.shell(10.0, 2).map_or(3.0, |wall| 1.1 * wall.value);
        Chart {
            title: format!("Wall of a shell: tempered at {TEMPERED_AT} °C, untempered at {HOT} °C"),
            across: Axis { name: "drain time at each cast, s", range: 0.0..LONGEST },
            panels: vec![Panel { up: Axis { name: "wall, mm", range: 0.0..highest }, zone: None, curves, marks }],
            band: "where 95 % of tempered shells cast once lie",
        }
    }
}
