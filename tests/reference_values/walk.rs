//! Walks a folder file by file and row by row, and gathers all that is wrong.

use crate::expected::{Expected, Found};
use crate::pieces::Pieces;
use crate::row::Row;
use crate::summary::Classes;
use crate::{Result, runners};
use cordial::matter::Known;
use cordial::source;
use cordial::units::Choice;
use std::{collections::BTreeMap, fmt, fs, ops::Range, path::Path};
use toml_edit::{Document, Table};

/// Whose folder is walked.
#[derive(Clone, Copy, PartialEq)]
pub enum Folder {
    /// The crate's.
    BuiltIn,
    /// A laboratory's: its files may name `source = "own"` with a `reference`.
    Own,
}

/// What a walk has found so far.
pub struct Walk {
    whose: Folder,
    classes: Classes,
    ids: BTreeMap<String, String>,
    report: Report,
}

/// What a walk found.
#[derive(Default)]
pub struct Report {
    files: usize,
    run: usize,
    context: usize,
    disagree: usize,
    lines: Vec<String>,
    /// All that is wrong, each with its file and line.
    pub faults: Vec<String>,
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { files, run, context, disagree, lines, .. } = self;
        writeln!(f, "{files} files: {run} rows run, {disagree} of them known to disagree, and {context} of context")?;
        lines.iter().try_for_each(|line| writeln!(f, "  {line}"))
    }
}

impl Walk {
    pub fn new(whose: Folder) -> Self {
        Self { whose, classes: Classes::default(), ids: BTreeMap::new(), report: Report::default() }
    }

    /// Every TOML file of a folder and of those in it.
    pub fn folder(&mut self, folder: &Path) {
        self.walk(folder, folder);
        if self.report.files == 0 {
            self.report.faults.push(format!("{}: holds no reference values", folder.display()));
        }
    }

    fn walk(&mut self, root: &Path, folder: &Path) {
        let mut paths: Vec<_> = fs::read_dir(folder).into_iter().flatten().map(|entry| entry.unwrap().path()).collect();
        paths.sort();
        for path in paths {
            let name = path.strip_prefix(root).unwrap_or(&path).display().to_string();
            if path.is_dir() {
                self.walk(root, &path);
            } else if path.extension().is_some_and(|end| end == "toml") {
                let text = fs::read_to_string(&path).unwrap();
                self.file(&name, &text);
            }
        }
    }

    /// Every row of a file.
    pub fn file(&mut self, name: &str, text: &str) {
        self.report.files += 1;
        let document = match Document::parse(text) {
            Ok(document) => document,
            Err(error) => return self.report.faults.push(format!("{name}: {error}")),
        };
        let head = document.as_table();
        let place = |at: Option<Range<usize>>| format!("{name}:{}", 1 + text[..at.map_or(0, |at| at.start)].matches('\n').count());
        if head.contains_key("format") {
            return match Pieces::check(&document) {
                Ok((pieces, published)) => self.table(&place, &Table::new(), published, &|row| pieces.run(row)),
                Err(fault) => self.report.faults.push(format!("{name}: {fault}")),
            };
        }
        for (key, item) in head.iter() {
            let known = match key {
                "source" | "known" | "reference" | "note" => item.is_str(),
                "table" | "class" => item.is_array_of_tables(),
                _ => false,
            };
            if !known {
                self.report.faults.push(format!("{name}: nothing reads `{key}`, or not as it stands"));
            }
        }
        let tables = |key: &str| head.get(key).and_then(|item| item.as_array_of_tables()).into_iter().flatten();
        for class in tables("class") {
            let at = place(class.span());
            if let Err(fault) = self.classes.declare(at.clone(), class) {
                self.report.faults.push(format!("{at}: {fault}"));
            }
        }
        if tables("table").chain(tables("class")).next().is_none() {
            self.report.faults.push(format!("{name}: holds no `[[table]]`"));
        }
        for table in tables("table") {
            self.table(&place, head, table, &runners::run);
        }
    }

    /// Every row of a table.
    fn table(&mut self, place: &dyn Fn(Option<Range<usize>>) -> String, head: &Table, table: &Table, run: &dyn Fn(&Row) -> Result<Found>) {
        let rows: Vec<_> = table.get("rows").and_then(|rows| rows.as_array()).into_iter().flatten().collect();
        let count = table.get("count").and_then(|count| count.as_integer());
        if count.and_then(|count| usize::try_from(count).ok()) != Some(rows.len()) {
            let says = count.map_or_else(|| "says nothing".to_owned(), |count| format!("says {count}"));
            self.report.faults.push(format!("{}: {} rows stand here, `count` {says}", place(table.span()), rows.len()));
        }
        for (key, item) in table.iter().filter(|(_, item)| !item.is_value()) {
            self.report.faults.push(format!("{}: nothing reads the table `{key}`: write it in one line, `{{ ... }}`", place(item.span())));
        }
        for row in rows {
            let at = place(row.span());
            let judged = match row.as_inline_table() {
                Some(row) => self.row(&at, head, &Row::new(table, row), run),
                None => Err("a row is a table, `{ ... }`".into()),
            };
            if let Err(fault) = judged {
                self.report.faults.push(format!("{at}: {fault}"));
            }
        }
    }

    fn row(&mut self, place: &str, head: &Table, row: &Row, run: &dyn Fn(&Row) -> Result<Found>) -> Result<()> {
        self.origin(head, row)?;
        for remark in ["note", "id"] {
            row.text(remark)?;
        }
        let id = row.text("id")?;
        if !id.is_empty()
            && let Some(other) = self.ids.insert(id.to_owned(), place.to_owned())
        {
            return Err(format!("the row `{id}` stands at {other} too").into());
        }
        if row.value("context").is_some() {
            if row.text("context")?.is_empty() {
                return Err("`context` says why nothing runs the row".into());
            }
            self.report.context += 1;
            return Ok(());
        }
        let class = row.text("class")?;
        let expected = Expected::read(row, !class.is_empty())?;
        let (disagrees, gives) = (row.text("disagrees")?, row.text("gives")?);
        if disagrees.is_empty() != gives.is_empty() {
            return Err("a row that `disagrees`, with the reason, says what the model `gives`".into());
        }
        let found = run(row)?;
        if let Some(unread) = row.unread().next() {
            return Err(format!("nothing reads `{unread}`").into());
        }
        self.report.run += 1;
        let outcome = expected.judge(&found)?;
        match (class, outcome.miss) {
            ("", _) => {}
            (class, Some(miss)) => self.classes.add(class, place, miss),
            (_, None) => return Err("only a row with a `value` can belong to a class".into()),
        }
        if gives.is_empty() {
            return if outcome.met { Ok(()) } else { Err(format!("found {}, expected {}", outcome.found, outcome.expected).into()) };
        }
        if outcome.met {
            return Err(format!("no longer disagrees: found {}, expected {}", outcome.found, outcome.expected).into());
        }
        let printed = expected.printed_like(&found, gives)?;
        if printed != gives {
            return Err(format!("disagrees otherwise than noted: found {printed}, noted {gives}").into());
        }
        self.report.disagree += 1;
        self.report.lines.push(format!("{place} {id} disagrees: {gives}, not {}: {disagrees}", outcome.expected));
        Ok(())
    }

    /// Where a row comes from and how that is known: its own word, else its table's, else its file's.
    fn origin(&self, head: &Table, row: &Row) -> Result<()> {
        let said = |key: &str| -> Result<String> {
            let own = row.text(key)?;
            let text = if own.is_empty() { head.get(key).and_then(|item| item.as_str()).unwrap_or_default() } else { own };
            if text.is_empty() { Err(format!("`{key}` lacks").into()) } else { Ok(text.to_owned()) }
        };
        let (key, word) = (said("source")?, said("known")?);
        let known = Known::from_key(&word).ok_or_else(|| format!("`known`: `{word}` is not {}", Known::WHAT))?;
        if key == "own" && self.whose == Folder::Own {
            return said("reference").map(|_| ());
        }
        let source = source::find(&key).ok_or_else(|| format!("no source is called `{key}`"))?;
        if source.known == Known::Memory && known != Known::Memory {
            return Err(format!("`{key}` is recalled, so its rows are `memory`, not `{word}`").into());
        }
        Ok(())
    }

    /// Judges the classes and gives all that was found.
    pub fn finish(mut self) -> Report {
        let (lines, faults) = self.classes.judge();
        self.report.lines.extend(lines);
        self.report.faults.extend(faults);
        self.report
    }
}
