//! How much thinner a filling flows when it is warmer.

use crate::units::quantity::{Ratio, ratio};
use crate::units::{Band, Temperature, choices};

const GAS: f64 = 8.314_462_618;
const KELVIN: f64 = 273.15;

choices! {
    /// What flows.
    Flowing: "a flowing filling" {
        /// Fruit jam.
        Jam "jam",
        /// Milk caramel.
        MilkCaramel "milk-caramel",
        /// Water thickened with xanthan.
        Xanthan "xanthan",
        /// Melted fat.
        LiquidFat "liquid-fat",
        /// Honey.
        Honey "honey",
    }
}

impl Flowing {
    /// Viscosity at one temperature over that at another.
    ///
    /// # Equation
    /// Arrhenius: `exp(E / R (1 / T - 1 / T_from))`, with the activation energy `E`:
    ///
    /// | filling | kJ/mol | band | how known |
    /// |---|---|---|---|
    /// | jam | 17.6 | 13.8 to 21.5 | seen: the ends of four jams; the middle computed |
    /// | milk caramel (dulce de leche) | 42.5 | 41.4 to 43.5 | seen in kcal/mol, converted |
    /// | xanthan | 4.0 | 0.4 to 7.5 | computed from a seen legal limit: 1 % in 1 % KCl is 1.02 to 1.45 times thicker at 75 than at 150 °F |
    /// | liquid fat | 29.7 | 24 to 36 | computed from two values of butter fat of weak provenance; the band is a default |
    /// | honey | 96 | 85 to 105 | seen: the highest of seven honeys 105.25; the rest memory |
    ///
    /// # Units
    /// °C; a ratio, with its 95 % band.
    ///
    /// # Range
    /// 10 to 70 °C, away from boiling, setting and crystallising.
    ///
    /// # Error
    /// That of the energy. Honey follows [`super::honey`] better: its energy falls as it warms.
    ///
    /// # Worked value
    /// 1 % xanthan in 1 % KCl must be 1.02 to 1.45 times thicker at 75 than at 150 °F (21 CFR 172.695):
    /// ```
    /// # use cordial::models::flow::activation_energy::Flowing;
    /// # use cordial::units::{Measure, quantity::ratio};
    /// let thicker = Flowing::Xanthan.viscosity_ratio(Measure::parse("150 °F")?.check()?, Measure::parse("75 °F")?.check()?);
    /// assert!((1.02..=1.45).contains(&thicker.value.get::<ratio>()));
    /// # Ok::<(), cordial::units::MeasureError>(())
    /// ```
    ///
    /// # Source
    /// Gao et al. (2011) (jams); Rovedo, Viollaz & Suarez (1991) J. Dairy Sci. 74:1497 (caramel); 21 CFR 172.695 (xanthan); J. Food Eng. 75
    /// (2006) 43 (honeys), all seen in abstract; a viscosity chart (fat).
    #[must_use]
    pub fn viscosity_ratio(self, from: Temperature, to: Temperature) -> Band<Ratio> {
        let inverse = |celsius: f64| 1.0 / (celsius + KELVIN);
        let colder = inverse(to.celsius()) - inverse(from.celsius());
        let [least, value, most] = self.energy().map(|kilojoules| (1000.0 * kilojoules / GAS * colder).exp());
        Band { value, low: least.min(most), high: least.max(most) }.map(Ratio::new::<ratio>)
    }

    /// Least, best and most, kJ/mol.
    const fn energy(self) -> [f64; 3] {
        match self {
            Self::Jam => [13.79, 17.6, 21.46],
            Self::MilkCaramel => [41.4, 42.5, 43.5],
            Self::Xanthan => [0.4, 4.0, 7.5],
            Self::LiquidFat => [24.0, 29.7, 36.0],
            Self::Honey => [85.0, 96.0, 105.25],
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::units::{Checked, Choice};

    fn thinning(what: Flowing, from: f64, to: f64) -> Band<f64> {
        let celsius = |value| Temperature::from_base(value).unwrap();
        what.viscosity_ratio(celsius(from), celsius(to)).map(|value| value.get::<ratio>())
    }

    #[test]
    fn warmer_is_thinner_and_the_band_is_in_order_both_ways() {
        for what in Flowing::ALL {
            for (from, to) in [(20.0, 30.0), (30.0, 20.0)] {
                let band = thinning(*what, from, to);
                assert!(band.low < band.value && band.value < band.high, "{band:?}");
                assert_eq!(band.value < 1.0, to > from);
            }
        }
    }
}
