//! How much of a blend of fats is solid.

use crate::matter::{Composition, Constituent};
use crate::units::quantity::{Ratio, ratio};
use crate::units::{Band, Checked, MassFraction, Temperature};

/// The straight line at each whole degree from [`COLDEST`].
type Curve = [Line; 47];
/// No curve begins colder than a degree above this, and all end before the last.
const COLDEST: f64 = -1.0;

static COCOA_BUTTER: Curve =
    through(&[(10.0, 90.0), (15.0, 85.0), (20.0, 76.0), (25.0, 70.0), (30.0, 45.0), (32.0, 22.0), (35.0, 1.0), (40.0, 0.0)]);
static MILK_FAT: Curve =
    through(&[(0.0, 65.0), (5.0, 49.0), (10.0, 43.0), (15.0, 31.0), (20.0, 18.0), (25.0, 11.0), (30.0, 6.0), (35.0, 1.5), (40.0, 0.0)]);
static LAURIC_FAT: Curve = through(&[(10.0, 77.0), (15.0, 57.0), (20.0, 35.0), (25.0, 10.0), (30.0, 0.0)]);
static FIRM_FAT: Curve = through(&[(10.0, 50.0), (20.0, 25.0), (30.0, 10.0), (35.0, 6.0), (40.0, 2.0), (45.0, 0.0)]);
/// Half the 95 % band, of all fat.
const DOUBT: f64 = 0.08;

/// How much of the fat is solid, over all fat; nothing where there is no fat.
///
/// # Equation
/// Each fat has its curve, and the blend their mean by mass; but the cocoa butter's curve is read warmer by 0.15 K for each per cent of the
/// fat that is milk fat or firm fat, and by 0.25 K for each per cent of oil or lauric fat.
///
/// | fat | per cent solid | how known |
/// |---|---|---|
/// | cocoa butter, tempered | 90 at 10 °C, 85 at 15, 76 at 20, 70 at 25, 45 at 30, 22 at 32, 1 at 35, 0 at 40 | memory |
/// | milk fat | 65 at 0 °C (seen), 49 at 5, 43 at 10, 31 at 15, 18 at 20, 11 at 25, 6 at 30, 1.5 at 35, 0 at 40 | memory |
/// | lauric fat, as coconut fat | 77 at 10 °C, 57 at 15, 35 at 20, 10 at 25, 0 at 30 | memory |
/// | firm fat, as palm fat | 50 at 10 °C, 25 at 20, 10 at 30, 6 at 35, 2 at 40, 0 at 45 | memory |
/// | oil | 0 | |
///
/// # Units
/// °C; a mass fraction of the fat, with its 95 % band.
///
/// # Range
/// 10 to 45 °C, set and tempered; colder than a curve begins its first value holds.
///
/// # Error
/// 8 parts of 100 (default) on curves from memory; the shifts are defaults of this project, there to rank blends.
///
/// # Worked value
/// Cocoa butter at 20 °C is 76 % solid (memory), and softer than in proportion with a fifth of milk fat:
/// ```
/// # use cordial::matter::{Composition, Constituent::{CocoaButter, MilkFat}};
/// # use cordial::models::fat::solid_fat;
/// # use cordial::units::{Checked, Measure, Temperature};
/// let at = Measure::parse("20 Cel")?.check::<Temperature>()?;
/// let (cocoa_butter, milk_fat) = (Composition::pure(CocoaButter), Composition::pure(MilkFat));
/// let blend = Composition::blend([(&cocoa_butter, 0.8), (&milk_fat, 0.2)]).unwrap();
/// let percent = |fat| 100.0 * solid_fat::solid(fat, at).unwrap().value.base();
/// assert!((percent(&cocoa_butter) - 76.0).abs() < 1e-9);
/// assert!(percent(&blend) < 0.8 * 76.0 + 0.2 * 18.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Typical curves of handbooks (memory); milk fat at 0 °C, and 20 % at 20 °C: a dairy teaching page (seen,
/// weak).
#[must_use]
pub fn solid(matter: &Composition, at: Temperature) -> Option<Band<MassFraction>> {
    Blend::of(matter).map(|blend| Band::normal(blend.line(at.celsius()).solid, DOUBT / 2.0).map(MassFraction::nearest))
}

/// The fats of a composition, as parts of all its fat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::models) struct Blend {
    cocoa_butter: f64,
    milk_fat: f64,
    lauric: f64,
    firm: f64,
    /// How much warmer the curve of cocoa butter is read, in K.
    shift: f64,
}

impl Blend {
    /// No fat at all.
    pub(in crate::models) const NOTHING: Self = Self { cocoa_butter: 0.0, milk_fat: 0.0, lauric: 0.0, firm: 0.0, shift: 0.0 };

    /// The blend; nothing where there is no fat.
    pub(in crate::models) fn of(matter: &Composition) -> Option<Self> {
        use Constituent as C;
        let fat = matter.fat();
        let share = |constituent| matter.of(constituent) / fat;
        let (cocoa_butter, milk_fat, lauric, firm) = (share(C::CocoaButter), share(C::MilkFat), share(C::LauricFat), share(C::FirmFat));
        let shift = 15.0 * (milk_fat + firm) + 25.0 * (share(C::LiquidOil) + lauric);
        (fat > 0.0).then_some(Self { cocoa_butter, milk_fat, lauric, firm, shift })
    }

    /// How much of it is solid at a temperature, °C, and about it.
    pub(in crate::models) fn line(&self, celsius: f64) -> Line {
        let fats = [
            (self.cocoa_butter, &COCOA_BUTTER, self.shift),
            (self.milk_fat, &MILK_FAT, 0.0),
            (self.lauric, &LAURIC_FAT, 0.0),
            (self.firm, &FIRM_FAT, 0.0),
        ];
        let sum = fats.into_iter().filter(|(share, ..)| *share > 0.0).fold(Line::FLAT, |sum, (share, curve, warmer)| {
            let line = read(curve, celsius + warmer);
            Line {
                solid: sum.solid + share * line.at(celsius + warmer).solid,
                rise: sum.rise + share * line.rise,
                from: sum.from.max(line.from - warmer),
                to: sum.to.min(line.to - warmer),
                ..sum
            }
        });
        // Rounding must not put it beside its own line.
        Line { celsius, from: sum.from.min(celsius), to: sum.to.max(celsius), ..sum }
    }
}

/// How much is solid at a temperature, and about it as long as that changes in a straight line; °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::models) struct Line {
    pub(in crate::models) celsius: f64,
    pub(in crate::models) solid: f64,
    /// How it changes by the degree.
    pub(in crate::models) rise: f64,
    /// Where the line begins.
    pub(in crate::models) from: f64,
    /// Where it ends.
    pub(in crate::models) to: f64,
}

impl Line {
    /// Nothing solid at any temperature.
    const FLAT: Self = Self { celsius: 0.0, solid: 0.0, rise: 0.0, from: f64::NEG_INFINITY, to: f64::INFINITY };

    /// The same line, read at another temperature.
    pub(in crate::models) fn at(self, celsius: f64) -> Self {
        Self { celsius, solid: self.solid + self.rise * (celsius - self.celsius), ..self }
    }
}

/// Straight lines through points of °C, whole degrees, and per cent solid; beyond them the end ones hold.
#[allow(clippy::indexing_slicing, reason = "evaluated at compile time, where a miss is an error")]
const fn through(points: &[(f64, f64)]) -> Curve {
    let mut curve = [Line::FLAT; 47];
    let (mut degree, mut passed) = (0, 0);
    while degree < curve.len() {
        let celsius = COLDEST + degree as f64;
        while passed < points.len() && points[passed].0 <= celsius {
            assert!(points[passed].0 % 1.0 == 0.0, "the points of a curve lie at whole degrees");
            passed += 1;
        }
        let (begun, ends) = (passed > 0, passed < points.len());
        let (from, to) = (points[if begun { passed - 1 } else { passed }], points[if ends { passed } else { passed - 1 }]);
        let rise = if begun && ends { (to.1 - from.1) / (to.0 - from.0) } else { 0.0 };
        curve[degree] = Line {
            celsius,
            solid: (from.1 + rise * (celsius - from.0)) / 100.0,
            rise: rise / 100.0,
            from: if begun { from.0 } else { Line::FLAT.from },
            to: if ends { to.0 } else { Line::FLAT.to },
        };
        degree += 1;
    }
    curve
}

/// The line that a temperature lies on.
fn read(curve: &Curve, celsius: f64) -> Line {
    // What is colder than the first comes out as the first.
    let degree = usize::from((celsius - COLDEST) as u8);
    curve.get(degree.min(curve.len() - 1)).copied().unwrap_or(Line::FLAT)
}

/// A shell's fat before and after fat of the filling has come in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Softening {
    /// Solid before, over all fat of the shell.
    pub before: Band<MassFraction>,
    /// Solid after.
    pub after: Band<MassFraction>,
}

/// How a shell softens as its fat and that of its filling exchange; nothing where the shell has no fat.
///
/// # Equation
/// [`solid`] of the shell's fat, and of `(1 - e)` parts of it with `e` parts of the fat of both together: `exchanged` is 0 before anything
/// has moved and 1 when both share one blend ([`super::migration::uptake`]).
///
/// # Units
/// `filling_over_shell` by mass; °C.
///
/// # Range
/// As [`solid`]. Crystals give way as fast as oil arrives, which overstates the softening.
///
/// # Error
/// As [`solid`]; the loss is surer than either end.
///
/// # Worked value
/// What exchanges with itself stays as it is (arithmetic):
/// ```
/// # use cordial::matter::{Composition, Constituent};
/// # use cordial::models::fat::solid_fat;
/// # use cordial::units::{Measure, quantity::{Ratio, ratio}};
/// let shell = Composition::pure(Constituent::CocoaButter);
/// let (half, all) = (Ratio::new::<ratio>(0.5), Ratio::new::<ratio>(1.0));
/// let softening = solid_fat::softening(&shell, &shell, half, all, Measure::parse("20 Cel")?.check()?).unwrap();
/// assert_eq!(softening.before, softening.after);
/// # Ok::<(), cordial::units::MeasureError>(())
/// ```
///
/// # Source
/// A mass balance of this project (computed).
#[must_use]
pub fn softening(
    shell: &Composition,
    filling: &Composition,
    filling_over_shell: Ratio,
    exchanged: Ratio,
    at: Temperature,
) -> Option<Softening> {
    let (own, brought) = (shell.fat(), filling.fat() * filling_over_shell.get::<ratio>().max(0.0));
    // Of the shell's fat, this share ends as the filling's.
    let foreign = exchanged.get::<ratio>().clamp(0.0, 1.0) * brought / (own + brought);
    let parts = [(shell, own, 1.0 - foreign), (filling, filling.fat(), foreign)];
    let fats = parts.into_iter().filter(|(_, fat, _)| *fat > 0.0).map(|(matter, fat, share)| (matter, share / fat));
    // Only ratios between fats matter to `solid`, so what else the parts hold may come along.
    Some(Softening { before: solid(shell, at)?, after: solid(&Composition::blend(fats)?, at)? })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use Constituent::{CocoaButter, FirmFat, LauricFat, LiquidOil, MilkFat, Sucrose};
    use approx::assert_abs_diff_eq;
    use proptest::prelude::*;

    fn blend(parts: &[(Constituent, f64)]) -> Composition {
        let parts: Vec<_> = parts.iter().map(|(what, mass)| (Composition::pure(*what), *mass)).collect();
        Composition::blend(parts.iter().map(|(matter, mass)| (matter, *mass))).unwrap()
    }

    fn percent(parts: &[(Constituent, f64)], celsius: f64) -> f64 {
        100.0 * solid(&blend(parts), Temperature::from_base(celsius).unwrap()).unwrap().value.base()
    }

    #[test]
    fn what_is_no_fat_does_not_count() {
        assert_abs_diff_eq!(percent(&[(CocoaButter, 0.3), (Sucrose, 0.7)], 20.0), 76.0, epsilon = 1e-9);
        assert_eq!(solid(&Composition::pure(Sucrose), Temperature::from_base(20.0).unwrap()), None);
    }

    #[test]
    fn the_slope_is_what_a_degree_changes() {
        let blend = Blend::of(&blend(&[(CocoaButter, 0.6), (MilkFat, 0.2), (LauricFat, 0.1), (FirmFat, 0.1)])).unwrap();
        for celsius in [12.3, 21.4, 28.6, 33.3] {
            let (here, there) = (blend.line(celsius), blend.line(celsius + 1e-4));
            assert_abs_diff_eq!(here.rise, (there.solid - here.solid) / 1e-4, epsilon = 1e-9);
        }
    }

    /// As documented: other fats melt cocoa butter earlier, and keep what is solid of themselves.
    #[test]
    fn a_tenth_of_another_fat_moves_the_curve_of_cocoa_butter() {
        let own = |fat, celsius| if fat == LiquidOil { 0.0 } else { percent(&[(fat, 1.0)], celsius) };
        for (fat, kelvin) in [(MilkFat, 1.5), (FirmFat, 1.5), (LiquidOil, 2.5), (LauricFat, 2.5)] {
            let blended = percent(&[(CocoaButter, 0.9), (fat, 0.1)], 24.0);
            let expected = 0.9 * percent(&[(CocoaButter, 1.0)], 24.0 + kelvin) + 0.1 * own(fat, 24.0);
            assert_abs_diff_eq!(blended, expected, epsilon = 1e-9);
        }
    }

    #[test]
    fn a_praline_filling_softens_its_shell() {
        let (shell, praline) = (blend(&[(CocoaButter, 0.35), (Sucrose, 0.65)]), blend(&[(LiquidOil, 0.35), (Sucrose, 0.65)]));
        let softened = |exchanged: f64| {
            let (even, exchanged) = (Ratio::new::<ratio>(1.0), Ratio::new::<ratio>(exchanged));
            softening(&shell, &praline, even, exchanged, Temperature::from_base(20.0).unwrap()).unwrap()
        };
        let (nothing, half, all) = (softened(0.0), softened(0.5), softened(1.0));
        assert_eq!(nothing.before, nothing.after);
        assert!(half.after.value < half.before.value && all.after.value < half.after.value);
        // As much oil as cocoa butter, in the end.
        assert_abs_diff_eq!(100.0 * all.after.value.base(), percent(&[(CocoaButter, 1.0), (LiquidOil, 1.0)], 20.0), epsilon = 1e-9);
    }

    #[test]
    fn a_filling_without_fat_softens_nothing() {
        let shell = blend(&[(CocoaButter, 0.35), (Sucrose, 0.65)]);
        let whole = Ratio::new::<ratio>(1.0);
        let at = Temperature::from_base(20.0).unwrap();
        let softening = softening(&shell, &Composition::pure(Sucrose), whole, whole, at).unwrap();
        assert_eq!(softening.before, softening.after);
        assert_eq!(super::softening(&Composition::pure(Sucrose), &shell, whole, whole, at), None);
    }

    proptest! {
        #[test]
        fn warmth_and_oil_never_harden(
            cocoa_butter in 0.01..1.0f64, milk_fat in 0.0..1.0f64, lauric in 0.0..1.0f64, oil in 0.0..1.0f64, celsius in 5.0..45.0f64
        ) {
            let fats = |oil| [(CocoaButter, cocoa_butter), (MilkFat, milk_fat), (LauricFat, lauric), (LiquidOil, oil)];
            prop_assert!(percent(&fats(oil), celsius + 1.0) <= percent(&fats(oil), celsius) + 1e-9);
            prop_assert!(percent(&fats(oil + 0.1), celsius) <= percent(&fats(oil), celsius) + 1e-9);
        }
    }

    #[test]
    fn the_band_is_eight_parts_of_a_hundred_to_either_side() {
        let solid = solid(&Composition::pure(Constituent::CocoaButter), Temperature::nearest(20.0)).unwrap().map(Checked::base);
        assert_abs_diff_eq!(solid.value, 0.76, epsilon = 1e-12);
        assert_abs_diff_eq!(solid.high - solid.value, 0.08, epsilon = 1e-12);
        assert_abs_diff_eq!(solid.value - solid.low, 0.08, epsilon = 1e-12);
    }
}
