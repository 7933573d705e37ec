//! How long neighbours take to share their water.

use crate::models::{bounds::Bounds, heat::condensation::saturation_pressure};
use crate::units::Temperature;
use crate::units::quantity::{Area, Length, Mass, Ratio, Time, kilogram, meter, pascal, ratio, second, square_meter};
use std::f64::consts::LN_2;

/// Films of hard fat and of milk fat, kg m / (m² s Pa).
const FILM: Bounds<f64> = Bounds { least: 0.0093 * GRAM_MILLIMETRE, most: 0.5993 * GRAM_MILLIMETRE };
/// One g mm / (kPa h m²).
const GRAM_MILLIMETRE: f64 = 1e-3 * 1e-3 / (1e3 * 3600.0);
/// A film as it is brushed or sprayed, m.
const FILM_THICKNESS: Bounds<f64> = Bounds { least: 0.1e-3, most: 0.5e-3 };
/// Water in sponge cake, from dry to moist, m²/s.
const POROUS: Bounds<f64> = Bounds { least: 0.5e-10, most: 7.5e-10 };
/// Water in syrups, gels and creams, m²/s.
const DENSE: Bounds<f64> = Bounds { least: 1e-11, most: 1e-9 };
/// `D t / L²` when a slab has taken up half of what it will through one face.
const HALF: f64 = 0.196_731;

/// What a layer is through which water spreads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Body {
    /// Full of air, as a wafer or a biscuit.
    Porous,
    /// Full of syrup, gel or fat.
    Dense,
}

/// How two layers touch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// The area over which they do.
    pub area: Area,
    /// How deep the layer is that takes the water up.
    pub depth: Length,
    /// What it is.
    pub body: Body,
    /// Whether a film of fat or chocolate lies between them.
    pub film: bool,
}

/// The time in which half of the water has moved that will, between two layers `apart` in their water activity.
///
/// # Equation
/// Spreading in the layer that takes it up, `0.1967 d² / D` (a slab wetted through one face), and, where a film parts them, passing it:
/// `ln 2 · m L / (P A p apart)`, as the difference dwindles in proportion to what has moved. The two are added.
///
/// # Units
/// Seconds; the mass `m` that will move in kg, area `A` in m², depth `d` and film `L` in m, the vapour pressure `p` of water in Pa.
///
/// # Range
/// Room temperature. A film without holes, 0.1 to 0.5 mm thick (default). Sugar in a film of chocolate takes up water above an activity
/// of about 0.85, and the film then bars little.
///
/// # Error
/// None to be stated: these are bounds, often a hundredfold apart. `P` is 0.0093 g mm / (kPa h m²) for a hard fat and 0.5993 for milk fat,
/// half of it liquid; a film of cocoa butter lies between, and 0.6 mm of chocolate were found to bar better than 25 µm of polyethylene film. `D`
/// is 0.5e-10 to 7.5e-10 m²/s in sponge cake at 20 °C, taken for all that is porous; 1e-11 to 1e-9 in what is dense.
///
/// # Worked value
/// A wafer of 3 mm on a ganache is half as moist as it will be within an hour or a day:
/// ```
/// # use cordial::models::water::exchange_time::{Body, Contact, half_time};
/// # use cordial::units::{Measure, quantity::*};
/// let bare = Contact {
///     area: Area::new::<square_meter>(5e-4),
///     depth: Length::new::<millimeter>(3.0),
///     body: Body::Porous,
///     film: false,
/// };
/// let (moved, apart) = (Mass::new::<gram>(0.1), Ratio::new::<ratio>(0.6));
/// let hours = |contact| Ok::<_, cordial::units::MeasureError>(half_time(moved, apart, contact, Measure::parse("20 Cel")?.check()?));
/// let wafer = hours(bare)?;
/// assert!((wafer.least.get::<second>() / 3600.0 - 0.1967 * 9e-6 / 7.5e-10 / 3600.0).abs() < 0.01);
/// assert!((wafer.most.get::<second>() / 3600.0 - 9.84).abs() < 0.01);
/// // Behind milk fat as thick as 0.1 mm, 0.5993 g mm / (kPa h m²) and 2.339 kPa pass 4.2 g an hour through a square metre.
/// let filmed = hours(Contact { film: true, ..bare })?;
/// let passing = 0.693 * 0.1 / (0.5993 / 0.1 * 2.339 * 0.6 * 5e-4);
/// assert!((filmed.least.get::<second>() - wafer.least.get::<second>() - 3600.0 * passing).abs() < 0.005 * 3600.0 * passing);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// Films of fat: Shellhammer & Krochta, milk fat fractions at 27.5 °C (seen in abstract). Sponge cake: J. Food Sci. 68 (2003) (seen in
/// abstract). Chocolate: Biquet & Labuza (1988) (seen in abstract). Dense layers and the thickness of a film: memory. The slab:
/// Crank (1975) (memory).
#[must_use]
pub fn half_time(moved: Mass, apart: Ratio, contact: Contact, at: Temperature) -> Bounds<Time> {
    let spread = match contact.body {
        Body::Porous => POROUS,
        Body::Dense => DENSE,
    };
    let spreading = |diffusivity: f64| HALF * contact.depth.get::<meter>().powi(2) / diffusivity;
    let pull = contact.area.get::<square_meter>() * saturation_pressure(at).get::<pascal>() * apart.get::<ratio>();
    let passing = |film: f64, permeability: f64| {
        if contact.film { LN_2 * moved.get::<kilogram>() * film / (permeability * pull) } else { 0.0 }
    };
    Bounds {
        least: Time::new::<second>(spreading(spread.most) + passing(FILM_THICKNESS.least, FILM.most)),
        most: Time::new::<second>(spreading(spread.least) + passing(FILM_THICKNESS.most, FILM.least)),
    }
}
