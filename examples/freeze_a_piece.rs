//! Freezing finished pieces: what turns to ice in each filling, what that does to the shell, and how they go in and come out without sweating.
//!
//! ```text
//! cargo run --release --example freeze_a_piece -- [FILE] [--freezer "-18 Cel"] [--room "20 Cel"] [--humidity "50 %RH"]
//! ```
//!
//! Without a file: the winter box. Exit code 0, or 2 if the input cannot be used, and standard error says why.

mod terminal;

use cordial::assess::{Part, Quantity};
use cordial::engine::Verdict;
use cordial::matter::{Constituent, Recipe};
use cordial::models::heat::condensation::dew_point;
use cordial::models::water::freezing_point;
use cordial::report::check;
use cordial::units::{Band, Checked, RelativeHumidity, Temperature};
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, degrees, document, ended, paragraph, say};

/// Warmer is a refrigerator, °C.
const WARMEST_FREEZER: f64 = -5.0;

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&[], &["--freezer", "--room", "--humidity"])?;
    let freezer: Temperature = arguments.quantity("--freezer")?.unwrap_or(Temperature::nearest(-18.0));
    let room: Temperature = arguments.quantity("--room")?.unwrap_or(Temperature::nearest(20.0));
    let humidity: RelativeHumidity = arguments.quantity("--humidity")?.unwrap_or(RelativeHumidity::nearest(0.5));
    if freezer.celsius() > WARMEST_FREEZER {
        return Err(format!("--freezer: no freezer is as warm as {}: -18 °C is usual", degrees(freezer)).into());
    }
    if room.celsius() <= 0.0 {
        return Err(format!("--room: nothing thaws at {}", degrees(room)).into());
    }
    let document = match arguments.words.as_slice() {
        [] | [_] => document(arguments.words.first())?,
        _ => return Err("name one document, or none".into()),
    };
    say!("In a freezer at {}:\n", degrees(freezer));
    for piece in document.pieces() {
        let mut frozen = piece.clone();
        frozen.storage.temperature = Some(freezer);
        frozen.storage.wrapped = Some(true);
        let report = check(&frozen)?;
        say!("{}", piece.name);
        for (index, layer) in frozen.layers.iter().enumerate() {
            let Some(composition) = layer.recipe.as_ref().map(Recipe::composition) else {
                say!("  {}: its recipe is not told", layer.name);
                continue;
            };
            if composition.of(Constituent::Water) <= 0.0 {
                say!("  {}: no water, nothing to freeze", layer.name);
                continue;
            }
            let begins = match freezing_point(composition, layer.crystals) {
                Ok(Band { value, .. }) if value.celsius() <= Temperature::MIN + 0.5 => {
                    format!("does not freeze, even at {:.0} °C", Temperature::MIN)
                }
                Ok(Band { value, low, high }) => {
                    // Added to zero, a negative zero has no sign.
                    let [value, low, high] = [value, low, high].map(|at| at.celsius().round() + 0.0);
                    format!("begins to freeze at {value} °C ({low} to {high})")
                }
                Err(error) => format!("freezing point unknown, {error}"),
            };
            let ice = report.assessment.part(Part::Layer(index)).and_then(|part| part.get(Quantity::Ice).known());
            let ice = ice.map_or_else(String::new, |ice| {
                let Band { value, low, high } = ice.band.map(|share| 100.0 * share);
                let doubt = if ice.in_range { "" } else { ", beyond what was compared" };
                if high < 0.5 {
                    format!("; no ice{doubt}")
                } else if value < 0.5 {
                    format!("; hardly ice (at most {high:.0} %{doubt})")
                } else {
                    format!("; {value:.0} % of it is ice ({low:.0} to {high:.0}{doubt})")
                }
            });
            let cracks = report.of("ice-would-crack-shell").find(|finding| finding.part == Part::Layer(index));
            let verdict = match cracks {
                Some(finding) if finding.verdict > Verdict::Pass && ice.contains("beyond") => "try a few pieces first",
                Some(finding) if finding.verdict > Verdict::Pass => "it would swell and crack the shell: do not freeze",
                Some(_) => "the shell has nothing to fear from it",
                None => "not judged",
            };
            say!("{}", paragraph(&format!("  {}: {begins}{ice}; {verdict}", layer.name)));
        }
    }
    let dew = dew_point(room, humidity).celsius().round();
    // A wall is a little colder than the thermometer beside it.
    let opened = (dew + 2.0).min(room.celsius());
    say!(
        "\nHow to freeze them (a handbook's steps):
  1. Box them full, with little air left, and seal the box airtight.
  2. A day in the refrigerator, so that no shell cracks from the shock.
  3. Into the freezer, as cold as it goes.
  4. Two days before they are wanted: a day in the refrigerator, sealed.
  5. A day in the room, still sealed. Air of {} and {:.0} % wets whatever is colder
     than {:.0} °C: open the box when the pieces are at {:.0} °C or more. Opened sooner they sweat, and
     dry to sugar bloom.
What is kept in the freezer keeps no longer after it: count the days in the room as for fresh
pieces, and do not freeze them again. Ice is estimated: freeze a few pieces before a batch.",
        degrees(room),
        100.0 * humidity.base(),
        dew + 0.0,
        opened + 0.0
    );
    Ok(())
}
