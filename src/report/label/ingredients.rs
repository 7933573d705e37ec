//! The ingredient list: in descending order of weight, with what compound ingredients are made of and what additives do.

use super::Line;
use super::allergens::emphasised;
use super::makeup::{self, Makeup, Use};
use super::subject::Subject;
use crate::law::labelling::{self, LabelRule};
use crate::matter::{AdditiveClass, AllergenSet, Component, Exemption, Ingredient, Market};
use crate::piece::Barrier;
use crate::units::{Checked, Choice, choices};

/// The ingredients of a piece, in the order of the label.
#[derive(Debug, Clone, PartialEq)]
pub struct IngredientList {
    /// The market.
    pub market: Market,
    /// The ingredients, by the weight that the market orders them by, most first.
    pub entries: Vec<Entry>,
    /// The share up to which the last of them stand together under "contains ... or less of", or may stand in any order.
    pub small: Option<f64>,
    /// Added water that is left in the finished piece, as a share of it.
    pub added_water: f64,
    /// Whether the list leaves added water out, as it may.
    pub omits_water: bool,
}

/// One ingredient.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Its name, and what must stand with it.
    pub named: Named,
    /// What it is made of, if of several things.
    pub contains: Vec<Named>,
    /// Its weight as a share of the finished piece: as it goes in, or, of added water, as it is left.
    pub share: f64,
    /// The quantity that stands with it, if it is stressed.
    pub quantity: Option<String>,
    /// The larder's names of what is taken together here.
    pub ingredients: Vec<String>,
    /// Where it stands.
    pub group: Group,
}

choices! {
    /// Where an ingredient stands in the list.
    Group: "a group of a list" {
        /// By its own weight.
        Own "own",
        /// In brackets with the other sugars, where the weight of all of them puts it.
        Sugars "sugars",
        /// With the additives, after all else.
        Additives "additives",
    }
}

/// A name on a label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// The name as the market knows it.
    pub label: String,
    /// The class of an additive, where the market wants it named.
    pub class: Option<AdditiveClass>,
    /// The number of an additive.
    pub additive: Option<String>,
    /// The allergens it brings.
    pub allergens: AllergenSet,
    /// The form they come in, if some market exempts it.
    pub exempt: Option<Exemption>,
}

impl Named {
    fn of(component: &Component, market: Market, exempt: Option<Exemption>) -> Self {
        let label = labelling::name(market, &component.label).map_or(component.label.as_str(), |(name, _)| name);
        let classed = labelling::row(market, LabelRule::AdditiveClass).is_some();
        Self {
            label: label.to_owned(),
            class: component.class.filter(|_| classed),
            additive: component.additive.clone(),
            allergens: component.allergens,
            exempt,
        }
    }

    /// The name with its class, and with what must be emphasised in capitals: `emulsifier: SOY lecithin`.
    #[must_use]
    pub fn text(&self, market: Market) -> String {
        let (name, _) = emphasised(market, &self.label, self.allergens, self.exempt);
        match self.class {
            Some(class) => format!("{}: {name}", class.key().replace('-', " ")),
            None => name,
        }
    }

    /// The words of the name that must be emphasised.
    #[must_use]
    pub fn emphasised(&self, market: Market) -> Vec<String> {
        emphasised(market, &self.label, self.allergens, self.exempt).1
    }
}

impl Entry {
    /// Its name with the allergens that none of its parts tells: what the parts say need not be said of the whole.
    #[must_use]
    pub fn own(&self) -> Named {
        let told = self.contains.iter().fold(AllergenSet::EMPTY, |all, part| all.union(part.allergens));
        Named { allergens: self.named.allergens.without(told), ..self.named.clone() }
    }

    /// The ingredient as the list has it.
    #[must_use]
    pub fn text(&self, market: Market) -> String {
        let mut text = self.own().text(market);
        if !self.contains.is_empty() {
            let parts: Vec<_> = self.contains.iter().map(|part| part.text(market)).collect();
            text = format!("{text} ({})", parts.join(", "));
        }
        match &self.quantity {
            Some(quantity) => format!("{text} ({quantity})"),
            None => text,
        }
    }
}

impl IngredientList {
    /// Those of at most this share of the finished piece.
    pub fn up_to(&self, share: f64) -> impl Iterator<Item = &Entry> {
        self.entries.iter().filter(move |entry| entry.share <= share * (1.0 + 1e-9))
    }

    /// Those that may stand at the end in any order.
    pub fn free(&self) -> impl Iterator<Item = &Entry> {
        let small = labelling::row(self.market, LabelRule::SmallAmounts).zip(self.small);
        self.entries.iter().filter(move |entry| small.is_some_and(|(row, limit)| row.is_within(entry.share, limit)))
    }

    /// The list as it is printed; what must be emphasised stands in capitals.
    #[must_use]
    pub fn text(&self) -> String {
        let small: Vec<_> = if self.market == Market::Us { self.free().map(|entry| entry.text(self.market)).collect() } else { Vec::new() };
        let large = self.entries.get(..self.entries.len() - small.len()).unwrap_or_default();
        let of = |group: Group| large.iter().filter(move |entry| entry.group == group);
        let sugars: Vec<_> = of(Group::Sugars).map(|entry| entry.text(self.market)).collect();
        let sweet: f64 = of(Group::Sugars).map(|entry| entry.share).sum();
        let mut words: Vec<_> = of(Group::Own).map(|entry| (entry.share, entry.text(self.market))).collect();
        if !sugars.is_empty() {
            let place = words.iter().position(|(share, _)| *share < sweet).unwrap_or(words.len());
            words.insert(place, (sweet, format!("sugars ({})", sugars.join(", "))));
        }
        let mut text = words.into_iter().map(|(_, text)| text).collect::<Vec<_>>().join(", ");
        let additives: Vec<_> = of(Group::Additives).map(|entry| entry.text(self.market)).collect();
        if !additives.is_empty() {
            text = format!("{text} / {}", additives.join(", "));
        }
        if let (false, Some(limit)) = (small.is_empty(), self.small) {
            text = format!("{text}. Contains {} or less of: {}", percent(limit).replace(" %", "%"), small.join(", "));
        }
        format!("{text}.")
    }
}

/// The ingredient list of a piece or a box.
pub(super) fn list(subject: &Subject<'_>, quantities: &[super::StressedQuantity], market: Market) -> Line<IngredientList> {
    let Some(order) = labelling::row(market, LabelRule::Order) else { return Line::no_rule("ingredient lists") };
    let makeup = match subject.makeup() {
        Ok(makeup) => makeup,
        Err(lacks) => return Line::unknown(lacks),
    };
    let water = labelling::row(market, LabelRule::AddedWater);
    let added_water = makeup.added_water / makeup.finished;
    let omits_water = water.is_some_and(|row| row.is_within(added_water, row.limit()));
    let mut entries: Vec<Entry> = Vec::new();
    for used in &makeup.uses {
        let is_water = makeup::is_water(&used.ingredient);
        if is_water && omits_water {
            continue;
        }
        // Where no rule says otherwise, water counts as it goes in.
        let share = if is_water && water.is_some() { added_water } else { used.mixed / makeup.finished };
        add(&mut entries, used, share, market);
    }
    entries.sort_by(|one, two| two.share.total_cmp(&one.share));
    for entry in &mut entries {
        entry.quantity = super::quantity::beside(subject, entry, quantities);
    }
    let list = IngredientList { market, small: small(&entries, market), entries, added_water, omits_water };
    remarks(Line::known(list).by(&order.citation), subject, makeup, market)
}

/// Adds what is used to the entry of the same name and make, or as a new one.
fn add(entries: &mut Vec<Entry>, used: &Use, share: f64, market: Market) {
    let ingredient = &used.ingredient;
    let named = Named::of(&as_component(ingredient), market, ingredient.exempt);
    let contains: Vec<_> = components(ingredient).iter().map(|component| Named::of(component, market, None)).collect();
    match entries.iter_mut().find(|entry| entry.named == named && entry.contains == contains) {
        Some(entry) => {
            entry.share += share;
            entry.ingredients.push(ingredient.name.clone());
        }
        None => {
            let (group, ingredients) = (group(ingredient, market), vec![ingredient.name.clone()]);
            entries.push(Entry { named, contains, share, quantity: None, ingredients, group });
        }
    }
}

/// Where the market wants an ingredient to stand.
fn group(ingredient: &Ingredient, market: Market) -> Group {
    let rule = |rule| labelling::row(market, rule).is_some();
    if rule(LabelRule::SugarsGrouped) && ingredient.is_sweetening() {
        Group::Sugars
    } else if rule(LabelRule::AdditivesApart) && ingredient.additive.is_some() {
        Group::Additives
    } else {
        Group::Own
    }
}

fn as_component(ingredient: &Ingredient) -> Component {
    Component {
        label: ingredient.label.clone(),
        allergens: ingredient.allergens,
        additive: ingredient.additive.clone(),
        class: ingredient.class,
    }
}

/// What an ingredient is made of: its own list, and the emulsifiers of its sheet.
fn components(ingredient: &Ingredient) -> Vec<Component> {
    let sheet = ingredient.chocolate.iter().flat_map(|sheet| &sheet.emulsifiers);
    let emulsifiers = sheet.filter(|emulsifier| emulsifier.dose.base() > 0.0).map(makeup::named);
    // Without the list itself, the emulsifiers alone would pass for it.
    let emulsifiers = emulsifiers.filter(|_| !ingredient.contains.is_empty());
    ingredient.contains.iter().cloned().chain(emulsifiers).collect()
}

/// The figure of the group of small amounts: the smallest that the market allows and that all of them keep to.
fn small(entries: &[Entry], market: Market) -> Option<f64> {
    let row = labelling::row(market, LabelRule::SmallAmounts)?;
    let within = |limit: f64| entries.iter().map(|entry| entry.share).filter(move |share| row.is_within(*share, limit));
    let largest = within(row.limit()).reduce(f64::max)?;
    row.limits.iter().copied().filter(|limit| row.is_within(largest, *limit)).reduce(f64::min)
}

/// What lacks in the list, the rules it follows, and what to mind.
fn remarks(mut line: Line<IngredientList>, subject: &Subject<'_>, makeup: &Makeup, market: Market) -> Line<IngredientList> {
    let rule = |rule| labelling::row(market, rule);
    let has_compound = makeup.uses.iter().any(|used| !components(&used.ingredient).is_empty());
    let has_additive = makeup.uses.iter().any(|used| {
        used.ingredient.additive.is_some() || components(&used.ingredient).iter().any(|component| component.additive.is_some())
    });
    for row in [
        LabelRule::SmallAmounts,
        LabelRule::AddedWater,
        LabelRule::Compound,
        LabelRule::AdditiveClass,
        LabelRule::AdditiveName,
        LabelRule::AdditivesApart,
        LabelRule::SugarsGrouped,
    ]
    .into_iter()
    .filter_map(rule)
    {
        line = line.by(&row.citation);
    }
    if has_compound && rule(LabelRule::Compound).is_none() {
        line.unknown.push("how compound ingredients are told, here in brackets: no rule of this market is held here".into());
    }
    if has_additive && [LabelRule::AdditiveClass, LabelRule::AdditiveName].into_iter().filter_map(rule).next().is_none() {
        line.unknown.push("whether additives stand with a class, here by their names alone: no rule of this market is held here".into());
    }
    if let (true, Some(row)) = (has_additive, rule(LabelRule::AdditivesLast)) {
        line.notes.push("food additives may also stand at the end in any order".into());
        line = line.by(&row.citation);
    }
    if let (true, Some(row)) = (makeup.uses.iter().any(|used| is_lecithin(&used.ingredient)), rule(LabelRule::LecithinPlant)) {
        line.notes.push("a lecithin is named with its plant: soy lecithin, sunflower lecithin".into());
        line = line.by(&row.citation);
    }
    for used in &makeup.uses {
        let ingredient = &used.ingredient;
        let (parts, title) = (components(ingredient), &ingredient.title);
        if (ingredient.compound || ingredient.chocolate.is_some()) && parts.is_empty() {
            line.unknown.push(format!("what {title} is made of (contains)"));
        }
        let told = parts.iter().fold(AllergenSet::EMPTY, |all, part| all.union(part.allergens));
        if !parts.is_empty() && !ingredient.allergens.without(told).is_empty() {
            let hidden: Vec<_> = ingredient.allergens.without(told).iter().map(Choice::key).collect();
            line.unknown.push(format!("what of {title} brings {} (allergens, in contains)", hidden.join(", ")));
        }
        if ingredient.additive.is_some() && ingredient.class.is_none() && rule(LabelRule::AdditiveClass).is_some() {
            line.unknown.push(format!("what {title} does in the food (class)"));
        }
        if makeup::is_volatile(ingredient) && used.boiled > 0.0 {
            line.unknown.push(format!("how much of {title} is left after boiling"));
        }
    }
    if let (Some(row), Some(list)) = (rule(LabelRule::CompoundSmall), &line.value) {
        let small = list.entries.iter().filter(|entry| !entry.contains.is_empty() && row.is_within(entry.share, row.limit()));
        let notes: Vec<_> = small
            .map(|entry| {
                let label = &entry.named.label;
                format!("{label} is less than {}: if the law defines it, as it does chocolate and jam, its own list may stay away, not its allergens and its additives", percent(row.limit()))
            })
            .collect();
        if !notes.is_empty() {
            line.notes.extend(notes);
            line = line.by(&row.citation);
        }
    }
    let films = [(Barrier::CocoaButter, "cocoa butter"), (Barrier::Chocolate, "chocolate")];
    for (_, film) in films.iter().filter(|(of, _)| makeup.films.iter().any(|film| film.of == *of)) {
        line.notes.push(format!(
            "a film of {film} lies between layers: nobody weighed it, so it is in no figure here; see that it is in the list"
        ));
    }
    if makeup.uses.iter().any(|used| makeup::is_water(&used.ingredient)) {
        line.notes.push(match &line.value {
            Some(list) if list.omits_water => format!("added water left in the piece is {}: it may be left out", percent(list.added_water)),
            Some(_) if rule(LabelRule::AddedWater).is_none() => {
                "no rule on water that boils off is held here: it counts as it went in".into()
            }
            _ => "added water counts as it is left in the finished piece".into(),
        });
    }
    if let (true, row) = (subject.is_box, rule(LabelRule::Assortment)) {
        match row {
            Some(row) => {
                line.notes.push("chocolates of several kinds in a box may bear one list, of all pieces together".into());
                line = line.by(&row.citation);
            }
            None => line.unknown.push("whether several kinds in a box may bear one list: no rule of this market is held here".into()),
        }
    }
    if market == Market::Us && subject.parts.iter().any(|part| part.piece.shell.is_some()) {
        line.notes.push("names are the trade's; see that each is the common or usual name of the market".into());
    }
    line
}

/// Whether it is a lecithin or holds one.
fn is_lecithin(ingredient: &Ingredient) -> bool {
    let numbers = components(ingredient).into_iter().map(|component| component.additive).chain([ingredient.additive.clone()]);
    numbers.flatten().any(|number| number == "E 322")
}

/// A share in per cent, as a label has it.
pub(super) fn percent(share: f64) -> String {
    let tenths = (share * 1000.0 + 1e-6).round() / 10.0;
    if tenths.fract().abs() < 1e-9 { format!("{tenths:.0} %") } else { format!("{tenths:.1} %") }
}
