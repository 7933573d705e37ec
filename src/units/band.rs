//! A value with the band it lies in.

/// A modelled value and its 95 % band (two standard uncertainties to either side, not always symmetric).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<Q> {
    /// The best estimate.
    pub value: Q,
    /// The lower end.
    pub low: Q,
    /// The upper end.
    pub high: Q,
}

impl<Q: Copy> Band<Q> {
    /// A value without uncertainty.
    pub const fn exact(value: Q) -> Self {
        Self { value, low: value, high: value }
    }

    /// The same band of another quantity; `map` must not decrease.
    pub fn map<R>(self, map: impl Fn(Q) -> R) -> Band<R> {
        Band { value: map(self.value), low: map(self.low), high: map(self.high) }
    }
}

impl Band<f64> {
    /// A normally distributed value with its standard uncertainty.
    #[must_use]
    pub const fn normal(value: f64, standard_uncertainty: f64) -> Self {
        Self { value, low: value - 2.0 * standard_uncertainty, high: value + 2.0 * standard_uncertainty }
    }

    /// A positive value uncertain by a factor: 95 % of cases lie between `value / factor` and `value * factor`.
    #[must_use]
    pub const fn within_factor(value: f64, factor: f64) -> Self {
        Self { value, low: value / factor, high: value * factor }
    }
}
