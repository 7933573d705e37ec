//! A cordial centre that is to turn liquid by invertase: how much of its sugar must be split, what the heat of the pot leaves of the enzyme, and
//! what else it wants.
//!
//! ```text
//! cargo run --release --example liquefy_a_centre -- [INGREDIENT=MASS ...] [--added-at "60 Cel"] [--stays "20 min"] [--ph 5] [--at "20 Cel"]
//! ```
//!
//! Without arguments: a fondant for cherries. Exit code 0, or 2 if the input cannot be used, and standard error says why.

mod kitchen;
mod terminal;

use cordial::matter::{Constituent, Recipe, RecipeLine};
use cordial::models::water::{SugarCrystal, inversion_to_dissolve, invertase_left, inverted, supersaturation, water_activity};
use cordial::units::{Band, Checked, Duration, MassFraction, Ph, Temperature, Unit, quantity::ratio};
use kitchen::{line, spoken};
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, degrees, ended, paragraph, say};

/// Where solubilities beside invert sugar were compared, °C.
const COMPARED: std::ops::RangeInclusive<f64> = 15.0..=30.0;
/// Hotter than this nothing is left of the enzyme, colder nobody stirs it in; °C.
const ADDED: std::ops::RangeInclusive<f64> = 15.0..=90.0;
/// What is made with as much spirit as this is another thing, of its mass.
const SPIRITED: f64 = 0.05;
const FONDANT: &[&str] = &["sugar=700 g", "glucose-syrup-de42=120 g", "water=110 g"];

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&[], &["--added-at", "--stays", "--ph", "--at"])?;
    let words: Vec<&str> = arguments.words.iter().map(String::as_str).collect();
    let lines = if words.is_empty() { FONDANT } else { words.as_slice() };
    let lines = lines.iter().map(|text| line(text)).collect::<Result<Vec<RecipeLine>, _>>()?;
    let store: Temperature = arguments.quantity("--at")?.unwrap_or(Temperature::nearest(20.0));
    let added_at: Temperature = arguments.quantity("--added-at")?.unwrap_or(Temperature::nearest(60.0));
    let stays: Duration = arguments.quantity("--stays")?.unwrap_or(Duration::nearest(1200.0));
    let ph = arguments.all("--ph").last().map(|text| text.parse().map_err(|_| format!("--ph: `{text}` is no pH"))).transpose()?;
    let ph = ph.map(Ph::from_base).transpose().map_err(|error| format!("--ph: {error}"))?;
    for (option, at, range) in [("--at", store, COMPARED), ("--added-at", added_at, ADDED)] {
        if !range.contains(&at.celsius()) {
            return Err(format!("{option}: it is told from {} to {} °C, not at {}", range.start(), range.end(), degrees(at)).into());
        }
    }
    let names: Vec<_> = lines.iter().map(|line| format!("{} {}", line.mass.measure(Unit::Gram), line.ingredient.title)).collect();
    let centre = *Recipe::new(lines, None)?.composition();
    let [water, sucrose, ethanol] = [Constituent::Water, Constituent::Sucrose, Constituent::Ethanol].map(|part| centre.of(part));
    if sucrose <= 0.0 || water <= 0.0 {
        return Err("invertase splits sucrose, and takes water for it: name a centre that holds both".into());
    }
    say!("{}", paragraph(&format!("{}: {:.1} % water, {:.0} % sucrose", names.join(", "), 100.0 * water, 100.0 * sucrose)));
    if ethanol > SPIRITED * water {
        let text = "  Mind: how much sugar dissolves beside so much spirit and invert sugar was not compared; spirit drives sugar out.";
        say!("{}", paragraph(text));
    }
    match inversion_to_dissolve(&centre, store)? {
        Some(share) if share.value.base() <= 0.0 => {
            say!("  Sugar: all of it is dissolved at {} already; there is nothing to turn liquid.", degrees(store));
            return Ok(());
        }
        Some(share) => {
            let Band { value, low, high } = share.map(|share| 100.0 * share.base());
            say!(
                "  Sugar: the last crystal dissolves at {} when {value:.0} % of the sucrose is split ({low:.0} to {high:.0}).",
                degrees(store)
            );
            for split in [0.0, 0.5, 0.8] {
                let halfway = inverted(&centre, MassFraction::from_base(split)?)?;
                let over = supersaturation(&halfway, SugarCrystal::Sucrose, store)?.by_mass.value.get::<ratio>();
                let crystals = 100.0 * halfway.of(Constituent::Sucrose) * (1.0 - 1.0 / over).max(0.0);
                say!("    with {:.0} % of it split, crystals are {crystals:.0} % of the mass", 100.0 * split);
            }
            let liquid = inverted(&centre, share.value)?;
            let activity = water_activity(&liquid, None, store)?.activity;
            let told = if activity.low.base() > 0.0 { spoken(activity) } else { format!("below {:.2}", activity.high.base()) };
            let held = 100.0 * liquid.of(Constituent::Water);
            say!(
                "{}",
                paragraph(&format!("    all liquid it holds {held:.1} % water, for splitting takes some up; water activity {told}"))
            );
        }
        None => say!("  Sugar: too dry, no share of it split would dissolve the rest. Weigh in more water: 12 to 14 % is usual."),
    }
    let left = invertase_left(added_at, stays);
    let [value, low, high] = [left.value, left.low, left.high].map(|left| 100.0 * left);
    let advice = match left.value {
        most if most > 0.8 => "little is lost",
        half if half > 0.5 => "dose more, or add it cooler",
        _ => "add it below 60 °C, or it stays solid",
    };
    let (added, minutes) = (degrees(added_at), stays.base() / 60.0);
    let text = format!(
        "  Heat: added at {added} and as warm for {minutes:.0} min, {value:.0} % of the enzyme is left ({low:.0} to {high:.0}): {advice}."
    );
    say!("{}", paragraph(&text));
    match ph {
        Some(ph) if (3.5..=6.0).contains(&ph.base()) => {
            say!("  Acid: pH {:.1} lies where it works, 3.5 to 6; 4.5 to 5.5 is best (recalled).", ph.base())
        }
        Some(ph) => say!("  Acid: pH {:.1} lies outside 3.5 to 6, where it works: bring it to 4.5 to 5.5 (recalled).", ph.base()),
        None => say!("  Acid: tell --ph; it works from 3.5 to 6, best at 4.5 to 5.5 (recalled)."),
    }
    let dose = "  Dose: 0.1 to 0.3 % of fluid invertase, or as its maker says (recalled). Time: one to two weeks at 18 to 25 °C, longer in a cold \
                store; spirit slows it (recalled).";
    say!("{}", paragraph(dose));
    say!("  Close the shell at once: what turns liquid finds every pinhole.");
    let keeping = "  Keeping: a fruit in the centre gives water, which none of this counts. Measure the water activity of the liquid before you \
                   promise how long it keeps.";
    say!("{}", paragraph(keeping));
    Ok(())
}
