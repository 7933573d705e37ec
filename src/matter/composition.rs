//! Mass fractions that close to one.

use super::{Constituent, ConstituentSet, Role};
use crate::units::{MassFraction, Measure, Unit};

/// What something is made of: the mass fraction of each [`Constituent`], closing to one; and how far its water, and what holds it, may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composition {
    fractions: [f64; Constituent::COUNT],
    spread: Spread,
    /// What of it is there.
    there: ConstituentSet,
    /// The sum of each role: asked for more often than a composition is made.
    of_roles: [f64; Role::ALL.len()],
}

/// How far the water of a composition, and all that holds it, are known: variances and covariance of the two mass fractions.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Spread {
    water: f64,
    both: f64,
    holders: f64,
}

impl Spread {
    /// Another cause, independent of those before, that moves the two by so much.
    fn add(&mut self, water: f64, holders: f64) {
        self.water += water * water;
        self.both += water * holders;
        self.holders += holders * holders;
    }

    /// Another spread, independent of this one, of a part that counts with a factor.
    fn plus(&mut self, other: &Self, factor: f64) {
        let squared = factor * factor;
        self.water += squared * other.water;
        self.both += squared * other.both;
        self.holders += squared * other.holders;
    }

    fn times(self, factor: f64) -> Self {
        let mut scaled = Self::default();
        scaled.plus(&self, factor);
        scaled
    }
}

/// Why fractions are no composition.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CompositionError {
    /// The parts do not add up.
    #[error("the constituents add up to {sum}: they must close to 100 % within {tolerance}{}", if .sum.value() < 100.0 { "; name what is missing, `inert` for solids that do not matter" } else { "" })]
    Open {
        /// What they add up to.
        sum: Measure,
        /// How far they may be off.
        tolerance: Measure,
    },
    /// More water was boiled off than there was.
    #[error("{lost} of the mass would have to boil off, but only {water} of it is water")]
    Dry {
        /// The share of the mass that is to go.
        lost: Measure,
        /// The share that is water.
        water: Measure,
    },
}

impl Composition {
    /// What fractions that close to one may miss it by.
    const ROUNDING: f64 = 1e-12;

    /// How far given fractions may be from closing; what is left is scaled away.
    pub const TOLERANCE: f64 = 0.005;

    /// A composition from its constituents; one named twice is added up.
    ///
    /// # Errors
    /// [`CompositionError::Open`] when they do not add up to one within [`Self::TOLERANCE`].
    pub fn new(parts: impl IntoIterator<Item = (Constituent, MassFraction)>) -> Result<Self, CompositionError> {
        use crate::units::Checked;
        let mut fractions = [0.0; Constituent::COUNT];
        for (constituent, fraction) in parts {
            *slot(&mut fractions, constituent) += fraction.base();
        }
        let sum: f64 = fractions.iter().sum();
        if (sum - 1.0).abs() > Self::TOLERANCE + 1e-12 {
            return Err(CompositionError::Open { sum: percent(sum), tolerance: percent(Self::TOLERANCE) });
        }
        Ok(Self::scaled(fractions, Spread::default()))
    }

    /// One constituent and nothing else.
    #[must_use]
    pub fn pure(constituent: Constituent) -> Self {
        let mut fractions = [0.0; Constituent::COUNT];
        *slot(&mut fractions, constituent) = 1.0;
        Self::made(fractions, Spread::default())
    }

    /// The mixture of parts by mass (any common unit); nothing if their masses add up to zero. Each part is off by itself.
    #[must_use]
    pub fn blend<'a>(parts: impl IntoIterator<Item = (&'a Self, f64)>) -> Option<Self> {
        let mut masses = [0.0; Constituent::COUNT];
        let mut spread = Spread::default();
        for (composition, mass) in parts {
            spread.plus(&composition.spread, mass);
            for (sum, fraction) in masses.iter_mut().zip(&composition.fractions) {
                *sum += mass * fraction;
            }
        }
        (masses.iter().sum::<f64>() > 0.0).then(|| Self::scaled(masses, spread))
    }

    /// What is left when water boils off until `kept` of the mass remains.
    ///
    /// # Errors
    /// [`CompositionError::Dry`] when there is not that much water.
    pub fn boiled_down(&self, kept: MassFraction) -> Result<Self, CompositionError> {
        use crate::units::Checked;
        let lost = 1.0 - kept.base();
        let water = self.of(Constituent::Water);
        if lost >= water {
            return Err(CompositionError::Dry { lost: percent(lost), water: percent(water) });
        }
        let mut fractions = self.fractions;
        *slot(&mut fractions, Constituent::Water) -= lost;
        Ok(Self::scaled(fractions, self.spread))
    }

    /// The mass fraction of one constituent.
    #[must_use]
    pub fn of(&self, constituent: Constituent) -> f64 {
        self.fractions.get(constituent.index()).copied().unwrap_or(0.0)
    }

    /// The mass fraction of all constituents of a role.
    #[must_use]
    pub fn of_role(&self, role: Role) -> f64 {
        self.of_roles.get(role as usize).copied().unwrap_or(0.0)
    }

    /// The constituents there are, with their mass fractions.
    pub fn parts(&self) -> impl Iterator<Item = (Constituent, f64)> + '_ {
        self.there.iter().map(|constituent| (constituent, self.of(constituent)))
    }

    /// The parts of one role: no other constituent is looked at.
    pub(crate) fn parts_of(&self, role: Role) -> impl Iterator<Item = (Constituent, f64)> + '_ {
        let of_role = Constituent::ALL.get(role.span()).unwrap_or(&[]).iter().copied();
        of_role.zip(self.fractions.get(role.span()).unwrap_or(&[]).iter().copied()).filter(|(_, fraction)| *fraction > 0.0)
    }

    /// The water phase: water, ethanol and everything that can dissolve in them.
    pub fn water_phase(&self) -> impl Iterator<Item = (Constituent, f64)> + '_ {
        use Role::{Electrolyte, Ethanol, Polyol, Saccharide, Sugar, Water};
        self.parts().filter(|(constituent, _)| matches!(constituent.role(), Water | Ethanol | Sugar | Saccharide | Polyol | Electrolyte))
    }

    /// The fat phase, by kind of fat.
    pub fn fat_phase(&self) -> impl Iterator<Item = (Constituent, f64)> + '_ {
        self.parts_of(Role::Fat)
    }

    /// The insoluble solids that take up water.
    pub fn sorbing_solids(&self) -> impl Iterator<Item = (Constituent, f64)> + '_ {
        self.parts_of(Role::SorbingSolid)
    }

    /// Total fat, of every kind. Emulsifiers do not count.
    #[must_use]
    pub fn fat(&self) -> f64 {
        self.of_role(Role::Fat)
    }

    /// Sugars and polyols.
    #[must_use]
    pub fn sweeteners(&self) -> f64 {
        self.of_role(Role::Sugar) + self.of_role(Role::Polyol)
    }

    /// Everything but water and ethanol.
    #[must_use]
    pub fn dry_matter(&self) -> f64 {
        1.0 - self.of(Constituent::Water) - self.of(Constituent::Ethanol)
    }

    /// Mass fraction of ethanol in the mixture of all water with all ethanol; zero where there is neither.
    #[must_use]
    pub fn spirit_strength(&self) -> f64 {
        let ethanol = self.of(Constituent::Ethanol);
        let liquid = ethanol + self.of(Constituent::Water);
        if liquid > 0.0 { ethanol / liquid } else { 0.0 }
    }

    /// The same with all ethanol taken out, as a grower of bacteria would meet it once the spirit has gone.
    #[must_use]
    pub fn without_ethanol(&self) -> Option<Self> {
        let mut fractions = self.fractions;
        *slot(&mut fractions, Constituent::Ethanol) = 0.0;
        (fractions.iter().sum::<f64>() > 0.0).then(|| Self::scaled(fractions, self.spread))
    }

    /// The same with one constituent counted as another: the extremes of an unknown split.
    #[must_use]
    pub fn counting(&self, from: Constituent, to: Constituent) -> Self {
        let mut fractions = self.fractions;
        let moved = std::mem::take(slot(&mut fractions, from));
        *slot(&mut fractions, to) += moved;
        Self::made(fractions, self.spread)
    }

    /// The same with so much more of the whole taken by some of its constituents, in proportion, and so much less by the rest: another lot of
    /// the same thing. None where there are no such constituents, no others, or not so much of either.
    #[must_use]
    pub fn with_more(&self, of: impl Fn(Constituent) -> bool, more: f64) -> Option<Self> {
        let some: f64 = self.parts().filter(|(constituent, _)| of(*constituent)).map(|(_, fraction)| fraction).sum();
        let (grown, shrunk) = (some + more, 1.0 - some - more);
        if some <= 0.0 || some >= 1.0 || grown < 0.0 || shrunk < 0.0 {
            return None;
        }
        let mut fractions = self.fractions;
        for (constituent, fraction) in Constituent::ALL.iter().zip(&mut fractions) {
            *fraction *= if of(*constituent) { grown / some } else { shrunk / (1.0 - some) };
        }
        Some(Self::scaled(fractions, self.spread))
    }

    /// The same, known only as far as some of its constituents may make up so much more or less of the whole (a standard uncertainty), in
    /// proportion and at the expense of the rest: a lot may be off by that, as [`Self::with_more`] makes one. Adds to what it may be off already.
    #[must_use]
    pub fn uncertain_by(mut self, of: impl Fn(Constituent) -> bool, by: MassFraction) -> Self {
        use crate::units::Checked;
        let some: f64 = self.parts().filter(|(constituent, _)| of(*constituent)).map(|(_, fraction)| fraction).sum();
        if some > 0.0 && some < 1.0 {
            let moves = |(constituent, fraction): (Constituent, f64)| {
                fraction * by.base() * if of(constituent) { 1.0 / some } else { -1.0 / (1.0 - some) }
            };
            let water = moves((Constituent::Water, self.of(Constituent::Water)));
            let holders = self.parts().filter(|(constituent, _)| holds_water(*constituent)).map(moves).sum();
            self.spread.add(water, holders);
        }
        self
    }

    /// The same, known exactly.
    #[must_use]
    pub fn certain(self) -> Self {
        Self { spread: Spread::default(), ..self }
    }

    /// Standard uncertainty of the water beyond what its holders would hold, of the whole. A kilogram of anything that dissolves or sorbs counts
    /// as the water that they all hold on average.
    #[must_use]
    pub fn uncertainty_of_water(&self) -> f64 {
        let others: f64 = [Role::Water, Role::Fat, Role::Emulsifier, Role::Inert].into_iter().map(|role| self.of_role(role)).sum();
        let holders = 1.0 - others;
        let each = if holders > Self::ROUNDING { self.of(Constituent::Water) / holders } else { 0.0 };
        let Spread { water, both, holders } = self.spread;
        (water - 2.0 * each * both + each * each * holders).max(0.0).sqrt()
    }

    /// Fractions, and how far they may be off, divided by the fractions' sum, which must be positive.
    fn scaled(mut fractions: [f64; Constituent::COUNT], spread: Spread) -> Self {
        let sum: f64 = fractions.iter().sum();
        fractions.iter_mut().for_each(|fraction| *fraction /= sum);
        Self::made(fractions, spread.times(1.0 / sum))
    }

    fn made(fractions: [f64; Constituent::COUNT], spread: Spread) -> Self {
        let there = Constituent::ALL.iter().copied().zip(fractions).filter(|(_, fraction)| *fraction > 0.0);
        let of_role = |role: &Role| fractions.get(role.span()).unwrap_or(&[]).iter().sum();
        Self { fractions, spread, there: there.map(|(constituent, _)| constituent).collect(), of_roles: Role::ALL.each_ref().map(of_role) }
    }
}

/// Whether something holds water, in solution or swollen with it.
fn holds_water(constituent: Constituent) -> bool {
    Role::HOLD_WATER.contains(&constituent.role())
}

/// The place of a constituent; the array holds every constituent, so this cannot miss.
#[allow(clippy::indexing_slicing, reason = "the array has one place for every constituent")]
fn slot(fractions: &mut [f64; Constituent::COUNT], constituent: Constituent) -> &mut f64 {
    &mut fractions[constituent.index()]
}

fn percent(fraction: f64) -> Measure {
    Measure::from_base(fraction, Unit::Percent)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;
    use approx::assert_relative_eq;

    fn of(parts: &[(Constituent, f64)]) -> Result<Composition, CompositionError> {
        Composition::new(parts.iter().map(|(constituent, fraction)| (*constituent, MassFraction::from_base(*fraction).unwrap())))
    }

    #[test]
    fn what_does_not_close_is_refused() {
        let error = of(&[(Constituent::Water, 0.5), (Constituent::Sucrose, 0.3)]).unwrap_err();
        assert_eq!(
            error.to_string(),
            "the constituents add up to 80 %: they must close to 100 % within 0.5 %; name what is missing, `inert` for solids that do not matter"
        );
        assert!(of(&[(Constituent::Water, 0.997)]).is_ok());
    }

    #[test]
    fn blending_keeps_every_gram() {
        let syrup = of(&[(Constituent::Water, 0.3), (Constituent::Sucrose, 0.7)]).unwrap();
        let mixed = Composition::blend([(&syrup, 100.0), (&Composition::pure(Constituent::Water), 40.0)]).unwrap();
        assert_relative_eq!(mixed.of(Constituent::Water), 0.5, max_relative = 1e-15);
        assert_relative_eq!(mixed.of(Constituent::Sucrose), 0.5, max_relative = 1e-15);
        assert!(Composition::blend([]).is_none());
    }

    #[test]
    fn boiling_takes_water_and_nothing_else() {
        let syrup = of(&[(Constituent::Water, 0.5), (Constituent::Sucrose, 0.5)]).unwrap();
        let thick = syrup.boiled_down(MassFraction::from_base(0.625).unwrap()).unwrap();
        assert_relative_eq!(thick.of(Constituent::Sucrose), 0.8, max_relative = 1e-15);
        let error = syrup.boiled_down(MassFraction::from_base(0.4).unwrap()).unwrap_err();
        assert_eq!(error.to_string(), "60 % of the mass would have to boil off, but only 50 % of it is water");
    }

    #[test]
    fn phases_divide_the_whole() {
        let ganache = of(&[
            (Constituent::Water, 0.2),
            (Constituent::Sucrose, 0.3),
            (Constituent::CocoaButter, 0.2),
            (Constituent::MilkFat, 0.1),
            (Constituent::FatFreeCocoa, 0.2),
        ])
        .unwrap();
        let sum = |phase: &mut dyn Iterator<Item = (Constituent, f64)>| phase.map(|(_, fraction)| fraction).sum::<f64>();
        assert_relative_eq!(sum(&mut ganache.water_phase()), 0.5, max_relative = 1e-12);
        assert_relative_eq!(sum(&mut ganache.fat_phase()), 0.3, max_relative = 1e-12);
        assert_relative_eq!(sum(&mut ganache.sorbing_solids()), 0.2, max_relative = 1e-12);
    }

    #[test]
    fn another_lot_holds_more_of_one_and_less_of_the_rest() {
        let cream = of(&[(Constituent::Water, 0.6), (Constituent::MilkFat, 0.3), (Constituent::Lactose, 0.1)]).unwrap();
        let richer = cream.with_more(|constituent| constituent.role() == Role::Fat, 0.07).unwrap();
        assert_relative_eq!(richer.of(Constituent::MilkFat), 0.37, max_relative = 1e-12);
        assert_relative_eq!(richer.of(Constituent::Water), 0.54, max_relative = 1e-12);
        assert_relative_eq!(richer.of(Constituent::Lactose), 0.09, max_relative = 1e-12);
        assert!(cream.with_more(|constituent| constituent == Constituent::Ethanol, 0.01).is_none());
        assert!(cream.with_more(|constituent| constituent == Constituent::Water, -0.61).is_none());
    }

    /// Held against lots that are off by as much, one cause at a time.
    #[test]
    fn what_lots_are_off_by_reaches_the_mixture() {
        let by = MassFraction::from_base(0.001).unwrap();
        let of_water = |constituent: Constituent| constituent == Constituent::Water;
        let of_fat = |constituent: Constituent| constituent.role() == Role::Fat;
        let cream = of(&[(Constituent::Water, 0.6), (Constituent::MilkFat, 0.33), (Constituent::Lactose, 0.07)]).unwrap();
        let dark = of(&[(Constituent::Sucrose, 0.4), (Constituent::CocoaButter, 0.4), (Constituent::FatFreeCocoa, 0.2)]).unwrap();
        let mixed = |cream: &Composition, dark: &Composition| Composition::blend([(cream, 100.0), (dark, 150.0)]).unwrap();
        let excess = |mixture: &Composition, each: f64| {
            mixture.of(Constituent::Water)
                - each
                    * [Constituent::Lactose, Constituent::Sucrose, Constituent::FatFreeCocoa]
                        .map(|holder| mixture.of(holder))
                        .iter()
                        .sum::<f64>()
        };
        let plain = mixed(&cream, &dark);
        let each = plain.of(Constituent::Water) / (0.028 + 0.24 + 0.12);
        let off = [mixed(&cream.with_more(of_water, 0.001).unwrap(), &dark), mixed(&cream, &dark.with_more(of_fat, 0.001).unwrap())]
            .map(|lot| excess(&lot, each) - excess(&plain, each));
        let known = mixed(&cream.uncertain_by(of_water, by), &dark.uncertain_by(of_fat, by));
        assert_relative_eq!(known.uncertainty_of_water(), off[0].hypot(off[1]), max_relative = 1e-9);
        // Boiled down, as much is off in less of it.
        let boiled = |mixture: &Composition| mixture.boiled_down(MassFraction::from_base(0.9).unwrap()).unwrap();
        let water_alone = |mixture: &Composition| mixture.spread.water.sqrt();
        assert_relative_eq!(water_alone(&boiled(&known)), water_alone(&known) / 0.9, max_relative = 1e-12);
        assert_eq!(plain.uncertainty_of_water(), 0.0);
        // What is all of the whole has nothing to grow at the expense of.
        let water = Composition::pure(Constituent::Water);
        assert_eq!(water.uncertain_by(of_water, by), water);
        assert_eq!(known.certain(), plain);
    }

    #[test]
    fn spirit_strength_leaves_the_sugar_out() {
        let liqueur = of(&[(Constituent::Water, 0.45), (Constituent::Ethanol, 0.15), (Constituent::Sucrose, 0.4)]).unwrap();
        assert_relative_eq!(liqueur.spirit_strength(), 0.25, max_relative = 1e-15);
        assert_eq!(Composition::pure(Constituent::CocoaButter).spirit_strength(), 0.0);
        assert_eq!(Composition::pure(Constituent::Ethanol).without_ethanol(), None, "nothing is left");
    }
}
