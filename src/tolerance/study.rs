//! A piece, each of its causes turned a little to either side, and what the rules make of it.

use super::probability::{all_hold, holds};
use super::{Care, Cause};
use crate::assess::{Assessment, Part, Quantity, assess_into};
use crate::engine::{Bounds, Card, Findings, Limit, Reading, RuleSet, RuleSetError, Verdict};
use crate::piece::Piece;

/// A change is not straight where it bends by more than this share of the spread.
const BENDS: f64 = 0.25;
/// How many batches are drawn where rules are taken together, and from what seed.
const DRAWS: u32 = 4000;
const SEED: u64 = 1;

/// How a piece fares from batch to batch.
#[derive(Debug, Clone)]
pub struct Study {
    /// What differs from batch to batch, each with its standard uncertainty in the base unit.
    pub causes: Vec<(Cause, f64)>,
    /// What each rule makes of each part it reads; those that fewest batches pass first.
    pub rules: Vec<RuleStudy>,
    /// Share of batches in which every rule that passes on the piece as described passes, causes being common to all rules. Counted in drawn
    /// batches from a fixed seed, to about 1 in 100.
    pub all_pass: f64,
}

/// What batches come to by one rule on one part.
#[derive(Debug, Clone)]
pub struct RuleStudy {
    /// The rule.
    pub rule: &'static Card,
    /// The part.
    pub part: Part,
    /// The verdict on the piece as described.
    pub verdict: Verdict,
    /// Share of batches that the rule passes, as it judges: the band of the estimate, which is common to all batches, counts as it does in the
    /// verdict. At least that, where several quantities are read. A batch that leaves the range a model was tested in is not lost by that: it
    /// is the estimate that is then in doubt.
    pub batches: f64,
    /// How likely it is that the described piece lies on the legal side, its estimates being uncertain and nothing else: true of all batches
    /// together or of none.
    pub estimate: f64,
    /// How likely it is that a batch lies on the legal side, both counted. It is no share of batches.
    pub either: f64,
    /// The limit that fewest batches keep.
    pub limit: &'static Limit,
    /// What makes batches differ in that limit's value: the share of the variance of each cause, the largest first.
    pub causes: Vec<(Cause, f64)>,
    rough: bool,
}

impl RuleStudy {
    /// Whether some change is far from straight, or a limit is read in some batches and not in others: the shares are then rough.
    #[must_use]
    pub const fn is_rough(&self) -> bool {
        self.rough
    }
}

impl Study {
    /// Studies a piece by a set of rules.
    ///
    /// # Errors
    /// [`RuleSetError`] when the piece names a profile, a limit or a rule that is not there.
    pub fn of(piece: &Piece, rules: &RuleSet, care: &Care) -> Result<Self, RuleSetError> {
        let mut bench = Bench { rules, bounds: rules.bounds(piece)?, assessment: Assessment::default() };
        let described = bench.judged(piece);
        let causes = Cause::all(piece, care);
        let told = described.readings.iter().filter(|reading| !is_settled(reading));
        let mut gauges: Vec<_> = told.map(|reading| Gauge { reading, changes: Vec::new(), rough: false }).collect();
        for (cause, spread) in &causes {
            let [above, below] = [*spread, -spread].map(|by| cause.shifted(piece, by).map(|shifted| bench.judged(&shifted)));
            gauges.iter_mut().for_each(|gauge| gauge.turn(*cause, above.as_ref(), below.as_ref()));
        }
        bench.find_steps(piece, &causes, &mut gauges);
        let mut studies: Vec<RuleStudy> = Vec::new();
        for gauge in &gauges {
            let reading = gauge.reading;
            if !studies.iter().any(|study| study.rule.id == reading.rule.id && study.part == reading.part) {
                let own: Vec<_> = gauges.iter().filter(|other| other.is_with(reading)).collect();
                studies.extend(studied(&own));
            }
        }
        studies.sort_by(|one, two| one.batches.total_cmp(&two.batches));
        let passing: Vec<_> =
            gauges.iter().filter(|gauge| studies.iter().any(|study| study.verdict == Verdict::Pass && gauge.is_of(study))).collect();
        let all_pass = all_pass(&passing, &causes);
        Ok(Self { causes, rules: studies, all_pass })
    }

    /// The rules that pass on the piece as described.
    pub fn passing(&self) -> impl Iterator<Item = &RuleStudy> {
        self.rules.iter().filter(|study| study.verdict == Verdict::Pass)
    }

    /// What a rule makes of a part.
    #[must_use]
    pub fn rule(&self, id: &str, part: Part) -> Option<&RuleStudy> {
        self.rules.iter().find(|study| study.rule.id == id && study.part == part)
    }
}

/// Whether no batch can change it: good enough and yet no pass, as a limit that is recalled never passes.
fn is_settled(reading: &Reading) -> bool {
    reading.slack() >= 0.0 && reading.verdict > Verdict::Pass && reading.value.in_range
}

struct Bench<'a> {
    rules: &'a RuleSet,
    bounds: Bounds,
    assessment: Assessment,
}

impl Bench<'_> {
    fn judged(&mut self, piece: &Piece) -> Findings {
        let mut findings = Findings::default();
        assess_into(piece, &mut self.assessment);
        self.rules.judge(&self.assessment, &self.bounds, &mut findings);
        findings
    }

    /// How long a filling keeps goes by steps of its water activity, which no cause may reach by itself and several together do: where each layer's
    /// activity is off by two of its standard deviations, what stood still and is kept there though not here, or the other way, is rough.
    fn find_steps(&mut self, piece: &Piece, causes: &[(Cause, f64)], gauges: &mut [Gauge<'_>]) {
        for layer in 0..piece.layers.len() {
            let part = Part::Layer(layer);
            let of_activity = |gauge: &&Gauge<'_>| {
                gauge.reading.part == part && gauge.reading.bound.quantity == Quantity::WaterActivity && !gauge.is_still()
            };
            let Some(activity) = gauges.iter().find(of_activity) else { continue };
            let deviation = activity.spread(|change| change.slack);
            let towards: Vec<_> = activity.changes.iter().map(|change| (change.cause, change.slack / deviation)).collect();
            for far in [2.0, -2.0] {
                let shifted = causes.iter().fold(piece.clone(), |piece, (cause, spread)| {
                    let along = towards.iter().find(|(other, _)| other == cause).map_or(0.0, |(_, along)| *along);
                    cause.shifted(&piece, far * along * spread).unwrap_or(piece)
                });
                let found = self.judged(&shifted);
                for gauge in gauges.iter_mut().filter(|gauge| gauge.reading.part == part && gauge.is_still()) {
                    let there = gauge.again(&found).map(|reading| reading.slack() >= 0.0);
                    gauge.rough |= there.is_some_and(|kept| kept != (gauge.reading.slack() >= 0.0));
                }
            }
        }
    }
}

/// One reading, and how much it changes as each cause is off by one standard uncertainty.
struct Gauge<'a> {
    reading: &'a Reading,
    changes: Vec<Change>,
    rough: bool,
}

struct Change {
    cause: Cause,
    slack: f64,
    margin: f64,
    /// How far the slack is from changing straight.
    bend: f64,
}

impl Gauge<'_> {
    fn is_with(&self, reading: &Reading) -> bool {
        self.reading.rule.id == reading.rule.id && self.reading.part == reading.part
    }

    fn is_of(&self, study: &RuleStudy) -> bool {
        self.reading.rule.id == study.rule.id && self.reading.part == study.part
    }

    /// The same limit, read again.
    fn again<'f>(&self, findings: &'f Findings) -> Option<&'f Reading> {
        let same = |other: &&Reading| {
            other.limit.key == self.reading.limit.key && other.bound.row == self.reading.bound.row && self.is_with(other)
        };
        findings.readings.iter().find(same)
    }

    fn turn(&mut self, cause: Cause, above: Option<&Findings>, below: Option<&Findings>) {
        let read =
            |findings: Option<&Findings>| findings.map(|findings| self.again(findings).map(|reading| (reading.slack(), reading.margin)));
        let here = (self.reading.slack(), self.reading.margin);
        let change = |(up, down, reach): ((f64, f64), (f64, f64), f64)| Change {
            cause,
            slack: (up.0 - down.0) / reach,
            margin: (up.1 - down.1) / reach,
            bend: (up.0 + down.0 - 2.0 * here.0) / 2.0,
        };
        let found = match (read(above), read(below)) {
            // Where one way makes no piece, the other tells the change.
            (None, None) => None,
            (Some(Some(up)), Some(Some(down))) => Some((up, down, 2.0)),
            (Some(Some(up)), None) => Some((up, here, 1.0)),
            (None, Some(Some(down))) => Some((here, down, 1.0)),
            // Read in some batches and not in others.
            (Some(None), _) | (_, Some(None)) => {
                self.rough = true;
                None
            }
        };
        let found = found.map(change).filter(|change| change.slack.abs() > 0.0 || change.margin.abs() > 0.0 || change.bend.abs() > 0.0);
        self.changes.extend(found);
    }

    /// Whether no cause by itself moves it.
    fn is_still(&self) -> bool {
        self.changes.iter().all(|change| change.slack.abs() <= 0.0)
    }

    fn spread(&self, of: impl Fn(&Change) -> f64) -> f64 {
        self.changes.iter().map(|change| of(change).powi(2)).sum::<f64>().sqrt()
    }

    /// The standard uncertainty of the estimate, on the side that decides.
    fn of_estimate(&self) -> f64 {
        let reading = self.reading;
        let end = if reading.margin >= 0.0 { reading.margin - reading.assured } else { reading.hoped() - reading.margin };
        end / 2.0
    }

    /// Share of batches that keep this limit, as a verdict asks it.
    fn batches(&self) -> f64 {
        let slack = self.reading.slack();
        // Good enough and yet no pass: it may never pass, for want of range.
        if self.reading.verdict > Verdict::Pass && slack >= 0.0 { 0.0 } else { holds(slack, self.spread(|change| change.slack)) }
    }

    fn is_rough(&self) -> bool {
        let bends: f64 = self.changes.iter().map(|change| change.bend.abs()).sum();
        let slack = self.reading.slack().abs();
        // What is far from its limit either way may bend as it likes.
        let near = slack < 4.0 * (self.spread(|change| change.slack) + bends);
        self.rough || (near && bends > BENDS * self.spread(|change| change.slack))
    }
}

/// Share of drawn batches in which all of these keep their slack, each changing straight with every cause.
fn all_pass(gauges: &[&Gauge<'_>], causes: &[(Cause, f64)]) -> f64 {
    let place = |cause: Cause| causes.iter().position(|(other, _)| *other == cause);
    let at = |gauge: &&Gauge<'_>| gauge.changes.iter().filter_map(|change| Some((place(change.cause)?, change.slack))).collect::<Vec<_>>();
    // What never moves is kept in all batches.
    let moved: Vec<_> = gauges.iter().map(|gauge| (gauge.reading.slack(), at(gauge))).filter(|(_, changes)| !changes.is_empty()).collect();
    let mut chance = fastrand::Rng::with_seed(SEED);
    let mut off = vec![0.0; causes.len()];
    let kept = (0..DRAWS).filter(|_| {
        off.iter_mut().for_each(|off| *off = normal(&mut chance));
        let change = |changes: &[(usize, f64)]| changes.iter().map(|(at, slack)| slack * off.get(*at).copied().unwrap_or(0.0)).sum::<f64>();
        moved.iter().all(|(slack, changes)| slack + change(changes) >= 0.0)
    });
    kept.count() as f64 / f64::from(DRAWS)
}

/// A number of the standard normal distribution, by Box and Muller.
fn normal(chance: &mut fastrand::Rng) -> f64 {
    (-2.0 * (1.0 - chance.f64()).ln()).sqrt() * (std::f64::consts::TAU * chance.f64()).cos()
}

/// What batches come to by the limits of one rule on one part.
fn studied(gauges: &[&Gauge<'_>]) -> Option<RuleStudy> {
    let decisive = gauges.iter().min_by(|one, two| one.batches().total_cmp(&two.batches()))?;
    let reading = decisive.reading;
    let together = |share: &dyn Fn(&Gauge<'_>) -> f64| {
        all_hold(gauges.iter().map(|gauge| (gauge.reading.bound.quantity, gauge.reading.bound.side, share(gauge))))
    };
    let variance: f64 = decisive.spread(|change| change.slack).powi(2);
    let mut causes: Vec<_> = decisive.changes.iter().map(|change| (change.cause, change.slack.powi(2) / variance)).collect();
    causes.retain(|(_, share)| *share > 0.0);
    causes.sort_by(|(_, one), (_, two)| two.total_cmp(one));
    Some(RuleStudy {
        rule: reading.rule,
        part: reading.part,
        verdict: gauges.iter().map(|gauge| gauge.reading.verdict).max()?,
        batches: together(&|gauge| gauge.batches()),
        estimate: together(&|gauge| holds(gauge.reading.margin, gauge.of_estimate())),
        either: together(&|gauge| holds(gauge.reading.margin, gauge.spread(|change| change.margin).hypot(gauge.of_estimate()))),
        limit: reading.limit,
        causes,
        rough: gauges.iter().any(|gauge| gauge.is_rough()),
    })
}
