//! Whole pieces, checked as anyone would check them, against what their publication says became of them.

use crate::Result;
use crate::expected::Found;
use crate::row::Row;
use cordial::assess::Quantity;
use cordial::rules::BUILT_IN;
use cordial::units::Choice;
use cordial::{Report, check};
use toml_edit::{Document, Table};

/// The reports on the pieces of a document.
pub struct Pieces(Vec<Report>);

impl Pieces {
    /// Checks every piece of a document, and gives the `[published]` beside them, which is not part of the document.
    pub fn check<'a>(document: &'a Document<&str>) -> Result<(Self, &'a Table)> {
        let published =
            document.get("published").and_then(|item| item.as_table()).ok_or("`[published]` lacks: what became of the pieces")?;
        let mut pieces = document.clone().into_mut();
        pieces.remove("published");
        let pieces = cordial::Document::parse(&pieces.to_string())?;
        let reports = pieces.pieces().iter().map(check).collect::<std::result::Result<_, _>>()?;
        Ok((Self(reports), published))
    }

    /// The verdict of a `rule`, on one `limit` of it if that is named, on one row of `law` if that is, or an assessed `quantity`, on a `part`: `piece`, `shell`, `cap` or the
    /// name of a layer.
    pub fn run(&self, row: &Row) -> Result<Found> {
        let report = self.piece(row.text("piece")?)?;
        let (part, rule, limit, quantity) = (row.text("part")?, row.text("rule")?, row.text("limit")?, row.text("quantity")?);
        if quantity.is_empty() { verdict(report, rule, limit, row.text("law")?, part) } else { assessed(report, quantity, part) }
    }

    /// All of them.
    pub fn reports(&self) -> &[Report] {
        &self.0
    }

    fn piece(&self, name: &str) -> Result<&Report> {
        match (&self.0[..], name) {
            ([only], "") => Ok(only),
            (_, "") => Err("there are several pieces: say which `piece`".into()),
            (all, name) => all.iter().find(|report| report.name == name).ok_or_else(|| format!("no piece is called `{name}`").into()),
        }
    }
}

/// The verdict of a rule on a part, or of one limit of it; `unknown` where something lacks to judge, `silent` where nothing is read.
fn verdict(report: &Report, rule: &str, limit: &str, law: &str, part: &str) -> Result<Found> {
    let card =
        BUILT_IN.iter().map(|known| known.card()).find(|card| card.id == rule).ok_or_else(|| format!("no rule is called `{rule}`"))?;
    if !limit.is_empty() && !card.limits.iter().any(|known| known.key == limit) {
        return Err(format!("`{rule}` has no limit `{limit}`").into());
    }
    let findings = report.of(rule).filter(|finding| report.part_name(finding.part) == part);
    if !law.is_empty() && !report.law.rows().iter().any(|row| row.id == law) {
        return Err(format!("no row of law is called `{law}`").into());
    }
    let readings = findings.flat_map(|finding| &finding.readings).filter(|reading| limit.is_empty() || reading.limit.key == limit);
    let readings = readings.filter(|reading| law.is_empty() || report.row(reading).is_some_and(|row| row.id == law));
    let lacks = report.unknown.iter().any(|unknown| unknown.rule.id == rule && report.part_name(unknown.part) == part);
    let worst = readings.map(|reading| reading.verdict).max();
    Ok(Found::Word(worst.map_or(if lacks { "unknown" } else { "silent" }, |worst| worst.key())))
}

fn assessed(report: &Report, quantity: &str, part: &str) -> Result<Found> {
    let (_, of_part) = report
        .assessment
        .parts()
        .find(|(place, _)| report.part_name(*place) == part)
        .ok_or_else(|| format!("the piece has no part called `{part}`"))?;
    let known = Quantity::ALL.iter().filter(|known| known.key() == quantity).find_map(|known| Some((known, of_part.get(*known).known()?)));
    let (known, estimate) = known.ok_or_else(|| format!("`{quantity}` is not assessed on `{part}`"))?;
    Ok(Found::Number(estimate.band, known.dimension()))
}
