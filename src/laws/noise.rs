//! Random numbers and assessed quantities, the same in every run for the same case.

use crate::assess::{Assessed, Estimate, Quantity};
use crate::units::{Band, Unit};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

/// A source of random values.
pub(super) struct Noise(TestRunner);

impl Noise {
    /// The source of a seed.
    pub(super) fn of(seed: u64) -> Self {
        let bytes: Vec<u8> = seed.to_le_bytes().repeat(4);
        Self(TestRunner::new_with_rng(Config::default(), TestRng::from_seed(RngAlgorithm::ChaCha, &bytes)))
    }

    /// A value of a strategy, that can be made simpler.
    pub(super) fn tree<S: Strategy>(&mut self, strategy: &S) -> Option<S::Tree> {
        strategy.new_tree(&mut self.0).ok()
    }

    /// From zero up to one.
    pub(super) fn share(&mut self) -> f64 {
        self.tree(&(0.0..1.0f64)).map_or(0.0, |tree| tree.current())
    }

    /// Anything a quantity can be, even absent or missing.
    pub(super) fn assessed(&mut self, quantity: Quantity) -> Assessed {
        match self.share() {
            none if none < 0.1 => Assessed::Absent,
            lacking if lacking < 0.2 => Assessed::lacking(quantity),
            _ => Assessed::Known(self.estimate(quantity)),
        }
    }

    /// Any number a quantity can have, with a band.
    pub(super) fn estimate(&mut self, quantity: Quantity) -> Estimate {
        let (least, most) = span(quantity);
        let share = self.share();
        // Where there is no top, every order of magnitude is as likely.
        let value = if most.is_finite() { least + share * (most - least) } else { 10f64.powf(12.0 * share - 7.0) };
        let within = |end: f64| end.clamp(least, most);
        let width = 0.2 * self.share() * value.abs();
        let band = Band { value, low: within(value - width), high: within(value + width) };
        Estimate { in_range: self.share() < 0.9, ..Estimate::modelled(band) }
    }
}

/// The least and the most a quantity can be, in the base unit.
pub(super) fn span(quantity: Quantity) -> (f64, f64) {
    match (quantity, quantity.unit()) {
        (Quantity::FillShare, _) => (0.0, f64::INFINITY),
        (Quantity::WaterActivity | Quantity::ActivityWithoutEthanol, _)
        | (Quantity::Tempered | Quantity::AmbientSale | Quantity::AllergenLists, _)
        | (_, Unit::Percent | Unit::PercentVolume | Unit::PercentHumidity) => (0.0, 1.0),
        (_, Unit::AcidityUnit) => (0.0, 14.0),
        (_, Unit::Celsius) => (-40.0, 200.0),
        _ => (0.0, f64::INFINITY),
    }
}
