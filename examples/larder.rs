//! Searches the built-in ingredients: `cargo run --example larder -- almond paste`.

use cordial::matter::{Ingredient, Larder};
use cordial::units::Choice;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let query = words.join(" ");
    let larder = Larder::built_in();
    let found: Vec<_> = larder.search(&query).collect();
    for ingredient in &found {
        println!("{:32} {}", ingredient.name, ingredient.title);
        if found.len() <= 5 {
            print_ingredient(ingredient);
        }
    }
    match found.len() {
        0 => println!("nothing in the larder is called `{query}`: try one word of it"),
        count => println!("{count} of {} ingredients; name one more closely to see what it is made of", larder.iter().count()),
    }
}

fn print_ingredient(ingredient: &Ingredient) {
    let mut parts: Vec<_> = ingredient.composition.parts().collect();
    parts.sort_by(|(_, one), (_, two)| two.total_cmp(one));
    let parts: Vec<_> = parts.iter().map(|(constituent, share)| format!("{} {:.1} %", constituent.words(), share * 100.0)).collect();
    println!("    {}", parts.join(", "));
    println!("    {} ({})", ingredient.record, ingredient.known.key());
    let allergens: Vec<_> = ingredient.allergens.iter().map(Choice::key).collect();
    if !allergens.is_empty() {
        println!("    allergens: {}", allergens.join(", "));
    }
}
