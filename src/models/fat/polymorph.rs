//! The six crystal forms of cocoa butter.

use crate::units::{Checked, Temperature, choices};

choices! {
    /// A crystal form of cocoa butter, the least stable first.
    Polymorph: "a crystal form of cocoa butter" {
        /// Form I.
        One "I",
        /// Form II.
        Two "II",
        /// Form III.
        Three "III",
        /// Form IV.
        Four "IV",
        /// Form V: what tempering is for.
        Five "V",
        /// Form VI: the bloom of old chocolate.
        Six "VI",
    }
}

impl Polymorph {
    /// Where it melts.
    ///
    /// # Equation
    /// A table: I 17.3, II 23.3, III 25.5, IV 27.5, V 33.8, VI 36.3.
    ///
    /// # Units
    /// °C.
    ///
    /// # Range
    /// Cocoa butter without other fat; milk fat melts it sooner ([`super::solid_fat`]).
    ///
    /// # Error
    /// Other authors differ by about 1 °C (memory).
    ///
    /// # Worked value
    /// Form V melts at 33.8 °C: it survives 33, not 34.5 °C:
    /// ```
    /// # use cordial::models::fat::polymorph::Polymorph;
    /// # use cordial::units::Measure;
    /// assert!(Polymorph::Five.survives(Measure::parse("33 Cel")?.check()?));
    /// assert!(!Polymorph::Five.survives(Measure::parse("34.5 Cel")?.check()?));
    /// # Ok::<(), cordial::units::MeasureError>(())
    /// ```
    ///
    /// # Source
    /// Wille & Lutton (1966) J. Am. Oil Chem. Soc. 43:491, second-hand. Seen.
    #[must_use]
    pub fn melts_at(self) -> Temperature {
        Temperature::nearest(match self {
            Self::One => 17.3,
            Self::Two => 23.3,
            Self::Three => 25.5,
            Self::Four => 27.5,
            Self::Five => 33.8,
            Self::Six => 36.3,
        })
    }

    /// Whether it stays solid at a temperature.
    #[must_use]
    pub fn survives(self, at: Temperature) -> bool {
        at < self.melts_at()
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::Choice;

    #[test]
    fn the_more_stable_melts_later() {
        assert!(Polymorph::ALL.windows(2).all(|pair| matches!(pair, [one, next] if one.melts_at() < next.melts_at())));
    }
}
