//! The driest and sourest in which organisms grow.

use crate::matter::Known;
use crate::units::{Checked, Ph, WaterActivity};

/// What an organism does to a filling.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Harm {
    /// It makes people ill.
    Pathogen,
    /// A mould that can poison what it grows on.
    ToxicMould,
    /// It spoils.
    Spoiler,
}

/// An organism, or a group of them, and the limits of its growth.
///
/// # Equation
/// It can grow where the water activity, and the pH where one is given, are no lower than its minima, each taken with everything else at its
/// best.
///
/// # Units
/// Water activity and pH are plain numbers, temperatures in °C.
///
/// # Range
/// Growth, not survival: dry chocolate preserves Salmonella for months. Preservatives, ethanol and competition are left out.
///
/// # Error
/// Tables differ by about 0.01 for bacteria and up to 0.10 within a group; the lowest printed figure stands here, but for two remembered ones:
/// 0.92 for *Bacillus cereus* in the FDA's fishery guide, 0.77 for *Aspergillus niger*.
///
/// # Worked value
/// Of the bacteria that make people ill only *Staphylococcus aureus* grows at 0.86, and nothing at all below 0.60.
/// ```
/// use cordial::models::growth::{Harm, can_grow};
/// use cordial::units::{Checked, Ph, WaterActivity};
/// let ill = |activity| -> Result<Vec<&str>, cordial::units::RangeError> {
///     let growing = can_grow(WaterActivity::from_base(activity)?, Some(Ph::from_base(5.5)?));
///     Ok(growing.filter(|organism| organism.harm == Harm::Pathogen).map(|organism| organism.name).collect())
/// };
/// assert_eq!(ill(0.86)?, ["toxin of Staphylococcus aureus", "Staphylococcus aureus"]);
/// assert!(ill(0.82)?.is_empty());
/// assert_eq!(can_grow(WaterActivity::from_base(0.59)?, None).count(), 0);
/// # Ok::<(), cordial::units::RangeError>(())
/// ```
///
/// # Source
/// [`Self::source`] of each, and [`Self::known`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Organism {
    /// Its name in sentences.
    pub name: &'static str,
    /// What it does.
    pub harm: Harm,
    /// Where its minima come from.
    pub source: &'static str,
    /// How they are known.
    pub known: Known,
    activity: f64,
    ph: Option<f64>,
    celsius: Option<[f64; 2]>,
}

impl Organism {
    /// The lowest water activity at which it grows.
    #[must_use]
    pub fn least_activity(&self) -> WaterActivity {
        WaterActivity::nearest(self.activity)
    }

    /// The lowest pH at which it grows, where that is known.
    #[must_use]
    pub fn least_ph(&self) -> Option<Ph> {
        self.ph.map(Ph::nearest)
    }

    /// The coldest and the warmest at which it grows, °C, where that is known.
    #[must_use]
    pub const fn celsius(&self) -> Option<[f64; 2]> {
        self.celsius
    }
}

/// Below this water activity nothing grows (Beuchat 1981; seen).
pub const NOTHING_GROWS_BELOW: f64 = 0.60;

/// Every [`Organism`] that can grow at a water activity; all of them count as fit for an unknown pH, and those of unknown minimum for any pH.
pub fn can_grow(activity: WaterActivity, ph: Option<Ph>) -> impl Iterator<Item = &'static Organism> {
    ORGANISMS.iter().filter(move |organism| {
        let sour = ph.zip(organism.ph).is_some_and(|(ph, least)| ph.base() < least);
        activity.base() >= organism.activity && !sour
    })
}

const ICMSF: &str = "ICMSF 1996, Microorganisms in Foods 5, as tabulated by USDA-ARS";
const FDA: &str = "FDA, Fish and Fishery Products Hazards and Controls Guidance, table A-1";
const BANWART: &str = "Banwart 1989, Basic Food Microbiology, a table as reproduced";
const BEUCHAT: &str = "Beuchat 1981, Cereal Foods World 26:345, bands as reproduced";

const fn pathogen(name: &'static str, activity: f64, ph: f64, celsius: [f64; 2], source: &'static str, known: Known) -> Organism {
    Organism { name, harm: Harm::Pathogen, source, known, activity, ph: Some(ph), celsius: Some(celsius) }
}

const fn toxic_mould(name: &'static str, activity: f64, source: &'static str, known: Known) -> Organism {
    Organism { name, harm: Harm::ToxicMould, source, known, activity, ph: None, celsius: None }
}

const fn spoiler(name: &'static str, activity: f64, source: &'static str, known: Known) -> Organism {
    Organism { harm: Harm::Spoiler, ..toxic_mould(name, activity, source, known) }
}

/// Every organism and group of which a minimum is known: bacteria that make people ill first, from the wettest.
pub const ORGANISMS: &[Organism] = &[
    pathogen("Campylobacter jejuni", 0.987, 4.9, [32.0, 45.0], ICMSF, Known::Seen),
    pathogen("Vibrio cholerae", 0.97, 5.0, [10.0, 43.0], ICMSF, Known::Seen),
    pathogen("Clostridium botulinum, non-proteolytic", 0.965, 5.0, [3.3, 30.0], ICMSF, Known::Mixed),
    pathogen("Escherichia coli", 0.95, 4.4, [7.0, 46.0], ICMSF, Known::Seen),
    pathogen("Vibrio parahaemolyticus", 0.94, 4.8, [5.0, 43.0], ICMSF, Known::Seen),
    pathogen("Salmonella spp.", 0.94, 3.8, [5.2, 46.2], ICMSF, Known::Seen),
    pathogen("Clostridium botulinum, proteolytic", 0.93, 4.7, [10.0, 50.0], ICMSF, Known::Seen),
    pathogen("Clostridium perfringens", 0.93, 5.5, [4.0, 50.0], ICMSF, Known::Seen),
    pathogen("Bacillus cereus", 0.93, 5.0, [4.0, 55.0], ICMSF, Known::Seen),
    pathogen("Listeria monocytogenes", 0.92, 4.39, [-0.4, 45.0], ICMSF, Known::Seen),
    pathogen("Staphylococcus aureus without air", 0.9, 4.0, [7.0, 48.0], ICMSF, Known::Seen),
    pathogen("toxin of Staphylococcus aureus", 0.85, 4.0, [10.0, 48.0], FDA, Known::Memory),
    pathogen("Staphylococcus aureus", 0.83, 4.0, [7.0, 48.0], ICMSF, Known::Seen),
    spoiler("most spoilage bacteria", 0.9, BANWART, Known::Seen),
    spoiler("salt-loving bacteria", 0.75, BANWART, Known::Seen),
    spoiler("most yeasts", 0.87, BANWART, Known::Seen),
    spoiler("Saccharomyces cerevisiae", 0.9, BANWART, Known::Seen),
    spoiler("Debaryomyces", 0.87, BANWART, Known::Seen),
    spoiler("sugar-tolerant yeasts", 0.6, BANWART, Known::Seen),
    spoiler("Zygosaccharomyces rouxii", 0.62, BANWART, Known::Seen),
    spoiler("most moulds", 0.7, BANWART, Known::Seen),
    spoiler("Penicillium", 0.78, BANWART, Known::Seen),
    spoiler("Aspergillus niger", 0.8, BANWART, Known::Seen),
    toxic_mould("Aspergillus flavus", 0.78, BANWART, Known::Seen),
    spoiler("Eurotium (Aspergillus glaucus group)", 0.7, BANWART, Known::Seen),
    spoiler("drought-tolerant moulds", 0.6, BANWART, Known::Seen),
    spoiler("Xeromyces bisporus", 0.6, BANWART, Known::Seen),
    spoiler("Wallemia sebi", 0.65, BEUCHAT, Known::Seen),
    toxic_mould("aspergilli that make mycotoxins", 0.75, BEUCHAT, Known::Seen),
];

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;

    fn growing(activity: f64, ph: Option<f64>) -> Vec<&'static str> {
        let ph = ph.map(|ph| Ph::from_base(ph).unwrap());
        can_grow(WaterActivity::from_base(activity).unwrap(), ph).map(|organism| organism.name).collect()
    }

    #[test]
    fn nothing_has_its_minimum_below_the_limit_of_all_growth() {
        assert!(ORGANISMS.iter().all(|organism| organism.activity >= NOTHING_GROWS_BELOW && organism.least_activity().base() <= 1.0));
        assert_eq!(growing(0.60, None), ["sugar-tolerant yeasts", "drought-tolerant moulds", "Xeromyces bisporus"]);
    }

    /// Salmonella grows down to a pH of 4.2 at most (the lowest of the growth tables of the FDA, as cited at the rows).
    #[test]
    fn a_least_ph_is_told_where_it_is_known() {
        for organism in ORGANISMS {
            assert_eq!(organism.least_ph().map(Ph::base), organism.ph, "{}", organism.name);
        }
        assert!(ORGANISMS.iter().any(|organism| organism.least_ph().is_some()));
    }

    #[test]
    fn pathogens_stand_apart() {
        let driest = |harm| {
            let of_kind = ORGANISMS.iter().filter(move |organism| organism.harm == harm);
            of_kind.map(|organism| organism.activity).fold(1.0, f64::min)
        };
        assert_eq!([Harm::Pathogen, Harm::ToxicMould, Harm::Spoiler].map(driest), [0.83, 0.75, 0.60]);
        assert!(ORGANISMS.iter().all(|organism| (organism.harm == Harm::Pathogen) == organism.celsius().is_some()));
    }

    /// A minimum counts as growth, and acid keeps only those out of which it is known.
    #[test]
    fn acid_keeps_out_what_is_known_to_fear_it() {
        let salmonella = |activity, ph| growing(activity, Some(ph)).contains(&"Salmonella spp.");
        assert!(salmonella(0.94, 3.8) && !salmonella(0.939, 7.0) && !salmonella(0.99, 3.79));
        assert!(growing(0.99, Some(2.0)).contains(&"most moulds"));
        assert!(growing(0.99, Some(2.0)).len() < growing(0.99, None).len());
        assert_eq!(growing(1.0, None).len(), ORGANISMS.len());
    }
}
