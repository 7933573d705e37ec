//! A filled chocolate cut through its middle, to scale, as it lies in the mould: SVG in millimetres of paper.

use cordial::models::cavity::Cavity;
use cordial::units::quantity::{Length, millimeter, square_meter};
use std::f64::consts::PI;
use std::{error::Error, fs, path::Path};
use svg::Document;
use svg::node::element::{Circle, Definitions, Line, Path as Outline, Pattern, Rectangle, Text};

/// Millimetres of paper.
const PAGE: f64 = 190.0;
const LEFT: f64 = 30.0;
const TOP: f64 = 34.0;
/// The drawing itself is at most so wide and so deep.
const ROOM: [f64; 2] = [105.0, 110.0];
/// Mould drawn round the cavity.
const MOULD: f64 = 5.0;
/// 10.5 points.
const TEXT: f64 = 3.7;
const LINE: f64 = 6.0;
/// As many letters as surely fit beside the left margin.
const LETTERS: usize = 72;
/// How finely a curved wall is drawn.
const STEPS: u32 = 80;

/// A part of the piece, from the deepest to the uppermost level it reaches, in mm below the rim.
pub struct Part {
    pub name: String,
    pub fill: Fill,
    pub levels: [f64; 2],
    /// A film of something else on top of it.
    pub film: bool,
}

#[derive(Clone, Copy, PartialEq)]
pub enum Fill {
    /// Chocolate of shell and cap.
    Chocolate,
    /// The layer of this place in pouring order.
    Layer(usize),
    /// Nothing is known to be there.
    Empty,
}

/// The cavity, the room that the shell leaves, and what lies in it.
pub struct Section {
    pub title: String,
    pub outer: Cavity,
    pub inner: Cavity,
    pub shell: String,
    /// From the rim downwards.
    pub parts: Vec<Part>,
}

/// Half the width of a cavity at levels below its rim.
struct Profile {
    cavity: Cavity,
    round: bool,
}

impl Profile {
    fn of(cavity: Cavity) -> Self {
        Self { cavity, round: is_round(&cavity) }
    }

    /// A radius, or half the side of a square; of a rectangle, half the side of the square of its area.
    fn half_width(&self, below_rim: f64) -> f64 {
        let area = self.cavity.area_at(Length::new::<millimeter>(below_rim)).get::<square_meter>() * 1e6;
        if self.round { (area / PI).sqrt() } else { area.sqrt() / 2.0 }
    }

    fn depth(&self) -> f64 {
        self.cavity.depth().get::<millimeter>()
    }
}

/// Whether the walls have the area of a body turned about its axis. A cavity does not say its shape, but square walls are larger.
fn is_round(cavity: &Cavity) -> bool {
    if !cavity.is_exact() {
        return true;
    }
    let profile = Profile { cavity: *cavity, round: true };
    let depth = profile.depth();
    let turned: f64 = levels([0.0, depth])
        .zip(levels([0.0, depth]).skip(1))
        .map(|(upper, lower)| {
            let (wide, narrow) = (profile.half_width(upper), profile.half_width(lower));
            PI * (wide + narrow) * (lower - upper).hypot(wide - narrow)
        })
        .sum();
    let bottom = cavity.area_at(cavity.depth());
    let walls = (cavity.wetted_area() - bottom).get::<square_meter>() * 1e6;
    walls < 1.005 * turned
}

/// Levels from the upper to the lower, closer together towards the lower, where a bowl curves most.
fn levels([upper, lower]: [f64; 2]) -> impl Iterator<Item = f64> {
    (0..=STEPS).map(move |step| upper + (lower - upper) * (PI / 2.0 * f64::from(step) / f64::from(STEPS)).sin())
}

impl Section {
    pub fn write(&self, path: &Path) -> Result<(), Box<dyn Error>> {
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder)?;
        }
        Ok(svg::save(path, &Sheet::of(self).drawn())?)
    }
}

/// A section on paper.
struct Sheet<'a> {
    section: &'a Section,
    outer: Profile,
    inner: Profile,
    /// Paper over piece.
    scale: f64,
    /// The axis of the piece, across the page.
    axis: f64,
}

impl<'a> Sheet<'a> {
    fn of(section: &'a Section) -> Self {
        let (outer, inner) = (Profile::of(section.outer), Profile::of(section.inner));
        let [width, depth] = ROOM;
        let scale = (width / (2.0 * outer.half_width(0.0))).min(depth / outer.depth()).floor().max(1.0);
        let axis = LEFT + MOULD + scale * outer.half_width(0.0);
        Self { section, outer, inner, scale, axis }
    }

    fn drawn(&self) -> Document {
        let lowest = self.label_levels().last().unwrap_or(TOP).max(self.down(self.outer.depth()) + MOULD);
        let (scale, key) = (lowest + 8.0, lowest + 16.0);
        let lines: usize = self.key().map(|(words, _)| words.len()).sum();
        let height = key + LINE * (lines as f64 + if self.outer.round { 1.0 } else { 2.0 });
        let mut page = Document::new()
            .set("viewBox", (0.0, 0.0, PAGE, height))
            .set("width", format!("{PAGE}mm"))
            .set("height", format!("{height:.1}mm"))
            .set("font-family", "sans-serif")
            .set("font-size", TEXT)
            .add(patterns())
            .add(Rectangle::new().set("width", PAGE).set("height", height).set("fill", "white"))
            .add(text(&self.section.title, LEFT - 20.0, 8.0).set("font-weight", "bold"));
        page = self.draw_piece(page);
        page = self.draw_dimensions(page);
        page = self.draw_labels(page);
        page = self.draw_scale(page, scale);
        self.draw_key(page, key)
    }

    fn draw_piece(&self, page: Document) -> Document {
        let (wide, deep) = (self.scale * self.outer.half_width(0.0) + MOULD, self.scale * self.outer.depth() + MOULD);
        let mould = Rectangle::new().set("x", self.axis - wide).set("y", TOP).set("width", 2.0 * wide).set("height", deep);
        let mut page = page.add(mould.set("fill", "url(#mould)").set("stroke", "black").set("stroke-width", 0.3));
        page = page.add(self.outline(&self.outer, [0.0, self.outer.depth()], "url(#chocolate)"));
        page = page.add(self.outline(&self.inner, [0.0, self.inner.depth()], "white"));
        for part in &self.section.parts {
            page = page.add(self.outline(&self.inner, part.levels, &part.fill.paint()));
            if part.film {
                let (half, level) = (self.scale * self.inner.half_width(part.levels[0]), self.down(part.levels[0]));
                page = page.add(line([self.axis - half, level], [self.axis + half, level], 1.1, "white"));
                page = page.add(line([self.axis - half, level], [self.axis + half, level], 0.7, "black").set("stroke-dasharray", "2 1"));
            }
        }
        page
    }

    /// Openings above, depth to the left.
    fn draw_dimensions(&self, mut page: Document) -> Document {
        let sign = if self.outer.round { "⌀ " } else { "□ " };
        for (row, profile) in [&self.outer, &self.inner].into_iter().enumerate() {
            let (half, above) = (self.scale * profile.half_width(0.0), TOP - 14.0 + 8.0 * row as f64);
            for side in [-half, half] {
                page = page.add(line([self.axis + side, above - 1.5], [self.axis + side, TOP], 0.15, "black"));
            }
            page = page.add(arrow([self.axis - half, above], [self.axis + half, above]));
            let words = format!("{sign}{}", millimeters(2.0 * profile.half_width(0.0)));
            page = page.add(text(&words, self.axis, above - 1.0).set("text-anchor", "middle"));
        }
        let (beside, bottom) = (LEFT - 7.0, self.down(self.outer.depth()));
        for level in [TOP, bottom] {
            page = page.add(line([beside - 1.5, level], [if level > TOP { self.axis } else { LEFT }, level], 0.15, "black"));
        }
        page = page.add(arrow([beside, TOP], [beside, bottom]));
        let (across, middle) = (beside - 1.2, (TOP + bottom) / 2.0);
        page.add(
            text(&millimeters(self.outer.depth()), across, middle)
                .set("text-anchor", "middle")
                .set("transform", format!("rotate(-90 {across} {middle})")),
        )
    }

    /// A number and a thickness beside each part, joined to it.
    fn draw_labels(&self, mut page: Document) -> Document {
        let across = self.axis + self.scale * self.outer.half_width(0.0) + MOULD + 8.0;
        for (index, ([from, to], at)) in self.thicknesses().zip(self.label_levels()).enumerate() {
            let middle = (from + to) / 2.0;
            let half = if index < self.section.parts.len() { self.inner.half_width(middle) * 0.6 } else { 0.0 };
            let dot = [self.axis + self.scale * half, self.down(middle)];
            for (width, colour) in [(1.3, "white"), (0.3, "black")] {
                page = page.add(line(dot, [across - 3.0, at], width, colour));
            }
            page =
                page.add(Circle::new().set("cx", dot[0]).set("cy", dot[1]).set("r", 0.7).set("stroke", "white").set("stroke-width", 0.3));
            page = page.add(balloon(index, [across, at]));
            page = page.add(text(&millimeters(to - from), across + 4.5, at + 1.3));
        }
        page
    }

    /// Where on the page the labels stand: beside their parts, or lower where those are too thin for a line of text each.
    fn label_levels(&self) -> impl Iterator<Item = f64> {
        self.thicknesses().scan(TOP - LINE, |last, [from, to]| {
            *last = self.down((from + to) / 2.0).max(*last + LINE);
            Some(*last)
        })
    }

    /// Levels of the parts on the axis, and of the shell's bottom.
    fn thicknesses(&self) -> impl Iterator<Item = [f64; 2]> {
        let shell = [self.inner.depth(), self.outer.depth()];
        self.section.parts.iter().map(|part| part.levels).chain([shell])
    }

    fn draw_scale(&self, page: Document, level: f64) -> Document {
        let (from, to) = (LEFT, LEFT + 10.0 * self.scale);
        let ends = [from, to].map(|end| line([end, level - 1.5], [end, level + 1.5], 0.4, "black"));
        let bar = line([from, level], [to, level], 0.8, "black");
        let words = format!("10 mm; drawn {} : 1 when printed at its own size", self.scale);
        ends.into_iter().fold(page.add(bar), Document::add).add(text(&words, to + 4.0, level + 1.3))
    }

    fn draw_key(&self, mut page: Document, mut level: f64) -> Document {
        for (index, (words, fill)) in self.key().enumerate() {
            let swatch = Rectangle::new().set("x", LEFT - 12.0).set("y", level).set("width", 10.0).set("height", 4.5);
            page = page.add(balloon(index, [LEFT - 17.0, level + 2.2]));
            page = page.add(swatch.set("fill", fill.paint()).set("stroke", "black").set("stroke-width", 0.3));
            for line in words {
                page = page.add(text(&line, LEFT, level + 3.5));
                level += LINE;
            }
        }
        if self.outer.round {
            return page;
        }
        page.add(text("□: the side of the opening; of one that is not square, of the square of its area", LEFT, level + 3.5))
    }

    /// What is said of each part, in lines, and how it is filled.
    fn key(&self) -> impl Iterator<Item = (Vec<String>, Fill)> {
        let parts = self.section.parts.iter().map(|part| (part.name.as_str(), part.fill));
        let all = parts.chain([(self.section.shell.as_str(), Fill::Chocolate)]);
        all.map(|(name, fill)| (textwrap::wrap(name, LETTERS).into_iter().map(String::from).collect(), fill))
    }

    fn outline(&self, profile: &Profile, span: [f64; 2], fill: &str) -> Outline {
        let side = |sign: f64| levels(span).map(move |level| (sign, level));
        let down: Vec<_> = side(-1.0).collect();
        let up: Vec<_> = side(1.0).collect();
        let points = down.into_iter().chain(up.into_iter().rev());
        let points =
            points.map(|(sign, level)| format!("{:.3} {:.3}", self.axis + sign * self.scale * profile.half_width(level), self.down(level)));
        let points = points.collect::<Vec<_>>().join(" L ");
        Outline::new().set("d", format!("M {points} Z")).set("fill", fill).set("stroke", "black").set("stroke-width", 0.4)
    }

    /// From a level of the piece to one of the page.
    fn down(&self, below_rim: f64) -> f64 {
        TOP + self.scale * below_rim
    }
}

impl Fill {
    fn paint(self) -> String {
        match self {
            Self::Chocolate => "url(#chocolate)".into(),
            Self::Layer(index) => format!("url(#layer{})", index % 4),
            Self::Empty => "white".into(),
        }
    }
}

/// Each fill has its own hatching, and a light tint of a colour of Okabe and Ito, so that it can be told in print and by anyone.
fn patterns() -> Definitions {
    let tile = |name: &str, tint: &str, size: f64| {
        let ground = Rectangle::new().set("width", size).set("height", size).set("fill", tint);
        Pattern::new().set("id", name).set("width", size).set("height", size).set("patternUnits", "userSpaceOnUse").add(ground)
    };
    let stroke = |from, to| line(from, to, 0.25, "black");
    let dot = |cx: f64, cy: f64| Circle::new().set("cx", cx).set("cy", cy).set("r", 0.3);
    Definitions::new()
        .add(tile("mould", "white", 3.0).set("patternTransform", "rotate(-45)").add(line([0.0, 0.0], [3.0, 0.0], 0.3, "#777777")))
        .add(tile("chocolate", "#6b4a36", 2.0))
        .add(tile("layer0", "#fdf3cf", 2.4).add(dot(0.6, 0.6)).add(dot(1.8, 1.8)))
        .add(tile("layer1", "#d9edf8", 2.0).add(stroke([0.0, 1.0], [2.0, 1.0])))
        .add(tile("layer2", "#f6dfd0", 2.0).set("patternTransform", "rotate(45)").add(stroke([0.0, 1.0], [2.0, 1.0])))
        .add(tile("layer3", "#d6efe6", 2.4).add(stroke([0.0, 1.2], [2.4, 1.2])).add(stroke([1.2, 0.0], [1.2, 2.4])))
}

fn line([x1, y1]: [f64; 2], [x2, y2]: [f64; 2], width: f64, colour: &str) -> Line {
    Line::new().set("x1", x1).set("y1", y1).set("x2", x2).set("y2", y2).set("stroke", colour).set("stroke-width", width)
}

/// A dimension line with a slanting stroke at either end.
fn arrow([x1, y1]: [f64; 2], [x2, y2]: [f64; 2]) -> Outline {
    let tick = |x: f64, y: f64| format!("M {} {} l 2 -2", x - 1.0, y + 1.0);
    let path = format!("M {x1} {y1} L {x2} {y2} {} {}", tick(x1, y1), tick(x2, y2));
    Outline::new().set("d", path).set("fill", "none").set("stroke", "black").set("stroke-width", 0.3)
}

fn balloon(index: usize, [x, y]: [f64; 2]) -> svg::node::element::Group {
    let ring = Circle::new().set("cx", x).set("cy", y).set("r", 2.7).set("fill", "white").set("stroke", "black").set("stroke-width", 0.3);
    let number = text(&(index + 1).to_string(), x, y + 1.3).set("text-anchor", "middle");
    svg::node::element::Group::new().add(ring).add(number)
}

fn text(words: &str, x: f64, y: f64) -> Text {
    Text::new(words).set("x", x).set("y", y)
}

pub fn millimeters(value: f64) -> String {
    format!("{} mm", (10.0 * value).round() / 10.0)
}
