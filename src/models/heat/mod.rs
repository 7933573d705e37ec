//! Warmth in the workshop: setting, condensation, warm and cold fillings.
//!
//! Published thermal properties of chocolate, all from Beckett (ed.), Industrial Chocolate Manufacture and Use, 4th ed. (2009), useful
//! physical constants (seen):
//!
//! | what | where | value |
//! |---|---|---|
//! | conductivity of chocolate, W/(m K) | 15, 27, 30, 35, 40 °C | 0.22, 0.28, 0.27, 0.26, 0.26 |
//! | conductivity of liquid cocoa butter | 43 °C | 0.12 |
//! | conductivity of cocoa mass | 60 °C | 0.21 |
//! | specific heat of chocolate, J/(kg K) | 15 to 40, 40 to 60 °C | 1590, 1670 |
//! | specific heat of cocoa butter | 15 to 21, 32 to 82 °C | 2010, 2090 |
//! | specific heat of cocoa mass | 4 to 25, 30 to 59 °C | 1970, 1420 |
//! | latent heat, kJ/kg | cocoa butter, dark, milk chocolate | 157, 46, 44 |

pub mod condensation;
pub mod cooling;
pub mod expansion;
pub mod properties;
pub mod setting;
pub mod steam;
pub mod warm_filling;
