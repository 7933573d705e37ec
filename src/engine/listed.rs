//! A rule in a set: what it says of itself, asked once, and the parts it reads.

use super::ruleset::SetLimit;
use super::{Card, Findings, Look, PartKind, Rule, Sold};
use crate::assess::{Assessment, Part, PartAssessment, QuantitySet};
use crate::matter::Market;
use crate::piece::FillingKind;

/// A rule of a set.
#[derive(Clone, Copy)]
pub(super) struct Listed {
    rule: &'static dyn Rule,
    pub(super) card: &'static Card,
    only_compares: bool,
    /// What its limits are set for: where a part has none of it, a rule that only compares finds nothing.
    limited: QuantitySet,
    /// A bit for each kind of filling it applies to.
    kinds: u32,
    /// A bit for each market it applies to.
    markets: u32,
}

impl Listed {
    pub(super) fn new(rule: &'static dyn Rule) -> Self {
        let card = rule.card();
        let bits = |bits: u32| if bits == 0 { u32::MAX } else { bits };
        Self {
            rule,
            card,
            only_compares: rule.only_compares(),
            limited: card.limits.iter().map(|limit| limit.quantity).collect(),
            kinds: bits(card.kinds.iter().fold(0, |all, kind| all | kind_bit(Some(*kind)))),
            markets: bits(market_bits(card.markets)),
        }
    }

    /// Whether it applies to what is sold in these markets.
    #[inline]
    pub(super) fn is_of(&self, markets: u32) -> bool {
        self.markets == u32::MAX || self.markets & markets != 0
    }

    /// Reads every part it applies to.
    #[inline(always)]
    pub(super) fn read(&self, assessment: &Assessment, limits: &[SetLimit], sold: &Sold, out: &mut Findings) {
        let mut look = Look { assessment, part: Part::Whole, at: &assessment.whole, sold, card: self.card, limits };
        self.each_part(assessment, |part, at| {
            (look.part, look.at) = (part, at);
            if !self.only_compares {
                self.rule.read(&look, out);
            } else if at.present().meets(self.limited) {
                look.compare_all(out);
            }
        });
    }

    /// Every part it applies to.
    #[inline(always)]
    fn each_part<'a>(&self, assessment: &'a Assessment, mut see: impl FnMut(Part, &'a PartAssessment)) {
        let kind = self.card.part;
        let mut see = |part, at: &'a PartAssessment| {
            if self.kinds == u32::MAX || self.kinds & kind_bit(at.kind) != 0 {
                see(part, at);
            }
        };
        if kind == PartKind::Whole {
            return see(Part::Whole, &assessment.whole);
        }
        if matches!(kind, PartKind::Shell | PartKind::Chocolate | PartKind::Every) {
            see(Part::Shell, &assessment.shell);
        }
        if matches!(kind, PartKind::Layer | PartKind::TopLayer | PartKind::Every) {
            for (index, layer) in assessment.layers.iter().enumerate() {
                if kind != PartKind::TopLayer || layer.under_cap {
                    see(Part::Layer(index), layer);
                }
            }
        }
        if matches!(kind, PartKind::Cap | PartKind::Chocolate | PartKind::Every) {
            see(Part::Cap, &assessment.cap);
        }
    }
}

/// A bit for each kind of filling, and one for none.
fn kind_bit(kind: Option<FillingKind>) -> u32 {
    kind.map_or(1 << 31, |kind| 1 << kind as u32)
}

/// A bit for each market.
pub(super) fn market_bits(markets: &[Market]) -> u32 {
    markets.iter().fold(0, |all, market| all | 1 << *market as u32)
}
