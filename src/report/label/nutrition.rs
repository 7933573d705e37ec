//! Nutrition, estimated from the composition: per 100 g in the EU, per serving with daily values in the US, elsewhere what is listed, not rounded.

mod content;

use super::Line;
use super::ingredients::percent;
use super::makeup::Makeup;
use super::subject::Subject;
use crate::law::labelling::{self, LabelRow, LabelRule};
use crate::law::nutrition::{DailyValues, Energetic, Factors, Listed, Nutrient, Rounded, Rounding, salt};
use crate::matter::Market;
use crate::units::Band;
use content::{Content, Told};

/// A nutrition declaration.
#[derive(Debug, Clone, PartialEq)]
pub struct Nutrition {
    /// What it is for: `100 g`, `serving of 3 pieces (29 g)`.
    pub per: String,
    /// Its lines, in the order of the market.
    pub lines: Vec<NutritionLine>,
}

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct NutritionLine {
    /// Its name.
    pub name: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// As it is printed, where it is known and how it is rounded.
    pub printed: Option<Rounded>,
    /// Before rounding, with its band.
    pub amount: Option<Band<f64>>,
    /// The per cent of the daily value that stand with it, where the market has one.
    pub daily: Option<Rounded>,
    /// What lacks to tell it.
    pub unknown: Vec<String>,
}

impl NutritionLine {
    fn known(name: &'static str, unit: &'static str, amount: Band<f64>, printed: Rounded) -> Self {
        Self { name, unit, printed: Some(printed), amount: Some(amount), daily: None, unknown: Vec::new() }
    }

    fn unknown(name: &'static str, unit: &'static str, unknown: Vec<String>) -> Self {
        Self { name, unit, printed: None, amount: None, daily: None, unknown }
    }
}

/// Grams that a declaration is drawn up for where no rule says for how many.
const HUNDRED: f64 = 100.0;

pub(super) fn nutrition(subject: &Subject<'_>, market: Market) -> Line<Nutrition> {
    let full = Factors::of(market).zip(Rounding::of(market)).zip(labelling::row(market, LabelRule::Serving));
    let listed = Listed::of(market);
    if full.is_none() && listed.is_none() {
        return Line::no_rule("nutrition");
    }
    let makeup = match subject.makeup() {
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    let pieces = full.and_then(|(_, amount)| whole_pieces(subject, makeup, amount, market));
    let usual = full.map_or(HUNDRED, |(_, amount)| amount.limit() * 1000.0);
    let grams = pieces.map_or(usual, |(count, _)| f64::from(count) * makeup.finished * 1000.0);
    let content = Content::of(makeup).scaled(grams);
    let mut line = match (full, listed) {
        (Some(((factors, rounding), amount)), _) => {
            let daily = DailyValues::of(market);
            let table = Table { content: &content, factors, rounding, daily, lines: Vec::new() };
            let nutrition = match market {
                Market::Us => Nutrition { per: serving(pieces.map(|(count, _)| count), grams), lines: table.us() },
                _ => Nutrition { per: format!("{grams:.0} g"), lines: table.eu() },
            };
            let line = Line::known(nutrition).by(&factors.citation).by(&rounding.citation).by(&amount.citation);
            daily.into_iter().fold(line, |line, daily| line.by(&daily.citation).by(&daily.rounding))
        }
        (None, Some(listed)) => {
            let per = format!("{grams:.0} g, before rounding");
            let mut line = Line::known(Nutrition { per, lines: unrounded(&content, listed) }).by(&listed.citation);
            line.unknown.push("for how much it is declared, how it is rounded, and its energy: no rule of this market is held here".into());
            line
        }
        (None, None) => return Line::no_rule("nutrition"),
    };
    line.notes.push("estimated from the ingredients' composition, no analysis".into());
    if let Some((_, row)) = pieces {
        line = line.by(&row.citation);
    }
    if subject.is_box {
        line.notes.push("an average over the box: whether one declaration may stand for pieces that differ is not held here".into());
    }
    let unidentified = content.unidentified.value / grams;
    if unidentified > 0.005 {
        line.notes.push(format!("{} of it is matter of unknown kind, counted as carbohydrate", percent(unidentified)));
    }
    line
}

fn serving(pieces: Option<u32>, grams: f64) -> String {
    match pieces {
        Some(1) => format!("serving of 1 piece ({grams:.0} g)"),
        Some(pieces) => format!("serving of {pieces} pieces ({grams:.0} g)"),
        None => format!("serving of {grams:.0} g"),
    }
}

/// How many whole pieces are a serving, where the market serves whole pieces and they are not too large.
fn whole_pieces(subject: &Subject<'_>, makeup: &Makeup, serving: &LabelRow, market: Market) -> Option<(u32, &'static LabelRow)> {
    let row = labelling::row(market, LabelRule::WholePieces)?;
    let [large, small] = row.limits else { return None };
    let [part] = subject.parts.as_slice() else { return None };
    let share = makeup.finished / serving.limit();
    let whole = !subject.is_box && part.piece.mould.is_some();
    match share {
        share if !whole || share <= 0.0 || share > *large => None,
        share if share > *small => Some((1, row)),
        share => nearest_count(1.0 / share).map(|count| (count, row)),
    }
}

/// The whole number nearest to how many pieces would be a serving; none where they are crumbs.
fn nearest_count(pieces: f64) -> Option<u32> {
    const MOST: u32 = 100;
    (1..=MOST).find(|count| f64::from(*count) + 0.5 > pieces)
}

/// What a market lists, with amounts and without what it would print.
fn unrounded(content: &Content, listed: &Listed) -> Vec<NutritionLine> {
    let carbohydrate = if listed.by_difference { content.carbohydrate_by_difference() } else { content.carbohydrate() };
    let line = |nutrient: &Nutrient| {
        let ((unit, factor), name) = (nutrient.unit(), name(*nutrient));
        let known = |band: Band<f64>| NutritionLine {
            amount: Some(band.map(|grams| factor * grams)),
            ..NutritionLine::unknown(name, unit, Vec::new())
        };
        let told = |told: &Told, times: f64| match told {
            Told::Known(band) => known(band.map(|grams| times * grams)),
            Told::Unknown(lacks) => NutritionLine::unknown(name, unit, lacks.clone()),
        };
        match nutrient {
            Nutrient::Fat => known(content.fat),
            Nutrient::Carbohydrate => known(carbohydrate),
            Nutrient::Sugars => known(content.sugars),
            Nutrient::Polyols => known(content.polyols),
            Nutrient::Fibre => known(content.fibre),
            Nutrient::Protein => known(content.protein),
            Nutrient::Saturates => told(&content.saturates, 1.0),
            Nutrient::Salt => told(&content.sodium, salt(1.0)),
            Nutrient::Sodium => told(&content.sodium, 1.0),
            Nutrient::TransFat => told(&content.trans_fat, 1.0),
            Nutrient::Cholesterol => told(&content.cholesterol, 1.0),
            Nutrient::AddedSugars => told(&content.added_sugars, 1.0),
            Nutrient::VitaminD => told(&content.vitamin_d, 1.0),
            Nutrient::Calcium => told(&content.calcium, 1.0),
            Nutrient::Iron => told(&content.iron, 1.0),
            Nutrient::Potassium => told(&content.potassium, 1.0),
        }
    };
    listed.nutrients.iter().map(line).collect()
}

const fn name(nutrient: Nutrient) -> &'static str {
    match nutrient {
        Nutrient::Fat => "fat",
        Nutrient::Saturates => "saturated fat",
        Nutrient::Carbohydrate => "carbohydrate",
        Nutrient::Sugars => "sugars",
        Nutrient::Polyols => "polyols",
        Nutrient::Fibre => "fibre",
        Nutrient::Protein => "protein",
        Nutrient::Salt => "salt",
        Nutrient::Sodium => "sodium",
        Nutrient::TransFat => "trans fat",
        Nutrient::Cholesterol => "cholesterol",
        Nutrient::AddedSugars => "added sugars",
        Nutrient::VitaminD => "vitamin D",
        Nutrient::Calcium => "calcium",
        Nutrient::Iron => "iron",
        Nutrient::Potassium => "potassium",
    }
}

/// A declaration as it is drawn up.
struct Table<'a> {
    content: &'a Content,
    factors: &'static Factors,
    rounding: &'static Rounding,
    daily: Option<&'static DailyValues>,
    lines: Vec<NutritionLine>,
}

impl Table<'_> {
    fn eu(mut self) -> Vec<NutritionLine> {
        let content = self.content;
        let carbohydrate = content.carbohydrate();
        let energetic = |of: fn(&Band<f64>) -> f64| Energetic {
            carbohydrate: of(&carbohydrate),
            polyols: of(&content.polyols),
            erythritol: 0.0,
            protein: of(&content.protein),
            fat: of(&content.fat),
            fibre: of(&content.fibre),
            ethanol: of(&content.ethanol),
            acids: of(&content.acids),
        };
        self.energy("energy", energetic);
        self.nutrient("fat", Nutrient::Fat, content.fat);
        self.told("of which saturates", Nutrient::Saturates, &content.saturates, 1.0);
        self.nutrient("carbohydrate", Nutrient::Carbohydrate, carbohydrate);
        self.nutrient("of which sugars", Nutrient::Sugars, content.sugars);
        if content.polyols.value > 0.0 {
            self.nutrient("of which polyols", Nutrient::Polyols, content.polyols);
        }
        self.nutrient("fibre", Nutrient::Fibre, content.fibre);
        self.nutrient("protein", Nutrient::Protein, content.protein);
        self.told("salt", Nutrient::Salt, &content.sodium, salt(1.0));
        self.lines
    }

    fn us(mut self) -> Vec<NutritionLine> {
        let content = self.content;
        let carbohydrate = content.carbohydrate_by_difference();
        let energetic = |of: fn(&Band<f64>) -> f64| Energetic {
            carbohydrate: of(&carbohydrate),
            protein: of(&content.protein),
            fat: of(&content.fat),
            ethanol: of(&content.ethanol),
            ..Energetic::default()
        };
        self.energy("calories", energetic);
        self.nutrient("total fat", Nutrient::Fat, content.fat);
        self.told("saturated fat", Nutrient::Saturates, &content.saturates, 1.0);
        self.told("trans fat", Nutrient::TransFat, &content.trans_fat, 1.0);
        self.told("cholesterol", Nutrient::Cholesterol, &content.cholesterol, 1.0);
        self.told("sodium", Nutrient::Sodium, &content.sodium, 1.0);
        self.nutrient("total carbohydrate", Nutrient::Carbohydrate, carbohydrate);
        self.nutrient("dietary fiber", Nutrient::Fibre, content.fibre);
        self.nutrient("total sugars", Nutrient::Sugars, content.sugars);
        self.told("incl. added sugars", Nutrient::AddedSugars, &content.added_sugars, 1.0);
        self.nutrient("protein", Nutrient::Protein, content.protein);
        self.told("vitamin D", Nutrient::VitaminD, &content.vitamin_d, 1.0);
        self.told("calcium", Nutrient::Calcium, &content.calcium, 1.0);
        self.told("iron", Nutrient::Iron, &content.iron, 1.0);
        self.told("potassium", Nutrient::Potassium, &content.potassium, 1.0);
        self.lines
    }

    fn energy(&mut self, name: &'static str, energetic: impl Fn(fn(&Band<f64>) -> f64) -> Energetic) {
        let [value, low, high] =
            [energetic(|band| band.value), energetic(|band| band.low), energetic(|band| band.high)].map(|all| self.factors.energy(&all));
        if let (Some(value), Some(low), Some(high)) = (value.kilojoules, low.kilojoules, high.kilojoules) {
            self.lines.push(NutritionLine::known(name, "kJ", Band { value, low, high }, self.rounding.energy(value)));
        }
        let band = Band { value: value.kilocalories, low: low.kilocalories, high: high.kilocalories };
        self.lines.push(NutritionLine::known(name, "kcal", band, self.rounding.energy(band.value)));
    }

    /// A line from grams.
    fn nutrient(&mut self, name: &'static str, nutrient: Nutrient, grams: Band<f64>) {
        let (unit, factor) = nutrient.unit();
        let amount = grams.map(|grams| factor * grams);
        let daily = self.daily.and_then(|daily| daily.percent(nutrient, amount.value));
        let printed = self.rounding.nutrient(nutrient, amount.value);
        self.lines.push(NutritionLine { daily, ..NutritionLine::known(name, unit, amount, printed) });
    }

    /// A line that some ingredient may lack the figure for.
    fn told(&mut self, name: &'static str, nutrient: Nutrient, amount: &Told, times: f64) {
        match amount {
            Told::Known(grams) => self.nutrient(name, nutrient, grams.map(|grams| times * grams)),
            Told::Unknown(lacks) => self.lines.push(NutritionLine::unknown(name, nutrient.unit().0, lacks.clone())),
        }
    }
}
