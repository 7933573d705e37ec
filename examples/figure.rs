//! Each piece of a document in cross-section, to scale: mould, shell, layers, headroom and cap with their millimetres, one SVG a piece.
//!
//! `cargo run --release --example figure -- [FILE [FOLDER]]`, by default the winter box and `target/figures`.

#[path = "drawing/section.rs"]
mod section;

mod terminal;

use cordial::assess::{Assessment, PartAssessment, Quantity, assess};
use cordial::piece::{Barrier, Piece};
use cordial::units::quantity::{Length, Volume, cubic_meter, meter, millimeter};
use cordial::units::{Checked, Measure};
use section::{Fill, Part, Section, millimeters};
use std::{error::Error, path::Path, process::ExitCode};
use terminal::{Arguments, document, ended, say};

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let arguments = Arguments::read(&[], &[])?;
    let folder = arguments.words.get(1).map_or("target/figures", String::as_str);
    let document = document(arguments.words.first())?;
    for (index, piece) in document.pieces().iter().enumerate() {
        match section(piece, &assess(piece)) {
            Ok(section) => {
                let picture = Path::new(folder).join(format!("{:02}-{}.svg", index + 1, plain(&piece.name)));
                section.write(&picture)?;
                say!("{}: {}", piece.name, picture.display());
                section.parts.iter().for_each(|part| say!("    {:>7}  {}", millimeters(part.levels[1] - part.levels[0]), part.name));
                say!("             {}", section.shell);
            }
            Err(lacks) => say!("{}: cannot be drawn without {lacks}", piece.name),
        }
    }
    Ok(())
}

/// The section of a piece, or what lacks to draw it.
fn section(piece: &Piece, assessment: &Assessment) -> Result<Section, String> {
    let outer = piece.mould.ok_or("the mould")?.cavity;
    let wall = known(&assessment.shell, Quantity::WallThickness)?;
    let inner = outer.lined(Length::new::<meter>(wall)).map_err(|error| error.to_string())?;
    let mut parts = Vec::new();
    let (mut poured, mut level) = (0.0, inner.depth().get::<millimeter>());
    for (index, (layer, part)) in piece.layers.iter().zip(&assessment.layers).enumerate() {
        poured += known(part, Quantity::LayerVolume)?;
        let (stands, fits) = match inner.level_of(Volume::new::<cubic_meter>(poured)) {
            Some(depth) => (depth.get::<millimeter>(), ""),
            None => (0.0, ", more than there is room for"),
        };
        let film = match layer.barrier {
            Some(Barrier::CocoaButter) => ", under a film of cocoa butter",
            Some(Barrier::Chocolate) => ", under a film of chocolate",
            None => "",
        };
        let name = format!("{}: {}{}{film}{fits}", layer.name, shown(part, Quantity::LayerVolume), and(part, Quantity::LayerMass));
        parts.insert(0, Part { name, fill: Fill::Layer(index), levels: [stands, level], film: layer.barrier.is_some() });
        level = stands;
    }
    if level > 0.0 {
        let room = shown(&assessment.whole, Quantity::Headroom);
        let (name, fill) = match &piece.cap {
            Some(cap) => {
                let wanted = cap.thickness.map_or(String::new(), |wanted| format!(", wanted {}", millimeters(1000.0 * wanted.base())));
                (
                    format!("cap, scraped flush: fills the headroom of {room}{wanted}{}", and(&assessment.cap, Quantity::CapMass)),
                    Fill::Chocolate,
                )
            }
            None => (format!("headroom: {room}"), Fill::Empty),
        };
        parts.insert(0, Part { name, fill, levels: [0.0, level], film: false });
    }
    let shell = &assessment.shell;
    let chocolate = piece.shell.as_ref().map_or("", |shell| &shell.chocolate.name);
    let shell = format!("shell of {chocolate}: wall {}{}", shown(shell, Quantity::WallThickness), and(shell, Quantity::ShellMass));
    Ok(Section { title: piece.name.clone(), outer, inner, shell, parts })
}

fn known(part: &PartAssessment, quantity: Quantity) -> Result<f64, String> {
    part.get(quantity).value().ok_or_else(|| quantity.ask().to_owned())
}

/// A quantity with its unit, to two places.
fn shown(part: &PartAssessment, quantity: Quantity) -> String {
    part.get(quantity).known().map_or("unknown".into(), |estimate| {
        let measure = estimate.measure(quantity);
        Measure::new((100.0 * measure.value()).round() / 100.0, measure.unit()).to_string()
    })
}

/// The same after a comma, where it is known.
fn and(part: &PartAssessment, quantity: Quantity) -> String {
    part.get(quantity).known().map_or(String::new(), |_| format!(", {}", shown(part, quantity)))
}

/// A name that any file may bear.
fn plain(name: &str) -> String {
    let words = name.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join("-")
}
