//! A rule in a set: what it says of itself, asked once, and the parts it reads.

use super::ruleset::SetLimit;
use super::{Card, Findings, Look, PartKind, Rule};
use crate::assess::{Assessment, Part, PartAssessment, QuantitySet};
use crate::matter::Market;
use crate::piece::FillingKind;
use crate::units::Choice;

/// A rule of a set.
#[derive(Clone, Copy)]
pub(super) struct Listed {
    rule: &'static dyn Rule,
    pub(super) card: &'static Card,
    part: PartKind,
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
            part: card.part,
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
    pub(super) fn read<'a>(&self, look: &mut Look<'a>, limits: &'a [SetLimit], glance: &Glance, out: &mut Findings) {
        let there = glance.of(self.part);
        if self.kinds & there.kinds == 0 || (self.only_compares && !there.present.meets(self.limited)) {
            return;
        }
        (look.card, look.limits) = (self.card, limits);
        let assessment = look.assessment;
        let mut see = |part, at: &'a PartAssessment| {
            (look.part, look.at) = (part, at);
            if !self.only_compares {
                self.rule.read(look, out);
            } else if at.present().meets(self.limited) {
                look.compare_all(out);
            }
        };
        if self.part == PartKind::Whole {
            return see(Part::Whole, &assessment.whole);
        }
        if matches!(self.part, PartKind::Shell | PartKind::Chocolate | PartKind::Every) && self.is_of_kind(&assessment.shell) {
            see(Part::Shell, &assessment.shell);
        }
        if matches!(self.part, PartKind::Layer | PartKind::TopLayer | PartKind::Every) {
            for (index, layer) in assessment.layers.iter().enumerate() {
                if (self.part != PartKind::TopLayer || layer.under_cap) && self.is_of_kind(layer) {
                    see(Part::Layer(index), layer);
                }
            }
        }
        if matches!(self.part, PartKind::Cap | PartKind::Chocolate | PartKind::Every) && self.is_of_kind(&assessment.cap) {
            see(Part::Cap, &assessment.cap);
        }
    }

    #[inline(always)]
    fn is_of_kind(&self, at: &PartAssessment) -> bool {
        self.kinds == u32::MAX || self.kinds & kind_bit(at.kind) != 0
    }
}

/// What there is on the parts of each kind, so that most rules which find nothing are passed over without asking part by part.
pub(super) struct Glance([There; PartKind::ALL.len()]);

/// What there is on some parts.
#[derive(Clone, Copy)]
struct There {
    /// A bit for each kind of filling.
    kinds: u32,
    present: QuantitySet,
}

impl Glance {
    #[inline]
    pub(super) fn at(assessment: &Assessment) -> Self {
        let of = |at: &PartAssessment| There { kinds: kind_bit(at.kind), present: at.present() };
        let [whole, shell, cap] = [&assessment.whole, &assessment.shell, &assessment.cap].map(of);
        let layers = assessment.layers.iter().map(of).fold(There::NOTHING, There::and);
        let chocolate = shell.and(cap);
        let mut all = [There::NOTHING; PartKind::ALL.len()];
        for (there, kind) in all.iter_mut().zip(PartKind::ALL) {
            *there = match kind {
                PartKind::Whole => whole,
                PartKind::Shell => shell,
                PartKind::Chocolate => chocolate,
                PartKind::Every => chocolate.and(layers),
                PartKind::Layer | PartKind::TopLayer => layers,
                PartKind::Cap => cap,
            };
        }
        Self(all)
    }

    #[inline(always)]
    fn of(&self, kind: PartKind) -> There {
        self.0.get(kind as usize).copied().unwrap_or(There::NOTHING)
    }
}

impl There {
    const NOTHING: Self = Self { kinds: 0, present: QuantitySet::of_each(&[]) };

    fn and(self, other: Self) -> Self {
        Self { kinds: self.kinds | other.kinds, present: self.present.union(other.present) }
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

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use crate::assess::{Assessed, Assessment, Part, Quantity};
    use crate::engine::{Domain, Findings, Limit, PartKind, Rule, RuleSet};
    use crate::piece::Piece;
    use crate::units::Unit;

    /// A rule for each kind of part, each in a room of its own.
    macro_rules! wet {
        ($($room:ident $part:ident;)+) => {
            $(mod $room {
                use super::*;
                crate::rule! {
                    /// Too much water. A rule of this test.
                    TooWet { id: stringify!($room), title: "too wet", domain: Domain::Filling, part: PartKind::$part }
                    limits { WET = Limit::at_most(stringify!($room), Quantity::Water, 20.0, Unit::Percent).breach(); }
                }
            })+
            const WET: &[&dyn Rule] = &[$(&$room::TooWet),+];
        };
    }

    wet! { whole Whole; shell Shell; chocolate Chocolate; every Every; layer Layer; top_layer TopLayer; cap Cap; }

    #[test]
    fn what_is_there_is_read_by_the_rules_of_its_part() {
        let rules = RuleSet::new(WET.iter().copied());
        let bounds = rules.bounds(&Piece::named("trial")).unwrap();
        let mut dry = Assessment::default();
        dry.layers.resize(2, crate::assess::PartAssessment::NOTHING);
        dry.layers.last_mut().unwrap().under_cap = true;
        for (part, read) in [
            (Part::Whole, &["whole"][..]),
            (Part::Shell, &["shell", "chocolate", "every"]),
            (Part::Layer(0), &["every", "layer"]),
            (Part::Layer(1), &["every", "layer", "top_layer"]),
            (Part::Cap, &["chocolate", "every", "cap"]),
        ] {
            let mut wet = dry.clone();
            let there = match part {
                Part::Whole => &mut wet.whole,
                Part::Shell => &mut wet.shell,
                Part::Layer(index) => wet.layers.get_mut(index).unwrap(),
                Part::Cap => &mut wet.cap,
            };
            there.put(Quantity::Water, Assessed::declared(0.1));
            let mut findings = Findings::default();
            rules.judge(&wet, &bounds, &mut findings);
            let found: Vec<_> = findings.readings.iter().map(|reading| (reading.rule.id, reading.part)).collect();
            assert_eq!(found, read.iter().map(|id| (*id, part)).collect::<Vec<_>>());
        }
    }
}
