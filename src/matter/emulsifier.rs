//! Emulsifiers of chocolate: kind, form, plant, and how much of a dose is active.

use super::{Allergen, AllergenSet, Constituent};
use crate::units::{Checked, MassFraction, choices};

choices! {
    /// Which emulsifier.
    EmulsifierKind: "an emulsifier" {
        /// Lecithin, E 322.
        Lecithin "lecithin",
        /// Polyglycerol polyricinoleate, E 476.
        Pgpr "pgpr",
        /// Ammonium phosphatides, E 442.
        AmmoniumPhosphatides "ammonium-phosphatides",
        /// Sorbitan tristearate, E 492.
        SorbitanTristearate "sorbitan-tristearate",
    }
    /// The form it is sold in. Forms are not exchangeable gram for gram.
    EmulsifierForm: "a form of emulsifier" {
        /// Oily fluid, disperses in fat.
        Fluid "fluid",
        /// De-oiled powder or granules, made for the water phase.
        Powder "powder",
        /// Dispersed in water or glycerol for water-based foods.
        WaterPhase "water-phase",
    }
    /// The plant it is made from.
    EmulsifierSource: "a plant" {
        /// Soybean.
        Soy "soy",
        /// Sunflower.
        Sunflower "sunflower",
        /// Rapeseed.
        Rapeseed "rapeseed",
        /// Castor bean, as PGPR.
        Castor "castor",
    }
}

/// A dose of an emulsifier in chocolate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Emulsifier {
    /// Which.
    pub kind: EmulsifierKind,
    /// In which form.
    pub form: EmulsifierForm,
    /// From which plant, if known.
    pub source: Option<EmulsifierSource>,
    /// Of the chocolate's weight.
    pub dose: MassFraction,
    /// Acetone-insoluble matter of a lecithin as its maker states it; [`Emulsifier::active`] assumes the usual where it is not stated.
    pub acetone_insoluble: Option<MassFraction>,
}

impl Emulsifier {
    /// Acetone-insoluble matter of fluid lecithin: trade specifications give 60 to 65 %, at least 62 %.
    pub const FLUID_ACTIVE: f64 = 0.62;
    /// Acetone-insoluble matter of de-oiled lecithin: trade specifications give at least 95 % (sunflower) or 97 % (soy).
    pub const POWDER_ACTIVE: f64 = 0.97;

    /// As much active matter in another form; none where that would be more than the chocolate. Forms are never exchanged gram for
    /// gram: the other form has another share of active matter and another carrier. A stated share holds for the old form only.
    #[must_use]
    pub fn in_form(&self, form: EmulsifierForm) -> Option<Self> {
        if form == self.form {
            return Some(*self);
        }
        let other = Self { form, acetone_insoluble: None, ..*self };
        let dose = MassFraction::from_base(self.dose.base() * self.active() / other.active()).ok()?;
        Some(Self { dose, ..other })
    }

    /// The share of the dose that is active matter.
    #[must_use]
    pub fn active(&self) -> f64 {
        match (self.kind, self.acetone_insoluble, self.form) {
            (EmulsifierKind::Lecithin, Some(stated), _) => stated.base(),
            (EmulsifierKind::Lecithin, None, EmulsifierForm::Powder) => Self::POWDER_ACTIVE,
            (EmulsifierKind::Lecithin, None, _) => Self::FLUID_ACTIVE,
            _ => 1.0,
        }
    }

    /// What the dose adds to a composition, as fractions of the chocolate's weight. What is not active in a lecithin is the oil of its
    /// plant, or the water it is dispersed in.
    pub fn constituents(&self) -> [(Constituent, f64); 2] {
        let (matter, carrier) = match (self.kind, self.form) {
            (EmulsifierKind::Lecithin, EmulsifierForm::WaterPhase) => (Constituent::Phospholipid, Constituent::Water),
            (EmulsifierKind::Lecithin, _) => (Constituent::Phospholipid, Constituent::LiquidOil),
            (EmulsifierKind::Pgpr, _) => (Constituent::Pgpr, Constituent::LiquidOil),
            // They are no lecithin, and must not be counted towards its dose.
            (EmulsifierKind::AmmoniumPhosphatides | EmulsifierKind::SorbitanTristearate, _) => (Constituent::Inert, Constituent::LiquidOil),
        };
        let active = self.dose.base() * self.active();
        [(matter, active), (carrier, self.dose.base() - active)]
    }
}

impl EmulsifierKind {
    /// The name on a label.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Lecithin => "lecithin",
            Self::Pgpr => "polyglycerol polyricinoleate",
            Self::AmmoniumPhosphatides => "ammonium phosphatides",
            Self::SorbitanTristearate => "sorbitan tristearate",
        }
    }

    /// The number of the additive.
    #[must_use]
    pub const fn number(self) -> &'static str {
        match self {
            Self::Lecithin => "E 322",
            Self::Pgpr => "E 476",
            Self::AmmoniumPhosphatides => "E 442",
            Self::SorbitanTristearate => "E 492",
        }
    }
}

impl EmulsifierSource {
    /// The allergens it brings.
    #[must_use]
    pub const fn allergens(self) -> AllergenSet {
        match self {
            Self::Soy => AllergenSet::of(&[Allergen::Soy]),
            Self::Sunflower | Self::Rapeseed | Self::Castor => AllergenSet::EMPTY,
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn another_form_is_weighed_by_active_matter() {
        let fluid = Emulsifier {
            kind: EmulsifierKind::Lecithin,
            form: EmulsifierForm::Fluid,
            dose: MassFraction::from_base(0.005).unwrap(),
            acetone_insoluble: None,
            source: None,
        };
        let powder = fluid.in_form(EmulsifierForm::Powder).unwrap();
        assert!((powder.dose.base() - 0.005 * 0.62 / 0.97).abs() < 1e-12);
        assert_eq!(powder.in_form(EmulsifierForm::Powder), Some(powder));
        assert!((powder.in_form(EmulsifierForm::Fluid).unwrap().dose.base() - 0.005).abs() < 1e-12);
    }
}
