//! What is looked at and turned, as somebody asks for it: shared by the examples that screen.

use cordial::piece::Knob;
use cordial::screen::Axis;
use cordial::units::{Measure, Unit};
use cordial::{Document, Piece};

/// The piece of this name, or the first.
pub fn chosen<'a>(document: &'a Document, name: Option<&str>) -> Result<&'a Piece, String> {
    let pieces = document.pieces();
    let names = || pieces.iter().map(|piece| format!("`{}`", piece.name)).collect::<Vec<_>>().join(", ");
    match name {
        None => pieces.first().ok_or_else(|| "the document has no piece".into()),
        Some(name) => {
            pieces.iter().find(|piece| piece.name == name).ok_or_else(|| format!("no piece is called `{name}`: there are {}", names()))
        }
    }
}

/// A knob and its range, as in `shell thickness=1 mm..3 mm`.
pub fn axis(text: &str, piece: &Piece) -> Result<Axis, String> {
    let shape = || format!("`{text}`: write a knob and its range, as in `shell thickness=1 mm..3 mm`; --knobs lists the knobs");
    let (name, range) = text.split_once('=').ok_or_else(shape)?;
    let (least, most) = range.split_once("..").ok_or_else(shape)?;
    let knob = Knob::all(piece).find(|knob| knob.label(piece) == name.trim());
    let knob = knob.ok_or_else(|| format!("`{}` cannot be turned on this piece; --knobs lists the knobs", name.trim()))?;
    let wanted = knob.measure(piece, 0.0).unit().dimension();
    let end = |text: &str| match Measure::parse(text.trim()) {
        Ok(measure) if measure.unit().dimension() == wanted => Ok(measure.base()),
        Ok(measure) => Err(format!("`{name}`: `{measure}` is not {}", wanted.words())),
        Err(error) => Err(format!("`{name}`: {error}")),
    };
    Ok(Axis { knob, least: end(least)?, most: end(most)? })
}

/// How many of something.
pub fn count(option: &str, text: &str) -> Result<u64, String> {
    let count = text.parse().ok().filter(|count| *count > 0);
    count.ok_or_else(|| format!("{option}: `{text}` is not a whole number above zero"))
}

/// The heading of a column of numbers, as in `shell thickness (mm)`.
pub fn heading(name: &str, unit: Unit) -> String {
    format!("{name} ({})", unit.code())
}
