//! Every number and choice a person can turn on a piece: one vocabulary for remedies, laws and sweeps.

use super::{Amount, Barrier, Piece, Temper, Wall};
use crate::matter::{Constituent, EmulsifierForm, Ingredient, Recipe, RecipeLine, Role};
use crate::units::{Checked, Choice, Measure, Space, Unit, choices};
use std::sync::Arc;

choices! {
    /// The kinds of knobs.
    KnobKind: "a knob" {
        /// Thickness of the shell's wall.
        WallThickness "wall-thickness",
        /// How often the shell is cast.
        Casts "casts",
        /// Whether the chocolate is tempered.
        Temper "temper",
        /// Dose of an emulsifier.
        EmulsifierDose "emulsifier-dose",
        /// Form of an emulsifier.
        EmulsifierForm "emulsifier-form",
        /// Dose of what is stirred into the chocolate.
        StirredInDose "stirred-in-dose",
        /// Cocoa butter added to the chocolate.
        CocoaButter "cocoa-butter",
        /// Depth the filling is poured to.
        FillDepth "fill-depth",
        /// Mass or volume of a layer.
        LayerAmount "layer-amount",
        /// Mass of one ingredient of a recipe.
        IngredientMass "ingredient-mass",
        /// A gum added to a recipe.
        Thickener "thickener",
        /// A sugar or polyol added to a recipe.
        Sweetener "sweetener",
        /// What a recipe is boiled down to.
        CookedMass "cooked-mass",
        /// A film on a layer.
        Barrier "barrier",
    }
}

/// One knob of a particular piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Knob {
    /// Thickness of the shell's wall.
    WallThickness,
    /// How often the shell is cast.
    Casts,
    /// Whether the shell's chocolate is tempered.
    Temper,
    /// Dose of an emulsifier added to the shell's chocolate.
    EmulsifierDose(usize),
    /// Form of an emulsifier added to the shell's chocolate.
    EmulsifierForm(usize),
    /// Dose of something stirred into the shell's chocolate.
    StirredInDose(usize),
    /// Cocoa butter added to the shell's chocolate.
    CocoaButter,
    /// Depth a layer is poured to.
    FillDepth(usize),
    /// Mass or volume of a layer.
    LayerAmount(usize),
    /// Mass of a line of a layer's recipe.
    IngredientMass(usize, usize),
    /// Something added to a layer's recipe that is not in it yet.
    Addition(usize, Constituent),
    /// What a layer's recipe is boiled down to.
    CookedMass(usize),
    /// A film on a layer.
    Barrier(usize),
}

/// What can be added to a recipe: a gum, and what binds water.
const ADDITIONS: [(Constituent, KnobKind); 3] = [
    (Constituent::Xanthan, KnobKind::Thickener),
    (Constituent::Glucose, KnobKind::Sweetener),
    (Constituent::Sorbitol, KnobKind::Sweetener),
];

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

impl Knob {
    /// Every knob of a piece.
    pub fn all(piece: &Piece) -> impl Iterator<Item = Self> + '_ {
        let shell = piece.shell.iter().flat_map(|shell| {
            let fixed = [Self::WallThickness, Self::Casts, Self::Temper, Self::CocoaButter];
            let emulsifiers = (0..shell.emulsifiers.len()).flat_map(|index| [Self::EmulsifierDose(index), Self::EmulsifierForm(index)]);
            fixed.into_iter().chain(emulsifiers).chain((0..shell.stirred_in.len()).map(Self::StirredInDose))
        });
        let layers = piece.layers.iter().enumerate().flat_map(|(layer, described)| {
            let lines = described.recipe.as_ref().map_or(0, |recipe| recipe.lines().len());
            [Self::FillDepth(layer), Self::LayerAmount(layer), Self::CookedMass(layer), Self::Barrier(layer)]
                .into_iter()
                .chain((0..lines).map(move |line| Self::IngredientMass(layer, line)))
                .chain(ADDITIONS.into_iter().map(move |(constituent, _)| Self::Addition(layer, constituent)))
        });
        shell.chain(layers).filter(|knob| knob.get(piece).is_some())
    }

    /// The kind of knob.
    #[must_use]
    pub fn kind(self) -> KnobKind {
        match self {
            Self::WallThickness => KnobKind::WallThickness,
            Self::Casts => KnobKind::Casts,
            Self::Temper => KnobKind::Temper,
            Self::EmulsifierDose(_) => KnobKind::EmulsifierDose,
            Self::EmulsifierForm(_) => KnobKind::EmulsifierForm,
            Self::StirredInDose(_) => KnobKind::StirredInDose,
            Self::CocoaButter => KnobKind::CocoaButter,
            Self::FillDepth(_) => KnobKind::FillDepth,
            Self::LayerAmount(_) => KnobKind::LayerAmount,
            Self::IngredientMass(..) => KnobKind::IngredientMass,
            Self::Addition(_, Constituent::Xanthan) => KnobKind::Thickener,
            Self::Addition(..) => KnobKind::Sweetener,
            Self::CookedMass(_) => KnobKind::CookedMass,
            Self::Barrier(_) => KnobKind::Barrier,
        }
    }

    /// Where it stands, in the base unit; none where the piece has no such knob.
    #[must_use]
    pub fn get(self, piece: &Piece) -> Option<f64> {
        let shell = piece.shell.as_ref();
        let recipe = |layer: usize| piece.layers.get(layer)?.recipe.as_ref();
        match self {
            Self::WallThickness => match shell?.wall? {
                Wall::Thickness(thickness) => Some(thickness.base()),
                Wall::Drained(_) => None,
            },
            Self::Casts => Some(f64::from(shell?.casts)),
            Self::Temper => Some(place_of(shell?.temper?)),
            Self::EmulsifierDose(index) => Some(shell?.emulsifiers.get(index)?.dose.base()),
            Self::EmulsifierForm(index) => Some(place_of(shell?.emulsifiers.get(index)?.form)),
            Self::StirredInDose(index) => Some(shell?.stirred_in.get(index)?.dose.base()),
            Self::CocoaButter => {
                let pure = |stirred_in: &super::StirredIn| stirred_in.ingredient.composition.of(Constituent::CocoaButter) > 0.99;
                (!shell?.stirred_in.iter().any(pure)).then_some(0.0)
            }
            Self::FillDepth(layer) => match piece.layers.get(layer)?.amount? {
                Amount::FillTo(depth) => Some(depth.base()),
                _ => None,
            },
            Self::LayerAmount(layer) => match piece.layers.get(layer)?.amount? {
                Amount::Mass(mass) => Some(mass.base()),
                Amount::Volume(volume) => Some(volume.base()),
                Amount::FillTo(_) => None,
            },
            Self::IngredientMass(layer, line) => Some(recipe(layer)?.lines().get(line)?.mass.base()),
            Self::Addition(layer, constituent) => {
                let there = |line: &RecipeLine| line.ingredient.composition.of(constituent) > 0.5;
                (!recipe(layer)?.lines().iter().any(there)).then_some(0.0)
            }
            Self::CookedMass(layer) => recipe(layer)?.cooked_to().map(Checked::base),
            Self::Barrier(layer) => Some(piece.layers.get(layer)?.barrier.map_or(0.0, |barrier| 1.0 + place_of(barrier))),
        }
    }

    /// The piece with this knob turned; none where the setting makes no piece.
    #[must_use]
    pub fn set(self, piece: &Piece, to: f64) -> Option<Piece> {
        let mut turned = piece.clone();
        self.turn(&mut turned, to)?;
        Some(turned)
    }

    fn turn(self, piece: &mut Piece, to: f64) -> Option<()> {
        match self {
            Self::WallThickness => piece.shell.as_mut()?.wall = Some(Wall::Thickness(checked(to)?)),
            Self::Casts => piece.shell.as_mut()?.casts = whole(to)?,
            Self::Temper => piece.shell.as_mut()?.temper = Some(at_place::<Temper>(to)?),
            Self::EmulsifierDose(index) => piece.shell.as_mut()?.emulsifiers.get_mut(index)?.dose = checked(to)?,
            Self::EmulsifierForm(index) => {
                let emulsifier = piece.shell.as_mut()?.emulsifiers.get_mut(index)?;
                *emulsifier = emulsifier.in_form(at_place::<EmulsifierForm>(to)?)?;
            }
            Self::StirredInDose(index) => piece.shell.as_mut()?.stirred_in.get_mut(index)?.dose = checked(to)?,
            Self::CocoaButter => {
                let ingredient = Arc::new(Ingredient::pure(Constituent::CocoaButter));
                piece.shell.as_mut()?.stirred_in.push(super::StirredIn { ingredient, dose: checked(to)? });
            }
            Self::FillDepth(layer) => piece.layers.get_mut(layer)?.amount = Some(Amount::FillTo(checked(to)?)),
            Self::LayerAmount(layer) => {
                let amount = piece.layers.get_mut(layer)?.amount.as_mut()?;
                *amount = match amount {
                    Amount::Mass(_) => Amount::Mass(checked(to)?),
                    Amount::Volume(_) => Amount::Volume(checked::<Space>(to)?),
                    Amount::FillTo(_) => return None,
                };
            }
            Self::IngredientMass(layer, line) => remake(piece, layer, |recipe| recipe.with_mass(line, checked(to)?).ok())?,
            Self::Addition(layer, constituent) => {
                remake(piece, layer, |recipe| {
                    let ingredient = Arc::new(Ingredient::pure(constituent));
                    recipe.with_line(RecipeLine { ingredient, mass: checked(to)? }).ok()
                })?;
                if constituent.role() == Role::Gum {
                    // Whoever adds a gum on purpose can wet it first.
                    piece.layers.get_mut(layer)?.hydrated_first = Some(true);
                }
            }
            Self::CookedMass(layer) => remake(piece, layer, |recipe| recipe.with_cooked_to(checked(to)?).ok())?,
            Self::Barrier(layer) => {
                let barrier = if to < 0.5 { None } else { Some(at_place::<Barrier>(to - 1.0)?) };
                piece.layers.get_mut(layer)?.barrier = barrier;
            }
        }
        Some(())
    }

    /// The range it may be searched in on this piece, in the base unit.
    #[must_use]
    pub fn range(self, piece: &Piece) -> (f64, f64) {
        let recipe = |layer: usize| piece.layers.get(layer).and_then(|layer| layer.recipe.as_ref());
        let charge = |layer: usize| recipe(layer).map_or(0.0, Recipe::charge);
        match self {
            Self::WallThickness => (0.0005, 0.005),
            Self::Casts => (1.0, 3.0),
            Self::Temper => (0.0, 1.0),
            Self::EmulsifierForm(_) => (0.0, 2.0),
            Self::EmulsifierDose(_) => (0.0, 0.02),
            Self::StirredInDose(_) => (0.0, 0.2),
            Self::CocoaButter => (0.0, 0.15),
            Self::FillDepth(_) => (0.0, 0.005),
            Self::LayerAmount(_) => (0.0, 4.0 * self.get(piece).unwrap_or(0.0)),
            Self::IngredientMass(layer, line) => {
                let line = recipe(layer).and_then(|recipe| recipe.lines().get(line));
                line.map_or((0.0, 0.0), |line| ingredient_range(line, charge(layer)))
            }
            Self::Addition(layer, Constituent::Xanthan) => (0.0, 0.03 * charge(layer)),
            Self::Addition(layer, _) => (0.0, charge(layer)),
            Self::CookedMass(layer) => (0.3 * charge(layer), charge(layer)),
            Self::Barrier(_) => (0.0, 2.0),
        }
    }

    /// How it turns: the step is what a bench can weigh or measure.
    #[must_use]
    pub fn turns(self, piece: &Piece) -> Turn {
        let step = match self {
            Self::Casts | Self::Temper | Self::EmulsifierForm(_) | Self::Barrier(_) => return Turn::Whole,
            Self::WallThickness | Self::FillDepth(_) => 0.0001,
            Self::EmulsifierDose(_) => 0.0001,
            Self::StirredInDose(_) | Self::CocoaButter => 0.001,
            Self::LayerAmount(layer) => match piece.layers.get(layer).and_then(|layer| layer.amount) {
                Some(Amount::Volume(_)) => 1e-7,
                _ => 0.0001,
            },
            Self::Addition(_, Constituent::Xanthan) => 0.0001,
            Self::IngredientMass(layer, line) => {
                let line = piece.layers.get(layer).and_then(|layer| layer.recipe.as_ref()?.lines().get(line));
                if line.is_some_and(|line| line.ingredient.is_gum()) { 0.0001 } else { 0.001 }
            }
            Self::Addition(..) | Self::CookedMass(_) => 0.001,
        };
        Turn::Continuous { step }
    }

    /// A setting as a person would write it.
    #[must_use]
    pub fn measure(self, piece: &Piece, setting: f64) -> Measure {
        let unit = match self {
            Self::WallThickness | Self::FillDepth(_) => Unit::Millimeter,
            Self::EmulsifierDose(_) | Self::StirredInDose(_) | Self::CocoaButter => Unit::Percent,
            Self::LayerAmount(layer) => match piece.layers.get(layer).and_then(|layer| layer.amount) {
                Some(Amount::Volume(_)) => Unit::Milliliter,
                _ => Unit::Gram,
            },
            Self::IngredientMass(..) | Self::Addition(..) | Self::CookedMass(_) => Unit::Gram,
            Self::Casts | Self::Temper | Self::EmulsifierForm(_) | Self::Barrier(_) => Unit::One,
        };
        Measure::from_base(setting, unit)
    }

    /// The word that a setting of a choice stands for.
    #[must_use]
    pub fn word(self, setting: f64) -> Option<&'static str> {
        match self {
            Self::Temper => at_place::<Temper>(setting).map(Choice::key),
            Self::EmulsifierForm(_) => at_place::<EmulsifierForm>(setting).map(Choice::key),
            Self::Barrier(_) if setting < 0.5 => Some("none"),
            Self::Barrier(_) => at_place::<Barrier>(setting - 1.0).map(Choice::key),
            _ => None,
        }
    }

    /// What it is called on this piece.
    #[must_use]
    pub fn label(self, piece: &Piece) -> String {
        let layer_name = |layer: usize| piece.layers.get(layer).map_or("", |layer| layer.name.as_str());
        let emulsifier = |index: usize| {
            let emulsifier = piece.shell.as_ref().and_then(|shell| shell.emulsifiers.get(index));
            emulsifier.map_or("emulsifier", |emulsifier| emulsifier.kind.key())
        };
        match self {
            Self::WallThickness => "shell thickness".into(),
            Self::Casts => "number of casts".into(),
            Self::Temper => "temper of the shell's chocolate".into(),
            Self::EmulsifierDose(index) => format!("{} dose in the shell's chocolate", emulsifier(index)),
            Self::EmulsifierForm(index) => format!("form of the {} in the shell's chocolate", emulsifier(index)),
            Self::StirredInDose(index) => {
                let stirred_in = piece.shell.as_ref().and_then(|shell| shell.stirred_in.get(index));
                format!("{} stirred into the shell's chocolate", stirred_in.map_or("", |stirred_in| stirred_in.ingredient.title.as_str()))
            }
            Self::CocoaButter => "cocoa butter added to the shell's chocolate".into(),
            Self::FillDepth(layer) => format!("depth below the rim to which {} is poured", layer_name(layer)),
            Self::LayerAmount(layer) => format!("amount of {} poured", layer_name(layer)),
            Self::IngredientMass(layer, line) => {
                let line = piece.layers.get(layer).and_then(|layer| layer.recipe.as_ref()?.lines().get(line));
                format!("{} in {}", line.map_or("", |line| line.ingredient.title.as_str()), layer_name(layer))
            }
            Self::Addition(layer, constituent) => format!("{} added to {}", constituent.words(), layer_name(layer)),
            Self::CookedMass(layer) => format!("mass that {} is cooked down to", layer_name(layer)),
            Self::Barrier(layer) => format!("film on {}", layer_name(layer)),
        }
    }
}

/// How far an ingredient may be turned: what only seasons by a quarter, a gum up to what swells, a minor ingredient to twice as much,
/// and a major one until the recipe weighs twice as much.
fn ingredient_range(line: &RecipeLine, charge: f64) -> (f64, f64) {
    let mass = line.mass.base();
    if line.ingredient.composition.of_role(Role::Electrolyte) > 0.3 {
        (0.75 * mass, 1.25 * mass)
    } else if line.ingredient.is_gum() {
        (0.0, 0.03 * charge)
    } else if mass < 0.05 * charge {
        (0.0, 2.0 * mass)
    } else {
        (0.0, mass + charge)
    }
}

fn checked<T: Checked>(value: f64) -> Option<T> {
    T::from_base(value).ok()
}

/// Puts another recipe in the place of a layer's.
fn remake(piece: &mut Piece, layer: usize, make: impl FnOnce(&Recipe) -> Option<Recipe>) -> Option<()> {
    let recipe = piece.layers.get_mut(layer)?.recipe.as_mut()?;
    *recipe = make(recipe)?;
    Some(())
}

/// A setting as a whole number.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the range is checked first")]
fn whole(setting: f64) -> Option<u32> {
    (0.0..=1000.0).contains(&setting).then(|| setting.round() as u32)
}

fn place_of<T: Choice>(case: T) -> f64 {
    T::ALL.iter().take_while(|other| **other != case).map(|_| 1.0).sum()
}

fn at_place<T: Choice>(setting: f64) -> Option<T> {
    T::ALL.get(usize::try_from(whole(setting)?).ok()?).copied()
}
