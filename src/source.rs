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
    NOTTER_2011 "notter-2011" { "Notter", "2011", "The Art of the Chocolatier", "", Mixed }
    MILLER_HARTEL_2015 "miller-hartel-2015" { "Miller & Hartel", "2015", "Sucrose crystallization in caramel, J. Food Eng. 153:28", "", Mixed }
    SEED_SUPPLIERS "seed-suppliers" { "", "", "craft makers' and suppliers' pages on cocoa butter seed", "", Mixed }
    MAKERS_TROUBLESHOOTING "makers-troubleshooting" { "", "", "chocolate maker's troubleshooting page", "", Seen }
    RATIO_TABLES "ratio-tables" { "", "", "a bakery supplier's formula page and a pastry school page on chocolate and cream", "", Seen }
    TRADE_ASSOCIATION "trade-association" { "", "", "trade association tips on confectionery", "", Mixed }
    PUREE_MAKER "puree-maker" { "", "", "fruit purée maker's recipe sheet", "", Seen }
    METU_THESIS "metu-thesis" { "", "", "thesis on marshmallow, Middle East Technical University, abstract", "", Seen }
    SUCROSE_SOLUBILITY "sucrose-solubility" { "", "", "solubility of sucrose in water, two series that differ by 0.3 to 0.4 %", "", Mixed }
    SHELF_LIFE_CLASSES "shelf-life-classes" { "", "", "shelf-life classes of the trade and mould-free times of cakes, second-hand", "", Mixed }
    CONFECTIONERS_PAGES "confectioners-pages" { "", "", "several confectioners' pages on storage", "", Mixed }
    SLETTENGREN_2010 "slettengren-2010" { "Slettengren", "2010", "Cracking of chocolate pralines, thesis", "", Mixed }
    CRISP_CLASSICS "crisp-classics" { "", "", "a development laboratory's page (0.30) and the classic literature on crispness (0.35 to 0.50)", "", Mixed }
    FOOD_CODE "food-code" { "US FDA", "", "Food Code, tables A and B of 1-201.10", "", Seen }
    ETHANOL_AND_METERS "ethanol-and-meters" { "Vermeulen et al.", "", "ethanol acts beyond water activity, as quoted; meters and volatiles, a forum question", "", Mixed }
    USDA_SR28 "usda-sr28" { "USDA", "2016", "National Nutrient Database for Standard Reference, release 28", "", Seen }
    EU_1169_2011 "eu-1169-2011" { "European Union", "2011", "Regulation (EU) 1169/2011, annex II", "https://paninolab.it/paninolab-allergenic-ingredients-EN.html", Seen }
    ALLERGEN_LISTS "allergen-lists" { "", "", "allergen lists of the markets: EU 1169/2011 annex II, US FD&C Act 403(w), Canada B.01.010.1, FSANZ", "", Seen }
    OIML_IVB "oiml-table-ivb" { "OIML", "", "Table IVb, strength by mass, recalled", "", Memory }
    RECALLED "recalled" { "", "", "handbook values, recalled", "", Memory }
    COOLPROP "coolprop" { "CoolProp", "", "version 8.0.0: reference equations of state (water by IAPWS-95) and a brine fit of ethanol in water", "", Computed }
    FAO_INFOODS_2012 "fao-infoods-2012" { "Charrondiere, Haytowitz & Stadlmayr", "2012", "FAO/INFOODS Density Database 2.0, in a public transcription", "", Seen }
    BELITZ "belitz" { "Belitz, Grosch & Schieberle", "", "Food Chemistry, table 19.10, viscosity and density of honey", "https://issuhub.com/view/index?id=4356&pageIndex=929", Seen }
    XANTHAN_SPECIFICATION "xanthan-specification" { "", "", "food-grade specification of xanthan, 1 % in 1 % KCl at 60 turns a minute", "", Seen }
    XANTHAN_REVIEW "xanthan-review" { "", "", "review of xanthan: insoluble in alcohol itself, finished systems carry up to 60 % ethanol", "https://123docz.net/trich-doan/2508865-co-che-tuong-tac.htm", Seen }
    LEI_2000 "lei-2000" { "Lei et al.", "2000", "xanthan solutions, Food Science 21(12):16, abstract", "https://www.spkx.net.cn/EN/Y2000/V21/I12/16", Seen }
    CICHERO_2013 "cichero-2013" { "Cichero", "2013", "bands of thickened liquids, Nutrition J. 12:54, table 1", "https://pmc.ncbi.nlm.nih.gov/articles/PMC3660277/table/T1", Seen }
    IDDSI_2018 "thickened-liquids-2018" { "", "2018", "viscosities of thickened liquids, Food Hydrocolloids 79:208, table 3", "https://pmc.ncbi.nlm.nih.gov/articles/PMC5962271/table/T3", Seen }
    BRETHERTON_1961 "bretherton-1961" { "Bretherton", "1961", "Bond number at which a heavy liquid stays above a light one in a tube", "", Memory }
    LOVEGREN_1965 "lovegren-1965" { "Lovegren & Feuge", "1965", "contraction of cocoa butter, J. Am. Oil Chem. Soc., abstract", "https://zendy.io/title/10.1007/bf02540135", Seen }
    SUNDARA_2014 "sundara-2014" { "Sundara", "2014", "cooling of enrobed chocolate, FoodReview Indonesia", "https://foodreview.co.id/blog-5669305-Metode-Pendinginan-pada-Proses-Enrobing.html", Seen }
    MAGNUS "magnus" { "", "", "Magnus form of the saturation pressure, WMO set of constants", "https://novasolver.jp/zh/tools/dew-point-rh.html", Seen }
    PSYCHROLIB "psychrolib" { "PsychroLib", "", "version 2.5.0: psychrometrics by the ASHRAE formulas", "", Computed }
    BROWNE_1912 "browne-1912" { "Browne", "1912", "Handbook of Sugar Analysis, boiling points of sucrose solutions, as quoted", "https://drymartini.org/~edp/recipes/sugar.html", Seen }
    PERRY "perry" { "Perry", "", "Chemical Engineers' Handbook, boiling ethanol and water, as reproduced", "", Seen }
    DOBSON_1925 "dobson-1925" { "", "", "partial pressures over ethanol and water at 298 K, textbook data usually credited to Dobson 1925", "https://numerade.com, question 38161", Seen }
    ALLAN_2019 "allan-2019" { "Allan, Grush, Rajwa, Butzke & Mauer", "2019", "water activity by laser, Food Anal. Methods 12:2753, abstract", "https://link.springer.com/article/10.1007/s12161-019-01632-2", Seen }
    LASER_2017 "laser-2017" { "", "2017", "data set of water activities of alcohol and water by laser, as transcribed", "https://github.com/clara-o-d/hygroscopic-salts", Seen }
    ROBINSON_STOKES "robinson-stokes" { "Robinson & Stokes", "", "Electrolyte Solutions, 2nd ed., isopiestic osmotic coefficients at 25 °C; sodium chloride also Hamer & Wu 1972", "", Memory }
    GREENSPAN_1977 "greenspan-1977" { "Greenspan", "1977", "constant humidity solutions, CRC Handbook, as quoted", "https://zanotowane.pl/1007/6826", Seen }
    FAO_FRUIT "fao-fruit" { "FAO", "", "small-scale processing of fruit and vegetables, section 8.6, as quoted", "https://studymode.com/essays/Preservatives-1460443.html", Seen }
    ZHANG_2022 "zhang-2022" { "Zhang, Grace & Sun", "2022", "water activity of glycerol solutions, Drying Technology 40:2404, a fit to measurements, evaluated", "", Computed }
    SLOAN_LABUZA_1975 "sloan-labuza-1975" { "Sloan & Labuza", "1975", "water held by sugars, table 3.1 of a later text", "https://th4.ilovetranslation.com/xWrAfzm8mCl=d", Seen }
    FOOD_GROUPS "food-groups" { "", "", "water activities of food groups with the salt or sugar that gives them: New York State Department of Agriculture and a like table", "https://agriculture.ny.gov/FS/industry/wateractivity.html", Seen }
    SERIN_2018 "serin-2018" { "Serin, Turhan & Turhan", "c. 2018", "water activity and moisture of Turkish honeys, Food Sci. Technol. (Campinas), abstract", "https://doi.org/10.1590/1678-457X.31716", Seen }
    ABRAMOVIC_2008 "abramovic-2008" { "Abramovic, Jamnik, Burkan & Kac", "2008", "water activity of Slovenian honeys, Food Control 19:1086, abstract", "https://pt.scribd.com/document/167493103", Seen }
    CHIRIFE_2006 "chirife-2006" { "Chirife, Zamora & Motto", "2006", "water activity and moisture of honey, J. Food Eng. 72:287", "", Memory }
    CITRUS_JELLY_2016 "citrus-jelly-2016" { "", "2016", "J. Food Sci. Technol. 53(10):3642, table 1", "https://pmc.ncbi.nlm.nih.gov/articles/PMC5147687/table/Tab1", Seen }
    ERGUN_2010 "ergun-2010" { "Ergun, Lietha & Hartel", "2010", "moisture and water activity of confections, Crit. Rev. Food Sci. Nutr. 50:162", "", Memory }
    DELIQUESCENCE "deliquescence" { "", "", "deliquescence points and solubilities, recalled from Salameh & Taylor 2005, Lipasek et al. 2013, Allan & Mauer 2016 and handbooks", "", Memory }
    HE_2006 "he-2006" { "He, Fowler & Toner", "2006", "water activity of glycerol and sugars, J. Appl. Phys. 100:074702, as transcribed", "https://github.com/clara-o-d/hygroscopic-salts", Seen }
    EBRAHIMI_2016 "ebrahimi-2016" { "Ebrahimi & Sadeghi", "2016", "osmotic properties of carbohydrate solutions, Fluid Phase Equilib. 417:171, as transcribed", "https://doi.org/10.1016/j.fluid.2016.02.030", Seen }
    GLYCEROL_2004 "glycerol-2004" { "", "2004", "viscosity and water activity of glycerol and salt solutions, Eur. Food Res. Technol., as transcribed", "https://doi.org/10.1007/s00217-004-0974-6", Seen }
    MIYAWAKI_1997 "miyawaki-1997" { "Miyawaki et al.", "1997", "activity of water in sucrose solutions, Biosci. Biotechnol. Biochem. 61:466, figure 2, as digitised", "https://github.com/clara-o-d/hygroscopic-salts", Seen }
    TEXAS_2011 "texas-2011" { "Texas Cottage Food Law", "2011", "laboratory tests of a ganache and a meringue buttercream", "http://texascottagefoodlaw.com/Resources/Recipes/Chocolate-Ganache", Seen }
    MINNESOTA_2019 "minnesota-2019" { "University of Minnesota Extension", "2019", "water activity of cookie dough frostings", "https://blog-cottage-food.extension.umn.edu/2019/03/q-is-cookie-dough-frosting-allowed.html", Seen }
    CAKE_FORUM "cake-forum" { "", "", "a baker's laboratory test of a ganache", "http://cakesdecor.com/replies/13360", Seen }
    COTTAGE_FORUM "cottage-forum" { "", "", "a home baker's laboratory test of a ganache", "http://cakecentral.com/t/763451/california-cottage-food-law", Seen }
    KOSTAKIENE "kostakiene" { "Kostakiene & Blazgiene", "", "water activity of condensed milk in storage, abstract; standard product by GOST 31688-2012", "https://scribd.com/document/74353787/", Seen }
    CONDENSED_MILK_PAGE "condensed-milk-page" { "", "", "unreferenced page on sweetened condensed milk", "https://ora.it.com/food-preservation/what-is-the-water-activity-of-sweetened-condensed-milk", Seen }
    CONDENSED_SKIM_SHEET "condensed-skim-sheet" { "", "", "trade specification sheet of sweetened condensed skim milk", "", Seen }
    GANACHE_PAGE "ganache-page" { "", "", "a bonbon teacher's page on water activity", "https://tinepreferschocolate.dk", Seen }
    LHOTE "lhote" { "", "", "a French chamber of trades' teaching page on the keeping of ganache", "http://lhoted.magix.net/public/ganache/conservation3.htm", Seen }
    ZAVOROKHINA_2024 "zavorokhina-2024" { "Zavorokhina, Shamilov, Chugunova & Tarasov", "2024", "water activity in ganache fillings, Bulletin of KSAU 6:188, abstract", "https://doi.org/10.36718/1819-4036-2024-6-188-197", Seen }
    VERMEULEN_2014 "vermeulen-2014" { "Vermeulen et al.", "2014", "Belgian chocolate fillings, as quoted", "https://th4.ilovetranslation.com/rs8cdh_ojlW=d", Seen }
    SCHOOL_EXAMPLE "school-example" { "", "", "a chocolate school's worked example of a ganache balance", "", Seen }
    GANACHE_FORUM "ganache-forum" { "", "", "forum report of a white ganache that stayed thin", "", Seen }
    STUDENT_NOTES_2009 "student-notes-2009" { "", "2009", "a pastry student's notes on framed praline ganache", "", Seen }
    QUESTION_MIRROR "question-mirror" { "", "", "question and answer page, mirrored: home-made chocolate that seized", "", Seen }
    KINDERLERER_1997 "kinderlerer-1997" { "Kinderlerer", "1997", "Chrysosporium, spoilage of chocolate, J. Appl. Microbiol. 83:771, abstract", "", Seen }
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
