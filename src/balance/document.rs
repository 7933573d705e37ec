//! The file form of requests.

use super::{Line, Request, Share, Target};
use crate::matter::Larder;
use crate::matter::pantry::Pantry;
use crate::matter::sheet::allergens;
use crate::units::reader::{FaultKind, Faults, Field, Items, TableReader, Tree};
use crate::units::{Checked, Choice, DocumentError, MassFraction, Portion, nearest};
use std::collections::HashSet;

/// No request has more ingredients to choose from.
const MOST_LINES: usize = 500;

/// The requests a document makes, in TOML or in the same shape in JSON.
///
/// ```toml
/// format = 1
/// # [chocolate.NAME] and [ingredient.NAME] as in documents of pieces
/// [[balance]]
/// name = "ganache"
/// batch = "1 kg"
/// free_from = ["egg"]                         # optional
/// forbidden = ["sorbitol-powder"]             # optional: crossed out below
/// water_activity = 0.85                       # optional: told of the recipe found, not sought
/// [balance.targets]
/// water = "21 %"                              # exactly
/// sugars = { at_least = "27 %", at_most = "30 %" }
/// milk_fat = { value = "12.5 %", weight = 2 } # a miss of it counts twice
/// [[balance.ingredient]]
/// ingredient = "cream-36"
/// [[balance.ingredient]]
/// ingredient = "salt"
/// mass = "2 g"                                # fixed; or at_least, at_most, usual
/// ```
#[derive(Debug, Clone)]
pub struct Requests {
    requests: Vec<Request>,
    larder: Larder,
}

impl Requests {
    /// The format of documents that is read.
    pub const FORMAT: u32 = 1;

    /// Reads requests, with the built-in larder.
    ///
    /// ```
    /// use cordial::balance::Requests;
    /// let requests = Requests::parse(
    ///     r#"
    ///     format = 1
    ///     [[balance]]
    ///     name = "syrup"
    ///     batch = "500 g"
    ///     targets = { water = "30 %" }
    ///     ingredient = [{ ingredient = "sugar" }, { ingredient = "water" }]
    ///     "#,
    /// )?;
    /// let answer = requests.all()[0].solve()?;
    /// assert!(answer.is_met());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`DocumentError`] with everything that is wrong with it.
    pub fn parse(text: &str) -> Result<Self, DocumentError> {
        Self::parse_with(text, Larder::built_in())
    }

    /// The same with another larder.
    ///
    /// # Errors
    /// [`DocumentError`] with everything that is wrong with it.
    pub fn parse_with(text: &str, larder: &Larder) -> Result<Self, DocumentError> {
        let tree = Tree::parse(text)?;
        let faults = Faults::default();
        let mut pantry = Pantry::new(larder.clone());
        let requests = tree.whole(&faults).table(|root| read(root, &mut pantry));
        faults.or(Self { requests: requests.unwrap_or_default(), larder: pantry.into_larder() })
    }

    /// The requests, in order.
    #[must_use]
    pub fn all(&self) -> &[Request] {
        &self.requests
    }

    /// The larder, with what the document adds to it.
    #[must_use]
    pub fn larder(&self) -> &Larder {
        &self.larder
    }
}

fn read(root: &TableReader<'_>, pantry: &mut Pantry) -> Option<Vec<Request>> {
    let (chocolates, ingredients) = (root.optional("chocolate"), root.optional("ingredient"));
    let format = root.required("format", "`format = 1`");
    if let Some(found) = format.whole(0..=u32::MAX).filter(|found| *found != Requests::FORMAT) {
        root.excuse_others();
        format.fault(|| FaultKind::Format { found, supported: Requests::FORMAT });
        return None;
    }
    pantry.read(&chocolates, &ingredients);
    let mut names = HashSet::new();
    let requests = root.required("balance", "`[[balance]]` with a `name`, a `batch`, `targets` and `ingredient`");
    requests.tables(Items { what: "balance", numbered: false, named: true, most: Items::ANY }, |table| request(table, &mut names, pantry))
}

fn request(table: &TableReader<'_>, names: &mut HashSet<String>, pantry: &Pantry) -> Option<Request> {
    let field = table.required("name", "a name, such as `name = \"winter ganache\"`");
    let name = field.text().map(str::to_owned);
    if let Some(name) = name.clone().filter(|name| !names.insert(name.clone())) {
        field.fault(|| FaultKind::RepeatedName { name });
    }
    let batch = table.required("batch", "how much is made, such as `batch = \"1 kg\"`").measure();
    let targets = table.required("targets", "what is wanted, such as `targets = { water = \"20 %\" }`").table(targets);
    let lines = table.required("ingredient", "`[[balance.ingredient]]` with an `ingredient` for each that may be used");
    let lines = lines.tables(Items { what: "ingredient", numbered: true, named: false, most: MOST_LINES }, |table| line(table, pantry));
    let free_from = allergens(&table.optional("free_from"));
    let water_activity = table.optional("water_activity").measure();
    let crossed_out = table.optional("forbidden");
    let mut lines = lines?;
    for word in crossed_out.list("forbidden") {
        cross_out(&mut lines, word);
    }
    Some(Request { name: name?, batch: batch?, lines, targets: targets?, free_from, water_activity })
}

/// Crosses an ingredient out, which must be one that could be used.
fn cross_out(lines: &mut [Line], word: Field<'_>) {
    let Some(name) = word.text() else { return };
    match lines.iter_mut().find(|line| line.ingredient.name == name) {
        Some(line) => line.forbidden = true,
        None => word.fault(|| FaultKind::UnknownWord {
            word: name.to_owned(),
            what: "an ingredient of this request",
            nearest: nearest(name, lines.iter().map(|line| line.ingredient.name.as_str()), 1).first().map(ToString::to_string),
            known: Vec::new(),
        }),
    }
}

fn targets(table: &TableReader<'_>) -> Option<Vec<Target>> {
    let read: Vec<Option<Target>> = Share::ALL
        .iter()
        .map(|share| (*share, table.optional(share.key())))
        .filter(|(_, field)| field.is_present())
        .map(|(share, field)| target(share, field))
        .collect();
    read.into_iter().collect()
}

fn target(share: Share, field: Field<'_>) -> Option<Target> {
    if !field.is_table() || field.has_any(&["unit"]) {
        return field.measure().map(|value| Target::exactly(share, value));
    }
    field.table(|table| {
        let (value, least, most) = (table.optional("value"), table.optional("at_least"), table.optional("at_most"));
        let weight = table.optional("weight");
        let ends = || [(&least, "at_least"), (&most, "at_most")].into_iter().filter(|(end, _)| end.is_present()).map(|(_, key)| key);
        if value.is_present() && ends().next().is_some() {
            table.fault(|| FaultKind::Exclusive { keys: std::iter::once("value").chain(ends()).collect() });
        } else if !value.is_present() && ends().next().is_none() {
            table.fault(|| FaultKind::Missing { key: "value", example: "`value = \"20 %\"`, or `at_least` or `at_most`" });
        }
        let weight = if weight.is_present() { weight.nonnegative()? } else { 1.0 };
        let end = |end: Field<'_>, open: f64| if end.is_present() { end.measure() } else { Some(MassFraction::nearest(open)) };
        let target = if value.is_present() {
            Target::exactly(share, value.measure()?)
        } else {
            Target::between(share, end(least, 0.0)?, end(most, 1.0)?)
        };
        Some(target.weighing(weight))
    })
}

fn line(table: &TableReader<'_>, pantry: &Pantry) -> Option<Line> {
    let ingredient = pantry.ingredient(table.required("ingredient", "the name of an ingredient, such as `ingredient = \"cream-36\"`"));
    let (mass, least, most) = (table.optional("mass"), table.optional("at_least"), table.optional("at_most"));
    if mass.is_present() && (least.is_present() || most.is_present()) {
        let keys = [("mass", &mass), ("at_least", &least), ("at_most", &most)];
        table.fault(|| FaultKind::Exclusive { keys: keys.iter().filter(|(_, field)| field.is_present()).map(|(key, _)| *key).collect() });
    }
    let usual = table.optional("usual").measure();
    let (mass, least, most) = (mass.measure::<Portion>(), least.measure(), most.measure());
    let line = Line { least: least.unwrap_or(Portion::nearest(0.0)), most, usual, ..Line::of(ingredient?) };
    Some(match mass {
        Some(mass) => line.fixed(mass),
        None => line,
    })
}
