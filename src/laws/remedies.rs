//! Laws on remedies.

use super::case::{Case, Fault, Lawful, Mended, place};
use crate::engine::{Findings, Verdict};
use crate::piece::{Piece, Turn};

/// How far rounding may carry a setting, as a share of a step or a range.
const ROUNDING: f64 = 1e-9;

pub(super) fn in_range(case: &Case<'_>) -> Lawful {
    for mended in case.mended() {
        let (least, most) = mended.remedy.knob.range(&case.piece);
        let rounding = ROUNDING * (most - least);
        if !(least - rounding..=most + rounding).contains(&mended.remedy.to) {
            return Err(mended.fault(case, &format!("is out of its range of {least} to {most}")));
        }
    }
    Ok(())
}

pub(super) fn cures(case: &Case<'_>) -> Lawful {
    for mended in case.mended() {
        let Some((_, after)) = &mended.turned else { return Err(mended.fault(case, "makes no piece")) };
        if !mended.cured(case, after) {
            let left = after.verdict(mended.card.id, mended.part);
            return Err(mended.fault(case, &format!("does not cure: {:?} becomes {left:?}", mended.before)));
        }
    }
    Ok(())
}

pub(super) fn tight(case: &Case<'_>) -> Lawful {
    for mended in case.mended() {
        let remedy = &mended.remedy;
        let Turn::Continuous { step } = remedy.knob.turns(&case.piece) else { continue };
        // A little more than a step: where one step less is just at a limit, rounding must not decide.
        let back = remedy.to - ((1.0 + ROUNDING) * step).copysign(remedy.to - remedy.from);
        // A remedy within one step of where the knob stands cannot be smaller.
        if (back - remedy.from) * (remedy.to - remedy.from) <= 0.0 {
            continue;
        }
        let less = case.bench.turn(&case.piece, remedy.knob, back);
        if less.is_some_and(|piece| mended.cured(case, &case.judge_piece(&piece))) {
            return Err(mended.fault(case, &format!("is not tight: {} cures as well", remedy.knob.measure(&case.piece, back))));
        }
    }
    Ok(())
}

pub(super) fn idempotent(case: &Case<'_>) -> Lawful {
    for mended in case.mended() {
        let Some((piece, after)) = &mended.turned else { continue };
        let knob = mended.remedy.knob;
        // A note that may remain is another matter to mend.
        let left = after.blame(mended.card.id, mended.part).is_some_and(|verdict| verdict > Verdict::Pass);
        let again = || case.bench.remedies(case, piece, after, &[(mended.card, mended.part)]);
        if !left && again().iter().any(|remedies| !remedies.is_empty()) {
            return Err(mended.fault(case, "leaves nothing to mend, yet a remedy is offered again"));
        }
        // What was added stands in the recipe, and is no addition any more.
        let there = knob.get(piece).is_some();
        if there && case.bench.turn(piece, knob, mended.remedy.to).as_ref() != Some(piece) {
            return Err(mended.fault(case, "changes the piece again when it is done again"));
        }
    }
    Ok(())
}

pub(super) fn harmless(case: &Case<'_>) -> Lawful {
    for mended in case.mended() {
        let Some((_, after)) = &mended.turned else { continue };
        for reading in &after.readings {
            let (rule, part) = (reading.rule.id, reading.part);
            let worse = after.verdict(rule, part).filter(|now| *now > case.findings.verdict(rule, part).unwrap_or(Verdict::Pass));
            let Some(worse) = worse else { continue };
            let told = mended.remedy.upsets.iter().any(|upset| (upset.rule, upset.part, upset.verdict) == (rule, part, Some(worse)));
            if !told {
                return Err(mended.fault(case, &format!("does not say that `{rule}` becomes a {worse:?} on {}", place(part))));
            }
        }
        for unknown in &after.unknown {
            let (rule, part) = (unknown.rule.id, unknown.part);
            let was = case.findings.unknown.iter().any(|before| (before.rule.id, before.part) == (rule, part));
            let told = mended.remedy.upsets.iter().any(|upset| (upset.rule, upset.part) == (rule, part));
            if !was && !told {
                return Err(mended.fault(case, &format!("does not say that `{rule}` can no longer be judged on {}", place(part))));
            }
        }
    }
    Ok(())
}

impl Mended {
    /// Nothing worse is left than is allowed, and nothing lacks that was there. Only a choice (another way of sale) may leave the rule nothing to read.
    fn cured(&self, case: &Case<'_>, after: &Findings) -> bool {
        let choice = self.remedy.knob.turns(&case.piece) == Turn::Whole;
        let allowed = if self.before > Verdict::Note { Verdict::Note } else { Verdict::Pass };
        let missing = |findings: &Findings| findings.missing(self.card.id, self.part);
        let unknown = !missing(after).is_within(missing(&case.findings));
        !unknown && after.blame(self.card.id, self.part).map_or(choice, |verdict| verdict <= allowed)
    }

    fn fault(&self, case: &Case<'_>, what: &str) -> Fault {
        let set = |piece: &Piece, to: f64| self.remedy.knob.measure(piece, to);
        let (from, to) = (set(&case.piece, self.remedy.from), set(&case.piece, self.remedy.to));
        Fault::new(self.card.id, format!("{} from {from} to {to} {what}", self.remedy.knob.label(&case.piece)))
    }
}
