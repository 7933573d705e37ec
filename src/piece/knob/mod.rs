//! Every number and choice a person can turn on a piece: one vocabulary for remedies, laws and sweeps.

mod range;
mod setting;
mod words;

pub use range::Turn;

use super::Piece;
use crate::matter::Constituent;
use crate::units::{Choice, choices};

choices! {
    /// The kinds of knobs.
    KnobKind: "a knob" {
        /// Thickness of the shell's wall.
        WallThickness "wall-thickness",
        /// How long the shell drains.
        DrainTime "drain-time",
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
        /// Temperature a layer is poured at.
        PouringTemperature "pouring-temperature",
        /// A temperature or a time of the workshop or the store.
        Process "process",
        /// How the piece is sold.
        Sale "sale",
        /// A film on a layer.
        Barrier "barrier",
        /// Thickness wanted of the cap.
        CapThickness "cap-thickness",
        /// How many coats the cap is poured in.
        CapCoats "cap-coats",
    }
    /// A temperature or a time of the workshop or the store.
    Process: "a step of the work" {
        /// Temperature of the chocolate at casting and capping.
        ChocolateTemperature "chocolate_temperature",
        /// Temperature of the moulds at casting.
        MouldTemperature "mould_temperature",
        /// Temperature at which a ganache is emulsified.
        EmulsifiedAt "emulsified_at",
        /// Rest of filled shells before they are capped.
        RestBeforeCap "rest_before_cap",
        /// Temperature at which capped pieces are cooled.
        CooledAt "cooled_at",
        /// How long capped pieces are cooled.
        CooledFor "cooled_for",
        /// Temperature of the store.
        StorageTemperature "temperature",
        /// How long the piece is promised to keep.
        Keep "keep",
    }
    /// Whose chocolate is meant.
    ChocolateOf: "a part made of chocolate" {
        /// The shell's.
        Shell "shell",
        /// The cap's own.
        Cap "cap",
    }
}

/// One knob of a particular piece. Layers and recipe lines are counted from zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Knob {
    /// Thickness of the shell's wall.
    WallThickness,
    /// How long the shell drains at each cast.
    DrainTime,
    /// How often the shell is cast.
    Casts,
    /// Whether the chocolate is tempered.
    Temper(ChocolateOf),
    /// Dose of an emulsifier added to the chocolate.
    EmulsifierDose(ChocolateOf, usize),
    /// Form of an emulsifier added to the chocolate. Another form is dosed by active matter, never gram for gram.
    EmulsifierForm(ChocolateOf, usize),
    /// Dose of something stirred into the chocolate.
    StirredInDose(ChocolateOf, usize),
    /// Cocoa butter added to the chocolate.
    CocoaButter(ChocolateOf),
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
    /// Temperature a layer is poured at.
    PouringTemperature(usize),
    /// A temperature or a time of the workshop or the store.
    Process(Process),
    /// How the piece is sold.
    Sale,
    /// A film on a layer.
    Barrier(usize),
    /// Thickness wanted of the cap.
    CapThickness,
    /// How many coats the cap is poured in.
    CapCoats,
}

/// What can be added to a recipe: a gum, and what binds water.
const ADDITIONS: [Constituent; 3] = [Constituent::Xanthan, Constituent::Glucose, Constituent::Sorbitol];

impl Knob {
    /// Every knob that a piece has.
    pub fn all(piece: &Piece) -> impl Iterator<Item = Self> + '_ {
        let chocolates = [ChocolateOf::Shell, ChocolateOf::Cap].into_iter().flat_map(move |of| {
            let emulsifiers = of.emulsifiers(piece).map_or(0, |emulsifiers| emulsifiers.len());
            let stirred_in = of.stirred_in(piece).map_or(0, |stirred_in| stirred_in.len());
            [Self::Temper(of), Self::CocoaButter(of)]
                .into_iter()
                .chain((0..emulsifiers).flat_map(move |index| [Self::EmulsifierDose(of, index), Self::EmulsifierForm(of, index)]))
                .chain((0..stirred_in).map(move |index| Self::StirredInDose(of, index)))
        });
        let layers = piece.layers.iter().enumerate().flat_map(|(layer, described)| {
            let lines = described.recipe.as_ref().map_or(0, |recipe| recipe.lines().len());
            [
                Self::FillDepth(layer),
                Self::LayerAmount(layer),
                Self::CookedMass(layer),
                Self::PouringTemperature(layer),
                Self::Barrier(layer),
            ]
            .into_iter()
            .chain((0..lines).map(move |line| Self::IngredientMass(layer, line)))
            .chain(ADDITIONS.into_iter().map(move |constituent| Self::Addition(layer, constituent)))
        });
        let fixed = [Self::WallThickness, Self::DrainTime, Self::Casts, Self::CapThickness, Self::CapCoats, Self::Sale];
        let process = Process::ALL.iter().copied().map(Self::Process);
        fixed.into_iter().chain(chocolates).chain(layers).chain(process).filter(|knob| knob.get(piece).is_some())
    }

    /// The kind of knob.
    #[must_use]
    pub fn kind(self) -> KnobKind {
        match self {
            Self::WallThickness => KnobKind::WallThickness,
            Self::DrainTime => KnobKind::DrainTime,
            Self::Casts => KnobKind::Casts,
            Self::Temper(_) => KnobKind::Temper,
            Self::EmulsifierDose(..) => KnobKind::EmulsifierDose,
            Self::EmulsifierForm(..) => KnobKind::EmulsifierForm,
            Self::StirredInDose(..) => KnobKind::StirredInDose,
            Self::CocoaButter(_) => KnobKind::CocoaButter,
            Self::FillDepth(_) => KnobKind::FillDepth,
            Self::LayerAmount(_) => KnobKind::LayerAmount,
            Self::IngredientMass(..) => KnobKind::IngredientMass,
            Self::Addition(_, Constituent::Xanthan) => KnobKind::Thickener,
            Self::Addition(..) => KnobKind::Sweetener,
            Self::CookedMass(_) => KnobKind::CookedMass,
            Self::PouringTemperature(_) => KnobKind::PouringTemperature,
            Self::Process(_) => KnobKind::Process,
            Self::Sale => KnobKind::Sale,
            Self::Barrier(_) => KnobKind::Barrier,
            Self::CapThickness => KnobKind::CapThickness,
            Self::CapCoats => KnobKind::CapCoats,
        }
    }
}
