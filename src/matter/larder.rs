//! The larder: ingredients by name, those built in and those a user adds.

use super::{Ingredient, sheet};
use crate::units::reader::{DocumentError, Faults, Tree};
use crate::units::{nearest, shortened};
use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

type Shelf = BTreeMap<String, Arc<Ingredient>>;

/// Ingredients by name. Cloning it copies only what was added to the built-in ones.
#[derive(Debug, Clone, Default)]
pub struct Larder {
    shared: Arc<Shelf>,
    own: Shelf,
}

/// A name that no ingredient bears.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is not an ingredient known here: {}", shortened(.name), offered(.nearest, "describe it under `[ingredient]`"))]
pub struct UnknownName {
    /// What was asked for.
    pub name: String,
    /// The names that may be meant, the likeliest first; at most three.
    pub nearest: Vec<String>,
}

/// An ingredient that is asked to be a chocolate and is none.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is not a chocolate: {}", shortened(.name), offered(.nearest, "give its sheet under `[chocolate]`"))]
pub struct NotChocolate {
    /// What was asked for.
    pub name: String,
    /// The chocolates that may be meant, the likeliest first; at most three.
    pub nearest: Vec<String>,
}

impl Larder {
    /// How many names are offered for one that is not known.
    const OFFERED: usize = 3;

    /// The ingredients that come with this crate.
    #[must_use]
    pub fn built_in() -> &'static Self {
        // An entry that cannot be read is left out here, and found by a test.
        static BUILT_IN: LazyLock<Larder> = LazyLock::new(|| Larder::parse(include_str!("larder.toml")).0);
        &BUILT_IN
    }

    /// The entries of a text that can be read, and what is wrong with the others.
    fn parse(text: &str) -> (Self, Result<(), DocumentError>) {
        let tree = match Tree::parse(text) {
            Ok(tree) => tree,
            Err(error) => return (Self::default(), Err(error)),
        };
        let faults = Faults::default();
        let mut shelf = Shelf::new();
        tree.whole(&faults).named_tables("ingredient", |name, table| {
            shelf.extend(sheet::ingredient(name, table).map(|ingredient| (name.to_owned(), Arc::new(ingredient))));
        });
        (Self { shared: Arc::new(shelf), own: Shelf::new() }, faults.or(()))
    }

    /// The same with one more ingredient, which takes the place of one of the same name.
    #[must_use]
    pub fn with(mut self, ingredient: impl Into<Arc<Ingredient>>) -> Self {
        let ingredient = ingredient.into();
        self.own.insert(ingredient.name.clone(), ingredient);
        self
    }

    /// The ingredient of a name.
    ///
    /// # Errors
    /// [`UnknownName`], with the names that may be meant.
    pub fn get(&self, name: &str) -> Result<Arc<Ingredient>, UnknownName> {
        self.find(name).cloned().ok_or_else(|| self.unknown(name))
    }

    /// The ingredients whose name or title holds every word of the query, in any case, those most like it first.
    pub fn search(&self, query: &str) -> impl Iterator<Item = &Arc<Ingredient>> {
        let query = query.to_lowercase();
        let words: Vec<_> = query.split(|c: char| c.is_whitespace() || c == '-' || c == ',').filter(|word| !word.is_empty()).collect();
        let holds = |text: &str| words.iter().all(|word| text.to_lowercase().contains(word));
        let mut found: Vec<_> = self.iter().filter(|ingredient| holds(&ingredient.name) || holds(&ingredient.title)).collect();
        let joined = words.join("-");
        found.sort_by_key(|ingredient| (!ingredient.name.starts_with(&joined), ingredient.name.len().abs_diff(joined.len())));
        found.into_iter()
    }

    /// Every ingredient, those that were added first.
    pub fn iter(&self) -> impl Iterator<Item = &Arc<Ingredient>> {
        self.own.values().chain(self.shared.iter().filter(|(name, _)| !self.own.contains_key(*name)).map(|(_, ingredient)| ingredient))
    }

    pub(crate) fn find(&self, name: &str) -> Option<&Arc<Ingredient>> {
        self.own.get(name).or_else(|| self.shared.get(name))
    }

    /// Why a name is not known.
    pub(crate) fn unknown(&self, name: &str) -> UnknownName {
        UnknownName { name: name.to_owned(), nearest: self.nearest(name, |_| true) }
    }

    /// Why an ingredient is not the chocolate that was wanted.
    pub(crate) fn not_chocolate(&self, name: &str) -> NotChocolate {
        NotChocolate { name: name.to_owned(), nearest: self.nearest(name, |ingredient| ingredient.chocolate.is_some()) }
    }

    fn nearest(&self, name: &str, wanted: impl Fn(&Ingredient) -> bool) -> Vec<String> {
        let known = self.iter().filter(|ingredient| wanted(ingredient)).map(|ingredient| ingredient.name.as_str());
        nearest(name, known, Self::OFFERED).into_iter().map(str::to_owned).collect()
    }
}

/// `did you mean a, b or c?`, or what else to do.
fn offered(nearest: &[String], otherwise: &str) -> String {
    let names: Vec<_> = nearest.iter().map(|name| format!("`{}`", shortened(name))).collect();
    match names.as_slice() {
        [] => otherwise.to_owned(),
        [one] => format!("did you mean {one}?"),
        [first @ .., last] => format!("did you mean {} or {last}?", first.join(", ")),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::{Allergen, ChocolateKind, Composition, Constituent, Known, Lot};
    use crate::units::Checked;
    use approx::assert_relative_eq;

    fn names(found: impl Iterator<Item = impl AsRef<Ingredient>>) -> Vec<String> {
        found.map(|ingredient| ingredient.as_ref().name.clone()).collect()
    }

    fn of(text: &str) -> Larder {
        let (larder, read) = Larder::parse(text);
        read.unwrap();
        larder
    }

    #[test]
    fn every_built_in_entry_can_be_read() {
        let (larder, read) = Larder::parse(include_str!("larder.toml"));
        read.unwrap();
        assert!(larder.iter().count() > 0);
    }

    #[test]
    fn an_entry_says_all_there_is_to_say() {
        let larder = of(r#"
            [cream-36]
            title = "cream, 36 % fat"
            label = "cream"
            record = "A record"
            known = "seen"
            note = "A note."
            water = "58 %"
            milk-fat = "36 %"
            lactose = "3 %"
            milk_protein = "3 %"
            [dark]
            chocolate = "dark"
            lecithin = { amount = "0.4 %", source = "soy" }
            sucrose = "43.6 %"
            cocoa-butter = "36 %"
            fat-free-cocoa = "20 %"
            liquid-oil = "0.152 %"
            phospholipid = "0.248 %"
        "#);
        let cream = larder.get("cream-36").unwrap();
        assert_eq!((cream.title.as_str(), cream.label.as_str(), cream.record.as_str()), ("cream, 36 % fat", "cream", "A record"));
        assert_eq!((cream.known, cream.note.as_deref()), (Known::Seen, Some("A note.")));
        assert_eq!(cream.allergens.iter().collect::<Vec<_>>(), [Allergen::Milk]);
        let dark = larder.get("dark").unwrap();
        let sheet = dark.chocolate.as_ref().unwrap();
        assert_eq!(sheet.kind, ChocolateKind::Dark);
        assert_eq!(sheet.emulsifiers.first().unwrap().dose.base(), 0.004);
        // The sheet booked its lecithin itself: it must not be booked again.
        assert_relative_eq!(dark.composition.of(Constituent::Phospholipid), 0.00248, max_relative = 1e-12);
        assert_eq!(dark.allergens.iter().collect::<Vec<_>>(), [Allergen::Soy]);
    }

    #[test]
    fn an_entry_may_state_how_far_a_lot_is_off() {
        let larder = of(
            "[honey]\nwater = \"17 %\"\nfructose = \"83 %\"\nspread = \"1.4 %\"\n[syrup]\nwater = \"20 %\"\nglucose = \"80 %\"\n\
                         [paste]\nwater = \"1 %\"\nliquid-oil = \"60 %\"\nfibre = \"39 %\"\n[sugar]\nsucrose = \"100 %\"\nspread = \"1 %\"\n",
        );
        let lot = |name: &str| larder.get(name).unwrap().lot();
        assert_eq!(lot("honey").unwrap().0, Lot::Water);
        assert_relative_eq!(lot("honey").unwrap().1, 0.014, max_relative = 1e-12);
        // Where nothing is stated, 2 % of the lesser: of the water, and of what is not fat.
        assert_relative_eq!(lot("syrup").unwrap().1, 0.004, max_relative = 1e-12);
        assert_eq!(lot("paste").unwrap().0, Lot::Fat);
        assert_relative_eq!(lot("paste").unwrap().1, 0.008, max_relative = 1e-12);
        assert_eq!(lot("sugar"), None);
        let uncertainty = |name: &str| larder.get(name).unwrap().composition.uncertainty_of_water();
        // 1.4 % more water, and as much less sugar, of which each gram holds 17/83 g.
        assert_relative_eq!(uncertainty("honey"), 0.014 * (1.0 + 17.0 / 83.0), max_relative = 1e-12);
        assert_eq!(uncertainty("sugar"), 0.0);
    }

    #[test]
    fn a_broken_entry_is_left_out_and_told() {
        let (larder, read) = Larder::parse("[good]\nwater = \"100 %\"\n[bad]\nwater = \"50 %\"\n");
        assert_eq!(names(larder.iter()), ["good"]);
        assert_eq!(
            read.unwrap_err().to_string(),
            "line 3: ingredient \"bad\": the constituents add up to 50 %: they must close to 100 % within 0.5 %; name what is missing, `inert` for \
             solids that do not matter"
        );
    }

    #[test]
    fn an_unknown_name_leads_to_known_ones() {
        let larder =
            of("[glucose-syrup-de42]\nwater = \"100 %\"\n[glucose-syrup-de60]\nwater = \"100 %\"\n[sucrose]\nsucrose = \"100 %\"\n");
        let message = |name: &str| larder.get(name).unwrap_err().to_string();
        assert_eq!(
            message("glucose-syrup"),
            "`glucose-syrup` is not an ingredient known here: did you mean `glucose-syrup-de42` or `glucose-syrup-de60`?"
        );
        assert_eq!(message("sucrse"), "`sucrse` is not an ingredient known here: did you mean `sucrose`?");
        assert_eq!(message("pear"), "`pear` is not an ingredient known here: describe it under `[ingredient]`");
    }

    #[test]
    fn searching_takes_words_in_any_order() {
        let larder = of(
            "[cream-36]\ntitle = \"cream, 36 % fat\"\nwater = \"100 %\"\n[cream-19]\nwater = \"100 %\"\n[sour-cream]\nwater = \"100 %\"\n",
        );
        assert_eq!(names(larder.search("Cream")), ["cream-19", "cream-36", "sour-cream"]);
        assert_eq!(names(larder.search("fat cream")), ["cream-36"]);
        assert_eq!(names(larder.search("butter")), [""; 0]);
    }

    #[test]
    fn what_is_added_comes_first_and_leaves_the_rest_alone() {
        let base = of("[water]\nwater = \"100 %\"\n[sucrose]\nsucrose = \"100 %\"\n");
        let more = base.clone().with(Ingredient::declared("water", Composition::pure(Constituent::Inert)));
        assert!(Arc::ptr_eq(&base.shared, &more.shared));
        assert_eq!(more.get("water").unwrap().composition.of(Constituent::Inert), 1.0);
        assert_eq!(base.get("water").unwrap().composition.of(Constituent::Inert), 0.0);
        assert_eq!(names(more.iter()), ["water", "sucrose"]);
    }
}
