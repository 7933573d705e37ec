//! A number with its unit, as it stands in a document or a report.

use super::checked::{Checked, RangeError};
use serde::{Deserialize, Serialize};
use std::{fmt, str::FromStr};

/// What kind of thing a unit measures. Ratios of different things are kept apart where mixing them up would be harmful.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Dimension {
    /// A plain number, a count or a ratio of masses.
    Ratio,
    /// Mass.
    Mass,
    /// Length.
    Length,
    /// Volume.
    Volume,
    /// Time.
    Time,
    /// Temperature on the Celsius scale.
    Temperature,
    /// A difference of temperatures.
    TemperatureDifference,
    /// Mass over volume.
    Density,
    /// Volume over mass.
    SpecificVolume,
    /// Force over area.
    Stress,
    /// Resistance to flow.
    Viscosity,
    /// Inclination, as of a mould's wall.
    Angle,
    /// Volume share of ethanol at 20 °C.
    AlcoholStrength,
    /// Moisture of air as a share of saturation.
    Humidity,
    /// pH.
    Acidity,
    /// Dissolved solids by refractometer.
    Brix,
    /// Reducing power of a glucose syrup.
    DextroseEquivalent,
    /// Gel strength of gelatine.
    GelStrength,
}

/// One unit: how it is written, what it measures and how it converts to the base unit (`base = value * times / over + plus`).
struct Entry {
    code: &'static str,
    dimension: Dimension,
    times: f64,
    over: f64,
    plus: f64,
    spellings: &'static [&'static str],
}

macro_rules! units {
    ($($(#[$doc:meta])* $name:ident = $code:literal $dimension:ident ($times:literal, $over:literal, $plus:literal) [$($spelling:literal),*];)+) => {
        /// Every unit a document may name. Codes follow UCUM where it has one; the rest are the trade's.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
        #[non_exhaustive]
        pub enum Unit {$($(#[$doc])* #[serde(rename = $code)] $name,)+}

        impl Unit {
            /// Every unit, base units of their dimension first.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            const fn entry(self) -> &'static Entry {
                match self {$(Self::$name => &Entry {
                    code: $code, dimension: Dimension::$dimension, times: $times, over: $over, plus: $plus, spellings: &[$($spelling),*],
                },)+}
            }
        }
    };
}

units! {
    /// A plain number.
    One = "1" Ratio (1.0, 1.0, 0.0) [""];
    /// Per cent by mass, unless the place says otherwise.
    Percent = "%" Ratio (1.0, 100.0, 0.0) ["percent", "%m/m", "% m/m", "%w/w", "% w/w"];
    /// Gram per kilogram.
    GramPerKilogram = "g/kg" Ratio (1.0, 1000.0, 0.0) [];
    /// Milligram per kilogram.
    MilligramPerKilogram = "mg/kg" Ratio (1.0, 1000000.0, 0.0) ["ppm", "[ppm]"];
    /// Kilogram.
    Kilogram = "kg" Mass (1.0, 1.0, 0.0) ["kilo", "kilos", "Kg", "KG"];
    /// Gram.
    Gram = "g" Mass (1.0, 1000.0, 0.0) ["gr", "gram", "grams", "gramme", "grammes"];
    /// Milligram.
    Milligram = "mg" Mass (1.0, 1000000.0, 0.0) [];
    /// Avoirdupois ounce.
    Ounce = "[oz_av]" Mass (0.028349523125, 1.0, 0.0) ["oz", "ounce", "ounces"];
    /// Avoirdupois pound.
    Pound = "[lb_av]" Mass (0.45359237, 1.0, 0.0) ["lb", "lbs", "pound", "pounds"];
    /// Metre.
    Meter = "m" Length (1.0, 1.0, 0.0) ["metre", "meter"];
    /// Centimetre.
    Centimeter = "cm" Length (1.0, 100.0, 0.0) [];
    /// Millimetre.
    Millimeter = "mm" Length (1.0, 1000.0, 0.0) [];
    /// Micrometre.
    Micrometer = "um" Length (1.0, 1000000.0, 0.0) ["µm", "μm", "micron", "microns"];
    /// Inch.
    Inch = "[in_i]" Length (0.0254, 1.0, 0.0) ["in", "inch", "inches"];
    /// Cubic metre.
    CubicMeter = "m3" Volume (1.0, 1.0, 0.0) ["m³"];
    /// Litre.
    Liter = "L" Volume (1.0, 1000.0, 0.0) ["l", "litre", "liter", "litres", "liters"];
    /// Centilitre.
    Centiliter = "cL" Volume (1.0, 100000.0, 0.0) ["cl"];
    /// Millilitre.
    Milliliter = "mL" Volume (1.0, 1000000.0, 0.0) ["ml"];
    /// Cubic centimetre.
    CubicCentimeter = "cm3" Volume (1.0, 1000000.0, 0.0) ["cm³", "cc", "ccm"];
    /// Cubic millimetre.
    CubicMillimeter = "mm3" Volume (1.0, 1000000000.0, 0.0) ["mm³"];
    /// Second.
    Second = "s" Time (1.0, 1.0, 0.0) ["sec", "second", "seconds"];
    /// Minute.
    Minute = "min" Time (60.0, 1.0, 0.0) ["minute", "minutes"];
    /// Hour.
    Hour = "h" Time (3600.0, 1.0, 0.0) ["hr", "hour", "hours"];
    /// Day.
    Day = "d" Time (86400.0, 1.0, 0.0) ["day", "days"];
    /// Week.
    Week = "wk" Time (604800.0, 1.0, 0.0) ["week", "weeks"];
    /// Degree Celsius.
    Celsius = "Cel" Temperature (1.0, 1.0, 0.0) ["°C", "ºC", "℃", "degC", "C"];
    /// Kelvin.
    Kelvin = "K" Temperature (1.0, 1.0, -273.15) [];
    /// Degree Fahrenheit.
    Fahrenheit = "[degF]" Temperature (5.0, 9.0, -17.77777777777778) ["°F", "ºF", "℉", "degF", "F"];
    /// Kelvin, as a difference.
    KelvinDifference = "ΔK" TemperatureDifference (1.0, 1.0, 0.0) ["Δ°C", "K difference"];
    /// Kilogram per cubic metre.
    KilogramPerCubicMeter = "kg/m3" Density (1.0, 1.0, 0.0) ["kg/m³", "g/L", "g/l"];
    /// Gram per millilitre.
    GramPerMilliliter = "g/mL" Density (1000.0, 1.0, 0.0) ["g/ml", "g/cm3", "g/cm³", "kg/L", "kg/l"];
    /// Cubic metre per kilogram.
    CubicMeterPerKilogram = "m3/kg" SpecificVolume (1.0, 1.0, 0.0) ["m³/kg"];
    /// Litre per kilogram.
    LiterPerKilogram = "L/kg" SpecificVolume (1.0, 1000.0, 0.0) ["l/kg"];
    /// Litre per hundred kilograms, as excise law counts alcohol.
    LiterPerHundredKilograms = "L/100kg" SpecificVolume (1.0, 100000.0, 0.0) ["L/100 kg", "l/100 kg", "l/100kg"];
    /// Pascal.
    Pascal = "Pa" Stress (1.0, 1.0, 0.0) [];
    /// Millipascal.
    Millipascal = "mPa" Stress (1.0, 1000.0, 0.0) [];
    /// Dyne per square centimetre.
    DynePerSquareCentimeter = "dyn/cm2" Stress (1.0, 10.0, 0.0) ["dyn/cm²"];
    /// Pascal second.
    PascalSecond = "Pa.s" Viscosity (1.0, 1.0, 0.0) ["Pa s", "Pa·s", "Pas"];
    /// Millipascal second.
    MillipascalSecond = "mPa.s" Viscosity (1.0, 1000.0, 0.0) ["mPa s", "mPa·s", "mPas", "cP"];
    /// Poise.
    Poise = "P" Viscosity (1.0, 10.0, 0.0) ["poise"];
    /// Degree of arc.
    Degree = "deg" Angle (1.0, 1.0, 0.0) ["°", "degree", "degrees"];
    /// Per cent by volume.
    PercentVolume = "%vol" AlcoholStrength (1.0, 100.0, 0.0) ["% vol", "%ABV", "% ABV", "%abv", "% abv", "%v/v", "% v/v"];
    /// Per cent of saturation.
    PercentHumidity = "%RH" Humidity (1.0, 100.0, 0.0) ["% RH", "%rh", "% rh", "%ERH", "% ERH"];
    /// pH unit.
    AcidityUnit = "[pH]" Acidity (1.0, 1.0, 0.0) ["pH"];
    /// Degree Brix.
    Brix = "Bx" Brix (1.0, 100.0, 0.0) ["°Bx", "°Brix", "Brix", "brix"];
    /// Dextrose equivalent.
    DextroseEquivalent = "DE" DextroseEquivalent (1.0, 100.0, 0.0) ["de"];
    /// Gram of gel strength.
    Bloom = "bloom" GelStrength (1.0, 1.0, 0.0) ["Bloom"];
}

impl Dimension {
    /// What messages call it, with its article.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Ratio => "a ratio",
            Self::Mass => "a mass",
            Self::Length => "a length",
            Self::Volume => "a volume",
            Self::Time => "a time",
            Self::Temperature => "a temperature",
            Self::TemperatureDifference => "a difference of temperatures",
            Self::Density => "a density",
            Self::SpecificVolume => "a volume per mass",
            Self::Stress => "a stress",
            Self::Viscosity => "a viscosity",
            Self::Angle => "an angle",
            Self::AlcoholStrength => "an alcoholic strength",
            Self::Humidity => "a relative humidity",
            Self::Acidity => "a pH",
            Self::Brix => "a Brix value",
            Self::DextroseEquivalent => "a dextrose equivalent",
            Self::GelStrength => "a gel strength",
        }
    }

    /// The units that measure it.
    pub fn units(self) -> impl Iterator<Item = Unit> {
        Unit::ALL.iter().copied().filter(move |unit| unit.dimension() == self)
    }

    /// The unit of its numbers inside the crate: SI, and degrees Celsius for temperatures.
    #[must_use]
    pub const fn base_unit(self) -> Unit {
        match self {
            Self::Ratio => Unit::One,
            Self::Mass => Unit::Kilogram,
            Self::Length => Unit::Meter,
            Self::Volume => Unit::CubicMeter,
            Self::Time => Unit::Second,
            Self::Temperature => Unit::Celsius,
            Self::TemperatureDifference => Unit::KelvinDifference,
            Self::Density => Unit::KilogramPerCubicMeter,
            Self::SpecificVolume => Unit::CubicMeterPerKilogram,
            Self::Stress => Unit::Pascal,
            Self::Viscosity => Unit::PascalSecond,
            Self::Angle => Unit::Degree,
            Self::AlcoholStrength => Unit::PercentVolume,
            Self::Humidity => Unit::PercentHumidity,
            Self::Acidity => Unit::AcidityUnit,
            Self::Brix => Unit::Brix,
            Self::DextroseEquivalent => Unit::DextroseEquivalent,
            Self::GelStrength => Unit::Bloom,
        }
    }

    fn spelled_units(self) -> String {
        let codes: Vec<_> =
            self.units().map(|unit| format!("`{}`", if unit == Unit::One { "a bare number" } else { unit.code() })).collect();
        codes.join(", ").replace("`a bare number`", "a bare number")
    }
}

impl Unit {
    /// How it is written.
    #[must_use]
    pub const fn code(self) -> &'static str {
        self.entry().code
    }

    /// What it measures.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        self.entry().dimension
    }

    /// A value in this unit as a number in the base unit of its dimension.
    #[must_use]
    pub const fn to_base(self, value: f64) -> f64 {
        let entry = self.entry();
        value * entry.times / entry.over + entry.plus
    }

    const fn value_of(self, base: f64) -> f64 {
        let entry = self.entry();
        (base - entry.plus) * entry.over / entry.times
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

impl FromStr for Unit {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        let known = |unit: &&Self| unit.code() == text || unit.entry().spellings.contains(&text);
        Self::ALL.iter().find(known).copied().ok_or_else(|| MeasureError::UnknownUnit { unit: text.into(), nearest: nearest(text) })
    }
}

/// The unit whose spelling differs least from `text`, if any is close.
fn nearest(text: &str) -> Option<Unit> {
    let distance = |unit: &Unit| {
        let spellings = unit.entry().spellings.iter().chain(std::iter::once(&unit.entry().code));
        spellings.map(|spelling| strsim::osa_distance(&text.to_lowercase(), &spelling.to_lowercase())).min().unwrap_or(usize::MAX)
    };
    let unit = Unit::ALL.iter().copied().filter(|unit| *unit != Unit::One).min_by_key(distance)?;
    (distance(&unit) <= text.chars().count().div_ceil(3)).then_some(unit)
}

/// A finite number with its unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measure {
    value: f64,
    unit: Unit,
}

impl Measure {
    /// A measure.
    #[must_use]
    pub const fn new(value: f64, unit: Unit) -> Self {
        Self { value, unit }
    }

    /// The number that stands before the unit.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.value
    }

    /// The unit.
    #[must_use]
    pub const fn unit(self) -> Unit {
        self.unit
    }

    /// The number in the base unit of the dimension.
    #[must_use]
    pub const fn base(self) -> f64 {
        self.unit.to_base(self.value)
    }

    /// A number in the base unit, expressed in `unit`.
    #[must_use]
    pub const fn from_base(base: f64, unit: Unit) -> Self {
        Self { value: unit.value_of(base), unit }
    }

    /// The same in another unit of its dimension.
    ///
    /// # Errors
    /// [`MeasureError::Dimension`] when the unit measures something else.
    pub fn to(self, unit: Unit) -> Result<Self, MeasureError> {
        if unit == self.unit {
            Ok(self)
        } else if unit.dimension() == self.unit.dimension() {
            Ok(Self::from_base(self.base(), unit))
        } else {
            Err(MeasureError::Dimension { expected: unit.dimension(), found: self })
        }
    }

    /// The typed, range-checked form.
    ///
    /// # Errors
    /// [`MeasureError::Dimension`] or [`MeasureError::Range`].
    pub fn check<T: Checked>(self) -> Result<T, MeasureError> {
        if self.unit.dimension() != T::DIMENSION {
            return Err(MeasureError::Dimension { expected: T::DIMENSION, found: self });
        }
        T::from_base(self.base()).map_err(|_| RangeError::new::<T>(self).into())
    }

    /// Reads `"2 mm"`, `"0.4 %"`, `"27 °C"`, `"1e3 mg/kg"`.
    ///
    /// # Errors
    /// Any variant of [`MeasureError`] but `Dimension` and `Range`.
    pub fn parse(text: &str) -> Result<Self, MeasureError> {
        let trimmed = text.trim();
        let (number, unit) = trimmed.split_at(number_length(trimmed));
        let (number, unit) = (number.trim_end(), unit.trim_start());
        if number.is_empty() {
            return Err(MeasureError::NoNumber { text: shortened(text) });
        }
        if number.contains(',') {
            let offered = format!("{} {unit}", number.replacen(',', ".", 1));
            return Err(MeasureError::DecimalComma { text: shortened(text), offered: shortened(offered.trim_end()) });
        }
        let value: f64 = number.parse().map_err(|_| MeasureError::NoNumber { text: shortened(text) })?;
        if !value.is_finite() {
            return Err(MeasureError::NotFinite { text: shortened(text) });
        }
        Ok(Self { value, unit: unit.parse()? })
    }
}

/// How many bytes of `text` belong to the number at its start.
fn number_length(text: &str) -> usize {
    let mut end = 0;
    let mut previous = ' ';
    for (at, c) in text.char_indices() {
        let exponent = matches!(c, 'e' | 'E')
            && previous.is_ascii_digit()
            && text.get(at + 1..).is_some_and(|rest| rest.trim_start_matches(['+', '-']).starts_with(|c: char| c.is_ascii_digit()));
        let sign = matches!(c, '+' | '-') && (at == 0 || matches!(previous, 'e' | 'E'));
        if !(c.is_ascii_digit() || matches!(c, '.' | ',') || exponent || sign) {
            break;
        }
        end = at + c.len_utf8();
        previous = c;
    }
    end
}

/// Enough of a text to recognise it in a message, on one line.
pub(crate) fn shortened(text: &str) -> String {
    const KEPT: usize = 40;
    let on_one_line = |c: char| if c.is_control() { c.escape_default().collect() } else { c.to_string() };
    let kept: String = text.chars().take(KEPT).map(on_one_line).collect();
    if text.chars().nth(KEPT).is_some() { format!("{kept}...") } else { kept }
}

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Nine significant digits hide the last bits of a conversion and keep everything a person typed.
        let value: f64 = format!("{:.8e}", self.value).parse().unwrap_or(self.value);
        match self.unit {
            Unit::One => write!(f, "{value}"),
            unit => write!(f, "{value} {unit}"),
        }
    }
}

impl FromStr for Measure {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        Self::parse(text)
    }
}

/// Why a text is not the measure that was wanted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MeasureError {
    /// No number at the start.
    #[error("`{text}` does not start with a number: write the number, a space and the unit, as in `2 mm`")]
    NoNumber {
        /// What was given.
        text: String,
    },
    /// A decimal comma.
    #[error("`{text}` has a decimal comma: write `{offered}`")]
    DecimalComma {
        /// What was given.
        text: String,
        /// The point form.
        offered: String,
    },
    /// Infinite.
    #[error("`{text}` is not a finite number")]
    NotFinite {
        /// What was given.
        text: String,
    },
    /// A unit nobody knows.
    #[error("`{}` is not a unit known here{}", shortened(.unit), .nearest.map_or(String::new(), |unit| format!(": did you mean `{unit}`?")))]
    UnknownUnit {
        /// What was given.
        unit: String,
        /// The nearest known unit.
        nearest: Option<Unit>,
    },
    /// A unit of another dimension.
    #[error("`{found}` is not {}: give it in {}", .expected.words(), .expected.spelled_units())]
    Dimension {
        /// What was wanted.
        expected: Dimension,
        /// What was given.
        found: Measure,
    },
    /// Outside the legal range.
    #[error(transparent)]
    Range(#[from] RangeError),
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// An `e` belongs to the number only before more of it.
    #[test]
    fn an_exponent_is_told_from_a_unit() {
        assert_eq!(Measure::parse("2e1g").unwrap(), Measure::new(20.0, Unit::Gram));
        assert_eq!(Measure::parse("2e-1 g").unwrap(), Measure::new(0.2, Unit::Gram));
        for text in ["2eg", "2e", "2e g"] {
            assert!(matches!(Measure::parse(text), Err(MeasureError::UnknownUnit { .. })), "{text}: {:?}", Measure::parse(text));
        }
    }

    #[test]
    fn every_spelling_names_one_unit() {
        let mut seen = std::collections::HashMap::new();
        for unit in Unit::ALL {
            for spelling in unit.entry().spellings.iter().chain(std::iter::once(&unit.entry().code)) {
                assert_eq!(seen.insert(spelling, unit), None, "`{spelling}` names two units");
                assert_eq!(spelling.parse::<Unit>().unwrap(), *unit);
            }
        }
    }

    #[test]
    fn base_units_convert_by_one() {
        for unit in Unit::ALL {
            let base = unit.dimension().base_unit();
            assert_eq!(base.dimension(), unit.dimension());
            if matches!(unit.dimension(), Dimension::Ratio | Dimension::Mass | Dimension::Length | Dimension::Temperature) {
                assert_eq!(base.to_base(3.5), 3.5);
            }
        }
    }

    #[test]
    fn messages_say_what_would_do() {
        let message = |text: &str| Measure::parse(text).unwrap_err().to_string();
        assert_eq!(message("2,5 mm"), "`2,5 mm` has a decimal comma: write `2.5 mm`");
        assert_eq!(message("2 mmm"), "`mmm` is not a unit known here: did you mean `mm`?");
        assert_eq!(message("mm 2"), "`mm 2` does not start with a number: write the number, a space and the unit, as in `2 mm`");
        assert_eq!(message("nan"), "`nan` does not start with a number: write the number, a space and the unit, as in `2 mm`");
        assert_eq!(message("1e999 g"), "`1e999 g` is not a finite number");
        let wrong = Measure::parse("3 g").unwrap().to(Unit::Millimeter).unwrap_err().to_string();
        assert_eq!(wrong, "`3 g` is not a length: give it in `m`, `cm`, `mm`, `um`, `[in_i]`");
    }

    #[test]
    fn whatever_is_wanted_is_named_with_all_that_would_do() {
        for wanted in Unit::ALL {
            let dimension = wanted.dimension();
            let other = if dimension == Dimension::Mass { Unit::Meter } else { Unit::Gram };
            let message = Measure::new(3.0, other).to(*wanted).unwrap_err().to_string();
            let words = dimension.words();
            let article = if words.split_once(' ').unwrap().1.starts_with(['a', 'e', 'i', 'o', 'u']) { "an " } else { "a " };
            assert!(words.starts_with(article), "{words}");
            assert!(message.starts_with(&format!("`3 {other}` is not {words}: give it in ")), "{message}");
            for unit in dimension.units() {
                let spelled = if unit == Unit::One { "a bare number".to_owned() } else { format!("`{unit}`") };
                assert!(message.contains(&spelled), "{message} lacks {spelled}");
            }
            assert_eq!(Measure::new(3.0, *wanted).to(*wanted).unwrap(), Measure::new(3.0, *wanted));
        }
    }

    #[test]
    fn the_trade_writes_it_many_ways() {
        for text in ["27 Cel", "27 °C", "27°C", "27 degC", "80.6 °F", "300.15 K"] {
            let celsius = Measure::parse(text).unwrap().base();
            assert!((celsius - 27.0).abs() < 1e-9, "{text} reads {celsius}");
        }
        assert_eq!(Measure::parse("1e-3 kg").unwrap().base(), Measure::parse("1 g").unwrap().base());
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back(digits in -999_999_999i64..=999_999_999, scale in 0i32..=6, which in 0..Unit::ALL.len()) {
            let measure = Measure::new(digits as f64 / 10f64.powi(scale), *Unit::ALL.get(which).unwrap());
            prop_assert_eq!(Measure::parse(&measure.to_string()).unwrap(), measure);
        }

        #[test]
        fn there_and_back_is_the_same(value in -1e6f64..1e6, from in 0..Unit::ALL.len(), to in 0..Unit::ALL.len()) {
            let (from, to) = (*Unit::ALL.get(from).unwrap(), *Unit::ALL.get(to).unwrap());
            if from.dimension() == to.dimension() {
                let back = Measure::new(value, from).to(to).unwrap().to(from).unwrap();
                prop_assert!((back.value() - value).abs() <= 1e-9 * value.abs().max(1.0));
            }
        }

        #[test]
        fn no_text_panics(text in ".*") {
            let _ = Measure::parse(&text);
        }
    }
}
