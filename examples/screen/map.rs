//! A map of what passes over two knobs.

use plotters::prelude::*;
use std::{error::Error, fs, ops::Range, path::Path};

/// What a variant comes to, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    Passes,
    Unknown,
    Doubtful,
    Fails,
    Impossible,
}

impl Kind {
    const ALL: [Self; 5] = [Self::Passes, Self::Unknown, Self::Doubtful, Self::Fails, Self::Impossible];

    pub const fn words(self) -> &'static str {
        match self {
            Self::Passes => "pass",
            Self::Unknown => "would pass, but something is not known",
            Self::Doubtful => "are doubtful",
            Self::Fails => "fail",
            Self::Impossible => "cannot be made",
        }
    }

    /// Colours that colour-blind readers can tell apart (Okabe and Ito), and that differ in lightness.
    const fn colour(self) -> RGBColor {
        match self {
            Self::Passes => RGBColor(0, 114, 178),
            Self::Unknown => RGBColor(86, 180, 233),
            Self::Doubtful => RGBColor(240, 228, 66),
            Self::Fails => RGBColor(213, 94, 0),
            Self::Impossible => RGBColor(220, 220, 220),
        }
    }
}

/// The worst of every cell of two ranges; of one, where only one knob is turned.
pub struct Map {
    axes: Vec<(String, Range<f64>)>,
    steps: usize,
    cells: Vec<Option<Kind>>,
}

impl Map {
    pub fn new(axes: Vec<(String, Range<f64>)>, steps: u32) -> Self {
        let steps = steps.clamp(1, 400) as usize;
        let rows = if axes.len() > 1 { steps } else { 1 };
        Self { axes, steps, cells: vec![None; steps * rows] }
    }

    pub fn put(&mut self, settings: &[f64], kind: Kind) {
        let place = |(_, range): &(String, Range<f64>), setting: &f64| {
            let way = if range.end > range.start { (setting - range.start) / (range.end - range.start) } else { 0.0 };
            ((way * self.steps as f64) as usize).min(self.steps - 1)
        };
        let mut places = self.axes.iter().zip(settings).map(|(axis, setting)| place(axis, setting));
        let at = places.next().unwrap_or(0) + self.steps * places.next().unwrap_or(0);
        if let Some(cell) = self.cells.get_mut(at) {
            *cell = (*cell).max(Some(kind));
        }
    }

    /// Draws the map; where a cell holds several variants it shows the worst.
    pub fn draw(&self, file: &Path, title: &str) -> Result<(), Box<dyn Error>> {
        if let Some(folder) = file.parent() {
            fs::create_dir_all(folder)?;
        }
        let area = SVGBackend::new(file, (900, 760)).into_drawing_area();
        area.fill(&WHITE)?;
        let (above, key) = area.split_vertically(680);
        let wide = |range: &Range<f64>| if range.end > range.start { range.clone() } else { range.start - 0.5..range.start + 0.5 };
        let across = self.axes.first().map_or(("", 0.0..1.0), |(name, range)| (name.as_str(), wide(range)));
        let up = self.axes.get(1).map_or(("", 0.0..1.0), |(name, range)| (name.as_str(), wide(range)));
        let mut chart = ChartBuilder::on(&above)
            .caption(title, ("sans-serif", 24))
            .margin(16)
            .x_label_area_size(56)
            .y_label_area_size(72)
            .build_cartesian_2d(across.1.clone(), up.1.clone())?;
        let rows = self.cells.len() / self.steps;
        let along = |range: &Range<f64>, at: usize, of: usize| range.start + (range.end - range.start) * at as f64 / of as f64;
        chart.draw_series(self.cells.iter().enumerate().filter_map(|(place, kind)| {
            let (x, y) = (place % self.steps, place / self.steps);
            let corner = |more: usize| (along(&across.1, x + more, self.steps), along(&up.1, y + more, rows));
            Some(Rectangle::new([corner(0), corner(1)], kind.as_ref()?.colour().filled()))
        }))?;
        let mut mesh = chart.configure_mesh();
        mesh.disable_mesh().label_style(("sans-serif", 17)).x_desc(across.0).y_desc(up.0);
        if self.axes.len() < 2 {
            mesh.y_labels(0);
        }
        mesh.draw()?;
        for (place, kind) in Kind::ALL.into_iter().enumerate() {
            let (x, y) = (20 + 300 * (place as i32 % 3), 10 + 30 * (place as i32 / 3));
            key.draw(&Rectangle::new([(x, y), (x + 18, y + 18)], kind.colour().filled()))?;
            key.draw(&Text::new(kind.words(), (x + 26, y + 2), ("sans-serif", 16)))?;
        }
        area.present()?;
        Ok(())
    }
}
