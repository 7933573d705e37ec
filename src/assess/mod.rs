//! What follows from a described piece, computed once by models: every number with its uncertainty, or what it lacks.

mod alcohol;
mod allergens;
mod cap;
mod chocolate;
mod contact;
mod cooking;
mod estimate;
mod exchange;
mod filling;
mod freezing;
mod keeping;
mod kind;
mod law;
mod makeup;
mod quantity;
mod shell;
mod stale;
mod values;
mod whole;
mod workshop;

pub use alcohol::PieceAlcohol;
pub use estimate::{Assessed, Estimate, Evidence};
pub use exchange::{Exchange, exchange};
pub use law::ChocolateLaw;
pub use quantity::{Quantity, QuantitySet};
pub use stale::{Changes, reassess_into};

use crate::law::{Additive, AdditiveAmounts, Category, Row};
use crate::matter::{AllergenSet, ChocolateKind, Constituent, ConstituentSet, Crystals, Market};
use crate::piece::{Barrier, FillingKind, Piece, SeedKind};
use smallvec::SmallVec;
use stale::Stale;
use values::Values;

/// The yield value below which a filling levels at once, in pascals: the upper end of [`crate::matter::Consistency::Pours`].
const POURS_BELOW: f64 = 1.0;

/// A part of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// The piece as a whole.
    Whole,
    /// The shell.
    Shell,
    /// The layer at this place in pouring order.
    Layer(usize),
    /// The cap.
    Cap,
}

/// What was assessed on one part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartAssessment {
    values: Values,
    /// The kind of a filling, declared or recognised from its composition.
    pub kind: Option<FillingKind>,
    /// The solutes of a filling more concentrated, by the model of its water activity, than measurements cover: its band is wider for them.
    pub beyond_range: ConstituentSet,
    /// The gum of a filling of which there is most.
    pub gum: Option<Constituent>,
    /// The state of a filling's sugar, if declared.
    pub crystals: Option<Crystals>,
    /// A film on a layer.
    pub barrier: Option<Barrier>,
    /// The kind of chocolate of a shell or a cap, or of a filling's main chocolate.
    pub chocolate: Option<ChocolateKind>,
    /// What the chocolate was seeded with.
    pub seed: Option<SeedKind>,
    /// Whether the cap lies on this layer.
    pub under_cap: bool,
    /// The allergens the part brings.
    pub allergens: AllergenSet,
    /// The additives in a chocolate or a filling.
    pub additives: AdditiveAmounts,
    /// Whether it may hold lecithin that no sheet declares.
    pub lecithin_undeclared: bool,
    /// What the law takes a shell or a cap for; of the whole, what it takes its shell for.
    pub category: Option<Category>,
}

impl PartAssessment {
    /// A part of which nothing is assessed yet.
    pub const NOTHING: Self = Self {
        values: Values::NONE,
        kind: None,
        beyond_range: ConstituentSet::EMPTY,
        gum: None,
        crystals: None,
        barrier: None,
        chocolate: None,
        seed: None,
        under_cap: false,
        allergens: AllergenSet::EMPTY,
        additives: AdditiveAmounts::NONE,
        lecithin_undeclared: false,
        category: None,
    };

    /// Makes it [`Self::NOTHING`]; what is put again as it stood will not have changed.
    fn clear(&mut self) {
        let Self { values, kind, beyond_range, gum, crystals, barrier, chocolate, seed, under_cap, allergens, additives, .. } = self;
        values.forget(values.present());
        (*kind, *beyond_range, *gum, *crystals, *barrier) = (None, ConstituentSet::EMPTY, None, None, None);
        (*chocolate, *seed, *under_cap) = (None, None, false);
        *allergens = AllergenSet::EMPTY;
        additives.clear();
        (self.lecithin_undeclared, self.category) = (false, None);
        debug_assert_eq!(*self, Self::NOTHING);
    }

    /// What is known of a quantity.
    #[must_use]
    pub fn get(&self, quantity: Quantity) -> Assessed {
        *self.look(quantity)
    }

    /// The sum of a row's additives; where no sheet declares the lecithin, as much as usual may come on top.
    #[must_use]
    pub fn additives_of(&self, row: &Row) -> Estimate {
        let sum = self.additives.sum(row.additives, row.as_acid);
        if self.lecithin_undeclared && row.additives.holds(Additive::E322) {
            return Estimate::assumed(chocolate::UNDECLARED_LECITHIN.map(|lecithin| sum + lecithin));
        }
        Estimate::declared(sum)
    }

    /// The same where it lies.
    #[inline]
    pub(crate) fn look(&self, quantity: Quantity) -> &Assessed {
        self.values.look(quantity)
    }

    /// The estimate of a quantity where it lies, if known.
    #[inline(always)]
    pub(crate) fn known(&self, quantity: Quantity) -> Option<&Estimate> {
        self.values.known(quantity)
    }

    /// The quantities that are not absent.
    #[inline]
    pub(crate) const fn present(&self) -> QuantitySet {
        self.values.present()
    }

    /// Whether a quantity is what it was before the piece was assessed again.
    fn is_as_before(&self, quantity: Quantity) -> bool {
        self.values.is_as_before(quantity)
    }

    /// Takes back what was put of some quantities.
    fn forget(&mut self, quantities: QuantitySet) {
        self.values.forget(quantities);
    }

    /// Whether a filling may level at once when it is poured, at the thin end of its band; or what lacks to tell.
    ///
    /// # Errors
    /// What lacks, when the yield value cannot be told.
    pub fn may_pour(&self) -> Result<bool, QuantitySet> {
        match self.get(Quantity::YieldValue) {
            Assessed::Known(estimate) => Ok(estimate.band.low < POURS_BELOW),
            lacking => Err(lacking.missing()),
        }
    }

    /// Puts what is known of a quantity; also for tests that vary an assessment.
    #[inline]
    pub fn put(&mut self, quantity: Quantity, assessed: Assessed) {
        self.values.put(quantity, assessed);
    }
}

/// What was assessed on a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The piece as a whole.
    pub whole: PartAssessment,
    /// The shell.
    pub shell: PartAssessment,
    /// The layers, in pouring order.
    pub layers: Vec<PartAssessment>,
    /// The cap.
    pub cap: PartAssessment,
    /// The allergens inside that the markets named want declared; all of them where no market is named.
    pub to_declare: AllergenSet,
    /// The same, market by market, of those whose list is held.
    pub to_declare_in: SmallVec<[(Market, AllergenSet); 8]>,
    /// The allergens, inside or on shared equipment, that it is promised to be free from.
    pub broken_promises: AllergenSet,
}

impl Default for Assessment {
    fn default() -> Self {
        let nothing = PartAssessment::NOTHING;
        let none = AllergenSet::EMPTY;
        Self {
            whole: nothing,
            shell: nothing,
            layers: Vec::new(),
            cap: nothing,
            to_declare: none,
            to_declare_in: SmallVec::new(),
            broken_promises: none,
        }
    }
}

impl Assessment {
    /// The parts there are, the whole first.
    pub fn parts(&self) -> impl Iterator<Item = (Part, &PartAssessment)> {
        let layers = self.layers.iter().enumerate().map(|(index, layer)| (Part::Layer(index), layer));
        [(Part::Whole, &self.whole), (Part::Shell, &self.shell)].into_iter().chain(layers).chain([(Part::Cap, &self.cap)])
    }

    /// The same to be changed.
    pub(crate) fn parts_mut(&mut self) -> impl Iterator<Item = &mut PartAssessment> {
        [&mut self.whole, &mut self.shell].into_iter().chain(&mut self.layers).chain([&mut self.cap])
    }

    /// What is not as it was on any part when this was last asked.
    fn settle(&mut self) -> QuantitySet {
        self.parts_mut().fold(QuantitySet::default(), |all, part| all.union(part.values.settle()))
    }

    /// Whether any layer may pour; none where there is no layer.
    ///
    /// # Errors
    /// What lacks, when no layer is known to pour and one of them cannot be told.
    pub fn holds_liquid(&self) -> Result<Option<bool>, QuantitySet> {
        let mut answer = if self.layers.is_empty() { Ok(None) } else { Ok(Some(false)) };
        for layer in &self.layers {
            match layer.may_pour() {
                Ok(true) => return Ok(Some(true)),
                Ok(false) => {}
                Err(missing) => answer = Err(missing),
            }
        }
        answer
    }

    /// What was assessed on a part, if the piece has it.
    #[must_use]
    pub fn part(&self, part: Part) -> Option<&PartAssessment> {
        match part {
            Part::Whole => Some(&self.whole),
            Part::Shell => Some(&self.shell),
            Part::Layer(index) => self.layers.get(index),
            Part::Cap => Some(&self.cap),
        }
    }
}

/// Assesses a piece.
#[must_use]
pub fn assess(piece: &Piece) -> Assessment {
    let mut assessment = Assessment::default();
    assess_into(piece, &mut assessment);
    assessment
}

/// Assesses a piece into an assessment that is used again: once it has held a piece of as many layers, nothing is allocated.
pub fn assess_into(piece: &Piece, assessment: &mut Assessment) {
    assessment.parts_mut().for_each(|part| part.values.start());
    shell::assess(piece, &mut assessment.shell);
    assessment.layers.resize(piece.layers.len(), PartAssessment::NOTHING);
    let store = filling::store(piece);
    for (layer, part) in piece.layers.iter().zip(&mut assessment.layers) {
        filling::assess(piece, layer, &store, part);
    }
    whole::assess(piece, assessment, &Stale::everything());
    assessment.settle();
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::piece::Layer;

    #[test]
    fn what_was_put_by_hand_does_not_outlast_assessing_again() {
        let piece = Piece::named("trial").with_layer(Layer::named("filling"));
        let mut assessment = assess(&piece);
        assessment.parts_mut().for_each(|part| part.put(Quantity::Water, Assessed::declared(0.2)));
        assess_into(&piece, &mut assessment);
        assert_eq!(assessment, assess(&piece));
    }
}
