//! Where a knob stands, and the piece with it turned.

use super::super::cooking::cooked;
use super::super::{Amount, Barrier, Piece, Sale, StirredIn, Temper};
use super::{ChocolateOf, Knob, Process};
use crate::matter::{Constituent, Emulsifier, EmulsifierForm, Ingredient, Recipe, RecipeLine, Role};
use crate::units::{Checked, Choice, Space};
use std::sync::Arc;

impl Knob {
    /// Where it stands, in the base unit, a choice by its place in the list; none where the piece has no such knob.
    #[must_use]
    pub fn get(self, piece: &Piece) -> Option<f64> {
        let shell = piece.shell.as_ref();
        let recipe = |layer: usize| piece.layers.get(layer)?.recipe.as_ref();
        match self {
            Self::WallThickness => Some(shell?.thickness?.base()),
            Self::DrainTime => Some(shell?.drained?.base()),
            Self::Casts => Some(f64::from(shell?.casts)),
            Self::Temper(of) => Some(place_of(of.temper(piece)?)),
            Self::EmulsifierDose(of, index) => Some(of.emulsifiers(piece)?.get(index)?.dose.base()),
            Self::EmulsifierForm(of, index) => Some(place_of(of.emulsifiers(piece)?.get(index)?.form)),
            Self::StirredInDose(of, index) => Some(of.stirred_in(piece)?.get(index)?.dose.base()),
            Self::CocoaButter(of) => {
                let pure = |stirred_in: &StirredIn| stirred_in.ingredient.composition.of(Constituent::CocoaButter) > 0.99;
                (!of.poured_with(piece)?.iter().any(pure)).then_some(0.0)
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
            Self::PouringTemperature(layer) => Some(piece.layers.get(layer)?.temperature?.base()),
            Self::Process(process) => process.get(piece),
            Self::Sale => (!piece.layers.is_empty()).then(|| place_of(piece.storage.sale())),
            Self::Barrier(layer) => Some(piece.layers.get(layer)?.barrier.map_or(0.0, |barrier| 1.0 + place_of(barrier))),
            Self::CapThickness => Some(piece.cap.as_ref()?.thickness?.base()),
            Self::CapCoats => Some(f64::from(piece.cap.as_ref()?.coats)),
        }
    }

    /// The piece with this knob turned; none where the setting makes no piece.
    #[must_use]
    pub fn set(self, piece: &Piece, to: f64) -> Option<Piece> {
        let mut turned = piece.clone();
        self.turn(&mut turned, to)?;
        Some(turned)
    }

    /// Turns it on the piece itself; none, and the piece as it was, where the setting makes no piece.
    pub fn turn(self, piece: &mut Piece, to: f64) -> Option<()> {
        match self {
            Self::WallThickness => piece.shell.as_mut()?.thickness = Some(checked(to)?),
            Self::DrainTime => piece.shell.as_mut()?.drained = Some(checked(to)?),
            Self::Casts => piece.shell.as_mut()?.casts = whole(to)?,
            Self::Temper(of) => *of.temper_mut(piece)? = Some(at_place(to)?),
            Self::EmulsifierDose(of, index) => of.emulsifiers_mut(piece)?.get_mut(index)?.dose = checked(to)?,
            Self::EmulsifierForm(of, index) => {
                let emulsifier = of.emulsifiers_mut(piece)?.get_mut(index)?;
                *emulsifier = emulsifier.in_form(at_place::<EmulsifierForm>(to)?)?;
            }
            Self::StirredInDose(of, index) => of.stirred_in_mut(piece)?.get_mut(index)?.dose = checked(to)?,
            Self::CocoaButter(of) => {
                let ingredient = Arc::new(Ingredient::pure(Constituent::CocoaButter));
                // What a cap has from the shell stays in it.
                let mut stirred_in = of.poured_with(piece)?.to_vec();
                stirred_in.push(StirredIn { ingredient, dose: checked(to)? });
                *of.stirred_in_mut(piece)? = stirred_in;
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
            Self::IngredientMass(layer, line) => remake(piece, layer, |recipe| recipe.set_mass(line, checked(to)?).ok())?,
            Self::Addition(layer, constituent) => {
                let line = RecipeLine { ingredient: Arc::new(Ingredient::pure(constituent)), mass: checked(to)? };
                remake(piece, layer, |recipe| {
                    *recipe = recipe.with_line(line).ok()?;
                    Some(())
                })?;
                if constituent.role() == Role::Gum {
                    // Whoever adds a gum on purpose can wet it first.
                    piece.layers.get_mut(layer)?.hydrated_first = Some(true);
                }
            }
            Self::CookedMass(layer) => {
                // Whoever weighs asks no thermometer.
                let at = piece.layers.get_mut(layer)?.cooked_at.take();
                if remake(piece, layer, |recipe| recipe.set_cooked_to(checked(to)?).ok()).is_none() {
                    piece.layers.get_mut(layer)?.cooked_at = at;
                    return None;
                }
            }
            Self::PouringTemperature(layer) => piece.layers.get_mut(layer)?.temperature = Some(checked(to)?),
            Self::Process(process) => process.set(piece, to)?,
            Self::Sale => piece.storage.sale = Some(at_place(to)?),
            Self::Barrier(layer) => {
                let barrier = if to < 0.5 { None } else { Some(at_place::<Barrier>(to - 1.0)?) };
                piece.layers.get_mut(layer)?.barrier = barrier;
            }
            Self::CapThickness => piece.cap.as_mut()?.thickness = Some(checked(to)?),
            Self::CapCoats => piece.cap.as_mut()?.coats = whole(to)?,
        }
        Some(())
    }

    /// Whether a setting depends on what was set before, so that it must be turned on the piece as it was described: what adds something, and
    /// the form of an emulsifier, which is dosed by what the other form held.
    #[must_use]
    pub fn builds_on(self) -> bool {
        matches!(self, Self::CocoaButter(_) | Self::Addition(..) | Self::EmulsifierForm(..))
    }

    /// The word that a setting of a choice stands for.
    #[must_use]
    pub fn word(self, setting: f64) -> Option<&'static str> {
        match self {
            Self::Temper(_) => at_place::<Temper>(setting).map(Choice::key),
            Self::EmulsifierForm(..) => at_place::<EmulsifierForm>(setting).map(Choice::key),
            Self::Sale => at_place::<Sale>(setting).map(Choice::key),
            Self::Barrier(_) if setting < 0.5 => Some("none"),
            Self::Barrier(_) => at_place::<Barrier>(setting - 1.0).map(Choice::key),
            _ => None,
        }
    }
}

impl Process {
    fn get(self, piece: &Piece) -> Option<f64> {
        let workshop = &piece.workshop;
        match self {
            Self::ChocolateTemperature => workshop.chocolate_temperature.map(Checked::base),
            Self::MouldTemperature => workshop.mould_temperature.map(Checked::base),
            Self::EmulsifiedAt => workshop.emulsified_at.map(Checked::base),
            Self::RestBeforeCap => workshop.rest_before_cap.map(Checked::base),
            Self::CooledAt => workshop.cooled_at.map(Checked::base),
            Self::CooledFor => workshop.cooled_for.map(Checked::base),
            Self::StorageTemperature => piece.storage.temperature.map(Checked::base),
            Self::Keep => piece.keep.map(Checked::base),
        }
    }

    fn set(self, piece: &mut Piece, to: f64) -> Option<()> {
        let workshop = &mut piece.workshop;
        match self {
            Self::ChocolateTemperature => workshop.chocolate_temperature = Some(checked(to)?),
            Self::MouldTemperature => workshop.mould_temperature = Some(checked(to)?),
            Self::EmulsifiedAt => workshop.emulsified_at = Some(checked(to)?),
            Self::RestBeforeCap => workshop.rest_before_cap = Some(checked(to)?),
            Self::CooledAt => workshop.cooled_at = Some(checked(to)?),
            Self::CooledFor => workshop.cooled_for = Some(checked(to)?),
            Self::StorageTemperature => piece.storage.temperature = Some(checked(to)?),
            Self::Keep => piece.keep = Some(checked(to)?),
        }
        Some(())
    }
}

/// What a shell and a cap have in common.
impl ChocolateOf {
    fn temper(self, piece: &Piece) -> Option<Temper> {
        match self {
            Self::Shell => piece.shell.as_ref()?.temper,
            Self::Cap => piece.cap.as_ref()?.temper,
        }
    }

    fn temper_mut(self, piece: &mut Piece) -> Option<&mut Option<Temper>> {
        match self {
            Self::Shell => piece.shell.as_mut().map(|shell| &mut shell.temper),
            Self::Cap => piece.cap.as_mut().map(|cap| &mut cap.temper),
        }
    }

    /// The emulsifiers added to the chocolate.
    pub(crate) fn emulsifiers(self, piece: &Piece) -> Option<&[Emulsifier]> {
        match self {
            Self::Shell => piece.shell.as_ref().map(|shell| shell.emulsifiers.as_slice()),
            Self::Cap => piece.cap.as_ref().map(|cap| cap.emulsifiers.as_slice()),
        }
    }

    fn emulsifiers_mut(self, piece: &mut Piece) -> Option<&mut [Emulsifier]> {
        match self {
            Self::Shell => piece.shell.as_mut().map(|shell| shell.emulsifiers.as_mut_slice()),
            Self::Cap => piece.cap.as_mut().map(|cap| cap.emulsifiers.as_mut_slice()),
        }
    }

    /// What is stirred into the chocolate.
    pub(crate) fn stirred_in(self, piece: &Piece) -> Option<&[StirredIn]> {
        match self {
            Self::Shell => piece.shell.as_ref().map(|shell| shell.stirred_in.as_slice()),
            Self::Cap => piece.cap.as_ref().map(|cap| cap.stirred_in.as_slice()),
        }
    }

    /// What the chocolate is poured with: a cap of the shell's chocolate that names nothing has what is in the shell.
    fn poured_with(self, piece: &Piece) -> Option<&[StirredIn]> {
        let of_shell = self == Self::Cap && piece.cap.as_ref().is_some_and(|cap| cap.chocolate.is_none() && cap.stirred_in.is_empty());
        let shell = || Self::Shell.stirred_in(piece);
        if of_shell { shell().or(self.stirred_in(piece)) } else { self.stirred_in(piece) }
    }

    fn stirred_in_mut(self, piece: &mut Piece) -> Option<&mut Vec<StirredIn>> {
        match self {
            Self::Shell => piece.shell.as_mut().map(|shell| &mut shell.stirred_in),
            Self::Cap => piece.cap.as_mut().map(|cap| &mut cap.stirred_in),
        }
    }
}

/// Changes a layer's recipe; one that is cooked to a temperature is cooked to it again. A water activity that was measured stays that of the recipe before.
fn remake(piece: &mut Piece, layer: usize, change: impl FnOnce(&mut Recipe) -> Option<()>) -> Option<()> {
    let water_boils_at = piece.workshop.water_boils_at;
    let layer = piece.layers.get_mut(layer)?;
    let recipe = layer.recipe.as_mut()?;
    let measured = layer.measured.water_activity.is_some() && layer.measured_recipe.is_none();
    let before = measured.then(|| recipe.clone());
    if let Some(at) = layer.cooked_at {
        let mut changed = Recipe::new(recipe.lines().to_vec(), None).ok()?;
        change(&mut changed)?;
        *recipe = cooked(&changed, at, water_boils_at).ok()?;
    } else {
        change(recipe)?;
    }
    if measured {
        layer.measured_recipe = before;
    }
    Some(())
}

fn checked<T: Checked>(value: f64) -> Option<T> {
    T::from_base(value).ok()
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
