//! What a request comes to: masses, what they reach, what binds, and which concession would free it.

use super::fault::{BalanceError, BalanceFault};
use super::program::{Program, Row, Solution, Unsolved};
use super::request::{Line, Request, Target};
use crate::matter::{Recipe, RecipeLine, Role};
use crate::units::{Checked, MassFraction, Portion};
use std::sync::Arc;

/// A miss smaller than this, in percentage points, is none: a milligram in a kilogram.
const MET: f64 = 1e-4;
/// Masses nearer to a bound than this share of the batch stand on it.
const ON_BOUND: f64 = 1e-7;
/// How far a share that was reached may give way when the recipe is chosen, as a fraction; where there is room it is kept so far inside, so that
/// rounding carries no recipe over the end it was to keep.
const SLACK: f64 = 1e-8;
/// A bound that the squared misses press on by less than this, per batch, holds nothing back.
const PRESSES: f64 = 1e-4;
/// An ingredient of which more than this is salt or acid only seasons.
const SEASONS: f64 = 0.3;

/// A recipe with the shares that were wanted, or as near to them as can be.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// What to weigh, in the order of the request's lines; zero where a line is not used.
    pub masses: Vec<Portion>,
    /// What is reached, in the order of the request's targets.
    pub reached: Vec<Reached>,
    /// The bounds of ingredients that the recipe stands on, fixed masses left out.
    pub active: Vec<Active>,
    /// Where not everything is met: each single concession after which all else can be met.
    pub concessions: Vec<Concession>,
    recipe: Recipe,
}

/// What is reached of a target.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reached {
    /// The share reached.
    pub share: MassFraction,
    /// By how much of the whole it lies above (positive) or below (negative) what is wanted; zero where the target is met.
    pub miss: f64,
}

/// One end of a range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The least.
    Least,
    /// The most.
    Most,
}

/// A bound that a recipe stands on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Active {
    /// The line, counted from zero.
    pub line: usize,
    /// Which of its bounds. The least of a line that asks for nothing is zero.
    pub end: End,
    /// Whether it holds the targets back: beyond it they would be missed by less.
    pub holds_back: bool,
}

/// A single change of the request after which every target is met.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Concession {
    /// One target is wanted otherwise, by as little as will do.
    Target {
        /// The target, counted from zero.
        target: usize,
        /// The share that would have to do.
        to: MassFraction,
    },
    /// A bound of an ingredient gives way, by as little as will do.
    Bound {
        /// The line, counted from zero.
        line: usize,
        /// Which of its bounds.
        end: End,
        /// Where it would have to be.
        to: Portion,
    },
    /// Something else goes in that holds nothing of what is wanted, as little as will do.
    Filler {
        /// How much of it.
        mass: Portion,
    },
}

impl Answer {
    /// Whether every target is met.
    #[must_use]
    pub fn is_met(&self) -> bool {
        self.reached.iter().all(Reached::is_met)
    }

    /// The recipe, without the lines that are not used.
    #[must_use]
    pub fn recipe(&self) -> &Recipe {
        &self.recipe
    }

    pub(super) fn of(request: &Request) -> Result<Self, BalanceError> {
        let bench = Bench { request, contents: request.targets.iter().map(|target| request.contents(target.share)).collect() };
        bench.answer().map_err(|unsolved| {
            let status = match unsolved {
                Unsolved::Infeasible => "infeasible".into(),
                Unsolved::GaveUp(status) => format!("{status:?}"),
            };
            BalanceError { faults: vec![BalanceFault::Solver { status }] }
        })
    }
}

impl Reached {
    /// Whether the target is met.
    #[must_use]
    pub fn is_met(&self) -> bool {
        self.miss.abs() <= 0.0
    }

    fn of(target: &Target, share: f64) -> Self {
        let miss = share - share.clamp(target.least.base(), target.most.base());
        let miss = if 100.0 * miss.abs() <= MET { 0.0 } else { miss };
        Self { share: MassFraction::nearest(share), miss }
    }
}

/// Where programmes are made. Their first variables are the shares of the batch that the lines take.
struct Bench<'a> {
    request: &'a Request,
    /// For each target what every line holds of it.
    contents: Vec<Vec<f64>>,
}

impl Bench<'_> {
    #[allow(clippy::float_cmp, reason = "a share within the ends is left as it is by clamping")]
    fn answer(&self) -> Result<Answer, Unsolved> {
        let exact: Vec<_> = self.request.targets.iter().map(|target| (target.least.base(), target.most.base())).collect();
        // Whether all can be met is asked by a linear programme, which tells it more sharply than squares that vanish.
        let (reached, pressed) = if self.least_sum_of_misses()? <= MET {
            (exact, vec![(0.0, 0.0); self.request.lines.len()])
        } else {
            // The misses of least squares are the same in every recipe that has them: what is missed stays where it is, what is met may move.
            let nearest = self.least_squares()?;
            let settled = exact
                .iter()
                .zip(self.shares(&nearest.values))
                .map(|((least, most), share)| if share.clamp(*least, *most) == share { (*least, *most) } else { (share, share) });
            (settled.collect(), nearest.forces.into_iter().take(self.request.lines.len()).collect())
        };
        let batch = self.request.batch.base();
        let shares = self.nearest_to_usual(&reached, -SLACK).or_else(|_| self.nearest_to_usual(&reached, SLACK))?;
        // Rounding must not carry a mass beyond the bound it stands on.
        let weighed = |(share, line): (&f64, &Line)| match self.request.bounds(line) {
            (_, most) if most <= 0.0 => Portion::nearest(0.0),
            _ => Portion::nearest((share * batch).max(line.least.base()).min(line.most.map_or(batch, Checked::base))),
        };
        let masses: Vec<_> = shares.iter().zip(&self.request.lines).map(weighed).collect();
        let reached: Vec<_> =
            self.request.targets.iter().zip(self.shares(&shares)).map(|(target, share)| Reached::of(target, share)).collect();
        let met = reached.iter().all(Reached::is_met);
        let used = self.request.lines.iter().zip(&masses).filter(|(_, mass)| mass.base() > 0.0);
        let lines = used.map(|(line, mass)| RecipeLine { ingredient: Arc::clone(&line.ingredient), mass: *mass }).collect();
        // The masses add up to a batch, which weighs something.
        let recipe = Recipe::new(lines, None).map_err(|_| Unsolved::Infeasible)?;
        Ok(Answer {
            active: self.active(&shares, &pressed),
            concessions: if met { Vec::new() } else { self.concessions() },
            masses,
            reached,
            recipe,
        })
    }

    /// What shares of the lines come to, for each target.
    fn shares(&self, lines: &[f64]) -> Vec<f64> {
        self.contents.iter().map(|held| held.iter().zip(lines).map(|(held, share)| held * share).sum()).collect()
    }

    fn count(&self) -> usize {
        self.request.lines.len()
    }

    /// A row for each line, which keeps it within its bounds, and one that fills the batch.
    fn mixture(&self) -> Vec<Row> {
        let bound = |(at, line): (usize, &Line)| {
            let (least, most) = self.request.bounds(line);
            Row { terms: vec![(at, 1.0)], least, most }
        };
        let whole = Row::equal((0..self.count()).map(|at| (at, 1.0)).collect(), 1.0);
        self.request.lines.iter().enumerate().map(bound).chain([whole]).collect()
    }

    /// A target's share, in percentage points.
    fn share(&self, target: usize) -> Vec<(usize, f64)> {
        let held = self.contents.get(target).into_iter().flatten().enumerate();
        held.filter(|(_, held)| **held > 0.0).map(|(at, held)| (at, 100.0 * held)).collect()
    }

    /// A row for each target, `extra` being taken from its share.
    fn wanted(&self, extra: impl Fn(usize) -> Vec<(usize, f64)>) -> Vec<Row> {
        let row = |(target, wanted): (usize, &Target)| {
            let terms = self.share(target).into_iter().chain(extra(target)).collect();
            Row { terms, least: 100.0 * wanted.least.base(), most: 100.0 * wanted.most.base() }
        };
        self.request.targets.iter().enumerate().map(row).collect()
    }

    /// The least that all misses together can come to, in percentage points: each is a variable for what is above, and one for what is below.
    fn least_sum_of_misses(&self) -> Result<f64, Unsolved> {
        let (lines, targets) = (self.count(), self.request.targets.len());
        let size = lines + 2 * targets;
        let mut rows = self.mixture();
        rows.extend(self.wanted(|target| vec![(lines + 2 * target, -1.0), (lines + 2 * target + 1, 1.0)]));
        rows.extend((lines..size).map(|at| Row { terms: vec![(at, 1.0)], least: 0.0, most: f64::INFINITY }));
        let linear = (0..size).map(|at| if at < lines { 0.0 } else { 1.0 }).collect();
        let solution = Program { squares: vec![0.0; size], linear, rows }.solve()?;
        Ok(solution.values.iter().skip(lines).sum())
    }

    /// The least weighted sum of squared misses: each miss is a variable, in percentage points.
    fn least_squares(&self) -> Result<Solution, Unsolved> {
        let (lines, targets) = (self.count(), self.request.targets.len());
        let mut rows = self.mixture();
        rows.extend(self.wanted(|target| vec![(lines + target, -1.0)]));
        let weights = self.request.targets.iter().map(|target| 2.0 * target.weight);
        Program { squares: std::iter::repeat_n(0.0, lines).chain(weights).collect(), linear: vec![0.0; lines + targets], rows }.solve()
    }

    /// Of the mixtures whose shares lie within these ends, and so much slack, the one nearest to the usual masses.
    fn nearest_to_usual(&self, ends: &[(f64, f64)], slack: f64) -> Result<Vec<f64>, Unsolved> {
        let batch = self.request.batch.base();
        let mut rows = self.mixture();
        for (target, (least, most)) in ends.iter().enumerate() {
            let slack = if most - least > 4.0 * SLACK { slack } else { SLACK };
            let least = if *least > 0.0 { 100.0 * (least - slack) } else { f64::NEG_INFINITY };
            let most = if *most < 1.0 { 100.0 * (most + slack) } else { f64::INFINITY };
            rows.push(Row { terms: self.share(target), least, most });
        }
        let usual = self.request.lines.iter().map(|line| -2.0 * line.usual.map_or(0.0, |usual| usual.base() / batch));
        let found = Program { squares: vec![2.0; self.count()], linear: usual.collect(), rows }.solve()?.values;
        let settled = found.iter().zip(&self.request.lines).map(|(share, line)| {
            let (least, most) = self.request.bounds(line);
            if share - least < ON_BOUND {
                least
            } else if most - share < ON_BOUND {
                most
            } else {
                *share
            }
        });
        Ok(settled.collect())
    }

    #[allow(clippy::float_cmp, reason = "masses near a bound were put on it")]
    fn active(&self, shares: &[f64], pressed: &[(f64, f64)]) -> Vec<Active> {
        let mut active = Vec::new();
        for (line, ((described, share), (down, up))) in self.request.lines.iter().zip(shares).zip(pressed).enumerate() {
            let (least, most) = self.request.bounds(described);
            if least >= most {
                continue;
            }
            if *share == least {
                active.push(Active { line, end: End::Least, holds_back: *down > PRESSES });
            } else if *share == most && described.most.is_some() {
                active.push(Active { line, end: End::Most, holds_back: *up > PRESSES });
            }
        }
        active
    }

    /// Every single concession that would do.
    fn concessions(&self) -> Vec<Concession> {
        let targets = (0..self.request.targets.len()).filter_map(|target| self.of_target(target));
        let lines = (0..self.count()).filter_map(|line| self.of_bound(line));
        targets.chain(lines).chain(self.of_filler()).collect()
    }

    /// What a target would have to be, the others being met.
    fn of_target(&self, target: usize) -> Option<Concession> {
        let (above, below) = (self.count(), self.count() + 1);
        let solution = self.concede(|at| if at == target { vec![(above, -1.0), (below, 1.0)] } else { Vec::new() }, self.mixture())?;
        let to = self.shares(&solution).get(target).copied()?;
        Some(Concession::Target { target, to: MassFraction::nearest(to) })
    }

    /// Where a bound of a line would have to be. What is forbidden stays so, nothing goes below zero, and nobody fills up with salt or acid.
    fn of_bound(&self, line: usize) -> Option<Concession> {
        let described = self.request.lines.get(line).filter(|line| self.request.allows(line))?;
        if described.ingredient.composition.of_role(Role::Electrolyte) > SEASONS {
            return None;
        }
        let (least, most) = self.request.bounds(described);
        if least <= 0.0 && most >= 1.0 {
            return None;
        }
        let mut rows = self.mixture();
        let bound = rows.get_mut(line)?;
        *bound = Row { terms: vec![(line, 1.0), (self.count(), -1.0), (self.count() + 1, 1.0)], least, most };
        rows.push(Row { terms: vec![(line, 1.0)], least: 0.0, most: 1.0 });
        let to = self.concede(|_| Vec::new(), rows)?.get(line).copied()?;
        let end = if to < least { End::Least } else { End::Most };
        Some(Concession::Bound { line, end, to: Portion::nearest(to.max(0.0) * self.request.batch.base()) })
    }

    /// How much of something that holds nothing of what is wanted would have to go in.
    fn of_filler(&self) -> Option<Concession> {
        let mut rows = self.mixture();
        rows.get_mut(self.count())?.terms.push((self.count(), 1.0));
        let filler = self.concede(|_| Vec::new(), rows)?.get(self.count()).copied()?;
        Some(Concession::Filler { mass: Portion::nearest(filler * self.request.batch.base()) })
    }

    /// The mixture that meets every target by the least of two concessions, the last two variables; none where even that is not enough.
    fn concede(&self, extra: impl Fn(usize) -> Vec<(usize, f64)>, mut rows: Vec<Row>) -> Option<Vec<f64>> {
        let lines = self.count();
        rows.extend(self.wanted(extra));
        rows.extend((lines..lines + 2).map(|at| Row { terms: vec![(at, 1.0)], least: 0.0, most: f64::INFINITY }));
        let linear = std::iter::repeat_n(0.0, lines).chain([1.0, 1.0]).collect();
        Program { squares: vec![0.0; lines + 2], linear, rows }.solve().ok().map(|solution| solution.values)
    }
}
