//! How far a knob is searched, and in what steps.

use super::super::{Amount, Piece};
use super::{Knob, Process};
use crate::matter::{Constituent, Recipe, RecipeLine, Role};
use crate::units::Checked;

/// How a knob turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Turn {
    /// Anywhere in the range, in steps of what can be weighed or measured.
    Continuous {
        /// The step, in the base unit.
        step: f64,
    },
    /// In whole numbers; a choice is a whole number that stands for a word.
    Whole,
}

/// Below this mass a recipe line is weighed to a tenth of a gram, above to a gram.
const FINE_WEIGHING: f64 = 0.05;

impl Knob {
    /// The range it may be searched in on this piece, in the base unit; wherever it stands is inside.
    #[must_use]
    pub fn range(self, piece: &Piece) -> (f64, f64) {
        let (least, most) = self.usual_range(piece);
        let stands = self.get(piece).unwrap_or(least);
        (least.min(stands), most.max(stands))
    }

    fn usual_range(self, piece: &Piece) -> (f64, f64) {
        let recipe = |layer: usize| recipe(piece, layer);
        let charge = |layer: usize| recipe(layer).map_or(0.0, Recipe::charge);
        match self {
            Self::WallThickness => (0.0005, 0.005),
            Self::CapThickness => (0.0005, 0.005),
            Self::DrainTime => (1.0, 120.0),
            Self::Casts | Self::CapCoats => (1.0, 3.0),
            Self::Temper(_) => (0.0, 1.0),
            Self::EmulsifierForm(..) | Self::Barrier(_) | Self::Sale => (0.0, 2.0),
            Self::EmulsifierDose(..) => (0.0, 0.02),
            Self::StirredInDose(..) => (0.0, 0.2),
            Self::CocoaButter(_) => (0.0, 0.15),
            Self::FillDepth(_) => (0.0, 0.005),
            Self::LayerAmount(_) => (0.0, 4.0 * self.get(piece).unwrap_or(0.0)),
            Self::IngredientMass(layer, line) => {
                let line = recipe(layer).and_then(|recipe| recipe.lines().get(line));
                line.map_or((0.0, 0.0), |line| ingredient_range(line, charge(layer)))
            }
            Self::Addition(layer, Constituent::Xanthan) => (0.0, 0.03 * charge(layer)),
            Self::Addition(layer, _) => (0.0, 0.3 * charge(layer)),
            Self::PouringTemperature(_) => (15.0, 40.0),
            Self::Process(Process::RestBeforeCap | Process::CooledFor) => (0.0, 2.0 * 86_400.0),
            Self::Process(Process::Keep) => (86_400.0, 730.0 * 86_400.0),
            Self::Process(_) => (4.0, 50.0),
            Self::CookedMass(layer) => (0.3 * charge(layer), charge(layer)),
        }
    }

    /// How it turns: the step is what a bench can weigh or measure, and never finer than the scale that is declared.
    #[must_use]
    pub fn turns(self, piece: &Piece) -> Turn {
        let scale = piece.workshop.scale_division.map_or(0.0, Checked::base);
        let step = match self {
            Self::Casts | Self::CapCoats | Self::Temper(_) | Self::EmulsifierForm(..) | Self::Barrier(_) | Self::Sale => {
                return Turn::Whole;
            }
            Self::WallThickness | Self::CapThickness | Self::FillDepth(_) => 0.0001,
            Self::EmulsifierDose(..) => 0.0001,
            Self::DrainTime => 1.0,
            Self::Process(Process::RestBeforeCap | Process::CooledFor) => 1800.0,
            Self::Process(Process::Keep) => 86_400.0,
            Self::PouringTemperature(_) | Self::Process(_) => 0.5,
            Self::StirredInDose(..) | Self::CocoaButter(_) => 0.001,
            Self::LayerAmount(layer) => match piece.layers.get(layer).and_then(|layer| layer.amount) {
                Some(Amount::Volume(_)) => 1e-7,
                _ => 0.0001,
            },
            Self::Addition(_, Constituent::Xanthan) => scale.max(0.0001),
            Self::IngredientMass(layer, line) => {
                let line = recipe(piece, layer).and_then(|recipe| recipe.lines().get(line));
                let fine = line.is_some_and(|line| line.mass.base() < FINE_WEIGHING);
                scale.max(if fine { 0.0001 } else { 0.001 })
            }
            Self::Addition(..) | Self::CookedMass(_) => scale.max(0.001),
        };
        Turn::Continuous { step }
    }
}

fn recipe(piece: &Piece, layer: usize) -> Option<&Recipe> {
    piece.layers.get(layer)?.recipe.as_ref()
}

/// How far an ingredient may be turned: what only seasons by a quarter, a gum up to what swells, a minor ingredient to twice as much,
/// and a major one between a quarter and four times as much, until the recipe weighs twice as much. Beyond that it is another recipe.
fn ingredient_range(line: &RecipeLine, charge: f64) -> (f64, f64) {
    let mass = line.mass.base();
    if line.ingredient.composition.of_role(Role::Electrolyte) > 0.3 {
        (0.75 * mass, 1.25 * mass)
    } else if line.ingredient.is_gum() {
        (0.0, 0.03 * charge)
    } else if mass < 0.05 * charge {
        (0.0, 2.0 * mass)
    } else {
        (0.25 * mass, (4.0 * mass).min(mass + charge))
    }
}
