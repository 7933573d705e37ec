//! Ethanol as a hurdle to moulds and yeasts.

use crate::units::quantity::{Density, Ratio, kilogram_per_cubic_meter, ratio};
use crate::units::{AlcoholByVolume, Checked, MassFraction};

/// How fast a mould grows beside ethanol, over how fast it grows without.
///
/// # Equation
/// `K (Emax - E) / (K Emax - 2 K E + Emax E)`, nothing from `Emax` on.
///
/// # Units
/// Ethanol `E` by mass of the medium; `K` is what halves the growth, `most` (`Emax`) what stops it.
///
/// # Range
/// Measured on spoilage moulds at a water activity of 0.99 and 25 °C, of which most stop between 3 and 5 % by mass. A drier filling needs
/// less; in a closed shell the vapour acts too. It tells how much a spirit slows a mould, not that nothing grows.
///
/// # Error
/// Not stated in what was read.
///
/// # Worked value
/// No ethanol leaves all of the growth, `K` half of it, `Emax` none; 2 % against 4 and 1.5 % leaves 0.375.
/// ```
/// # use cordial::models::growth::mould_beside_ethanol;
/// # use cordial::units::{Checked, MassFraction, quantity::ratio};
/// let percent = |value: f64| MassFraction::from_base(value / 100.0);
/// for (ethanol, growth) in [(0.0, 1.0), (1.5, 0.5), (2.0, 0.375), (4.0, 0.0), (5.0, 0.0)] {
///     let found = mould_beside_ethanol(percent(ethanol)?, percent(1.5)?, percent(4.0)?).get::<ratio>();
///     assert!((found - growth).abs() < 5e-4, "{ethanol}: {found}");
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Dantigny et al. (2005) Int. J. Food Microbiol. 98:261 (equation and range seen in abstract).
#[must_use]
pub fn mould_beside_ethanol(ethanol: MassFraction, half: MassFraction, most: MassFraction) -> Ratio {
    let (ethanol, half, most) = (ethanol.base(), half.base(), most.base());
    let grows = ethanol < most;
    Ratio::new::<ratio>(if grows { half * (most - ethanol) / (half * most - 2.0 * half * ethanol + most * ethanol) } else { 0.0 })
}

/// Sugar and ethanol together as a hurdle to yeast, in Delle units: sweet alcoholic liquids of 78 and more were found not to ferment.
///
/// # Equation
/// `a + 4.5 c`.
///
/// # Units
/// `a` in g of sugar per 100 ml, `c` in per cent of ethanol by volume.
///
/// # Range
/// Sweet wines and the like; nobody is known to have tried it on fillings, and no rule here goes by it.
///
/// # Error
/// Not stated; 78 to 80 are given as the limit.
///
/// # Worked value
/// 400 g of sugar in a litre of 15 %vol make 107.5, 300 g in one of 9 %vol 70.5:
/// ```
/// # use cordial::models::growth::delle_units;
/// # use cordial::units::{AlcoholByVolume, Checked, quantity::{Density, kilogram_per_cubic_meter}};
/// for (sugar, strength, units) in [(400.0, 0.15, 107.5), (300.0, 0.09, 70.5)] {
///     let found = delle_units(Density::new::<kilogram_per_cubic_meter>(sugar), AlcoholByVolume::from_base(strength)?);
///     assert!((found - units).abs() < 1e-9, "{found}");
/// }
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Delle (1911), as in Amerine & Kunkee (1965) Vitis 5:187 (memory).
#[must_use]
pub fn delle_units(sugar: Density, strength: AlcoholByVolume) -> f64 {
    sugar.get::<kilogram_per_cubic_meter>() / 10.0 + 4.5 * 100.0 * strength.base()
}
