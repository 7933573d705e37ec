//! Syrups, caramels and jams by the thermometer: what a temperature leaves of a recipe, and which temperature leaves the water that is wanted.
//!
//! ```text
//! cargo run --release --example cook_a_syrup -- [INGREDIENT=MASS ...] [--to "118 Cel"] [--water "14 %"] [--then SPIRIT=MASS] [--water-boils "98 Cel"]
//! ```
//!
//! Without arguments: a caramel for shells, a jam, and the syrup of a sugar crust for a plain spirit and for a sweet liqueur. `--then` goes in
//! after cooking; `--water-boils` is what your own thermometer shows in plain boiling water, which puts altitude and thermometer right at once.
//!
//! Exit code 0, or 2 if the input cannot be used, and standard error says why.

mod kitchen;
mod terminal;

use cordial::assess::{Part, Quantity, assess};
use cordial::matter::{Composition, Constituent, Crystals, Larder, Recipe, RecipeLine};
use cordial::models::water::{boiled_to, boiling_point, water_activity};
use cordial::piece::{FillingKind, Layer, Piece};
use cordial::report::check;
use cordial::units::{Band, BoilingWater, Checked, MassFraction, Temperature, Unit, WaterActivity, quantity::ratio};
use kitchen::line;
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, degrees, ended, paragraph, quantity, say};

type Result<T> = std::result::Result<T, Box<dyn Error>>;

const VALUED: &[&str] = &["--to", "--water", "--then", "--water-boils"];
const ROOM: f64 = 20.0;
const CARAMEL: &[&str] = &["sugar=250 g", "glucose-syrup-de42=320 g", "cream-36=400 g", "butter-82=80 g", "salt=4 g"];
const CRUST_HEADER: &str = "    boiled    sugar over what dissolves  crust            ethanol";
const JAM: &[&str] = &["raspberry-puree=500 g", "sugar=450 g", "pectin-powder=8 g"];

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<()> {
    let arguments = Arguments::read(&[], VALUED)?;
    let water: Temperature = arguments.quantity("--water-boils")?.unwrap_or(BoilingWater::nearest(100.0)).into();
    let unused = |option: &&&str| arguments.words.is_empty() && arguments.all(option).next().is_some();
    if let Some(option) = ["--to", "--water", "--then"].iter().find(unused) {
        return Err(format!("{option} is for a recipe of your own: name one, as in `sugar=740 g` `water=260 g`").into());
    }
    say!("Water boils at {} here. Put your thermometer into plain boiling water and say what it shows.\n", degrees(water));
    if arguments.words.is_empty() {
        let cooked = [112.0, 114.0, 116.0, 118.0, 120.0];
        pot("Caramel", &weighed(CARAMEL.iter().copied())?, &cooked, Some((0.12, 0.16)), water)?;
        pot("Jam", &weighed(JAM.iter().copied())?, &[104.0, 105.0, 106.0, 107.0, 108.0], None, water)?;
        crust(water)?;
        cautions();
        return Ok(());
    }
    let mix = weighed(arguments.words.iter().map(String::as_str))?;
    let to: Option<Temperature> = arguments.quantity("--to")?;
    let wanted: Option<MassFraction> = arguments.quantity("--water")?;
    let cooked = to.map_or_else(|| (1..=6).map(|step| water.celsius() + 4.0 * f64::from(step)).collect(), |to| vec![to.celsius()]);
    pot("Recipe", &mix, &cooked, wanted.map(|wanted| (wanted.base(), wanted.base())), water)?;
    let then = arguments.all("--then").map(spirit).collect::<Result<Vec<_>>>()?;
    if !then.is_empty() {
        let all: Vec<_> = mix.lines().iter().cloned().chain(then).collect();
        say!("With what goes in after cooking:\n{CRUST_HEADER}");
        for celsius in cooked {
            spirited(&all, Temperature::from_base(celsius)?, water)?;
        }
        say!();
    }
    cautions();
    Ok(())
}

/// What goes in after cooking: a line of spirit.
fn spirit(text: &str) -> Result<RecipeLine> {
    let line = line(text)?;
    if line.ingredient.composition.of(Constituent::Ethanol) <= 0.005 {
        return Err(format!("--then: `{}` holds no spirit: put it into the recipe, it is cooked along", line.ingredient.name).into());
    }
    Ok(line)
}

fn cautions() {
    let text = "Boiling sugar burns, and so does the vapour of spirit: blend that in off the flame. All this is estimated: weigh the pot \
                when it is done, and measure the water activity before you promise how long it keeps.";
    say!("{}", paragraph(text));
}

/// What stays in the pot at each temperature, and where the water that is wanted is left.
fn pot(name: &str, mix: &Recipe, cooked: &[f64], wanted: Option<(f64, f64)>, water_boils_at: Temperature) -> Result<()> {
    let lines: Vec<_> = mix.lines().iter().map(|line| format!("{} {}", line.mass.measure(Unit::Gram), line.ingredient.title)).collect();
    say!("{}", paragraph(&format!("{name}: {}; {:.0} g in the pot", lines.join(", "), 1000.0 * mix.charge())));
    for celsius in cooked {
        let at = Temperature::from_base(*celsius)?;
        let boiled = boiled_to(mix.composition(), at, water_boils_at)?;
        let kept = boiled.kept.map(|kept| kept.get::<ratio>());
        if kept.value > 1.0 {
            say!("  {}  it boils hotter than that from the start", degrees(at));
            continue;
        }
        let left = |kept: f64| mix.composition().boiled_down(MassFraction::nearest(kept));
        let water = kept.map(|kept| left(kept).map_or(0.0, |left| left.of(Constituent::Water)));
        let activity = water_activity(&left(kept.value)?, Some(Crystals::Dissolved), Temperature::nearest(ROOM))?.activity;
        let doubt = if boiled.in_range { "" } else { "; hotter than any boil compared" };
        say!(
            "  {}  {:.0} g left; {} water; cold, water activity {}{doubt}",
            degrees(at),
            1000.0 * kept.value * mix.charge(),
            per_cent(water),
            in_short(activity),
        );
    }
    if let Some((least, most)) = wanted {
        let ends =
            [most, least].map(|water| boils_with(mix.composition(), water, water_boils_at)).into_iter().collect::<Result<Vec<_>>>()?;
        let wanted =
            if least < most { format!("{:.0} to {:.0} %", 100.0 * least, 100.0 * most) } else { format!("{:.1} %", 100.0 * least) };
        let mut ends: Vec<_> = ends.into_iter().map(|end| format!("{end:.0}")).collect();
        ends.dedup();
        say!("  For {wanted} of water cook it to {} °C.", ends.join(" to "));
    }
    say!();
    Ok(())
}

/// Where a mix boils when it has so much water left.
fn boils_with(mix: &Composition, water: f64, water_boils_at: Temperature) -> Result<f64> {
    let kept = (1.0 - mix.of(Constituent::Water)) / (1.0 - water);
    let left = mix.boiled_down(MassFraction::from_base(kept).map_err(|_| "--water: the recipe holds less than that from the start")?)?;
    let boiling = boiling_point(&left, water_boils_at)?;
    if boiling.in_range {
        Ok(boiling.temperature.value.celsius())
    } else {
        Err("--water: so little is left by no boil that was compared".into())
    }
}

/// The syrup of a sugar crust, for a plain spirit and for a sweet liqueur, by a handbook's masses.
fn crust(water_boils_at: Temperature) -> Result<()> {
    say!("Syrup of a sugar crust: 740 g sugar and 260 g water boiled, then 300 g of spirit blended in gently");
    let larder = Larder::built_in();
    let syrup = weighed(["sugar=740 g", "water=260 g"].into_iter())?;
    let sweet = Recipe::new(
        vec![line("spirit-50=127 g")?, RecipeLine { ingredient: larder.get("sugar")?, mass: quantity("90 g")? }, line("water=83 g")?],
        None,
    )?;
    let sweet = cordial::matter::Ingredient::declared("liqueur", *sweet.composition());
    let sweet = RecipeLine { ingredient: std::sync::Arc::new(sweet), mass: quantity("300 g")? };
    for (what, spirit, cooked) in [
        ("a plain spirit of 40 %vol", line("spirit-40=300 g")?, [113.0, 117.0, 119.0, 123.0]),
        ("a liqueur of 20 %vol with 30 % sugar", sweet, [109.0, 113.0, 117.0, 119.0]),
    ] {
        say!("  With {what}:");
        say!("{CRUST_HEADER}");
        let lines: Vec<_> = syrup.lines().iter().cloned().chain([spirit]).collect();
        for celsius in cooked {
            spirited(&lines, Temperature::from_base(celsius)?, water_boils_at)?;
        }
    }
    let taken = "  Where water boils at 100 °C the handbook takes 119 °C, and makers 117 °C where the liquor is sweet. Two degrees move the crust by \
                 2 to 3 % of the mass.";
    say!("{}", paragraph(taken));
    let work = "Stir gently once the spirit is in, fill at 26 °C, leave it alone overnight: a knock sets off crystals all through.";
    say!("\n{}", paragraph(work));
    Ok(())
}

/// What a syrup with spirit in it comes to, and whether a crust would grow from it.
fn spirited(lines: &[RecipeLine], at: Temperature, water_boils_at: Temperature) -> Result<()> {
    let layer = Layer { crystals: Some(Crystals::Crust), ..Layer::named("syrup").with_kind(FillingKind::Liqueur) };
    let layer = layer.with_recipe(Recipe::new(lines.to_vec(), None)?).cooked_at(at, Some(water_boils_at))?;
    let mut piece = Piece { layers: vec![layer], ..Piece::default() };
    piece.workshop.water_boils_at = Some(water_boils_at);
    let assessment = assess(&piece);
    let syrup = assessment.part(Part::Layer(0)).ok_or("there is no layer")?;
    let known = |quantity: Quantity| syrup.get(quantity).known().map(|estimate| estimate.band);
    let ethanol = known(Quantity::Ethanol).map_or(0.0, |band| band.value);
    let Some(over) = known(Quantity::SucroseSupersaturation) else {
        say!("    {}  how much sugar stays dissolved is not known beside so much spirit", degrees(at));
        return Ok(());
    };
    let recipe = piece.layers.first().and_then(|layer| layer.recipe.as_ref());
    let sucrose = recipe.map_or(0.0, |recipe| recipe.composition().of(Constituent::Sucrose));
    let crust = over.map(|over| 100.0 * sucrose * (1.0 - 1.0 / over).max(0.0));
    let report = check(&piece)?;
    let verdict = match report.of("crust-syrup-off").next() {
        Some(finding) if finding.counts() && over.value < 1.5 => "too weak: no crust closes",
        Some(finding) if finding.counts() => "too strong: it may set right through",
        _ if over.value < 1.25 => "lean: a thin crust, late",
        _ if over.value > 1.5 => "rich: thick crust, little liqueur",
        _ => "like the handbook's syrup",
    };
    say!(
        "    {:<8}  {:<25}  {:<15}  {:>5.1} %  {verdict}",
        degrees(at),
        format!("{:.2} times ({:.2} to {:.2})", over.value, over.low, over.high),
        format!("{:.0} % ({:.0} to {:.0})", crust.value, crust.low, crust.high),
        100.0 * ethanol
    );
    Ok(())
}

fn weighed<'t>(lines: impl Iterator<Item = &'t str>) -> Result<Recipe> {
    Ok(Recipe::new(lines.map(line).collect::<Result<_>>()?, None)?)
}

/// A water activity with its band.
fn in_short(activity: Band<WaterActivity>) -> String {
    let Band { value, low, high } = activity.map(Checked::base);
    if low > 0.0 { format!("{value:.2} ({low:.2} to {high:.2})") } else { format!("below {high:.2}") }
}

fn per_cent(share: Band<f64>) -> String {
    let Band { value, low, high } = share.map(|share| 100.0 * share);
    format!("{value:.1} % ({low:.0} to {high:.0})")
}
