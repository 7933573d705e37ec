//! The water activity of fillings: how sure it is, what holds the water, and what could grow.
//!
//! ```text
//! cargo run --release --example water_activity -- "cream-35=250 g" "dark-couverture-64=480 g" [--cooked-to "700 g"]
//! cargo run --release --example water_activity -- examples/data/winter-box.toml
//! cargo run --release --example water_activity -- --table examples/data/samples.csv
//! ```
//!
//! `--at "25 Cel"` sets the temperature, `--crystals dissolved` the state of the sugar. Without arguments: the layers of the winter box.
//!
//! A table has a column for each constituent, `w_` and its key, in mass fractions: `w_water`, `w_sucrose`, `w_fat_free_cocoa`; also `id`,
//! `temperature_C` (25 where it is blank) and `crystals`. Out comes a table of `id, aw, low, high, note`.
//!
//! Exit code 0, or 2 if the input cannot be used, and standard error says why.

mod kitchen;
mod terminal;

use cordial::matter::{Composition, Constituent, Known};
use cordial::models::growth::{
    Harm, ORGANISMS, Organism, Reach, TimeTemperatureControl, Treatment, can_grow, mould_free, shelf_life_class, time_temperature_control,
};
use cordial::models::water::{SugarCrystal, WaterBalance, WaterBalanceError, supersaturation, water_activity};
use cordial::units::{
    Band, Checked, MassFraction, Ph, Temperature, WaterActivity,
    quantity::{ratio, second},
};
use kitchen::{Filling, fillings, spoken};
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, degrees, ended, paragraph, read, say};

fn main() -> ExitCode {
    let run = || -> Result<(), Box<dyn Error>> {
        let arguments = Arguments::read(&[], &["--table", "--cooked-to", "--at", "--crystals"])?;
        match arguments.all("--table").last() {
            Some(file) => table::print(&read(file)?, &arguments).map_err(|error| format!("{file}: {error}").into()),
            None => fillings(&arguments)?.iter().try_for_each(tell),
        }
    };
    ended(run())
}

fn tell(filling: &Filling) -> Result<(), Box<dyn Error>> {
    let composition = filling.recipe.composition();
    say!("{}", filling.name);
    let per_cent = |fraction: f64| format!("{:.1} %", 100.0 * fraction);
    let [water, fat, sweeteners] = [composition.of(Constituent::Water), composition.fat(), composition.sweeteners()].map(per_cent);
    say!("  {:.0} g: {water} water, {fat} fat, {sweeteners} sugars and polyols", 1000.0 * filling.recipe.yielded());
    let balance = match water_activity(composition, filling.crystals, filling.temperature) {
        Ok(balance) => balance,
        Err(error) => {
            say!("  No water activity: {error}.\n");
            return Ok(());
        }
    };
    let (activity, at) = (spoken(balance.activity), degrees(filling.temperature));
    say!("{}", paragraph(&format!("  Water activity {activity} at {at}; estimated, so measure before you rely on it.")));
    if !balance.in_range {
        say!("  This lies outside what the model was tested on: it may be farther off than that.");
    }
    if let Some(note) = beyond_range(&balance) {
        say!("{}", paragraph(&format!("  More concentrated than was ever measured, which widens the band: {note}.")));
    }
    if let Some(reported) = filling.measured.water_activity {
        say!("  Measured: {:.3}. That counts for more than the estimate.", reported.value.base());
    }
    let recalled: Vec<_> = filling.recipe.lines().iter().filter(|line| line.ingredient.known == Known::Memory).collect();
    if !recalled.is_empty() {
        let names: Vec<_> = recalled.iter().map(|line| line.ingredient.name.as_str()).collect();
        let names = names.join(", ");
        say!("{}", paragraph(&format!("  What these are made of is recalled, so compare it with the maker's sheet: {names}.")));
    }
    print_holdings(&balance, composition);
    print_crystals(filling, composition)?;
    print_keeping(filling, composition, balance.activity)?;
    say!();
    Ok(())
}

/// The solutes whose isotherms no measurement covers as concentrated as they are here.
fn beyond_range(balance: &WaterBalance) -> Option<String> {
    let words: Vec<_> = balance.beyond_range().map(Constituent::words).collect();
    (!words.is_empty()).then(|| words.join(", "))
}

fn print_holdings(balance: &WaterBalance, composition: &Composition) {
    // Traces are left out.
    let counts = |water: f64, crystals: f64| water > 0.001 * composition.of(Constituent::Water) || crystals > 0.001;
    let mut holdings: Vec<_> = balance.holdings().filter(|(_, holding)| counts(holding.water, holding.crystalline)).collect();
    holdings.sort_by(|(_, one), (_, two)| two.water.total_cmp(&one.water));
    say!("\n    {:28} {:>9} {:>9} {:>9} {:>11}", "what holds the water", "there is", "dissolved", "crystals", "holds water");
    for (constituent, holding) in holdings {
        let cell = |fraction: f64| if fraction > 0.0 { format!("{:.1} %", 100.0 * fraction) } else { String::new() };
        let share = format!("{:.1} %", 100.0 * holding.water / composition.of(Constituent::Water));
        let there_is = cell(composition.of(constituent));
        say!("    {:28} {there_is:>9} {:>9} {:>9} {share:>11}", constituent.words(), cell(holding.dissolved), cell(holding.crystalline));
    }
    say!();
}

fn print_crystals(filling: &Filling, composition: &Composition) -> Result<(), WaterBalanceError> {
    for crystal in SugarCrystal::ALL {
        let found = supersaturation(composition, *crystal, filling.temperature)?;
        let times = found.ratio.value.get::<ratio>();
        if times > 1.0 {
            let unsure = if found.in_range { "" } else { " (outside what the model was tested on)" };
            let sugar = crystal.constituent().words();
            say!("  With all sugar dissolved it is {times:.2} times saturated with {sugar}{unsure}: it can grain.");
        }
    }
    Ok(())
}

/// What could grow, and how long such fillings keep: the spirit, which leaves and is no hurdle to count on, left out.
fn print_keeping(filling: &Filling, composition: &Composition, activity: Band<WaterActivity>) -> Result<(), WaterBalanceError> {
    let reported =
        filling.measured.water_activity.map(|reported| Band::normal(reported.value.base(), reported.uncertainty.unwrap_or(0.01)));
    let activity = match (composition.of(Constituent::Ethanol) > 0.0).then(|| composition.without_ethanol()).flatten() {
        Some(sober) if sober.of(Constituent::Water) > 0.0 => {
            let activity = water_activity(&sober, filling.crystals, filling.temperature)?.activity;
            say!("  Without its ethanol it would be {}; growth is told for that.", spoken(activity));
            activity
        }
        _ => reported.map_or(activity, |band| band.map(WaterActivity::nearest)),
    };
    let ph = filling.measured.ph.map(|reported| reported.value);
    print_growth(activity, ph);
    let class = shelf_life_class(activity.value);
    let keeps = match [class.at_least(), class.at_most()].map(|time| time.map(|time| time.get::<second>() / 86_400.0)) {
        [Some(least), Some(most)] => format!("{least:.0} to {most:.0} days"),
        [Some(least), None] => format!("{least:.0} days and more"),
        [None, Some(most)] => format!("{most:.0} days at most"),
        [None, None] => "unknown".into(),
    };
    let known = cordial::units::Choice::key(class.known);
    let usual = format!("  Class {} ({}): such fillings usually keep {keeps} ({}; {known}).", class.letter, class.name, class.source);
    say!("{}", paragraph(&usual));
    let mould = mould_free(activity.value, filling.temperature);
    let Band { low, high, .. } = mould.time.map(|time| time.get::<second>() / 86_400.0);
    match mould.reach {
        Reach::Within => say!("  Cakes like that stayed free of mould for {low:.0} to {high:.0} days; fillings were not tried."),
        Reach::AtLeast => {
            say!("  Cakes wetter or warmer than that stayed free of mould for {low:.0} to {high:.0} days; fillings were not tried.")
        }
        Reach::AtMost => {
            say!("  Cakes drier or colder than that stayed free of mould for {low:.0} to {high:.0} days; fillings were not tried.")
        }
        Reach::Unknown => say!("  Nothing was measured that would tell how long it stays free of mould."),
    }
    Ok(())
}

/// The limits of growth next to a water activity, those inside its band, and what makes people ill.
fn print_growth(activity: Band<WaterActivity>, ph: Option<Ph>) {
    let at_most = |ceiling: WaterActivity| can_grow(ceiling, ph).collect::<Vec<_>>();
    let kept_out: Vec<_> = ORGANISMS.iter().filter(|organism| organism.least_activity() > activity.value).collect();
    let first = |found: Vec<&Organism>| nearest(activity.value, found).first().map_or("nothing".into(), |organism| named(organism));
    let (grows, kept_out) = (first(at_most(activity.value)), first(kept_out));
    say!("{}", paragraph(&format!("  Nearest limits of growth: {grows} can grow, {kept_out} can not.")));
    let mut undecided = at_most(activity.high);
    undecided.retain(|organism| organism.least_activity() > activity.low);
    if !undecided.is_empty() {
        say!("{}", listed("Inside the band, so that only a measurement decides", &nearest(activity.value, undecided)));
    }
    let mut ill = at_most(activity.high);
    ill.retain(|organism| organism.harm != Harm::Spoiler);
    if ill.is_empty() {
        say!("  Nothing that makes people ill grows in it, not even at the upper end.");
    } else {
        let acid = if ph.is_some() { "" } else { " (its pH is not known)" };
        say!("{}", listed(&format!("What can make people ill at the upper end{acid}"), &nearest(activity.value, ill)));
    }
    if time_temperature_control(activity.high, ph, Treatment::Other) == TimeTemperatureControl::UnlessAssessed {
        let cold = "  At the upper end it must be kept cold by the tables of the US Food Code, unless an assessment clears it.";
        say!("{}", paragraph(cold));
    }
}

/// The organisms whose limits lie nearest first.
fn nearest(activity: WaterActivity, mut organisms: Vec<&Organism>) -> Vec<&Organism> {
    let distance = |organism: &&Organism| (organism.least_activity().base() - activity.base()).abs();
    organisms.sort_by(|one, two| distance(one).total_cmp(&distance(two)));
    organisms
}

fn named(organism: &Organism) -> String {
    format!("{} ({})", organism.name, organism.least_activity().base())
}

/// The first few of them in a sentence.
fn listed(what: &str, organisms: &[&Organism]) -> String {
    const SHOWN: usize = 5;
    let names: Vec<_> = organisms.iter().take(SHOWN).map(|organism| named(organism)).collect();
    let more = organisms.len().saturating_sub(SHOWN);
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    paragraph(&format!("  {what}: {}{more}.", names.join(", ")))
}

/// Many samples at once.
mod table {
    use super::*;
    use cordial::matter::Crystals;
    use csv::{ReaderBuilder, StringRecord, Writer};

    /// What a column holds.
    #[derive(Clone, Copy)]
    enum Column {
        Id,
        Temperature,
        Crystals,
        Fraction(Constituent),
        /// A substance without an isotherm.
        NotModelled,
        /// Of no consequence here.
        Context,
    }

    const CONTEXT: &[&str] = &["system", "cls", "aw", "aw_lo", "aw_hi", "quality", "source", "how_known", "note"];
    const NOT_MODELLED: &[&str] = &["w_cacl2", "w_k2co3", "w_na3citrate"];
    /// Laboratories' names of constituents; minerals count as potassium chloride.
    const OTHER_NAMES: &[(&str, Constituent)] = &[
        ("w_citric_acid", Constituent::Acid),
        ("w_nacl", Constituent::Salt),
        ("w_kcl", Constituent::Minerals),
        ("w_other", Constituent::Unidentified),
    ];
    const ISOTHERMS_AT: f64 = 25.0;

    pub fn print(text: &str, arguments: &Arguments) -> Result<(), Box<dyn Error>> {
        // Spreadsheets of countries with a decimal comma separate by semicolons.
        let semicolons = text.lines().next().is_some_and(|header| header.contains(';') && !header.contains(','));
        let separator = if semicolons { b';' } else { b',' };
        let mut reader = ReaderBuilder::new().delimiter(separator).flexible(true).trim(csv::Trim::All).from_reader(text.as_bytes());
        let columns: Vec<_> = reader.headers()?.iter().map(column).collect::<Result<_, _>>()?;
        if !columns.iter().any(|column| matches!(column, Column::Fraction(Constituent::Water))) {
            return Err("there is no column `w_water`".into());
        }
        let defaults = Sample {
            id: String::new(),
            crystals: arguments.choice("--crystals")?,
            temperature: arguments.quantity("--at")?.unwrap_or(Temperature::nearest(ISOTHERMS_AT)),
            fractions: Vec::new(),
        };
        let mut writer = Writer::from_writer(std::io::stdout().lock());
        writer.write_record(["id", "aw", "low", "high", "note"])?;
        for (index, record) in reader.records().enumerate() {
            let record = record?;
            let mut sample = Sample { id: format!("row {}", index + 1), fractions: Vec::new(), ..defaults };
            let found = sample.read(&columns, &record, semicolons).and_then(|()| sample.activity());
            let (aw, low, high, note) = match found {
                Ok(found) => {
                    let [aw, low, high] =
                        [found.band.value, found.band.low, found.band.high].map(|activity| format!("{:.4}", activity.base()));
                    (aw, low, high, found.note)
                }
                Err(note) => (String::new(), String::new(), String::new(), note),
            };
            writer.write_record([sample.id, aw, low, high, note])?;
        }
        Ok(writer.flush()?)
    }

    fn column(header: &str) -> Result<Column, String> {
        let other_name = OTHER_NAMES.iter().find(|(name, _)| *name == header).map(|(_, constituent)| *constituent);
        let constituent = || Constituent::from_key(&header.strip_prefix("w_")?.replace('_', "-"));
        match header {
            "id" => Ok(Column::Id),
            "temperature_C" => Ok(Column::Temperature),
            "crystals" => Ok(Column::Crystals),
            context if CONTEXT.contains(&context) => Ok(Column::Context),
            salt if NOT_MODELLED.contains(&salt) => Ok(Column::NotModelled),
            _ => other_name.or_else(constituent).map(Column::Fraction).ok_or_else(|| unknown(header)),
        }
    }

    fn unknown(header: &str) -> String {
        let names: Vec<_> = Constituent::ALL.iter().map(|constituent| format!("w_{}", constituent.key().replace('-', "_"))).collect();
        let likeness = |name: &&String| strsim::jaro_winkler(header, name);
        let nearest = names.iter().max_by(|one, two| likeness(one).total_cmp(&likeness(two))).filter(|name| likeness(name) > 0.85);
        let meant = nearest.map_or(String::new(), |name| format!(" Did you mean `{name}`?"));
        format!("the column `{header}` is not known here: there are `id`, `temperature_C`, `crystals` and {}.{meant}", names.join(", "))
    }

    struct Sample {
        id: String,
        temperature: Temperature,
        crystals: Option<Crystals>,
        fractions: Vec<(Constituent, MassFraction)>,
    }

    struct Found {
        band: Band<WaterActivity>,
        note: String,
    }

    impl Sample {
        /// Reads a row; what is wrong with it otherwise.
        fn read(&mut self, columns: &[Column], record: &StringRecord, decimal_comma: bool) -> Result<(), String> {
            let cells = || columns.iter().zip(record).filter(|(_, cell)| !cell.is_empty());
            // The name comes first, so that every note has one.
            if let Some((_, id)) = cells().find(|(column, _)| matches!(column, Column::Id)) {
                self.id = id.to_owned();
            }
            if record.len() != columns.len() {
                return Err(format!("the row has {} cells, the header {}", record.len(), columns.len()));
            }
            for (column, cell) in cells() {
                let number = || {
                    let text = if decimal_comma { cell.replace(',', ".") } else { cell.to_owned() };
                    text.parse::<f64>().map_err(|_| format!("`{cell}` is not a number"))
                };
                match column {
                    Column::Temperature => self.temperature = Temperature::from_base(number()?).map_err(|error| error.to_string())?,
                    Column::Crystals => self.crystals = Some(terminal::choice(cell)?),
                    Column::Fraction(constituent) => {
                        let fraction = MassFraction::from_base(number()?).map_err(|error| format!("{}: {error}", constituent.words()))?;
                        self.fractions.push((*constituent, fraction));
                    }
                    Column::NotModelled if number()?.abs() > 0.0 => return Err("it holds a salt that is not modelled".into()),
                    Column::Id | Column::NotModelled | Column::Context => {}
                }
            }
            Ok(())
        }

        fn activity(&self) -> Result<Found, String> {
            if self.fractions.iter().all(|(_, fraction)| fraction.base() <= 0.0) {
                return Err("no composition".into());
            }
            let composition = Composition::new(self.fractions.iter().copied()).map_err(|error| error.to_string())?;
            let balance = water_activity(&composition, self.crystals, self.temperature).map_err(|error| error.to_string())?;
            let mut notes = Vec::new();
            if !balance.in_range {
                notes.push("outside what the model was tested on".to_owned());
            }
            notes.extend(beyond_range(&balance).map(|solutes| format!("beyond what was measured: {solutes}")));
            notes.extend(
                balance
                    .holdings()
                    .filter(|(_, holding)| holding.crystalline > 0.0)
                    .map(|(constituent, holding)| format!("{:.1} % of it {} crystals", 100.0 * holding.crystalline, constituent.words())),
            );
            Ok(Found { band: balance.activity, note: notes.join("; ") })
        }
    }
}
