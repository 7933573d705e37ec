//! Rules together: judging a whole piece, with the limits of its profile and its maker.

use super::{Bound, Card, Findings, Limit, Look, PartKind, Profile, Sold};
use crate::assess::{Assessment, Part, PartAssessment};
use crate::law::{Row, SalesName, Topic};
use crate::matter::{ChocolateKind, Market};
use crate::piece::{FillingKind, Piece};
use crate::units::{Choice, Dimension, Measure};

/// A rule. Implement it with [`crate::rule!`].
pub trait Rule: Sync {
    /// What it says of itself.
    fn card(&self) -> &'static Card;

    /// Reads one part: each limit against its own quantity, unless the rule says otherwise.
    fn read(&self, look: &Look<'_>, out: &mut Findings) {
        look.compare_all(out);
    }

    /// Whether [`Self::read`] was left as it is, so that it need not be called.
    fn only_compares(&self) -> bool {
        false
    }
}

/// A set of rules and the profiles that go with it.
#[derive(Clone)]
pub struct RuleSet {
    rules: Vec<Listed>,
    profiles: Vec<Profile>,
}

/// A rule with what it says of itself, so that it is asked once.
#[derive(Clone, Copy)]
pub(super) struct Listed {
    pub(super) rule: &'static dyn Rule,
    pub(super) card: &'static Card,
    pub(super) only_compares: bool,
    /// A bit for each kind of filling it applies to.
    kinds: u32,
}

/// The values of all limits of a rule set, resolved for one piece.
#[derive(Debug, Clone, Default)]
pub struct Bounds {
    bounds: Vec<Bound>,
    own: Vec<&'static str>,
    pub(super) sold: Sold,
}

/// What a piece asks of the rules that they do not know.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RuleSetError {
    /// A profile nobody knows.
    #[error("piece \"{piece}\": no profile is called `{name}`: use {known}")]
    UnknownProfile {
        /// The piece.
        piece: String,
        /// The name given.
        name: String,
        /// The names there are.
        known: String,
    },
    /// A limit nobody knows.
    #[error("piece \"{piece}\", limits: no limit is called `{key}`{}", meant(.nearest))]
    UnknownLimit {
        /// The piece.
        piece: String,
        /// The key given.
        key: String,
        /// The nearest key.
        nearest: Option<&'static str>,
    },
    /// A limit that is law.
    #[error("piece \"{piece}\", limits: `{key}` is set by law: add or correct a row under `[[law]]`, with its instrument and section")]
    Statute {
        /// The piece.
        piece: String,
        /// The family of limits.
        key: &'static str,
    },
    /// A limit given in units of something else.
    #[error("piece \"{piece}\", limits, {key}: `{found}` is not {}", .expected.words())]
    Dimension {
        /// The piece.
        piece: String,
        /// The limit.
        key: &'static str,
        /// What was given.
        found: Measure,
        /// What was wanted.
        expected: Dimension,
    },
    /// A finding allowed that no rule makes.
    #[error("piece \"{piece}\", allow: no rule is called `{rule}`{}", meant(.nearest))]
    UnknownRule {
        /// The piece.
        piece: String,
        /// The id given.
        rule: String,
        /// The nearest id.
        nearest: Option<&'static str>,
    },
}

fn meant(nearest: &Option<&'static str>) -> String {
    nearest.map_or_else(String::new, |nearest| format!(": did you mean `{nearest}`?"))
}

impl RuleSet {
    /// A set of rules, with the careful profile.
    #[must_use]
    pub fn new(rules: impl IntoIterator<Item = &'static dyn Rule>) -> Self {
        Self { rules: rules.into_iter().map(Listed::new).collect(), profiles: vec![Profile::CAREFUL] }
    }

    /// With one more rule, judged after the others.
    #[must_use]
    pub fn with(mut self, rule: &'static dyn Rule) -> Self {
        self.rules.push(Listed::new(rule));
        self
    }

    /// With one more profile.
    #[must_use]
    pub fn with_profile(mut self, profile: Profile) -> Self {
        self.profiles.push(profile);
        self
    }

    /// What the rules say of themselves, in order.
    pub fn cards(&self) -> impl Iterator<Item = &'static Card> + '_ {
        self.rules.iter().map(|rule| rule.card)
    }

    /// The profiles.
    #[must_use]
    pub fn profiles(&self) -> &[Profile] {
        &self.profiles
    }

    /// The value of every limit for a piece: its profile's, and its maker's own.
    ///
    /// # Errors
    /// [`RuleSetError`] when it names a profile, a limit or a rule that is not there, or a value of another dimension.
    pub fn bounds(&self, piece: &Piece) -> Result<Bounds, RuleSetError> {
        let profile = self.profile(piece)?;
        let mut bounds = Bounds { sold: sold(piece), ..Bounds::default() };
        for limit in self.limits() {
            let set = profile.limits.iter().find(|set| set.key == limit.key);
            bounds.bounds.push(Bound::of(limit, set.map_or(limit.careful, |set| set.value).base()));
        }
        for own in &piece.limits {
            let place = self.limits().position(|limit| limit.key == own.key);
            let found = place.and_then(|place| Some((self.limits().nth(place)?, bounds.bounds.get_mut(place)?)));
            let Some((limit, bound)) = found else {
                let nearest = nearest(&own.key, self.limits().map(|limit| limit.key));
                return Err(RuleSetError::UnknownLimit { piece: piece.name.clone(), key: own.key.clone(), nearest });
            };
            if limit.family {
                return Err(RuleSetError::Statute { piece: piece.name.clone(), key: limit.key });
            }
            let expected = limit.quantity.dimension();
            if own.value.unit().dimension() != expected {
                return Err(RuleSetError::Dimension { piece: piece.name.clone(), key: limit.key, found: own.value, expected });
            }
            bound.value = own.value.base();
            bounds.own.push(limit.key);
        }
        for allowed in &piece.allow {
            if !self.cards().any(|card| card.id == allowed.rule || card.aliases.contains(&allowed.rule.as_str())) {
                let nearest = nearest(&allowed.rule, self.cards().map(|card| card.id));
                return Err(RuleSetError::UnknownRule { piece: piece.name.clone(), rule: allowed.rule.clone(), nearest });
            }
        }
        Ok(bounds)
    }

    /// Judges an assessment; the findings replace what the buffer held.
    pub fn judge(&self, assessment: &Assessment, bounds: &Bounds, out: &mut Findings) {
        self.judge_where(|_| true, assessment, bounds, out);
    }

    /// Judges an assessment by one of the rules only.
    pub fn judge_by(&self, id: &str, assessment: &Assessment, bounds: &Bounds, out: &mut Findings) {
        self.judge_where(|card| card.id == id, assessment, bounds, out);
    }

    /// Judges an assessment by some of the rules only.
    pub(crate) fn judge_where(&self, wanted: impl Fn(&Card) -> bool, assessment: &Assessment, bounds: &Bounds, out: &mut Findings) {
        out.clear();
        for (rule, own) in self.with_bounds(bounds) {
            if wanted(rule.card) {
                rule.read(assessment, own, &bounds.sold, out);
            }
        }
    }

    /// Each rule of the markets where the piece is sold, with what its limits are for it.
    pub(super) fn with_bounds<'a>(&'a self, bounds: &'a Bounds) -> impl Iterator<Item = (&'a Listed, &'a [Bound])> {
        let mut rest = bounds.bounds.as_slice();
        let with_bounds = self.rules.iter().map(move |rule| {
            let (own, later) = rest.split_at_checked(rule.card.limits.len()).unwrap_or((&[], &[]));
            rest = later;
            (rule, own)
        });
        let is_sold = |markets: &[Market]| markets.is_empty() || markets.iter().any(|market| bounds.sold.markets.contains(market));
        with_bounds.filter(move |(rule, _)| is_sold(rule.card.markets))
    }

    fn limits(&self) -> impl Iterator<Item = &'static Limit> + '_ {
        self.cards().flat_map(|card| card.limits.iter().copied())
    }

    fn profile(&self, piece: &Piece) -> Result<&Profile, RuleSetError> {
        let name = piece.profile.as_deref().unwrap_or(Profile::CAREFUL.name);
        self.profiles.iter().find(|profile| profile.name == name).ok_or_else(|| {
            let names: Vec<_> = self.profiles.iter().map(|profile| format!("`{}`", profile.name)).collect();
            RuleSetError::UnknownProfile { piece: piece.name.clone(), name: name.to_owned(), known: names.join(" or ") }
        })
    }
}

impl Bounds {
    /// Whether the maker set a limit otherwise.
    #[must_use]
    pub fn is_own(&self, key: &str) -> bool {
        self.own.contains(&key)
    }
}

/// Where a piece is sold, with the rows of law that hold there.
fn sold(piece: &Piece) -> Sold {
    let here = |row: &Row| piece.markets.contains(&row.market) && row.region.is_none_or(|region| piece.regions.contains(&region));
    let usual =
        |row: &Row| ChocolateKind::ALL.iter().filter_map(|kind| SalesName::usual(*kind, row.market)).any(|name| row.names.holds(name));
    let claimed = |row: &Row| row.topic() != Topic::Names || piece.sold_as.is_some_and(|name| row.names.holds(name)) || usual(row);
    let mut sold = Sold {
        markets: piece.markets.to_vec(),
        regions: piece.regions.to_vec(),
        name: piece.sold_as,
        book: piece.law.clone(),
        ..Sold::default()
    };
    for (id, row) in piece.law.iter().filter(|(_, row)| here(row) && claimed(row)) {
        let rows = sold.rows.get_mut(row.topic() as usize).and_then(|rows| rows.get_mut(row.market as usize));
        rows.into_iter().for_each(|rows| rows.push(id));
    }
    sold
}

impl Listed {
    fn new(rule: &'static dyn Rule) -> Self {
        let card = rule.card();
        let kinds = if card.kinds.is_empty() { u32::MAX } else { card.kinds.iter().fold(0, |all, kind| all | kind_bit(Some(*kind))) };
        Self { rule, card, only_compares: rule.only_compares(), kinds }
    }

    /// Reads every part it applies to.
    pub(super) fn read(&self, assessment: &Assessment, bounds: &[Bound], sold: &Sold, out: &mut Findings) {
        let mut look = Look { assessment, part: Part::Whole, at: &assessment.whole, sold, card: self.card, bounds };
        self.each_part(assessment, |part, at| {
            (look.part, look.at) = (part, at);
            if self.only_compares { look.compare_all(out) } else { self.rule.read(&look, out) }
        });
    }

    /// Every part it applies to.
    #[inline(always)]
    pub(super) fn each_part<'a>(&self, assessment: &'a Assessment, mut see: impl FnMut(Part, &'a PartAssessment)) {
        let kind = self.card.part;
        let mut see = |part, at: &'a PartAssessment| {
            if self.kinds & kind_bit(at.kind) != 0 {
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

fn nearest(text: &str, known: impl Iterator<Item = &'static str>) -> Option<&'static str> {
    known
        .map(|word| (strsim::osa_distance(text, word), word))
        .min()
        .filter(|(distance, _)| *distance <= text.len().div_ceil(3))
        .map(|(_, word)| word)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::assess::Quantity;
    use crate::engine::Domain;
    use crate::piece::Allowance;
    use crate::units::Unit;

    crate::rule! {
        /// Too much water. A rule of this test.
        TooWet { id: "too-wet", title: "too wet", domain: Domain::Filling, part: PartKind::Layer }
        limits { WET = Limit::at_most("wet.max", Quantity::Water, 20.0, Unit::Percent).breach(); }
    }

    #[test]
    fn a_rule_that_is_not_there_leads_to_the_one_that_is_meant() {
        let rules = RuleSet::new([&TooWet as &'static dyn Rule]);
        let refused = |rule: &str| {
            let mut piece = Piece::named("trial");
            piece.allow.push(Allowance { rule: rule.to_owned(), reason: "a trial".into() });
            rules.bounds(&piece).map(|_| ()).unwrap_err().to_string()
        };
        assert_eq!(refused("too-weet"), "piece \"trial\", allow: no rule is called `too-weet`: did you mean `too-wet`?");
        assert_eq!(refused("dry"), "piece \"trial\", allow: no rule is called `dry`");
    }

    #[test]
    fn what_is_meant_differs_in_a_third_of_its_letters_at_most() {
        let meant = |text| nearest(text, ["abcdef", "uvwxyz"].into_iter());
        assert_eq!(meant("abcdef"), Some("abcdef"));
        assert_eq!((meant("abcdxx"), meant("abcxxx")), (Some("abcdef"), None));
        assert_eq!(meant("uvwxyx"), Some("uvwxyz"));
    }
}
