//! The layers: what is poured, how much of it, and what is known of it.

use super::{MOST_LINES, Names};
use crate::matter::pantry::Pantry;
use crate::matter::{Recipe, RecipeLine};
use crate::piece::{Amount, Layer, Measured, Reported};
use crate::units::reader::{FaultKind, Field, Items, TableReader};
use crate::units::{Checked, Temperature};

pub(super) fn layer(table: &TableReader<'_>, names: &mut Names, pantry: &Pantry, water_boils_at: Option<Temperature>) -> Option<Layer> {
    let name = names.read(table);
    let amount = table.one_of(["fill_to", "mass", "volume"]).and_then(|(key, field)| match key {
        "fill_to" => field.measure().map(Amount::FillTo),
        "mass" => field.measure().map(Amount::Mass),
        _ => field.measure().map(Amount::Volume),
    });
    let cooked_at = table.one_of(["cooked_to", "cooked_at"]).filter(|(key, _)| *key == "cooked_at").map(|(_, field)| field);
    if cooked_at.is_some() && !table.optional("recipe").is_present() {
        table.fault(|| FaultKind::Missing { key: "recipe", example: "the recipe that is boiled to the temperature of `cooked_at`" });
    }
    let (measured, measured_recipe) = table.optional("measured").table(|table| measured(table, pantry)).unwrap_or_default();
    let layer = Layer {
        name: String::new(),
        kind: table.optional("kind").choice(),
        amount,
        temperature: table.optional("temperature").measure(),
        recipe: recipe(table, pantry),
        cooked_at: None,
        crystals: table.optional("crystals").choice(),
        hydrated_first: table.optional("hydrated_first").flag(),
        barrier: table.optional("barrier").choice(),
        aerated_density: table.optional("aerated_density").measure(),
        consistency: table.optional("thickness").choice(),
        measured,
        measured_recipe,
        heat_treated_in_pack: table.optional("heat_treated_in_pack").flag().unwrap_or(false),
    };
    let layer = match cooked_at.and_then(|field| Some((field, field.measure()?))) {
        Some((field, at)) => field.accept(layer.cooked_at(at, water_boils_at))?,
        None => layer,
    };
    Some(Layer { name: name?, ..layer })
}

fn recipe(table: &TableReader<'_>, pantry: &Pantry) -> Option<Recipe> {
    let (lines, cooked_to) = (table.optional("recipe"), table.optional("cooked_to"));
    let yielded = cooked_to.measure();
    if cooked_to.is_present() && !lines.is_present() {
        table.fault(|| FaultKind::Missing { key: "recipe", example: "the recipe that weighs what `cooked_to` says after boiling" });
    }
    let lines_read =
        lines.tables(Items { what: "recipe line", numbered: true, named: false, most: MOST_LINES }, |line| recipe_line(line, pantry))?;
    if cooked_to.is_present() && yielded.is_none() {
        return None;
    }
    lines.accept(Recipe::new(lines_read, yielded))
}

fn recipe_line(table: &TableReader<'_>, pantry: &Pantry) -> Option<RecipeLine> {
    let ingredient = pantry.ingredient(table.required("ingredient", "the name of an ingredient, such as `ingredient = \"cream-36\"`"));
    let mass = table.required("mass", "what is weighed of it, such as `mass = \"120 g\"`").measure();
    Some(RecipeLine { ingredient: ingredient?, mass: mass? })
}

/// What was measured, and on what recipe if it was another.
fn measured(table: &TableReader<'_>, pantry: &Pantry) -> Option<(Measured, Option<Recipe>)> {
    let measured = Measured {
        water_activity: reported(table.optional("water_activity")),
        yield_value: reported(table.optional("yield_value")),
        ph: reported(table.optional("ph")),
        density: reported(table.optional("density")),
    };
    let of = table.optional("recipe");
    if of.is_present() && !table.optional("water_activity").is_present() {
        table.fault(|| FaultKind::Missing {
            key: "water_activity",
            example: "what was measured on this recipe, such as `water_activity = 0.86`",
        });
    }
    Some((measured, recipe(table, pantry)))
}

fn reported<T: Checked>(field: Field<'_>) -> Option<Reported<T>> {
    field.reported().map(|(value, uncertainty)| Reported { value, uncertainty })
}
