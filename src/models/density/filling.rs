//! Any filling without air in it.

use super::{chocolate, ethanol_water, kilograms_per_cubic_meter, sucrose_solution};
use crate::matter::{Composition, Constituent, Role};
use crate::models::quadrature::in_quadrature;
use crate::models::range::OutOfRange;
use crate::units::quantity::Density;
use crate::units::{Band, Temperature};

/// The density of a filling from what it is made of.
///
/// # Equation
/// Ethanol is mixed with all the water first ([`ethanol_water`]), or the water taken alone ([`sucrose_solution`]). Then volumes add, per
/// kilogram:
///
/// | constituent | how | standard uncertainty, L/kg | how known |
/// |---|---|---|---|
/// | sugars, saccharides, maltitol, citric acid | what as much sucrose takes in as much water, 0.617 to 0.644 L/kg | 0.006 | seen (SPS-4); that others are like it: honey |
/// | glycerol | 0.769 L/kg | 0.02 | memory (fitted on the handbook's 20 % solution) |
/// | sorbitol, mannitol, xylitol | 0.67 L/kg | 0.02 | memory |
/// | lactic acid | 0.76 L/kg | 0.02 | memory |
/// | salt | 0.32 L/kg | 0.02 | memory |
/// | milk salts, minerals | 0.413 L/kg | 0.02 | seen (ash of Choi & Okos at 20 °C) |
/// | cocoa butter | 965 kg/m³ set, `890 + 0.75 (40 - t)` melted, set below 26 °C and melted above 34 °C | 0.03 | as in [`chocolate`]; the melting range is a default |
/// | milk fat | `925 - 0.75 (t - 20)` kg/m³ | 0.03 | memory (0.93 at 15 °C seen) |
/// | lauric fat | `925 - 0.75 (t - 20)` kg/m³ | 0.03 | memory |
/// | oil, firm fat | `915 - 0.75 (t - 20)` kg/m³ | 0.03 | seen (canola, palm) |
/// | emulsifiers | 1035 kg/m³ | 0.03 | seen (fluid lecithin) |
/// | fat-free cocoa, protein, fibre and what is not named | 1501, 1360, 1480 kg/m³ | 0.02 | as in [`chocolate`] |
/// | starch, gums | 1500 kg/m³ | 0.02 | memory |
///
/// # Units
/// `at` in °C; kg/m³, with its 95 % band.
///
/// # Range
/// With ethanol -20 to 40 °C, with water alone 0 to 80 °C, without either any temperature. Not for aerated fillings: marshmallow weighs
/// 400, whipped cream 496, nougat from 660 kg/m³; declare what was weighed.
///
/// # Error
/// The uncertainties of the table, fully correlated inside spirit, solutes, fats and solids, independent between them: about 2 kg/m³ for a
/// spirit, 3 for a liqueur, 8 for jam or syrup, 11 for cream or honey, 14 for ganache, 16 for a nut spread. Pure sucrose solutions and
/// spirits come back as their tables; calculated less measured: honey 12, light corn syrup -5 and 14 (two values), 38 % cream 6, butter 30
/// (1.4 standard uncertainties), a nut spread of assumed composition 3, pure glycerol 39 kg/m³.
///
/// # Worked value
/// Honey of 14 % water weighs 1440.4 kg/m³ at 20 °C:
/// ```
/// # use cordial::matter::{Composition, Constituent::*};
/// # use cordial::models::density::filling;
/// # use cordial::units::{Checked, MassFraction, Temperature, quantity::kilogram_per_cubic_meter};
/// let parts = [(Water, 0.14), (Fructose, 0.47), (Glucose, 0.39)];
/// let honey = Composition::new(parts.map(|(what, share)| (what, MassFraction::nearest(share))))?;
/// let density = filling::density(&honey, Temperature::nearest(20.0))?.map(|density| density.get::<kilogram_per_cubic_meter>());
/// assert!(density.low < 1440.4 && 1440.4 < density.high && density.high - density.low < 50.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// The rule is this project's. Measured: FAO/INFOODS Density Database 2.0 (2012), in a public transcription; Belitz, Grosch & Schieberle,
/// Food Chemistry, table 19.10; Choi & Okos (1986); trade specifications of lecithin (all seen).
///
/// # Errors
/// [`OutOfRange`] outside the range above.
pub fn density(filling: &Composition, at: Temperature) -> Result<Band<Density>, OutOfRange> {
    use Constituent as C;
    let (of, of_role) = (|constituent| filling.of(constituent), |role| filling.of_role(role));
    let celsius = at.celsius();

    let solvent = of(C::Water) + of(C::Ethanol);
    let mut spirit = Phase::of(0.002, [(solvent, 0.0)]);
    if solvent > 0.0 {
        spirit.volume = 1000.0 * solvent / solvent_density(filling.spirit_strength(), at)?;
    }
    let as_sucrose = of_role(Role::Sugar) + of_role(Role::Saccharide) + of(C::Maltitol) + of(C::Acid);
    let mut sugars = Phase::of(0.006, [(as_sucrose, 0.0)]);
    if as_sucrose > 0.0 {
        sugars.volume = volume_as_sucrose(as_sucrose, solvent, celsius);
    }
    let others = Phase::of(
        0.02,
        [
            (of(C::Glycerol), 0.769),
            (of(C::Sorbitol) + of(C::Mannitol) + of(C::Xylitol), 0.67),
            (of(C::LacticAcid), 0.76),
            (of(C::Salt), 0.32),
            (of(C::MilkSalts) + of(C::Minerals), 0.413),
        ],
    );
    let oil = |density: f64| 1000.0 / (density - 0.75 * (celsius - 20.0));
    let fats = Phase::of(
        0.03,
        [
            (of(C::CocoaButter), cocoa_butter(celsius)),
            (of(C::MilkFat) + of(C::LauricFat), oil(925.0)),
            (of(C::LiquidOil) + of(C::FirmFat), oil(915.0)),
            (of_role(Role::Emulsifier), 1000.0 / 1035.0),
        ],
    );
    let solids = Phase::of(
        0.02,
        [
            (of(C::FatFreeCocoa), 1000.0 / chocolate::FAT_FREE_COCOA),
            (of(C::MilkProtein) + of(C::Protein), 1000.0 / chocolate::PROTEIN),
            (of(C::Starch) + of_role(Role::Gum), 1000.0 / 1500.0),
            (of(C::Fibre) + of_role(Role::Inert), 1000.0 / chocolate::REST),
        ],
    );

    let phases = [spirit, sugars.with(others), fats, solids];
    let volume: f64 = phases.iter().map(|phase| phase.volume).sum();
    let uncertainty = in_quadrature(phases.map(|phase| phase.uncertainty));
    let density = 1000.0 / volume;
    Ok(Band::normal(density, density * uncertainty / volume).map(kilograms_per_cubic_meter))
}

/// What the constituents of a kind take up in a kilogram of filling, L.
#[derive(Clone, Copy)]
struct Phase {
    volume: f64,
    uncertainty: f64,
}

impl Phase {
    /// Masses, each with what a kilogram takes up; and how far that may be off, for all of them alike.
    fn of<const N: usize>(uncertainty: f64, parts: [(f64, f64); N]) -> Self {
        let sum = |of: fn((f64, f64)) -> f64| parts.into_iter().map(of).sum::<f64>();
        Self { volume: sum(|(mass, takes)| mass * takes), uncertainty: uncertainty * sum(|(mass, _)| mass) }
    }

    fn with(self, other: Self) -> Self {
        Self { volume: self.volume + other.volume, uncertainty: self.uncertainty + other.uncertainty }
    }
}

/// Which sets, L/kg.
fn cocoa_butter(celsius: f64) -> f64 {
    let set = ((34.0 - celsius) / 8.0).clamp(0.0, 1.0);
    1000.0 * (set * (1.0 / chocolate::SET_FAT) + (1.0 - set) / chocolate::liquid_fat(celsius))
}

/// Of water with its ethanol, kg/m³.
fn solvent_density(strength: f64, at: Temperature) -> Result<f64, OutOfRange> {
    if strength > 0.0 { ethanol_water::density_of(strength, at) } else { Ok(sucrose_solution::water(sucrose_solution::celsius(at)?)) }
}

/// The room that sucrose takes in its solution, L: that of the solution without that of its water.
fn volume_as_sucrose(sucrose: f64, solvent: f64, celsius: f64) -> f64 {
    // A spirit may be colder than any sucrose solution in the table, and dry sugar warmer.
    let celsius = celsius.clamp(0.0, 80.0);
    let whole = sucrose + solvent;
    1000.0 * (whole / sucrose_solution::density_of(sucrose / whole, celsius) - solvent / sucrose_solution::water(celsius))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::quantity::kilogram_per_cubic_meter;
    use crate::units::{AlcoholByVolume, Checked, MassFraction};
    use Constituent::{
        Acid, CocoaButter, Ethanol, FatFreeCocoa, Fibre, Fructose, Glucose, Glycerol, Lactose, LiquidOil, MilkFat, MilkProtein, MilkSalts,
        Pectin, Sucrose, Water,
    };
    use approx::{assert_abs_diff_eq, assert_relative_eq};
    use proptest::prelude::*;

    fn of(percent: &[(Constituent, f64)]) -> Composition {
        Composition::new(percent.iter().map(|(constituent, share)| (*constituent, MassFraction::from_base(share / 100.0).unwrap())))
            .unwrap()
    }

    fn at(percent: &[(Constituent, f64)], celsius: f64) -> Band<f64> {
        density(&of(percent), Temperature::from_base(celsius).unwrap()).unwrap().map(|density| density.get::<kilogram_per_cubic_meter>())
    }

    fn holds(band: Band<f64>, measured: f64) -> bool {
        (band.low..=band.high).contains(&measured)
    }

    fn standard_uncertainty(band: Band<f64>) -> f64 {
        (band.high - band.low) / 4.0
    }

    #[test]
    fn a_syrup_is_its_sucrose_solution() {
        for (brix, handbook) in [(10.0, 1038.1), (30.0, 1127.0), (50.0, 1229.5), (64.0, 1310.3), (70.0, 1347.2)] {
            assert_abs_diff_eq!(at(&[(Sucrose, brix), (Water, 100.0 - brix)], 20.0).value, handbook, epsilon = 0.3);
        }
    }

    #[test]
    fn a_spirit_is_its_table() {
        let strength = 100.0 * ethanol_water::by_mass(AlcoholByVolume::from_base(0.4).unwrap()).base();
        let spirit = at(&[(Ethanol, strength), (Water, 100.0 - strength)], 20.0);
        assert_abs_diff_eq!(spirit.value, 948.05, epsilon = 0.01);
        // Whisky of 45 %vol, at room temperature.
        let strength = 100.0 * ethanol_water::by_mass(AlcoholByVolume::from_base(0.45).unwrap()).base();
        assert!(holds(at(&[(Ethanol, strength), (Water, 100.0 - strength)], 20.0), 939.0));
    }

    #[test]
    fn measured_fillings_lie_in_the_band() {
        let honey = [(Water, 14.0), (Fructose, 47.0), (Glucose, 39.0)];
        let cream = [(Water, 55.9), (MilkFat, 38.0), (Lactose, 2.9), (MilkProtein, 2.7), (MilkSalts, 0.5)];
        let butter = [(Water, 17.94), (MilkFat, 81.11), (MilkProtein, 0.85), (MilkSalts, 0.1)];
        // Light corn syrup is 23 % water; its saccharides are sugars as far as density goes.
        let corn_syrup = [(Water, 22.81), (Glucose, 76.99), (MilkSalts, 0.2)];
        for (name, filling, measured) in [
            ("honey", &honey[..], 1440.4),
            ("cream", &cream, 984.0),
            ("butter", &butter, 911.0),
            ("oil", &[(LiquidOil, 100.0)], 915.0),
            ("light corn syrup", &corn_syrup, 1400.0),
            ("corn syrup", &corn_syrup, 1380.0),
        ] {
            let band = at(filling, 20.0);
            assert!(holds(band, measured), "{name}: {measured} is not in {band:?}");
        }
    }

    #[test]
    fn assumed_recipes_lie_where_their_kind_was_measured() {
        let spread =
            [(Sucrose, 52.0), (LiquidOil, 31.0), (FatFreeCocoa, 6.0), (Lactose, 4.0), (MilkProtein, 4.0), (Fibre, 2.0), (Water, 1.0)];
        assert!(holds(at(&spread, 20.0), 1260.0));
        let jam = at(&[(Sucrose, 40.0), (Glucose, 14.0), (Fructose, 14.0), (Water, 30.5), (Acid, 0.7), (Pectin, 0.8)], 20.0);
        assert!((1333.0..=1430.0).contains(&jam.value), "{jam:?}");
        // 25 %vol with 30 % sugar.
        let liqueur = at(&[(Ethanol, 18.0), (Water, 52.0), (Sucrose, 30.0)], 20.0);
        assert!((1040.0..=1120.0).contains(&liqueur.value), "{liqueur:?}");
        let ganache = [
            (CocoaButter, 20.0),
            (MilkFat, 14.0),
            (FatFreeCocoa, 14.0),
            (Sucrose, 25.0),
            (Water, 23.5),
            (Lactose, 2.0),
            (MilkProtein, 1.0),
            (MilkSalts, 0.5),
        ];
        assert!((1150.0..=1250.0).contains(&at(&ganache, 20.0).value));
    }

    #[test]
    fn cocoa_butter_melts_between_26_and_34_degrees() {
        // Worked by hand: set at 965 kg/m³, liquid at 894.5 (34 °C) and 897.5 (30 °C), volumes added where half of it is liquid.
        for (celsius, computed) in [(20.0, 965.0), (26.0, 965.0), (30.0, 2.0 / (1.0 / 965.0 + 1.0 / 897.5)), (34.0, 894.5), (40.0, 890.0)] {
            assert_relative_eq!(at(&[(CocoaButter, 100.0)], celsius).value, computed, max_relative = 1e-9);
        }
    }

    #[test]
    fn glycerol_in_water() {
        // Handbook (memory): 20 % and pure. The constant is for the few per cent of a filling.
        assert_relative_eq!(at(&[(Glycerol, 20.0), (Water, 80.0)], 20.0).value, 1046.9, max_relative = 0.001);
        assert!(holds(at(&[(Glycerol, 100.0)], 20.0), 1261.1));
    }

    #[test]
    fn the_uncertainties_are_those_stated() {
        let spirit = at(&[(Ethanol, 33.3), (Water, 66.7)], 20.0);
        assert_abs_diff_eq!(standard_uncertainty(spirit), 1.8, epsilon = 0.3);
        let liqueur = at(&[(Ethanol, 18.0), (Water, 52.0), (Sucrose, 30.0)], 20.0);
        assert_abs_diff_eq!(standard_uncertainty(liqueur), 3.0, epsilon = 1.0);
        let jam = at(&[(Sucrose, 68.0), (Water, 32.0)], 20.0);
        assert_abs_diff_eq!(standard_uncertainty(jam), 8.0, epsilon = 1.0);
    }

    #[test]
    fn every_constituent_takes_room() {
        for constituent in Constituent::ALL {
            let density = at(&[(*constituent, 100.0)], 20.0).value;
            assert!((700.0..3200.0).contains(&density), "{}: {density}", constituent.key());
        }
    }

    #[test]
    fn ranges_follow_the_solvent() {
        let refused =
            |percent: &[(Constituent, f64)], celsius: f64| density(&of(percent), Temperature::from_base(celsius).unwrap()).is_err();
        assert!(refused(&[(Ethanol, 10.0), (Water, 90.0)], 45.0));
        assert!(!refused(&[(Sucrose, 50.0), (Water, 50.0)], 45.0));
        assert!(refused(&[(Sucrose, 50.0), (Water, 50.0)], 85.0));
        assert!(!refused(&[(Sucrose, 50.0), (LiquidOil, 50.0)], 85.0));
    }

    proptest! {
        #[test]
        fn every_composition_has_a_density(
            masses in proptest::collection::vec(0.0..1.0f64, Constituent::COUNT), celsius in 0.0..40.0f64
        ) {
            let parts: Vec<_> = Constituent::ALL.iter().map(|constituent| Composition::pure(*constituent)).collect();
            if let Some(filling) = Composition::blend(parts.iter().zip(masses)) {
                let band = density(&filling, Temperature::from_base(celsius).unwrap()).unwrap();
                let band = band.map(|density| density.get::<kilogram_per_cubic_meter>());
                prop_assert!(700.0 < band.low && band.low < band.value && band.value < band.high && band.high < 3000.0, "{band:?}");
            }
        }

        #[test]
        fn sugar_only_makes_it_heavier(ethanol in 0.0..0.4f64, sugar in 0.01..0.7f64) {
            let kilograms = |sugar: f64| {
                let spirit = 100.0 * (1.0 - sugar);
                at(&[(Ethanol, spirit * ethanol), (Water, spirit * (1.0 - ethanol)), (Sucrose, 100.0 * sugar)], 20.0).value
            };
            prop_assert!(kilograms(sugar) > kilograms(sugar - 0.01));
        }
    }
}
