use super::{Runner, number};
use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::Document;
use cordial::law::nutrition::{DailyValues, Energetic, Factors, Nutrient, Rounding, salt};
use cordial::law::{Book, Term};
use cordial::matter::{Composition, Market};
use cordial::report::label::{IngredientList, Label, Line, cocoa_solids};
use cordial::units::Choice;

pub const RUNNERS: &[(&str, Runner)] = &[
    ("declared-nutrition", declared_nutrition),
    ("raw-kilocalories", |row| {
        let content = energetic(row)?;
        for other in ["saturates", "sugars", "sodium_mg"] {
            row.number(other)?;
        }
        number(factors(row)?.energy(&content).kilocalories)
    }),
    ("polyol-statement-of-nutrients", |row| {
        let content = energetic(row)?;
        for other in ["saturates", "sugars", "sodium_mg"] {
            row.number(other)?;
        }
        let (market, polyols) = (market(row)?, (content.polyols + content.erythritol) / 100.0);
        let book = Book::built_in();
        let rule = book.rows().iter().find(|row| row.market == market && row.term == Term::Polyols).ok_or("no rule is held")?;
        word(if polyols > rule.bound().ok_or("the row sets no number")? * (1.0 + 1e-9) { "yes" } else { "no" })
    }),
    ("daily-value", |row| {
        let daily = DailyValues::of(market(row)?).ok_or("no daily values of this market are held")?;
        if daily.citation.section != row.text("section")? {
            return Err(format!("the values are of {}", daily.citation).into());
        }
        let percent = daily.percent(row.choice("nutrient")?, row.number("amount")?).ok_or("it has no daily value")?;
        word(&percent.to_string())
    }),
    ("ingredient-order", |row| {
        let list = list(row)?;
        word(&list.entries.iter().map(|entry| entry.named.label.as_str()).collect::<Vec<_>>().join(", "))
    }),
    ("ingredients-in-any-order", |row| {
        let list = list(row)?;
        word(&list.free().map(|entry| entry.named.label.as_str()).collect::<Vec<_>>().join(", "))
    }),
    ("ingredients-up-to", |row| {
        let list = list(row)?;
        let most = row.get::<cordial::units::MassFraction>("most")?;
        let entries = list.up_to(cordial::units::Checked::base(most));
        word(&entries.map(|entry| entry.named.label.as_str()).collect::<Vec<_>>().join(", "))
    }),
    ("small-amounts-figure", |row| number(list(row)?.small.ok_or("no group of small amounts")?)),
    ("ingredient-share", |row| {
        let (list, wanted) = (list(row)?, row.text("ingredient")?);
        let entry = list.entries.iter().find(|entry| entry.named.label == wanted).ok_or("the list has no such ingredient")?;
        number(entry.share)
    }),
    ("added-water", |row| number(list(row)?.added_water)),
    ("added-water-may-be-omitted", |row| word(if list(row)?.omits_water { "yes" } else { "no" })),
    ("stressed-quantity", |row| {
        let label = label(row)?;
        let quantities = told(row, label.quantities)?;
        let [quantity] = quantities.as_slice() else { return Err("one ingredient is stressed".into()) };
        number(quantity.share)
    }),
    ("stressed-quantity-declared", |row| {
        let label = label(row)?;
        let quantities = told(row, label.quantities)?;
        let [quantity] = quantities.as_slice() else { return Err("one ingredient is stressed".into()) };
        word(&quantity.declared)
    }),
    ("cocoa-solids", |row| number(cocoa_solids(&chocolate(row)?, row.get("other_edible")?).solids)),
    ("cocoa-solids-declared", |row| word(&cocoa_solids(&chocolate(row)?, row.get("other_edible")?).declared)),
    ("polyols", |row| {
        let label = label(row)?;
        number(told(row, label.statements)?.first().ok_or("no figure of polyols")?.share)
    }),
    ("polyol-statement", |row| {
        let label = label(row)?;
        word(if told(row, label.statements)?.first().and_then(|statement| statement.words).is_some() { "yes" } else { "no" })
    }),
    ("allergens-declared", |row| {
        let label = label(row)?;
        let statement = told(row, label.allergens)?;
        let mut words = if row.flag("classed")? {
            statement.classed()
        } else {
            statement
                .due
                .iter()
                .map(|due| due.only_if.map_or(due.word.to_owned(), |condition| format!("{} only if {condition}", due.word)))
                .collect()
        };
        words.sort();
        word(&words.join(", "))
    }),
];

fn word(text: &str) -> Result<Found> {
    let text = if text.is_empty() { "none" } else { text };
    Ok(Found::Word(Box::leak(text.to_owned().into_boxed_str())))
}

fn market(row: &Row) -> Result<Market> {
    row.choice("market")
}

/// The label of the one piece of the row's `document`.
fn label(row: &Row) -> Result<Label> {
    let text = format!("format = 1\n{}", row.text("document")?);
    let document = Document::parse(&text)?;
    let [piece] = document.pieces() else { return Err("one piece is described".into()) };
    Ok(Label::of(piece, market(row)?))
}

/// The value of a line, which must rest on the section that the row names.
fn told<T>(row: &Row, line: Line<T>) -> Result<T> {
    let section = row.text("section")?;
    if !line.basis.iter().any(|citation| citation.section == section) {
        let sections: Vec<_> = line.basis.iter().map(|citation| citation.section.as_ref()).collect();
        return Err(format!("the line rests on {}, not on {section}", sections.join("; ")).into());
    }
    line.value.ok_or_else(|| format!("unknown: {}", line.unknown.join("; ")).into())
}

fn list(row: &Row) -> Result<IngredientList> {
    told(row, label(row)?.ingredients)
}

/// The chocolate without what else is in it, as a part of the whole.
fn chocolate(row: &Row) -> Result<Composition> {
    let section = row.text("section")?;
    let rule = cordial::law::labelling::row(market(row)?, cordial::law::labelling::LabelRule::CocoaSolids).ok_or("no rule is held")?;
    if rule.citation.section == section { row.composition("of") } else { Err(format!("the rule is {}", rule.citation).into()) }
}

fn energetic(row: &Row) -> Result<Energetic> {
    Ok(Energetic {
        carbohydrate: row.number("carbohydrate")?,
        polyols: row.number("polyols")?,
        erythritol: row.number("erythritol")?,
        protein: row.number("protein")?,
        fat: row.number("fat")?,
        fibre: row.number("fibre")?,
        ethanol: row.number("ethanol")?,
        acids: row.number("acids")?,
    })
}

fn factors(row: &Row) -> Result<&'static Factors> {
    let factors = Factors::of(market(row)?).ok_or("no factors of this market are held")?;
    let rounding = Rounding::of(market(row)?).ok_or("no rounding of this market is held")?;
    let section = row.text("section")?;
    if factors.citation.section == section || rounding.citation.section == section {
        Ok(factors)
    } else {
        Err(format!("the rules are {} and {}, not {section}", factors.citation, rounding.citation).into())
    }
}

/// One printed line of a declaration, from what was found per 100 g or per serving.
fn declared_nutrition(row: &Row) -> Result<Found> {
    let (content, factors) = (energetic(row)?, factors(row)?);
    let rounding = Rounding::of(market(row)?).ok_or("no rounding of this market is held")?;
    let (saturates, sugars, sodium) = (row.number("saturates")?, row.number("sugars")?, row.number("sodium_mg")?);
    let energy = factors.energy(&content);
    let line = row.text("line")?;
    let printed = match (line, Nutrient::from_key(line)) {
        ("kJ", _) => rounding.energy(energy.kilojoules.ok_or("this market declares no kilojoules")?),
        ("kcal", _) => rounding.energy(energy.kilocalories),
        (_, Some(nutrient)) => {
            let amount = match nutrient {
                Nutrient::Fat => content.fat,
                Nutrient::Saturates => saturates,
                Nutrient::Carbohydrate => content.carbohydrate,
                Nutrient::Sugars => sugars,
                Nutrient::Polyols => content.polyols,
                Nutrient::Fibre => content.fibre,
                Nutrient::Protein => content.protein,
                Nutrient::Salt => salt(sodium / 1000.0),
                Nutrient::Sodium => sodium,
                _ => return Err(format!("`{line}` is in no row").into()),
            };
            rounding.nutrient(nutrient, amount)
        }
        _ => return Err(format!("`{line}` is no line of a declaration").into()),
    };
    word(&printed.to_string())
}
