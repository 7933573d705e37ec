//! Allergens: what comes in, what the markets want declared, what promises it breaks.

use super::chocolate::Poured;
use super::{Assessed, Assessment, Quantity, QuantitySet, cap, shell};
use crate::law::allergen::{self, Ruling};
use crate::matter::{Allergen, AllergenSet, Exemption, Market};
use crate::piece::Piece;
use smallvec::SmallVec;

pub(super) fn assess(piece: &Piece, assessment: &mut Assessment) {
    let all = assessment.parts().fold(AllergenSet::EMPTY, |all, (_, part)| all.union(part.allergens));
    let incoming = Incoming::of(piece);
    assessment.to_declare_in.clear();
    assessment.to_declare_in.extend(piece.markets.iter().filter_map(|market| Some((*market, due_in(&incoming, all, *market)?))));
    // Where no market's list is held, all there is inside is named.
    let due = assessment.to_declare_in.iter().map(|(_, due)| *due).reduce(AllergenSet::union);
    assessment.to_declare = due.unwrap_or(all);
    assessment.broken_promises = piece.free_from.intersection(all.union(piece.workshop.shared_equipment));
    let held = piece.markets.iter().all(|market| allergen::declared(*market).is_some());
    let (due, broken) = (assessment.to_declare, assessment.broken_promises);
    let incomplete = unknown_ingredients(piece);
    let whole = &mut assessment.whole;
    whole.allergens = all;
    // One that is found must be declared whatever else may be found.
    let to_declare = match (due.is_empty(), held) {
        (true, false) => Assessed::Missing(incomplete.union(QuantitySet::of(Quantity::AllergenLists))),
        (true, true) if !incomplete.is_empty() => Assessed::Missing(incomplete),
        _ => Assessed::declared(f64::from(due.len())),
    };
    // Where nothing can be cleared, it does not matter by what list.
    let recalled =
        to_declare.then(|_| Assessed::declared(piece.markets.iter().filter(|market| incoming.is_recalled(**market)).count() as f64));
    whole.put(Quantity::AllergensToDeclare, to_declare);
    whole.put(Quantity::RecalledAllergenLists, recalled);
    whole.put(Quantity::AllergenLists, if held { Assessed::declared(1.0) } else { Assessed::lacking(Quantity::AllergenLists) });
    whole.put(Quantity::Ingredients, if incomplete.is_empty() { Assessed::declared(1.0) } else { Assessed::Missing(incomplete) });
    if !piece.free_from.is_empty() {
        whole.put(Quantity::BrokenPromises, broken_promises(piece, broken, incomplete));
    }
}

/// What a market wants declared of all that comes in, exempt forms left out where nothing else brings it; none where no list of it is held.
fn due_in(incoming: &Incoming, all: AllergenSet, market: Market) -> Option<AllergenSet> {
    allergen::declared(market).map(|listed| listed.intersection(all).intersection(incoming.unexempt(market)))
}

/// The allergens that come in.
#[derive(Default)]
struct Incoming {
    /// Those in a form that no market exempts.
    plain: AllergenSet,
    /// Those in a form that a market may exempt.
    formed: SmallVec<[(Exemption, AllergenSet); 4]>,
}

impl Incoming {
    fn of(piece: &Piece) -> Self {
        let mut incoming = Self::default();
        each(piece, |allergens, form| match form {
            None => incoming.plain = incoming.plain.union(allergens),
            Some(form) => incoming.formed.push((form, allergens)),
        });
        incoming
    }

    fn rulings(&self, market: Market) -> impl Iterator<Item = (Allergen, Ruling)> + '_ {
        let each = |(form, allergens): &(Exemption, AllergenSet)| (*form, *allergens);
        self.formed.iter().map(each).flat_map(move |(form, allergens)| {
            allergens.iter().map(move |allergen| (allergen, allergen::ruling(market, allergen, Some(form))))
        })
    }

    /// All of them, exempt forms left out.
    fn unexempt(&self, market: Market) -> AllergenSet {
        let kept = self.rulings(market).filter(|(_, ruling)| !matches!(ruling, Ruling::Exempt(_)));
        self.plain.union(kept.map(|(allergen, _)| allergen).collect())
    }

    /// Whether what is told of a market rests on a list from memory, or on an exemption from memory.
    fn is_recalled(&self, market: Market) -> bool {
        let plain = self.plain.intersection(allergen::recalled(market));
        let listed = || allergen::lists(market).next().is_some() && allergen::lists(market).all(allergen::AllergenList::is_recalled);
        !plain.is_empty() || self.rulings(market).any(|(_, ruling)| ruling.is_recalled()) || listed()
    }
}

/// Every ingredient's allergens, and the form they come in.
fn each(piece: &Piece, mut tell: impl FnMut(AllergenSet, Option<Exemption>)) {
    let mut tell_poured = |poured: Poured<'_>| {
        tell(poured.chocolate.allergens, poured.chocolate.exempt);
        poured.stirred_in.iter().for_each(|added| tell(added.ingredient.allergens, added.ingredient.exempt));
        poured.emulsifiers.iter().filter_map(|emulsifier| emulsifier.source).for_each(|source| tell(source.allergens(), None));
    };
    shell::poured(piece).into_iter().for_each(&mut tell_poured);
    if piece.cap.is_some() {
        cap::poured(piece).into_iter().for_each(tell_poured);
    }
    for line in piece.layers.iter().filter_map(|layer| layer.recipe.as_ref()).flat_map(|recipe| recipe.lines()) {
        tell(line.ingredient.allergens, line.ingredient.exempt);
    }
}

/// What hides what comes in: a layer without a recipe.
fn unknown_ingredients(piece: &Piece) -> QuantitySet {
    let hidden = piece.layers.iter().any(|layer| layer.recipe.is_none());
    if hidden { QuantitySet::of(Quantity::Ingredients) } else { QuantitySet::default() }
}

/// How many promises are broken; not to be told where none is found and something hides.
fn broken_promises(piece: &Piece, broken: AllergenSet, incomplete: QuantitySet) -> Assessed {
    let soy_free = !piece.free_from.intersection(AllergenSet::of(&[Allergen::Soy])).is_empty();
    let doubtful = || [shell::poured(piece), cap::poured(piece)].iter().flatten().any(|poured| poured.has_lecithin_of_unknown_plant());
    let of_lecithin = if soy_free && doubtful() { QuantitySet::of(Quantity::BrokenPromises) } else { QuantitySet::default() };
    let hidden = incomplete.union(of_lecithin);
    if broken.is_empty() && !hidden.is_empty() { Assessed::Missing(hidden) } else { Assessed::declared(f64::from(broken.len())) }
}
