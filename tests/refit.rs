//! Fits the isotherm of every solute anew to the measurements in `reference-values/water`, and holds the constants that ship against the best
//! fit; `cargo test --test refit -- --nocapture` prints the table.
//!
//! The best fit is a yardstick, not a candidate: it knows nothing beyond its last point. Where the table says that the fitted isotherm does not
//! fall over all concentrations, an activity would belong to several of them; that of sucrose would read a ganache 0.09 too wet.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::{matter::Constituent, models::water::Solute, units::Measure};
use toml_edit::{DocumentMut, TableLike, Value};

/// The files whose solutions of one solute count. Left out are those its file calls rounded, read from a graph, digitised from a curve,
/// recalled to 0.02 or taken at the boil, and formulas other than those the constants were fitted with.
const MEASUREMENTS: &[&str] = &[
    "crc-solutions",
    "dobson-1925",
    "ebrahimi-2016",
    "fao-fruit",
    "glycerol-2004",
    "greenspan-1977",
    "he-2006",
    "robinson-stokes",
    "zhang-2022",
];

/// The isotherms are for 25 °C: freezing points farther down are no measurement of them.
const COLDEST: f64 = -10.0;

/// How far constants may miss the measurements beyond the best fit: a tenth of its root mean square, or this.
const NEGLIGIBLE: f64 = 0.0003;

/// Solutes whose constants are farther off, by how much in root mean square, and why they stay.
const EXCEPTIONS: &[(Constituent, f64, &str)] = &[
    (
        Constituent::Fructose,
        0.0035,
        "a free fit trades the freezing points, missed four times as far, for dry points that scatter by 0.01, and moves honeys, which read too \
         wet already, by another 0.01",
    ),
    (
        Constituent::Maltose,
        0.0011,
        "the freezing points ask for a K2 that puts a syrup of 80 % at 0.55, where sucrose has 0.69; and at -5 °C a syrup binds water as sucrose's \
         does, whose K falls by a seventh up to 25 °C",
    ),
    (
        Constituent::Ethanol,
        0.0046,
        "freezing points, where ethanol binds more water, are all but three of the measurements, and those three are met",
    ),
    (
        Constituent::LacticAcid,
        0.0006,
        "the K of its freezing points runs from -18 to -2.5, as that of an acid that dissociates, which one constant cannot follow",
    ),
    (
        Constituent::Salt,
        0.0007,
        "freezing points and isopiestic values at 25 °C ask for different constants, and those at 25 °C are met to 0.0009",
    ),
];

/// A solution of one solute: its mole fraction of particles and its measured water activity.
struct Point {
    x: f64,
    activity: f64,
}

#[test]
fn shipped_constants_are_as_good_as_a_new_fit() {
    println!(
        "{:12} {:>4} {:>6}  {:30} {:33} {:>8} {:>8} falls",
        "solute", "rows", "to", "shipped K1, K2, K3", "fitted", "shipped", "fitted"
    );
    let mut fitted = Vec::new();
    for solute in Solute::ALL {
        let points = points(solute);
        let terms = solute.constants.iter().rposition(|constant| *constant != 0.0).unwrap() + 1;
        if points.len() < 2 * terms {
            println!("{:12} {:4} too few to fit", solute.constituent.key(), points.len());
            continue;
        }
        let best = fit(&points, terms);
        let [ships, could] = [solute.constants, best].map(|constants| root_mean_square(&points, constants));
        let to = points.iter().fold(0.0_f64, |to, point| to.max(mass_fraction(solute, point.x)));
        let print = |constants: [f64; 3]| constants.map(|constant| format!("{constant:9.4}")).join(" ");
        let key = solute.constituent.key();
        let [shipped, refitted] = [solute.constants, best].map(print);
        let falls = if falls(best) { "yes" } else { "no" };
        println!("{key:12} {:4} {:5.1}%  {shipped:30} {refitted:33} {ships:8.5} {could:8.5} {falls}", points.len(), 100.0 * to);
        let exception = EXCEPTIONS.iter().find(|(constituent, ..)| *constituent == solute.constituent);
        let allowed = (1.1 * could).max(could + NEGLIGIBLE);
        match exception {
            None => assert!(ships <= allowed, "{key}: {ships} with the constants that ship, {could} with {best:?}"),
            Some((_, most, why)) => assert!(ships > allowed && ships <= could + most, "{key} is no such exception: {why}"),
        }
        fitted.push(solute.constituent);
    }
    assert_eq!(fitted.len(), 13, "{fitted:?}");
}

/// `K1`, `K2`, `K3` by least squares, as many of them as there are `terms`. `ln(1 - x) - ln a = x² (K1 + K2 x + K3 x²)` is linear in them; each
/// point weighs as its activity, so that what is least is, to first order, the miss in activity.
fn fit(points: &[Point], terms: usize) -> [f64; 3] {
    let mut normal = [[0.0; 4]; 3];
    for Point { x, activity } in points {
        let row = [x * x, x.powi(3), x.powi(4), (-x).ln_1p() - activity.ln()];
        let weight = activity * activity;
        for i in 0..terms {
            for j in (0..terms).chain([3]) {
                normal[i][j] += weight * row[i] * row[j];
            }
        }
    }
    for pivot in 0..terms {
        let by = normal[pivot];
        for (_, row) in normal.iter_mut().enumerate().filter(|(i, _)| *i != pivot) {
            let share = row[pivot] / by[pivot];
            for (entry, by) in row.iter_mut().zip(by) {
                *entry -= share * by;
            }
        }
    }
    std::array::from_fn(|i| if i < terms { normal[i][3] / normal[i][i] } else { 0.0 })
}

/// Whether the activity falls strictly with the mole fraction, as that of every isotherm that ships does.
fn falls([k1, k2, k3]: [f64; 3]) -> bool {
    (0..1000).map(|step| f64::from(step) / 1e3).all(|x| 1.0 / (1.0 - x) + x * (2.0 * k1 + x * (3.0 * k2 + x * 4.0 * k3)) > 0.0)
}

fn root_mean_square(points: &[Point], [k1, k2, k3]: [f64; 3]) -> f64 {
    let miss = |Point { x, activity }: &Point| ((-x).ln_1p() - x * x * (k1 + x * (k2 + x * k3))).exp() - activity;
    (points.iter().map(|point| miss(point).powi(2)).sum::<f64>() / points.len() as f64).sqrt()
}

const WATER: f64 = 18.0153;

fn mass_fraction(solute: &Solute, x: f64) -> f64 {
    let mass = x / solute.particles * solute.molar_mass;
    mass / (mass + (1.0 - x) * WATER)
}

/// The measured solutions of a solute alone in water.
fn points(solute: &Solute) -> Vec<Point> {
    let mut found = Vec::new();
    for file in MEASUREMENTS {
        let path = format!("{}/reference-values/water/{file}.toml", env!("CARGO_MANIFEST_DIR"));
        let document: DocumentMut = std::fs::read_to_string(path).unwrap().parse().unwrap();
        for table in document["table"].as_array_of_tables().unwrap() {
            for row in table["rows"].as_array().unwrap() {
                let row: &dyn TableLike = row.as_inline_table().unwrap();
                let get = |key: &str| row.get(key).or_else(|| table.get(key)).and_then(|item| item.as_value());
                let (Some(of), Some(activity)) = (get("of").and_then(Value::as_inline_table), get("value")) else { continue };
                let part = |constituent: Constituent| of.get(constituent.key()).map(number);
                let (Some(water), Some(part)) = (part(Constituent::Water), part(solute.constituent)) else { continue };
                let celsius = get("at").map_or(25.0, |at| Measure::parse(at.as_str().unwrap()).unwrap().value());
                if of.len() != 2 || get("context").is_some() || celsius < COLDEST {
                    continue;
                }
                let (water, particles) = (water / WATER, solute.particles * part / solute.molar_mass);
                found.push(Point { x: particles / (water + particles), activity: number(activity) });
            }
        }
    }
    found
}

fn number(value: &Value) -> f64 {
    value.as_float().unwrap_or_else(|| Measure::parse(value.as_str().unwrap()).unwrap().base())
}
