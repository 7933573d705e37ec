//! The additive water balance.

use super::{
    Sorbent, WATER, lactose_solubility, minor_osmoles,
    mixture::{Mixture, Osmoles, Solubility},
    sucrose_solubility,
    uncertainty::{Makeup, standard_uncertainty},
};
use crate::matter::{Composition, Constituent, Crystals};
use crate::units::{Band, Checked, Measure, RangeError, Temperature, Unit, WaterActivity, quantity::ratio};
use smallvec::SmallVec;

/// How the water of a filling is held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterBalance {
    /// The water activity with its 95 % band.
    pub activity: Band<WaterActivity>,
    /// Whether the filling lies where the model was tested: 15 to 30 °C, ethanol up to 60 % of itself and the water,
    /// salt and minerals up to 5 % of the water phase; no crystals beside more than 5 % of ethanol, which lowers the solubility of sugar by
    /// an unknown amount.
    pub in_range: bool,
    holdings: Holdings,
}

type Holdings = [Holding; Constituent::COUNT];

/// What becomes of one constituent in the balance; mass fractions of the whole.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Holding {
    /// How much of it is in solution.
    pub dissolved: f64,
    /// How much of it lies there as crystals.
    pub crystalline: f64,
    /// The water it holds.
    pub water: f64,
}

impl WaterBalance {
    /// What becomes of one constituent. Fat, and solids that take up no water, neither dissolve nor hold any.
    #[must_use]
    pub fn of(&self, constituent: Constituent) -> Holding {
        self.holdings.get(constituent.index()).copied().unwrap_or_default()
    }

    /// The constituents that dissolve, crystallise or hold water, with what becomes of them. The water they hold adds up to all there
    /// is, unless there is more than anything can hold.
    pub fn holdings(&self) -> impl Iterator<Item = (Constituent, Holding)> + '_ {
        Constituent::ALL.iter().copied().zip(self.holdings).filter(|(_, holding)| *holding != Holding::default())
    }

    /// Water in insoluble solids, of the whole.
    #[must_use]
    pub fn sorbed_water(&self) -> f64 {
        Sorbent::ALL.iter().map(|sorbent| self.of(sorbent.constituent).water).sum()
    }
}

/// Why a water activity cannot be told.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum WaterBalanceError {
    /// Nothing to have an activity.
    #[error("there is no water: its activity has no meaning")]
    NoWater,
    /// Too much matter that may or may not hold water.
    #[error("{share} of the mass is of unknown nature, at most {limit} may be: name what it is, `inert` for solids that take up no water")]
    Unidentified {
        /// How much there is.
        share: Measure,
        /// How much may be.
        limit: Measure,
    },
    /// The balance led to no legal value.
    #[error(transparent)]
    Range(#[from] RangeError),
}

/// The water activity of a filling, from what it is made of.
///
/// # Equation
/// The one activity `a` at which everything together holds exactly the water there is:
/// `Σ nᵢ wᵢ(a) + s a/(1 - a) + Σ mⱼ Xⱼ(a)/M = n`, with `nᵢ` moles of solutes, each holding `wᵢ` as in its own solution
/// ([`Solute`](super::Solute)), `s` moles of minor solutes ([`minor_osmoles`]), `mⱼ` of sorbing solids ([`Sorbent`]) and `n` moles of water
/// of molar mass `M`.
///
/// Sucrose and lactose count only as far as they dissolve in the water left after sorption ([`sucrose_solubility`],
/// [`lactose_solubility`]), unless all sugar is declared dissolved: fondant, crust, seed and an undeclared state all come to the same
/// equilibrium. Dissolved mass and activity are solved together; per water left after sorption, what solutes hold rises strictly in `a`, so
/// that there is one solution and the bracket always holds it. More water raises it, more of anything else never does.
///
/// Sugars of unknown kind are counted once as all sucrose, once as all fructose; unknown milk sugars as all sucrose, all lactose. The band
/// spans the bands of all cases, the value is the middle of theirs, and masses and shares are their mean.
///
/// # Units
/// Dimensionless, from mass fractions of the whole.
///
/// # Range
/// See [`WaterBalance::in_range`]. Tested for activities of 0.55 to 1; below, the balance only says that it is drier than that, and the band
/// reaches from nothing to 0.60. The isotherms hold at 25 °C; the temperature moves the solubility of sucrose only.
///
/// # Error
/// Standard uncertainty 0.005 for a syrup of one solute, 0.01 for mixed syrups and liqueurs, 0.025 with sorbing solids or crystals and
/// wherever the activity is below 0.65, with ramps between. Of six fillings with a known recipe and a laboratory value the model missed
/// four by up to 0.03, but came out 0.05 too high for a sweetened condensed milk and 0.07 for a meringue buttercream, outside the band.
///
/// # Worked value
/// Glucose of 39.52 % by mass was measured at 0.932, sucrose of 60.64 % at 0.8917.
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::water_activity;
/// use cordial::units::{Checked, MassFraction, Temperature};
/// for (sugar, dissolved, measured) in [(Constituent::Glucose, 0.395148, 0.932), (Constituent::Sucrose, 0.606351, 0.89169)] {
///     let syrup = Composition::new([
///         (Constituent::Water, MassFraction::from_base(1.0 - dissolved)?),
///         (sugar, MassFraction::from_base(dissolved)?),
///     ])?;
///     let balance = water_activity(&syrup, None, Temperature::from_base(25.0)?)?;
///     assert!((balance.activity.value.base() - measured).abs() < 0.002);
///     assert!(balance.in_range);
/// }
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Zdanovskii 1936 and Stokes and Robinson 1966 for the rule (memory); glucose: Ebrahimi and Sadeghi 2016 (copy seen); sucrose: Robinson
/// and Stokes (memory); the fillings: reports of laboratories on home recipes (seen), their composition reckoned here.
///
/// # Errors
/// [`WaterBalanceError`] when there is no water, or more than 2 % of the mass is unidentified.
pub fn water_activity(
    composition: &Composition,
    crystals: Option<Crystals>,
    temperature: Temperature,
) -> Result<WaterBalance, WaterBalanceError> {
    let solubility = match crystals {
        Some(Crystals::Dissolved) => Solubility { sucrose: f64::INFINITY, lactose: f64::INFINITY },
        None | Some(Crystals::Fondant | Crystals::Crust | Crystals::Seeded) => {
            Solubility { sucrose: sucrose_solubility(temperature).get::<ratio>(), lactose: lactose_solubility().get::<ratio>() }
        }
    };
    balance(composition, solubility, temperature)
}

/// The driest activity at which the model was tested.
const DRIEST: f64 = 0.55;
/// What is computed drier than that holds less water than the same mixture does at [`DRIEST`], where the model was tested: all it says is
/// that the activity lies below, by two standard uncertainties of a dry filling at most above it.
const DRIEST_AT_MOST: f64 = 0.60;

const UNIDENTIFIED_AT_MOST: f64 = 0.02;

pub(super) fn balance(
    composition: &Composition,
    solubility: Solubility,
    temperature: Temperature,
) -> Result<WaterBalance, WaterBalanceError> {
    let water = composition.of(Constituent::Water);
    if water <= 0.0 {
        return Err(WaterBalanceError::NoWater);
    }
    let unidentified = composition.of(Constituent::Unidentified);
    if unidentified > UNIDENTIFIED_AT_MOST {
        let [share, limit] = [unidentified, UNIDENTIFIED_AT_MOST].map(|fraction| Measure::from_base(fraction, Unit::Percent));
        return Err(WaterBalanceError::Unidentified { share, limit });
    }
    // Salts come with milk, not with sugar that might be lactose: count them before the sugars are split.
    let osmoles = minor_osmoles(composition).map(|(constituent, moles)| (constituent, moles * WATER * 1e-3)).collect::<Osmoles>();
    let solve = |split: &Composition| Case::solve(&Mixture::new(split, solubility, &osmoles), temperature);
    let cases: SmallVec<[Case; 4]> = splits(composition)
        .map(|split| {
            let case = solve(&split);
            // So dry that it would be without any salt: then more salt than was tested cannot make it wetter.
            if case.in_range || case.activity.value >= DRIEST {
                return case;
            }
            // If it is that dry even without its salts, more salt than was tested cannot make it wetter.
            let saltless = split.counting(Constituent::Salt, Constituent::Inert).counting(Constituent::Minerals, Constituent::Inert);
            let saltless = solve(&saltless);
            Case { in_range: saltless.in_range && saltless.activity.value < DRIEST, ..case }
        })
        .collect();
    summary(&cases)
}

/// The extremes of what an incompletely known composition can be; the composition itself if all is known.
fn splits(composition: &Composition) -> impl Iterator<Item = Composition> {
    let extremes = |unsplit, extremes: &'static [Constituent; 2]| {
        let cases = if composition.of(unsplit) > 0.0 { 2 } else { 1 };
        extremes.iter().take(cases).map(move |extreme| (unsplit, *extreme))
    };
    let milk = extremes(Constituent::UnsplitMilkSugars, &[Constituent::Sucrose, Constituent::Lactose]);
    extremes(Constituent::UnsplitSugars, &[Constituent::Sucrose, Constituent::Fructose])
        .flat_map(move |plant| milk.clone().map(move |milk| composition.counting(plant.0, plant.1).counting(milk.0, milk.1)))
}

/// A solved balance of a known composition.
struct Case {
    activity: Band<f64>,
    in_range: bool,
    holdings: Holdings,
}

impl Case {
    fn solve(mixture: &Mixture, temperature: Temperature) -> Self {
        let u = mixture.solve();
        let activity = (-u).exp();
        let mut holdings = [Holding::default(); Constituent::COUNT];
        let mut undissolved = 0.0;
        for (mass, sorbent) in &mixture.sorbents {
            holding(&mut holdings, sorbent.constituent).water = mass * sorbent.held(activity).0;
            undissolved += mass;
        }
        let free = mixture.free(activity).0.max(0.0);
        for share in &mixture.solutes {
            let dissolved = share.dissolved(free);
            let crystalline = share.mass - dissolved;
            *holding(&mut holdings, share.solute.constituent) =
                Holding { dissolved, crystalline, water: dissolved * share.solute.held(u).0 };
            undissolved += crystalline;
        }
        for (constituent, water) in mixture.osmoles {
            holding(&mut holdings, *constituent).water += water / u.exp_m1();
        }
        let leading = (mixture.solutes.iter().map(|share| share.solute.constituent))
            .filter(|constituent| *constituent != Constituent::Ethanol)
            .map(|constituent| holding(&mut holdings, constituent).water / free)
            .fold(0.0, f64::max);
        let in_range = tested(temperature, mixture.water, &holdings);
        let band = Band::normal(activity, standard_uncertainty(&Makeup { activity, leading, undissolved }));
        let band = if activity < DRIEST { Band { low: 0.0, high: band.high.max(DRIEST_AT_MOST), ..band } } else { band };
        let activity = if mixture.is_pure() { Band::exact(1.0) } else { Band { low: band.low.max(0.0), high: band.high.min(1.0), ..band } };
        Self { activity, in_range, holdings }
    }
}

/// Whether a solution lies where the model was tested.
fn tested(temperature: Temperature, water: f64, holdings: &Holdings) -> bool {
    let dissolved = |constituent: Constituent| holdings.get(constituent.index()).map_or(0.0, |holding| holding.dissolved);
    let ethanol = dissolved(Constituent::Ethanol);
    let phase = water + holdings.iter().map(|holding| holding.dissolved).sum::<f64>();
    let saturated = holdings.iter().any(|holding| holding.crystalline > 0.0);
    (15.0..=30.0).contains(&temperature.celsius())
        && ethanol <= if saturated { 0.05 } else { 0.60 } * (ethanol + water)
        && dissolved(Constituent::Salt) + dissolved(Constituent::Minerals) <= 0.05 * phase
}

/// The place of a constituent; the array holds every constituent, so this cannot miss.
#[allow(clippy::indexing_slicing, reason = "the array has one place for every constituent")]
fn holding(holdings: &mut Holdings, constituent: Constituent) -> &mut Holding {
    &mut holdings[constituent.index()]
}

/// One balance from those of the extremes.
fn summary(cases: &[Case]) -> Result<WaterBalance, WaterBalanceError> {
    let lowest = |end: fn(&Band<f64>) -> f64| cases.iter().map(|case| end(&case.activity)).fold(1.0, f64::min);
    let highest = |end: fn(&Band<f64>) -> f64| cases.iter().map(|case| end(&case.activity)).fold(0.0, f64::max);
    let mut holdings = [Holding::default(); Constituent::COUNT];
    for case in cases {
        for (mean, holding) in holdings.iter_mut().zip(case.holdings) {
            mean.dissolved += holding.dissolved / cases.len() as f64;
            mean.crystalline += holding.crystalline / cases.len() as f64;
            mean.water += holding.water / cases.len() as f64;
        }
    }
    Ok(WaterBalance {
        activity: Band {
            value: WaterActivity::from_base(f64::midpoint(lowest(|band| band.value), highest(|band| band.value)))?,
            low: WaterActivity::from_base(lowest(|band| band.low))?,
            high: WaterActivity::from_base(highest(|band| band.high))?,
        },
        in_range: cases.iter().all(|case| case.in_range),
        holdings,
    })
}
