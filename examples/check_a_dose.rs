//! Embedded use: how much lecithin is that in all?

use cordial::{Document, check};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let document = Document::parse(
        r#"
        format = 1
        [[piece]]
        name = "bench trial"
        [piece.shell]
        chocolate = "dark-couverture-64"
        temper = "tempered"
        emulsifier = [{ kind = "lecithin", form = "fluid", source = "sunflower", dose = "0.8 %" }]
        "#,
    )?;
    for piece in document.pieces() {
        print!("{}", check(piece)?.to_text());
    }
    Ok(())
}
