//! Chocolate, set and liquid.

use super::kilograms_per_cubic_meter;
use crate::matter::{Composition, Constituent, Role};
use crate::units::quantity::Density;
use crate::units::{Band, Temperature};

pub(super) const SET_FAT: f64 = 965.0;
const SUGARS: f64 = 1587.0;
pub(super) const PROTEIN: f64 = 1360.0;
/// Fibre, minerals, stimulants, water.
pub(super) const REST: f64 = 1480.0;
/// Fat-free cocoa as the protein, carbohydrate and rest of unsweetened baking chocolate (USDA SR28, record 19078, per 100 g: 14.32 protein,
/// 28.42 carbohydrate with its fibre, 46.35 dry and fat-free in all). With the fibre counted as rest it would be 1465, but weighed dark
/// bars ask for 1530 to 1560.
pub(super) const FAT_FREE_COCOA: f64 = 46.35 / (14.32 / PROTEIN + 28.42 / SUGARS + 3.61 / REST);
/// Of the fat of tempered chocolate, as it is poured.
const CRYSTALS: f64 = 0.08;
const CRYSTAL_FAT: f64 = 980.0;
const STANDARD_UNCERTAINTY: f64 = 15.0;

/// The density of set chocolate.
///
/// # Equation
/// Additive specific volumes: fat and emulsifiers 965, sugars 1587, protein 1360, the rest 1480 kg/m³. Fat-free cocoa, a lump here, counts
/// as the protein, carbohydrate and rest of unsweetened baking chocolate, 1501 kg/m³.
///
/// # Units
/// kg/m³, with its 95 % band.
///
/// # Range
/// Dark, milk and white chocolate at room temperature, without air bubbles.
///
/// # Error
/// Standard uncertainty 15 kg/m³: on twelve weighed bars 13 kg/m³ root mean square, at worst 24; the four densities were chosen on those
/// bars.
///
/// # Worked value
/// A milk chocolate of 30 % fat, 57 % carbohydrate and 7.5 % protein was weighed at 1308 kg/m³:
/// ```
/// # use cordial::matter::{Composition, Constituent::*};
/// # use cordial::models::density::chocolate;
/// # use cordial::units::{Checked, MassFraction, quantity::kilogram_per_cubic_meter};
/// let parts = [(CocoaButter, 0.30), (UnsplitMilkSugars, 0.57), (MilkProtein, 0.075), (Inert, 0.055)];
/// let bar = Composition::new(parts.map(|(what, share)| (what, MassFraction::nearest(share))))?;
/// let density = chocolate::solid(&bar).value.get::<kilogram_per_cubic_meter>();
/// assert!((density / 1308.0 - 1.0).abs() < 0.02);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// The rule is this project's; the bars: H. Banks (2012), The density of chocolate (seen). Sugar crystal, cocoa solids: memory.
#[must_use]
pub fn solid(chocolate: &Composition) -> Band<Density> {
    banded(chocolate, 1.0 / SET_FAT)
}

/// The density of liquid chocolate, as a cap is poured.
///
/// # Equation
/// As [`solid`], with liquid fat of `890 + 0.75 (40 - t)`; tempered chocolate holds 8 % of its fat as crystals of 980 kg/m³ (defaults).
///
/// # Units
/// `at` in °C; kg/m³, with its 95 % band.
///
/// # Range
/// 27 to 60 °C.
///
/// # Error
/// Standard uncertainty 15 kg/m³ (default).
///
/// # Worked value
/// Liquid cocoa butter weighs 880 to 900 kg/m³:
/// ```
/// # use cordial::matter::{Composition, Constituent};
/// # use cordial::models::density::chocolate;
/// # use cordial::units::{Measure, quantity::kilogram_per_cubic_meter};
/// let fat = chocolate::liquid(&Composition::pure(Constituent::CocoaButter), Measure::parse("40 Cel")?.check()?, false);
/// assert!((880.0..=900.0).contains(&fat.value.get::<kilogram_per_cubic_meter>()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Fat: Beckett, Industrial Chocolate Manufacture and Use (1999), quoted (seen); its expansion and the share of crystals: defaults of this
/// project.
#[must_use]
pub fn liquid(chocolate: &Composition, at: Temperature, tempered: bool) -> Band<Density> {
    let crystals = if tempered { CRYSTALS } else { 0.0 };
    banded(chocolate, crystals / CRYSTAL_FAT + (1.0 - crystals) / liquid_fat(at.celsius()))
}

/// Cocoa butter without a crystal, kg/m³.
pub(super) fn liquid_fat(celsius: f64) -> f64 {
    890.0 + 0.75 * (40.0 - celsius)
}

/// From the room that a kilogram of its fat takes, m³.
fn banded(chocolate: &Composition, fat: f64) -> Band<Density> {
    let (of, of_role) = (|constituent| chocolate.of(constituent), |role| chocolate.of_role(role));
    let named = [
        (of_role(Role::Fat) + of_role(Role::Emulsifier), fat),
        (of_role(Role::Sugar) + of_role(Role::Saccharide) + of_role(Role::Polyol), 1.0 / SUGARS),
        (of(Constituent::MilkProtein) + of(Constituent::Protein), 1.0 / PROTEIN),
        (of(Constituent::FatFreeCocoa), 1.0 / FAT_FREE_COCOA),
    ];
    let rest = 1.0 - named.iter().map(|(share, _)| share).sum::<f64>();
    let volume = named.iter().map(|(share, takes)| share * takes).sum::<f64>() + rest / REST;
    Band::normal(1.0 / volume, STANDARD_UNCERTAINTY).map(kilograms_per_cubic_meter)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::quantity::kilogram_per_cubic_meter;
    use crate::units::{Checked, MassFraction};
    use approx::assert_abs_diff_eq;

    fn of(percent: &[(Constituent, f64)]) -> Composition {
        Composition::new(percent.iter().map(|(constituent, share)| (*constituent, MassFraction::from_base(share / 100.0).unwrap())))
            .unwrap()
    }

    fn kilograms(band: Band<Density>) -> f64 {
        band.value.get::<kilogram_per_cubic_meter>()
    }

    #[test]
    fn caps_as_they_are_poured() {
        use Constituent::{CocoaButter, FatFreeCocoa, Lactose, MilkFat, MilkProtein, MilkSalts, Phospholipid, Sucrose, Water};
        let at_31 = Temperature::from_base(31.0).unwrap();
        let dark = of(&[(CocoaButter, 38.5), (FatFreeCocoa, 25.5), (Sucrose, 35.0), (Water, 0.6), (Phospholipid, 0.4)]);
        let milk = of(&[
            (CocoaButter, 24.0),
            (MilkFat, 6.0),
            (FatFreeCocoa, 6.0),
            (Sucrose, 47.0),
            (Lactose, 9.0),
            (MilkProtein, 6.0),
            (MilkSalts, 1.5),
            (Water, 0.5),
        ]);
        assert_abs_diff_eq!(kilograms(liquid(&dark, at_31, true)), 1210.0, epsilon = 5.0);
        assert_abs_diff_eq!(kilograms(liquid(&milk, at_31, true)), 1280.0, epsilon = 5.0);
        assert!(kilograms(liquid(&dark, at_31, false)) < kilograms(liquid(&dark, at_31, true)));
        assert!(kilograms(liquid(&dark, at_31, true)) < kilograms(solid(&dark)));
    }

    #[test]
    fn the_band_is_two_standard_uncertainties() {
        let band = solid(&Composition::pure(Constituent::Sucrose));
        assert_abs_diff_eq!((band.high - band.low).get::<kilogram_per_cubic_meter>(), 60.0, epsilon = 1e-9);
    }
}
