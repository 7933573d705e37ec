//! Every publication once: what limits and models rest on, and how it is known.

use crate::matter::Known;

/// A publication, or the honest lack of one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Source {
    /// The key data files use.
    pub key: &'static str,
    /// Authors, or the body that publishes it.
    pub authors: &'static str,
    /// Year, empty where unknown.
    pub year: &'static str,
    /// Title, or what it is.
    pub title: &'static str,
    /// Where to find it.
    pub at: &'static str,
    /// How it is known here.
    pub known: Known,
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let separate = |text: &str| if text.is_empty() { String::new() } else { format!("{text}, ") };
        let standing = match self.known {
            Known::Memory => " (recalled, unverified)",
            Known::Mixed => " (partly recalled)",
            Known::Seen | Known::Computed | Known::Declared => "",
        };
        write!(f, "{}{}{}{standing}", separate(self.authors), separate(self.year), self.title)
    }
}

macro_rules! sources {
    ($($name:ident $key:literal { $authors:literal, $year:literal, $title:literal, $at:literal, $known:ident })+) => {
        $(
            #[doc = $title]
            pub static $name: Source = Source {
                key: $key, authors: $authors, year: $year, title: $title, at: $at, known: Known::$known,
            };
        )+

        /// Every source.
        pub static ALL: &[&Source] = &[$(&$name),+];
    };
}

sources! {
    COMMON_PRACTICE "common-practice" { "", "", "common practice of the trade, no source", "", Memory }
    PROJECT "project" { "", "", "a choice of this project", "", Declared }
    ARITHMETIC "arithmetic" { "", "", "arithmetic or geometry", "", Computed }
    OIML_R22 "oiml-r22" { "OIML", "1975", "R 22, International alcoholometric tables", "https://legislation.gov.uk/eudr/1976/766/annexes/1976-07-27/data.xht", Seen }
    OIML_IVA "oiml-table-iva" { "OIML", "", "Table IVa, density of ethanol-water at 20 °C, as re-published in a dilution leaflet", "", Seen }
    ICUMSA_SPS4 "icumsa-sps4" { "Emmerich", "1994", "ICUMSA SPS-4, density of sucrose solutions", "", Seen }
    CRC_SOLUTIONS "crc-solutions" { "CRC Handbook of Chemistry and Physics", "", "Concentrative properties of aqueous solutions", "", Seen }
    BANKS_2012 "banks-2012" { "Banks", "2012", "The density of chocolate, Table 1", "https://studylib.net/doc/25901371/density-of-chocolate", Seen }
    BECKETT_1999 "beckett-1999" { "Beckett", "1999", "Industrial Chocolate Manufacture and Use, 3rd ed.", "https://studylib.net/doc/7254220/references%09melting", Seen }
    PRANDTL_1920 "prandtl-1920" { "Prandtl", "1920", "Load that a strip of plastic body bears", "", Memory }
    BERIS_1985 "beris-1985" { "Beris, Tsamopoulos, Armstrong & Brown", "1985", "Creeping motion of a sphere through a Bingham plastic, J. Fluid Mech. 158:219", "https://fluidslab.chemeng.upatras.gr/index.php/2016/11/07/creeping-motion-of-a-sphere-through-a-bingham-plastic-2/", Seen }
    XANTHAN_YIELD "xanthan-yield" { "", "", "working yield values of xanthan, a maker's booklet", "", Memory }
    MCGEE_2004 "mcgee-2004" { "McGee", "2004", "On Food and Cooking, chapter on chocolate", "", Seen }
    CHOCOLATE_SCHOOL "chocolate-school" { "", "", "online chocolate school page", "", Seen }
    LECITHIN_RETAILER "lecithin-retailer" { "", "", "ingredient retailer's explainer on lecithin forms", "", Mixed }
    LECITHIN_SPECIFICATIONS "lecithin-specifications" { "", "", "trade specifications of fluid and de-oiled lecithin", "", Seen }
    BEAN_TO_BAR_COLUMN "bean-to-bar-column" { "", "", "bean-to-bar column, rule of thumb for the fat of moulding chocolate", "", Mixed }
    VOCATIONAL_NOTES "vocational-notes" { "", "", "vocational school teacher's notes on chocolate", "", Mixed }
    MOULDING_COURSE "moulding-course" { "", "", "chocolate maker's moulding course page", "", Seen }
    CAPPING_ADVICE "capping-advice" { "", "", "a maker's page on cracks the day after closing", "", Mixed }
    CIA_2015 "cia-2015" { "Culinary Institute of America", "2015", "Baking and Pastry, truffle coating", "", Mixed }
    GANACHE_TABLES "ganache-tables" { "", "", "a published ganache balance table, second-hand, and a chocolate school's targets", "", Mixed }
    WINKLER_2009 "winkler-2009" { "Winkler", "2009", "Water activity of confectionery, New Food", "", Seen }
    PRALINE_YEASTS "praline-yeasts" { "", "", "organisms of chocolate pralines, Int. J. Food Microbiol., abstract", "", Seen }
    BANWART_1989 "banwart-1989" { "Banwart", "1989", "Basic Food Microbiology, table of growth minima as reproduced", "", Seen }
    BOEHME_2012 "boehme-2012" { "Boehme, Kretzschmar, Schneider, Fiala & Rohm", "2012", "Alcohol in starch-thickened fillings and the storage stability of pralines, JAOCS 89:447", "", Mixed }
    GREWELING_2007 "greweling-2007" { "Greweling", "2007", "Chocolates and Confections", "", Mixed }
    USDA_SR28 "usda-sr28" { "USDA", "2016", "National Nutrient Database for Standard Reference, release 28", "", Seen }
    EU_1169_2011 "eu-1169-2011" { "European Union", "2011", "Regulation (EU) 1169/2011, annex II", "https://paninolab.it/paninolab-allergenic-ingredients-EN.html", Seen }
    ALLERGEN_LISTS "allergen-lists" { "", "", "allergen lists of the markets: EU 1169/2011 annex II, US FD&C Act 403(w), Canada B.01.010.1, FSANZ", "", Seen }
}

/// The source of a key.
#[must_use]
pub fn find(key: &str) -> Option<&'static Source> {
    ALL.iter().copied().find(|source| source.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique() {
        let keys: std::collections::HashSet<_> = ALL.iter().map(|source| source.key).collect();
        assert_eq!(keys.len(), ALL.len());
    }
}
