//! What turned knobs leave stale, so that only what depends on them is assessed again.

use super::{Assessment, PartAssessment, Quantity, QuantitySet, assess_into, cap, filling, shell, whole};
use crate::piece::{ChocolateOf, Knob, Piece, Process};
use smallvec::SmallVec;

/// What has to be assessed again.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Stale {
    /// Everything: nothing was assessed before.
    pub(super) everything: bool,
    /// The shell's chocolate.
    chocolate: bool,
    /// The shell's wall.
    wall: bool,
    /// Everything of these layers.
    pub(super) layers: SmallVec<[usize; 4]>,
    /// Everything of every layer.
    pub(super) all_layers: bool,
    /// The densities of these layers.
    poured: SmallVec<[usize; 4]>,
    /// How long layers keep.
    keeping: bool,
    /// The cap by itself.
    cap: bool,
    /// How the layers stand, what the parts weigh, what carries the cap.
    pub(super) closing: bool,
    /// What the layers melt of the shell, whether or not masses change.
    pub(super) warmth: bool,
    /// What neighbours do to each other's water, whether or not masses change.
    pub(super) contact: bool,
    /// The temperatures and times of the workshop.
    pub(super) workshop: bool,
    /// Allergens and what must be declared of them.
    pub(super) allergens: bool,
}

impl Stale {
    /// Everything.
    pub(super) fn everything() -> Self {
        let all = true;
        Self { everything: all, closing: all, warmth: all, contact: all, workshop: all, allergens: all, ..Self::default() }
    }

    fn turned(&mut self, knob: Knob) {
        match knob {
            Knob::WallThickness | Knob::DrainTime | Knob::Casts => {
                self.wall = true;
                self.closing = true;
            }
            Knob::Temper(of)
            | Knob::EmulsifierDose(of, _)
            | Knob::EmulsifierForm(of, _)
            | Knob::StirredInDose(of, _)
            | Knob::CocoaButter(of) => self.chocolate(of),
            Knob::FillDepth(_) | Knob::LayerAmount(_) => self.closing = true,
            Knob::IngredientMass(layer, _) | Knob::Addition(layer, _) | Knob::CookedMass(layer) => {
                self.layers.push(layer);
                self.closing = true;
                self.contact = true;
            }
            Knob::PouringTemperature(layer) => {
                self.poured.push(layer);
                self.closing = true;
            }
            Knob::Process(Process::ChocolateTemperature) => {
                self.chocolate(ChocolateOf::Shell);
                self.workshop = true;
            }
            Knob::Process(Process::MouldTemperature) => {
                self.wall = true;
                self.closing = true;
                self.warmth = true;
            }
            Knob::Process(Process::StorageTemperature) => {
                self.all_layers = true;
                self.closing = true;
                self.warmth = true;
                self.contact = true;
                self.workshop = true;
            }
            Knob::Process(Process::Keep) => {
                self.keeping = true;
                self.workshop = true;
            }
            Knob::Process(Process::EmulsifiedAt | Process::RestBeforeCap | Process::CooledAt | Process::CooledFor) | Knob::Sale => {
                self.workshop = true;
            }
            Knob::Barrier(_) => self.contact = true,
            Knob::CapThickness | Knob::CapCoats => self.cap = true,
        }
    }

    /// A cap is poured from the shell's chocolate unless it has its own.
    fn chocolate(&mut self, of: ChocolateOf) {
        if of == ChocolateOf::Shell {
            self.chocolate = true;
            self.wall = true;
        }
        self.cap = true;
        self.closing = true;
        self.warmth = true;
        self.allergens = true;
        // How much is melted counts by the chocolate's density.
        self.workshop = true;
    }

    /// Whether a layer may melt another share of the shell though both weigh what they weighed.
    pub(super) fn warms(&self, layer: usize) -> bool {
        self.warmth || self.poured.contains(&layer) || self.has(layer)
    }

    fn has(&self, layer: usize) -> bool {
        self.all_layers || self.layers.contains(&layer)
    }
}

/// What may have changed of an assessment when it was assessed again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Changes {
    quantities: QuantitySet,
    /// Something that is no quantity: a kind, a gum, a film, an allergen.
    otherwise: bool,
}

impl Changes {
    /// Everything may have.
    pub const EVERYTHING: Self = Self { quantities: QuantitySet::of_none(), otherwise: true };

    /// Whether whoever reads these quantities may find something else now. Who looks at additives by name reads [`Quantity::Additives`].
    #[must_use]
    pub const fn reach(&self, reads: QuantitySet) -> bool {
        self.otherwise || self.quantities.meets(reads)
    }

    /// Assesses a part from nothing and notes what else but its quantities differs from before.
    fn note(&mut self, part: &mut PartAssessment, assess: impl FnOnce(&mut PartAssessment)) {
        let additives = part.additives;
        let otherwise = |part: &PartAssessment| {
            let PartAssessment { kind, beyond_range, gum, crystals, barrier, chocolate, seed, allergens, .. } = *part;
            (kind, beyond_range, gum, crystals, barrier, chocolate, seed, allergens, part.lecithin_undeclared, part.category)
        };
        let before = otherwise(part);
        assess(part);
        if part.additives != additives {
            self.quantities = self.quantities.union(QuantitySet::of(Quantity::Additives));
        }
        self.otherwise |= otherwise(part) != before;
    }
}

/// Assesses again what depends on the knobs turned since a piece was assessed: the same as [`super::assess_into`], bit for bit, as long as
/// nothing else of the piece was changed. What may have changed tells which rules to ask again, see [`crate::engine::Gauge::judge_again`].
pub fn reassess_into(piece: &Piece, turned: &[Knob], assessment: &mut Assessment) -> Changes {
    if assessment.layers.len() != piece.layers.len() {
        assess_into(piece, assessment);
        return Changes::EVERYTHING;
    }
    let mut stale = Stale::default();
    turned.iter().for_each(|knob| stale.turned(*knob));
    let mut changes = Changes { quantities: QuantitySet::of_none(), otherwise: false };
    if stale.chocolate {
        changes.note(&mut assessment.shell, |part| shell::assess(piece, part));
    } else if stale.wall {
        shell::reassess_wall(piece, &mut assessment.shell);
    }
    let store = filling::store(piece);
    for (index, (layer, part)) in piece.layers.iter().zip(&mut assessment.layers).enumerate() {
        if stale.has(index) {
            changes.note(part, |part| filling::assess(piece, layer, &store, part));
            continue;
        }
        changes.otherwise |= part.barrier != layer.barrier;
        part.barrier = layer.barrier;
        if stale.poured.contains(&index) {
            filling::assess_pouring(layer, part);
        }
        if stale.keeping {
            super::keeping::assess(part, piece, layer);
        }
    }
    if stale.cap {
        changes.note(&mut assessment.cap, |part| cap::assess(piece, part));
        // What was put there by the closing went with it.
        stale.closing = true;
    }
    let allergens = |assessment: &Assessment| (assessment.to_declare, assessment.broken_promises);
    let before = allergens(assessment);
    whole::assess(piece, assessment, &stale);
    changes.otherwise |= before != allergens(assessment);
    changes.quantities = changes.quantities.union(assessment.settle());
    changes
}
