//! The frame law: a rule sees nothing that its card does not name. It is what catches copied code.

use super::case::{Case, Fault, Lawful, same};
use crate::assess::{Assessment, Quantity};
use crate::engine::Card;

pub(super) fn frame(case: &Case<'_>) -> Lawful {
    for (number, card) in (0..).zip(case.rules.cards()) {
        let mut noise = case.noise(number);
        let unread = |quantity: &Quantity| card.reads().all(|read| read != *quantity);
        let other = case.changed(|_, at| {
            for quantity in Quantity::ALL.iter().copied().filter(unread) {
                at.put(quantity, noise.assessed(quantity));
            }
        });
        differs(case, card, &other).map_err(|fault| blame(case, card, &other, fault))?;
    }
    Ok(())
}

fn differs(case: &Case<'_>, card: &'static Card, other: &Assessment) -> Lawful {
    same(&case.judge_by(card, &case.assessment), &case.judge_by(card, other), 0.0)
}

/// Names the quantity, where one alone makes the difference.
fn blame(case: &Case<'_>, card: &'static Card, other: &Assessment, fault: Fault) -> Fault {
    let alone = |quantity: &&Quantity| {
        let one = case.changed(|part, at| at.put(**quantity, other.part(part).map_or(at.get(**quantity), |other| other.get(**quantity))));
        differs(case, card, &one).is_err()
    };
    let culprit = Quantity::ALL.iter().find(alone).map_or_else(|| "something".into(), |quantity| format!("{quantity:?}"));
    Fault::new(card.id, format!("reads {culprit}, which its card does not name: {}", fault.what))
}
