//! The additives that limits are set for, sums of them, and how much of each there is.

use crate::matter::EmulsifierKind;
use crate::units::{Choice, choice_sets, choices};

choices! {
    /// An additive that some row of law names, by its E or INS number.
    Additive: "an additive" {
        /// Titanium dioxide.
        E171 "E 171",
        /// Sorbic acid.
        E200 "E 200",
        /// Potassium sorbate.
        E202 "E 202",
        /// Calcium sorbate.
        E203 "E 203",
        /// Lactic acid.
        E270 "E 270",
        /// Malic acid.
        E296 "E 296",
        /// Lecithins.
        E322 "E 322",
        /// Citric acid.
        E330 "E 330",
        /// Tartaric acid.
        E334 "E 334",
        /// Agar.
        E406 "E 406",
        /// Carrageenan.
        E407 "E 407",
        /// Locust bean gum.
        E410 "E 410",
        /// Guar gum.
        E412 "E 412",
        /// Xanthan gum.
        E415 "E 415",
        /// Sorbitols.
        E420 "E 420",
        /// Mannitol.
        E421 "E 421",
        /// Glycerol.
        E422 "E 422",
        /// Polysorbate 20.
        E432 "E 432",
        /// Polysorbate 80.
        E433 "E 433",
        /// Polysorbate 60.
        E435 "E 435",
        /// Polysorbate 65.
        E436 "E 436",
        /// Pectins.
        E440 "E 440",
        /// Ammonium phosphatides.
        E442 "E 442",
        /// Mono- and diglycerides.
        E471 "E 471",
        /// Polyglycerol polyricinoleate.
        E476 "E 476",
        /// Sorbitan monostearate.
        E491 "E 491",
        /// Sorbitan tristearate.
        E492 "E 492",
        /// Sorbitan monolaurate.
        E493 "E 493",
        /// Sorbitan monooleate.
        E494 "E 494",
        /// Sorbitan monopalmitate.
        E495 "E 495",
        /// Carnauba wax.
        E903 "E 903",
        /// Isomalt.
        E953 "E 953",
        /// Maltitols.
        E965 "E 965",
        /// Lactitol.
        E966 "E 966",
        /// Xylitol.
        E967 "E 967",
    }
}

impl Additive {
    /// The additive that an emulsifier of chocolate is.
    #[must_use]
    pub const fn of_emulsifier(kind: EmulsifierKind) -> Self {
        match kind {
            EmulsifierKind::Lecithin => Self::E322,
            EmulsifierKind::Pgpr => Self::E476,
            EmulsifierKind::AmmoniumPhosphatides => Self::E442,
            EmulsifierKind::SorbitanTristearate => Self::E492,
        }
    }

    /// How much free acid a part of it stands for: molar masses of sorbic acid 112.13, its potassium salt 150.22, its calcium salt 262.32.
    const fn as_acid(self) -> f64 {
        match self {
            Self::E202 => 112.13 / 150.22,
            Self::E203 => 2.0 * 112.13 / 262.32,
            _ => 1.0,
        }
    }
}

choice_sets! {
    /// A set of additives whose amounts are added up: its exact members, no more.
    AdditiveSet(u64) of Additive;
}

/// How much of each additive a part holds, as mass fractions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AdditiveAmounts {
    amounts: [f64; Additive::ALL.len()],
    /// Those of which there is some.
    present: AdditiveSet,
}

impl AdditiveAmounts {
    /// None of any.
    pub const NONE: Self = Self { amounts: [0.0; Additive::ALL.len()], present: AdditiveSet::EMPTY };

    /// Makes it [`Self::NONE`], as far as it is not.
    pub(crate) fn clear(&mut self) {
        for additive in self.present.iter() {
            if let Some(amount) = self.amounts.get_mut(additive as usize) {
                *amount = 0.0;
            }
        }
        self.present = AdditiveSet::EMPTY;
    }

    /// Adds a mass fraction of one.
    pub fn add(&mut self, additive: Additive, fraction: f64) {
        if let Some(amount) = self.amounts.get_mut(additive as usize).filter(|_| fraction > 0.0) {
            *amount += fraction;
            self.present = self.present.with(additive);
        }
    }

    /// The sum of a set, as it is or as the free acid.
    #[must_use]
    pub fn sum(&self, set: AdditiveSet, as_acid: bool) -> f64 {
        let amount = |additive: Additive| self.amounts.get(additive as usize).copied().unwrap_or_default();
        let present = set.intersection(self.present).iter();
        present.map(|additive| amount(additive) * if as_acid { additive.as_acid() } else { 1.0 }).sum()
    }

    /// Those of which there is some.
    #[must_use]
    pub const fn present(&self) -> AdditiveSet {
        self.present
    }
}
