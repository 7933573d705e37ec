//! Searches the built-in ingredients: `cargo run --example larder -- almond paste`.

mod terminal;

use cordial::matter::{Ingredient, Larder};
use cordial::units::Choice;
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, ended, say};

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let query = Arguments::read(&[], &[])?.words.join(" ");
    let larder = Larder::built_in();
    let found: Vec<_> = larder.search(&query).collect();
    for ingredient in &found {
        say!("{:32} {}", ingredient.name, ingredient.title);
        if found.len() <= 5 {
            print_ingredient(ingredient);
        }
    }
    match found.len() {
        0 => say!("nothing in the larder is called `{query}`: try one word of it"),
        count => say!("{count} of {} ingredients; name one more closely to see what it is made of", larder.iter().count()),
    }
    Ok(())
}

fn print_ingredient(ingredient: &Ingredient) {
    let mut parts: Vec<_> = ingredient.composition.parts().collect();
    parts.sort_by(|(_, one), (_, two)| two.total_cmp(one));
    let parts: Vec<_> = parts.iter().map(|(constituent, share)| format!("{} {:.1} %", constituent.words(), share * 100.0)).collect();
    say!("    {}", parts.join(", "));
    say!("    {} ({})", ingredient.record, ingredient.known.key());
    let allergens: Vec<_> = ingredient.allergens.iter().map(Choice::key).collect();
    if !allergens.is_empty() {
        say!("    allergens: {}", allergens.join(", "));
    }
}
