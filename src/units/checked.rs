//! The table of all ranges: a value of one of these types is inside its range, because there is no other way to make one.
//!
//! Each line gives the name, the dimension, what messages call it, and the legal range in the base unit of the dimension
//! (SI; degrees Celsius for temperatures, so that 2.2 °C reads back as 2.2).

use super::measure::{Dimension, Measure, Unit};
use super::quantity::{self, Density, DynamicViscosity, Length, Mass, Stress, Time, Volume};

/// A number with a dimension and a legal range.
pub trait Checked: Copy {
    /// What messages call the quantity.
    const WHAT: &'static str;
    /// The dimension its measures must have.
    const DIMENSION: Dimension;
    /// Smallest legal value, in the base unit.
    const MIN: f64;
    /// Largest legal value, in the base unit.
    const MAX: f64;
    /// Whether it is dimensionless by nature, so that documents give it as a bare number.
    const BARE: bool;

    /// Takes a number in the base unit.
    ///
    /// # Errors
    /// [`RangeError`] when it is not a number or lies outside [`Self::MIN`]`..=`[`Self::MAX`].
    fn from_base(value: f64) -> Result<Self, RangeError>;

    /// The legal value nearest to a number in the base unit: for results that only rounding can carry outside.
    #[must_use]
    fn nearest(value: f64) -> Self;

    /// The number in the base unit.
    fn base(self) -> f64;

    /// The number as a measure in the given unit; in the base unit if `unit` is of another dimension.
    fn measure(self, unit: Unit) -> Measure {
        Measure::from_base(self.base(), if unit.dimension() == Self::DIMENSION { unit } else { Self::DIMENSION.base_unit() })
    }
}

/// A value outside its legal range.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{what} must lie between {min} and {max}, found `{found}`")]
pub struct RangeError {
    /// What was measured.
    pub what: &'static str,
    /// The smallest legal value.
    pub min: Measure,
    /// The largest legal value.
    pub max: Measure,
    /// The value that was given.
    pub found: Measure,
}

impl RangeError {
    pub(super) fn new<T: Checked>(found: Measure) -> Self {
        let unit = found.unit();
        Self { what: T::WHAT, min: Measure::from_base(T::MIN, unit), max: Measure::from_base(T::MAX, unit), found }
    }
}

macro_rules! checked {
    ($($(#[$doc:meta])* $name:ident: $dimension:ident, $what:literal, $min:literal ..= $max:literal $(, $bare:ident)?;)+) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl Checked for $name {
            const WHAT: &'static str = $what;
            const DIMENSION: Dimension = Dimension::$dimension;
            const MIN: f64 = $min;
            const MAX: f64 = $max;
            const BARE: bool = !stringify!($($bare)?).is_empty();

            fn from_base(value: f64) -> Result<Self, RangeError> {
                if (Self::MIN..=Self::MAX).contains(&value) {
                    // A negative zero would print as "-0".
                    Ok(Self(value + 0.0))
                } else {
                    Err(RangeError::new::<Self>(Measure::from_base(value, Self::DIMENSION.base_unit())))
                }
            }

            fn nearest(value: f64) -> Self {
                Self(value.max(Self::MIN).min(Self::MAX))
            }

            fn base(self) -> f64 {
                self.0
            }
        }

        impl TryFrom<Measure> for $name {
            type Error = super::MeasureError;

            fn try_from(measure: Measure) -> Result<Self, Self::Error> {
                measure.check()
            }
        }
    )+};
}

checked! {
    /// Mass of a constituent over the mass of the whole.
    MassFraction: Ratio, "a mass fraction", 0.0..=1.0;
    /// Vapour pressure over that of pure water at the same temperature.
    WaterActivity: Ratio, "a water activity", 0.0..=1.0, bare;
    /// Acidity as pH.
    Ph: Acidity, "a pH", 0.0..=14.0, bare;
    /// Volume of ethanol over the volume of the liquid at 20 °C.
    AlcoholByVolume: AlcoholStrength, "an alcoholic strength", 0.0..=1.0;
    /// Vapour pressure of air over that of pure water at the same temperature.
    RelativeHumidity: Humidity, "a relative humidity", 0.0..=1.0;
    /// Reducing power of a glucose syrup's dry matter, glucose = 1.
    DextroseEquivalent: DextroseEquivalent, "a dextrose equivalent", 0.0..=1.0;
    /// A temperature of the workshop: freezer to boiling sugar.
    Temperature: Temperature, "a temperature", -40.0..=200.0;
    /// What a thermometer shows in plain boiling water, from the highest kitchens to a thermometer that reads too high.
    BoilingWater: Temperature, "the temperature of boiling water", 80.0..=105.0;
    /// A wall, a cap, or the depth left under a rim.
    Thickness: Length, "a thickness", 0.0..=0.05;
    /// A dimension of a mould.
    Distance: Length, "a mould dimension", 0.001..=0.3;
    /// The mass of a portion, a recipe line or a batch.
    Portion: Mass, "a mass", 0.0..=10000.0;
    /// The volume of a cavity or a layer.
    Space: Volume, "a volume", 0.0..=0.01;
    /// A waiting or keeping time.
    Duration: Time, "a time", 0.0..=157680000.0;
    /// Mass over volume, from foam to syrup.
    BulkDensity: Density, "a density", 50.0..=2500.0;
    /// The stress below which a material does not flow.
    YieldValue: Stress, "a yield value", 0.0..=100000.0;
    /// Resistance to flow.
    Viscosity: Viscosity, "a viscosity", 0.0..=100000.0;
}

macro_rules! typed {
    ($($name:ident, $quantity:ident, $unit:ident;)+) => {$(
        impl $name {
            /// The same as a `uom` quantity.
            #[must_use]
            pub fn quantity(self) -> $quantity {
                $quantity::new::<quantity::$unit>(self.0)
            }
        }

        impl TryFrom<$quantity> for $name {
            type Error = RangeError;

            fn try_from(value: $quantity) -> Result<Self, RangeError> {
                Self::from_base(value.get::<quantity::$unit>())
            }
        }
    )+};
}

typed! {
    Thickness, Length, meter;
    Distance, Length, meter;
    Portion, Mass, kilogram;
    Space, Volume, cubic_meter;
    Duration, Time, second;
    BulkDensity, Density, kilogram_per_cubic_meter;
    YieldValue, Stress, pascal;
    Viscosity, DynamicViscosity, pascal_second;
}

impl MassFraction {
    /// Nothing.
    pub const ZERO: Self = Self(0.0);
}

impl From<BoilingWater> for Temperature {
    fn from(boiling: BoilingWater) -> Self {
        Self(boiling.0)
    }
}

impl Temperature {
    /// Degrees Celsius, exactly as given.
    #[must_use]
    pub fn celsius(self) -> f64 {
        self.0
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn only_the_range_gets_in() {
        assert_eq!(MassFraction::from_base(1.0).unwrap().base(), 1.0);
        for bad in [1.0 + f64::EPSILON, -f64::EPSILON, f64::NAN, f64::INFINITY] {
            assert!(MassFraction::from_base(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn a_range_error_speaks_the_users_unit() {
        let error = Measure::parse("140 %").unwrap().check::<MassFraction>().unwrap_err();
        assert_eq!(error.to_string(), "a mass fraction must lie between 0 % and 100 %, found `140 %`");
    }

    #[test]
    fn celsius_reads_back_as_given() {
        assert_eq!(Measure::parse("2.2 °C").unwrap().check::<Temperature>().unwrap().celsius(), 2.2);
    }
}
