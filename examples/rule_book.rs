//! Prints every rule from its card: what it checks, with which limits, why, and on what evidence.

mod terminal;

use cordial::engine::{Card, Side};
use cordial::rules;
use cordial::units::Choice;
use terminal::say;

fn main() {
    let rules = rules::built_in();
    for card in rules.cards() {
        print_card(card);
    }
    for profile in rules.profiles() {
        say!("profile {} suits {}", profile.name, profile.suits);
        for limit in profile.limits {
            say!("    {} = {} ({})", limit.key, limit.value, limit.source);
        }
    }
}

fn print_card(card: &Card) {
    say!("{} ({}, looks at the {})", card.id, card.domain.key(), card.part.key());
    say!("    {}.", card.title);
    for line in textwrap::wrap(card.rationale.trim(), 96) {
        say!("    {line}");
    }
    for limit in card.limits {
        let side = if limit.side == Side::AtLeast { "at least" } else { "at most" };
        if limit.family {
            say!("    - by the law of each market [{}]: {}", limit.key, limit.severity.key());
            continue;
        }
        say!("    - {} {side} {} [{}]: {}", limit.quantity.words(), limit.careful, limit.key, limit.severity.key());
        say!(
            "      {}: {}{}",
            limit.standing.key(),
            limit.source,
            if limit.place.is_empty() { String::new() } else { format!("; {}", limit.place) }
        );
    }
    say!();
}
