//! The `uom` quantities this crate uses, under the names of the trade.

pub use uom::si::f64::{
    Angle, Area, DynamicViscosity, Frequency as ShearRate, Length, Mass, MassDensity as Density, Pressure as Stress, Ratio, SurfaceTension,
    Time, Volume,
};
pub use uom::si::{
    angle::{degree, radian},
    area::square_meter,
    dynamic_viscosity::pascal_second,
    frequency::hertz as per_second,
    length::{meter, millimeter},
    mass::{gram, kilogram},
    mass_density::kilogram_per_cubic_meter,
    pressure::pascal,
    ratio::ratio,
    surface_tension::newton_per_meter,
    time::second,
    volume::{cubic_meter, milliliter},
};

pub use uom::si::f64::{
    AvailableEnergy as LatentHeat, DiffusionCoefficient as Diffusivity, HeatTransfer, Pressure, SpecificHeatCapacity, ThermalConductivity,
};
pub use uom::si::{
    available_energy::joule_per_kilogram, diffusion_coefficient::square_meter_per_second, heat_transfer::watt_per_square_meter_kelvin,
    specific_heat_capacity::joule_per_kilogram_kelvin, thermal_conductivity::watt_per_meter_kelvin,
};
