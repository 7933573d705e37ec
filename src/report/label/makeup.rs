//! What a piece or a box is made of, weighed as it goes in.

use crate::assess::{Assessment, PartAssessment, Quantity, QuantitySet};
use crate::matter::{
    AdditiveClass, AllergenSet, Component, Composition, Constituent, Emulsifier, EmulsifierKind, EmulsifierSource, Ingredient, Known,
    RecipeLine,
};
use crate::piece::{Barrier, Piece, Seed, SeedKind, StirredIn};
use crate::units::{Checked, MassFraction};
use std::sync::Arc;

/// One thing that goes in, all parts taken together. Masses are for one piece or one box, in kilograms; of a filling described alone, for one
/// kilogram of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Use {
    /// What.
    pub ingredient: Arc<Ingredient>,
    /// How much goes in.
    pub mixed: f64,
    /// How much of it goes into a part that is boiled, so that what is volatile in it may leave.
    pub boiled: f64,
}

/// All that goes into a piece or a box.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Makeup {
    /// The ingredients, most first.
    pub uses: Vec<Use>,
    /// The mass of what they make, in kilograms.
    pub finished: f64,
    /// Water added as such that is left, in kilograms: the mass of a piece less that of all else that went into it.
    pub added_water: f64,
    /// Films that nobody weighed: their ingredients stand in no mass here.
    pub films: Vec<Film>,
}

/// A film between layers whose mass is not described.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Film {
    /// What it is of.
    pub of: Barrier,
}

impl Makeup {
    /// What goes into a piece.
    ///
    /// # Errors
    /// What lacks to tell.
    pub(super) fn of(piece: &Piece, assessment: &Assessment) -> Result<Self, String> {
        let mut makeup = Self::default();
        let alone = piece.mould.is_none() && piece.shell.is_none() && piece.cap.is_none();
        match (alone, piece.layers.as_slice()) {
            (true, [layer]) if layer.amount.is_none() => {
                let recipe = layer.recipe.as_ref().ok_or_else(|| no_recipe(&layer.name))?;
                makeup.layer(recipe.lines(), recipe.cooked_to().is_some(), 1.0 / recipe.yielded());
                makeup.finished = 1.0;
            }
            _ => makeup.parts(piece, assessment)?,
        }
        makeup.uses.sort_by(|one, two| two.mixed.total_cmp(&one.mixed));
        let others: f64 = makeup.uses.iter().filter(|used| !is_water(&used.ingredient)).map(|used| used.mixed).sum();
        makeup.added_water = (makeup.finished - others).max(0.0);
        Ok(makeup)
    }

    fn parts(&mut self, piece: &Piece, assessment: &Assessment) -> Result<(), String> {
        let lacks = |missing: QuantitySet| missing.iter().map(Quantity::ask).collect::<Vec<_>>().join("; ");
        let mass = |part: &PartAssessment, quantity: Quantity| {
            let assessed = part.get(quantity);
            assessed
                .value()
                .ok_or_else(|| if assessed.missing().is_empty() { quantity.ask().to_owned() } else { lacks(assessed.missing()) })
        };
        if let Some(shell) = &piece.shell {
            let shell_mass = mass(&assessment.shell, Quantity::ShellMass)?;
            self.chocolate(&shell.chocolate, &shell.stirred_in, &shell.emulsifiers, shell.seed, shell_mass);
        }
        // As the assessment has it: a cap is poured from the shell's chocolate as it stands, unless it names its own.
        let cap = piece.cap.clone().unwrap_or_default();
        let shell = piece.shell.as_ref().filter(|_| cap.chocolate.is_none());
        if let Some(chocolate) = cap.chocolate.as_ref().or(shell.map(|shell| &shell.chocolate)) {
            let cap_mass = mass(&assessment.cap, Quantity::CapMass)?;
            let stirred_in = shell.filter(|_| cap.stirred_in.is_empty()).map_or(&cap.stirred_in, |shell| &shell.stirred_in);
            let emulsifiers = shell.filter(|_| cap.emulsifiers.is_empty()).map_or(&cap.emulsifiers, |shell| &shell.emulsifiers);
            self.chocolate(chocolate, stirred_in, emulsifiers, shell.and_then(|shell| shell.seed), cap_mass);
        }
        for (layer, part) in piece.layers.iter().zip(&assessment.layers) {
            let recipe = layer.recipe.as_ref().ok_or_else(|| no_recipe(&layer.name))?;
            let layer_mass = mass(part, Quantity::LayerMass)?;
            self.layer(recipe.lines(), recipe.cooked_to().is_some(), layer_mass / recipe.yielded());
            self.finished += layer_mass;
            self.films.extend(layer.barrier.map(|of| Film { of }));
        }
        if self.finished > 0.0 { Ok(()) } else { Err("a shell or a layer".into()) }
    }

    fn layer(&mut self, lines: &[RecipeLine], boiled: bool, scale: f64) {
        for line in lines {
            self.add(Arc::clone(&line.ingredient), scale * line.mass.base(), boiled);
        }
    }

    /// A mass of chocolate with its share of what is stirred in. A seed of chocolate is chocolate.
    fn chocolate(
        &mut self,
        chocolate: &Arc<Ingredient>,
        stirred_in: &[StirredIn],
        emulsifiers: &[Emulsifier],
        seed: Option<Seed>,
        mass: f64,
    ) {
        let seed = seed.filter(|seed| seed.kind == SeedKind::CocoaButter).map(|seed| seed.dose.base());
        let doses = stirred_in.iter().map(|added| added.dose.base()).chain(emulsifiers.iter().map(|added| added.dose.base()));
        let share = mass / (1.0 + doses.sum::<f64>() + seed.unwrap_or(0.0));
        self.add(Arc::clone(chocolate), share, false);
        for added in stirred_in {
            self.add(Arc::clone(&added.ingredient), share * added.dose.base(), false);
        }
        for added in emulsifiers {
            self.add(Arc::new(as_ingredient(added)), share * added.dose.base(), false);
        }
        if let Some(dose) = seed {
            self.add(Arc::new(cocoa_butter()), share * dose, false);
        }
        self.finished += mass;
    }

    fn add(&mut self, ingredient: Arc<Ingredient>, mass: f64, boils: bool) {
        self.put(ingredient, mass, if boils { mass } else { 0.0 });
    }

    /// Adds a mass, of which so much is boiled.
    pub(super) fn put(&mut self, ingredient: Arc<Ingredient>, mixed: f64, boiled: f64) {
        if mixed <= 0.0 {
            return;
        }
        match self.uses.iter_mut().find(|used| used.ingredient == ingredient) {
            Some(used) => {
                used.mixed += mixed;
                used.boiled += boiled;
            }
            None => self.uses.push(Use { ingredient, mixed, boiled }),
        }
    }

    /// The share of the finished piece that is of these constituents. Only water leaves by boiling.
    #[must_use]
    pub fn share(&self, wanted: impl Fn(Constituent) -> bool) -> f64 {
        let of = |composition: &Composition| composition.parts().filter(|(what, _)| wanted(*what)).map(|(_, share)| share).sum::<f64>();
        self.uses.iter().map(|used| used.mixed * of(&used.ingredient.composition)).sum::<f64>() / self.finished
    }
}

/// Water as such.
pub(super) fn is_water(ingredient: &Ingredient) -> bool {
    ingredient.composition.of(Constituent::Water) >= 0.999
}

/// A spirit, a wine, a liqueur: some of it may leave by boiling that is not water.
pub(super) fn is_volatile(ingredient: &Ingredient) -> bool {
    ingredient.composition.of(Constituent::Ethanol) > 0.01
}

fn cocoa_butter() -> Ingredient {
    Ingredient { known: Known::Computed, ..Ingredient::pure(Constituent::CocoaButter) }
}

fn no_recipe(layer: &str) -> String {
    format!("the recipe of {layer}")
}

/// An emulsifier that is stirred into chocolate, as an ingredient of its own.
fn as_ingredient(emulsifier: &Emulsifier) -> Ingredient {
    let component = named(emulsifier);
    let parts = Emulsifier { dose: MassFraction::nearest(1.0), ..*emulsifier }.constituents();
    let composition = Composition::new(parts.map(|(constituent, share)| (constituent, MassFraction::nearest(share))));
    Ingredient {
        title: component.label.clone(),
        label: component.label,
        allergens: component.allergens,
        additive: component.additive,
        class: component.class,
        known: Known::Computed,
        ..Ingredient::declared(emulsifier.kind.words(), composition.unwrap_or_else(|_| Composition::pure(Constituent::Inert)))
    }
}

/// An emulsifier as a label names it; the plant stands with a lecithin where it is known.
pub(super) fn named(emulsifier: &Emulsifier) -> Component {
    let plant = match (emulsifier.kind, emulsifier.source) {
        (EmulsifierKind::Lecithin, Some(EmulsifierSource::Soy)) => "soy ",
        (EmulsifierKind::Lecithin, Some(EmulsifierSource::Sunflower)) => "sunflower ",
        (EmulsifierKind::Lecithin, Some(EmulsifierSource::Rapeseed)) => "rapeseed ",
        _ => "",
    };
    Component {
        label: format!("{plant}{}", emulsifier.kind.words()),
        allergens: emulsifier.source.map_or(AllergenSet::EMPTY, EmulsifierSource::allergens),
        additive: Some(emulsifier.kind.number().into()),
        class: Some(AdditiveClass::Emulsifier),
    }
}

/// Everything that goes in, whether or not it is known how much, once each.
pub(super) fn ingredients(piece: &Piece) -> Vec<Arc<Ingredient>> {
    let mut found: Vec<Arc<Ingredient>> = Vec::new();
    let mut add = |ingredient: Arc<Ingredient>| {
        if !found.contains(&ingredient) {
            found.push(ingredient);
        }
    };
    let shell = piece.shell.iter().map(|shell| (Some(&shell.chocolate), &shell.stirred_in, &shell.emulsifiers));
    let cap = piece.cap.iter().map(|cap| (cap.chocolate.as_ref(), &cap.stirred_in, &cap.emulsifiers));
    for (chocolate, stirred_in, emulsifiers) in shell.chain(cap) {
        chocolate.into_iter().for_each(|chocolate| add(Arc::clone(chocolate)));
        stirred_in.iter().for_each(|added| add(Arc::clone(&added.ingredient)));
        emulsifiers.iter().for_each(|added| add(Arc::new(as_ingredient(added))));
    }
    for line in piece.layers.iter().filter_map(|layer| layer.recipe.as_ref()).flat_map(|recipe| recipe.lines()) {
        add(Arc::clone(&line.ingredient));
    }
    found
}
