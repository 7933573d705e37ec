//! All findings of a piece at once: a short list of turns after which nothing is left that could be mended.
//!
//! A search, not a proof: round by round the one turn is made that mends most for the least change, as long as something gets better; then
//! every turn that turned out to be needless is taken back, and every other is loosened as far as nothing gets worse.

use super::search::remedies;
use crate::assess::{Part, assess};
use crate::engine::{Bounds, Card, Findings, RuleSet, RuleSetError, Verdict};
use crate::piece::{Knob, Piece, Turn};

/// More turns than this no bench would make at once.
const MOST_TURNS: usize = 12;
/// What any turn costs, as a share of where the knob stands: a few large turns are no better than several small ones.
const EFFORT: f64 = 0.2;
/// How often a turn is halved when it is loosened.
const HALVINGS: u32 = 8;

/// A piece put right as far as it could be.
#[derive(Debug, Clone)]
pub struct Repair {
    /// What was turned, in order, each to a setting in the base unit.
    pub turns: Vec<(Knob, f64)>,
    /// The piece with everything turned.
    pub piece: Piece,
    /// What is left: cautions and failures for which no allowed turn was found in the ranges searched.
    pub left: Vec<(&'static Card, Part, Verdict)>,
}

/// Puts a piece right by the knobs that may be turned: prefers few and small turns, and never trades a caution for a failure.
///
/// # Errors
/// [`RuleSetError`] when the piece names a profile, a limit or a rule that is not there.
pub fn repair(piece: &Piece, rules: &RuleSet, may_turn: impl Fn(Knob) -> bool) -> Result<Repair, RuleSetError> {
    let mut shop = Shop { original: piece, rules, bounds: rules.bounds(piece)?, unknown: Vec::new() };
    shop.unknown = shop.judged(piece).unknown.iter().map(|unknown| (unknown.rule.id, unknown.part)).collect();
    let mut turns: Vec<(Knob, f64)> = Vec::new();
    while turns.len() < MOST_TURNS {
        let Some(best) = shop.best_turn(&turns, &may_turn) else { break };
        turns.push(best);
    }
    shop.take_back(&mut turns);
    shop.loosen(&mut turns);
    let piece = shop.turned(&turns).unwrap_or_else(|| piece.clone());
    let left = shop.open(&shop.judged(&piece));
    Ok(Repair { turns, piece, left })
}

/// How bad a piece is: failures first, then cautions.
type Badness = (usize, usize);

/// A failure weighs as much as several cautions.
fn weight((fails, cautions): Badness) -> f64 {
    4.0 * fails as f64 + cautions as f64
}

/// What a turn is worth that brings one badness to another, for how much it changes.
fn worth(now: Badness, then: Badness, change: f64) -> f64 {
    (weight(now) - weight(then)) / (EFFORT + change)
}

struct Shop<'a> {
    original: &'a Piece,
    rules: &'a RuleSet,
    bounds: Bounds,
    /// What cannot be judged on the piece as it is.
    unknown: Vec<(&'static str, Part)>,
}

impl Shop<'_> {
    /// The original with everything turned; none where that makes no piece.
    fn turned(&self, turns: &[(Knob, f64)]) -> Option<Piece> {
        turns.iter().try_fold(self.original.clone(), |piece, (knob, to)| knob.set(&piece, *to))
    }

    fn judged(&self, piece: &Piece) -> Findings {
        let mut findings = Findings::default();
        self.rules.judge(&assess(piece), &self.bounds, &mut findings);
        findings
    }

    /// What is to be mended: cautions that the maker does not accept, and failures.
    fn open(&self, findings: &Findings) -> Vec<(&'static Card, Part, Verdict)> {
        let accepted = |rule: &str| self.original.allow.iter().any(|allowed| allowed.rule == rule);
        let mut open: Vec<(&'static Card, Part, Verdict)> = Vec::new();
        for reading in findings.readings.iter().filter(|reading| reading.verdict >= Verdict::Caution) {
            match open.iter_mut().find(|(rule, part, _)| rule.id == reading.rule.id && *part == reading.part) {
                Some((_, _, verdict)) => *verdict = reading.verdict.max(*verdict),
                None => open.push((reading.rule, reading.part, reading.verdict)),
            }
        }
        open.retain(|(rule, _, verdict)| *verdict == Verdict::Fail || !accepted(rule.id));
        open
    }

    fn badness(&self, turns: &[(Knob, f64)]) -> Option<Badness> {
        let findings = self.judged(&self.turned(turns)?);
        let open = self.open(&findings);
        let fails = open.iter().filter(|(_, _, verdict)| *verdict == Verdict::Fail).count();
        // What can no longer be judged is no better than a caution.
        let lost = findings.unknown.iter().filter(|unknown| !self.unknown.contains(&(unknown.rule.id, unknown.part))).count();
        Some((fails, open.len() - fails + lost))
    }

    /// The turn that mends most for what it changes, of those that make anything better.
    fn best_turn(&self, turns: &[(Knob, f64)], may_turn: &impl Fn(Knob) -> bool) -> Option<(Knob, f64)> {
        let piece = self.turned(turns)?;
        let findings = self.judged(&piece);
        let open = self.open(&findings);
        let targets: Vec<_> = open.iter().map(|(rule, part, _)| (*rule, *part)).collect();
        let now = self.badness(turns)?;
        let candidates = remedies(&piece, self.rules, &self.bounds, &findings, &targets).into_iter().flatten();
        let gains = candidates.filter(|remedy| may_turn(remedy.knob)).filter_map(|remedy| {
            let turn = (remedy.knob, remedy.to);
            let with: Vec<_> = turns.iter().copied().chain([turn]).collect();
            let badness = self.badness(&with).filter(|badness| *badness < now)?;
            Some((worth(now, badness, remedy.change(&piece)), turn))
        });
        gains.max_by(|(one, _), (two, _)| one.total_cmp(two)).map(|(_, turn)| turn)
    }

    /// Takes back every turn without which nothing is worse.
    fn take_back(&self, turns: &mut Vec<(Knob, f64)>) {
        let Some(reached) = self.badness(turns) else { return };
        let mut index = 0;
        while index < turns.len() {
            let without: Vec<_> = turns.iter().enumerate().filter(|(at, _)| *at != index).map(|(_, turn)| *turn).collect();
            if self.badness(&without).is_some_and(|badness| badness <= reached) {
                *turns = without;
            } else {
                index += 1;
            }
        }
    }

    /// Turns every knob back toward where it stood, as far as nothing gets worse, in steps of the scale.
    fn loosen(&self, turns: &mut [(Knob, f64)]) {
        let Some(reached) = self.badness(turns) else { return };
        for index in 0..turns.len() {
            let Some((knob, mut enough)) = turns.get(index).copied() else { continue };
            let Turn::Continuous { step } = knob.turns(self.original) else { continue };
            let Some(mut short) = knob.get(self.original) else { continue };
            for _ in 0..HALVINGS {
                let middle = (f64::midpoint(short, enough) / step).round() * step;
                if let Some(turn) = turns.get_mut(index) {
                    turn.1 = middle;
                }
                *(if self.badness(turns).is_some_and(|badness| badness <= reached) { &mut enough } else { &mut short }) = middle;
            }
            if let Some(turn) = turns.get_mut(index) {
                turn.1 = enough;
            }
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::assess::Quantity;
    use crate::engine::{Domain, Limit, PartKind, Rule};
    use crate::piece::Layer;
    use crate::units::{Checked, Temperature, Unit};

    #[test]
    fn a_turn_is_worth_what_it_mends_and_less_the_more_it_changes() {
        assert!(worth((1, 0), (0, 0), 0.1) > worth((1, 0), (0, 0), 0.2));
        assert!(worth((2, 0), (0, 0), 0.1) > worth((1, 0), (0, 0), 0.1));
        // As much is mended by either, however much is left.
        approx::assert_relative_eq!(worth((3, 2), (3, 1), 0.3), worth((0, 1), (0, 0), 0.3), max_relative = 1e-12);
        approx::assert_relative_eq!(worth((0, 1), (0, 0), 0.0), 1.0 / EFFORT, max_relative = 1e-12);
    }

    #[test]
    fn a_failure_weighs_as_several_cautions_and_every_caution_counts() {
        assert!(weight((0, 1)) > weight((0, 0)) && weight((1, 1)) > weight((1, 0)));
        assert!(weight((1, 0)) > weight((0, 3)) && weight((1, 0)) < weight((0, 5)));
        assert!(weight((2, 0)) > weight((1, 3)));
    }

    crate::rule! {
        /// Poured too warm. A rule of this test.
        TooWarm { id: "too-warm", title: "too warm", domain: Domain::Closing, part: PartKind::Layer }
        limits {
            HOT = Limit::at_most("test-warm.max", Quantity::PouringTemperature, 30.0, Unit::Celsius).breach();
        }
    }

    crate::rule! {
        /// Poured warmer than one would like. A rule of this test.
        RatherWarm { id: "rather-warm", title: "rather warm", domain: Domain::Closing, part: PartKind::Layer }
        limits {
            WARM = Limit::at_most("test-rather-warm.max", Quantity::PouringTemperature, 25.0, Unit::Celsius);
        }
    }

    #[test]
    fn failures_and_cautions_are_counted_apart_and_what_is_lost_is_a_caution() {
        let rules = RuleSet::new([&TooWarm as &'static dyn Rule, &RatherWarm]);
        let at = |celsius: &[f64]| {
            let layer = |celsius: &f64| Layer { temperature: Temperature::from_base(*celsius).ok(), ..Layer::named("filling") };
            celsius.iter().fold(Piece::named("trial"), |piece, celsius| piece.with_layer(layer(celsius)))
        };
        let badness =
            |piece: &Piece| Shop { original: piece, rules: &rules, bounds: rules.bounds(piece).unwrap(), unknown: Vec::new() }.badness(&[]);
        assert_eq!(badness(&at(&[20.0])), Some((0, 0)));
        assert_eq!(badness(&at(&[28.0, 20.0, 27.0])), Some((0, 2)));
        assert_eq!(badness(&at(&[35.0, 28.0, 40.0])), Some((2, 3)));
        // Not judged any more by either rule.
        assert_eq!(badness(&at(&[35.0, f64::NAN])), Some((1, 3)));
    }
}
