//! A table of inputs with the results of another implementation, and how it is judged.

use crate::{Fault, Result};
use cordial::units::{Checked, Temperature};
use std::cell::RefCell;
use std::fmt;
use std::str::FromStr;

/// A table, and the model it is compared with.
pub struct Table {
    /// Its file below `reference-values/differential/`, without the ending.
    pub name: &'static str,
    pub within: Within,
    /// Why it agrees so far and no further.
    pub reason: &'static str,
    /// Reads the inputs of a row and gives an answer to each column of results.
    pub run: fn(&Row) -> Result<Answers>,
}

/// How far a model may be from the other implementation. Words must be equal.
#[derive(Clone, Copy)]
pub enum Within {
    Absolute(f64),
    /// Of the other's number.
    Relative(f64),
    /// Absolutely, over all rows.
    RootMeanSquare(f64),
    /// The model's number is no larger; by so much of it rounding may make it so.
    NoLarger(f64),
}

/// The same equation in double precision, and the ten digits of the tables.
pub const SAME: Within = Within::Relative(1e-8);
pub const SAME_EQUATION: &str = "the same equation";

/// What a model says to each column of results.
pub type Answers = Vec<(&'static str, Answer)>;

#[derive(Debug, Clone, Copy)]
pub enum Answer {
    Number(f64),
    Word(&'static str),
}

impl From<f64> for Answer {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<&'static str> for Answer {
    fn from(word: &'static str) -> Self {
        Self::Word(word)
    }
}

/// One answer.
pub fn one(column: &'static str, answer: impl Into<Answer>) -> Result<Answers> {
    Ok(vec![(column, answer.into())])
}

/// A row, which knows what was read of it.
pub struct Row<'a> {
    columns: &'a csv::StringRecord,
    cells: &'a csv::StringRecord,
    read: RefCell<Vec<&'a str>>,
}

impl<'a> Row<'a> {
    pub fn text(&self, column: &str) -> Result<&'a str> {
        let (name, cell) = self.columns.iter().zip(self.cells).find(|(name, _)| *name == column).ok_or_else(|| lacks(column))?;
        self.read.borrow_mut().push(name);
        Ok(cell)
    }

    pub fn number(&self, column: &str) -> Result<f64> {
        parse(column, self.text(column)?)
    }

    /// A list of numbers.
    pub fn numbers(&self, column: &str) -> Result<Vec<f64>> {
        self.text(column)?.split(';').map(|cell| parse(column, cell)).collect()
    }

    /// A number in the base unit.
    pub fn get<T: Checked>(&self, column: &str) -> Result<T> {
        Ok(T::from_base(self.number(column)?)?)
    }

    /// A number in per cent.
    pub fn percent<T: Checked>(&self, column: &str) -> Result<T> {
        Ok(T::from_base(self.number(column)? / 100.0)?)
    }

    pub fn celsius(&self) -> Result<Temperature> {
        self.get("celsius")
    }
}

fn lacks(column: &str) -> Fault {
    format!("the column `{column}` is missing").into()
}

fn parse<T: FromStr<Err: fmt::Display>>(column: &str, cell: &str) -> Result<T> {
    cell.parse().map_err(|fault| format!("`{column}` is `{cell}`: {fault}").into())
}

/// How a table was met.
#[derive(Default)]
pub struct Agreement {
    pub rows: usize,
    /// The largest miss, as the tolerance counts it.
    pub worst: f64,
    pub faults: Vec<String>,
}

impl Table {
    pub fn judge(&self, text: &str) -> Agreement {
        let mut agreement = Agreement::default();
        let mut misses = Vec::new();
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let columns = reader.headers().cloned().unwrap_or_default();
        for (number, cells) in reader.records().enumerate() {
            agreement.rows += 1;
            let judged = cells.map_err(Fault::from).and_then(|cells| self.row(&columns, &cells));
            match judged {
                Ok(found) => misses.extend(found),
                Err(fault) => agreement.faults.push(format!("{}, row {}: {fault}", self.name, number + 1)),
            }
        }
        if agreement.rows == 0 {
            agreement.faults.push(format!("{}: holds no row", self.name));
        }
        agreement.worst = match self.within {
            Within::RootMeanSquare(_) => (misses.iter().map(|miss| miss * miss).sum::<f64>() / misses.len() as f64).sqrt(),
            _ => misses.into_iter().fold(0.0, f64::max),
        };
        if let Within::RootMeanSquare(most) = self.within
            && (agreement.worst.is_nan() || agreement.worst > most)
        {
            agreement.faults.push(format!("{}: off by {} root mean square, at most {most} ({})", self.name, agreement.worst, self.reason));
        }
        agreement
    }

    /// The misses of a row's numbers.
    fn row(&self, columns: &csv::StringRecord, cells: &csv::StringRecord) -> Result<Vec<f64>> {
        let row = Row { columns, cells, read: RefCell::default() };
        for origin in ["library", "version"] {
            if row.text(origin)?.is_empty() {
                return Err(format!("the row does not say its {origin}").into());
            }
        }
        let answers = (self.run)(&row)?;
        let mut misses = Vec::new();
        for (column, answer) in answers {
            match answer {
                Answer::Number(found) => misses.push(self.within.miss(column, found, row.number(column)?, self.reason)?),
                Answer::Word(found) if found == row.text(column)? => {}
                Answer::Word(found) => return Err(format!("`{column}` is `{found}`, there `{}`", row.text(column)?).into()),
            }
        }
        let read = row.read.into_inner();
        match columns.iter().find(|column| !read.contains(column)) {
            Some(unread) => Err(format!("nothing reads the column `{unread}`").into()),
            None => Ok(misses),
        }
    }
}

impl Within {
    fn miss(self, column: &str, found: f64, expected: f64, reason: &str) -> Result<f64> {
        let off = (found - expected).abs();
        let (miss, most) = match self {
            Self::Absolute(most) => (off, most),
            // Where nothing is expected, nothing may be off.
            Self::Relative(most) => (off / expected.abs().max(f64::MIN_POSITIVE), most),
            Self::RootMeanSquare(_) => (off, f64::INFINITY),
            Self::NoLarger(rounding) => (found / expected - 1.0, rounding),
        };
        if miss.is_nan() || miss > most {
            return Err(format!("`{column}` is {found}, there {expected}; {self}: {reason}").into());
        }
        Ok(miss)
    }
}

impl fmt::Display for Within {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Absolute(most) => write!(f, "{most:e}"),
            Self::Relative(most) => write!(f, "{most:e} of the value"),
            Self::RootMeanSquare(most) => write!(f, "{most:e} root mean square"),
            Self::NoLarger(rounding) => write!(f, "{rounding:e} of the value above it"),
        }
    }
}

/// What must not go unnoticed.
#[allow(clippy::indexing_slicing, reason = "a test may stop at the first surprise")]
mod tests {
    use super::*;

    const DOUBLE: Table = Table { name: "double", within: SAME, reason: SAME_EQUATION, run: |row| one("twice", 2.0 * row.number("of")?) };

    fn faults(text: &str) -> Vec<String> {
        DOUBLE.judge(text).faults
    }

    #[test]
    fn a_table_that_agrees_has_no_fault() {
        assert!(faults("of,twice,library,version\n1,2,pencil,1\n3,6.00000001,pencil,1\n").is_empty());
    }

    #[test]
    fn every_wrong_row_is_named() {
        let faults = faults("of,twice,library,version\n1,3,pencil,1\n2,4,pencil,1\n3,nan,pencil,1\n");
        assert!(faults.len() == 2 && faults[0].contains("row 1") && faults[1].contains("row 3"), "{faults:?}");
    }

    #[test]
    fn a_table_without_rows_a_lost_column_and_one_that_nothing_reads_are_faults() {
        assert!(faults("of,twice,library,version\n")[0].contains("holds no row"));
        assert!(faults("")[0].contains("holds no row"));
        assert!(faults("of,library,version\n1,pencil,1\n")[0].contains("`twice` is missing"));
        assert!(faults("twice,library,version\n2,pencil,1\n")[0].contains("`of` is missing"));
        assert!(faults("of,twice,version\n1,2,1\n")[0].contains("`library` is missing"));
        assert!(faults("of,twice,thrice,library,version\n1,2,3,pencil,1\n")[0].contains("nothing reads the column `thrice`"));
        assert!(faults("of,twice,library,version\n1,2,pencil\n")[0].contains("row 1"), "a row too short");
    }

    #[test]
    fn a_root_mean_square_judges_all_rows() {
        let table = |most| Table { within: Within::RootMeanSquare(most), ..DOUBLE };
        let text = "of,twice,library,version\n1,2.1,pencil,1\n1,2,pencil,1\n";
        assert!(table(0.08).judge(text).faults.is_empty());
        assert_eq!(table(0.07).judge(text).faults.len(), 1);
    }
}
