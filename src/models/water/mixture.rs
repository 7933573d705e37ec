//! What holds water in a filling of known composition, and the activity at which it holds all of it.

use super::{Solute, Sorbent, WATER, root::increasing_root};
use crate::matter::{Composition, Constituent};
use smallvec::SmallVec;

/// All that holds water in a kilogram of a filling, in kilograms.
pub(super) struct Mixture<'a> {
    pub(super) water: f64,
    pub(super) solutes: SmallVec<[Share; Solute::ALL.len()]>,
    pub(super) sorbents: SmallVec<[(f64, &'static Sorbent); Sorbent::ALL.len()]>,
    /// Moles of minor solutes by the constituent they come with, as kilograms of water of as many moles.
    pub(super) osmoles: &'a Osmoles,
}

pub(super) type Osmoles = SmallVec<[(Constituent, f64); 2]>;

/// Kilograms a kilogram of water dissolves.
#[derive(Debug, Clone, Copy)]
pub(super) struct Solubility {
    pub(super) sucrose: f64,
    pub(super) lactose: f64,
}

/// What there is of a solute.
pub(super) struct Share {
    pub(super) solute: &'static Solute,
    pub(super) mass: f64,
    /// Kilograms a kilogram of water takes up; infinite for what always dissolves.
    solubility: f64,
}

impl Share {
    /// How much of it dissolves in so much water.
    pub(super) fn dissolved(&self, water: f64) -> f64 {
        // Without water the product of nothing and infinity is no number, which `min` passes over.
        self.mass.min(self.solubility * water)
    }
}

impl<'a> Mixture<'a> {
    pub(super) fn new(composition: &Composition, solubility: Solubility, osmoles: &'a Osmoles) -> Self {
        let mass = |constituent| Some(composition.of(constituent)).filter(|mass| *mass > 0.0);
        let solubility = |constituent| match constituent {
            Constituent::Sucrose => solubility.sucrose,
            Constituent::Lactose => solubility.lactose,
            _ => f64::INFINITY,
        };
        Self {
            water: composition.of(Constituent::Water),
            solutes: (Solute::ALL.iter())
                .filter_map(|solute| Some(Share { solute, mass: mass(solute.constituent)?, solubility: solubility(solute.constituent) }))
                .collect(),
            sorbents: Sorbent::ALL.iter().filter_map(|sorbent| Some((mass(sorbent.constituent)?, sorbent))).collect(),
            osmoles,
        }
    }

    /// Whether nothing touches the water.
    pub(super) fn is_pure(&self) -> bool {
        self.solutes.is_empty() && self.sorbents.is_empty() && self.osmoles.iter().all(|(_, water)| *water <= 0.0)
    }

    /// Water left after sorption at activity `a`, and the slope of what is sorbed.
    pub(super) fn free(&self, a: f64) -> (f64, f64) {
        self.sorbents.iter().fold((self.water, 0.0), |(free, rise), (mass, sorbent)| {
            let (held, slope) = sorbent.held(a);
            (free - mass * held, rise + mass * slope)
        })
    }

    /// Logarithm of the water left after sorption over what the solutes hold at `u = -ln a`, with its slope in `u`. It rises strictly even
    /// where a sugar is at saturation; the plain difference would also touch zero where sorption takes the last water.
    fn excess(&self, u: f64) -> (f64, f64) {
        let a = (-u).exp();
        let (free, rise) = self.free(a);
        if free <= 0.0 {
            return (f64::NEG_INFINITY, f64::INFINITY);
        }
        let free_slope = a * rise;
        let (mut held, mut slope) = (0.0, 0.0);
        for share in &self.solutes {
            let (per_mass, per_mass_slope) = share.solute.held(u);
            let dissolved = share.dissolved(free);
            held += dissolved * per_mass;
            slope += dissolved * per_mass_slope;
            if dissolved < share.mass {
                slope += share.solubility * free_slope * per_mass;
            }
        }
        let osmoles: f64 = self.osmoles.iter().map(|(_, water)| water).sum();
        let odds = 1.0 / u.exp_m1();
        held += osmoles * odds;
        slope -= osmoles * odds * (1.0 + odds);
        ((free / held).ln(), free_slope / free - slope / held)
    }

    /// `-ln a` at which all water is held; hardly above zero where there is more than anything can hold.
    pub(super) fn solve(&self) -> f64 {
        // Activities from one down to where the last traces are held.
        const DILUTE: f64 = 1e-17;
        const DRY: f64 = 50.0;
        if self.excess(DILUTE).0 >= 0.0 {
            return DILUTE;
        }
        let moles = |share: &Share| share.dissolved(self.water) * share.solute.particles * WATER / share.solute.molar_mass;
        let ideal = self.solutes.iter().map(moles).sum::<f64>() / self.water;
        // In `ln u` the balance of a dilute solution is a straight line.
        increasing_root(DILUTE.ln(), DRY.ln(), ideal.ln_1p().ln(), 1e-9, |ln_u| {
            let u = ln_u.exp();
            let (excess, slope) = self.excess(u);
            (excess, slope * u)
        })
        .exp()
    }
}
