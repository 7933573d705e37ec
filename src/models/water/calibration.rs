//! Whether every class of measurements earns the uncertainty stated for it; `--nocapture` prints the table.

use super::{MeasuredBatch, Solute, Sorbent, WATER, WaterBalance, minor_osmoles, uncertainty::Unsure, water_activity};
use crate::matter::{Composition, Constituent, Crystals};
use crate::units::{Band, Checked, MassFraction, Measure, Temperature, WaterActivity, quantity::ratio};
use std::collections::BTreeMap;

/// The measurements that count for a class, by file of `reference-values/water`; a file without a class names its own by table. Left out are
/// those its file calls doubtful, suspect, rounded, read from a graph, digitised from a curve, recalled to 0.02, or taken at the boil.
const CALIBRATION: &[(&str, &str)] = &[
    ("abramovic-2008", "honeys"),
    ("cake-forum", "ganache"),
    ("chirife-2006", "honeys"),
    ("citrus-jelly-2016", "juices"),
    ("crc-solutions", ""),
    ("dobson-1925", "ethanol"),
    ("ebrahimi-2016", "osmometry of sugars"),
    ("fao-fruit", "sucrose"),
    ("glycerol-2004", "glycerol-mannitol"),
    ("greenspan-1977", "salts"),
    ("he-2006", "fructose"),
    ("laser-2017", "ethanol by laser"),
    ("minnesota-2019", "frostings"),
    ("robinson-stokes", ""),
    ("serin-2018", "honeys"),
    ("texas-2011", "ganache"),
    ("zhang-2022", "glycerol-mannitol"),
];

/// What is read from a graph, fitted by others or recalled, of which there is nothing better: solutes beyond the range that measurements cover,
/// and the isotherms of solids. The constant of sorbitol is the literature's, so that the rows computed from it tell nothing.
const BESIDE: &[(&str, &str)] = &[
    ("almond-isotherm", "solids"),
    ("deliquescence", "beyond the range"),
    ("erbas-2005", "solids"),
    ("makinen-2010", "beyond the range"),
    ("sandoval-2002", "solids"),
    ("sandoval-2020", "solids"),
    ("sloan-labuza-1975", "beyond the range"),
    ("zobrist-2011", "beyond the range"),
];

/// Held class by class: of ten measurements and more, 95 % lie within two standard uncertainties; of fewer, the root mean square of the misses
/// is no more than the standard uncertainty stated for them.
#[test]
fn every_class_of_measurements_earns_its_uncertainty() {
    let mut classes: BTreeMap<String, Vec<Miss>> = BTreeMap::new();
    for row in CALIBRATION.iter().flat_map(|(file, class)| measurements(file, class)) {
        classes.entry(row.class.clone()).or_default().push(row.miss());
    }
    for row in BESIDE.iter().flat_map(|(file, class)| measurements(file, class)).filter(tells) {
        classes.entry(row.class.clone()).or_default().push(row.miss());
    }
    println!("{:22} {:>4} {:>8} {:>8} {:>8} {:>8}  by", "class", "rows", "rms", "worst", "inside", "stated");
    for (class, misses) in &classes {
        let rms = root_mean_square(misses.iter().map(|miss| miss.off));
        let stated = root_mean_square(misses.iter().map(|miss| miss.uncertainty));
        let worst = misses.iter().fold(0.0_f64, |worst, miss| worst.max(miss.off.abs()));
        let inside = misses.iter().filter(|miss| miss.off.abs() <= 2.0 * miss.uncertainty).count();
        let (count, share) = (misses.len(), 100.0 * inside as f64 / misses.len() as f64);
        let by = if count < 10 { "no less than its rms" } else { "95 % inside" };
        println!("{class:22} {count:4} {rms:8.5} {worst:8.5} {share:6.1} % {stated:8.5}  {by}");
        if count < 10 {
            assert!(rms <= stated, "{class}: root mean square {rms}, stated {stated}");
        } else {
            assert!(inside * 20 >= count * 19, "{class}: {inside} of {count} inside");
        }
    }
    let count = |class| classes.get(class).map_or(0, Vec::len);
    assert_eq!([count("sugars-freezing"), count("honeys"), count("ganache"), count("frostings")], [93, 6, 2, 2]);
    assert_eq!([count("beyond the range"), count("solids")], [16, 16]);
}

/// Whether a row beside tells anything: below 0.55 a band says no more than that, and what is out of range can pass nothing.
fn tells(row: &Measurement) -> bool {
    let balance = row.balance();
    let from_its_own_constant = row.file == "makinen-2010" && row.composition.of(Constituent::Sorbitol) > 0.0;
    let beyond = balance.beyond_range().next().is_some() && !from_its_own_constant;
    // The ash of almonds is bound in the kernel: their file says so of the rows that have it dissolved.
    let solids = row.composition.of(Constituent::Minerals) <= 0.0;
    row.activity >= 0.55 && balance.in_range && if row.class == "solids" { solids } else { beyond }
}

/// By how much of it the water that solutes hold beyond their range, and that solids hold, is missed: what is stated for them is no less than the
/// root mean square of the misses, and no more than twice that.
#[test]
fn what_is_held_may_be_off_by_what_is_stated() {
    for (class, stated) in [("beyond the range", Unsure::BEYOND), ("solids", Unsure::SORBED)] {
        let rows = BESIDE.iter().filter(|(_, other)| *other == class).flat_map(|(file, class)| measurements(file, class));
        // Almonds hold sugars besides.
        let misses: Vec<_> = rows
            .filter(|row| if class == "solids" { row.file != "almond-isotherm" } else { tells(row) })
            .map(|row| {
                let miss = row.composition.of(Constituent::Water) / held(&row.composition, row.activity) - 1.0;
                println!("{:18} {:5.2} {miss:+6.3}", row.file, row.activity);
                miss
            })
            .collect();
        let rms = root_mean_square(misses.into_iter());
        println!("{class:18} {rms:12.3}, stated {stated}");
        assert!((0.5 * stated..=stated).contains(&rms), "{class}: {rms}");
    }
}

/// Water that a composition holds at an activity with everything dissolved.
fn held(composition: &Composition, activity: f64) -> f64 {
    let at = WaterActivity::from_base(activity).unwrap();
    let sorbed = Sorbent::ALL.iter().map(|sorbent| composition.of(sorbent.constituent) * sorbent.water_held(at).get::<ratio>());
    let dissolved = Solute::ALL
        .iter()
        .map(|solute| composition.of(solute.constituent) / solute.molar_mass * WATER * solute.water_held(at).get::<ratio>());
    let ideal = minor_osmoles(composition).map(|(_, moles)| moles * WATER * 1e-3 * activity / (1.0 - activity));
    sorbed.chain(dissolved).chain(ideal).sum()
}

fn root_mean_square(misses: impl ExactSizeIterator<Item = f64>) -> f64 {
    let count = misses.len() as f64;
    (misses.map(|miss| miss * miss).sum::<f64>() / count).sqrt()
}

/// What a measurement lies beside the model, and what is stated for it.
struct Miss {
    off: f64,
    uncertainty: f64,
}

impl Measurement {
    fn balance(&self) -> WaterBalance {
        water_activity(&self.composition, self.crystals, Temperature::from_base(self.celsius).unwrap()).unwrap()
    }

    fn miss(&self) -> Miss {
        let band = self.balance().activity.map(Checked::base);
        // A band cut off at 1 is whole below; one that only says that it is dry is whole above 0.55.
        let uncertainty = if band.high < 1.0 { (band.high - band.value.max(0.55)) / 2.0 } else { (band.value - band.low) / 2.0 };
        Miss { off: self.activity - band.value, uncertainty }
    }
}

/// Each measurement of a series is predicted from each other one that tells of it: 95 % and more lie inside the band.
#[test]
fn a_measured_batch_tells_of_its_neighbours() {
    /// What such measurements are good for.
    const UNCERTAINTY: f64 = 0.003;
    println!("{:16} {:>5} {:>7} {:>8} {:>8}", "series", "pairs", "inside", "rms", "alone");
    for file in ["he-2006", "robinson-stokes", "zhang-2022"] {
        let series = measurements(file, file);
        let (mut inside, mut misses, mut misses_alone) = (0, Vec::new(), Vec::new());
        for one in &series {
            let measured = Band::normal(one.activity, UNCERTAINTY).map(WaterActivity::nearest);
            let temperature = Temperature::from_base(one.celsius).unwrap();
            let batch = MeasuredBatch::new(&one.composition, one.crystals, temperature, measured).unwrap();
            for other in series.iter().filter(|other| other.composition != one.composition) {
                let found = batch.predict(&other.composition).unwrap();
                if found.likeness.get::<ratio>() < 0.1 {
                    continue;
                }
                let band = found.activity.map(Checked::base);
                let alone = water_activity(&other.composition, other.crystals, temperature).unwrap().activity.value.base();
                inside += usize::from((band.low..=band.high).contains(&other.activity));
                misses.push(band.value - other.activity);
                misses_alone.push(alone - other.activity);
            }
        }
        let rms = |misses: &[f64]| (misses.iter().map(|miss| miss.powi(2)).sum::<f64>() / misses.len() as f64).sqrt();
        println!("{file:16} {:5} {inside:7} {:8.5} {:8.5}", misses.len(), rms(&misses), rms(&misses_alone));
        assert!(misses.len() >= 8 && inside * 20 >= misses.len() * 19, "{file}: {inside} of {} inside", misses.len());
    }
}

struct Measurement {
    file: String,
    class: String,
    composition: Composition,
    crystals: Option<Crystals>,
    celsius: f64,
    activity: f64,
}

/// The water activities of a file, doubtful ones and context left out.
fn measurements(file: &str, class: &str) -> Vec<Measurement> {
    use toml_edit::{DocumentMut, TableLike, Value};
    let path = format!("{}/reference-values/water/{file}.toml", env!("CARGO_MANIFEST_DIR"));
    let document: DocumentMut = std::fs::read_to_string(path).unwrap().parse().unwrap();
    let number = |value: &Value| value.as_float().unwrap_or_else(|| Measure::parse(value.as_str().unwrap()).unwrap().base());
    // The isotherms are for 25 °C: freezing points farther down, where ethanol binds more water, are no test of them.
    const COLDEST: f64 = -10.0;
    let mut found = Vec::new();
    for (index, table) in document["table"].as_array_of_tables().unwrap().iter().enumerate() {
        for row in table["rows"].as_array().unwrap() {
            let row: &dyn TableLike = row.as_inline_table().unwrap();
            let get = |key: &str| row.get(key).or_else(|| table.get(key)).and_then(|item| item.as_value());
            let celsius = get("at").map_or(25.0, number);
            let doubtful = get("disagrees").is_some_and(|why| why.as_str().unwrap().contains("doubtful"));
            if get("context").is_some() || doubtful || celsius < COLDEST {
                continue;
            }
            let parts = get("of").unwrap().as_inline_table().unwrap().iter();
            let parts = parts.map(|(key, part)| (Constituent::from_key(key).unwrap(), MassFraction::from_base(number(part)).unwrap()));
            found.push(Measurement {
                file: file.to_owned(),
                class: match (class, get("class")) {
                    ("", Some(own)) => own.as_str().unwrap().to_owned(),
                    ("", None) => format!("{file} {index}"),
                    (class, _) => class.to_owned(),
                },
                composition: Composition::new(parts).unwrap(),
                crystals: get("crystals").map(|_| Crystals::Dissolved),
                celsius,
                activity: number(get("value").unwrap()),
            });
        }
    }
    found
}
