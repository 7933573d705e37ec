//! The additive water balance.

use super::{
    Isotherms, Sorbent, SugarCrystal,
    dissolution::{Saturations, by_mass},
    mixture::{Mixture, Reader, Rest, Split, rest},
    uncertainty::{self, Makeup, Unsure, standard_uncertainty},
};
use crate::matter::{Composition, Constituent, ConstituentSet, Crystals};
use crate::models::quadrature::in_quadrature;
use crate::units::{Band, Checked, Measure, RangeError, Temperature, Unit, WaterActivity};
use smallvec::SmallVec;

/// How the water of a filling is held, by [`water_activity`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterBalance {
    /// The water activity with its 95 % band.
    pub activity: Band<WaterActivity>,
    /// Whether the filling lies where the model was tested: 15 to 30 °C, ethanol up to 60 % of itself and the water,
    /// salt, minerals and fruit acids together up to 5 % of the water phase; no crystals beside more than 5 % of ethanol, which lowers the
    /// solubility of sugar by an unknown amount. Solutes beyond the range that measurements cover do not count here: they widen the band,
    /// see [`Self::beyond_range`].
    pub in_range: bool,
    holdings: [Holding; Constituent::COUNT],
    beyond_range: ConstituentSet,
}

/// What becomes of one constituent in the balance; mass fractions of the whole.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Holding {
    /// How much of it is in solution.
    pub dissolved: f64,
    /// How much of it lies there as crystals.
    pub crystalline: f64,
    /// The water it holds.
    pub water: f64,
    /// Whether it is more concentrated, in its own solution at the same activity, than measurements support its isotherm
    /// ([`Solute::covered`](super::Solute::covered)): the band is wider for it.
    pub beyond_range: bool,
}

impl Holding {
    fn add(&mut self, other: &Self, factor: f64) {
        self.dissolved += factor * other.dissolved;
        self.crystalline += factor * other.crystalline;
        self.water += factor * other.water;
        self.beyond_range |= other.beyond_range;
    }
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

    /// The solutes beyond the range that measurements cover which hold 1 % of the water or more.
    pub fn beyond_range(&self) -> impl Iterator<Item = Constituent> {
        self.beyond_range.iter()
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
/// ([`Solute`](super::Solute)), `s` moles of minor solutes ([`minor_osmoles`](super::minor_osmoles)), `mⱼ` of sorbing solids ([`Sorbent`]) and `n` moles of water
/// of molar mass `M`.
///
/// Sucrose and lactose count only as far as they dissolve, unless all sugar is declared dissolved: as crystals lies what would make the mixture
/// supersaturated ([`supersaturation`](super::supersaturation)). Dissolved mass and activity are solved together: what is dissolved, and what
/// it holds, falls strictly with `a`, so that there is one solution and the bracket always holds it. More water raises it, more of anything
/// else never does. The water that crystals of lactose take in is left out.
///
/// Sugars of unknown kind are counted once as all sucrose, once as all fructose. Of sugars from milk, sucrose and lactose in unknown shares,
/// lactose is as much as makes 0.8 and 2 parts to one of milk protein; all or none where there is no milk protein. The band spans the bands
/// of all cases, the value is the middle of theirs, and masses and shares are their mean.
///
/// # Units
/// Dimensionless, from mass fractions of the whole.
///
/// # Range
/// See [`WaterBalance::in_range`]. Tested for activities of 0.55 to 1; below, the balance only says that it is drier than that, and the band
/// reaches from nothing to 0.60 or a little more. The isotherms hold at 25 °C; the temperature moves the solubilities only.
///
/// # Error
/// Standard uncertainty 0.005 for a syrup of one solute, 0.01 for mixed syrups and liqueurs, 0.027 with sorbing solids or crystals; below an
/// activity of 0.65 0.025 for one solute and 0.035 for several; with ramps between. To that are added, as squares, what follows by first order
/// from 15 % of the water that solutes hold beyond the range that measurements cover ([`WaterBalance::beyond_range`]), with a ramp over 10
/// percentage points; from 25 % of the water in solids; and from what lots of the ingredients may be off
/// ([`Composition::uncertainty_of_water`]). Of six fillings with a known recipe and a laboratory value
/// the model missed four by up to 0.03, but came out 0.06 too high for a sweetened condensed milk (its meter is suspect) and 0.07 for a
/// meringue buttercream (a doubtful value), outside the band. The isotherms are inverted by a table, which leaves the activity within 1e-9 of
/// the exact root ([`water_activity_by`]).
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
    let saturations = Saturations::at(temperature);
    balanced(composition, temperature, |split, mixture| mixture.fill(composition, split, beside_crystals(crystals, &saturations)))
}

/// The same without what becomes of each constituent, at the temperature where sugars are so saturated; and, if wanted, how much more sucrose
/// there is than would stay in solution.
pub(crate) fn water_activity_alone(
    composition: &Composition,
    crystals: Option<Crystals>,
    saturations: &Saturations,
    sucrose: bool,
) -> Result<Balanced, WaterBalanceError> {
    let fill = |split: &Split, mixture: &mut Mixture<'_>| mixture.fill(composition, split, beside_crystals(crystals, saturations));
    let mut bands: SmallVec<[Band<f64>; 4]> = SmallVec::new();
    let supersaturated = |mixture: &mut Mixture<'_>, ln_u: f64| {
        if sucrose {
            mixture.dissolve();
            bands.push(by_mass(mixture, SugarCrystal::Sucrose, saturations, ln_u));
        }
    };
    let balanced = solved(composition, saturations.temperature(), fill, |_, _, _| {}, supersaturated)?;
    Ok(Balanced { sucrose: sucrose.then(|| spanning(bands.iter().copied())), ..balanced })
}

/// A water activity and whether it is in range.
#[derive(Clone, Copy)]
pub(crate) struct Balanced {
    pub(crate) activity: Band<WaterActivity>,
    pub(crate) in_range: bool,
    /// Solutes beyond the range that measurements cover which hold 1 % of the water or more.
    pub(crate) beyond_range: ConstituentSet,
    /// Where it was asked for, how much more sucrose there is, by mass, than would stay in solution.
    pub(crate) sucrose: Option<Band<f64>>,
}

fn balanced<'s>(
    composition: &Composition,
    temperature: Temperature,
    fill: impl Fn(&Split, &mut Mixture<'s>),
) -> Result<WaterBalance, WaterBalanceError> {
    let mut holdings = [Holding::default(); Constituent::COUNT];
    let show = |constituent: Constituent, found: Holding, weight: f64| {
        if let Some(mean) = holdings.get_mut(constituent.index()) {
            mean.add(&found, weight);
        }
    };
    let Balanced { activity, in_range, beyond_range, .. } = solved(composition, temperature, fill, show, |_, _| {})?;
    Ok(WaterBalance { activity, in_range, holdings, beyond_range })
}

/// Solves the balance of each case; shows what becomes of each constituent, with the weight of the case, and hands on each mixture with its
/// `ln u`.
fn solved<'s>(
    composition: &Composition,
    temperature: Temperature,
    fill: impl Fn(&Split, &mut Mixture<'s>),
    mut show: impl FnMut(Constituent, Holding, f64),
    mut hand_on: impl FnMut(&mut Mixture<'s>, f64),
) -> Result<Balanced, WaterBalanceError> {
    if composition.of(Constituent::Water) <= 0.0 {
        return Err(WaterBalanceError::NoWater);
    }
    let splits = splits(composition)?;
    let weight = 1.0 / splits.len() as f64;
    let mut cases: SmallVec<[Case; 4]> = SmallVec::new();
    for split in &splits {
        let mut mixture = Mixture::of_water(composition.of(Constituent::Water));
        fill(split, &mut mixture);
        let similar = cases.last().map(|case: &Case| case.ln_u);
        let unsure = composition.uncertainty_of_water();
        let case = Case::solve(&mixture, temperature, similar, unsure, |constituent, found| show(constituent, found, weight));
        // If it is that dry even without its salts, more salt than was tested cannot make it wetter. Solids alone often
        // hold all of it, and are sooner asked.
        let mut dry = || {
            let solids = mixture.sorbents.iter().map(|(mass, sorbent)| mass * sorbent.held(DRIEST).0).sum::<f64>();
            solids > mixture.water || mixture.without(SALTS, |unsalted| unsalted.held((-DRIEST.ln()).ln()).water > unsalted.water)
        };
        let in_range = case.in_range || case.only_salty && case.activity.value < DRIEST && dry();
        hand_on(&mut mixture, case.ln_u);
        cases.push(Case { in_range, ..case });
    }
    let activity = spanning(cases.iter().map(|case| case.activity));
    Ok(Balanced {
        activity: Band {
            value: WaterActivity::from_base(activity.value)?,
            low: WaterActivity::from_base(activity.low)?,
            high: WaterActivity::from_base(activity.high)?,
        },
        in_range: cases.iter().all(|case| case.in_range),
        beyond_range: cases.iter().fold(ConstituentSet::EMPTY, |all, case| all.union(case.beyond_range)),
        sucrose: None,
    })
}

/// The same by isotherms of one's own, each inverted anew instead of by a table: slower.
///
/// # Errors
/// As [`water_activity`].
pub fn water_activity_by(
    isotherms: &Isotherms,
    composition: &Composition,
    crystals: Option<Crystals>,
    temperature: Temperature,
) -> Result<WaterBalance, WaterBalanceError> {
    let saturations = Saturations::at(temperature);
    balanced(composition, temperature, |split, mixture| {
        mixture.fill_by(isotherms, composition, split, beside_crystals(crystals, &saturations))
    })
}

/// Where sugar crystallises, unless all of it is declared dissolved: fondant, crust, seed and an undeclared state all come to the same
/// equilibrium.
pub(super) fn beside_crystals(crystals: Option<Crystals>, saturations: &Saturations) -> Option<&Saturations> {
    (crystals != Some(Crystals::Dissolved)).then_some(saturations)
}

/// The driest activity at which the model was tested. What is computed drier than that holds less water than the same mixture does there: all
/// it says is that the activity lies below, by two standard uncertainties of a dry filling at most above it.
const DRIEST: f64 = 0.55;
const UNIDENTIFIED_AT_MOST: f64 = 0.02;

/// The extremes of what an incompletely known composition can be; the composition itself if all is known.
pub(super) fn splits(composition: &Composition) -> Result<SmallVec<[Split; 4]>, WaterBalanceError> {
    let unidentified = composition.of(Constituent::Unidentified);
    if unidentified > UNIDENTIFIED_AT_MOST {
        let [share, limit] = [unidentified, UNIDENTIFIED_AT_MOST].map(|fraction| Measure::from_base(fraction, Unit::Percent));
        return Err(WaterBalanceError::Unidentified { share, limit });
    }
    let (plant, milk) = (composition.of(Constituent::UnsplitSugars), composition.of(Constituent::UnsplitMilkSugars));
    let mut splits = SmallVec::new();
    for fructose in ends(0.0, plant) {
        let (least, most) = hidden_lactose(composition);
        for lactose in ends(least, most) {
            splits.push(Split { sucrose: plant - fructose + milk - lactose, fructose, lactose });
        }
    }
    Ok(splits)
}

/// Both ends of a span; one if they are the same.
fn ends(least: f64, most: f64) -> impl Iterator<Item = f64> {
    std::iter::once(least).chain((most > least).then_some(most))
}

/// The least and the most lactose that sugars of unknown kind from milk can hold.
///
/// Milk brings lactose and protein together, 1.3 to 1.6 parts to one: where there is milk protein, all lactose counts as between 0.8 and 2
/// parts of it (a choice of this project; whey powder, which brings more, is not so described). Without milk protein nothing is known.
fn hidden_lactose(composition: &Composition) -> (f64, f64) {
    let unsplit = composition.of(Constituent::UnsplitMilkSugars);
    let (protein, shown) = (composition.of(Constituent::MilkProtein), composition.of(Constituent::Lactose));
    if protein <= 0.0 {
        return (0.0, unsplit);
    }
    let [least, most] = LACTOSE_PER_PROTEIN.map(|per_protein| (per_protein * protein - shown).clamp(0.0, unsplit));
    (least, most)
}

const LACTOSE_PER_PROTEIN: [f64; 2] = [0.8, 2.0];

/// A solved balance of a known composition.
pub(super) struct Case {
    /// `ln u`, with `u = -ln a`, before anything is cut off.
    pub(super) ln_u: f64,
    activity: Band<f64>,
    pub(super) in_range: bool,
    /// Whether more salt than was tested is all that puts it out of range.
    only_salty: bool,
    beyond_range: ConstituentSet,
}

/// What was tested in small amounts only.
const SALTS: [Constituent; 3] = [Constituent::Salt, Constituent::Minerals, Constituent::Acid];

impl Case {
    /// Solves a balance, from a similar one where there is one, and shows what becomes of each constituent; of one that dissolves in part in
    /// two parts. How far the composition is known is given as a standard uncertainty of its water.
    pub(super) fn solve(
        mixture: &Mixture<'_>,
        temperature: Temperature,
        similar: Option<f64>,
        composition: f64,
        mut show: impl FnMut(Constituent, Holding),
    ) -> Self {
        let mut alone = [(1.0, Reader::of(mixture))];
        let Rest { ln_u, mut held } = rest(&mut alone, similar);
        let dissolved = held.pop().map_or_else(Default::default, |held| held.sugars);
        let (at, u) = (mixture.spot(ln_u), ln_u.exp());
        let activity = (-u).exp();
        let mut tally = Tally::default();
        let mut unsure = Unsure { composition, ..Unsure::default() };
        let mut beyond_range = ConstituentSet::EMPTY;
        for (mass, sorbent) in &mixture.sorbents {
            let water = mass * sorbent.held(activity).0;
            unsure.sorbed += water;
            tally.undissolved += mass;
            show(sorbent.constituent, Holding { water, ..Holding::default() });
        }
        for (constituent, water) in mixture.osmoles {
            show(constituent, Holding { water: water * at.ideal(), ..Holding::default() });
        }
        let sugars = mixture.sugars.iter().map(|(share, _)| share).zip(dissolved);
        for (share, particles) in mixture.solutes.iter().map(|share| (share, share.particles)).chain(sugars) {
            let dissolved = share.mass * (particles / share.particles);
            let water = particles * share.held(&at);
            let beyond = uncertainty::beyond_range(share.solute, dissolved, water);
            unsure.beyond += beyond * water;
            if beyond > 0.0 && water >= 0.01 * mixture.water {
                beyond_range = beyond_range.with(share.solute.constituent);
            }
            let found = Holding { dissolved, crystalline: share.mass - dissolved, water, beyond_range: beyond > 0.0 };
            tally.count(share.solute.constituent, &found);
            show(share.solute.constituent, found);
        }
        let makeup = Makeup { activity, leading: tally.leading / (mixture.water - unsure.sorbed), undissolved: tally.undissolved };
        let known = standard_uncertainty(&makeup);
        let [(_, reader)] = &mut alone;
        let band = Band::normal(activity, in_quadrature([known, unsure.of_activity(reader, ln_u, u * activity)]));
        let band = if activity < DRIEST { Band { low: 0.0, high: band.high.max(DRIEST + 2.0 * known), ..band } } else { band };
        let shown = if mixture.is_pure() { Band::exact(1.0) } else { Band { low: band.low.max(0.0), high: band.high.min(1.0), ..band } };
        let untested = tally.ethanol > if tally.crystalline > 0.0 { 0.05 } else { 0.60 } * (tally.ethanol + mixture.water)
            || !(15.0..=30.0).contains(&temperature.celsius());
        let salty = tally.salts > 0.05 * (mixture.water + tally.dissolved);
        Self { ln_u, activity: shown, in_range: !untested && !salty, only_salty: !untested && salty, beyond_range }
    }
}

/// What range and uncertainty of a balance depend on; mass fractions of the whole.
#[derive(Default)]
struct Tally {
    dissolved: f64,
    ethanol: f64,
    salts: f64,
    crystalline: f64,
    /// Sorbing solids and crystals.
    undissolved: f64,
    /// Water of the one solute that holds most of it, ethanol left out.
    leading: f64,
}

impl Tally {
    fn count(&mut self, constituent: Constituent, found: &Holding) {
        self.dissolved += found.dissolved;
        self.crystalline += found.crystalline;
        self.undissolved += found.crystalline;
        if constituent == Constituent::Ethanol {
            self.ethanol += found.dissolved;
        } else {
            self.leading = self.leading.max(found.water);
        }
        if SALTS.contains(&constituent) {
            self.salts += found.dissolved;
        }
    }
}

/// What spans the bands of all cases; its value is the middle of theirs.
pub(super) fn spanning(bands: impl Iterator<Item = Band<f64>>) -> Band<f64> {
    let (mut values, mut span) = ((f64::INFINITY, f64::NEG_INFINITY), (f64::INFINITY, f64::NEG_INFINITY));
    for Band { value, low, high } in bands {
        values = (value.min(values.0), value.max(values.1));
        span = (low.min(span.0), high.max(span.1));
    }
    Band { value: f64::midpoint(values.0, values.1), low: span.0, high: span.1 }
}
