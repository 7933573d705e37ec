//! One measured batch, from which the activity of changed recipes is told.

use super::{Sorbent, WaterBalanceError, water_activity};
use crate::matter::{Composition, Constituent, Crystals, Role};
use crate::models::root::increasing_root;
use crate::units::{
    Band, Checked, Temperature, WaterActivity,
    quantity::{Ratio, ratio},
};

/// A batch of which the water activity was measured: what its meter said carries over to its neighbours.
///
/// # Equation
/// The balance of [`water_activity`] is made to meet the measured value by an [`Offset`]: each kilogram of sorbing solids holds `δ` more
/// water, as far as that explains the miss while the solids hold between nothing and twice what they do in the model; the rest is a factor
/// on `ln a`, as if there were more particles, or fewer. (Where a filling lies beside its crystals, water hardly moves its activity: without
/// a limit the solids would have to answer for anything.)
///
/// A changed recipe is `d` away, the share of its matter, fats and inert solids apart, that the batch has not. Offset and measurement count
/// by `ρ = exp(-(d/0.08)²/2)`: the value is the balance with `ρ` times the offset, and each half of the band `√(ρ² m² + (1 - ρ²) b²)`, with
/// `m` of the measurement and `b` of the model. So the batch itself is as measured, and what has nothing in common with it as modelled.
///
/// # Units
/// `δ` in kg of water per kg of dry solid; activity dimensionless.
///
/// # Range
/// That of [`water_activity`]. Crystals and temperature are those of the batch. No batch with more than 1 % of ethanol, which misleads the
/// meter.
///
/// # Error
/// The reach of 0.08 is as wide as three sets of measured solutions allow: each measurement predicted from each other that counts by a
/// tenth or more, all 164 lie inside the band; at 0.1 it is 41 of 44 in the widest of them. The value gains on the model where the model
/// misses whole fillings of a kind by the same, as below; in those sets, to which it was fitted, it is no nearer than the model alone.
///
/// # Worked value
/// A laboratory found 0.80 in a cookie-dough frosting made with half-and-half and 0.81 with water in its place. The model has the second at
/// 0.834; from the first it is met to its last digit.
/// ```
/// use cordial::matter::{Composition, Constituent::{self, *}};
/// use cordial::models::water::MeasuredBatch;
/// use cordial::units::{Band, Checked, MassFraction, Temperature, WaterActivity};
/// let of = |parts: [(Constituent, f64); 11]| -> Result<_, Box<dyn std::error::Error>> {
///     let fraction = |(constituent, percent): (_, f64)| Ok((constituent, MassFraction::from_base(percent / 100.0)?));
///     Ok(Composition::new(parts.into_iter().map(fraction).collect::<Result<Vec<_>, cordial::units::RangeError>>()?)?)
/// };
/// let same = [(Sucrose, 44.039), (Starch, 6.956), (Glucose, 0.222), (Fructose, 0.222), (Ethanol, 0.188)];
/// let frosting = |water, fat, protein, lactose, salts, inert| {
///     let [a, b, c, d, e] = same;
///     of([a, b, c, d, e, (Water, water), (MilkFat, fat), (MilkProtein, protein), (Lactose, lactose), (MilkSalts, salts), (Inert, inert)])
/// };
/// let with_cream = frosting(10.094, 19.05, 1.279, 0.39, 0.216, 17.344)?;
/// let with_water = frosting(11.246, 18.355, 1.101, 0.135, 0.174, 17.362)?;
/// let measured = Band::normal(0.80, 0.005).map(WaterActivity::nearest);
/// let batch = MeasuredBatch::new(&with_cream, None, Temperature::from_base(25.0)?, measured)?;
/// let found = batch.predict(&with_water)?.activity.map(Checked::base);
/// assert!((found.value - 0.81).abs() < 0.005, "{found:?}");
/// assert!(found.low < 0.81 && 0.81 < found.high && found.high - found.low < 0.04);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// A choice of this project. The frostings: a report of a laboratory on home recipes (seen), their composition reckoned here.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredBatch {
    composition: Composition,
    crystals: Option<Crystals>,
    temperature: Temperature,
    measured: Band<WaterActivity>,
    offset: Offset,
}

/// What has to be added to the model to meet a measurement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offset {
    /// Water that the sorbing solids hold beyond what the model has them hold, by mass of dry solid; negative if they hold less.
    pub solids: Ratio,
    /// By how much more, of itself, `ln a` is lowered beyond that; negative if it is lowered less.
    pub solution: Ratio,
}

/// The water activity of a changed recipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// The water activity with its 95 % band.
    pub activity: Band<WaterActivity>,
    /// How much the measurement counts in it: 1 for the batch itself, 0 for what has nothing in common with it.
    pub likeness: Ratio,
    /// Whether the changed recipe lies where the model was tested.
    pub in_range: bool,
}

/// Why a measured batch tells nothing of others.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MeasuredBatchError {
    /// The model cannot tell the activity of the batch.
    #[error(transparent)]
    Balance(#[from] WaterBalanceError),
    /// Too much ethanol for a meter.
    #[error("more than 1 % of it is ethanol, whose share of the vapour misleads the meter: nothing can be told of changed recipes from it")]
    MisledMeter,
    /// Nothing to compare.
    #[error("only a filling that lowers the activity of its water, and a measured activity between 0 and 1, tell of changed recipes")]
    NothingToCompare,
}

impl MeasuredBatch {
    /// A batch of this composition with its measured activity and the 95 % band of the measurement.
    ///
    /// # Errors
    /// [`MeasuredBatchError`].
    pub fn new(
        composition: &Composition,
        crystals: Option<Crystals>,
        temperature: Temperature,
        measured: Band<WaterActivity>,
    ) -> Result<Self, MeasuredBatchError> {
        if composition.of(Constituent::Ethanol) > MISLEADS_METER {
            return Err(MeasuredBatchError::MisledMeter);
        }
        let wanted = measured.value.base();
        let modelled = water_activity(composition, crystals, temperature)?.activity.value.base();
        if wanted <= 0.0 || wanted >= 1.0 || modelled >= 1.0 {
            return Err(MeasuredBatchError::NothingToCompare);
        }
        let water = composition.of(Constituent::Water);
        let solids: f64 = sorbents(composition).map(|(mass, _)| mass).sum();
        let held: f64 = sorbents(composition).map(|(mass, sorbent)| mass * sorbent.water_held(measured.value).get::<ratio>()).sum();
        let with = |water| {
            // Its range was checked above: this cannot fail.
            let balance = water_activity(&with_water(composition, water), crystals, temperature);
            balance.map_or(modelled, |balance| balance.activity.value.base())
        };
        let free = increasing_root(left(water, held), water + held, water, 0.0, |free| (with(free) - wanted, 0.0));
        let offset = Offset {
            solids: Ratio::new::<ratio>(if solids > 0.0 { (water - free) / solids } else { 0.0 }),
            solution: Ratio::new::<ratio>(wanted.ln() / with(free).ln() - 1.0),
        };
        Ok(Self { composition: *composition, crystals, temperature, measured, offset })
    }

    /// What had to be added to the model.
    #[must_use]
    pub fn offset(&self) -> Offset {
        self.offset
    }

    /// The water activity of a changed recipe, made and kept alike.
    ///
    /// # Errors
    /// [`WaterBalanceError`] when there is no water, or more than 2 % of the mass is unidentified.
    pub fn predict(&self, changed: &Composition) -> Result<Prediction, WaterBalanceError> {
        let likeness = likeness(&self.composition, changed);
        let solids: f64 = sorbents(changed).map(|(mass, _)| mass).sum();
        let bound = likeness * self.offset.solids.get::<ratio>() * solids;
        let water = changed.of(Constituent::Water);
        let in_range = water_activity(changed, self.crystals, self.temperature)?.in_range;
        let balance = water_activity(&with_water(changed, left(water, bound)), self.crystals, self.temperature)?;
        let lowered_more = 1.0 + likeness * self.offset.solution.get::<ratio>();
        let modelled = balance.activity.map(|activity| activity.base().powf(lowered_more));
        let measured = self.measured.map(Checked::base);
        let half =
            |measured: f64, modelled: f64| (likeness.powi(2) * measured.powi(2) + (1.0 - likeness.powi(2)) * modelled.powi(2)).sqrt();
        let activity = Band {
            value: modelled.value,
            low: modelled.value - half(measured.value - measured.low, modelled.value - modelled.low),
            high: modelled.value + half(measured.high - measured.value, modelled.high - modelled.value),
        };
        Ok(Prediction { activity: activity.map(WaterActivity::nearest), likeness: Ratio::new::<ratio>(likeness), in_range })
    }
}

/// Above this share of ethanol a meter is not believed.
const MISLEADS_METER: f64 = 0.01;
/// How far a recipe may move before its measured neighbour stops counting.
const REACH: f64 = 0.08;

/// Water that is left when some is bound: some always is, for what holds all there is, holds it firmly.
fn left(water: f64, bound: f64) -> f64 {
    (water - bound).max(1e-3 * water)
}

fn sorbents(composition: &Composition) -> impl Iterator<Item = (f64, &'static Sorbent)> + '_ {
    Sorbent::ALL.iter().map(|sorbent| (composition.of(sorbent.constituent), sorbent))
}

/// The same with so much water to the rest of it, of the whole as it was. Matter of unknown nature is set aside: its share was judged before.
fn with_water(composition: &Composition, water: f64) -> Composition {
    let known = composition.counting(Constituent::Unidentified, Constituent::Inert);
    // Less than none is added where water is taken out; some always is left.
    let change = water - composition.of(Constituent::Water);
    Composition::blend([(&known, 1.0), (&Composition::pure(Constituent::Water), change)]).unwrap_or(known)
}

/// How much two fillings have in common, as far as it bears on their water.
fn likeness(one: &Composition, other: &Composition) -> f64 {
    let counts = |constituent: &Constituent| !matches!(constituent.role(), Role::Fat | Role::Emulsifier | Role::Inert);
    let counting = || Constituent::ALL.iter().copied().filter(counts);
    let [one_sum, other_sum] = [one, other].map(|composition| counting().map(|constituent| composition.of(constituent)).sum::<f64>());
    let differing: f64 =
        counting().map(|constituent| (one.of(constituent) / one_sum - other.of(constituent) / other_sum).abs()).sum::<f64>() / 2.0;
    (-0.5 * (differing / REACH).powi(2)).exp()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use Constituent::{Ethanol, FatFreeCocoa, Glucose, HigherSaccharides, MilkFat, MilkProtein, Sorbitol, Sucrose, Water};
    use approx::assert_abs_diff_eq;
    use proptest::prelude::*;

    const ROOM: f64 = 20.0;

    fn weighed(parts: &[(Constituent, f64)]) -> Composition {
        let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
        Composition::blend(pure.iter().map(|(composition, mass)| (composition, *mass))).unwrap()
    }

    /// A ganache, with more of one constituent.
    fn ganache(more: Constituent, mass: f64) -> Composition {
        weighed(&[(Water, 20.0), (Sucrose, 22.0), (Glucose, 8.0), (MilkFat, 30.0), (FatFreeCocoa, 12.0), (MilkProtein, 1.0), (more, mass)])
    }

    fn syrup(water: f64) -> Composition {
        weighed(&[(Water, water), (Sucrose, 30.0), (Glucose, 20.0), (HigherSaccharides, 20.0)])
    }

    fn batch(composition: &Composition, activity: f64) -> MeasuredBatch {
        let measured = Band::normal(activity, 0.005).map(WaterActivity::nearest);
        MeasuredBatch::new(composition, None, Temperature::from_base(ROOM).unwrap(), measured).unwrap()
    }

    fn modelled(composition: &Composition) -> Band<f64> {
        water_activity(composition, None, Temperature::from_base(ROOM).unwrap()).unwrap().activity.map(Checked::base)
    }

    fn predicted(batch: &MeasuredBatch, changed: &Composition) -> Band<f64> {
        batch.predict(changed).unwrap().activity.map(Checked::base)
    }

    #[test]
    fn solids_answer_for_what_they_can() {
        let plain = ganache(Sorbitol, 0.0);
        let by = |miss: f64| batch(&plain, modelled(&plain).value + miss).offset();
        for miss in [-0.005, 0.005] {
            let offset = by(miss);
            assert!(offset.solids.get::<ratio>() * miss < 0.0, "{offset:?}");
            assert_abs_diff_eq!(offset.solution.get::<ratio>(), 0.0, epsilon = 1e-9);
        }
        // No more than twice what they hold by the model, and no less than nothing.
        for (miss, sign) in [(-0.2, 1.0), (0.1, -1.0)] {
            let offset = by(miss);
            let activity = WaterActivity::nearest(modelled(&plain).value + miss);
            let held: f64 = sorbents(&plain).map(|(mass, sorbent)| mass * sorbent.water_held(activity).get::<ratio>()).sum();
            assert_abs_diff_eq!(offset.solids.get::<ratio>(), sign * held / (13.0 / 93.0), epsilon = 1e-9);
            assert!(offset.solution.get::<ratio>() * sign > 0.01, "{offset:?}");
        }
    }

    #[test]
    fn without_solids_the_solution_answers() {
        let offset = batch(&syrup(25.0), modelled(&syrup(25.0)).value - 0.02).offset();
        assert!(offset.solids.get::<ratio>().abs() < 1e-12 && offset.solution.get::<ratio>() > 0.05, "{offset:?}");
    }

    #[test]
    fn wetter_is_higher_and_sweeter_lower() {
        let plain = ganache(Sorbitol, 0.0);
        for miss in [-0.03, 0.03] {
            let batch = batch(&plain, modelled(&plain).value + miss);
            let of = |more, mass| predicted(&batch, &ganache(more, mass)).value;
            let measured = of(Sorbitol, 0.0);
            for mass in [0.5, 2.0, 5.0] {
                assert!(of(Water, mass) > measured && of(Sorbitol, mass) < measured && of(Glucose, mass) < measured, "{miss} {mass}");
            }
            // Better than the model alone, as long as its miss is of one kind: nearer to the model with the miss added.
            let small = of(Sorbitol, 2.0) - modelled(&ganache(Sorbitol, 2.0)).value;
            assert!((small - miss).abs() < 0.5 * miss.abs(), "{miss} {small}");
        }
    }

    #[test]
    fn farther_away_the_model_counts_for_more() {
        let plain = ganache(Sorbitol, 0.0);
        let batch = batch(&plain, modelled(&plain).value - 0.02);
        let width = |band: Band<f64>| band.high - band.low;
        let mut last = 0.0;
        for mass in [0.0, 1.0, 3.0, 9.0, 27.0] {
            let found = width(predicted(&batch, &ganache(Sorbitol, mass)));
            assert!(found > last, "{mass}");
            last = found;
        }
        let other = weighed(&[(Water, 30.0), (Sorbitol, 70.0)]);
        let (foreign, alone) = (predicted(&batch, &other), modelled(&other));
        assert!((foreign.value - alone.value).abs() < 0.001 && width(foreign) > 0.99 * width(alone));
    }

    #[test]
    fn fat_is_no_change() {
        let plain = ganache(Sorbitol, 0.0);
        let batch = batch(&plain, 0.82);
        assert_abs_diff_eq!(predicted(&batch, &ganache(MilkFat, 40.0)).value, 0.82, epsilon = 1e-9);
    }

    #[test]
    fn what_tells_nothing_is_refused() {
        let new = |composition: &Composition, activity: f64| {
            let measured = Band::exact(WaterActivity::nearest(activity));
            MeasuredBatch::new(composition, None, Temperature::from_base(ROOM).unwrap(), measured).unwrap_err()
        };
        assert_eq!(new(&ganache(Ethanol, 2.0), 0.8), MeasuredBatchError::MisledMeter);
        for (composition, activity) in [(Composition::pure(Water), 0.9), (ganache(Water, 0.0), 1.0), (ganache(Water, 0.0), 0.0)] {
            assert_eq!(new(&composition, activity), MeasuredBatchError::NothingToCompare);
        }
        assert_eq!(new(&Composition::pure(MilkFat), 0.5), MeasuredBatchError::Balance(WaterBalanceError::NoWater));
    }

    /// But for what is left of a likeness that never quite ends.
    #[test]
    fn a_recipe_out_of_reach_is_as_modelled() {
        let batch = batch(&ganache(Sucrose, 0.0), 0.8);
        let (told, alone) = (predicted(&batch, &syrup(30.0)), modelled(&syrup(30.0)));
        for (told, alone) in [(told.value, alone.value), (told.low, alone.low), (told.high, alone.high)] {
            assert_abs_diff_eq!(told, alone, epsilon = 2e-4);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        #[test]
        fn the_batch_itself_is_as_measured(
            activity in 0.05..0.99f64, water in 1.0..60.0f64, sucrose in 0.0..60.0f64, glucose in 0.1..30.0f64, cocoa in 0.0..40.0f64,
        ) {
            let composition = weighed(&[(Water, water), (Sucrose, sucrose), (Glucose, glucose), (FatFreeCocoa, cocoa)]);
            let found = batch(&composition, activity).predict(&composition).unwrap();
            let band = found.activity.map(Checked::base);
            prop_assert!((band.value - activity).abs() < 1e-9);
            prop_assert!((band.low - (activity - 0.01)).abs() < 1e-9 && (band.high - (activity + 0.01)).abs() < 1e-9);
        }
    }
}
