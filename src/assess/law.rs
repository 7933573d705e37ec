//! What the law counts: the composition of the chocolate itself, additives, alcohol and polyols of the whole piece. Arithmetic; nothing is judged.

use super::alcohol::{self, strength};
use super::chocolate::Poured;
use super::{Assessed, Assessment, Estimate, Evidence, PartAssessment, Quantity, QuantitySet};
use crate::law::{Additive, Category, Term};
use crate::matter::{AdditiveClass, Allergen, AllergenSet, Constituent, Ingredient, Recipe, Role};
use crate::piece::Piece;
use crate::units::{Band, Checked, Choice};

/// What part of chocolate liquor is no fat, inverted: 21 CFR 163 reckons liquor as 2.2 times its fat-free part.
const LIQUOR: f64 = 2.2;
/// Fat that makes a cocoa mass chocolate liquor (21 CFR 163.111).
const FAT_OF_LIQUOR: std::ops::RangeInclusive<f64> = 0.5..=0.6;
/// Cocoa mass holds up to 2 % of water beside some 44.5 % of dry fat-free cocoa, and the US counts that water as liquor (recalled).
const WATER_OF_LIQUOR: f64 = 2.0 / 44.5;
/// Dry fat-free cocoa in cocoa powder, from the fattest to the leanest (recalled).
const COCOA_OF_POWDER: (f64, f64) = (0.70, 0.90);
/// Lactose per milk protein in milk powder (USDA SR28, NDB 01091).
const LACTOSE_OF_PROTEIN: f64 = 51.98 / 36.16;
/// Share of the dry matter that must be cocoa, sugar, milk or plain fat: with more of anything else it is other edible matter.
const CHOCOLATE_MATTER: f64 = 0.9;
/// With more vegetable fat than this nothing is chocolate anywhere (CXS 87-1981 section 2; Directive 2000/36/EC, Art 2(1)).
const OTHER_FAT_OF_CHOCOLATE: f64 = 0.05;
/// Below this a share is rounding.
const NOTHING: f64 = 1e-9;

/// What the law counts in a chocolate, as masses: the chocolate itself, other edible matter apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChocolateLaw {
    net: f64,
    other: f64,
    nuts: f64,
    hazelnut: f64,
    cocoa_butter: f64,
    fat_free_cocoa: f64,
    milk_fat: f64,
    milk_rest: Band<f64>,
    vegetable_fat: f64,
    sugars: Band<f64>,
    liquor: Band<f64>,
    liquor_declared: bool,
    whey: Option<f64>,
    coloured: Option<f64>,
}

impl ChocolateLaw {
    const NOTHING: Self = Self {
        net: 0.0,
        other: 0.0,
        nuts: 0.0,
        hazelnut: 0.0,
        cocoa_butter: 0.0,
        fat_free_cocoa: 0.0,
        milk_fat: 0.0,
        milk_rest: Band::exact(0.0),
        vegetable_fat: 0.0,
        sugars: Band::exact(0.0),
        liquor: Band::exact(0.0),
        liquor_declared: true,
        whey: Some(0.0),
        coloured: Some(0.0),
    };

    /// Counts what a chocolate is mixed from, each with its mass in any common unit. Cocoa mass, cocoa powder, milk, sugar and plain fats are told
    /// by what they are made of; whatever else goes in is other edible matter.
    #[must_use]
    pub fn of<'a>(parts: impl IntoIterator<Item = (&'a Ingredient, f64)>) -> Self {
        let mut counted = Self::NOTHING;
        for (ingredient, mass) in parts {
            counted.add(ingredient, mass);
        }
        counted
    }

    fn add(&mut self, ingredient: &Ingredient, mass: f64) {
        self.coloured = self.coloured.zip(is_coloured(ingredient)).map(|(all, coloured)| all + if coloured { mass } else { 0.0 });
        if is_other_edible(ingredient) {
            let is_nut = |nuts: AllergenSet| !ingredient.allergens.intersection(nuts).is_empty();
            self.other += mass;
            self.nuts += if is_nut(AllergenSet::NUTS) { mass } else { 0.0 };
            self.hazelnut += if is_nut(AllergenSet::of(&[Allergen::Hazelnut])) { mass } else { 0.0 };
            return;
        }
        let of = |constituent| mass * ingredient.composition.of(constituent);
        let (lactose, protein) = (of(Constituent::Lactose), of(Constituent::MilkProtein));
        let unsplit = of(Constituent::UnsplitMilkSugars);
        // What of the unsplit sugars is lactose follows best from the protein, and lies anywhere from none to all.
        let hidden = Band { value: (LACTOSE_OF_PROTEIN * protein - lactose).clamp(0.0, unsplit), low: 0.0, high: unsplit };
        let milk_rest = lactose + protein + of(Constituent::MilkSalts);
        let milk_fat = of(Constituent::MilkFat);
        self.net += mass;
        self.cocoa_butter += of(Constituent::CocoaButter);
        self.fat_free_cocoa += of(Constituent::FatFreeCocoa);
        self.milk_fat += milk_fat;
        self.milk_rest = plus(self.milk_rest, hidden.map(|hidden| milk_rest + hidden));
        let sugars = mass * ingredient.composition.of_role(Role::Sugar) - lactose;
        self.sugars = plus(self.sugars, Band { value: sugars - hidden.value, low: sugars - hidden.high, high: sugars - hidden.low });
        self.vegetable_fat += mass * vegetable_fat(ingredient);
        self.add_liquor(ingredient, mass);
        let milk = milk_fat + milk_rest + unsplit > NOTHING * mass;
        let whey = match &ingredient.chocolate {
            Some(sheet) => sheet.whey.map(|whey| mass * whey.base()).or((!milk).then_some(0.0)),
            None if ingredient.label.contains("whey") => Some(mass),
            None => Some(0.0),
        };
        self.whey = self.whey.zip(whey).map(|(all, more)| all + more);
    }

    /// What of the cocoa is the fat-free part of chocolate liquor, as the US counts it.
    fn add_liquor(&mut self, ingredient: &Ingredient, mass: f64) {
        let cocoa = mass * ingredient.composition.of(Constituent::FatFreeCocoa);
        if cocoa <= NOTHING * mass {
            return;
        }
        let Some(sheet) = &ingredient.chocolate else {
            let butter = ingredient.composition.of(Constituent::CocoaButter);
            if FAT_OF_LIQUOR.contains(&butter) {
                self.liquor = plus(self.liquor, Band::exact(mass * (1.0 - butter)));
            }
            return;
        };
        let powder = match sheet.cocoa_powder {
            Some(powder) => {
                let (least, most) = COCOA_OF_POWDER;
                let powder = mass * powder.base();
                Band { value: f64::midpoint(least, most) * powder, low: least * powder, high: most * powder }
            }
            None => {
                self.liquor_declared = false;
                Band { value: 0.0, low: 0.0, high: cocoa }
            }
        };
        let left = |powder: f64| (cocoa - powder).max(0.0);
        let dry = Band { value: left(powder.value), low: left(powder.high), high: left(powder.low) };
        self.liquor = plus(self.liquor, Band { high: dry.high * (1.0 + WATER_OF_LIQUOR), ..dry });
    }

    /// A term, as the law counts it.
    #[must_use]
    pub fn get(&self, term: Term) -> Assessed {
        let asked = Quantity::of_term(term);
        let mut counted = Assessed::Absent;
        self.tell(|quantity, assessed| {
            if quantity == asked {
                counted = assessed;
            }
        });
        counted
    }

    /// Every term that is counted in a chocolate, as the law counts it; none where there is no chocolate.
    fn tell(&self, mut tell: impl FnMut(Quantity, Assessed)) {
        if self.net <= 0.0 {
            return;
        }
        let (of_net, of_whole) = (1.0 / self.net, 1.0 / (self.net + self.other));
        let net = |mass: f64| Assessed::declared(mass * of_net);
        let whole = |mass: f64| Assessed::declared(mass * of_whole);
        let banded = |band: Band<f64>, share: f64| by_arithmetic(band.map(|mass| mass * share));
        let milk = self.milk_rest.map(|rest| rest + self.milk_fat);
        let liquor = banded(self.liquor.map(|fat_free| LIQUOR * fat_free), of_net);
        let liquor = if self.liquor_declared { liquor } else { Estimate { evidence: Evidence::Assumed, ..liquor } };
        tell(Quantity::NetCocoa, net(self.cocoa_butter + self.fat_free_cocoa));
        tell(Quantity::NetCocoaButter, net(self.cocoa_butter));
        tell(Quantity::NetFatFreeCocoa, net(self.fat_free_cocoa));
        tell(Quantity::NetMilkFat, net(self.milk_fat));
        tell(Quantity::NetFat, net(self.cocoa_butter + self.milk_fat));
        tell(Quantity::NetMilkSolids, Assessed::Known(banded(milk, of_net)));
        tell(Quantity::NetVegetableFat, net(self.vegetable_fat));
        tell(Quantity::NetSweeteners, Assessed::Known(banded(self.sugars, of_net)));
        tell(Quantity::Liquor, Assessed::Known(liquor));
        tell(Quantity::Whey, self.whey.map_or(Assessed::lacking(Quantity::Whey), net));
        tell(Quantity::OtherEdible, whole(self.other));
        tell(Quantity::Hazelnut, whole(self.hazelnut));
        tell(Quantity::Nuts, whole(self.nuts));
        tell(Quantity::Colours, self.coloured.map_or(Assessed::lacking(Quantity::Colours), whole));
        tell(Quantity::MilkOfWhole, Assessed::Known(banded(milk, of_whole)));
    }
}

impl Quantity {
    /// What a term of law limits.
    #[must_use]
    pub const fn of_term(term: Term) -> Self {
        match term {
            Term::TotalCocoa | Term::CocoaDerivatives => Self::NetCocoa,
            Term::CocoaButter => Self::NetCocoaButter,
            Term::FatFreeCocoa => Self::NetFatFreeCocoa,
            Term::MilkSolids => Self::NetMilkSolids,
            Term::MilkFat => Self::NetMilkFat,
            Term::TotalFat => Self::NetFat,
            Term::VegetableFat => Self::NetVegetableFat,
            Term::OtherEdible => Self::OtherEdible,
            Term::Liquor => Self::Liquor,
            Term::Sweeteners => Self::NetSweeteners,
            Term::Whey => Self::Whey,
            Term::Colours => Self::Colours,
            Term::MilkOfWhole => Self::MilkOfWhole,
            Term::Hazelnut => Self::Hazelnut,
            Term::Nuts => Self::Nuts,
            Term::OuterChocolate => Self::ChocolateShare,
            Term::Chocolate => Self::ChocolateInAll,
            Term::Additives => Self::Additives,
            Term::EthanolByMass => Self::EthanolByMass,
            Term::EthanolByVolume => Self::EthanolByVolume,
            Term::PureAlcohol => Self::PureAlcohol,
            Term::Spirit => Self::SpiritPerMass,
            Term::SpiritStrength => Self::StrongestSpirit,
            Term::PieceMass => Self::PieceMass,
            Term::Polyols => Self::AddedPolyols,
        }
    }
}

/// Whether an ingredient is a colour or holds one; none where nobody says what it is made of.
fn is_coloured(ingredient: &Ingredient) -> Option<bool> {
    let colours = ingredient.contains.iter().map(|part| part.class).chain([ingredient.class]);
    let listed = !ingredient.contains.is_empty() || !(ingredient.compound || ingredient.chocolate.is_some());
    listed.then_some(colours.flatten().any(|class| class == AdditiveClass::Colour))
}

/// Whether an ingredient is no part of the chocolate itself: neither cocoa, sugar, milk, plain fat nor emulsifier.
fn is_other_edible(ingredient: &Ingredient) -> bool {
    if ingredient.chocolate.is_some() {
        return false;
    }
    let composition = &ingredient.composition;
    let oil = composition.of(Constituent::LiquidOil);
    let plain_fat = composition.fat() >= 0.95 || is_emulsifier(ingredient);
    let own: f64 = [
        Constituent::CocoaButter,
        Constituent::FatFreeCocoa,
        Constituent::MilkFat,
        Constituent::MilkProtein,
        Constituent::MilkSalts,
        Constituent::LauricFat,
        Constituent::FirmFat,
    ]
    .into_iter()
    .map(|constituent| composition.of(constituent))
    .sum();
    let own = own
        + composition.of_role(Role::Sugar)
        + composition.of_role(Role::Saccharide)
        + composition.of_role(Role::Emulsifier)
        + if plain_fat { oil } else { 0.0 };
    // Honey and syrups are sugars; fruit and spirits are not, for all their sugar and water.
    own < CHOCOLATE_MATTER * composition.dry_matter().max(0.3)
}

fn is_emulsifier(ingredient: &Ingredient) -> bool {
    ingredient.composition.of_role(Role::Emulsifier) >= 0.3
}

/// Vegetable fat other than cocoa butter, of an ingredient; the oil that lecithin is dissolved in does not count.
fn vegetable_fat(ingredient: &Ingredient) -> f64 {
    if is_emulsifier(ingredient) {
        return 0.0;
    }
    let of = |constituent| ingredient.composition.of(constituent);
    let fat = of(Constituent::LauricFat) + of(Constituent::FirmFat) + (of(Constituent::LiquidOil) - ingredient.carrier_oil()).max(0.0);
    if fat < NOTHING { 0.0 } else { fat }
}

/// Puts what the law counts in the chocolate of a shell or a cap.
pub(super) fn assess_chocolate(part: &mut PartAssessment, poured: &Poured<'_>) {
    let stirred_in = poured.stirred_in.iter().map(|added| (&*added.ingredient, added.dose.base()));
    let mut counted = ChocolateLaw::of(std::iter::once((poured.chocolate, 1.0)).chain(stirred_in.clone()));
    counted.net += poured.emulsifiers.iter().map(|emulsifier| emulsifier.dose.base()).sum::<f64>();
    counted.tell(|quantity, assessed| part.put(quantity, assessed));
    let whole = counted.net + counted.other;
    let mut all = 0.0;
    let emulsifiers = poured.declared_emulsifiers().iter().chain(poured.emulsifiers);
    let doses = emulsifiers.map(|emulsifier| (Additive::of_emulsifier(emulsifier.kind), emulsifier.dose.base()));
    let others = stirred_in.filter_map(|(ingredient, dose)| Some((additive(ingredient)?, dose * ingredient.composition.dry_matter())));
    for (additive, dose) in doses.chain(others) {
        part.additives.add(additive, dose / whole);
        all += dose / whole;
    }
    let other_fat = counted.vegetable_fat > (OTHER_FAT_OF_CHOCOLATE + NOTHING) * counted.net;
    part.category = Some(if other_fat { Category::Compound } else { Category::Chocolate });
    part.lecithin_undeclared = poured.declared_emulsifiers().is_empty();
    part.put(Quantity::Additives, Assessed::declared(all));
}

fn additive(ingredient: &Ingredient) -> Option<Additive> {
    Additive::from_key(ingredient.additive.as_deref()?)
}

/// Puts the additives of a filling: those weighed in, and those its chocolate brings.
pub(super) fn assess_filling(part: &mut PartAssessment, recipe: &Recipe) {
    let whole = recipe.yielded();
    let mut all = 0.0;
    for line in recipe.lines() {
        let mut add = |additive, fraction: f64| {
            let share = fraction * line.mass.base() / whole;
            part.additives.add(additive, share);
            all += share;
        };
        if let Some(additive) = additive(&line.ingredient) {
            add(additive, line.ingredient.composition.dry_matter());
        }
        for emulsifier in line.ingredient.chocolate.iter().flat_map(|sheet| &sheet.emulsifiers) {
            add(Additive::of_emulsifier(emulsifier.kind), emulsifier.dose.base());
        }
    }
    part.put(Quantity::Additives, Assessed::declared(all));
}

/// Puts what the law counts in the whole piece; masses must have been put.
pub(super) fn assess_piece(piece: &Piece, assessment: &mut Assessment) {
    assessment.whole.category = assessment.shell.category;
    let mass = assessment.whole.get(Quantity::PieceMass);
    if piece.layers.is_empty() || mass == Assessed::Absent {
        return;
    }
    let masses = Masses { piece, assessment };
    // A coating of other fat is no chocolate.
    let in_all = masses.share(chocolate_of, assessment.shell.category != Some(Category::Compound));
    let polyols = masses.share(polyols_of, false);
    let whole = &mut assessment.whole;
    whole.put(Quantity::ChocolateInAll, in_all);
    if is_there(polyols) {
        whole.put(Quantity::AddedPolyols, polyols);
    }
    // Who uses no spirit is not asked about alcohol.
    if piece.layers.iter().any(|layer| layer.recipe.as_ref().is_none_or(|recipe| ethanol_of(recipe) > 0.0)) {
        assess_alcohol(piece, assessment);
    }
}

/// Puts what the law counts of the ethanol in the layers.
fn assess_alcohol(piece: &Piece, assessment: &mut Assessment) {
    let masses = Masses { piece, assessment };
    let ethanol = masses.share(ethanol_of, false);
    if !is_there(ethanol) {
        return;
    }
    let mass = masses.brought(ethanol_of);
    let spirit = masses.spirit(ethanol);
    let by_volume = mass.with(assessment.whole.get(Quantity::CavityVolume), |ethanol, volume| {
        Assessed::Known(Estimate { band: ethanol.band.map(|ethanol| alcohol::volume_of(ethanol) / volume.value()), ..ethanol })
    });
    let lines = piece.layers.iter().filter_map(|layer| layer.recipe.as_ref()).flat_map(|recipe| recipe.lines());
    let strongest = lines.map(|line| strength(&line.ingredient)).fold(0.0, f64::max);
    let whole = &mut assessment.whole;
    whole.put(Quantity::EthanolByMass, ethanol);
    whole.put(Quantity::EthanolMass, mass);
    whole.put(Quantity::EthanolByVolume, by_volume);
    whole.put(Quantity::PureAlcohol, scaled(ethanol, alcohol::volume_of(1.0)));
    whole.put(Quantity::SpiritPerMass, spirit);
    whole.put(Quantity::StrongestSpirit, ethanol.then(|_| Assessed::declared(strongest)));
}

/// Whether there is some, or may be.
fn is_there(share: Assessed) -> bool {
    share.value().is_none_or(|share| share > 0.0)
}

/// The parts of a piece by mass.
struct Masses<'a> {
    piece: &'a Piece,
    assessment: &'a Assessment,
}

impl Masses<'_> {
    /// What the layers bring of something, in kilograms.
    fn brought(&self, of: impl Fn(&Recipe) -> f64) -> Assessed {
        let (mut all, mut missing) = (Band::exact(0.0), QuantitySet::default());
        for (layer, part) in self.piece.layers.iter().zip(&self.assessment.layers) {
            let Some(recipe) = &layer.recipe else { return Assessed::lacking(Quantity::Composition) };
            match part.look(Quantity::LayerMass) {
                Assessed::Known(mass) => {
                    let share = of(recipe);
                    all = plus(all, mass.band.map(|mass| share * mass));
                }
                lacking => missing = missing.union(lacking.missing()),
            }
        }
        if missing.is_empty() { Assessed::Known(by_arithmetic(all)) } else { Assessed::Missing(missing) }
    }

    /// The same over the mass of the piece; shell and cap count as nothing but that, or not at all.
    fn share(&self, of: impl Fn(&Recipe) -> f64, with_chocolate: bool) -> Assessed {
        if self.piece.layers.iter().any(|layer| layer.recipe.is_none()) {
            return Assessed::lacking(Quantity::Composition);
        }
        let Assessment { whole, shell, cap, .. } = self.assessment;
        let outer = [shell.get(Quantity::ShellMass), cap.get(Quantity::CapMass)].into_iter().filter_map(Assessed::known);
        let outer = outer.filter(|_| with_chocolate).fold(Band::exact(0.0), |all, mass| plus(all, mass.band));
        // What the whole weighs is known only where all of it is.
        whole.get(Quantity::PieceMass).then(|whole| {
            self.brought(of).then(|brought| {
                let brought = plus(outer, brought.band);
                let share = |brought: f64, rest: f64| if brought > 0.0 { brought / (brought + rest) } else { 0.0 };
                Assessed::Known(by_arithmetic(Band {
                    value: share(brought.value, whole.band.value - brought.value),
                    low: share(brought.low, whole.band.high - brought.high),
                    high: share(brought.high, whole.band.low - brought.low),
                }))
            })
        })
    }

    /// The volume of the spirits as poured in, over the mass of the piece, from the share of their ethanol.
    fn spirit(&self, ethanol: Assessed) -> Assessed {
        let brought = |of: fn(&Recipe) -> f64| self.brought(of).value().unwrap_or(0.0);
        let (spirits, pure) = (brought(alcohol::spirit_of), brought(alcohol::pure_of));
        if pure > 0.0 { scaled(ethanol, alcohol::volume_of(1.0) * spirits / pure) } else { ethanol }
    }
}

fn ethanol_of(recipe: &Recipe) -> f64 {
    recipe.composition().of(Constituent::Ethanol)
}

/// Chocolate melted into a filling, of what comes out.
fn chocolate_of(recipe: &Recipe) -> f64 {
    (recipe.proportions().chocolate / recipe.yielded()).min(1.0)
}

/// Added polyols, of what comes out.
fn polyols_of(recipe: &Recipe) -> f64 {
    recipe.proportions().polyols / recipe.yielded()
}

fn scaled(assessed: Assessed, by: f64) -> Assessed {
    assessed.then(|known| Assessed::Known(Estimate { band: known.band.map(|value| by * value), ..known }))
}

/// Stated if it is exact, modelled if a model's band came in.
fn by_arithmetic(band: Band<f64>) -> Estimate {
    if band.high > band.low { Estimate::modelled(band) } else { Estimate::declared(band.value) }
}

fn plus(one: Band<f64>, two: Band<f64>) -> Band<f64> {
    Band { value: one.value + two.value, low: one.low + two.low, high: one.high + two.high }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests assert on known values")]
mod tests {
    use super::*;
    use crate::matter::{Composition, RecipeLine};
    use crate::piece::Layer;
    use crate::units::Portion;
    use approx::assert_relative_eq;
    use std::sync::Arc;

    #[test]
    fn a_share_of_the_piece_has_the_ends_of_what_is_brought_over_those_of_the_rest() {
        let spirit = Ingredient::declared("trial", Composition::pure(Constituent::Ethanol));
        let line = RecipeLine { ingredient: Arc::new(spirit), mass: Portion::from_base(0.1).unwrap() };
        let mut layer = Layer::named("spirit");
        layer.recipe = Some(Recipe::new(vec![line], None).unwrap());
        let piece = Piece::named("trial").with_layer(layer);
        let mut assessment = super::super::assess(&piece);
        let known = |value, low, high| Assessed::Known(Estimate::modelled(Band { value, low, high }));
        assessment.layers.iter_mut().for_each(|layer| layer.put(Quantity::LayerMass, known(2.0, 1.0, 3.0)));
        // The rest weighs 8, from 7 to 10.
        assessment.whole.put(Quantity::PieceMass, known(10.0, 8.0, 13.0));
        let share = Masses { piece: &piece, assessment: &assessment }.share(ethanol_of, false).known().unwrap().band;
        for (found, meant) in [(share.value, 2.0 / 10.0), (share.low, 1.0 / (1.0 + 10.0)), (share.high, 3.0 / (3.0 + 7.0))] {
            assert_relative_eq!(found, meant, max_relative = 1e-12);
        }
    }
}
