//! Prints every rule from its card: what it checks, with which limits, why, and on what evidence.

use cordial::engine::{Card, Side};
use cordial::rules;
use cordial::units::Choice;

fn main() {
    let rules = rules::built_in();
    for card in rules.cards() {
        print_card(card);
    }
    for profile in rules.profiles() {
        println!("profile {} suits {}", profile.name, profile.suits);
        for limit in profile.limits {
            println!("    {} = {} ({})", limit.key, limit.value, limit.source);
        }
    }
}

fn print_card(card: &Card) {
    println!("{} ({}, looks at the {})", card.id, card.domain.key(), card.part.key());
    println!("    {}.", card.title);
    for line in textwrap::wrap(card.rationale.trim(), 96) {
        println!("    {line}");
    }
    for limit in card.limits {
        let side = if limit.side == Side::AtLeast { "at least" } else { "at most" };
        if limit.family {
            println!("    - by the law of each market [{}]: {}", limit.key, limit.severity.key());
            continue;
        }
        println!("    - {} {side} {} [{}]: {}", limit.quantity.words(), limit.careful, limit.key, limit.severity.key());
        println!(
            "      {}: {}{}",
            limit.standing.key(),
            limit.source,
            if limit.place.is_empty() { String::new() } else { format!("; {}", limit.place) }
        );
    }
    println!();
}
