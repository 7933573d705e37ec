//! What is asked of every candidate: nothing but text, so that it can go along with a query to any machine.

use crate::asked::chosen;
use cordial::assess::{Part, Quantity, assess};
use cordial::engine::Limit;
use cordial::piece::Allowance;
use cordial::{Document, Piece, rules};

/// Where nothing is said.
const USUAL_ESTIMATES: [&str; 2] = ["headroom", "water_activity"];
const USUAL_MARGINS: [&str; 1] = ["headroom.min"];

/// The document with the piece, its profile and its own limits, and what is to be told of each candidate.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Question {
    pub document: String,
    /// The name of the piece, or the first.
    pub piece: Option<String>,
    /// Rules whose findings are accepted, short of a failure.
    pub accepted: Vec<String>,
    /// Keys of quantities, as in a report.
    pub estimates: Vec<String>,
    /// Keys of limits.
    pub margins: Vec<String>,
}

impl Question {
    /// The piece as described.
    pub fn piece(&self) -> Result<Piece, String> {
        let document = Document::parse(&self.document).map_err(|error| error.to_string())?;
        let mut piece = chosen(&document, self.piece.as_deref())?.clone();
        let accepted = |rule: &String| Allowance { rule: rule.clone(), reason: "accepted for this screening".into() };
        piece.allow.extend(self.accepted.iter().map(accepted));
        Ok(piece)
    }

    /// The quantities asked for, on every part that has them, each with its name.
    pub fn estimates(&self, piece: &Piece) -> Result<Vec<(String, Part, Quantity)>, String> {
        let assessment = assess(piece);
        let layers = piece.layers.iter().enumerate().map(|(index, layer)| (Part::Layer(index), format!(" of {}", layer.name)));
        let parts = [(Part::Whole, String::new()), (Part::Shell, " of the shell".into()), (Part::Cap, " of the cap".into())];
        let parts: Vec<_> = parts.into_iter().chain(layers).collect();
        let mut found = Vec::new();
        for key in asked(&self.estimates, &USUAL_ESTIMATES) {
            let quantities = || Quantity::ALL.iter().filter(|quantity| quantity.key() == key);
            if quantities().next().is_none() {
                return Err(format!("no quantity is called `{key}`: the report of `check --json` names them"));
            }
            for (part, of) in &parts {
                let known = |quantity: &&Quantity| assessment.part(*part).and_then(|part| part.get(**quantity).known()).is_some();
                found.extend(quantities().find(known).map(|quantity| (format!("{key}{of}"), *part, *quantity)));
            }
        }
        Ok(found)
    }

    /// The limits asked for.
    pub fn margins(&self) -> Result<Vec<&'static Limit>, String> {
        let rules = rules::built_in();
        let limit = |key: &str| {
            let limit = rules.cards().flat_map(|card| card.limits).copied().find(|limit| limit.key == key);
            let limit = limit.ok_or_else(|| format!("no limit is called `{key}`: `cargo run --example rule_book` lists them"))?;
            if limit.family { Err(format!("`{key}` is a family of rows of law, which have no unit in common")) } else { Ok(limit) }
        };
        asked(&self.margins, &USUAL_MARGINS).map(limit).collect()
    }
}

fn asked<'a>(keys: &'a [String], usual: &'a [&'a str]) -> impl Iterator<Item = &'a str> {
    let usual = usual.iter().copied().filter(|_| keys.is_empty());
    keys.iter().map(String::as_str).chain(usual)
}
