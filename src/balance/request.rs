//! What is asked for: ingredients with their bounds, and the shares that are wanted.

use super::fault::{BalanceError, BalanceFault};
use super::{Answer, Share};
use crate::matter::{AllergenSet, Ingredient};
use crate::units::{Checked, Choice, MassFraction, Measure, Portion, Unit, WaterActivity};
use std::sync::Arc;

/// A balance that is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// What is to be made.
    pub name: String,
    /// How much of it.
    pub batch: Portion,
    /// What it may be made from.
    pub lines: Vec<Line>,
    /// What shares are wanted of it.
    pub targets: Vec<Target>,
    /// Allergens that no ingredient used may bring.
    pub free_from: AllergenSet,
    /// The water activity it should not exceed. It is not linear in the masses: nothing is sought by it, the recipe found is held against it.
    pub water_activity: Option<WaterActivity>,
}

/// An ingredient that may be used.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The ingredient.
    pub ingredient: Arc<Ingredient>,
    /// The least of it that goes in; nothing is ever taken away.
    pub least: Portion,
    /// The most of it; up to the whole batch if not said.
    pub most: Option<Portion>,
    /// What it usually is: among recipes that are as good, the one nearest to the usual masses is taken.
    pub usual: Option<Portion>,
    /// Whether it is crossed out.
    pub forbidden: bool,
}

/// A share that is wanted, between two ends; where they are equal, it is wanted exactly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Target {
    /// Of what.
    pub share: Share,
    /// At least so much.
    pub least: MassFraction,
    /// At most so much.
    pub most: MassFraction,
    /// How much a miss of it counts beside those of the others, each being squared: above zero, usually 1.
    pub weight: f64,
}

impl Line {
    /// An ingredient that may be used at will.
    #[must_use]
    pub fn of(ingredient: Arc<Ingredient>) -> Self {
        Self { ingredient, least: Portion::nearest(0.0), most: None, usual: None, forbidden: false }
    }

    /// Of which exactly so much goes in.
    #[must_use]
    pub fn fixed(self, mass: Portion) -> Self {
        Self { least: mass, most: Some(mass), ..self }
    }

    /// Of which at least so much goes in.
    #[must_use]
    pub fn at_least(self, mass: Portion) -> Self {
        Self { least: mass, ..self }
    }

    /// Of which at most so much goes in.
    #[must_use]
    pub fn at_most(self, mass: Portion) -> Self {
        Self { most: Some(mass), ..self }
    }

    /// Of which there usually is so much.
    #[must_use]
    pub fn usually(self, mass: Portion) -> Self {
        Self { usual: Some(mass), ..self }
    }

    /// Crossed out.
    #[must_use]
    pub fn forbidden(self) -> Self {
        Self { forbidden: true, ..self }
    }
}

impl Target {
    /// Wanted exactly.
    #[must_use]
    pub const fn exactly(share: Share, value: MassFraction) -> Self {
        Self { share, least: value, most: value, weight: 1.0 }
    }

    /// Wanted between two ends.
    #[must_use]
    pub const fn between(share: Share, least: MassFraction, most: MassFraction) -> Self {
        Self { share, least, most, weight: 1.0 }
    }

    /// Counting so much beside the others.
    #[must_use]
    pub const fn weighing(self, weight: f64) -> Self {
        Self { weight, ..self }
    }
}

impl Request {
    /// A request that names no ingredient and no target yet.
    #[must_use]
    pub fn named(name: impl Into<String>, batch: Portion) -> Self {
        Self { name: name.into(), batch, lines: Vec::new(), targets: Vec::new(), free_from: AllergenSet::EMPTY, water_activity: None }
    }

    /// With one more ingredient.
    #[must_use]
    pub fn with_line(mut self, line: Line) -> Self {
        self.lines.push(line);
        self
    }

    /// With one more share that is wanted.
    #[must_use]
    pub fn with_target(mut self, target: Target) -> Self {
        self.targets.push(target);
        self
    }

    /// The masses that meet every target, or that miss them least.
    ///
    /// Where the targets can all be met, of all recipes that do so the one is taken whose masses are nearest to the usual ones (least sum of
    /// squares; an ingredient without a usual mass has none): where nothing is usual, ingredients that can stand in for one another share
    /// their work evenly. Where they cannot, the weighted sum of the squared misses, in percentage points, is the least there is; and of the
    /// recipes that miss no more, the same one is taken.
    ///
    /// # Errors
    /// [`BalanceError`], with everything for which no recipe can be sought: bounds that contradict each other or the batch, a target that no
    /// mixture of these ingredients can reach even by itself.
    pub fn solve(&self) -> Result<Answer, BalanceError> {
        let faults = self.faults();
        if faults.is_empty() { Answer::of(self) } else { Err(BalanceError { faults }) }
    }

    /// Whether a line may be used.
    pub(super) fn allows(&self, line: &Line) -> bool {
        !line.forbidden && line.ingredient.allergens.intersection(self.free_from).is_empty()
    }

    /// The least and the most of a line, as shares of the batch.
    pub(super) fn bounds(&self, line: &Line) -> (f64, f64) {
        let batch = self.batch.base();
        if self.allows(line) { (line.least.base() / batch, line.most.map_or(1.0, |most| most.base() / batch)) } else { (0.0, 0.0) }
    }

    /// The share of a target in each line. Faults see to it that it can be told.
    pub(super) fn contents(&self, share: Share) -> Vec<f64> {
        self.lines.iter().map(|line| share.of(&line.ingredient.composition).unwrap_or(0.0)).collect()
    }

    fn faults(&self) -> Vec<BalanceFault> {
        let mut faults = Vec::new();
        if self.batch.base() <= 0.0 {
            faults.push(BalanceFault::NoBatch);
        }
        if !self.lines.iter().any(|line| self.allows(line)) {
            faults.push(BalanceFault::NoIngredients);
        }
        if self.targets.is_empty() {
            faults.push(BalanceFault::NoTargets);
        }
        for (index, line) in self.lines.iter().enumerate() {
            faults.extend(self.fault_of_line(line));
            if self.lines.iter().take(index).any(|other| other.ingredient.name == line.ingredient.name) {
                faults.push(BalanceFault::RepeatedIngredient { ingredient: line.ingredient.name.clone() });
            }
        }
        for (index, target) in self.targets.iter().enumerate() {
            faults.extend(self.fault_of_target(target));
            if self.targets.iter().take(index).any(|other| other.share == target.share) {
                faults.push(BalanceFault::RepeatedTarget { share: target.share });
            }
        }
        if faults.is_empty() {
            self.faults_of_batch(&mut faults);
        }
        if faults.is_empty() {
            faults.extend(self.targets.iter().filter_map(|target| self.out_of_reach(target)));
        }
        faults
    }

    fn fault_of_line(&self, line: &Line) -> Option<BalanceFault> {
        let ingredient = || line.ingredient.name.clone();
        if let Some(most) = line.most.filter(|most| line.least > *most) {
            return Some(BalanceFault::Bounds { ingredient: ingredient(), least: grams(line.least), most: grams(most) });
        }
        if line.least.base() <= 0.0 {
            return None;
        }
        if line.forbidden {
            return Some(BalanceFault::ForbiddenNeeded { ingredient: ingredient(), least: grams(line.least) });
        }
        let words: Vec<_> = line.ingredient.allergens.intersection(self.free_from).iter().map(Choice::key).collect();
        (!words.is_empty()).then(|| BalanceFault::AllergenNeeded {
            ingredient: ingredient(),
            least: grams(line.least),
            allergens: words.join(" and "),
        })
    }

    fn fault_of_target(&self, target: &Target) -> Option<BalanceFault> {
        let share = target.share;
        if !(target.weight > 0.0 && target.weight.is_finite()) {
            return Some(BalanceFault::Weight { share, found: target.weight });
        }
        if target.least > target.most {
            let [least, most] = [target.least, target.most].map(|end| end.measure(Unit::Percent));
            return Some(BalanceFault::Ends { share, least, most });
        }
        let used = || self.lines.iter().filter(|line| self.allows(line));
        if let Some(line) = used().find(|line| share.of(&line.ingredient.composition).is_none()) {
            return Some(BalanceFault::Untold { share, ingredient: line.ingredient.name.clone() });
        }
        let held = used().any(|line| share.of(&line.ingredient.composition).is_some_and(|held| held > 0.0));
        (target.least.base() > 0.0 && !held && used().next().is_some())
            .then(|| BalanceFault::NoneHolds { share, wanted: target.least.measure(Unit::Percent) })
    }

    /// What goes in at least and at most must leave room for the batch.
    fn faults_of_batch(&self, faults: &mut Vec<BalanceFault>) {
        let (least, most) =
            self.lines.iter().map(|line| self.bounds(line)).fold((0.0, 0.0), |sum, (least, most)| (sum.0 + least, sum.1 + most));
        let weighed = |share: f64| Measure::from_base(share * self.batch.base(), Unit::Gram);
        if least > 1.0 + ROUNDING {
            faults.push(BalanceFault::TooHeavy { least: weighed(least), batch: grams(self.batch) });
        } else if most < 1.0 - ROUNDING {
            faults.push(BalanceFault::TooLight { most: weighed(most), batch: grams(self.batch) });
        }
    }

    /// A target that cannot be reached even if nothing else were wanted.
    fn out_of_reach(&self, target: &Target) -> Option<BalanceFault> {
        let (lowest, highest) = self.reach(target.share);
        let out = target.least.base() > highest + ROUNDING || target.most.base() < lowest - ROUNDING;
        let percent = |share: f64| Measure::from_base(share, Unit::Percent);
        out.then(|| BalanceFault::OutOfReach {
            share: target.share,
            least: target.least.measure(Unit::Percent),
            most: target.most.measure(Unit::Percent),
            lowest: percent((lowest * 1e4).ceil() / 1e4),
            highest: percent((highest * 1e4).floor() / 1e4),
        })
    }

    /// The lowest and the highest share that these ingredients can make within their bounds: after the least of each, the batch is filled up
    /// from those that hold least, or most.
    fn reach(&self, share: Share) -> (f64, f64) {
        let held = self.contents(share);
        let mut lines: Vec<_> = held.iter().copied().zip(self.lines.iter().map(|line| self.bounds(line))).collect();
        lines.sort_by(|(one, _), (two, _)| one.total_cmp(two));
        let filled = |order: &mut dyn Iterator<Item = &(f64, (f64, f64))>, needed: f64| {
            let mut room = 1.0 - needed;
            let mut sum = 0.0;
            for (held, (least, most)) in order {
                let more = (most - least).min(room).max(0.0);
                room -= more;
                sum += held * (least + more);
            }
            sum
        };
        let needed: f64 = lines.iter().map(|(_, (least, _))| least).sum();
        (filled(&mut lines.iter(), needed), filled(&mut lines.iter().rev(), needed))
    }
}

/// How much sums of shares may be off by rounding.
const ROUNDING: f64 = 1e-9;

fn grams(mass: Portion) -> Measure {
    mass.measure(Unit::Gram)
}
