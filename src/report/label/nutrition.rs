//! Nutrition, estimated from the composition: per 100 g in the EU, per serving in the US.

mod content;

use super::Line;
use super::ingredients::percent;
use super::makeup::Makeup;
use crate::law::labelling::{self, LabelRule};
use crate::law::nutrition::{Energetic, Factors, Nutrient, Rounded, Rounding, salt};
use crate::matter::Market;
use crate::units::Band;
use content::Content;

/// A nutrition declaration.
#[derive(Debug, Clone, PartialEq)]
pub struct Nutrition {
    /// What it is for: `100 g`, `serving of 30 g`.
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
    /// As it is printed, where it is known.
    pub printed: Option<Rounded>,
    /// Before rounding, with its band.
    pub amount: Option<Band<f64>>,
    /// What lacks to tell it.
    pub unknown: Vec<String>,
}

impl NutritionLine {
    fn known(name: &'static str, unit: &'static str, amount: Band<f64>, printed: Rounded) -> Self {
        Self { name, unit, printed: Some(printed), amount: Some(amount), unknown: Vec::new() }
    }

    fn unknown(name: &'static str, unit: &'static str, unknown: Vec<String>) -> Self {
        Self { name, unit, printed: None, amount: None, unknown }
    }
}

pub(super) fn nutrition(makeup: Result<&Makeup, &String>, market: Market) -> Line<Nutrition> {
    let (Some(factors), Some(rounding), Some(amount)) =
        (Factors::of(market), Rounding::of(market), labelling::row(market, LabelRule::Serving))
    else {
        return Line::no_rule("nutrition");
    };
    let makeup = match makeup {
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    let grams = amount.limit() * 1000.0;
    let content = Content::of(makeup).scaled(grams);
    let table = Table { content: &content, factors, rounding, lines: Vec::new() };
    let nutrition = match market {
        Market::Us => Nutrition { per: format!("serving of {grams:.0} g"), lines: table.us() },
        _ => Nutrition { per: format!("{grams:.0} g"), lines: table.eu() },
    };
    let mut line = Line::known(nutrition).by(&factors.citation).by(&rounding.citation).by(&amount.citation);
    line.notes.push("estimated from the ingredients' composition, no analysis".into());
    if market == Market::Us {
        let pieces = amount.limit() / makeup.finished;
        line.notes.push(format!("a serving is about {pieces:.1} pieces: how a serving of whole pieces is stated is not held here"));
    }
    let unidentified = content.unidentified.value / grams;
    if unidentified > 0.005 {
        line.notes.push(format!("{} of it is matter of unknown kind, counted as carbohydrate", percent(unidentified)));
    }
    line
}

/// A declaration as it is drawn up.
struct Table<'a> {
    content: &'a Content,
    factors: &'static Factors,
    rounding: &'static Rounding,
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
        self.told("of which saturates", "g", Nutrient::Saturates, &content.saturates, 1.0);
        self.nutrient("carbohydrate", Nutrient::Carbohydrate, carbohydrate);
        self.nutrient("of which sugars", Nutrient::Sugars, content.sugars);
        if content.polyols.value > 0.0 {
            self.nutrient("of which polyols", Nutrient::Polyols, content.polyols);
        }
        self.nutrient("fibre", Nutrient::Fibre, content.fibre);
        self.nutrient("protein", Nutrient::Protein, content.protein);
        self.told("salt", "g", Nutrient::Salt, &content.sodium, salt(1.0));
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
        self.told("saturated fat", "g", Nutrient::Saturates, &content.saturates, 1.0);
        self.told("sodium", "mg", Nutrient::Sodium, &content.sodium, 1000.0);
        self.nutrient("total carbohydrate", Nutrient::Carbohydrate, carbohydrate);
        self.nutrient("dietary fiber", Nutrient::Fibre, content.fibre);
        self.nutrient("total sugars", Nutrient::Sugars, content.sugars);
        self.nutrient("protein", Nutrient::Protein, content.protein);
        for (name, unit) in [
            ("trans fat", "g"),
            ("cholesterol", "mg"),
            ("added sugars", "g"),
            ("vitamin D", "µg"),
            ("calcium", "mg"),
            ("iron", "mg"),
            ("potassium", "mg"),
        ] {
            self.lines.push(NutritionLine::unknown(
                name,
                unit,
                vec!["any ingredient's figure: from the makers' sheets or an analysis".into()],
            ));
        }
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

    fn nutrient(&mut self, name: &'static str, nutrient: Nutrient, amount: Band<f64>) {
        self.lines.push(NutritionLine::known(name, "g", amount, self.rounding.nutrient(nutrient, amount.value)));
    }

    /// A line that some ingredient may lack the figure for.
    fn told(&mut self, name: &'static str, unit: &'static str, nutrient: Nutrient, amount: &content::Told, factor: f64) {
        let line = match amount {
            content::Told::Known(amount) => {
                let amount = amount.map(|amount| factor * amount);
                NutritionLine::known(name, unit, amount, self.rounding.nutrient(nutrient, amount.value))
            }
            content::Told::Unknown(lacks) => NutritionLine::unknown(name, unit, lacks.clone()),
        };
        self.lines.push(line);
    }
}
