//! The alcohol of a piece or a box, in the figures that laws and makers reckon in.

use super::Line;
use super::makeup::is_volatile;
use super::subject::Subject;
use crate::assess::Quantity;
use crate::law::labelling::{self, LabelRule};
use crate::matter::{Constituent, Market};

/// Density of pure ethanol at 20 °C, in kilograms per cubic metre (OIML R 22).
const ETHANOL: f64 = 789.24;

/// Ethanol, reckoned as if none of the spirit evaporated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AlcoholContent {
    /// Its mass in the piece or the box, in kilograms; of a filling alone in one kilogram of it.
    pub ethanol: f64,
    /// As a fraction by mass.
    pub by_mass: f64,
    /// As a fraction by volume, where the volume is known.
    pub by_volume: Option<f64>,
}

impl AlcoholContent {
    /// Litres of pure alcohol in 100 kg.
    #[must_use]
    pub fn litres_per_100_kilograms(&self) -> f64 {
        self.by_mass * 100.0 * 1000.0 / ETHANOL
    }
}

pub(super) fn content(subject: &Subject<'_>, market: Market) -> Line<AlcoholContent> {
    let makeup = match subject.makeup() {
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    let by_mass = makeup.share(|constituent| constituent == Constituent::Ethanol);
    let ethanol = by_mass * makeup.finished;
    let volume = subject.parts.iter().map(|part| {
        let volume = part.assessment.whole.get(Quantity::CavityVolume).value();
        volume.map(|volume| f64::from(part.count) * volume)
    });
    let by_volume = volume.sum::<Option<f64>>().map(|volume| ethanol / ETHANOL / volume).filter(|share| share.is_finite());
    let mut line = Line::known(AlcoholContent { ethanol, by_mass, by_volume });
    if ethanol <= 0.0 {
        return line;
    }
    if by_volume.is_none() {
        line.unknown.push("the share by volume, for want of the mould".into());
    }
    for used in makeup.uses.iter().filter(|used| used.boiled > 0.0 && is_volatile(&used.ingredient)) {
        line.unknown.push(format!("how much of {} is left after boiling: here all of it", used.ingredient.title));
    }
    if subject.is_box {
        line.notes.push("an average over the box: each piece is judged by itself in `check`".into());
    }
    match labelling::row(market, LabelRule::Strength) {
        Some(row) => {
            line.notes.push("only beverages state a strength there: here alcohol shows in the list and in the energy".into());
            line.by(&row.citation)
        }
        None => {
            line.unknown.push("how this market wants alcohol told: no rule is held here".into());
            if market == Market::Us {
                line.notes
                    .push("some States want a statement and an age, and forbid more than they allow: see `alcohol-over-limit`".into());
            }
            line
        }
    }
}
