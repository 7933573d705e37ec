//! Conductivity, specific heat and latent heat.

use crate::matter::{Composition, Constituent, Role};
use crate::models::interpolation::linear;
use crate::units::quantity::{
    LatentHeat, SpecificHeatCapacity, ThermalConductivity, joule_per_kilogram, joule_per_kilogram_kelvin, watt_per_meter_kelvin,
};
use crate::units::{Band, Temperature};

/// Of set cocoa butter, J/kg.
const COCOA_BUTTER: f64 = 157_000.0;
/// What each takes to be warmed, J/(kg K): `DRY` is whatever else is dry.
const WATER: f64 = 4180.0;
const ETHANOL: f64 = 2440.0;
const FAT: f64 = 2050.0;
const CRYSTALS: f64 = 1250.0;
const DRY: f64 = 1550.0;
/// Sugar over water.
const DISSOLVES: f64 = 2.0;
/// Chocolate, °C and W/(m K).
const CONDUCTIVITY: [(f64, f64); 5] = [(15.0, 0.22), (27.0, 0.28), (30.0, 0.27), (35.0, 0.26), (40.0, 0.26)];

/// How well chocolate conducts.
///
/// # Equation
/// Interpolated between 0.22 at 15 °C, 0.28 at 27, 0.27 at 30, 0.26 at 35 and 40 °C.
///
/// # Units
/// W/(m K), with its 95 % band.
///
/// # Range
/// 15 to 40 °C; outside the nearer end holds.
///
/// # Error
/// 10 % (default). The rise from 15 to 27 °C is as printed.
///
/// # Worked value
/// 0.26 W/(m K) at 40 °C:
/// ```
/// # use cordial::models::heat::properties;
/// # use cordial::units::{Measure, quantity::watt_per_meter_kelvin};
/// let conductivity = properties::conductivity(Measure::parse("40 Cel")?.check()?);
/// assert!((conductivity.value.get::<watt_per_meter_kelvin>() - 0.26).abs() < 1e-12);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// As [`super`]. Seen.
#[must_use]
pub fn conductivity(at: Temperature) -> Band<ThermalConductivity> {
    Band::within_factor(linear(&CONDUCTIVITY, at.celsius()), 1.1).map(ThermalConductivity::new::<watt_per_meter_kelvin>)
}

/// The specific heat of a chocolate or a filling, melting not counted.
///
/// # Equation
/// Specific heats add by mass, J/(kg K): water 4180, ethanol 2440, fat and emulsifiers 2050, sugars 1250 as crystals and 1550 dissolved
/// (up to two parts in one of water), everything else that is dry 1550.
///
/// # Units
/// J/(kg K), with its 95 % band.
///
/// # Range
/// 10 to 60 °C.
///
/// # Error
/// 10 % (default); 15 % with ethanol, which holds more warmth in water than the sum.
///
/// # Worked value
/// Chocolate, here of 34 % fat, has 1590 J/(kg K):
/// ```
/// # use cordial::matter::{Composition, Constituent::*};
/// # use cordial::models::heat::properties;
/// # use cordial::units::{Checked, MassFraction, quantity::joule_per_kilogram_kelvin};
/// let parts = [(CocoaButter, 0.34), (Sucrose, 0.45), (FatFreeCocoa, 0.21)];
/// let chocolate = Composition::new(parts.map(|(what, share)| (what, MassFraction::nearest(share))))?;
/// let heat = properties::specific_heat(&chocolate).value.get::<joule_per_kilogram_kelvin>();
/// assert!((heat / 1590.0 - 1.0).abs() < 0.05);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Fat: as [`super`] (seen; the mean of set and liquid). The rest: memory.
#[must_use]
pub fn specific_heat(matter: &Composition) -> Band<SpecificHeatCapacity> {
    let dissolved = matter.sweeteners().min(DISSOLVES * matter.of(Constituent::Water));
    let fat = matter.fat() + matter.of_role(Role::Emulsifier);
    let crystals = matter.sweeteners() - dissolved;
    // Taken as dry all of it, and then what each of the others differs by.
    let sum = DRY
        + matter.of(Constituent::Water) * (WATER - DRY)
        + matter.of(Constituent::Ethanol) * (ETHANOL - DRY)
        + fat * (FAT - DRY)
        + crystals * (CRYSTALS - DRY);
    let factor = if matter.of(Constituent::Ethanol) > 0.0 { 1.15 } else { 1.10 };
    Band::within_factor(sum, factor).map(SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>)
}

/// The heat a chocolate gives off as it sets, all of its fat crystallising.
///
/// # Equation
/// 157 kJ per kg of cocoa butter.
///
/// # Units
/// J per kg of chocolate, with its 95 % band.
///
/// # Range
/// Fat that is mostly cocoa butter; other fats are not counted.
///
/// # Error
/// 15 % (default): dark chocolate 46 and milk chocolate 44 kJ/kg ask for 29 and 28 % of cocoa butter.
///
/// # Worked value
/// Cocoa butter itself, 157 kJ/kg:
/// ```
/// # use cordial::matter::{Composition, Constituent};
/// # use cordial::models::heat::properties;
/// # use cordial::units::quantity::joule_per_kilogram;
/// let heat = properties::latent_heat(&Composition::pure(Constituent::CocoaButter));
/// assert!((heat.value.get::<joule_per_kilogram>() - 157e3).abs() < 1e-6);
/// ```
///
/// # Source
/// As [`super`]. Seen.
#[must_use]
pub fn latent_heat(chocolate: &Composition) -> Band<LatentHeat> {
    let heat = COCOA_BUTTER * chocolate.of(Constituent::CocoaButter);
    Band::within_factor(heat, 1.15).map(LatentHeat::new::<joule_per_kilogram>)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Checked;

    #[test]
    fn only_ethanol_makes_the_specific_heat_less_sure() {
        let factor = |parts: &[(Constituent, f64)]| {
            let pure: Vec<_> = parts.iter().map(|(constituent, mass)| (Composition::pure(*constituent), *mass)).collect();
            let heat = specific_heat(&Composition::blend(pure.iter().map(|(matter, mass)| (matter, *mass))).unwrap());
            (heat.high / heat.value).get::<crate::units::quantity::ratio>()
        };
        assert!((factor(&[(Constituent::Water, 0.3), (Constituent::CocoaButter, 0.7)]) - 1.10).abs() < 1e-12);
        assert!((factor(&[(Constituent::Water, 0.6), (Constituent::Ethanol, 0.4)]) - 1.15).abs() < 1e-12);
    }

    #[test]
    fn conductivity_holds_at_the_ends() {
        for (celsius, published) in [(10.0, 0.22), (50.0, 0.26)] {
            let value = conductivity(Temperature::from_base(celsius).unwrap()).value.get::<watt_per_meter_kelvin>();
            assert!((value - published).abs() < 1e-12);
        }
    }
}
