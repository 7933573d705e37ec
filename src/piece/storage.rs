//! How a piece is stored and sold.

use crate::units::{RelativeHumidity, Temperature, choices};

choices! {
    /// How a piece is sold.
    Sale: "a way of sale" {
        /// At room temperature.
        Ambient "ambient",
        /// Chilled.
        Chilled "chilled",
        /// Fresh, within days.
        Fresh "fresh",
    }
}

/// How a piece is stored and sold.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Storage {
    /// Temperature of the store.
    pub temperature: Option<Temperature>,
    /// Humidity of the store.
    pub humidity: Option<RelativeHumidity>,
    /// Whether pieces are wrapped.
    pub wrapped: Option<bool>,
    /// How it is sold; ambient if absent.
    pub sale: Option<Sale>,
}

impl Storage {
    /// How it is sold: ambient unless said otherwise, which is the careful reading.
    #[must_use]
    pub fn sale(&self) -> Sale {
        self.sale.unwrap_or(Sale::Ambient)
    }
}
