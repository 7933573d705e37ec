//! How to reach a water activity: one ingredient more or less, something added, or water boiled off, or two of these; the least change first.
//!
//! ```text
//! cargo run --release --example reach_an_activity -- [FILE | "cream-35=250 g" ...] [--layer NAME] [--target 0.85] [--estimate | --assured]
//!     [--keep cream-35 --keep house-dark] [--measured 0.86 [--uncertainty 0.005]] [--cooked-to "700 g"] [--at "20 Cel"] [--crystals dissolved]
//! ```
//!
//! By default the plain cardamom ganache of the winter box is brought to 0.85 at the moist end of the 95 % band (`--assured`); `--estimate` aims
//! at the value itself. `--keep` names what must stay as it is. `--measured` is what a meter said of the recipe as it stands: the changed ones
//! are then told from that. Costs are left open: multiply each change by your price.
//!
//! Exit code 0, or 2 if the input cannot be used, and standard error says why.

mod kitchen;
mod terminal;

use cordial::matter::{Composition, Constituent, Larder, Recipe, RecipeLine};
use cordial::models::water::{MeasuredBatch, SugarCrystal, WaterBalanceError, supersaturation, water_activity};
use cordial::units::{Band, Checked, Portion, WaterActivity, quantity::ratio};
use kitchen::{Filling, fillings, spoken};
use roots::{SimpleConvergency, find_root_brent};
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, ended, paragraph, say};

const FLAGS: &[&str] = &["--estimate", "--assured"];
const VALUED: &[&str] = &["--layer", "--target", "--keep", "--measured", "--uncertainty", "--cooked-to", "--at", "--crystals"];
const DEFAULT_LAYER: &str = "plain ganache";
/// How much of its water a filling may lose at the boil; a choice of this example.
const BOILS_AT_MOST: f64 = 0.5;
/// So many single changes are enough to choose from.
const ENOUGH: usize = 4;
/// So many options are shown.
const SHOWN: usize = 8;
/// A good meter, where nothing else is said.
const METER: f64 = 0.01;

/// What may be added, and how much of it the batch may get: by taste, by law and by texture; a choice of this example.
const ADDITIONS: &[(&str, f64)] = &[
    ("water", 0.25),
    ("sugar", 0.30),
    ("dextrose-monohydrate", 0.25),
    ("fructose", 0.20),
    ("invert-sugar-78", 0.30),
    ("glucose-syrup-de60", 0.30),
    ("trehalose-dihydrate", 0.20),
    ("maltitol-powder", 0.10),
    ("sorbitol-powder", 0.10),
    ("xylitol", 0.10),
    ("glycerol-99", 0.05),
    ("salt", 0.005),
];

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(FLAGS, VALUED)?;
    let filling = chosen(&arguments)?;
    let goal = Goal::of(&filling, &arguments)?;
    let kept: Vec<_> = arguments.all("--keep").collect();
    let used = |name: &str| {
        let mut lines = filling.recipe.lines().iter();
        lines.any(|line| line.ingredient.name == name) || ADDITIONS.iter().any(|(addition, _)| *addition == name)
    };
    if let Some(name) = kept.iter().find(|name| !used(name)) {
        return Err(format!("--keep {name}: neither in the recipe nor among what may be added").into());
    }
    let now = Outcome::of(&filling, &goal, &filling.recipe).map_err(|error| format!("{}: {error}", filling.name))?;
    say!(
        "{}\n  Water activity {}{}.",
        filling.name,
        spoken(now.activity),
        if now.in_range { "" } else { " (outside what the model was tested on)" }
    );
    if let Some(batch) = &goal.measured {
        let offset = batch.offset();
        let per_kilogram = 1000.0 * offset.solids.get::<ratio>();
        say!("  To meet the measurement, the model lets sorbing solids hold {per_kilogram:+.0} g more water per kg, and what is dissolved");
        say!(
            "  lower ln a by {:+.1} % more. The farther a recipe moves from the measured one, the less this counts.",
            100.0 * offset.solution.get::<ratio>()
        );
    }
    say!("  Wanted: {:.3} {}. As sweet as {:.1} % of sucrose.\n", goal.target, goal.words(), 100.0 * now.sweetness);
    let turns = turns(&filling, &kept)?;
    let reaching = |turns: Vec<&Turn>| Course { turns }.reaching(&filling, &goal);
    let alone: Vec<_> = turns.iter().map(|turn| (turn, reaching(vec![turn]))).collect();
    let mut pairs = Vec::new();
    if alone.iter().filter(|(_, found)| found.is_some()).count() < ENOUGH {
        say!("Few single changes get there, so here are pairs too.\n");
        for (index, (one, by_one)) in alone.iter().enumerate() {
            for (two, by_two) in alone.iter().skip(index + 1).filter(|(two, _)| !one.is_of_one_thing_with(two)) {
                // A pair is no help where one of it gets there with less.
                let helps = |pair: &Change| [by_one, by_two].into_iter().flatten().all(|single| pair.size < single.size);
                pairs.extend(reaching(vec![one, two]).filter(helps));
            }
        }
    }
    let mut options: Vec<Change> = alone.into_iter().filter_map(|(_, found)| found).chain(pairs).collect();
    options.sort_by(|one, two| one.size.total_cmp(&two.size));
    for (index, option) in options.iter().take(SHOWN).enumerate() {
        say!("{}", paragraph(&format!("{:2}. {} ({:.1} % of the batch)", index + 1, option.words, 100.0 * option.size)));
        Outcome::of(&filling, &goal, &option.recipe)?.tell(&now);
    }
    match options.len() {
        0 => say!("Nothing reaches it within the limits: move the target, or keep less as it is."),
        some if some > SHOWN => say!("{} more ways need larger changes.", some - SHOWN),
        _ => {}
    }
    let open = "All this is estimated: make a small batch and measure it before you promise how long it keeps, and see that what is added does not \
                bring an allergen. Costs are left open: multiply each change by your price. Relative sweetness is recalled, and taste decides.";
    say!("{}", paragraph(open));
    Ok(())
}

/// The one filling that is meant.
fn chosen(arguments: &Arguments) -> Result<Filling, Box<dyn Error>> {
    let mut all = fillings(arguments)?;
    let wanted = arguments.all("--layer").last().or_else(|| arguments.words.is_empty().then_some(DEFAULT_LAYER));
    let names = |fillings: &[Filling]| fillings.iter().map(|filling| filling.name.as_str()).collect::<Vec<_>>().join("\n  ");
    let every = names(&all);
    match wanted {
        Some(layer) => all.retain(|filling| filling.name.contains(layer)),
        None if all.len() > 1 => return Err(format!("name one layer with --layer:\n  {every}").into()),
        None => {}
    }
    if all.len() > 1 {
        return Err(format!("--layer fits several: name more of one of\n  {}", names(&all)).into());
    }
    all.pop().ok_or_else(|| format!("no layer is called so; there are\n  {every}").into())
}

/// The activity that is wanted, and what is held against it.
struct Goal {
    target: f64,
    assured: bool,
    measured: Option<MeasuredBatch>,
}

impl Goal {
    fn of(filling: &Filling, arguments: &Arguments) -> Result<Self, Box<dyn Error>> {
        let target = arguments.quantity::<WaterActivity>("--target")?.map_or(0.85, Checked::base);
        let given = arguments.quantity::<WaterActivity>("--measured")?.map(Checked::base);
        let reported = filling.measured.water_activity;
        let value = given.or(reported.map(|reported| reported.value.base()));
        let stated = arguments.quantity::<WaterActivity>("--uncertainty")?.map(Checked::base);
        let uncertainty = stated.or(reported.and_then(|reported| reported.uncertainty)).unwrap_or(METER);
        let batch = |value| {
            let band = Band::normal(value, uncertainty).map(WaterActivity::nearest);
            MeasuredBatch::new(filling.recipe.composition(), filling.crystals, filling.temperature, band)
        };
        let [estimate, assured] = ["--estimate", "--assured"].map(|flag| arguments.all(flag).next().is_some());
        if estimate && assured {
            return Err("--estimate and --assured exclude each other".into());
        }
        Ok(Self { target, assured: !estimate, measured: value.map(batch).transpose()? })
    }

    fn words(&self) -> &'static str {
        if self.assured { "at the moist end of the band" } else { "as the estimate" }
    }

    /// The water activity of a recipe, and whether it lies where the model was tested.
    fn activity(&self, filling: &Filling, composition: &Composition) -> Result<(Band<WaterActivity>, bool), WaterBalanceError> {
        match &self.measured {
            Some(batch) => batch.predict(composition).map(|found| (found.activity, found.in_range)),
            None => water_activity(composition, filling.crystals, filling.temperature).map(|found| (found.activity, found.in_range)),
        }
    }

    /// How much too moist a recipe is.
    fn excess(&self, filling: &Filling, recipe: &Recipe) -> Option<f64> {
        let (activity, _) = self.activity(filling, recipe.composition()).ok()?;
        Some(if self.assured { activity.high } else { activity.value }.base() - self.target)
    }
}

/// One thing to turn, one way.
struct Turn {
    kind: Kind,
    from: f64,
    /// How far it may be turned, kilograms.
    end: f64,
}

enum Kind {
    /// A line of the recipe.
    Line(usize, String),
    /// A new line; its mass is not used.
    Addition(RecipeLine),
    /// What is weighed after boiling.
    Boiling,
}

fn turns(filling: &Filling, kept: &[&str]) -> Result<Vec<Turn>, Box<dyn Error>> {
    let recipe = &filling.recipe;
    let (charge, yielded) = (recipe.charge(), recipe.yielded());
    let mut found = Vec::new();
    for (index, line) in recipe.lines().iter().enumerate() {
        let (name, from) = (&line.ingredient.name, line.mass.base());
        if !kept.contains(&name.as_str()) {
            let most = ADDITIONS.iter().find(|(addition, _)| addition == name).map_or(0.0, |(_, share)| yielded * share);
            found.extend([0.0, most.max(2.0 * from)].map(|end| Turn { kind: Kind::Line(index, name.clone()), from, end }));
        }
    }
    for (name, share) in ADDITIONS {
        if !kept.contains(name) && !recipe.lines().iter().any(|line| line.ingredient.name == *name) {
            let line = RecipeLine { ingredient: Larder::built_in().get(name)?, mass: Portion::nearest(0.0) };
            found.push(Turn { kind: Kind::Addition(line), from: 0.0, end: yielded * share / (1.0 - share) });
        }
    }
    // Spirit would boil off with the water.
    let composition = recipe.composition();
    if composition.of(Constituent::Ethanol) <= 0.0 {
        let ends = [yielded * (1.0 - BOILS_AT_MOST * composition.of(Constituent::Water)), charge];
        found.extend(ends.map(|end| Turn { kind: Kind::Boiling, from: yielded, end }));
    }
    found.retain(|turn| (turn.end - turn.from).abs() > 1e-9);
    Ok(found)
}

impl Turn {
    /// How much more there is of it, part of the way to its end.
    fn by(&self, way: f64) -> f64 {
        (self.end - self.from) * way
    }

    /// The recipe with so much more of it. Whatever goes in, as much water boils off as before.
    fn applied(&self, recipe: &Recipe, more: f64) -> Option<Recipe> {
        let changed = |mass: f64| Portion::from_base(mass + more).ok();
        let mut lines = recipe.lines().to_vec();
        match &self.kind {
            Kind::Boiling => return recipe.with_cooked_to(changed(recipe.yielded())?).ok(),
            Kind::Line(index, _) => lines.get_mut(*index)?.mass = changed(self.from)?,
            Kind::Addition(line) => lines.push(RecipeLine { mass: changed(0.0)?, ..line.clone() }),
        }
        let cooked_to = match recipe.cooked_to() {
            Some(cooked) => Some(changed(cooked.base())?),
            None => None,
        };
        Recipe::new(lines, cooked_to).ok()
    }

    fn is_of_one_thing_with(&self, other: &Self) -> bool {
        match (&self.kind, &other.kind) {
            (Kind::Line(one, _), Kind::Line(other, _)) => one == other,
            (Kind::Boiling, Kind::Boiling) => true,
            _ => false,
        }
    }

    fn words(&self, more: f64, scale: f64) -> String {
        let places = usize::from(scale < 1e-3);
        let grams = |mass: f64| format!("{:.places$} g", 1000.0 * mass);
        match &self.kind {
            Kind::Boiling if more < 0.0 => format!("boil off {} more, before what must not boil goes in", grams(-more)),
            Kind::Boiling => format!("boil off {} less", grams(more)),
            Kind::Addition(line) => format!("add {} of {}", grams(more), line.ingredient.name),
            Kind::Line(_, name) => {
                let way = if more > 0.0 { "more" } else { "less" };
                format!("{way} {name}, {} instead of {}", grams(self.from + more), grams(self.from))
            }
        }
    }
}

/// Turns that go the same share of their way.
struct Course<'a> {
    turns: Vec<&'a Turn>,
}

/// A recipe that reaches the goal.
struct Change {
    recipe: Recipe,
    words: String,
    /// What is moved, of the batch.
    size: f64,
}

impl Course<'_> {
    /// The recipe with so much more of each.
    fn applied(&self, recipe: &Recipe, more: impl Fn(&Turn) -> f64) -> Option<Recipe> {
        self.turns.iter().try_fold(recipe.clone(), |recipe, turn| turn.applied(&recipe, more(turn)))
    }

    /// The recipe that reaches the goal soonest, in whole steps of a scale.
    fn reaching(&self, filling: &Filling, goal: &Goal) -> Option<Change> {
        const STEPS: i32 = 60;
        let recipe = &filling.recipe;
        let excess = |way: f64| goal.excess(filling, &self.applied(recipe, |turn| turn.by(way))?);
        let start = excess(0.0)?;
        // Finer near where it stands; the very end may be without water.
        let at = |step: i32| 0.9999 * (f64::from(step) / f64::from(STEPS)).powi(2);
        let met = (1..=STEPS).find(|step| excess(at(*step)).is_some_and(|found| found * start <= 0.0))?;
        let mut convergency = SimpleConvergency { eps: 1e-9, max_iter: 200 };
        let way = find_root_brent(at(met - 1), at(met), |way| excess(way).unwrap_or(start), &mut convergency).ok()?;
        let scale = division(recipe);
        let weighed = |turn: &Turn| {
            let (steps, most) = (turn.by(way) / scale, turn.by(1.0));
            (scale * steps.abs().ceil()).min(most.abs()).copysign(most)
        };
        let changed = self.applied(recipe, weighed)?;
        let words: Vec<_> = self.turns.iter().map(|turn| turn.words(weighed(turn), scale)).collect();
        let moved: f64 = self.turns.iter().map(|turn| weighed(turn).abs()).sum();
        let grams = |mass: f64| format!("{:.0} g", 1000.0 * mass);
        let batch = format!("batch {} instead of {}", grams(changed.yielded()), grams(recipe.yielded()));
        Some(Change { words: format!("{}; {batch}", words.join(", and ")), size: moved / recipe.yielded(), recipe: changed })
    }
}

/// A fine step of a scale that suits a batch: 0.1 g for 100 g to 1 kg.
fn division(recipe: &Recipe) -> f64 {
    10.0_f64.powf((recipe.charge() * 1e-4).log10().ceil()).min(1e-3)
}

/// What becomes of a recipe.
struct Outcome {
    activity: Band<WaterActivity>,
    in_range: bool,
    /// Sucrose that would sweeten as much, of the whole.
    sweetness: f64,
    /// Times it is saturated with each sugar, all of it dissolved.
    saturated: Vec<(&'static str, f64)>,
}

impl Outcome {
    fn of(filling: &Filling, goal: &Goal, recipe: &Recipe) -> Result<Self, WaterBalanceError> {
        let composition = recipe.composition();
        let (activity, in_range) = goal.activity(filling, composition)?;
        let saturated = |crystal: &SugarCrystal| -> Result<_, WaterBalanceError> {
            let found = supersaturation(composition, *crystal, filling.temperature)?;
            Ok((crystal.constituent().words(), found.ratio.value.get::<ratio>()))
        };
        Ok(Self {
            activity,
            in_range,
            sweetness: composition.parts().map(|(constituent, fraction)| fraction * relative_sweetness(constituent)).sum(),
            saturated: SugarCrystal::ALL.iter().map(saturated).collect::<Result<_, _>>()?,
        })
    }

    fn tell(&self, before: &Self) {
        let unsure = if self.in_range { "" } else { " (outside what the model was tested on)" };
        say!("      water activity {}{unsure}", spoken(self.activity));
        say!("      as sweet as {:.1} % of sucrose, {:.1} % before", 100.0 * self.sweetness, 100.0 * before.sweetness);
        for ((sugar, times), (_, times_before)) in self.saturated.iter().zip(&before.saturated) {
            if *times > 1.0 && times > times_before {
                say!("      {times:.2} times saturated with {sugar}, {times_before:.2} before: it would grain");
            } else if *times > 1.0 {
                say!("      {times:.2} times saturated with {sugar}, {times_before:.2} before: it can still grain");
            }
        }
    }
}

/// Sweetness of a gram over that of sucrose, in watery solution: round figures of the trade, all from memory; books differ by a fifth. Glucose
/// syrups follow from their saccharides. Milk chocolate's sugars of unknown shares count as sucrose, so that they are at most as sweet.
fn relative_sweetness(constituent: Constituent) -> f64 {
    match constituent {
        Constituent::Sucrose | Constituent::UnsplitSugars | Constituent::UnsplitMilkSugars | Constituent::Xylitol => 1.0,
        Constituent::Fructose => 1.2,
        Constituent::Maltitol => 0.9,
        Constituent::Glucose => 0.7,
        Constituent::Sorbitol | Constituent::Glycerol => 0.6,
        Constituent::Mannitol => 0.5,
        Constituent::Trehalose => 0.45,
        Constituent::Maltose => 0.4,
        Constituent::Galactose | Constituent::Trisaccharides => 0.3,
        Constituent::Lactose => 0.2,
        _ => 0.0,
    }
}
