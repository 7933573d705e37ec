//! Numbers as a bench reads them.

use crate::assess::{Estimate, Quantity};
use crate::units::{Measure, Unit};

/// Holds a number and its unit on one line until the text is laid out.
pub(super) const NO_BREAK: char = '\u{a0}';

/// A measure with three significant digits and its unit as people write it.
pub(super) fn shown(measure: Measure) -> String {
    with_unit(&digits(measure.value(), decimals(measure.value())), measure.unit())
}

/// An estimate with its band, where it has one: `0.86 (0.84 to 0.88)`.
pub(super) fn estimate(quantity: Quantity, estimate: &Estimate) -> String {
    estimate_in(quantity.unit(), quantity, estimate)
}

/// The same in another unit of its dimension.
pub(super) fn estimate_in(unit: Unit, quantity: Quantity, estimate: &Estimate) -> String {
    let value = |base: f64| Measure::from_base(base, unit).value();
    let best = value(estimate.value());
    let decimals = decimals(best);
    let [best, low, high] = [best, value(estimate.band.low), value(estimate.band.high)].map(|value| digits(value, decimals));
    if quantity == Quantity::WaterActivity && estimate.band.low <= 0.0 && low != high {
        return format!("below{NO_BREAK}{high}");
    }
    if low == high { with_unit(&best, unit) } else { format!("{} ({low}{NO_BREAK}to{NO_BREAK}{high})", with_unit(&best, unit)) }
}

/// An estimate whose band is shown only where it matters: always for a water activity, else from 3 % to either side.
pub(super) fn brief(quantity: Quantity, known: &Estimate) -> String {
    let narrow = known.half_width() < 0.03 * known.value().abs();
    if narrow && quantity != Quantity::WaterActivity { shown(known.measure(quantity)) } else { estimate(quantity, known) }
}

/// Decimals that leave three significant digits.
fn decimals(value: f64) -> usize {
    match value.abs() {
        size if size >= 99.95 || size <= 0.0 => 0,
        size if size >= 9.995 => 1,
        size if size >= 0.9995 => 2,
        size if size >= 0.0995 => 3,
        _ => 4,
    }
}

fn digits(value: f64, decimals: usize) -> String {
    let fixed = format!("{value:.decimals$}");
    let trimmed = if fixed.contains('.') { fixed.trim_end_matches('0').trim_end_matches('.') } else { &fixed };
    if trimmed == "-0" { "0".into() } else { trimmed.into() }
}

fn with_unit(number: &str, unit: Unit) -> String {
    let unit = match unit {
        Unit::One => return number.into(),
        Unit::Celsius => "°C",
        Unit::KelvinDifference => "K",
        Unit::KilogramPerCubicMeter => "kg/m³",
        Unit::Milliliter => "ml",
        Unit::Day if number == "1" => "day",
        Unit::Day => "days",
        Unit::PercentVolume => "%\u{a0}vol",
        Unit::PascalSecond => "Pa\u{a0}s",
        Unit::AcidityUnit => return format!("pH{NO_BREAK}{number}"),
        other => other.code(),
    };
    format!("{number}{NO_BREAK}{unit}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_digits_are_enough() {
        for (value, unit, text) in [
            (30.512, Unit::Percent, "30.5 %"),
            (1208.4, Unit::KilogramPerCubicMeter, "1208 kg/m³"),
            (0.85, Unit::One, "0.85"),
            (0.04, Unit::Percent, "0.04 %"),
            (0.0, Unit::Pascal, "0 Pa"),
            (20.0, Unit::Percent, "20 %"),
            (-0.000_001, Unit::Gram, "0 g"),
        ] {
            assert_eq!(shown(Measure::new(value, unit)).replace(NO_BREAK, " "), text);
        }
    }
}
