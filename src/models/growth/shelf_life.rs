//! How long fillings keep, by class of water activity.

use crate::matter::Known;
use crate::units::{
    Checked, WaterActivity,
    quantity::{Time, second},
};

/// A class of keeping.
///
/// # Equation
/// The class whose band of water activity holds the filling's; a limit between two belongs to the wetter one.
///
/// # Units
/// Activity dimensionless, times as quantities.
///
/// # Range
/// Shells of chocolate, room temperature, no preservative. What ends the keeping of the driest is bloom, rancidity and texture.
///
/// # Error
/// The times are the trade's ranges, not limits of safety, and no date: books differ by a factor of two.
///
/// # Worked value
/// A teaching note gives fillings near 0.80 five to six weeks, a handbook a cream ganache two to three.
/// ```
/// use cordial::models::growth::shelf_life_class;
/// use cordial::units::{Checked, WaterActivity, quantity::second};
/// let weeks = |activity| -> Result<_, cordial::units::RangeError> {
///     let class = shelf_life_class(WaterActivity::from_base(activity)?);
///     Ok([class.at_least(), class.at_most()].map(|time| time.map(|time| (time.get::<second>() / 604_800.0).round())))
/// };
/// assert_eq!(weeks(0.79)?, [Some(5.0), Some(6.0)]);
/// assert_eq!(weeks(0.84)?[0], Some(2.0));
/// assert_eq!(weeks(0.55)?, [Some(52.0), None]);
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// Growth: Beuchat 1981 (seen). Times: [`Self::source`] of each and [`Self::known`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShelfLifeClass {
    /// A to H, from the driest.
    pub letter: char,
    /// Its name in sentences.
    pub name: &'static str,
    /// What can grow in it.
    pub growth: &'static str,
    /// Which organisms that make people ill can grow in it, nothing if none can.
    pub pathogens: Option<&'static str>,
    /// Where the times come from.
    pub source: &'static str,
    /// How the times are known.
    pub known: Known,
    from: f64,
    days: [Option<f64>; 2],
}

impl ShelfLifeClass {
    /// The driest water activity that belongs to it.
    #[must_use]
    pub fn from(&self) -> WaterActivity {
        WaterActivity::nearest(self.from)
    }

    /// How long such fillings usually keep at least, where anything is said.
    #[must_use]
    pub fn at_least(&self) -> Option<Time> {
        let [least, _] = self.days;
        least.map(days)
    }

    /// How long such fillings usually keep at most, where anything is said.
    #[must_use]
    pub fn at_most(&self) -> Option<Time> {
        let [_, most] = self.days;
        most.map(days)
    }
}

pub(super) fn days(days: f64) -> Time {
    Time::new::<second>(days * 86_400.0)
}

/// The [`ShelfLifeClass`] of a water activity.
#[must_use]
pub fn shelf_life_class(activity: WaterActivity) -> &'static ShelfLifeClass {
    // The driest class begins at zero, so that one is always found.
    CLASSES.iter().rev().find(|class| activity.base() >= class.from).unwrap_or(&DRIEST)
}

const BOOKS: &str = "trade books";
const DRIEST: ShelfLifeClass = ShelfLifeClass {
    letter: 'A',
    name: "stable",
    growth: "nothing",
    pathogens: None,
    source: BOOKS,
    known: Known::Memory,
    from: 0.0,
    days: [Some(365.0), None],
};

/// Every class, from the driest.
pub static CLASSES: [ShelfLifeClass; 8] = [
    DRIEST,
    ShelfLifeClass {
        letter: 'B',
        name: "very long",
        growth: "sugar-tolerant yeasts, few drought-tolerant moulds",
        from: 0.60,
        days: [Some(180.0), Some(365.0)],
        ..DRIEST
    },
    ShelfLifeClass {
        letter: 'C',
        name: "long",
        growth: "drought-tolerant moulds, sugar-tolerant yeasts",
        from: 0.65,
        days: [Some(120.0), Some(270.0)],
        ..DRIEST
    },
    ShelfLifeClass {
        letter: 'D',
        name: "medium",
        growth: "Eurotium and other drought-tolerant moulds, sugar-tolerant yeasts",
        from: 0.70,
        days: [Some(68.0), Some(91.0)],
        source: "a trade book, quoted on a confectioners' forum: about three months; at least the mould-free days of cakes at 0.75 and 21 °C",
        known: Known::Seen,
        ..DRIEST
    },
    ShelfLifeClass {
        letter: 'E',
        name: "short",
        growth: "these, moulds that make mycotoxins, salt-loving bacteria",
        from: 0.75,
        days: [Some(35.0), Some(42.0)],
        source: "a trade teaching note, quoted on a confectioners' forum: five to six weeks near 0.80",
        known: Known::Seen,
        ..DRIEST
    },
    ShelfLifeClass {
        letter: 'F',
        name: "fresh",
        growth: "these, most moulds and yeasts, Staphylococcus aureus from 0.83",
        pathogens: Some("Staphylococcus aureus, which makes no toxin below 0.85"),
        from: 0.80,
        days: [Some(14.0), Some(27.0)],
        source: "a handbook of confectionery engineering, quoted: 27 days at 0.80; Notter 2011, The Art of the Chocolatier: about two weeks",
        known: Known::Seen,
    },
    ShelfLifeClass {
        letter: 'G',
        name: "perishable",
        growth: "these, most yeasts, Staphylococcus aureus with its toxin",
        pathogens: Some("Staphylococcus aureus"),
        from: 0.85,
        days: [Some(6.0), Some(21.0)],
        source: "trade books: two to three weeks at most, chilled; at least the mould-free days of cakes at 0.88 and 21 °C",
        ..DRIEST
    },
    ShelfLifeClass {
        letter: 'H',
        name: "to be kept cold",
        growth: "bacteria of all kinds",
        pathogens: Some("those that acid does not keep out"),
        from: 0.88,
        days: [None, Some(6.0)],
        source: "the mould-free days of cakes at 0.88 and 21 °C",
        known: Known::Computed,
    },
];

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;

    #[test]
    fn every_activity_has_its_class() {
        let letters: String = [0.0, 0.5999, 0.60, 0.6499, 0.65, 0.70, 0.75, 0.80, 0.85, 0.8799, 0.88, 1.0]
            .map(|activity| shelf_life_class(WaterActivity::from_base(activity).unwrap()).letter)
            .iter()
            .collect();
        assert_eq!(letters, "AABBCDEFGGHH");
    }

    /// A class that left out its own name, times' source or standing would have those of the driest.
    #[test]
    fn each_class_speaks_for_itself() {
        let names: std::collections::BTreeSet<_> = CLASSES.iter().map(|class| class.name).collect();
        assert_eq!(names.len(), CLASSES.len());
        let seen: String = CLASSES.iter().filter(|class| class.known == Known::Seen).map(|class| class.letter).collect();
        assert_eq!(seen, "DEF");
        for (letter, says) in
            [('D', "about three months"), ('E', "five to six weeks"), ('F', "27 days at 0.80"), ('G', "two to three weeks")]
        {
            let class = CLASSES.iter().find(|class| class.letter == letter).unwrap();
            assert!(class.source.contains(says), "{letter}: {}", class.source);
        }
    }

    #[test]
    fn wetter_never_keeps_longer() {
        for (drier, wetter) in CLASSES.iter().zip(CLASSES.iter().skip(1)) {
            assert!(drier.from < wetter.from);
            assert!(drier.at_most().is_none_or(|most| wetter.at_most().is_some_and(|other| other <= most)), "{}", wetter.letter);
            assert!(wetter.at_least().is_none_or(|least| drier.at_least().is_none_or(|other| other >= least)), "{}", wetter.letter);
        }
    }
}
