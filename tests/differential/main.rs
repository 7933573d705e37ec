//! Compares the models, row by row, with what other implementations make of the same inputs: the tables of `reference-values/differential/`,
//! written by the scripts beside them. With `-- --nocapture` it prints how close each table comes.
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

#[cfg(feature = "balance")]
mod balance;
mod cavity;
mod density;
mod fat;
mod flow;
mod heat;
mod table;
mod units;
mod water;

use std::collections::BTreeMap;
use std::path::Path;
use std::{fs, io};
use table::{Agreement, Table};

/// What a row cannot be compared for, in words.
type Fault = Box<dyn std::error::Error>;
type Result<T> = std::result::Result<T, Fault>;

fn known() -> BTreeMap<&'static str, &'static Table> {
    let topics = [water::TABLES, density::TABLES, flow::TABLES, cavity::TABLES, heat::TABLES, fat::TABLES, units::TABLES];
    let tables = topics.into_iter().flatten();
    #[cfg(feature = "balance")]
    let tables = tables.chain(balance::TABLES);
    tables.map(|table| (table.name, table)).collect()
}

/// The tables of a folder by their names: `water/solutes` for `water/solutes.csv`.
fn texts(folder: &Path) -> io::Result<BTreeMap<String, String>> {
    let mut found = BTreeMap::new();
    let compared = |topic: &fs::DirEntry| topic.path().is_dir() && (cfg!(feature = "balance") || topic.file_name() != "balance");
    for topic in fs::read_dir(folder)?.collect::<io::Result<Vec<_>>>()?.iter().filter(|entry| compared(entry)) {
        for file in fs::read_dir(topic.path())? {
            let file = file?.path();
            if file.extension().is_some_and(|end| end == "csv") {
                let name = file.strip_prefix(folder).unwrap().with_extension("").display().to_string();
                found.insert(name.replace('\\', "/"), fs::read_to_string(file)?);
            }
        }
    }
    Ok(found)
}

/// How close each table comes, and all that is wrong.
fn compare(texts: &BTreeMap<String, String>) -> (Vec<String>, Vec<String>) {
    let mut tables = known();
    let (mut lines, mut faults) = (Vec::new(), Vec::new());
    for (name, text) in texts {
        let Some(table) = tables.remove(name.as_str()) else {
            faults.push(format!("{name}: nothing compares this table"));
            continue;
        };
        let Agreement { rows, worst, faults: found } = table.judge(text);
        lines.push(format!("{name}: {rows} rows, worst {worst:.1e}, at most {}: {}", table.within, table.reason));
        faults.extend(found);
    }
    faults.extend(tables.keys().map(|name| format!("{name}: the table is gone")));
    (lines, faults)
}

#[test]
fn every_table_agrees() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference-values").join("differential");
    let (lines, faults) = compare(&texts(&folder).unwrap());
    println!("{}", lines.join("\n"));
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn a_table_that_nothing_compares_and_one_that_is_gone_are_faults() {
    let (_, faults) = compare(&BTreeMap::from([("water/tables".to_owned(), "of,library,version\n1,pencil,1\n".to_owned())]));
    assert_eq!(faults.len(), 1 + known().len());
    assert!(faults.iter().any(|fault| fault == "water/tables: nothing compares this table"));
    assert!(faults.iter().any(|fault| fault == "water/solutes: the table is gone"));
}
