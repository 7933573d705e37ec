//! Words and figures from data. Nothing is judged here and nobody uses this module.

mod advice;
#[cfg(feature = "balance")]
mod balance;
mod batch_sheet;
mod check;
mod exchange;
#[cfg(feature = "documents")]
mod json;
pub mod label;
mod missing;
mod number;
mod sentence;
mod text;
mod tolerance;

pub use advice::Advice;
#[cfg(feature = "balance")]
pub use balance::balance_text;
pub use batch_sheet::{BatchSheet, BatchSheetError, LayerSheet, Weighing};
pub use check::{check, check_with};
#[cfg(feature = "documents")]
pub use json::{to_json, to_json_text};
pub use label::Label;
pub use text::{to_full_text, to_text};
pub use tolerance::{tolerance_legend, tolerance_text};

use crate::assess::{Assessment, Exchange, Part};
use crate::engine::{Card, Reading, Unknown, Verdict};
use crate::law::{Book, Row};

/// Everything that came of checking one piece.
#[derive(Debug, Clone)]
pub struct Report {
    /// The piece's name.
    pub name: String,
    /// The names of its layers, in pouring order.
    pub layers: Vec<String>,
    /// What was assessed.
    pub assessment: Assessment,
    /// What each layer and the one above it do to each other's water; none where that cannot be told.
    pub exchanges: Vec<Option<Exchange>>,
    /// What the rules found, worst first; those that pass come last.
    pub findings: Vec<Finding>,
    /// What could not be judged.
    pub unknown: Vec<Unknown>,
    /// The rows of law it was held against.
    pub law: Book,
}

/// What one rule found on one part.
#[derive(Debug, Clone)]
pub struct Finding {
    /// The rule.
    pub rule: &'static Card,
    /// The part.
    pub part: Part,
    /// The worst verdict of its readings.
    pub verdict: Verdict,
    /// Every reading, those that pass included.
    pub readings: Vec<Reading>,
    /// Single changes that mend it, the least first.
    pub remedies: Vec<Advice>,
    /// Why the maker accepts it, if so. A breach cannot be accepted.
    pub accepted: Option<String>,
    /// Whether one of its limits was set by the maker.
    pub own_limits: bool,
}

impl Finding {
    /// The reading that decides: the most severe of the worst.
    #[must_use]
    pub fn decisive(&self) -> Option<&Reading> {
        // What a change could mend goes before a row of law that is only recalled.
        let worst = self.readings.iter().filter(|reading| reading.verdict == self.verdict);
        worst.max_by_key(|reading| (reading.blame(), reading.limit.severity))
    }

    /// What is wrong, in the words of the rule's title. What keeps to a row of law that is only recalled, or that the estimate's band
    /// crosses, is no breach of it yet: perhaps one.
    #[must_use]
    pub fn fault(&self) -> String {
        format!("{}{}", if self.keeps() { "perhaps " } else { "" }, self.rule.title)
    }

    /// Whether the best value keeps to the row of law that decides.
    fn keeps(&self) -> bool {
        self.decisive().is_some_and(|reading| reading.bound.row.is_some() && reading.margin >= 0.0)
    }

    /// Whether it counts against the piece.
    #[must_use]
    pub fn counts(&self) -> bool {
        self.verdict > Verdict::Pass && self.accepted.is_none()
    }
}

impl Report {
    /// The worst verdict that counts. What could not be judged is listed apart and is no pass.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.findings.iter().filter(|finding| finding.counts()).map(|finding| finding.verdict).max().unwrap_or(Verdict::Pass)
    }

    /// What a rule found on any part, worst first.
    pub fn of<'a>(&'a self, rule: &'a str) -> impl Iterator<Item = &'a Finding> {
        self.findings.iter().filter(move |finding| finding.rule.id == rule)
    }

    /// The report in plain sentences, on about one screen.
    #[must_use]
    pub fn to_text(&self) -> String {
        to_text(std::slice::from_ref(self))
    }

    /// The same in full: why, on what basis, further fixes with the lines to write, what passed.
    #[must_use]
    pub fn to_full_text(&self) -> String {
        to_full_text(std::slice::from_ref(self))
    }

    /// The row of law a reading is of.
    #[must_use]
    pub fn row(&self, reading: &Reading) -> Option<&Row> {
        self.law.row(reading.bound.row?)
    }

    /// What a part is called.
    #[must_use]
    pub fn part_name(&self, part: Part) -> &str {
        match part {
            Part::Whole => "piece",
            Part::Shell => "shell",
            Part::Cap => "cap",
            Part::Layer(index) => self.layers.get(index).map_or("layer", String::as_str),
        }
    }
}
