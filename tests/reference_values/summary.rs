//! Classes: rows judged together, by their root mean square miss and their worst.

use crate::Result;
use crate::row::Row;
use cordial::units::Measure;
use std::collections::BTreeMap;
use toml_edit::Table;

/// The limits of a class.
struct Limits {
    place: String,
    count: usize,
    root_mean_square: Option<Measure>,
    worst: Measure,
}

/// All classes of a folder: which rows belong to them, and their limits.
#[derive(Default)]
pub struct Classes {
    misses: BTreeMap<String, Vec<(String, f64)>>,
    limits: BTreeMap<String, Limits>,
}

impl Classes {
    pub fn add(&mut self, class: &str, place: &str, miss: f64) {
        self.misses.entry(class.to_owned()).or_default().push((place.to_owned(), miss));
    }

    /// Reads a `[[class]]`.
    pub fn declare(&mut self, place: String, table: &Table) -> Result<()> {
        let empty = toml_edit::InlineTable::new();
        let row = Row::new(table, &empty);
        let name = row.text("name")?.to_owned();
        let root_mean_square = row.value("root_mean_square").map(crate::row::measure).transpose()?;
        let worst = row.measure("worst")?;
        let count = table.get("count").and_then(|count| count.as_integer()).ok_or("`count` lacks")?;
        if name.is_empty() || row.text("reason")?.is_empty() {
            return Err("a class needs a `name` and a `reason`".into());
        }
        if let Some(unread) = row.unread().next() {
            return Err(format!("nothing reads `{unread}`").into());
        }
        let limits = Limits { place, count: usize::try_from(count)?, root_mean_square, worst };
        match self.limits.insert(name.clone(), limits) {
            Some(other) => Err(format!("the class `{name}` stands at {} too", other.place).into()),
            None => Ok(()),
        }
    }

    /// Judges every class: one line each, and what is wrong.
    pub fn judge(&self) -> (Vec<String>, Vec<String>) {
        let (mut lines, mut faults) = (Vec::new(), Vec::new());
        for name in self.misses.keys().filter(|name| !self.limits.contains_key(*name)) {
            faults.push(format!("the class `{name}` has rows but no limits"));
        }
        for (name, limits) in &self.limits {
            let misses = self.misses.get(name).map_or(&[][..], Vec::as_slice);
            if misses.len() != limits.count {
                faults.push(format!("{}: `{name}` has {} rows, not {}", limits.place, misses.len(), limits.count));
                continue;
            }
            let root_mean_square = (misses.iter().map(|(_, miss)| miss * miss).sum::<f64>() / misses.len() as f64).sqrt();
            let (at, worst) =
                misses.iter().fold(("", 0.0_f64), |worst, (place, miss)| if miss.abs() > worst.1 { (place, miss.abs()) } else { worst });
            let print = |base: f64| Measure::from_base(base, limits.worst.unit());
            lines.push(format!(
                "{name}: {} rows, root mean square {}, worst {} at {at}",
                misses.len(),
                print(root_mean_square),
                print(worst)
            ));
            if let Some(limit) = limits.root_mean_square.filter(|limit| root_mean_square.is_nan() || root_mean_square > limit.base()) {
                faults.push(format!("{}: `{name}` misses by {} root mean square, {limit} at most", limits.place, print(root_mean_square)));
            }
            if worst.is_nan() || worst > limits.worst.base() {
                faults.push(format!("{}: `{name}` misses by {} at {at}, {} at most", limits.place, print(worst), limits.worst));
            }
        }
        (lines, faults)
    }
}
