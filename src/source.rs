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
        write!(f, "{}{}{}{}", separate(self.authors), separate(self.year), self.title, self.known.remark())
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
    ROWS_OF_LAW "rows-of-law" { "", "", "the law of the markets, each row with instrument and section", "", Mixed }
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
    GREWELING_2007 "greweling-2007" { "Greweling", "2007", "Chocolates and Confections", "https://app.ckbk.com/recipe/choc24414c08s001ss008sss002sss001r009/liquor-cordials-starch-molded", Mixed }
    NOTTER_2011 "notter-2011" { "Notter", "2011", "The Art of the Chocolatier", "", Mixed }
    MILLER_HARTEL_2015 "miller-hartel-2015" { "Miller & Hartel", "2015", "Sucrose crystallization in caramel, J. Food Eng. 153:28", "", Mixed }
    SEED_SUPPLIERS "seed-suppliers" { "", "", "craft makers' and suppliers' pages on cocoa butter seed", "", Mixed }
    MAKERS_TROUBLESHOOTING "makers-troubleshooting" { "", "", "chocolate maker's troubleshooting page", "", Seen }
    RATIO_TABLES "ratio-tables" { "", "", "a bakery supplier's formula page and a pastry school page on chocolate and cream", "", Seen }
    TRADE_ASSOCIATION "trade-association" { "", "", "trade association tips on confectionery", "", Mixed }
    DRY_FILLINGS "dry-fillings" { "", "", "ingredient maker's page on water fillings, as a trade table quotes it", "", Mixed }
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
    ALLERGEN_LISTS "allergen-lists" { "", "", "allergen lists of the markets: EU and UK 1169/2011 annex II, US FD&C Act 403(w), Canada B.01.010.1, FSANZ, CXS 1-1985 4.2.1.4, Japan Appended Table 14", "", Seen }
    EU_1169_2011_NUTRITION "eu-1169-2011-nutrition" { "European Union", "2011", "Regulation (EU) 1169/2011, annexes I and XIV, and the Commission's guidance on tolerances of December 2012, section 6", "https://vethyqua.scenari.eu/clients/ReglementationHygiene-HACCP_DcoD/co/09-14-Anx14.html", Seen }
    EU_1169_2011_LABELLING "eu-1169-2011-labelling" { "European Union", "2011", "Regulation (EU) 1169/2011, articles 18 and 22, annexes VII and VIII", "", Memory }
    EU_1169_2011_ANNEX_III "eu-1169-2011-annex-iii" { "European Union", "2011", "Regulation (EU) 1169/2011, annex III, version of 2014-02-19", "https://legislation.gov.uk/eur/2011/1169/annex/III", Seen }
    EU_2000_36_LABELLING "eu-2000-36-labelling" { "European Union", "2000", "Directive 2000/36/EC, article 3(3)", "", Memory }
    US_21_CFR_101_4 "us-21-cfr-101-4" { "US FDA", "", "21 CFR 101.4, designation of ingredients", "http://grokfood.com/regulations/101.4.htm", Seen }
    US_21_CFR_101_9 "us-21-cfr-101-9" { "US FDA", "", "21 CFR 101.9(c), nutrition labelling", "http://www.fda.gov/iceci/inspections/inspectionguides/ucm114098.htm", Mixed }
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
    MAKINEN_2010 "makinen-2010" { "Mäkinen", "2010", "sugar alcohols, a review, Int. J. Dentistry 981072, table 3: constants of the Norrish equation", "https://pmc.ncbi.nlm.nih.gov/articles/PMC2836749/table/tab3", Seen }
    ZOBRIST_2011 "zobrist-2011" { "Zobrist et al.", "2011", "water activity of sucrose down to the glass, a formula, Phys. Chem. Chem. Phys. 13:3514, as transcribed in a program for drying droplets", "https://github.com/Fraser-Crawford/rust_multi_layer, src/binary_definitions.rs", Seen }
    SANDOVAL_2002 "sandoval-2002" { "Sandoval & Barreiro", "2002", "water sorption isotherms of non-fermented cocoa beans, J. Food Eng. 51:119, abstract", "https://ro.scribd.com/document/148667395", Seen }
    SANDOVAL_2020 "sandoval-2020" { "Sandoval, Barreiro, De Sousa, Blanco & Giménez", "2020", "sorption of peeled beans and shells of fermented and dry Trinitario cocoa, Rev. Téc. Ing. Univ. Zulia 43(1):49, abstract", "https://produccioncientificaluz.org/index.php/tecnica/article/view/30787", Seen }
    COCOA_DESORPTION_2011 "cocoa-desorption-2011" { "", "2011", "desorption of cocoa beans, Int. J. Food Sci. Technol., abstract", "https://locus.ufv.br/items/4356bf41-1865-4f08-9e4b-de2a841e2436", Seen }
    COCOA_CARGO "cocoa-cargo" { "", "", "a desiccant supplier's page on cocoa beans as cargo", "http://m.drymoisture.com/desiccant/container-desiccant/desiccant-keeps-cocoa-beans-dry.html", Seen }
    ALMOND_ISOTHERM "almond-isotherm" { "", "", "an almond growers' board on moisture migration, after measurements at the University of California, Davis", "https://almonds.jp/tools-and-resources/food-safety-and-quality/moisture-migration-and-management", Seen }
    HAZELNUT_SPECIFICATION "hazelnut-specification" { "", "", "a hazelnut processor's page on physical characteristics", "https://www.wilco.coop/hazelnuts/westnut/hazelnut-specs/physical-characteristics/", Seen }
    ERBAS_2005 "erbas-2005" { "Erbas et al.", "2005", "moisture adsorption of semolina, constants as transcribed in a program on pasta", "https://github.com/mirrorscotty/material-data, isotherms/gab-pasta.c", Seen }
    PENG_2001 "peng-2001" { "Peng, Chan & Chow", "2001", "hygroscopic study of glucose, citric acid and sorbitol in an electrodynamic balance, Aerosol Sci. Technol. 35:753, abstract", "https://doi.org/10.1080/02786820152546798", Seen }
    STARZAK_2006 "starzak-2006" { "Starzak & Mathlouthi", "2006", "temperature dependence of water activity in aqueous solutions of sucrose, Food Chem. 96:346, abstract", "https://daneshyari.com/en/article/1191219", Seen }
    KARAYA_2022 "karaya-2022" { "Saraugi, Patel, Sahu & Khokhar", "2022", "moisture sorption of karaya gum, Bull. Natl. Res. Cent. 46:237, abstract", "https://bnrc.springeropen.com/articles/10.1186/s42269-022-00930-w", Seen }
    POWDER_CAKING "powder-caking" { "", "", "a program on the caking of skim milk powder, which names no source for its isotherm", "https://github.com/Franky-11/powder-caking-simulator, src/powder_caking/simulation.py", Seen }
    PASTA_EXERCISE "pasta-exercise" { "", "", "a course exercise with the sorption of pasta and of a dry sauce mix", "http://www.mywordsolution.com/question/would-there-be-any-moisture-diffusion-in-this-system-in/9682096", Seen }
    SCHOOL_EXAMPLE "school-example" { "", "", "a chocolate school's worked example of a ganache balance", "", Seen }
    CRAFT_COLUMN "craft-column" { "", "2013", "craft column on centres dipped cold", "", Seen }
    QUINCE_JAM_SURVEY "quince-jam-survey" { "", "", "quality of quince jam, 18 Portuguese brands, abstract", "", Seen }
    GANACHE_FORUM "ganache-forum" { "", "", "forum report of a white ganache that stayed thin", "", Seen }
    STUDENT_NOTES_2009 "student-notes-2009" { "", "2009", "a pastry student's notes on framed praline ganache", "", Seen }
    QUESTION_MIRROR "question-mirror" { "", "", "question and answer page, mirrored: home-made chocolate that seized", "", Seen }
    KINDERLERER_1997 "kinderlerer-1997" { "Kinderlerer", "1997", "Chrysosporium, spoilage of chocolate, J. Appl. Microbiol. 83:771, abstract", "", Seen }
    KRIEGER_DOUGHERTY_1959 "krieger-dougherty-1959" { "Krieger & Dougherty", "1959", "viscosity of crowded suspensions", "", Memory }
    CASSON_1959 "casson-1959" { "Casson", "1959", "law of flow of suspensions", "", Memory }
    HERSCHEL_BULKLEY_1926 "herschel-bulkley-1926" { "Herschel & Bulkley", "1926", "law of flow with a yield value and an index", "", Memory }
    CHATEAU_2008 "chateau-2008" { "Chateau, Ovarlez & Trung", "2008", "coarse particles in a yield-stress fluid, J. Rheol. 52:489", "", Memory }
    CHHABRA_RICHARDSON "chhabra-richardson" { "Chhabra & Richardson", "", "Non-Newtonian Flow and Applied Rheology, a problem: aqueous carbopol at 293 K, vane 46.5 Pa", "https://askfilo.com/user-question-answers-smart-solutions/the-following-shear-stress-shear-rate-data-are-available-for-3336383931313134", Seen }
    RHEOMETER_GLOSSARY "rheometer-glossary" { "", "", "rheometer maker's glossary, Casson's law of one milk and one dark chocolate", "", Seen }
    HARRIS_1968 "harris-1968" { "Harris; Chevalley in Beckett", "1968", "emulsifiers in a dark chocolate, a table", "", Memory }
    BERGEMANN_2018 "bergemann-2018" { "Bergemann, Heil, Smith & Juel", "2018", "tempered milk chocolate of 30 % fat, J. Rheol. 62:1187", "https://research.manchester.ac.uk/en/publications/from-elastic-deformation-to-flow-in-tempered-chocolate", Seen }
    WICHCHUKIT_2005 "wichchukit-2005" { "Wichchukit, McCarthy & McCarthy", "2005", "flow of milk chocolate melt at 42 °C and coating thickness, J. Food Sci., abstract", "https://de.scribd.com/document/141345678/Flow-Behavior-of-Milk-Chocolate", Seen }
    AESCHLIMANN_BECKETT_2000 "aeschlimann-beckett-2000" { "Aeschlimann & Beckett", "2000", "five ring trials of chocolate viscosity, J. Texture Stud., abstract", "https://zendy.io/title/10.1111/j.1745-4603.2000.tb01019.x", Seen }
    DE_GRAEF_2011 "de-graef-2011" { "De Graef, Depypere, Minnaert & Dewettinck", "2011", "chocolate yield stress, Food Res. Int. 44:2660, abstract", "https://www.scribd.com/document/444705046/chocolate-yield-stres-pdf", Seen }
    SERVAIS_2004 "servais-2004" { "Servais, Ranc & Roberts", "2004", "Determination of chocolate viscosity, J. Texture Stud., abstract", "https://paperexplained.cn/articles/paper/detail/b4a9882bddfa4fc91236fc0140f3128e12c8e8a0", Seen }
    AFOAKWA_2008 "afoakwa-2008" { "Afoakwa, Paterson & Fowler", "2008", "particle size and composition of dark chocolate, Eur. Food Res. Technol. 226:1259, abstract", "https://pureportal.strath.ac.uk/en/publications/effects-of-particle-size-distribution-and-composition-on-rheologi", Seen }
    AFOAKWA_TEXTURE_2008 "afoakwa-texture-2008" { "Afoakwa, Paterson, Fowler & Vieira", "2008", "texture and appearance of dark chocolates, J. Food Eng. 87, abstract", "https://works.bepress.com/emmanueloheneafoakwa/77/", Seen }
    ALAMPRESE_2007 "alamprese-2007" { "Alamprese, Datei & Semeraro", "2007", "ball-mill refined chocolate, J. Food Eng. 83:629, data as shipped in a package", "https://github.com/cran/desire", Seen }
    MOISTURE_NOTE "moisture-note" { "", "", "technical note on moisture in chocolate: 0.3 % of water above 1 % costs 1 % of fat", "https://ste-mart.com/determination-of-water-content-in-chocolate-by-custom-built-coulometric-karl-fischer-titration-176700.htm", Seen }
    LEE_2024 "lee-2024" { "Lee", "2024", "dark chocolates of 86 to 100 % cocoa, Food Eng. Prog. 28:296, abstract", "https://www.foodengprog.org/archive/view_article_pubreader?pid=fep-28-4-296", Seen }
    KUMBAR_2018 "kumbar-2018" { "Kumbar et al.", "2018", "chocolate at 36 to 44 °C, Potravinarstvo 12:123, abstract", "https://www.potravinarstvo.com/journal1/index.php/potravinarstvo/article/view/876", Seen }
    TALBOT_2005 "talbot-2005" { "Talbot, Smith & Cain", "2005", "How does your chocolate flow?", "http://www.fatscience.co.uk/controlling-viscosity", Seen }
    WOLF_2011 "wolf-2011" { "Wolf", "2011", "Rheological properties of chocolate, trade review", "https://www.newfoodmagazine.com/article/4459/rheological-properties-of-chocolate/", Seen }
    ALTUNBAY "altunbay" { "Altunbay", "", "basic factors to control chocolate processing, trade page", "https://www.biscuitpeople.com/magazine/post/1200-basic-factors-to-control-chocolate-processings", Seen }
    FEICHTINGER_2020 "feichtinger-2020" { "Feichtinger, Scholten & Sala", "2020", "particle size distribution and chocolate rheology, Food Funct., abstract", "https://pubs.rsc.org/ko/content/articlehtml/2020/fo/d0fo01655a?page=search", Seen }
    PACKING_PATENT "packing-patent" { "", "2021", "WO 2021/243004 and WO 2021/242998, chocolate of higher packing, claim 1", "https://www.sumobrain.com/patents/wipo/Reduced-fat-chocolate/WO2021243004A1.html", Seen }
    VISCOSITY_CHART "viscosity-chart" { "", "", "viscosity chart of dairy and food liquids, undated web table of weak provenance", "https://realby.net/k0avwgh.php?id=2c9ca5-viscosity-of-cold-cream", Seen }
    LECITHIN_MAKER "lecithin-maker" { "", "", "lecithin maker's page on chocolate", "", Seen }
    SCHANTZ_ROHM_2005 "schantz-rohm-2005" { "Schantz & Rohm", "2005", "blends of lecithin and PGPR, LWT 38:41, abstract", "https://daneshyari.com/en/article/9488241", Seen }
    POMBAL_2024 "pombal-2024" { "Pombal, Marcet, Rendueles & Diaz", "2024", "lecithin and PGPR in chocolate, Molecules 29:5185, abstract", "https://ouci.dntb.gov.ua/works/4kzeZdK7", Seen }
    PEKER_2013 "peker-2013" { "Peker, Suna, Tamer & Copur", "2013", "effects of lecithin and PGPR, J. Agric. Fac. Uludag Univ. 27(2):55, abstract", "https://ja.scribd.com/document/344572880/The-Effects-of-Lecithin-and-Polyglycerol-Polyricinoleate", Seen }
    AMMONIUM_PHOSPHATIDE_BROCHURE "ammonium-phosphatide-brochure" { "", "", "brochures on ammonium phosphatides in chocolate", "", Seen }
    SUNFLOWER_TRIALS_2011 "sunflower-trials-2011" { "", "2011", "trials of standardised sunflower lecithin in dark and milk chocolate, news texts", "", Seen }
    COCOA_SPREAD_2014 "cocoa-spread-2014" { "", "2014", "cocoa spread cream with sunflower lecithin, Acta Technica Corviniensis 7(4):47, abstract", "https://bvbvf1.bib-bvb.de/vufind/PrimoRecord/cdi_proquest_journals_1618069645", Seen }
    PHOSPHOLIPID_1969 "phospholipid-1969" { "", "1969", "phospholipid in cocoa butters, J. Am. Oil Chem. Soc. 46:425", "https://bvbvf1.bib-bvb.de/vufind/PrimoRecord/cdi_proquest_miscellaneous_84198418", Seen }
    JEFFREYS_1930 "jeffreys-1930" { "Jeffreys", "1930", "The draining of a vertical plate, Proc. Camb. Phil. Soc., abstract", "http://journals.cambridge.org/action/displayAbstract?fromPage=online&aid=2026260&fileId=S0305004100015437", Seen }
    LEE_2016 "lee-2016" { "Lee, Brun, Marthelot, Balestra, Gallaire & Reis", "2016", "thickness of shells that coat a curved mould, Nat. Commun. 7:11155, as reported", "https://materialdistrict.com/article/learning-chocolate-coatings-predict-thickness-shell-structures/", Seen }
    GENOTELLE_1978 "genotelle-1978" { "Genotelle", "1978", "viscosity of sucrose solutions, as adopted with ICUMSA SPS-5", "", Memory }
    BINGHAM_JACKSON "bingham-jackson" { "Bingham & Jackson", "", "viscosity of ethyl alcohol and its aqueous mixtures, 0 to 80 °C, as re-published", "https://chestofbooks.com/food/beverages/Alcohol-Properties/Viscosity-Of-Ethyl-Alcohol-And-Its-Aqueous-Mixtures.html", Seen }
    CHENG_2008 "cheng-2008" { "Cheng", "2008", "viscosity of glycerol and water, Ind. Eng. Chem. Res. 47:3285", "", Seen }
    SEGUR_OBERSTAR_1951 "segur-oberstar-1951" { "Segur & Oberstar", "1951", "viscosity of glycerol and water", "", Memory }
    VOLK_KAHLER_2018 "volk-kahler-2018" { "Volk & Kähler", "2018", "density of glycerol and water, Exp. Fluids 59:75", "", Seen }
    HONEY_LEAFLET "honey-leaflet" { "", "", "beekeepers' club leaflet, physical characteristics of clover honey", "http://beeclubpellas.blogspot.com/2009/10/blog-post_8890.html", Seen }
    HONEY_DATA_SHEET "honey-data-sheet" { "", "", "honey data sheet at 25 °C: 14 and 20 % of water", "https://ru.scribd.com/document/247112163/honey5", Seen }
    PORTUGUESE_HONEYS_2018 "portuguese-honeys-2018" { "", "2018", "temperature and the flow of Portuguese honeys, Pol. J. Food Nutr. Sci. 68(3):217, abstract", "http://journal.pan.olsztyn.pl/Temperature-Effect-on-Rheological-Behavior-of-Portuguese-Honeys-,98530,0,2.html", Seen }
    POLISH_HONEYS_2006 "polish-honeys-2006" { "", "2006", "rheology of selected Polish honeys, J. Food Eng. 75:43, abstract", "http://934503.02c7k.group/research/tech/periodicals/view.php?seq=1225381", Seen }
    CORN_SYRUP_FIT "corn-syrup-fit" { "", "", "corn syrup of 77 % sugars fitted from 23.5 to 46 °C, a public research script", "", Seen }
    GAO_2011 "gao-2011" { "Gao et al.", "2011", "rheology of four jams, J. Stored Prod. Postharvest Res., abstract", "", Seen }
    PEANUT_BUTTER_NOTE "peanut-butter-note" { "", "", "viscometer maker's note, vane test of peanut butter", "", Seen }
    HOUGH_1988 "hough-1988" { "Hough, Moro, Segura & Calvo", "1988", "flow of dulce de leche, J. Dairy Sci. 71:1783, abstract", "https://www.mendeley.com/catalogue/627a0681-6a15-3bed-ab51-f37f7141221e/", Seen }
    ROVEDO_1991 "rovedo-1991" { "Rovedo, Viollaz & Suarez", "1991", "pH, temperature and the flow of dulce de leche, J. Dairy Sci. 74:1497, abstract", "https://fr.scribd.com/document/308040773/The-Effect-of-PH-and-Temperature-on-the-Rheological-Behavior-of-Dulce-de-Leche", Seen }
    BARRA_2004 "barra-2004" { "Barra", "2004", "The rheology of caramel, thesis, University of Nottingham, abstract", "https://cendekia.unisza.edu.my/neuaxis-e/Record/nottingham-11837/Details", Seen }
    KOOCHEKI_2009 "koocheki-2009" { "Koocheki, Ghandi, Razavi, Mortazavi & Vasiljevic", "2009", "flow of ketchup, Int. J. Food Sci. Technol. 44:596, parameters as quoted", "https://github.com/karenkhachatryan-lab/rheology-fit", Seen }
    YIELD_OF_FOODS "yield-of-foods" { "", "", "yield stress of liquid and semi-liquid foods by autotensiomat, abstract", "http://it.alljournals.cn/view_abstract.aspx?aid=1766F3915109D2D8A593C2CB2FB5B6EE&pcid=5B3AB970F71A803DEACDC0559115BFCF0A068CD97DD29835", Seen }
    NIELSEN_2001 "nielsen-2001" { "Nielsen, Marr & Hvidt", "2001", "sag and shear modulus of gels, Carbohydr. Polym. 45:395, abstract", "https://c.coek.info/download/correlation-between-sagging-and-shear-elasticity-in-pectin-gelatin-and-polyacryl_5ab58febd64ab27ab5e61a2e.html", Seen }
    CREAM_SHEET "cream-sheet" { "", "", "cream viscosity sheet at 5 and 20 °C, author unknown", "https://vdocuments.net/cream-viscosity.html", Seen }
    CFR_172_695 "cfr-172-695" { "US FDA", "", "21 CFR 172.695, xanthan gum", "", Seen }
    EXCIPIENT_TABLE "excipient-table" { "", "", "excipient table, entry on xanthan", "http://what-when-how.com/Tutorial/topic-478ro/Challenges-in-Delivery-of-Therapeutic-Genomics-and-Proteomics-509.html", Seen }
    STUDENT_XANTHAN "student-xanthan" { "", "", "student project, working defaults of a power law of xanthan", "", Seen }
    DYSPHAGIA_2012 "dysphagia-2012" { "", "2012", "shear rheology of gum-based thickeners, Dysphagia, abstract", "http://link.springer.com/article/10.1007/s00455-012-9433-x?LI=true", Seen }
    BAK_YOO_2023 "bak-yoo-2023" { "Bak & Yoo", "2023", "ternary gum mixtures, Int. J. Biol. Macromol. 253:126559, abstract", "https://pure.dongguk.edu/en/publications/rheological-characteristics-of-concentrated-ternary-gum-mixtures-", Seen }
    COSMETIC_CHEMISTS_43 "cosmetic-chemists-43" { "", "", "creep of xanthan, J. Soc. Cosmet. Chem. 43(1)", "https://library.scconline.org/v043n01/5", Seen }
    PASTOR_1994 "pastor-1994" { "Pastor et al.", "1994", "salt and xanthan, Food Hydrocolloids 8:265, abstract", "https://acnpsearch.tweb-dev.unibo.it/singlejournalindex/40625635", Seen }
    IDDSI_FLOW_TEST "iddsi-flow-test" { "IDDSI", "", "flow test by a 10 mL syringe", "https://e-trainingcentre.gr/mod/book/view.php?chapterid=2178&id=7277&lang=sk", Seen }
    CHARABIN_FRIGAARD_2024 "charabin-frigaard-2024" { "Charabin & Frigaard", "2024", "exchange flows and plug cementing, J. Fluid Mech., abstract", "https://homsy-staging.cambridgecore.org/core/journals/journal-of-fluid-mechanics/article/exchange-flows-and-plug-cementing/302CD09F834DEF23DBDDB4167E0D5686", Seen }
    FARAMARZI_2025 "faramarzi-2025" { "Faramarzi, Akbari & Taghavi", "2025", "interfacial arrest in buoyant viscoplastic injections, J. Fluid Mech., abstract", "https://www-cambridge-org.demo.remotlog.com/core/journals/journal-of-fluid-mechanics/article/interfacial-arrest-in-buoyant-viscoplastic-injections/BE8A51ED21E51D8604CC12992F586B0D", Seen }
    BUBBLE_ONSET_2021 "bubble-onset-2021" { "", "2021", "flow onset of a bubble in a yield-stress fluid, J. Fluid Mech., arXiv 2107.07580, abstract", "https://arcxiv.org/abs/2107.07580", Seen }
    PASTRY_TEXTBOOK "pastry-textbook" { "", "", "professional pastry textbook, capping and unmolding", "https://app.ckbk.com/section/thea98845c07s001ss002sss003ssss004/capping-and-unmolding", Seen }
    COUVERTURE_TRAINING "couverture-training" { "", "", "couverture makers' training pages on moulded chocolates and cooling", "", Seen }
    BAKING_INSTITUTE "baking-institute" { "", "", "baking institute's course note on moulded bonbons", "https://sfbi.com/topic/50-3-hand-molded-candy-2/", Seen }
    KLEINERT_1973 "kleinert-1973" { "Kleinert", "1973", "US 3,769,039, liquid-filled chocolate with an inner crust, abstract", "", Seen }
    SUGAR_CRUST_ENTRY "sugar-crust-entry" { "", "", "encyclopaedia entry on the sugar crust", "https://en.wikipedia.org/wiki/Sugar_crust", Seen }
    CHOCOLATIER_GUIDE "chocolatier-guide" { "", "", "chocolatier's guide page on room and mould temperatures", "", Seen }
    DECKER_ZIEGLER_2003 "decker-ziegler-2003" { "Decker & Ziegler", "2003", "aerated confectionery, J. Texture Stud., abstract", "https://pure.psu.edu/en/publications/mechanical-properties-of-aerated-confectionery", Seen }
    BECKETT_2009 "beckett-2009" { "Beckett (ed.)", "2009", "Industrial Chocolate Manufacture and Use, 4th ed., useful physical constants, pp. 667 to 668", "https://scribd.com/document/443808961/CHOCOLATE-USEFUL-PHYSICAL-CONSTANTS", Seen }
    PLANK_1913 "plank-1913" { "Plank", "1913", "time to freeze a slab", "", Memory }
    WILLE_LUTTON_1966 "wille-lutton-1966" { "Wille & Lutton", "1966", "polymorphism of cocoa butter, J. Am. Oil Chem. Soc. 43:491, as quoted", "https://exq.pages.dev/Cocoa_butter", Seen }
    TEMPERING_GUIDE "tempering-guide" { "", "", "tempering guide, a book's table after a chefs' school manual", "https://app.ckbk.com/reference/roco65193c08s001ss003e001", Seen }
    SOLID_FAT_CURVES "solid-fat-curves" { "", "", "typical solid fat contents of handbooks", "", Memory }
    MILK_FAT_PAGE "milk-fat-page" { "", "", "dairy teaching page on the solid fat of milk fat, weak provenance", "", Seen }
    HUSSAIN_2018 "hussain-2018" { "Hussain et al.", "2018", "melting of milk chocolate, MOJ Food Process. Technol. 6(3):292, abstract", "https://medcraveonline.com/MOJFPT/MOJFPT-06-00178", Seen }
    FAT_BLENDS_2017 "fat-blends-2017" { "", "2017", "crystallinity of chocolate fat blends, J. Food Sci. Technol., abstract", "https://link.springer.com/doi/10.1007/s13197-017-2634-4", Seen }
    TRIACYLGLYCEROL_TABLE "triacylglycerol-table" { "", "", "triacylglycerols of cocoa butter, acetone fractionation, table 1", "https://docest.com/doc/322657/table-1-triacylglycerol-tag-composition-of-cocoa-butter-cb-stearins-s-and-oleins-o", Seen }
    DANTIGNY_2005 "dantigny-2005" { "Dantigny and others", "2005", "modelling the effect of ethanol on the growth of moulds, Int. J. Food Microbiol. 98:261, abstract", "https://research.wur.nl/en/publications/modelling-the-effect-of-ethanol-on-growth-rate-of-food-spoilage-m", Seen }
    SHELLHAMMER_KROCHTA "shellhammer-krochta" { "Shellhammer & Krochta", "", "water vapour barrier of milk fat fractions, abstract", "https://studylib.net/doc/13510246/e-w-v-b", Seen }
    SPONGE_CAKE_2003 "sponge-cake-2003" { "", "2003", "water diffusivity within sponge cake, J. Food Sci. 68, abstract", "http://onlinelibrary.wiley.com/doi/10.1111/j.1365-2621.2003.tb05711.x/abstract", Seen }
    BIQUET_LABUZA_1988 "biquet-labuza-1988" { "Biquet & Labuza", "1988", "moisture permeability of chocolate films, J. Food Sci. 53:989, abstract", "https://experts.umn.edu/en/publications/evaluation-of-the-moisture-permeability-characteristics-of-chocol", Seen }
    CIKRIKCI_OZTOP "cikrikci-oztop" { "Cikrikci & Oztop", "", "resonance images of peanut butter over chocolate, institute news", "http://umram.bilkent.edu.tr/index.php/en/644-chocolate-mri.html", Seen }
    ALTAN_2011 "altan-2011" { "Altan, Lavenson, McCarthy & McCarthy", "2011", "oil migration in chocolate, J. Food Sci., abstract", "", Seen }
    GALDAMEZ_2009 "galdamez-2009" { "Galdamez, Szlachetka, Duda & Ziegler", "2009", "oil migration in chocolate, J. Food Eng. 92:261, abstract", "https://zh.scribd.com/document/115455417/Oil-Migration-in-Chocolate", Seen }
    SHEARED_CRYSTALS_2016 "sheared-crystals-2016" { "", "2016", "sheared crystallisation and the migration of oil, RSC Adv. c6ra11196c, abstract", "https://rsc.66557.net/en/content/articlelanding/2016/ra/c6ra11196c", Seen }
    LOWE_JELLY "lowe-jelly" { "Lowe", "", "Experimental Cookery, temperature for boiling syrup for jelly", "https://chestofbooks.com/food/science/Experimental-Cookery/Temperature-For-Boiling-Sirup-For-Jelly.html", Seen }
    CANDY_STAGES "candy-stages" { "", "", "stages of boiled sugar with temperature and sugar content, two public tables", "https://nobadfood.com/recipes/2021/1/12/sugar-temp?format=amp", Seen }
    LIQUOR_CORDIALS_PAGE "liquor-cordials-page" { "", "", "instructions for moulded liquor cordials", "http://www.instructables.com/id/How-to-Make-Chocolate-Liquor-Cordials/step4/Prepare-the-Syrup/", Seen }
    FREEZING_CONFECTIONS "freezing-confections" { "Greweling", "2007", "Chocolates and Confections, freezing confections", "https://app.ckbk.com/reference/choc24414c03s001ss003e001", Seen }
    BASSETTI_2000 "bassetti-2000" { "Bassetti, Bergamasco, Moraes & Zanin", "2000", "thermal stability of free and immobilised invertase, Braz. J. Chem. Eng. 17, abstract", "http://www.scielo.br/j/bjce/a/yHSC4PrWKj3rrHtmS397Ryn/?lang=en", Seen }
    ESSEL_OSEI_2014 "essel-osei-2014" { "Essel & Osei", "2014", "kinetic properties of commercial invertase from yeast, Nat. Prod. Chem. Res. 2(6), abstract", "https://www.iomcworld.com/open-access/investigation-of-some-kinetic-properties-of-commercial-invertase-from-yeast-43252.html", Seen }
    CRANK_1975 "crank-1975" { "Crank", "1975", "The Mathematics of Diffusion", "", Memory }
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
