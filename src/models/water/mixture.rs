//! What holds water in a filling of known composition, and the activity at which it, alone or with its neighbours, holds all of it.

use super::{
    Isotherms, Solute, Sorbent, SugarCrystal, WATER,
    dissolution::Saturation,
    minor::beside_hidden_lactose,
    table::{Cell, Curve, Place},
};
use crate::matter::{Composition, Constituent};
use crate::models::root::increasing_root;
use crate::units::Temperature;
use smallvec::SmallVec;

/// All that holds water in a kilogram of a filling, in kilograms.
#[derive(Clone)]
pub(super) struct Mixture<'s> {
    pub(super) water: f64,
    /// What always dissolves.
    pub(super) solutes: SmallVec<[Share<'s>; Solute::ALL.len()]>,
    /// What may lie beside its crystals.
    pub(super) sugars: PerSugar<(Share<'s>, Saturation)>,
    /// Insoluble solids with their place in [`Sorbent::ALL`].
    pub(super) sorbents: SmallVec<[(f64, usize, &'s Sorbent); Sorbent::ALL.len()]>,
    /// An insoluble solid with an isotherm of its own.
    solid: Option<(f64, Sorbent)>,
    /// Moles of minor solutes by the constituent they come with, as kilograms of water of as many moles.
    pub(super) osmoles: [(Constituent, f64); 2],
    /// Particles of all that always dissolves, as kilograms of water of as many moles.
    steady: f64,
    /// Whether every isotherm is inverted anew, not by the table of those that ship.
    exact: bool,
}

pub(super) type PerSugar<T> = SmallVec<[T; 2]>;

/// What the sugars of unknown kind of a composition are counted as; mass fractions of the whole.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Split {
    pub(super) sucrose: f64,
    pub(super) fructose: f64,
    pub(super) lactose: f64,
}

impl Split {
    fn of(&self, constituent: Constituent) -> f64 {
        match constituent {
            Constituent::Sucrose => self.sucrose,
            Constituent::Fructose => self.fructose,
            Constituent::Lactose => self.lactose,
            _ => 0.0,
        }
    }
}

/// What there is of a solute.
#[derive(Clone, Copy)]
pub(super) struct Share<'s> {
    pub(super) solute: &'s Solute,
    pub(super) mass: f64,
    /// Its particles if all of it dissolves, as kilograms of water of as many moles.
    pub(super) particles: f64,
    /// Its place in [`Solute::ALL`].
    place: usize,
}

/// What a mixture holds at one activity.
pub(super) struct Held {
    /// Water in solution and in solids, kg/kg.
    pub(super) water: f64,
    /// Its slope in `ln u`, with `u = -ln a`.
    slope: f64,
    /// How many particles of each sugar are dissolved.
    pub(super) sugars: PerSugar<f64>,
}

/// A sugar that may crystallise, at one activity.
struct Sugar {
    /// Particles if all of it dissolves.
    particles: f64,
    /// The largest share of all dissolved particles it can make up beside its crystals, and the slope of it in `ln u`.
    ceiling: (f64, f64),
    /// What each of its particles holds, and the slope of it.
    held: (f64, f64),
}

impl<'s> Mixture<'s> {
    /// What a filling holds its water with; sugars crystallise as far as they would at a temperature, or not at all.
    pub(super) fn new(composition: &Composition, split: &Split, crystals_at: Option<Temperature>) -> Self {
        Self::fill(
            Self::of_water(composition.of(Constituent::Water)),
            composition,
            split,
            crystals_at,
            Solute::ALL.iter().enumerate(),
            Sorbent::ALL.iter().enumerate(),
        )
    }

    /// The same by isotherms of one's own.
    pub(super) fn by(isotherms: &'s Isotherms, composition: &Composition, split: &Split, crystals_at: Option<Temperature>) -> Self {
        let water = Self { exact: true, ..Self::of_water(composition.of(Constituent::Water)) };
        Self::fill(water, composition, split, crystals_at, isotherms.solutes(), isotherms.sorbents())
    }

    fn fill(
        mut mixture: Self,
        composition: &Composition,
        split: &Split,
        crystals_at: Option<Temperature>,
        solutes: impl Iterator<Item = (usize, &'s Solute)>,
        sorbents: impl Iterator<Item = (usize, &'s Sorbent)>,
    ) -> Self {
        for (place, solute) in solutes {
            let mass = composition.of(solute.constituent) + split.of(solute.constituent);
            if mass <= 0.0 {
                continue;
            }
            let share = Share { solute, mass, particles: mass * solute.particles_per_mass(), place };
            let crystal = SugarCrystal::of(solute.constituent).filter(|crystal| crystal.leaves_solution());
            match crystal.zip(crystals_at) {
                Some((crystal, temperature)) => mixture.sugars.push((share, Saturation::of(crystal, solute, temperature))),
                None => mixture.solutes.push(share),
            }
        }
        for (place, sorbent) in sorbents {
            let mass = composition.of(sorbent.constituent);
            if mass > 0.0 {
                mixture.sorbents.push((mass, place, sorbent));
            }
        }
        let osmoles = beside_hidden_lactose(composition, split.lactose);
        mixture.osmoles = osmoles.map(|(constituent, moles)| (constituent, moles * WATER * 1e-3));
        mixture.count();
        mixture
    }

    /// An insoluble solid and its water.
    pub(super) fn solid(water: f64, sorbent: Sorbent) -> Self {
        Self { solid: Some((1.0 - water, sorbent)), ..Self::of_water(water) }
    }

    fn of_water(water: f64) -> Self {
        Self {
            water,
            solutes: SmallVec::new(),
            sugars: SmallVec::new(),
            sorbents: SmallVec::new(),
            solid: None,
            osmoles: [(Constituent::Water, 0.0); 2],
            steady: 0.0,
            exact: false,
        }
    }

    /// The same without some of the solutes that always dissolve.
    pub(super) fn without(&self, solutes: [Constituent; 2]) -> Self {
        let mut rest = self.clone();
        rest.solutes.retain(|share| !solutes.contains(&share.solute.constituent));
        rest.count();
        rest
    }

    /// How many particles of a sugar that is there stay in solution in this water beside everything else, however much there is of it; and
    /// `ln u` where they do, which is searched near another.
    pub(super) fn soluble(&self, sugar: &Share<'s>, saturation: Saturation, near: f64) -> (f64, f64) {
        const MORE_THAN_ENOUGH: f64 = 100.0;
        let mut beside = self.clone();
        beside.solutes.retain(|share| share.solute.constituent != sugar.solute.constituent);
        beside.count();
        let particles = MORE_THAN_ENOUGH * (self.water + self.particles());
        beside.sugars.push((Share { particles, ..*sugar }, saturation));
        let alone = [(1.0, &beside)];
        let ln_u = rest(&alone, Some(near));
        let held = settled(&alone, ln_u);
        (held.first().and_then(|held| held.sugars.last().copied()).unwrap_or(particles), ln_u)
    }

    fn count(&mut self) {
        self.steady = self.ideal() + self.solutes.iter().map(|share| share.particles).sum::<f64>();
    }

    /// Whether nothing touches the water.
    pub(super) fn is_pure(&self) -> bool {
        self.sorbents.is_empty() && self.solid.is_none() && self.particles() <= 0.0
    }

    /// All particles that could dissolve, as kilograms of water of as many moles.
    pub(super) fn particles(&self) -> f64 {
        self.steady + self.sugars.iter().map(|(sugar, _)| sugar.particles).sum::<f64>()
    }

    /// Particles of minor solutes, as kilograms of water of as many moles.
    fn ideal(&self) -> f64 {
        self.osmoles.iter().map(|(_, water)| water).sum()
    }

    /// The most that insoluble solids hold.
    fn swollen(&self) -> f64 {
        let own = self.solid.iter().map(|(mass, sorbent)| (mass, sorbent));
        self.sorbents.iter().map(|(mass, _, sorbent)| (mass, *sorbent)).chain(own).map(|(mass, sorbent)| mass * sorbent.held(1.0).0).sum()
    }

    /// What is held at `ln u`. It falls strictly, for less dissolves of a crystallising sugar and all that is dissolved holds less.
    pub(super) fn held(&self, ln_u: f64) -> Held {
        match self.place_of(ln_u) {
            Some(place) => self.held_at(place, &self.steady_in(place.cell), ln_u),
            None => self.held_exactly(ln_u),
        }
    }

    /// The place in the table to read at, if it is to be read.
    pub(super) fn place_of(&self, ln_u: f64) -> Option<Place> {
        if self.exact { None } else { Place::of(ln_u) }
    }

    /// The same by the exact inverse of every isotherm.
    fn held_exactly(&self, ln_u: f64) -> Held {
        let u = ln_u.exp();
        let odds = 1.0 / u.exp_m1();
        let ideal = (self.ideal() * odds, -self.ideal() * odds * (1.0 + odds));
        let steady = self.solutes.iter().fold(ideal, |(water, slope), share| {
            let held = share.solute.held_at(share.solute.fraction_at(u));
            (water + share.particles * held.0, slope + share.particles * held.1)
        });
        let in_log = |(value, slope): (f64, f64)| (value, u * slope);
        let sorbed = self.sorbents.iter().map(|(mass, _, sorbent)| sorbed(*mass, sorbent, u)).fold((0.0, 0.0), plus);
        let sugars = self.sugars.iter().map(|(share, saturation)| {
            let x = share.solute.fraction_at(u);
            let (ceiling, held) = (saturation.ceiling(share.solute, u, x), share.solute.held_at(x));
            Sugar { particles: share.particles, ceiling: in_log(ceiling), held: in_log(held) }
        });
        self.together(plus(in_log(steady), sorbed), &sugars.collect::<PerSugar<_>>(), u)
    }

    /// What insoluble solids and all that always dissolves hold, over a cell.
    fn steady_in(&self, cell: &Cell) -> Curve {
        let mut steady = Curve::default();
        steady.add(self.ideal(), &cell.ideal);
        for share in &self.solutes {
            if let Some(held) = cell.solutes.get(share.place) {
                steady.add(share.particles, held);
            }
        }
        for (mass, place, _) in &self.sorbents {
            if let Some(held) = cell.sorbents.get(*place) {
                steady.add(*mass, held);
            }
        }
        steady
    }

    /// What is held at a place of the table.
    fn held_at(&self, Place { cell, along }: Place, steady: &Curve, ln_u: f64) -> Held {
        let u = ln_u.exp();
        // The table has every function times `u`.
        let over_u = |factor: f64, curve: &Curve| {
            let (value, slope) = curve.at(along);
            (factor * value / u, factor * (slope - value) / u)
        };
        let sugars = self.sugars.iter().filter_map(|(share, saturation)| {
            let (ceiling, held) = (cell.ceilings.get(saturation.crystal as usize)?, cell.solutes.get(share.place)?);
            Some(Sugar { particles: share.particles, ceiling: over_u(saturation.activity, ceiling), held: over_u(1.0, held) })
        });
        self.together(over_u(1.0, steady), &sugars.collect::<PerSugar<_>>(), u)
    }

    /// What all that does not crystallise holds, what sugars do beside it, and what a solid of its own isotherm does.
    fn together(&self, steady: (f64, f64), sugars: &[Sugar], u: f64) -> Held {
        let (water, slope) = self.solid.iter().map(|(mass, sorbent)| sorbed(*mass, sorbent, u)).fold(steady, plus);
        let (particles, particles_slope) = dissolved_particles(sugars, self.steady);
        let mut held = Held { water, slope, sugars: SmallVec::new() };
        for sugar in sugars {
            let (ceiling, ceiling_slope) = sugar.ceiling;
            let (dissolved, slope) = if sugar.particles > ceiling * particles {
                (ceiling * particles, ceiling_slope * particles + ceiling * particles_slope)
            } else {
                (sugar.particles, 0.0)
            };
            held.water += dissolved * sugar.held.0;
            held.slope += slope * sugar.held.0 + dissolved * sugar.held.1;
            held.sugars.push(dissolved);
        }
        held
    }
}

/// Water in a mass of solids, and its slope in `ln u`.
fn sorbed(mass: f64, sorbent: &Sorbent, u: f64) -> (f64, f64) {
    let a = (-u).exp();
    let (held, rise) = sorbent.held(a);
    (mass * held, -mass * rise * u * a)
}

fn plus(one: (f64, f64), other: (f64, f64)) -> (f64, f64) {
    (one.0 + other.0, one.1 + other.1)
}

impl Share<'_> {
    /// What each particle of it holds at `u`, which has this place in the table.
    pub(super) fn held(&self, place: Option<Place>, u: f64) -> f64 {
        match place.and_then(|place| Some((place.cell.solutes.get(self.place)?, place.along))) {
            Some((curve, along)) => curve.at(along).0 / u,
            None => self.solute.held_at(self.solute.fraction_at(u)).0,
        }
    }
}

/// The dissolved particles and their slope: of each crystallising sugar no more than its ceiling among all of them.
///
/// Newton's method on a convex, piecewise straight function, from above: each step adds sugars to those at their ceiling, so that there are
/// at most as many steps as sugars and one more.
fn dissolved_particles(sugars: &[Sugar], steady: f64) -> (f64, f64) {
    let mut particles = sugars.iter().map(|sugar| sugar.particles).sum::<f64>() + steady;
    loop {
        let (mut free, mut ceilings, mut slopes) = (steady, 0.0, 0.0);
        for sugar in sugars {
            let (ceiling, slope) = sugar.ceiling;
            if sugar.particles > ceiling * particles {
                ceilings += ceiling;
                slopes += slope;
            } else {
                free += sugar.particles;
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
pub(super) type Neighbours<'a, 's> = [(f64, &'a Mixture<'s>)];

fn water_of(neighbours: &Neighbours<'_, '_>) -> f64 {
    neighbours.iter().map(|(mass, mixture)| mass * mixture.water).sum()
}

/// Newton steps in `ln u` end below this.
const TOLERANCE: f64 = 1e-12;

/// `ln u`, with `u = -ln a`, at which mixtures that share their water come to rest: together they hold all of it. Hardly above `u` of zero
/// where there is more than they can hold. Sought first near the root of a similar balance, where one is known.
pub(super) fn rest(neighbours: &Neighbours<'_, '_>, similar: Option<f64>) -> f64 {
    // What does not crystallise, in the cell where Newton's method is at work.
    let mut cell: Option<&'static Cell> = None;
    let mut steady: SmallVec<[Curve; 4]> = SmallVec::new();
    root(neighbours, similar, |ln_u| {
        let exact = neighbours.iter().any(|(_, mixture)| mixture.exact);
        let Some(place) = Place::of(ln_u).filter(|_| !exact) else { return exactly(neighbours, ln_u) };
        if !cell.is_some_and(|cell| std::ptr::eq(cell, place.cell)) {
            cell = Some(place.cell);
            steady.clear();
            steady.extend(neighbours.iter().map(|(_, mixture)| mixture.steady_in(place.cell)));
        }
        sum(neighbours.iter().zip(&steady).map(|((mass, mixture), steady)| (*mass, mixture.held_at(place, steady, ln_u))))
    })
}

/// The same by the exact inverse of every isotherm.
fn exactly(neighbours: &Neighbours<'_, '_>, ln_u: f64) -> (f64, f64) {
    sum(neighbours.iter().map(|(mass, mixture)| (*mass, mixture.held_exactly(ln_u))))
}

/// Water held together, and its slope.
fn sum(held: impl Iterator<Item = (f64, Held)>) -> (f64, f64) {
    held.fold((0.0, 0.0), |(water, slope), (mass, held)| (water + mass * held.water, slope + mass * held.slope))
}

/// Where as much is held as there is.
fn root(neighbours: &Neighbours<'_, '_>, similar: Option<f64>, mut held: impl FnMut(f64) -> (f64, f64)) -> f64 {
    // `ln u` from where all that dissolves is ideal to where the last traces are held.
    const DILUTE: f64 = -39.0;
    const DRY: f64 = 4.0;
    let water = water_of(neighbours);
    let particles = neighbours.iter().map(|(mass, mixture)| mass * mixture.particles()).sum::<f64>();
    let swollen = neighbours.iter().map(|(mass, mixture)| mass * mixture.swollen()).sum::<f64>();
    if particles * (-DILUTE).exp() + swollen <= water {
        return DILUTE;
    }
    // In `ln u` the balance of a dilute solution is a straight line.
    increasing_root(DILUTE, DRY, similar.unwrap_or_else(|| (particles / water).ln_1p().ln()), TOLERANCE, |ln_u| {
        let (held, slope) = held(ln_u);
        // Logarithm of the water over what is held: it rises strictly.
        ((water / held).ln(), -slope / held)
    })
}

/// What each holds at rest, all their water together.
///
/// A sugar with nothing but its own crystals beside it takes up or gives off any water at one activity: there, each lies as far between what
/// it holds just above and just below as the water allows.
pub(super) fn settled(neighbours: &Neighbours<'_, '_>, ln_u: f64) -> SmallVec<[Held; 4]> {
    let at = |ln_u: f64| neighbours.iter().map(move |(_, mixture)| mixture.held(ln_u)).collect::<SmallVec<[Held; 4]>>();
    let sum = |held: &[Held]| neighbours.iter().zip(held).map(|((mass, _), held)| mass * held.water).sum::<f64>();
    let (water, exact) = (water_of(neighbours), at(ln_u));
    if (sum(&exact) - water).abs() <= 1e-12 * water {
        return exact;
    }
    let (dry, wet) = (at(ln_u + 2.0 * TOLERANCE), at(ln_u - 2.0 * TOLERANCE));
    let (least, most) = (sum(&dry), sum(&wet));
    let way = if most > least { ((water - least) / (most - least)).clamp(0.0, 1.0) } else { 0.0 };
    let between = |dry: f64, wet: f64| dry + way * (wet - dry);
    dry.iter()
        .zip(&wet)
        .map(|(dry, wet)| Held {
            water: between(dry.water, wet.water),
            slope: dry.slope,
            sugars: dry.sugars.iter().zip(&wet.sugars).map(|(dry, wet)| between(*dry, *wet)).collect(),
        })
        .collect()
}

/// How much more water a kilogram holds per unit of activity, around an activity; a chord, for at saturation there is a step.
pub(super) fn capacity(mixture: &Mixture, activity: f64) -> f64 {
    let (low, high) = ((activity - 0.01).max(0.001), (activity + 0.01).min(0.999));
    let held = |activity: f64| mixture.held((-activity.ln()).ln()).water;
    (held(high) - held(low)) / (high - low)
}
