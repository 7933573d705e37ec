use super::{Runner, number, time};
use crate::Result;
use crate::expected::Found;
use crate::row::{Row, measure};
use cordial::assess::{ChocolateLaw, Part, PieceAlcohol};
use cordial::engine::{Bound, Reading, Rule, Verdict};
use cordial::law::{Additive, AdditiveAmounts, Book, SalesName, Term};
use cordial::matter::{Composition, Constituent, Ingredient, Market};
use cordial::models::density::ethanol_water;
use cordial::models::growth::{MouldFree, Reach, mould_free, shelf_life_class};
use cordial::rules::law::ChocolateNameNotMet;
use cordial::units::quantity::{Mass, Volume, cubic_meter, kilogram};
use cordial::units::{BulkDensity, Checked, Choice, Dimension, MassFraction, Portion};

pub const RUNNERS: &[(&str, Runner)] = &[
    ("chocolate-term", |row| number(term(&mixed(row)?, row.choice("term")?)?)),
    ("chocolate-fat", |row| {
        let counted = mixed(row)?;
        number(term(&counted, Term::TotalFat)? + term(&counted, Term::VegetableFat)?)
    }),
    ("verdict-on-name", verdict_on_name),
    ("cocoa-declared", |row| number((100.0 * term(&mixed(row)?, Term::TotalCocoa)? + 1e-9).floor() / 100.0)),
    ("additive-sum", |row| number(amounts(row)?.sum(law(row)?.additives, law(row)?.as_acid))),
    ("verdict-on-additives", |row| {
        let (amounts, row) = (amounts(row)?, law(row)?);
        let bound = row.bound().ok_or("the row sets no number")?;
        Ok(Found::Word(if amounts.sum(row.additives, row.as_acid) <= bound { "within" } else { "beyond" }))
    }),
    ("alcohol-of-piece", alcohol),
    ("spirit-allowed", spirit_allowed),
    ("verdict-on-alcohol", |row| {
        let (piece, law) = (spirited(row)?, law(row)?);
        let value = piece.of(law.term).ok_or("no figure of alcohol")?;
        Ok(Found::Word(if value <= law.bound().ok_or("the row sets no number")? { "within" } else { "beyond" }))
    }),
    ("chocolate-share", |row| number(shares(row)?.0)),
    ("chocolate-in-all", |row| number(shares(row)?.1)),
    ("verdict-on-share", |row| {
        let (outer, all) = shares(row)?;
        let law = law(row)?;
        let value = if law.term == Term::OuterChocolate { outer } else { all };
        Ok(Found::Word(if value >= law.bound().ok_or("the row sets no number")? - 1e-12 { "within" } else { "short" }))
    }),
    ("mould-free", |row| time(mould(row)?.time.value)),
    ("mould-free-reach", |row| {
        Ok(Found::Word(match mould(row)?.reach {
            Reach::Within => "within",
            Reach::AtLeast => "at-least",
            Reach::AtMost => "at-most",
            Reach::Unknown => "unknown",
        }))
    }),
    ("shelf-life-class", |row| {
        const LETTERS: [(char, &str); 8] = [('A', "A"), ('B', "B"), ('C', "C"), ('D', "D"), ('E', "E"), ('F', "F"), ('G', "G"), ('H', "H")];
        let letter = shelf_life_class(row.get("water_activity")?).letter;
        LETTERS.iter().find(|(known, _)| *known == letter).map(|(_, word)| Found::Word(word)).ok_or_else(|| "no such class".into())
    }),
];

/// What a case's chocolate is mixed from: cocoa mass 54 % fat and 1.5 % water, cocoa powder 11 and 4 %, whole milk powder 26 and 3 %, skim milk powder 1 and
/// 4 %, butter oil 99.8 % fat.
fn stuff(name: &str) -> Result<Ingredient> {
    use Constituent::{
        CocoaButter, FatFreeCocoa, FirmFat, Inert, Lactose, LiquidOil, MilkFat, MilkProtein, MilkSalts, Phospholipid, Sucrose, Water,
    };
    let milk = |fat: f64, water: f64| {
        let rest = 1.0 - fat - water;
        vec![(MilkFat, fat), (Water, water), (Lactose, 0.54 * rest), (MilkProtein, 0.38 * rest), (MilkSalts, 0.08 * rest)]
    };
    let parts = match name {
        "cocoa_mass" => vec![(CocoaButter, 0.54), (Water, 0.015), (FatFreeCocoa, 0.445)],
        "cocoa_powder" => vec![(CocoaButter, 0.11), (Water, 0.04), (FatFreeCocoa, 0.85)],
        "cocoa_butter" => vec![(CocoaButter, 1.0)],
        "whole_milk_powder" => milk(0.26, 0.03),
        "skim_milk_powder" => milk(0.01, 0.04),
        "butter_oil" => vec![(MilkFat, 0.998), (Water, 0.002)],
        "vegetable_fat" => vec![(FirmFat, 1.0)],
        "lecithin" => vec![(Phospholipid, 0.62), (LiquidOil, 0.38)],
        "nuts" => vec![(LiquidOil, 0.6), (Inert, 0.4)],
        "sugar" => vec![(Sucrose, 1.0)],
        name => return Err(format!("no such stuff: `{name}`").into()),
    };
    let parts = parts.into_iter().map(|(constituent, share)| (constituent, MassFraction::nearest(share)));
    Ok(Ingredient::declared(name, Composition::new(parts)?))
}

fn mixed(row: &Row) -> Result<ChocolateLaw> {
    row.within("mix", |mix| {
        let part = |key: &str| -> Result<(Ingredient, f64)> { Ok((stuff(key)?, measure(mix.value(key).ok_or("it lacks")?)?.base())) };
        let parts: Vec<_> = mix.keys().map(part).collect::<Result<_>>()?;
        Ok(ChocolateLaw::of(parts.iter().map(|(ingredient, mass)| (ingredient, *mass))))
    })
}

fn term(counted: &ChocolateLaw, term: Term) -> Result<f64> {
    Ok(counted.get(term).value().ok_or("it is not known")?)
}

/// The worst verdict on a chocolate that claims a name in a market.
fn verdict_on_name(row: &Row) -> Result<Found> {
    let (counted, market, name) = (mixed(row)?, row.choice::<Market>("market")?, row.choice::<SalesName>("name")?);
    let card = ChocolateNameNotMet.card();
    let family = card.limits.first().ok_or("the rule has a family")?;
    let book = Book::built_in();
    let of_name = book.iter().filter(|(_, row)| row.market == market && row.names.holds(name));
    let read = of_name.filter_map(|(id, row)| {
        let value = counted.get(row.term).known()?;
        Some(Reading::held(card, family, Part::Shell, value, Bound::of_row(id, row)?).verdict)
    });
    Ok(Found::Word(read.max().map_or("unknown", Verdict::key)))
}

fn law(row: &Row) -> Result<cordial::law::Row> {
    let id = row.text("law")?;
    let found = Book::built_in().rows().iter().find(|row| row.id == id).cloned();
    found.ok_or_else(|| format!("no row of law is called `{id}`").into())
}

/// `of = { "E 476" = "0.4 %" }`, by number.
fn amounts(row: &Row) -> Result<AdditiveAmounts> {
    row.within("of", |of| {
        let mut amounts = AdditiveAmounts::NONE;
        for key in of.keys() {
            let additive = Additive::from_key(key).ok_or_else(|| format!("`{key}` is no additive"))?;
            amounts.add(additive, of.base::<MassFraction>(key)?);
        }
        Ok(amounts)
    })
}

/// A piece of a mass and a density, of which a filling holds so much of a spirit.
fn spirited(row: &Row) -> Result<PieceAlcohol> {
    let (piece, filling, spirit) =
        (row.base::<Portion>("piece_mass")?, row.base::<Portion>("filling_mass")?, row.base::<MassFraction>("spirit")?);
    let strength = ethanol_water::by_mass(row.get("strength")?).base();
    Ok(PieceAlcohol {
        ethanol: Mass::new::<kilogram>(filling * spirit * strength),
        piece: Mass::new::<kilogram>(piece),
        volume: Some(Volume::new::<cubic_meter>(piece / row.base::<BulkDensity>("density")?)),
    })
}

fn alcohol(row: &Row) -> Result<Found> {
    let piece = spirited(row)?;
    if row.text("term")? == "ethanol" {
        return Ok(Found::exact(piece.ethanol.get::<kilogram>(), Dimension::Mass));
    }
    let term: Term = row.choice("term")?;
    Ok(Found::exact(piece.of(term).ok_or("no figure of alcohol")?, term.dimension()))
}

/// How much of the spirit the row of law allows, over how much of it there is.
fn spirit_allowed(row: &Row) -> Result<Found> {
    let allowed = spirited(row)?.spirit_allowed(&law(row)?, row.get("strength")?).ok_or("the row sets no limit on alcohol")?;
    number(allowed.get::<kilogram>() / (row.base::<Portion>("filling_mass")? * row.base::<MassFraction>("spirit")?))
}

/// A piece of a shell, a cap and a filling, as shares of chocolate: that outside, and with what is melted into the filling.
fn shares(row: &Row) -> Result<(f64, f64)> {
    let [shell, cap, filling, inside] = ["shell_mass", "cap_mass", "filling_mass", "chocolate_inside"].map(|key| row.base::<Portion>(key));
    let (outer, filling) = (shell? + cap?, filling?);
    Ok((outer / (outer + filling), (outer + inside?) / (outer + filling)))
}

fn mould(row: &Row) -> Result<MouldFree> {
    Ok(mould_free(row.get("water_activity")?, row.get("at")?))
}
