//! One candidate after the other on the same piece, assessment and tally.

use super::{Found, Screen};
use crate::assess::{Assessed, Assessment, Changes, assess_into, reassess_into};
use crate::engine::{Tally, Verdict};
use crate::piece::{Knob, Piece};

/// Where candidates are tried.
pub(super) struct Trial<'a> {
    screen: &'a Screen<'a>,
    knobs: Vec<Knob>,
    /// Whether what a knob makes depends on what was turned before, so that each candidate starts from the piece as it was described.
    afresh: bool,
    piece: Piece,
    assessment: Assessment,
    tally: Tally,
}

impl<'a> Trial<'a> {
    pub(super) fn new(screen: &'a Screen<'a>, knobs: Option<&[Knob]>) -> Self {
        let mut trial = Self {
            screen,
            knobs: knobs.unwrap_or_default().to_vec(),
            afresh: false,
            piece: screen.piece.clone(),
            assessment: Assessment::default(),
            tally: Tally::default(),
        };
        trial.afresh = depend_on_each_other(&trial.knobs);
        if knobs.is_some() {
            assess_into(&trial.piece, &mut trial.assessment);
        }
        trial
    }

    /// What is found with the knobs turned; only what depends on them is assessed again.
    pub(super) fn turned(&mut self, settings: &[f64]) -> Option<Found> {
        if self.afresh {
            self.piece.clone_from(self.screen.piece);
        }
        for (knob, to) in self.knobs.iter().zip(settings) {
            knob.turn(&mut self.piece, *to)?;
        }
        let changes = reassess_into(&self.piece, &self.knobs, &mut self.assessment);
        Some(self.judge(&changes))
    }

    /// What is found of another piece.
    pub(super) fn of(&mut self, piece: &Piece) -> Found {
        assess_into(piece, &mut self.assessment);
        self.judge(&Changes::EVERYTHING)
    }

    fn judge(&mut self, changes: &Changes) -> Found {
        let screen = self.screen;
        screen.gauge.judge_again(&self.assessment, changes, &mut self.tally);
        let marks = self.tally.marks();
        let mut worst = (Verdict::Pass, None);
        for (((card, _), accepted), mark) in screen.gauge.limits().iter().zip(&screen.accepted).zip(marks) {
            match mark {
                Some(mark) if mark.verdict > worst.0 && (mark.verdict == Verdict::Fail || !accepted) => worst = (mark.verdict, Some(*card)),
                _ => {}
            }
        }
        let estimate = |(part, quantity): &(_, _)| self.assessment.part(*part).map_or(Assessed::Absent, |part| part.get(*quantity));
        Found {
            verdict: worst.0,
            worst: worst.1,
            unknown: self.tally.is_unknown(),
            estimates: screen.estimates.iter().map(estimate).collect(),
            marks: screen.limits.iter().map(|place| marks.get(*place).copied().flatten()).collect(),
        }
    }
}

/// Whether turning these one after the other, again and again, would not come to the same as turning them on the piece as described.
fn depend_on_each_other(knobs: &[Knob]) -> bool {
    // Whether a recipe can be made depends on all of its numbers; an amount is one thing or another.
    let shared = |knob: &Knob| match *knob {
        Knob::IngredientMass(layer, _) | Knob::CookedMass(layer) => Some((layer, 0)),
        Knob::FillDepth(layer) | Knob::LayerAmount(layer) => Some((layer, 1)),
        _ => None,
    };
    let meets = |(at, knob): (usize, &Knob)| knobs.iter().skip(at + 1).any(|other| shared(knob).is_some() && shared(knob) == shared(other));
    knobs.iter().any(|knob| knob.builds_on()) || knobs.iter().enumerate().any(meets)
}
