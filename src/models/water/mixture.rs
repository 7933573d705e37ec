//! What holds water in a filling of known composition, and the activity at which it, alone or with its neighbours, holds all of it.

use super::{Solute, Sorbent, SugarCrystal, WATER, dissolution::Saturation, minor_osmoles, root::increasing_root};
use crate::matter::{Composition, Constituent};
use crate::units::Temperature;
use smallvec::SmallVec;

/// All that holds water in a kilogram of a filling, in kilograms.
pub(super) struct Mixture {
    pub(super) water: f64,
    pub(super) solutes: PerSolute<Share>,
    pub(super) sorbents: SmallVec<[(f64, Sorbent); Sorbent::ALL.len()]>,
    /// Moles of minor solutes by the constituent they come with, as kilograms of water of as many moles.
    pub(super) osmoles: Osmoles,
}

pub(super) type PerSolute<T> = SmallVec<[T; Solute::ALL.len()]>;
pub(super) type Osmoles = SmallVec<[(Constituent, f64); 2]>;

/// What there is of a solute.
pub(super) struct Share {
    pub(super) solute: &'static Solute,
    pub(super) mass: f64,
    /// Beside which crystals it may lie; nothing if all of it always dissolves.
    saturation: Option<Saturation>,
}

/// What a mixture holds at one activity.
pub(super) struct Held {
    /// Water in solution and in solids, kg/kg.
    pub(super) water: f64,
    /// Its slope in `u = -ln a`.
    slope: f64,
    /// How much of each solute is dissolved.
    pub(super) dissolved: PerSolute<f64>,
}

/// A solute at one activity.
struct State {
    /// Particles if all of it dissolves, as kilograms of water of as many moles.
    particles: f64,
    /// The largest share of all dissolved particles it can make up beside its crystals, and the slope of it.
    ceiling: (f64, f64),
    /// Kilograms of water a dissolved kilogram holds, and the slope of it.
    held: (f64, f64),
}

impl Mixture {
    /// What a filling holds its water with; sugars crystallise as far as they would at a temperature, or not at all.
    pub(super) fn new(composition: &Composition, crystals_at: Option<Temperature>, osmoles: &Osmoles) -> Self {
        let mass = |constituent| Some(composition.of(constituent)).filter(|mass| *mass > 0.0);
        let saturation = |solute: &Solute| {
            let crystal = SugarCrystal::of(solute.constituent).filter(|crystal| crystal.leaves_solution())?;
            Some(Saturation::of(crystal, solute, crystals_at?))
        };
        let share = |solute| Some(Share { solute, mass: mass(solute.constituent)?, saturation: saturation(solute) });
        Self {
            water: composition.of(Constituent::Water),
            solutes: Solute::ALL.iter().filter_map(share).collect(),
            sorbents: Sorbent::ALL.iter().filter_map(|sorbent| Some((mass(sorbent.constituent)?, *sorbent))).collect(),
            osmoles: osmoles.clone(),
        }
    }

    /// An insoluble solid and its water.
    pub(super) fn solid(water: f64, sorbent: Sorbent) -> Self {
        Self { water, solutes: SmallVec::new(), sorbents: SmallVec::from_iter([(1.0 - water, sorbent)]), osmoles: SmallVec::new() }
    }

    /// The minor solutes of a composition.
    pub(super) fn osmoles_of(composition: &Composition) -> Osmoles {
        minor_osmoles(composition).map(|(constituent, moles)| (constituent, moles * WATER * 1e-3)).collect()
    }

    /// Whether nothing touches the water.
    pub(super) fn is_pure(&self) -> bool {
        self.solutes.is_empty() && self.sorbents.is_empty() && self.ideal() <= 0.0
    }

    /// All particles that could dissolve, as kilograms of water of as many moles.
    pub(super) fn particles(&self) -> f64 {
        self.ideal() + self.solutes.iter().map(|share| share.mass * share.solute.particles_per_mass()).sum::<f64>()
    }

    /// Particles of minor solutes, as kilograms of water of as many moles.
    fn ideal(&self) -> f64 {
        self.osmoles.iter().map(|(_, water)| water).sum()
    }

    /// Water in insoluble solids at activity `a`, and its slope in `a`.
    pub(super) fn sorbed(&self, a: f64) -> (f64, f64) {
        self.sorbents.iter().fold((0.0, 0.0), |(water, rise), (mass, sorbent)| {
            let (held, slope) = sorbent.held(a);
            (water + mass * held, rise + mass * slope)
        })
    }

    /// What is held at `u = -ln a`. It falls strictly, for less dissolves of a crystallising sugar and all that is dissolved holds less.
    fn held(&self, u: f64) -> Held {
        let states: PerSolute<State> = self.solutes.iter().map(|share| share.at(u)).collect();
        let (particles, particles_slope) = dissolved_particles(&states, self.ideal());
        let a = (-u).exp();
        let (sorbed, rise) = self.sorbed(a);
        let odds = 1.0 / u.exp_m1();
        let mut held =
            Held { water: sorbed + self.ideal() * odds, slope: -a * rise - self.ideal() * odds * (1.0 + odds), dissolved: SmallVec::new() };
        for (share, state) in self.solutes.iter().zip(&states) {
            let (ceiling, ceiling_slope) = state.ceiling;
            let (dissolved, slope) = if state.particles > ceiling * particles {
                let per_particle = 1.0 / share.solute.particles_per_mass();
                (per_particle * ceiling * particles, per_particle * (ceiling_slope * particles + ceiling * particles_slope))
            } else {
                (share.mass, 0.0)
            };
            held.water += dissolved * state.held.0;
            held.slope += slope * state.held.0 + dissolved * state.held.1;
            held.dissolved.push(dissolved);
        }
        held
    }
}

impl Share {
    fn at(&self, u: f64) -> State {
        let x = self.solute.fraction_at(u);
        State {
            particles: self.mass * self.solute.particles_per_mass(),
            ceiling: self.saturation.map_or((f64::INFINITY, 0.0), |saturation| saturation.ceiling(self.solute, u, x)),
            held: self.solute.held_at(x),
        }
    }
}

/// The dissolved particles and their slope: of each crystallising sugar no more than its ceiling among all of them.
///
/// Newton's method on a convex, piecewise straight function, from above: each step adds sugars to those at their ceiling, so that there are
/// at most as many steps as sugars and one more.
fn dissolved_particles(states: &[State], ideal: f64) -> (f64, f64) {
    let mut particles = states.iter().map(|state| state.particles).sum::<f64>() + ideal;
    loop {
        let (mut free, mut ceilings, mut slopes) = (ideal, 0.0, 0.0);
        for state in states {
            let (ceiling, slope) = state.ceiling;
            if state.particles > ceiling * particles {
                ceilings += ceiling;
                slopes += slope;
            } else {
                free += state.particles;
            }
        }
        let fewer = free / (1.0 - ceilings);
        if fewer < particles {
            particles = fewer;
        } else {
            return (particles, particles * slopes / (1.0 - ceilings));
        }
    }
}

/// Mixtures in contact, each with its mass.
pub(super) type Neighbours<'a> = [(f64, &'a Mixture)];

fn water_of(neighbours: &Neighbours<'_>) -> f64 {
    neighbours.iter().map(|(mass, mixture)| mass * mixture.water).sum()
}

/// Newton steps in `ln u` end below this.
const TOLERANCE: f64 = 1e-12;

/// `-ln a` at which mixtures that share their water come to rest: together they hold all of it. Hardly above zero where there is more than
/// they can hold.
pub(super) fn rest(neighbours: &Neighbours<'_>) -> f64 {
    // Activities from one down to where the last traces are held.
    const DILUTE: f64 = 1e-17;
    const DRY: f64 = 50.0;
    let water = water_of(neighbours);
    // Logarithm of the water over what is held: it rises strictly.
    let excess = |u: f64| {
        let (held, slope) = neighbours.iter().fold((0.0, 0.0), |(water, slope), (mass, mixture)| {
            let held = mixture.held(u);
            (water + mass * held.water, slope + mass * held.slope)
        });
        ((water / held).ln(), -slope / held)
    };
    if excess(DILUTE).0 >= 0.0 {
        return DILUTE;
    }
    let ideal = neighbours.iter().map(|(mass, mixture)| mass * mixture.particles()).sum::<f64>() / water;
    // In `ln u` the balance of a dilute solution is a straight line.
    increasing_root(DILUTE.ln(), DRY.ln(), ideal.ln_1p().ln(), TOLERANCE, |ln_u| {
        let u = ln_u.exp();
        let (excess, slope) = excess(u);
        (excess, slope * u)
    })
    .exp()
}

/// What each holds at rest, all their water together.
///
/// A sugar with nothing but its own crystals beside it takes up or gives off any water at one activity: there, each lies as far between what
/// it holds just above and just below as the water allows.
pub(super) fn settled(neighbours: &Neighbours<'_>, u: f64) -> SmallVec<[Held; 4]> {
    let at = |u: f64| neighbours.iter().map(move |(_, mixture)| mixture.held(u)).collect::<SmallVec<[Held; 4]>>();
    let sum = |held: &[Held]| neighbours.iter().zip(held).map(|((mass, _), held)| mass * held.water).sum::<f64>();
    let (water, exact) = (water_of(neighbours), at(u));
    if (sum(&exact) - water).abs() <= 1e-12 * water {
        return exact;
    }
    let (dry, wet) = (at(u * (1.0 + 2.0 * TOLERANCE)), at(u * (1.0 - 2.0 * TOLERANCE)));
    let (least, most) = (sum(&dry), sum(&wet));
    let way = if most > least { ((water - least) / (most - least)).clamp(0.0, 1.0) } else { 0.0 };
    let between = |dry: f64, wet: f64| dry + way * (wet - dry);
    dry.iter()
        .zip(&wet)
        .map(|(dry, wet)| Held {
            water: between(dry.water, wet.water),
            slope: dry.slope,
            dissolved: dry.dissolved.iter().zip(&wet.dissolved).map(|(dry, wet)| between(*dry, *wet)).collect(),
        })
        .collect()
}

/// How much more water a kilogram holds per unit of activity, around `u`; a chord, for at saturation there is a step.
pub(super) fn capacity(mixture: &Mixture, u: f64) -> f64 {
    let activity = (-u).exp();
    let (low, high) = ((activity - 0.01).max(0.001), (activity + 0.01).min(0.999));
    let held = |activity: f64| mixture.held(-activity.ln()).water;
    (held(high) - held(low)) / (high - low)
}
