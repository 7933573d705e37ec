//! Charts that print well: panels over one horizontal axis, curves told apart by dashes as well as by colour, and a key below.

use plotters::coord::Shift;
use plotters::element::{DashedPathElement, DynElement, IntoDynElement};
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use std::{error::Error, fs, ops::Range, path::Path};

/// Everything is drawn in tenths of a millimetre of paper.
const UNITS_PER_MM: u32 = 10;
const WIDTH: u32 = 1700;
const TITLE: u32 = 80;
const PANEL: u32 = 720;
const KEY_LINE: i32 = 58;
/// 10.5 points, in tenths of a millimetre.
const TEXT: f64 = 37.0;
/// `plotters` writes a font this much smaller than it is asked for.
const SHRINKS: f64 = 1.24;

pub const BLACK: RGBColor = RGBColor(0, 0, 0);
/// Of the colours of Okabe and Ito, which colour-blind readers can tell apart.
pub const BLUE: RGBColor = RGBColor(0, 114, 178);
pub const VERMILION: RGBColor = RGBColor(213, 94, 0);

/// Panels over one horizontal axis.
pub struct Chart {
    pub title: String,
    pub across: Axis,
    pub panels: Vec<Panel>,
    /// What the band of a curve is.
    pub band: &'static str,
}

/// What an axis shows, with its unit, and how far it reaches.
pub struct Axis {
    pub name: &'static str,
    pub range: Range<f64>,
}

pub struct Panel {
    pub up: Axis,
    pub zone: Option<Zone>,
    pub curves: Vec<Curve>,
    pub marks: Vec<Mark>,
}

/// A stretch of the horizontal axis.
pub struct Zone {
    pub name: String,
    pub range: Range<f64>,
}

pub struct Curve {
    /// None leaves it out of the key.
    pub name: Option<String>,
    pub points: Vec<(f64, f64)>,
    /// Lower and upper ends.
    pub band: Vec<(f64, f64, f64)>,
    pub pen: Pen,
}

#[derive(Clone, Copy)]
pub struct Pen {
    pub colour: RGBColor,
    pub width: u32,
    /// Lengths of dash and gap; none is a solid line.
    pub dash: Option<(u32, u32)>,
}

/// A point to be noticed.
pub struct Mark {
    /// None leaves it out of the key.
    pub name: Option<String>,
    pub at: (f64, f64),
    pub sign: Sign,
}

#[derive(Clone, Copy)]
pub enum Sign {
    Dot,
    Ring,
    Triangle,
}

type Canvas<'a> = DrawingArea<SVGBackend<'a>, Shift>;
type Drawn = Result<(), Box<dyn Error>>;
type Element<'a, C> = DynElement<'static, SVGBackend<'a>, C>;

impl Chart {
    /// Writes the picture, of a size on paper that makes its text 10.5 points.
    pub fn write(&self, path: &Path) -> Drawn {
        let panels = u32::try_from(self.panels.len())?;
        let height = TITLE + PANEL * panels + KEY_LINE.unsigned_abs() * u32::try_from(self.key().count())? + 20;
        let mut picture = String::new();
        self.draw(&SVGBackend::with_string(&mut picture, (WIDTH, height)).into_drawing_area(), panels)?;
        let units = format!(r#"width="{WIDTH}" height="{height}""#);
        let paper = format!(r#"width="{}mm" height="{}mm""#, WIDTH / UNITS_PER_MM, height / UNITS_PER_MM);
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder)?;
        }
        Ok(fs::write(path, picture.replacen(&units, &paper, 1))?)
    }

    fn draw(&self, canvas: &Canvas<'_>, panels: u32) -> Drawn {
        canvas.fill(&WHITE)?;
        let (title, below) = canvas.split_vertically(TITLE);
        let (plots, key) = below.split_vertically(PANEL * panels);
        title.draw(&Text::new(self.title.as_str(), (40, 26), text().style(FontStyle::Bold)))?;
        for (panel, area) in self.panels.iter().zip(plots.split_evenly((self.panels.len(), 1))) {
            panel.draw(&area, &self.across)?;
        }
        for (middle, (name, sample)) in (KEY_LINE / 2..).step_by(KEY_LINE.unsigned_abs() as usize).zip(self.key()) {
            for element in sample.elements(middle) {
                key.draw(&element)?;
            }
            key.draw(&Text::new(name, (230, middle), text().into_text_style(&key).pos(Pos::new(HPos::Left, VPos::Center))))?;
        }
        Ok(canvas.present()?)
    }

    /// What is drawn, and what it means.
    fn key(&self) -> impl Iterator<Item = (&str, Sample)> {
        let curves = self.panels.iter().flat_map(|panel| &panel.curves);
        let banded = curves.clone().any(|curve| !curve.band.is_empty());
        let named = curves.filter_map(|curve| Some((curve.name.as_deref()?, Sample::Curve(curve.pen))));
        let marks =
            self.panels.iter().flat_map(|panel| &panel.marks).filter_map(|mark| Some((mark.name.as_deref()?, Sample::Mark(mark.sign))));
        let zones = self.panels.iter().filter_map(|panel| panel.zone.as_ref()).map(|zone| (zone.name.as_str(), Sample::Zone));
        named.chain(banded.then_some((self.band, Sample::Band))).chain(marks).chain(zones)
    }
}

impl Panel {
    fn draw(&self, area: &Canvas<'_>, across: &Axis) -> Drawn {
        let mut chart = ChartBuilder::on(area)
            .margin_left(30)
            .margin_right(60)
            .margin_top(20)
            .x_label_area_size(120)
            .y_label_area_size(170)
            .build_cartesian_2d(across.range.clone(), self.up.range.clone())?;
        chart
            .configure_mesh()
            .x_desc(across.name)
            .y_desc(self.up.name)
            .label_style(text())
            .axis_desc_style(text())
            .axis_style(BLACK.stroke_width(3))
            .bold_line_style(BLACK.mix(0.15).stroke_width(2))
            .light_line_style(TRANSPARENT)
            .x_labels(11)
            .y_labels(8)
            .x_label_formatter(&tick)
            .y_label_formatter(&tick)
            .draw()?;
        let inside = |(at, up): (f64, f64)| (at, up.clamp(self.up.range.start, self.up.range.end));
        if let Some(zone) = &self.zone {
            chart.draw_series(lines_between(zone.range.clone(), [self.up.range.start, self.up.range.end]))?;
        }
        for curve in &self.curves {
            let lower = curve.band.iter().map(|(at, low, _)| inside((*at, *low)));
            let upper = curve.band.iter().rev().map(|(at, _, high)| inside((*at, *high)));
            let edges = [lower.clone().collect(), upper.clone().collect()];
            chart.draw_series([Polygon::new(lower.chain(upper).collect::<Vec<_>>(), curve.pen.colour.mix(BAND))])?;
            chart.draw_series(edges.map(|edge: Vec<_>| PathElement::new(edge, curve.pen.colour.mix(0.5).stroke_width(2))))?;
        }
        for curve in &self.curves {
            let points = curve.points.iter().copied().filter(|(_, up)| *up <= self.up.range.end);
            chart.draw_series([curve.pen.line(points.collect())])?;
        }
        chart.draw_series(self.marks.iter().map(|mark| mark.sign.at(inside(mark.at))))?;
        Ok(())
    }
}

impl Pen {
    fn line<'a, C: Clone + 'static>(self, points: Vec<C>) -> Element<'a, C>
    where
        DashedPathElement<std::vec::IntoIter<C>, u32>: IntoDynElement<'static, SVGBackend<'a>, C>,
        PathElement<C>: IntoDynElement<'static, SVGBackend<'a>, C>,
    {
        let style = self.colour.stroke_width(self.width);
        match self.dash {
            Some((dash, gap)) => DashedPathElement::new(points, dash, gap, style).into_dyn(),
            None => PathElement::new(points, style).into_dyn(),
        }
    }
}

impl Sign {
    fn at<'a, C: Clone + 'static>(self, point: C) -> Element<'a, C> {
        match self {
            Self::Dot => Circle::new(point, 13, BLACK.filled()).into_dyn(),
            Self::Ring => Circle::new(point, 24, BLACK.stroke_width(5)).into_dyn(),
            Self::Triangle => TriangleMarker::new(point, 24, BLACK.filled()).into_dyn(),
        }
    }
}

/// How something drawn looks in the key.
enum Sample {
    Curve(Pen),
    Band,
    Mark(Sign),
    Zone,
}

impl Sample {
    fn elements<'a>(self, middle: i32) -> Vec<Element<'a, (i32, i32)>> {
        let (left, right, half) = (60, 210, 18);
        match self {
            Self::Curve(pen) => vec![pen.line(vec![(left, middle), (right, middle)])],
            Self::Band => vec![Rectangle::new([(left, middle - half), (right, middle + half)], BLACK.mix(BAND).filled()).into_dyn()],
            Self::Mark(sign) => vec![sign.at((135, middle))],
            Self::Zone => (left..=right).step_by(15).map(|at| zone_line([(at, middle - half), (at, middle + half)])).collect(),
        }
    }
}

/// How dark a band is.
const BAND: f64 = 0.15;

fn zone_line<'a, C: Clone + 'static>(ends: [C; 2]) -> Element<'a, C> {
    PathElement::new(ends.to_vec(), BLACK.mix(0.3).stroke_width(2)).into_dyn()
}

fn lines_between<'a>(range: Range<f64>, [bottom, top]: [f64; 2]) -> impl Iterator<Item = Element<'a, (f64, f64)>> {
    const LINES: i32 = 12;
    let step = (range.end - range.start) / f64::from(LINES);
    (0..=LINES).map(move |line| range.start + f64::from(line) * step).map(move |at| zone_line([(at, bottom), (at, top)]))
}

/// As short as it can be said; steps of tenths add up with a little rounding.
fn tick(value: &f64) -> String {
    format!("{}", (value * 1e6).round() / 1e6)
}

fn text() -> FontDesc<'static> {
    ("sans-serif", TEXT * SHRINKS).into_font()
}
