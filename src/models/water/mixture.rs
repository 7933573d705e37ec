//! What holds water in a filling of known composition, and the activity at which it, alone or with its neighbours, holds all of it.

use super::{
    Isotherms, Solute, Sorbent, SugarCrystal, WATER,
    dissolution::{Saturation, Saturations},
    minor::beside_hidden_lactose,
    table::{Cell, Curve, Place},
};
use crate::matter::{Composition, Constituent};
use crate::models::root::increasing_root;
use smallvec::SmallVec;

/// All that holds water in a kilogram of a filling, in kilograms.
#[derive(Clone)]
pub(super) struct Mixture<'s> {
    pub(super) water: f64,
    /// What always dissolves.
    pub(super) solutes: SmallVec<[Share<'s>; Solute::ALL.len()]>,
    /// What may lie beside its crystals.
    pub(super) sugars: SmallVec<[(Share<'s>, Saturation); CRYSTALLISING]>,
    /// Insoluble solids.
    pub(super) sorbents: SmallVec<[(f64, &'s Sorbent); Sorbent::ALL.len()]>,
    /// The masses of those that ship, by class.
    of_classes: [f64; Sorbent::CLASSES.len()],
    /// An insoluble solid with an isotherm of its own.
    solid: Option<(f64, Sorbent)>,
    /// Moles of minor solutes by the constituent they come with, as kilograms of water of as many moles.
    pub(super) osmoles: [(Constituent, f64); 2],
    /// Particles of all that always dissolves, as kilograms of water of as many moles.
    steady: f64,
    /// Whether every isotherm is inverted anew, not by the table of those that ship.
    exact: bool,
}

/// Sucrose and lactose.
const CRYSTALLISING: usize = 2;

/// One each for the sugars that may crystallise, in order; nothing after the last there is.
type PerSugar<T> = [T; CRYSTALLISING];

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
#[derive(Clone, Copy, Default)]
pub(super) struct Held {
    /// Water in solution and in solids, kg/kg.
    pub(super) water: f64,
    /// Its slope in `ln u`, with `u = -ln a`.
    slope: f64,
    /// How many particles of each sugar are dissolved.
    pub(super) sugars: PerSugar<f64>,
    /// Their slopes.
    sugar_slopes: PerSugar<f64>,
}

impl Held {
    /// Moves it along its slopes, by so much in `ln u`.
    fn move_by(&mut self, step: f64) {
        self.water += self.slope * step;
        for (dissolved, slope) in self.sugars.iter_mut().zip(self.sugar_slopes) {
            *dissolved += slope * step;
        }
    }

    /// What lies between it and another.
    fn on_the_way(&self, way: f64, other: &Self) -> Self {
        let between = |this: f64, other: f64| this + way * (other - this);
        let mut sugars = self.sugars;
        for (this, other) in sugars.iter_mut().zip(other.sugars) {
            *this = between(*this, other);
        }
        Self { water: between(self.water, other.water), sugars, ..*self }
    }
}

/// A sugar that may crystallise, at one activity.
#[derive(Clone, Copy, Default)]
struct Sugar {
    /// Particles if all of it dissolves.
    particles: f64,
    /// The largest share of all dissolved particles it can make up beside its crystals, and the slope of it in `ln u`.
    ceiling: (f64, f64),
    /// What each of its particles holds, and the slope of it.
    held: (f64, f64),
}

impl<'s> Mixture<'s> {
    /// What a filling holds its water with; sugars crystallise as far as they are saturated, or not at all.
    pub(super) fn new(composition: &Composition, split: &Split, saturations: Option<&Saturations>) -> Self {
        let mut mixture = Self::of_water(composition.of(Constituent::Water));
        mixture.fill(composition, split, saturations);
        mixture
    }

    /// The same in place, for one that holds its water with nothing yet.
    pub(super) fn fill(&mut self, composition: &Composition, split: &Split, saturations: Option<&Saturations>) {
        self.fill_with(composition, split, saturations, Solute::ALL.iter().enumerate(), Sorbent::ALL.iter());
    }

    /// The same by isotherms of one's own.
    pub(super) fn fill_by(
        &mut self,
        isotherms: &'s Isotherms,
        composition: &Composition,
        split: &Split,
        saturations: Option<&Saturations>,
    ) {
        self.exact = true;
        self.fill_with(composition, split, saturations, isotherms.solutes(), isotherms.sorbents());
    }

    fn fill_with(
        &mut self,
        composition: &Composition,
        split: &Split,
        saturations: Option<&Saturations>,
        solutes: impl Iterator<Item = (usize, &'s Solute)>,
        sorbents: impl Iterator<Item = &'s Sorbent>,
    ) {
        for (place, solute) in solutes {
            let mass = composition.of(solute.constituent) + split.of(solute.constituent);
            if mass <= 0.0 {
                continue;
            }
            let share = Share { solute, mass, particles: mass * solute.particles_per_mass(), place };
            let crystal = SugarCrystal::of(solute.constituent).filter(|crystal| crystal.leaves_solution());
            match crystal.zip(saturations) {
                Some((crystal, saturations)) => self.sugars.push((share, saturations.of(crystal, solute))),
                None => self.solutes.push(share),
            }
        }
        for sorbent in sorbents {
            let mass = composition.of(sorbent.constituent);
            if mass > 0.0 {
                self.sorbents.push((mass, sorbent));
                if let Some(of_class) = sorbent.class().and_then(|class| self.of_classes.get_mut(class)) {
                    *of_class += mass;
                }
            }
        }
        let osmoles = beside_hidden_lactose(composition, split.lactose);
        self.osmoles = osmoles.map(|(constituent, moles)| (constituent, moles * WATER * 1e-3));
        self.count();
    }

    /// An insoluble solid and its water.
    pub(super) fn solid(water: f64, sorbent: Sorbent) -> Self {
        Self { solid: Some((1.0 - water, sorbent)), ..Self::of_water(water) }
    }

    /// Water, held by nothing.
    #[inline(always)]
    pub(super) fn of_water(water: f64) -> Self {
        Self {
            water,
            solutes: SmallVec::new(),
            sugars: SmallVec::new(),
            sorbents: SmallVec::new(),
            of_classes: [0.0; Sorbent::CLASSES.len()],
            solid: None,
            osmoles: [(Constituent::Water, 0.0); 2],
            steady: 0.0,
            exact: false,
        }
    }

    /// Looks at what it were without some of the solutes that always dissolve.
    pub(super) fn without<T>(&mut self, solutes: [Constituent; 3], look: impl FnOnce(&Self) -> T) -> T {
        let count = |mixture: &mut Self, times: f64| {
            for share in mixture.solutes.iter_mut().filter(|share| solutes.contains(&share.solute.constituent)) {
                share.particles = times * share.mass * share.solute.particles_per_mass();
            }
            mixture.count();
        };
        count(self, 0.0);
        let found = look(self);
        count(self, 1.0);
        found
    }

    /// Takes all sugar as dissolved.
    pub(super) fn dissolve(&mut self) {
        self.solutes.extend(self.sugars.drain(..).map(|(share, _)| share));
        self.count();
    }

    /// How many particles of a sugar that is there stay in solution in this water beside everything else, however much there is of it; and
    /// by what power of its activity at saturation they grow. Searched near another `ln u`; everything is taken as dissolved.
    pub(super) fn soluble(&self, sugar: &Share<'s>, saturation: Saturation, near: f64) -> (f64, f64) {
        let others = self.particles() - sugar.particles;
        // Where it was last looked: how many particles there would be, how they grow, and the slope of what is to be zero.
        let (mut last, mut particles, mut rise, mut slope) = (near, 0.0, 0.0, 1.0);
        let mut all = Reader::of(self);
        let found = increasing_root(DILUTE, DRY, near, NEARLY, |ln_u| {
            let at = self.spot(ln_u);
            let Sugar { ceiling, held, .. } = self.sugar(sugar, saturation, &at);
            let Held { water, slope: fall, .. } = all.held_at(&at);
            // The water that the others leave: it rises strictly, and what is left of the sugar holds all of it.
            let (left, more) = (self.water - water + sugar.particles * held.0, sugar.particles * held.1 - fall);
            if left <= 0.0 {
                // The others alone hold more than there is: on to where they leave a little.
                return (left / self.water - 0.05, more / self.water);
            }
            (last, particles, rise) = (ln_u, left / held.0, more / left - held.1 / held.0);
            // It rises strictly too: the drier, the more there would be of the sugar, and the less may be dissolved.
            slope = rise * others / (particles + others) - ceiling.1 / ceiling.0;
            {
                let most = ceiling.0 * (particles + others);
                ratio_to_one(particles, (most, -slope * most))
            }
        });
        (particles * (rise * (found - last)).exp(), rise / slope)
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
        self.sorbents.iter().map(|(mass, sorbent)| (mass, *sorbent)).chain(own).map(|(mass, sorbent)| mass * sorbent.held(1.0).0).sum()
    }

    /// What is held at `ln u`. It falls strictly, for less dissolves of a crystallising sugar and all that is dissolved holds less.
    pub(super) fn held(&self, ln_u: f64) -> Held {
        Reader::of(self).held(ln_u)
    }

    /// Where it is to be read at `ln u`.
    #[inline]
    pub(super) fn spot(&self, ln_u: f64) -> Spot {
        match Place::of(ln_u).filter(|_| !self.exact) {
            Some(place) => Spot { per_u: place.cell.per_u.at(place.along).0, place: Some(place) },
            None => Spot::beside_the_table(ln_u),
        }
    }

    /// What insoluble solids and all that always dissolves hold, by the exact inverse of every isotherm.
    #[cold]
    fn steady_at(&self, u: f64) -> (f64, f64) {
        let odds = 1.0 / u.exp_m1();
        let ideal = (self.ideal() * odds, -self.ideal() * odds * (1.0 + odds));
        let steady = self.solutes.iter().fold(ideal, |(water, slope), share| {
            let held = share.solute.held_at(share.solute.fraction_at(u));
            (water + share.particles * held.0, slope + share.particles * held.1)
        });
        let sorbed = self.sorbents.iter().map(|(mass, sorbent)| sorbed(*mass, sorbent, u)).fold((0.0, 0.0), plus);
        plus((steady.0, u * steady.1), sorbed)
    }

    /// What a sugar that may crystallise does.
    #[inline(always)]
    fn sugar(&self, share: &Share<'s>, saturation: Saturation, at: &Spot) -> Sugar {
        let read = at.place.and_then(|Place { cell, along }| {
            let [ceiling, held] = cell.sugars.get(saturation.crystal as usize)?.at(along);
            Some((at.over(saturation.activity, ceiling), at.over(1.0, held)))
        });
        let (ceiling, held) = read.unwrap_or_else(|| saturation.beside_water(share.solute, at.u()));
        Sugar { particles: share.particles, ceiling, held }
    }

    /// What insoluble solids and all that always dissolves hold, over a cell.
    #[inline]
    fn steady_in(&self, cell: &Cell) -> Curve {
        let mut steady = Curve::default();
        steady.add(self.ideal(), &cell.ideal);
        for share in &self.solutes {
            if let Some(held) = cell.solutes.get(share.place) {
                steady.add(share.particles, held);
            }
        }
        for (mass, held) in self.of_classes.iter().zip(&cell.sorbents).filter(|(mass, _)| **mass > 0.0) {
            steady.add(*mass, held);
        }
        steady
    }

    /// What a solid of its own isotherm holds.
    fn of_solid(&self, at: &Spot) -> (f64, f64) {
        self.solid.iter().map(|(mass, sorbent)| sorbed(*mass, sorbent, at.u())).fold((0.0, 0.0), plus)
    }

    /// What sugars that may crystallise hold beside all else that is dissolved.
    #[inline(always)]
    fn of_sugars(&self, at: &Spot) -> Held {
        let mut held = Held::default();
        if self.sugars.is_empty() {
            return held;
        }
        let mut sugars = PerSugar::<Sugar>::default();
        for (sugar, (share, saturation)) in sugars.iter_mut().zip(&self.sugars) {
            *sugar = self.sugar(share, *saturation, at);
        }
        let (particles, particles_slope) = dissolved_particles(&sugars, self.steady);
        for ((sugar, dissolved), slope) in sugars.iter().zip(&mut held.sugars).zip(&mut held.sugar_slopes) {
            let (ceiling, ceiling_slope) = sugar.ceiling;
            (*dissolved, *slope) = if sugar.particles > ceiling * particles {
                (ceiling * particles, ceiling_slope * particles + ceiling * particles_slope)
            } else {
                (sugar.particles, 0.0)
            };
            held.water += *dissolved * sugar.held.0;
            held.slope += *slope * sugar.held.0 + *dissolved * sugar.held.1;
        }
        held
    }
}

/// Where what is held is read: in the table, if it is to be read there.
pub(super) struct Spot {
    /// One over `u`: what is read from the table is there times `u`.
    per_u: f64,
    place: Option<Place>,
}

impl Spot {
    fn u(&self) -> f64 {
        1.0 / self.per_u
    }

    /// Kept apart, lest its exponential be reckoned ahead for every spot.
    #[cold]
    #[inline(never)]
    fn beside_the_table(ln_u: f64) -> Self {
        Self { per_u: (-ln_u).exp(), place: None }
    }

    /// What each particle of an ideal solute holds.
    pub(super) fn ideal(&self) -> f64 {
        self.place.map_or_else(|| 1.0 / self.u().exp_m1(), |Place { cell, along }| cell.ideal.at(along).0 * self.per_u)
    }

    /// What is read from the table, which has every function times `u`, with its slope in `ln u`.
    #[inline]
    fn over(&self, factor: f64, (value, slope): (f64, f64)) -> (f64, f64) {
        let factor = factor * self.per_u;
        (factor * value, factor * (slope - value))
    }
}

/// Reads what a mixture holds at one spot after another; what does not crystallise is kept for the cell of the last.
pub(super) struct Reader<'a, 's> {
    mixture: &'a Mixture<'s>,
    cell: Option<&'static Cell>,
    steady: Curve,
}

impl<'a, 's> Reader<'a, 's> {
    pub(super) fn of(mixture: &'a Mixture<'s>) -> Self {
        Self { mixture, cell: None, steady: Curve::default() }
    }

    /// What is held at `ln u`.
    #[inline]
    pub(super) fn held(&mut self, ln_u: f64) -> Held {
        self.held_at(&self.mixture.spot(ln_u))
    }

    fn held_at(&mut self, at: &Spot) -> Held {
        let (water, slope) = self.steady_at(at);
        let mut held = self.mixture.of_sugars(at);
        (held.water, held.slope) = (held.water + water, held.slope + slope);
        held
    }

    /// How fast what is held falls with `ln u`, around it. Of sugars that may crystallise a chord, for at saturation there is a step; of all else
    /// the slope.
    pub(super) fn fall(&mut self, ln_u: f64) -> f64 {
        /// Half of the chord: beside crystals of sugar, water changes little.
        const REACH: f64 = 0.1;
        let (_, slope) = self.steady_at(&self.mixture.spot(ln_u));
        let of_sugars = |ln_u: f64| self.mixture.of_sugars(&self.mixture.spot(ln_u)).water;
        (of_sugars(ln_u - REACH) - of_sugars(ln_u + REACH)) / (2.0 * REACH) - slope
    }

    /// What does not crystallise holds.
    fn steady_at(&mut self, at: &Spot) -> (f64, f64) {
        let Some(Place { cell, along }) = at.place else { return plus(self.mixture.steady_at(at.u()), self.mixture.of_solid(at)) };
        if !self.cell.is_some_and(|kept| std::ptr::eq(kept, cell)) {
            self.cell = Some(cell);
            self.steady = self.mixture.steady_in(cell);
        }
        plus(at.over(1.0, self.steady.at(along)), self.mixture.of_solid(at))
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
    /// What each particle of it holds.
    #[inline]
    pub(super) fn held(&self, at: &Spot) -> f64 {
        match at.place.and_then(|place| Some((place.cell.solutes.get(self.place)?, place.along))) {
            Some((curve, along)) => curve.at(along).0 * at.per_u,
            None => self.solute.held_at(self.solute.fraction_at(at.u())).0,
        }
    }
}

/// The dissolved particles and their slope: of each crystallising sugar no more than its ceiling among all of them.
///
/// Newton's method on a convex, piecewise straight function, from above: each step adds sugars to those at their ceiling, so that there are
/// at most as many steps as sugars and one more.
fn dissolved_particles(sugars: &[Sugar], steady: f64) -> (f64, f64) {
    let mut particles = sugars.iter().map(|sugar| sugar.particles).sum::<f64>() + steady;
    let (mut saturated, mut particles_slope) = (0, 0.0);
    loop {
        let (mut free, mut ceilings, mut slopes, mut now) = (steady, 0.0, 0.0, 0);
        for sugar in sugars {
            let (ceiling, slope) = sugar.ceiling;
            if sugar.particles > ceiling * particles {
                ceilings += ceiling;
                slopes += slope;
                now += 1;
            } else {
                free += sugar.particles;
            }
        }
        if now <= saturated {
            return (particles, particles_slope);
        }
        let share = 1.0 / (1.0 - ceilings);
        saturated = now;
        particles = free * share;
        particles_slope = particles * slopes * share;
    }
}

/// Mixtures in contact, each with its mass.
pub(super) type Neighbours<'a, 's> = [(f64, Reader<'a, 's>)];

fn water_of(neighbours: &Neighbours<'_, '_>) -> f64 {
    neighbours.iter().map(|(mass, reader)| mass * reader.mixture.water).sum()
}

/// `ln u` where all that dissolves is ideal, and where the last traces are held.
const DILUTE: f64 = -39.0;
const DRY: f64 = 4.0;

/// Where a root in `ln u` need not be exact, Newton steps end below this: what is left after one is of the order of its square.
const NEARLY: f64 = 1e-4;

/// The same where the balance is to come out exact but for rounding.
const ALMOST: f64 = 1e-6;

/// How near a step of the balance is told from the sides, in `ln u`.
const TOLERANCE: f64 = 1e-12;

/// Mixtures at rest.
pub(super) struct Rest {
    /// Of `u = -ln a`, the same for all of them.
    pub(super) ln_u: f64,
    /// What each holds.
    pub(super) held: SmallVec<[Held; 2]>,
}

/// Where mixtures that share their water come to rest: together they hold all of it. Hardly above `u` of zero where there is more than they can
/// hold. Sought first near the root of a similar balance, where one is known.
pub(super) fn rest(neighbours: &mut Neighbours<'_, '_>, similar: Option<f64>) -> Rest {
    let water = water_of(neighbours);
    let sum = |of: fn(&Mixture<'_>) -> f64| neighbours.iter().map(|(mass, reader)| mass * of(reader.mixture)).sum::<f64>();
    let ideal = sum(|mixture| mixture.particles()) * (-DILUTE).exp();
    if ideal <= water && ideal + sum(|mixture| mixture.swollen()) <= water {
        return Rest { ln_u: DILUTE, held: settled(neighbours, DILUTE) };
    }
    // A sugar all but alone with its crystals makes a step, which has to be found; elsewhere a step of Newton's method is the last sooner.
    let stiff = neighbours.iter().any(|(_, Reader { mixture, .. })| !mixture.sugars.is_empty() && mixture.steady < 1e-3 * mixture.water);
    let start = similar.unwrap_or_else(|| guess(neighbours, water));
    let (mut last, mut held) = (f64::NAN, SmallVec::from_elem(Held::default(), neighbours.len()));
    // In `ln u` the logarithm of what a dilute solution holds is a straight line.
    let ln_u = increasing_root(DILUTE, DRY, start, if stiff { TOLERANCE } else { ALMOST }, |ln_u| {
        let (sum, slope) = read(neighbours, ln_u, &mut held);
        last = ln_u;
        // It rises strictly.
        ratio_to_one(water, (sum, slope))
    });
    if stiff {
        return Rest { ln_u, held: settled(neighbours, ln_u) };
    }
    // The last step is short: along it everything is straight.
    held.iter_mut().for_each(|held| held.move_by(ln_u - last));
    Rest { ln_u, held }
}

/// For a search for where one number is another, which has a slope: the logarithm of the one over the other, with the slope of that. Where they are
/// near each other it need only be right where both are the same, with slope and curve there: a fraction, of which the search asks no more than
/// how far its value is over its slope, so that both are given times the square of the sum.
fn ratio_to_one(one: f64, (other, slope): (f64, f64)) -> (f64, f64) {
    if one > 0.5 * other && other > 0.5 * one {
        ((one - other) * (one + other), -2.0 * one * slope)
    } else {
        ((one / other).ln(), -slope / other)
    }
}

/// Reads what each holds at `ln u`; what they hold all together, and the slope of that.
fn read(neighbours: &mut Neighbours<'_, '_>, ln_u: f64, all: &mut [Held]) -> (f64, f64) {
    let (mut sum, mut slope) = (0.0, 0.0);
    for ((mass, reader), held) in neighbours.iter_mut().zip(all) {
        *held = reader.held(ln_u);
        sum += *mass * held.water;
        slope += *mass * held.slope;
    }
    (sum, slope)
}

/// What each holds at rest, all their water together.
///
/// A sugar with nothing but its own crystals beside it takes up or gives off any water at one activity: there, each lies as far between what
/// it holds just above and just below as the water allows.
fn settled(neighbours: &mut Neighbours<'_, '_>, ln_u: f64) -> SmallVec<[Held; 2]> {
    let water = water_of(neighbours);
    let mut held = SmallVec::from_elem(Held::default(), neighbours.len());
    let (sum, _) = read(neighbours, ln_u, &mut held);
    if (sum - water).abs() <= 1e-9 * water {
        return held;
    }
    let mut wet = held.clone();
    let (least, _) = read(neighbours, ln_u + 2.0 * TOLERANCE, &mut held);
    let (most, _) = read(neighbours, ln_u - 2.0 * TOLERANCE, &mut wet);
    let way = if most > least { ((water - least) / (most - least)).clamp(0.0, 1.0) } else { 0.0 };
    held.iter().zip(&wet).map(|(dry, wet)| dry.on_the_way(way, wet)).collect()
}

/// `ln u` of a solution in all this water by the first constants alone, with no more of a sugar than usually dissolves; that of a dry room
/// where solids alone could hold all of it.
fn guess(neighbours: &Neighbours<'_, '_>, water: f64) -> f64 {
    const SATURATED: f64 = 0.11;
    const DRY_SOLIDS_HOLD: f64 = 0.07;
    const DRY_ROOM: f64 = 0.5;
    let solids_of = |mixture: &Mixture<'_>| mixture.sorbents.iter().map(|(solid, ..)| solid).sum::<f64>();
    let solids = neighbours.iter().map(|(mass, reader)| mass * solids_of(reader.mixture)).sum::<f64>();
    if water < DRY_SOLIDS_HOLD * solids {
        return DRY_ROOM;
    }
    let (mut particles, mut attached) = (0.0, 0.0);
    for (mass, Reader { mixture, .. }) in neighbours {
        particles += mass * mixture.ideal();
        let sugars = mixture.sugars.iter().map(|(share, _)| (share, share.particles.min(SATURATED * mixture.water)));
        for (share, dissolved) in mixture.solutes.iter().map(|share| (share, share.particles)).chain(sugars) {
            particles += mass * dissolved;
            attached += mass * dissolved * share.solute.constants[0];
        }
    }
    let x = particles / (particles + water);
    let bound = if particles > 0.0 { attached / particles * x * x } else { 0.0 };
    ((particles / water).ln_1p() + bound.max(0.0)).ln()
}

/// How much more water a kilogram holds per unit of activity, around an activity; a chord, for at saturation there is a step.
pub(super) fn capacity(mixture: &Mixture, activity: f64) -> f64 {
    let (low, high) = ((activity - 0.01).max(0.001), (activity + 0.01).min(0.999));
    let held = |activity: f64| mixture.held((-activity.ln()).ln()).water;
    (held(high) - held(low)) / (high - low)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::Constituent::*;
    use crate::units::{Checked, Temperature};
    use approx::{assert_abs_diff_eq, assert_relative_eq};

    /// Where the search begins for a mix of these masses, and where it ends.
    fn searched(parts: &[(Constituent, f64)], crystals_at: Option<Temperature>) -> (f64, f64) {
        let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
        let composition = Composition::blend(pure.iter().map(|(pure, mass)| (pure, *mass))).unwrap();
        let mixture = Mixture::new(&composition, &Split::default(), crystals_at.map(Saturations::at).as_ref());
        let mut alone = [(1.0, Reader::of(&mixture))];
        (guess(&alone, mixture.water), rest(&mut alone, None).ln_u)
    }

    #[test]
    fn what_is_held_falls_as_it_does_over_a_chord() {
        let saturations = Saturations::at(Temperature::nearest(20.0));
        // All dissolved; sugar beside its crystals all along; crystals that come and go within the chord.
        for (parts, ln_u) in [
            (&[(Water, 60.0), (Sucrose, 10.0), (Glucose, 30.0)][..], -1.5),
            (&[(Water, 20.0), (Sucrose, 60.0), (Glucose, 10.0), (Protein, 10.0)], -1.2),
            (&[(Water, 30.0), (Sucrose, 60.0), (Glycerol, 10.0)], -1.7),
        ] {
            let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
            let composition = Composition::blend(pure.iter().map(|(pure, mass)| (pure, *mass))).unwrap();
            let mixture = Mixture::new(&composition, &Split::default(), Some(&saturations));
            let chord = (mixture.held(ln_u - 0.1).water - mixture.held(ln_u + 0.1).water) / 0.2;
            assert_relative_eq!(Reader::of(&mixture).fall(ln_u), chord, max_relative = 5e-3);
        }
    }

    /// A search that begins elsewhere ends at the same place, later: what is asked for here is that it begins nearby.
    #[test]
    fn a_search_begins_near_its_end() {
        let room = Some(Temperature::nearest(20.0));
        for (parts, crystals_at, near) in [
            (&[(Water, 70.0), (Sucrose, 30.0)][..], None, 0.005),
            (&[(Water, 60.0), (Glucose, 25.0), (Sorbitol, 15.0)], None, 0.005),
            (&[(Water, 50.0), (Ethanol, 20.0), (Sucrose, 30.0)], None, 0.2),
            (&[(Water, 30.0), (Glycerol, 10.0), (Sucrose, 40.0), (Minerals, 0.5)], None, 0.05),
            (&[(Water, 30.0), (Sucrose, 70.0)], room, 0.1),
            (&[(Water, 12.0), (Sucrose, 70.0), (Maltose, 18.0)], room, 0.3),
        ] {
            let (begins, ends) = searched(parts, crystals_at);
            assert!((begins - ends).abs() < near, "{parts:?}: from {begins} to {ends}");
        }
        let (begins, _) = searched(&[(Water, 2.0), (Protein, 30.0), (LiquidOil, 68.0)], None);
        assert_abs_diff_eq!(begins, 0.5);
    }
}
