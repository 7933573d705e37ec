//! How chocolate and fillings flow, and what that carries.

pub mod cap_support;
pub mod consistency;
pub mod emulsifier;
pub mod xanthan;

use crate::units::quantity::{Stress, pascal};

fn pascals(value: f64) -> Stress {
    Stress::new::<pascal>(value)
}
