//! What a rule says of itself: all data.

use super::Limit;
use crate::assess::Quantity;
use crate::matter::Market;
use crate::piece::{FillingKind, KnobKind};
use crate::units::choices;

choices! {
    /// What a rule is about.
    Domain: "a domain" {
        /// The flow of the chocolate.
        Flow "flow",
        /// Casting the shell.
        Casting "casting",
        /// The filling itself.
        Filling "filling",
        /// Closing the piece.
        Closing "closing",
        /// Keeping and safety.
        Keeping "keeping",
        /// What neighbours do to each other.
        Contact "contact",
        /// Work and temperatures.
        Workshop "workshop",
        /// Law.
        Law "law",
        /// Allergens.
        Allergen "allergen",
        /// The batch.
        Batch "batch",
    }
    /// Which parts a rule looks at.
    PartKind: "a kind of part" {
        /// The piece as a whole.
        Whole "piece",
        /// The shell.
        Shell "shell",
        /// Shell and cap.
        Chocolate "chocolate",
        /// Shell, cap and every layer.
        Every "every",
        /// Every layer.
        Layer "layer",
        /// The layer under the cap.
        TopLayer "top-layer",
        /// The cap.
        Cap "cap",
    }
    /// Whether a reading changes with the size of the batch or of the piece.
    Scale: "a scale" {
        /// It does not: twice the recipe reads the same.
        Intensive "intensive",
        /// It grows with the piece.
        Piece "piece",
        /// It grows with the batch.
        Batch "batch",
    }
    /// How turning a knob up moves what a rule reads.
    Effect: "an effect" {
        /// The value rises.
        Raises "raises",
        /// The value falls.
        Lowers "lowers",
        /// Either may happen: both directions are searched.
        Either "either",
    }
}

impl Domain {
    /// Whether an uncertain pass is not good enough even for a warning: people may be hurt, or the law broken.
    #[must_use]
    pub const fn is_strict(self) -> bool {
        matches!(self, Self::Keeping | Self::Contact | Self::Allergen | Self::Law)
    }

    /// Whether a remembered limit can neither pass nor fail.
    #[must_use]
    pub const fn is_law_or_safety(self) -> bool {
        matches!(self, Self::Keeping | Self::Allergen | Self::Law)
    }
}

/// A knob that moves what a rule reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Driver {
    /// The kind of knob.
    pub knob: KnobKind,
    /// What turning it up does to the value.
    pub effect: Effect,
}

/// A driver that raises the value.
#[must_use]
pub const fn raises(knob: KnobKind) -> Driver {
    Driver { knob, effect: Effect::Raises }
}

/// A driver that lowers the value.
#[must_use]
pub const fn lowers(knob: KnobKind) -> Driver {
    Driver { knob, effect: Effect::Lowers }
}

/// A driver that may do either.
#[must_use]
pub const fn searched(knob: KnobKind) -> Driver {
    Driver { knob, effect: Effect::Either }
}

/// What a rule says of itself.
#[derive(Debug, Clone, Copy)]
pub struct Card {
    /// Names the fault, so that "allow `id`" reads well.
    pub id: &'static str,
    /// Ids it had before.
    pub aliases: &'static [&'static str],
    /// The fault in a few words.
    pub title: &'static str,
    /// Why it matters to a confectioner.
    pub rationale: &'static str,
    /// What it is about.
    pub domain: Domain,
    /// Which parts it looks at.
    pub part: PartKind,
    /// The kinds of filling it applies to; all if empty.
    pub kinds: &'static [FillingKind],
    /// The markets it applies to; all if empty.
    pub markets: &'static [Market],
    /// Whether readings change with size.
    pub scale: Scale,
    /// The limits it reads against.
    pub limits: &'static [&'static Limit],
    /// Quantities it looks at besides those of its limits.
    pub also_reads: &'static [Quantity],
    /// Quantities a report shows beside its readings.
    pub shows: &'static [Quantity],
    /// The knobs that move it.
    pub drivers: &'static [Driver],
    /// Where it is written.
    pub file: &'static str,
}

impl Card {
    /// A card with nothing on it, for the parts most rules leave alone.
    pub const BLANK: Self = Self {
        id: "",
        aliases: &[],
        title: "",
        rationale: "",
        domain: Domain::Flow,
        part: PartKind::Whole,
        kinds: &[],
        markets: &[],
        scale: Scale::Intensive,
        limits: &[],
        also_reads: &[],
        shows: &[],
        drivers: &[],
        file: "",
    };

    /// Every quantity the rule looks at.
    pub fn reads(&self) -> impl Iterator<Item = Quantity> + '_ {
        self.limits.iter().map(|limit| limit.quantity).chain(self.also_reads.iter().copied())
    }

    /// The rationale's first sentence.
    #[must_use]
    pub fn why(&self) -> &'static str {
        let text = self.rationale.trim();
        text.find(". ").and_then(|end| text.get(..=end)).unwrap_or(text)
    }
}
