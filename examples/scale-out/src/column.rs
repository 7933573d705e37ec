//! A column of settings: which knob it turns, and in which unit its numbers are, both told by its heading.

use crate::asked::heading;
use cordial::Piece;
use cordial::piece::Knob;
use cordial::units::Unit;

/// A knob and a unit.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    pub knob: Knob,
    pub unit: Unit,
}

impl Column {
    /// A column in the unit of the bench.
    pub fn of(knob: Knob, piece: &Piece) -> Self {
        Self { knob, unit: knob.measure(piece, 0.0).unit() }
    }

    /// One for every knob of a piece.
    pub fn all(piece: &Piece) -> impl Iterator<Item = Self> {
        Knob::all(piece).map(|knob| Self::of(knob, piece))
    }

    /// As in `shell thickness (mm)`.
    pub fn heading(&self, piece: &Piece) -> String {
        heading(&self.knob.label(piece), self.unit)
    }

    /// The column that a heading names. Any unit will do that measures the same.
    pub fn read(text: &str, piece: &Piece) -> Result<Self, String> {
        let named = text.strip_suffix(')').and_then(|text| text.rsplit_once(" ("));
        let (name, unit) =
            named.ok_or_else(|| format!("`{text}`: a column is headed by a knob and its unit, as in `shell thickness (mm)`"))?;
        let mut knobs = Knob::all(piece).filter(|knob| knob.label(piece) == name);
        let knob =
            knobs.next().ok_or_else(|| format!("`{name}` cannot be turned on this piece: `write DOCUMENT --knobs` lists the columns"))?;
        if knobs.next().is_some() {
            return Err(format!("`{name}` could be two knobs of this piece: give its layers names of their own"));
        }
        let (wanted, unit) = (knob.measure(piece, 0.0).unit(), unit.parse::<Unit>().map_err(|error| format!("`{text}`: {error}"))?);
        if unit.dimension() != wanted.dimension() {
            return Err(format!("`{text}`: `{unit}` does not measure {}, `{wanted}` does", wanted.dimension().words()));
        }
        Ok(Self { knob, unit })
    }
}
