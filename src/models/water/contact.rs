//! Layers in contact: water moves between them until all have one activity.

use super::{
    Sorbent, WaterBalanceError,
    balance::{beside_crystals, splits},
    dissolution::Saturations,
    mixture::{Mixture, Reader, Rest, capacity, rest},
    sorbent::STARCH,
    water_activity,
};
use crate::matter::{Composition, Constituent, Crystals};
use crate::units::{
    Band, Checked, MassFraction, RangeError, Temperature, WaterActivity,
    quantity::{Mass, Ratio, kilogram, ratio},
};
use smallvec::SmallVec;

/// One of the layers that share their water.
#[derive(Debug, Clone, Copy)]
pub struct Layer<'a> {
    /// How much of it there is.
    pub mass: Mass,
    /// What it is.
    pub material: Material<'a>,
}

/// How a layer holds its water.
#[derive(Debug, Clone, Copy)]
pub enum Material<'a> {
    /// By what it is made of.
    Filling {
        /// What that is.
        composition: &'a Composition,
        /// Whether its sugar may crystallise, as for [`water_activity`].
        crystals: Option<Crystals>,
    },
    /// By an isotherm: a wafer, a biscuit, a crisp.
    Solid {
        /// What it holds at each activity.
        isotherm: Isotherm,
        /// The water in it, of its mass.
        water: MassFraction,
    },
}

/// The water isotherm of a solid, by Guggenheim, Anderson and de Boer, as [`Sorbent`] has it for single constituents.
///
/// # Equation
/// `X = Xm C K a / ((1 - K a)(1 - K a + C K a))`. Through one measured point it takes the shape of starch, `C = 25` and `K = 0.74`, and the
/// monolayer that leads through the point: crisp pieces are starch before all else.
///
/// # Units
/// `X` and the monolayer `Xm` in kg of water per kg of dry solid; `C` and `K` are plain numbers.
///
/// # Range
/// Water activity 0.1 to 0.93. A point is best measured near where the solid will come to rest.
///
/// # Error
/// A shape led through one point misses another by about a fifth: see the worked value.
///
/// # Worked value
/// Biscuits were measured at 2.81 and 4.53 g of water per 100 g at an activity of 0.12 and 0.24: led through the first, the isotherm has
/// 3.67 at the second.
/// ```
/// use cordial::models::water::Isotherm;
/// use cordial::units::{Checked, MassFraction, WaterActivity, quantity::ratio};
/// let biscuit = Isotherm::through(WaterActivity::from_base(0.12)?, MassFraction::from_base(0.0281)?)?;
/// let second = biscuit.water_held(WaterActivity::from_base(0.24)?).get::<ratio>();
/// let measured = 4.53 / 95.47;
/// assert!((second / measured - 1.0).abs() < 0.21, "{second} {measured}");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// The shape of starch: typical of published isotherms (memory). The biscuits: a passage of a paper on crispness (seen, the paper not named).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Isotherm(Sorbent);

/// Why constants or a point make no isotherm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum IsothermError {
    /// The equation has no sense.
    #[error("the monolayer and C must be above 0 and finite, and K above 0 and at most 1")]
    Constants,
    /// Any isotherm leads through it, or none.
    #[error("a point of an isotherm needs some water, some dry matter, and an activity above 0")]
    Point,
}

impl Isotherm {
    /// An isotherm from its constants, the monolayer over dry solid by mass.
    ///
    /// # Errors
    /// [`IsothermError::Constants`].
    pub fn new(monolayer: Ratio, c: f64, k: f64) -> Result<Self, IsothermError> {
        let monolayer = monolayer.get::<ratio>();
        let legal = [monolayer, c, k].iter().all(|constant| *constant > 0.0 && constant.is_finite()) && k <= 1.0;
        if legal { Ok(Self(Sorbent { constituent: Constituent::Inert, monolayer, c, k })) } else { Err(IsothermError::Constants) }
    }

    /// An isotherm through one measured point: an activity, and the water of the whole there.
    ///
    /// # Errors
    /// [`IsothermError::Point`].
    pub fn through(activity: WaterActivity, water: MassFraction) -> Result<Self, IsothermError> {
        let [_, c, k] = STARCH;
        let unit = Sorbent { constituent: Constituent::Inert, monolayer: 1.0, c, k }.held(activity.base()).0;
        let over_dry = water.base() / (1.0 - water.base());
        Self::new(Ratio::new::<ratio>(over_dry / unit), c, k).map_err(|_| IsothermError::Point)
    }

    /// Water held at an activity, over dry solid, by mass.
    #[must_use]
    pub fn water_held(&self, activity: WaterActivity) -> Ratio {
        self.0.water_held(activity)
    }
}

/// Layers whose water has come to rest.
#[derive(Debug, Clone, PartialEq)]
pub struct AtRest {
    /// The one water activity all of them have, with its 95 % band.
    pub activity: Band<WaterActivity>,
    /// Whether every filling lies where its model was tested, before and after, and every solid between 0.1 and 0.93.
    pub in_range: bool,
    /// What became of each, in the order they were given.
    pub layers: SmallVec<[LayerAtRest; 4]>,
}

/// What became of a layer, by [`at_rest`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LayerAtRest {
    /// Its water activity before anything moved.
    pub before: Band<WaterActivity>,
    /// The water it took up; below nothing, what it gave off.
    pub gain: Band<Mass>,
}

/// Which way a layer goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It gives off water.
    Dries,
    /// It takes up water.
    Softens,
    /// The uncertainty is wider than what moves.
    Undecided,
}

impl LayerAtRest {
    /// Which way it goes.
    #[must_use]
    pub fn fate(&self) -> Fate {
        let [low, high] = [self.gain.low, self.gain.high].map(|gain| gain.get::<kilogram>());
        if low > 0.0 {
            Fate::Softens
        } else if high < 0.0 {
            Fate::Dries
        } else {
            Fate::Undecided
        }
    }
}

/// The water activity at which layers in contact come to rest, and the water that moves between them.
///
/// # Equation
/// The one activity `a` at which all layers together hold the water they have: `Σ mₖ Hₖ(a) = Σ mₖ Wₖ`, with `Hₖ` what a kilogram of layer `k`
/// holds, in solution (as in [`water_activity`]) and in solids, and `Wₖ` what it had. Each gains `mₖ (Hₖ(a) - Wₖ)`. Only water moves. A layer
/// that may be one of several things counts as their even mixture.
///
/// # Units
/// Activity dimensionless, masses in kg.
///
/// # Range
/// See [`AtRest::in_range`]. It says where the layers end; how long they take is bounded by [`super::exchange_time`]. Ethanol moves too, and is
/// not counted.
///
/// # Error
/// That of each layer's own activity, shared out by how much water each holds per unit of activity, all errors counted as of one sign. For a
/// solid 0.02 in activity, and a tenth of the water that moves for the shape of its isotherm (both choices of this project).
///
/// # Worked value
/// Equal masses of a 50 % and a 60 % sucrose syrup end as one of 55 %, whose water activity is printed as 0.91, rounded.
/// ```
/// use cordial::matter::{Composition, Constituent};
/// use cordial::models::water::{Fate, Layer, Material, at_rest};
/// use cordial::units::{Checked, MassFraction, Temperature, quantity::{Mass, gram}};
/// let syrup = |sucrose| Composition::new([
///     (Constituent::Water, MassFraction::nearest(1.0 - sucrose)),
///     (Constituent::Sucrose, MassFraction::nearest(sucrose)),
/// ]);
/// let (thin, thick) = (syrup(0.50)?, syrup(0.60)?);
/// let layer = |composition| Layer { mass: Mass::new::<gram>(10.0), material: Material::Filling { composition, crystals: None } };
/// let rest = at_rest(&[layer(&thin), layer(&thick)], Temperature::from_base(25.0)?)?;
/// assert!((rest.activity.value.base() - 0.91).abs() < 0.01);
/// // 5 g of sucrose keep 45 of its 55 parts of water: 0.909 g move.
/// assert!((rest.layers[1].gain.value.get::<gram>() - (6.0 * 45.0 / 55.0 - 4.0)).abs() < 1e-6);
/// assert_eq!([rest.layers[0].fate(), rest.layers[1].fate()], [Fate::Dries, Fate::Softens]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// The balance of [`water_activity`] with the water shared (computed). The worked value: a table of food groups (seen).
///
/// # Errors
/// [`WaterBalanceError`] when there is no water at all, or more than 2 % of a filling is unidentified.
pub fn at_rest(layers: &[Layer<'_>], temperature: Temperature) -> Result<AtRest, WaterBalanceError> {
    let layers = layers.iter().map(|layer| Holder::of(layer, temperature)).collect::<Result<SmallVec<[Holder; 4]>, _>>()?;
    let parts = || layers.iter().flat_map(Holder::parts);
    if parts().all(|(mass, mixture)| mass * mixture.water <= 0.0) {
        return Err(WaterBalanceError::NoWater);
    }
    let mut neighbours: SmallVec<[(f64, Reader<'_, '_>); 4]> = parts().map(|(mass, mixture)| (mass, Reader::of(mixture))).collect();
    let Rest { ln_u, held } = rest(&mut neighbours, None);
    let activity = (-ln_u.exp()).exp();
    let mut held = held.into_iter().map(|held| held.water);

    let capacities: SmallVec<[f64; 4]> =
        layers.iter().map(|layer| layer.parts().map(|(mass, mixture)| mass * capacity(mixture, activity)).sum()).collect();
    let shares = |capacity: &f64| capacity / capacities.iter().sum::<f64>().max(f64::MIN_POSITIVE);
    let uncertainty: f64 = capacities.iter().map(shares).zip(&layers).map(|(share, layer)| share * layer.uncertainty).sum();
    let shape = if layers.iter().any(|layer| layer.is_solid) { SHAPE } else { 0.0 };

    let mut found = SmallVec::new();
    for (layer, capacity) in layers.iter().zip(&capacities) {
        let had: f64 = layer.parts().map(|(mass, mixture)| mass * mixture.water).sum();
        let gain: f64 = layer.parts().zip(held.by_ref()).map(|((mass, mixture), held)| mass * (held - mixture.water)).sum();
        // What its neighbours may be off, and what it may be off itself while they stand.
        let own = shares(capacity) * layer.uncertainty;
        let off = capacity * (uncertainty - own + (1.0 - shares(capacity)) * layer.uncertainty) + shape * gain.abs();
        let band = Band::normal(gain, off);
        found.push(LayerAtRest { before: layer.before, gain: Band { low: band.low.max(-had), ..band }.map(Mass::new::<kilogram>) });
    }
    Ok(AtRest {
        activity: within(Band::normal(activity, uncertainty))?,
        in_range: layers.iter().all(|layer| layer.in_range && if layer.is_solid { SOLIDS } else { FILLINGS }.contains(&activity)),
        layers: found,
    })
}

/// Standard uncertainty of the activity of a solid.
const SOLID: f64 = 0.02;
/// Standard uncertainty of what a solid takes up, of it, for the shape of its isotherm.
const SHAPE: f64 = 0.1;
/// Activities between which solids and fillings were tested.
const SOLIDS: std::ops::RangeInclusive<f64> = 0.1..=0.93;
const FILLINGS: std::ops::RangeInclusive<f64> = 0.55..=1.0;

fn within(band: Band<f64>) -> Result<Band<WaterActivity>, RangeError> {
    Ok(Band {
        value: WaterActivity::from_base(band.value)?,
        low: WaterActivity::from_base(band.low.max(0.0))?,
        high: WaterActivity::from_base(band.high.min(1.0))?,
    })
}

/// A layer as the balance sees it.
struct Holder {
    mass: f64,
    /// What it may be, each as likely.
    mixtures: SmallVec<[Mixture<'static>; 1]>,
    before: Band<WaterActivity>,
    uncertainty: f64,
    in_range: bool,
    is_solid: bool,
}

impl Holder {
    fn of(layer: &Layer<'_>, temperature: Temperature) -> Result<Self, WaterBalanceError> {
        let mass = layer.mass.get::<kilogram>();
        Ok(match layer.material {
            Material::Filling { composition, crystals } => {
                let saturations = Saturations::at(temperature);
                let of_split = |split| Mixture::new(composition, split, beside_crystals(crystals, &saturations));
                let mixtures = splits(composition)?.iter().map(of_split).collect();
                let (before, in_range) = if composition.of(Constituent::Water) > 0.0 {
                    let alone = water_activity(composition, crystals, temperature)?;
                    (alone.activity, alone.in_range)
                } else {
                    (Band::exact(WaterActivity::from_base(0.0)?), true)
                };
                let uncertainty = (before.high.base() - before.low.base()) / 4.0;
                Self { mass, mixtures, before, uncertainty, in_range, is_solid: false }
            }
            Material::Solid { isotherm, water } => {
                let mixture = Mixture::solid(water.base(), isotherm.0);
                let before = within(Band::normal((-rest(&mut [(1.0, Reader::of(&mixture))], None).ln_u.exp()).exp(), SOLID))?;
                Self { mass, mixtures: SmallVec::from_iter([mixture]), before, uncertainty: SOLID, in_range: true, is_solid: true }
            }
        })
    }

    fn parts(&self) -> impl Iterator<Item = (f64, &Mixture<'static>)> {
        self.mixtures.iter().map(|mixture| (self.mass / self.mixtures.len() as f64, mixture))
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::quantity::gram;
    use approx::{assert_abs_diff_eq, assert_relative_eq};

    fn composition(parts: &[(Constituent, f64)]) -> Composition {
        let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
        Composition::blend(pure.iter().map(|(composition, mass)| (composition, *mass))).unwrap()
    }

    fn filling(grams: f64, composition: &Composition) -> Layer<'_> {
        Layer { mass: Mass::new::<gram>(grams), material: Material::Filling { composition, crystals: None } }
    }

    fn wafer(grams: f64) -> Layer<'static> {
        let water = MassFraction::from_base(0.03).unwrap();
        let isotherm = Isotherm::through(WaterActivity::from_base(0.2).unwrap(), water).unwrap();
        Layer { mass: Mass::new::<gram>(grams), material: Material::Solid { isotherm, water } }
    }

    fn at_25(layers: &[Layer<'_>]) -> AtRest {
        at_rest(layers, Temperature::from_base(25.0).unwrap()).unwrap()
    }

    fn ganache() -> Composition {
        composition(&[
            (Constituent::Water, 0.22841),
            (Constituent::MilkFat, 0.33359),
            (Constituent::Lactose, 0.0112),
            (Constituent::MilkProtein, 0.00832),
            (Constituent::MilkSalts, 0.00188),
            (Constituent::Salt, 0.00072),
            (Constituent::Sucrose, 0.30349),
            (Constituent::FatFreeCocoa, 0.10503),
        ])
    }

    /// A plain implementation in another language, by bisection: a ganache of ten grams takes two of wafer from 0.2 to its own activity.
    #[test]
    fn a_wafer_takes_up_water_from_its_ganache() {
        let ganache = ganache();
        let rest = at_25(&[filling(10.0, &ganache), wafer(2.0)]);
        assert_abs_diff_eq!(rest.activity.value.base(), 0.870433157, epsilon = 1e-8);
        assert_abs_diff_eq!(rest.layers[1].gain.value.get::<gram>(), 0.112899996, epsilon = 1e-8);
        assert_abs_diff_eq!(rest.layers[1].before.value.base(), 0.2, epsilon = 1e-9);
        assert_eq!([rest.layers[0].fate(), rest.layers[1].fate()], [Fate::Dries, Fate::Softens]);
        assert!(rest.in_range);
    }

    #[test]
    fn nothing_gives_off_more_water_than_it_holds() {
        let ganache = ganache();
        let rest = at_25(&[filling(0.1, &ganache), wafer(100.0)]);
        let (gain, had) = (rest.layers[0].gain.map(|gain| gain.get::<gram>()), 0.1 * ganache.of(Constituent::Water));
        assert!(gain.value < -0.5 * had, "{gain:?}");
        assert!(gain.low >= -had * (1.0 + 1e-12), "{gain:?} of {had}");
    }

    /// As documented: a tenth of what a solid takes up is doubted for the shape of its isotherm, on top of what activities leave open.
    #[test]
    fn a_solid_is_doubted_for_its_shape() {
        let ganache = ganache();
        let rest = at_25(&[filling(1000.0, &ganache), wafer(2.0)]);
        let gain = rest.layers[1].gain;
        let half_width = (gain.high - gain.low).get::<gram>() / 2.0;
        // So much ganache is moved by nothing.
        assert!(half_width > 2.0 * SHAPE * gain.value.get::<gram>(), "{half_width} of {:?}", gain.value);
    }

    #[test]
    fn no_water_is_made_or_lost_and_all_end_between_the_first_and_the_last() {
        let (ganache, fondant) = (ganache(), composition(&[(Constituent::Water, 0.11), (Constituent::Sucrose, 0.89)]));
        let nougat = composition(&[(Constituent::Water, 0.1), (Constituent::UnsplitSugars, 0.5), (Constituent::UnsplitMilkSugars, 0.4)]);
        let dry = composition(&[(Constituent::Protein, 0.2), (Constituent::LiquidOil, 0.8)]);
        let layers = [filling(8.0, &ganache), filling(3.0, &fondant), wafer(1.0), filling(2.0, &nougat), filling(2.0, &dry)];
        for taken in [&layers[..], &layers[..2], &layers[1..3], &layers[2..], &layers[3..]] {
            let rest = at_25(taken);
            let gains: f64 = rest.layers.iter().map(|layer| layer.gain.value.get::<gram>()).sum();
            assert_abs_diff_eq!(gains, 0.0, epsilon = 1e-9);
            let before = || rest.layers.iter().map(|layer| layer.before.value.base());
            let (lowest, highest) = (before().fold(1.0, f64::min), before().fold(0.0, f64::max));
            assert!((lowest..=highest).contains(&rest.activity.value.base()), "{rest:?}");
        }
    }

    /// Crystals give off and take up water at the activity of their saturated syrup.
    #[test]
    fn a_fondant_holds_its_activity_while_crystals_last() {
        let fondant = composition(&[(Constituent::Water, 0.11), (Constituent::Sucrose, 0.89)]);
        let alone = at_25(&[filling(10.0, &fondant)]);
        let beside = at_25(&[filling(10.0, &fondant), wafer(1.0)]);
        assert_relative_eq!(beside.activity.value.base(), alone.activity.value.base(), max_relative = 1e-9);
        assert_relative_eq!(alone.activity.value.base(), 0.848, max_relative = 0.005);
        assert!(beside.layers[0].gain.value.get::<gram>() < -0.05);
        assert_abs_diff_eq!(alone.layers[0].gain.value.get::<gram>(), 0.0, epsilon = 1e-9);
    }

    #[test]
    fn like_beside_like_is_undecided() {
        let ganache = ganache();
        let rest = at_25(&[filling(10.0, &ganache), filling(1.0, &ganache)]);
        assert!(rest.layers.iter().all(|layer| layer.fate() == Fate::Undecided && layer.gain.value.get::<gram>().abs() < 1e-9));
        assert_abs_diff_eq!(rest.activity.value.base(), rest.layers[0].before.value.base(), epsilon = 1e-9);
    }

    #[test]
    fn what_has_no_meaning_is_refused() {
        let fat = Composition::pure(Constituent::CocoaButter);
        let dry = at_rest(&[filling(1.0, &fat)], Temperature::from_base(25.0).unwrap());
        assert_eq!(dry.unwrap_err(), WaterBalanceError::NoWater);
        let (some, none) = (MassFraction::from_base(0.03).unwrap(), MassFraction::ZERO);
        let [dry, half] = [0.0, 0.5].map(|activity| WaterActivity::from_base(activity).unwrap());
        for (activity, water) in [(dry, some), (half, none), (half, MassFraction::from_base(1.0).unwrap())] {
            assert_eq!(Isotherm::through(activity, water), Err(IsothermError::Point));
        }
        assert_eq!(Isotherm::new(Ratio::new::<ratio>(0.05), 20.0, 1.1), Err(IsothermError::Constants));
    }
}
