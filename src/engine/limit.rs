//! A limit: which side of what value a quantity must stay on, how loud it is and on what evidence it rests.

use crate::assess::Quantity;
use crate::source::Source;
use crate::units::{Measure, Unit, choices};

pub use crate::law::Side;

choices! {
    /// How loud a broken limit is.
    Severity: "a severity" {
        /// Worth knowing.
        Advice "advice",
        /// Likely to disappoint.
        Warning "warning",
        /// The piece will not do.
        Breach "breach",
    }
    /// On what evidence a limit rests.
    Standing: "a standing" {
        /// Written law or standard.
        Statute "statute",
        /// Measured and published.
        Measured "measured",
        /// What the trade does.
        Practice "practice",
        /// Reasoned from physics, not tried on the thing itself.
        Conjecture "conjecture",
    }
}

/// A limit on a quantity. A unit that does not measure the quantity does not compile:
///
/// ```compile_fail
/// # use cordial::{assess::Quantity, engine::Limit, units::Unit};
/// static WATER: Limit = Limit::at_most("water.max", Quantity::Water, 20.0, Unit::Millimeter);
/// ```
///
/// Key, side and dimension are fixed; the value is the careful profile's, and another profile or the maker
/// may set it otherwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// The key by which documents and reports name it, unique among all limits.
    pub key: &'static str,
    /// What it limits.
    pub quantity: Quantity,
    /// Which side is legal.
    pub side: Side,
    /// The value in the careful profile.
    pub careful: Measure,
    /// How loud it is when broken.
    pub severity: Severity,
    /// On what evidence it rests.
    pub standing: Standing,
    /// Where it comes from.
    pub source: &'static Source,
    /// Where in the source, or what was read there.
    pub place: &'static str,
    /// Whether it is a family: its members are rows of law, each with quantity, side, value and citation of its own.
    pub family: bool,
}

impl Limit {
    /// A limit that the value must reach.
    ///
    /// # Panics
    /// At compile time, when the unit does not measure the quantity.
    #[must_use]
    pub const fn at_least(key: &'static str, quantity: Quantity, value: f64, unit: Unit) -> Self {
        Self::declared(key, quantity, Side::AtLeast, value, unit)
    }

    /// A limit that the value must not exceed.
    ///
    /// # Panics
    /// At compile time, when the unit does not measure the quantity.
    #[must_use]
    pub const fn at_most(key: &'static str, quantity: Quantity, value: f64, unit: Unit) -> Self {
        Self::declared(key, quantity, Side::AtMost, value, unit)
    }

    const fn declared(key: &'static str, quantity: Quantity, side: Side, value: f64, unit: Unit) -> Self {
        assert!(unit.dimension() as u8 == quantity.dimension() as u8, "the limit's unit does not measure its quantity");
        Self {
            key,
            quantity,
            side,
            careful: Measure::new(value, unit),
            severity: Severity::Warning,
            standing: Standing::Practice,
            source: &crate::source::COMMON_PRACTICE,
            place: "",
            family: false,
        }
    }

    /// A family of limits: rows of law that do the same to a piece. A reading names family and row.
    #[must_use]
    pub const fn family(key: &'static str, first: Quantity) -> Self {
        let source = &crate::source::ROWS_OF_LAW;
        let place = "instrument and section stand with each row";
        let declared = Self::declared(key, first, Side::AtMost, 0.0, first.dimension().base_unit());
        Self { family: true, severity: Severity::Breach, standing: Standing::Statute, source, place, ..declared }
    }

    /// Broken, it is likely to disappoint.
    #[must_use]
    pub const fn warning(self) -> Self {
        Self { severity: Severity::Warning, ..self }
    }

    /// Broken, the piece will not do.
    #[must_use]
    pub const fn breach(self) -> Self {
        Self { severity: Severity::Breach, ..self }
    }

    /// Broken, it is worth knowing.
    #[must_use]
    pub const fn advice(self) -> Self {
        Self { severity: Severity::Advice, ..self }
    }

    /// Where it comes from, and on what evidence it rests.
    #[must_use]
    pub const fn from(self, standing: Standing, source: &'static Source, place: &'static str) -> Self {
        Self { standing, source, place, ..self }
    }

    /// How far a value is on the legal side of a bound, in the base unit: negative when broken, zero at the bound. A difference of a
    /// few units in the last place is zero, so that rounding never decides.
    #[must_use]
    pub fn margin(&self, value: f64, bound: f64) -> f64 {
        margin(self.side, value, bound)
    }
}

/// How far a value is on the legal side of a bound; rounding never decides.
#[inline]
pub(super) fn margin(side: Side, value: f64, bound: f64) -> f64 {
    let margin = match side {
        Side::AtLeast => value - bound,
        Side::AtMost => bound - value,
    };
    let is_rounding_of = |number: f64| margin.abs() <= 8.0 * f64::EPSILON * number.abs();
    // A value without end is beyond any limit.
    if margin.is_finite() && (is_rounding_of(bound) || is_rounding_of(value)) { 0.0 } else { margin }
}

#[cfg(test)]
#[allow(clippy::float_cmp, reason = "tests assert on declared values")]
mod tests {
    use super::*;
    use crate::engine::{Effect, lowers, raises, searched};
    use crate::piece::KnobKind;

    #[test]
    fn a_limit_is_a_warning_of_practice_until_more_is_said() {
        let plain = Limit::at_most("water.max", Quantity::Water, 20.0, Unit::Percent);
        assert_eq!((plain.side, plain.severity, plain.standing), (Side::AtMost, Severity::Warning, Standing::Practice));
        assert_eq!((plain.source.key, plain.place), ("common-practice", ""));
        assert_eq!(plain.careful, Measure::new(20.0, Unit::Percent));
        let told = Limit::at_least("water.min", Quantity::Water, 12.0, Unit::Percent).breach().from(
            Standing::Measured,
            &crate::source::WINKLER_2009,
            "a table",
        );
        assert_eq!((told.side, told.severity, told.standing), (Side::AtLeast, Severity::Breach, Standing::Measured));
        assert_eq!((told.source.key, told.place), ("winkler-2009", "a table"));
        // Said last, said for good; and nothing else is lost by it.
        assert_eq!(told.advice(), Limit { severity: Severity::Advice, ..told });
    }

    #[test]
    fn a_margin_is_what_is_left_on_the_legal_side_and_rounding_never_decides() {
        let least = |value, bound| margin(Side::AtLeast, value, bound);
        let most = |value, bound| margin(Side::AtMost, value, bound);
        assert_eq!((least(5.0, 2.0), least(1.0, 2.0)), (3.0, -1.0));
        assert_eq!((most(5.0, 2.0), most(1.0, 2.0)), (-3.0, 1.0));
        // 8 units in the last place of the larger are rounding, 9 are not.
        for (ulps, decides) in [(8.0, false), (9.0, true)] {
            let beside = 1.0 - ulps * f64::EPSILON;
            assert_eq!(least(beside, 1.0) < 0.0, decides, "{ulps}");
            assert_eq!(most(1.0, beside) < 0.0, decides, "{ulps}");
            assert_eq!(most(-beside, -1.0) < 0.0, decides, "{ulps}");
        }
    }

    #[test]
    fn what_has_no_end_is_no_rounding() {
        assert_eq!(margin(Side::AtMost, f64::INFINITY, 1.0), f64::NEG_INFINITY);
        assert_eq!(margin(Side::AtLeast, f64::INFINITY, 1.0), f64::INFINITY);
    }

    #[test]
    fn drivers_say_which_way_they_push() {
        let effects = [raises, lowers, searched].map(|driver| driver(KnobKind::Casts));
        assert!(effects.iter().all(|driver| driver.knob == KnobKind::Casts));
        assert_eq!(effects.map(|driver| driver.effect), [Effect::Raises, Effect::Lowers, Effect::Either]);
    }
}
