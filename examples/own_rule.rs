//! A rule of one's own, declared outside the crate and judged with the built-in ones. With `--features laws` it is held against the laws
//! first.

use cordial::assess::Quantity;
use cordial::engine::{Card, Domain, Limit, PartKind, Scale, Standing, searched};
use cordial::piece::KnobKind;
use cordial::report::check_with;
use cordial::units::Unit;
use cordial::{Document, rules, source};

cordial::rule! {
    /// Our boxes have wells for pieces of 8 to 14 g. What is heavier does not close, what is lighter rattles.
    PieceDoesNotFitTheBox {
        id: "piece-does-not-fit-the-box",
        title: "the piece does not fit the well of the box",
        domain: Domain::Batch,
        part: PartKind::Whole,
        scale: Scale::Piece,
        drivers: &[searched(KnobKind::LayerAmount), searched(KnobKind::WallThickness)],
    }
    limits {
        RATTLES = Limit::at_least("box.min", Quantity::PieceMass, 8.0, Unit::Gram).from(Standing::Practice, &source::PROJECT, "our box");
        LIFTS_THE_LID = Limit::at_most("box.max", Quantity::PieceMass, 14.0, Unit::Gram).from(Standing::Practice, &source::PROJECT, "our box");
    }
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    // In a crate of one's own this stands in a test, with `cordial = { features = ["laws"] }` among the dev-dependencies.
    #[cfg(feature = "laws")]
    cordial::laws::assert_lawful(&PieceDoesNotFitTheBox);

    let rules = rules::built_in().with(&PieceDoesNotFitTheBox);
    let card: &Card = rules.cards().last().ok_or("the rule is there")?;
    println!("{}: {}\n", card.id, card.why());
    let document = Document::parse(include_str!("data/winter-box.toml"))?;
    for piece in document.pieces() {
        for finding in check_with(&rules, piece)?.of("piece-does-not-fit-the-box") {
            let fix = finding.remedies.first().map_or("", |advice| &advice.text);
            println!("{:45} {:8} {fix}", piece.name, cordial::units::Choice::key(finding.verdict));
        }
    }
    Ok(())
}
