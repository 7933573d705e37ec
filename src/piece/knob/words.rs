//! What a knob is called, and its settings as a person would write them.

use super::super::{Amount, Piece};
use super::{ChocolateOf, Knob, Process};
use crate::units::{Choice, Measure, Unit};

impl Knob {
    /// A setting as a person would write it.
    #[must_use]
    pub fn measure(self, piece: &Piece, setting: f64) -> Measure {
        let unit = match self {
            Self::WallThickness | Self::FillDepth(_) | Self::CapThickness => Unit::Millimeter,
            Self::DrainTime => Unit::Second,
            Self::Process(Process::RestBeforeCap | Process::CooledFor) => Unit::Hour,
            Self::Process(Process::Keep) => Unit::Day,
            Self::PouringTemperature(_) | Self::Process(_) => Unit::Celsius,
            Self::EmulsifierDose(..) | Self::StirredInDose(..) | Self::CocoaButter(_) => Unit::Percent,
            Self::LayerAmount(layer) => match piece.layers.get(layer).and_then(|layer| layer.amount) {
                Some(Amount::Volume(_)) => Unit::Milliliter,
                _ => Unit::Gram,
            },
            Self::IngredientMass(..) | Self::Addition(..) | Self::CookedMass(_) => Unit::Gram,
            Self::Casts | Self::CapCoats | Self::Temper(_) | Self::EmulsifierForm(..) | Self::Barrier(_) | Self::Sale => Unit::One,
        };
        Measure::from_base(setting, unit)
    }

    /// What it is called on this piece.
    #[must_use]
    pub fn label(self, piece: &Piece) -> String {
        let layer_name = |layer: usize| piece.layers.get(layer).map_or("", |layer| layer.name.as_str());
        let emulsifier = |of: ChocolateOf, index: usize| {
            of.emulsifiers(piece).and_then(|emulsifiers| emulsifiers.get(index)).map_or("emulsifier", |emulsifier| emulsifier.kind.key())
        };
        match self {
            Self::WallThickness => "shell thickness".into(),
            Self::DrainTime => "time the shell drains".into(),
            Self::Casts => "number of casts".into(),
            Self::Temper(of) => format!("temper of the {}'s chocolate", of.key()),
            Self::EmulsifierDose(of, index) => format!("{} dose in the {}'s chocolate", emulsifier(of, index), of.key()),
            Self::EmulsifierForm(of, index) => format!("form of the {} in the {}'s chocolate", emulsifier(of, index), of.key()),
            Self::StirredInDose(of, index) => {
                let stirred_in = of.stirred_in(piece).and_then(|stirred_in| stirred_in.get(index));
                format!("{} stirred into the {}'s chocolate", stirred_in.map_or("", |stirred_in| &stirred_in.ingredient.title), of.key())
            }
            Self::CocoaButter(of) => format!("cocoa butter added to the {}'s chocolate", of.key()),
            Self::FillDepth(layer) => format!("depth below the rim to which {} is poured", layer_name(layer)),
            Self::LayerAmount(layer) => format!("amount of {} poured", layer_name(layer)),
            Self::IngredientMass(layer, line) => {
                let line = piece.layers.get(layer).and_then(|layer| layer.recipe.as_ref()?.lines().get(line));
                format!("{} in {}", line.map_or("", |line| line.ingredient.title.as_str()), layer_name(layer))
            }
            Self::Addition(layer, constituent) => format!("{} added to {}", constituent.words(), layer_name(layer)),
            Self::CookedMass(layer) => format!("mass that {} is cooked down to", layer_name(layer)),
            Self::PouringTemperature(layer) => format!("temperature {} is poured at", layer_name(layer)),
            Self::Process(process) => process.words().into(),
            Self::Sale => "way of sale".into(),
            Self::Barrier(layer) => format!("film on {}", layer_name(layer)),
            Self::CapThickness => "cap thickness".into(),
            Self::CapCoats => "number of coats of the cap".into(),
        }
    }
}

impl Process {
    /// The name in sentences.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::ChocolateTemperature => "temperature of the chocolate",
            Self::MouldTemperature => "temperature of the moulds",
            Self::EmulsifiedAt => "emulsifying temperature",
            Self::RestBeforeCap => "rest before capping",
            Self::CooledAt => "cooling temperature",
            Self::CooledFor => "cooling time",
            Self::StorageTemperature => "storage temperature",
            Self::Keep => "promised keeping time",
        }
    }
}
