//! Temperatures of tempering, and how many crystals a seed brings.

use crate::matter::{ChocolateKind, Composition, Known};
use crate::units::quantity::{Ratio, ratio};
use crate::units::{Checked, MassFraction, Temperature};

/// A range of temperatures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Between {
    /// The lowest.
    pub low: Temperature,
    /// The highest.
    pub high: Temperature,
}

/// The temperatures of tempering by table or bath: melt, cool, warm again to work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TemperWindow {
    /// Where every crystal has melted.
    pub melt: Between,
    /// Where stable and unstable crystals form.
    pub cool: Between,
    /// Where only the stable ones are left.
    pub work: Between,
    /// How the last is known; the others are seen.
    pub work_known: Known,
}

/// What is published for a kind of chocolate: two tables, which differ; nothing for ruby.
///
/// # Equation
/// | chocolate | melt | cool | work | source |
/// |---|---|---|---|---|
/// | dark | 50 to 55 | 28 to 29 | 31 to 32 | tempering guide |
/// | milk | 45 to 50 | 27 to 28 | 30 to 31 | tempering guide |
/// | white | 45 to 50 | 26 to 27 | 29 to 30 | tempering guide |
/// | dark | 45 to 50 | 28 to 29 | 31 to 32 | McGee |
/// | milk | 40 to 45 | 27 to 28 | 30 to 31 | McGee |
/// | white | 40 | 24 to 25 | 27 to 28 | McGee |
///
/// # Units
/// °C.
///
/// # Range
/// Couverture without much other fat; its maker's sheet comes first.
///
/// # Error
/// The tables differ by up to 5 °C in melting and by 2 °C for white chocolate.
///
/// # Worked value
/// Dark chocolate is worked at 31 to 32 °C, where form V lives and form IV does not:
/// ```
/// # use cordial::matter::ChocolateKind;
/// # use cordial::models::fat::{polymorph::Polymorph, tempering};
/// for window in tempering::windows(ChocolateKind::Dark) {
///     assert_eq!((window.work.low.celsius(), window.work.high.celsius()), (31.0, 32.0));
///     assert!(Polymorph::Five.survives(window.work.high) && !Polymorph::Four.survives(window.work.low));
/// }
/// ```
///
/// # Source
/// A tempering guide after a chefs' school manual (seen); McGee (2004) On Food and Cooking (seen, its work range: memory).
pub fn windows(kind: ChocolateKind) -> impl Iterator<Item = TemperWindow> {
    let window = |[melt, cool, work]: [(f64, f64); 3], work_known| {
        let between = |(low, high)| Between { low: Temperature::nearest(low), high: Temperature::nearest(high) };
        TemperWindow { melt: between(melt), cool: between(cool), work: between(work), work_known }
    };
    let tables = match kind {
        ChocolateKind::Dark => Some([[(50.0, 55.0), (28.0, 29.0), (31.0, 32.0)], [(45.0, 50.0), (28.0, 29.0), (31.0, 32.0)]]),
        ChocolateKind::Milk => Some([[(45.0, 50.0), (27.0, 28.0), (30.0, 31.0)], [(40.0, 45.0), (27.0, 28.0), (30.0, 31.0)]]),
        ChocolateKind::White => Some([[(45.0, 50.0), (26.0, 27.0), (29.0, 30.0)], [(40.0, 40.0), (24.0, 25.0), (27.0, 28.0)]]),
        ChocolateKind::Ruby => None,
    };
    tables.into_iter().flatten().zip([Known::Seen, Known::Memory]).map(move |(table, known)| window(table, known))
}

/// The crystals a seed brings, over all fat of chocolate and seed; nothing where there is no fat.
///
/// # Equation
/// `d f_s S / (f + d f_s)`, with the dose `d`, the shares of fat `f` and `f_s`, and `S` of the seed's fat solid.
///
/// # Units
/// Mass over mass of the chocolate; a mass fraction.
///
/// # Range
/// Chocolate that holds no crystals, cool enough to melt none of the seed: not above 33.5 °C for form V.
///
/// # Error
/// That of the dose; seed that melts in warm chocolate is lost.
///
/// # Worked value
/// 0.5 to 1 % of seed cocoa butter gives chocolate of 35 % fat the 1 to 3 % that well-tempered chocolate holds (both memory):
/// ```
/// # use cordial::matter::{Composition, Constituent::{CocoaButter, Sucrose}};
/// # use cordial::models::fat::tempering;
/// # use cordial::units::{Checked, MassFraction, quantity::{Ratio, ratio}};
/// let (fat, sugar) = (Composition::pure(CocoaButter), Composition::pure(Sucrose));
/// let chocolate = Composition::blend([(&fat, 0.35), (&sugar, 0.65)]).unwrap();
/// for dose in [0.005, 0.01] {
///     let crystals = tempering::crystals(&chocolate, &fat, Ratio::new::<ratio>(dose), MassFraction::nearest(1.0)).unwrap();
///     assert!((0.01..0.03).contains(&crystals.base()));
/// }
/// ```
///
/// # Source
/// A mass balance (computed).
#[must_use]
pub fn crystals(chocolate: &Composition, seed: &Composition, dose: Ratio, solid: MassFraction) -> Option<MassFraction> {
    let brought = dose.get::<ratio>().max(0.0) * seed.fat();
    let fat = chocolate.fat() + brought;
    (fat > 0.0).then(|| MassFraction::nearest(brought * solid.base() / fat))
}

/// The dose of seed that brings these crystals, the inverse of [`crystals`]; nothing where no dose does.
#[must_use]
pub fn dose(chocolate: &Composition, seed: &Composition, solid: MassFraction, crystals: MassFraction) -> Option<Ratio> {
    let spare = solid.base() - crystals.base();
    (spare > 0.0 && seed.fat() > 0.0).then(|| Ratio::new::<ratio>(crystals.base() * chocolate.fat() / (seed.fat() * spare)))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::Constituent::{CocoaButter, Sucrose};
    use crate::models::fat::polymorph::Polymorph;
    use crate::units::Choice;
    use approx::assert_relative_eq;

    #[test]
    fn every_window_melts_form_v_and_works_below_it() {
        for kind in ChocolateKind::ALL {
            for window in windows(*kind) {
                assert!(!Polymorph::Six.survives(window.melt.low));
                assert!(Polymorph::Five.survives(window.work.high));
                assert!(window.cool.high < window.work.low && window.work.high < window.melt.low);
            }
        }
        assert_eq!(windows(ChocolateKind::Ruby).count(), 0);
        assert_eq!(windows(ChocolateKind::Milk).count(), 2);
    }

    #[test]
    fn doses_go_there_and_back() {
        let (fat, sugar) = (Composition::pure(CocoaButter), Composition::pure(Sucrose));
        let chocolate = Composition::blend([(&fat, 0.35), (&sugar, 0.65)]).unwrap();
        let share = |fraction| MassFraction::from_base(fraction).unwrap();
        for seed in [&fat, &chocolate] {
            let dose = dose(&chocolate, seed, share(0.76), share(0.02)).unwrap();
            assert_relative_eq!(crystals(&chocolate, seed, dose, share(0.76)).unwrap().base(), 0.02, max_relative = 1e-12);
        }
        assert_eq!(dose(&chocolate, &fat, share(0.5), share(0.6)), None);
        assert_eq!(dose(&chocolate, &sugar, share(0.5), share(0.1)), None);
        assert_eq!(crystals(&sugar, &sugar, Ratio::new::<ratio>(0.1), share(0.5)), None);
    }
}
