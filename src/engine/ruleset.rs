//! Rules together: judging a whole piece, with the limits of its profile and its maker.

use super::listed::{Glance, Listed, market_bits};
use super::{Bound, Card, Findings, Limit, Look, Profile, Sold};
use crate::assess::Assessment;
use crate::piece::Piece;
use crate::units::{Dimension, Measure};

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

/// The values of all limits of a rule set, resolved for one piece.
#[derive(Debug, Clone, Default)]
pub struct Bounds {
    limits: Vec<SetLimit>,
    own: Vec<&'static str>,
    pub(super) sold: Sold,
}

/// A limit as it is set for a piece.
#[derive(Debug, Clone, Copy)]
pub(super) struct SetLimit {
    pub(super) limit: &'static Limit,
    /// The value that the profile or the maker gives it.
    pub(super) bound: Bound,
    /// Its place among all limits.
    pub(super) place: usize,
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
        let mut bounds = Bounds { sold: Sold::of(piece), ..Bounds::default() };
        for (place, limit) in self.limits().enumerate() {
            let set = profile.limits.iter().find(|set| set.key == limit.key);
            let bound = Bound::of(limit, set.map_or(limit.careful, |set| set.value).base());
            bounds.limits.push(SetLimit { limit, bound, place });
        }
        for own in &piece.limits {
            let Some(SetLimit { limit, bound, .. }) = bounds.limits.iter_mut().find(|set| set.limit.key == own.key) else {
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
        let (mut look, glance) = (Look::new(assessment, &bounds.sold), Glance::at(assessment));
        for (rule, own) in self.with_bounds(bounds) {
            if wanted(rule.card) {
                rule.read(&mut look, own, &glance, out);
            }
        }
    }

    /// Each rule of the markets where the piece is sold, with what its limits are for it.
    pub(super) fn with_bounds<'a>(&'a self, bounds: &'a Bounds) -> impl Iterator<Item = (&'a Listed, &'a [SetLimit])> {
        let mut rest = bounds.limits.as_slice();
        let with_bounds = self.rules.iter().map(move |rule| {
            let (own, later) = rest.split_at_checked(rule.card.limits.len()).unwrap_or((&[], &[]));
            rest = later;
            (rule, own)
        });
        let markets = market_bits(&bounds.sold.markets);
        with_bounds.filter(move |(rule, _)| rule.is_of(markets))
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
    use crate::engine::trial::TooWet;
    use crate::piece::Allowance;

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
