//! How chocolate and fillings flow, and what that carries.

pub mod activation_energy;
pub mod cap_support;
pub mod casson;
pub mod casting_flow;
pub mod consistency;
pub mod couverture;
pub mod curve;
pub mod dose;
pub mod draining;
pub mod drink_class;
pub mod emulsifier;
pub mod exchange;
pub mod glycerol_viscosity;
pub mod herschel_bulkley;
pub mod honey;
pub mod spirit_viscosity;
pub mod syrup_viscosity;
pub mod xanthan;
pub mod yield_response;

use crate::units::quantity::{DynamicViscosity, ShearRate, Stress, pascal, pascal_second, per_second};

/// A law of flow, [`casson::Casson`] or [`herschel_bulkley::HerschelBulkley`]: stress and shear rate, each from the other.
pub trait FlowLaw {
    /// The stress that keeps up a shear rate. At rest it is the yield value.
    fn stress(&self, rate: ShearRate) -> Stress;

    /// The shear rate that a stress keeps up: none up to the yield value.
    fn rate(&self, stress: Stress) -> ShearRate;

    /// Stress over shear rate: what a viscometer shows at that rate, which must be above zero.
    fn apparent_viscosity(&self, rate: ShearRate) -> DynamicViscosity {
        pascal_seconds(self.stress(rate).get::<pascal>() / rate.get::<per_second>())
    }
}

fn pascals(value: f64) -> Stress {
    Stress::new::<pascal>(value)
}

fn pascal_seconds(value: f64) -> DynamicViscosity {
    DynamicViscosity::new::<pascal_second>(value)
}
