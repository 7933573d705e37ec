//! A warm filling in a set shell: how warm both get, and how much of the shell melts.

use crate::matter::Composition;
use crate::models::fat::solid_fat::{Blend, Line};
use crate::models::heat::properties;
use crate::units::quantity::{Mass, Ratio, joule_per_kilogram_kelvin, kilogram, ratio};
use crate::units::{Band, Checked, Temperature};

/// Melting one kilogram of crystals, J: that of cocoa butter.
const MELTING: f64 = 157_000.0;
const SPREAD: f64 = 1.15;

/// What a filling is poured into or out of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charge<'a> {
    /// What it is made of.
    pub matter: &'a Composition,
    /// How much of it.
    pub mass: Mass,
    /// How warm it is.
    pub temperature: Temperature,
}

/// What a filling and its shell come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mixed {
    /// The temperature of both.
    pub temperature: Band<Temperature>,
    /// The share of the shell's crystals that has melted.
    pub melted: Band<Ratio>,
}

/// What a filling and the shell it is poured into come to before either gives off heat.
///
/// # Equation
/// The temperature `t` at which the filling has lost what the shell has gained:
/// `m_f c_f (t_f - t) = m_s (c_s (t - t_s) + L f (S(t_s) - S(t)))`, with `c` from [`properties::specific_heat`], `L` 157 kJ/kg, `f` the
/// shell's share of fat and `S` its [solid fat](crate::models::fat::solid_fat::solid).
///
/// # Units
/// kg, °C; the share that melts with its 95 % band.
///
/// # Range
/// Fillings no colder than the shell; a colder one comes back as it mixes, nothing melting. The filling's own fat is taken to stay as
/// liquid or set as it is: it crystallises more slowly. The mould takes nothing here, so the shell gets less warm than this says; the skin
/// that touches the filling gets warmer.
///
/// # Error
/// The band holds 10 to 15 % of the specific heat and 15 % of the latent heat. The solid fat itself is from memory.
///
/// # Worked value
/// As much water of 20 °C as of 40 °C gives 30 °C (arithmetic):
/// ```
/// # use cordial::matter::{Composition, Constituent};
/// # use cordial::models::heat::warm_filling::{Charge, poured};
/// # use cordial::units::{Measure, quantity::{Mass, gram}};
/// let water = Composition::pure(Constituent::Water);
/// let mass = Mass::new::<gram>(5.0);
/// let filling = Charge { matter: &water, mass, temperature: Measure::parse("40 Cel")?.check()? };
/// let shell = Charge { matter: &water, mass, temperature: Measure::parse("20 Cel")?.check()? };
/// assert!((poured(filling, shell).temperature.value.celsius() - 30.0).abs() < 1e-9);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// A heat balance (computed). Latent heat: Beckett (ed.), Industrial Chocolate Manufacture and Use (2009) (seen).
#[must_use]
pub fn poured(filling: Charge<'_>, shell: Charge<'_>) -> Mixed {
    SetShell::of(shell).meets(filling)
}

/// A shell that waits for its fillings.
pub(crate) struct SetShell {
    /// Its temperature, °C.
    cold: f64,
    /// What a degree of warmth takes, J/K.
    takes: f64,
    /// Its fat, kg.
    fat: f64,
    blend: Blend,
    /// How much of its fat is solid.
    crystals: f64,
}

impl SetShell {
    pub(crate) fn of(shell: Charge<'_>) -> Self {
        let (cold, blend) = (shell.temperature.celsius(), Blend::of(shell.matter).unwrap_or(Blend::NOTHING));
        let fat = shell.matter.fat() * shell.mass.get::<kilogram>();
        Self { cold, takes: heat(&shell).value, fat, crystals: blend.line(cold).solid, blend }
    }

    /// See [`poured`].
    pub(crate) fn meets(&self, filling: Charge<'_>) -> Mixed {
        let (warm, gives) = (filling.temperature.celsius(), heat(&filling));
        let unmelting = self.cold + (warm - self.cold) * gives.value / (self.takes + gives.value);
        let value = self.meet(warm, gives.value, MELTING, self.blend.line(unmelting));
        let (less, more) = (self.meet(warm, gives.low, MELTING * SPREAD, value), self.meet(warm, gives.high, MELTING / SPREAD, value));
        // The more a colder filling takes, the colder both get.
        let ends = if warm > self.cold { Band { value, low: less, high: more } } else { Band { value, low: more, high: less } };
        let melted = |fat: Line| if self.crystals > 0.0 { (1.0 - fat.solid / self.crystals).max(0.0) } else { 0.0 };
        Mixed { temperature: ends.map(|fat| Temperature::nearest(fat.celsius)), melted: ends.map(|fat| Ratio::new::<ratio>(melted(fat))) }
    }

    /// The shell's fat where the heat balance is even, sought from line to line.
    fn meet(&self, warm: f64, gives: f64, melting: f64, mut fat: Line) -> Line {
        let Self { cold, takes, crystals, .. } = *self;
        // What gets colder melts nothing.
        let (latent, mut low, mut high) = if warm > cold { (melting * self.fat, cold, warm) } else { (0.0, warm, cold) };
        loop {
            let gained = takes * (fat.celsius - cold) + latent * (crystals - fat.solid);
            let lost = gives * (warm - fat.celsius);
            let meet = fat.celsius + (lost - gained) / (takes + gives - latent * fat.rise);
            // Solid fat never rises with temperature, so the balance never falls: what lies beyond a line lies beyond its end.
            if meet < fat.from {
                high = fat.from;
            } else if meet > fat.to {
                low = fat.to;
            } else {
                return fat.at(meet);
            }
            if low >= high {
                return fat.at(low);
            }
            fat = self.blend.line(if low < meet && meet < high { meet } else { f64::midpoint(low, high) });
        }
    }
}

/// What a degree of warmth takes or gives, J/K.
fn heat(charge: &Charge<'_>) -> Band<f64> {
    let mass = charge.mass.get::<kilogram>();
    properties::specific_heat(charge.matter).map(|heat| mass * heat.get::<joule_per_kilogram_kelvin>())
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::Constituent as C;
    use crate::units::MassFraction;
    use crate::units::quantity::gram;
    use approx::assert_relative_eq;

    fn of(percent: &[(C, f64)]) -> Composition {
        Composition::new(percent.iter().map(|(what, share)| (*what, MassFraction::from_base(share / 100.0).unwrap()))).unwrap()
    }

    fn ganache_into_dark(celsius: f64) -> Mixed {
        let ganache = of(&[(C::Water, 22.0), (C::CocoaButter, 18.0), (C::MilkFat, 12.0), (C::Sucrose, 35.0), (C::FatFreeCocoa, 13.0)]);
        let dark = of(&[(C::CocoaButter, 36.0), (C::Sucrose, 44.0), (C::FatFreeCocoa, 20.0)]);
        let charge = |matter, grams, celsius| Charge {
            matter,
            mass: Mass::new::<gram>(grams),
            temperature: Temperature::from_base(celsius).unwrap(),
        };
        poured(charge(&ganache, 6.0, celsius), charge(&dark, 4.0, 20.0))
    }

    #[test]
    fn practice() {
        // Fillings go in at 28 °C at most (seen): little melts at 28, much at 40.
        let at = |celsius| ganache_into_dark(celsius).melted.value.get::<ratio>();
        assert!(at(28.0) < 0.10, "{}", at(28.0));
        assert!(at(40.0) > 0.20, "{}", at(40.0));
    }

    #[test]
    fn heat_is_neither_made_nor_lost() {
        let mixed = ganache_into_dark(40.0);
        let t = mixed.temperature.value.celsius();
        // The specific heats by hand; the sugar of the ganache is dissolved, of the shell's fat 76 % was solid.
        let gives = 6.0 * (0.22 * 4180.0 + 0.30 * 2050.0 + 0.48 * 1550.0) * (40.0 - t);
        let takes = 4.0 * (0.36 * 2050.0 + 0.44 * 1250.0 + 0.20 * 1550.0) * (t - 20.0);
        let melts = 4.0 * 0.36 * 0.76 * mixed.melted.value.get::<ratio>() * MELTING;
        assert_relative_eq!(gives, takes + melts, max_relative = 1e-9);
    }

    #[test]
    fn melting_holds_the_temperature_down() {
        let mixed = ganache_into_dark(40.0);
        let band = mixed.temperature.map(Temperature::celsius);
        assert!(20.0 < band.low && band.low < band.value && band.value < band.high && band.high < 34.0, "{band:?}");
        assert!(mixed.melted.low < mixed.melted.value && mixed.melted.value < mixed.melted.high);
    }

    #[test]
    fn at_both_ends_of_the_band_heat_is_neither_made_nor_lost() {
        let mixed = ganache_into_dark(40.0);
        // Specific heats are told within a tenth, the latent heat within its spread.
        for (end, melted, doubt, latent) in [
            (mixed.temperature.low, mixed.melted.low, 1.0 / 1.1, MELTING * SPREAD),
            (mixed.temperature.high, mixed.melted.high, 1.1, MELTING / SPREAD),
        ] {
            let t = end.celsius();
            let gives = doubt * 6.0 * (0.22 * 4180.0 + 0.30 * 2050.0 + 0.48 * 1550.0) * (40.0 - t);
            let takes = 4.0 * (0.36 * 2050.0 + 0.44 * 1250.0 + 0.20 * 1550.0) * (t - 20.0);
            let melts = 4.0 * 0.36 * 0.76 * melted.get::<ratio>() * latent;
            assert_relative_eq!(gives, takes + melts, max_relative = 1e-9);
        }
    }

    #[test]
    fn a_cold_filling_melts_nothing() {
        let mixed = ganache_into_dark(10.0);
        let band = mixed.temperature.map(Temperature::celsius);
        assert!(10.0 < band.low && band.low <= band.value && band.value <= band.high && band.high < 20.0, "{band:?}");
        assert_relative_eq!(mixed.melted.high.get::<ratio>(), 0.0);
    }
}
