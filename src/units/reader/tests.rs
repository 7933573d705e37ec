#![allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests assert on known values")]

use super::*;
use crate::units::{Duration, MassFraction, Ph, Thickness, WaterActivity};

/// What is read off the root of a document, or its faults, one a line.
fn read<R>(text: &str, read: impl FnOnce(&TableReader<'_>) -> Option<R>) -> Result<Option<R>, String> {
    let faults = Faults::default();
    let tree = Tree::parse(text).map_err(|error| error.to_string())?;
    let result = tree.whole(&faults).table(read);
    faults.or(result).map_err(|error| error.to_string())
}

fn thickness(text: &str) -> Result<f64, String> {
    use crate::units::Checked;
    read(text, |table| table.optional("wall").measure::<Thickness>()).map(|read| read.unwrap().base())
}

#[test]
fn a_measure_is_a_text_or_a_table() {
    for text in ["wall = \"2 mm\"", "wall = { value = 2, unit = \"mm\" }", "wall.value = 2.0\nwall.unit = \"mm\"", "{\"wall\": \"2 mm\"}"] {
        assert_eq!(thickness(text), Ok(0.002), "{text}");
    }
}

#[test]
fn a_number_needs_its_unit() {
    let units = "write a thickness in quotes with one of `m`, `cm`, `mm`, `um`, `[in_i]`";
    for text in ["wall = 2", "wall = \"2\"", "wall = { value = 2 }"] {
        assert_eq!(thickness(text), Err(format!("line 1: wall: `2` has no unit: {units}")), "{text}");
    }
    assert_eq!(
        thickness("wall = { value = 2, unit = \"mmm\" }"),
        Err("line 1: wall, unit: `mmm` is not a unit known here: did you mean `mm`?".to_owned())
    );
    let share = |text| read(text, |table| table.optional("share").measure::<MassFraction>()).unwrap_err();
    assert_eq!(share("share = 0.4"), "line 1: share: `0.4` has no unit: write a mass fraction in quotes with one of `%`, `g/kg`, `mg/kg`");
}

#[test]
fn what_has_no_unit_by_nature_is_bare() {
    let both = |table: &TableReader<'_>| table.optional("aw").measure::<WaterActivity>().zip(table.optional("ph").measure::<Ph>());
    for text in ["aw = 0.86\nph = 3", "aw = \"0.86\"\nph = \"3\"", "aw = { value = 0.86, unit = \"1\" }\nph = \"3 [pH]\""] {
        use crate::units::Checked;
        let (aw, ph) = read(text, both).unwrap().unwrap();
        assert_eq!((aw.base(), ph.base()), (0.86, 3.0), "{text}");
    }
    assert_eq!(read("aw = 1.2\nph = 3", both).unwrap_err(), "line 1: aw: a water activity must lie between 0 and 1, found `1.2`");
    assert_eq!(read("aw = 1\nph = nan", both).unwrap_err(), "line 2: ph: `NaN` is not a finite number");
}

#[test]
fn a_measured_value_may_state_its_uncertainty() {
    let reported = |text| read(text, |table| table.optional("wall").reported::<Thickness>()).map(Option::unwrap);
    let plain = reported("wall = \"2 mm\"").unwrap();
    for text in [
        "wall = { value = \"2 mm\", uncertainty = \"100 um\" }",
        "wall = { value = 2, uncertainty = 0.1, unit = \"mm\" }",
        "{ \"wall\": { \"value\": 2, \"uncertainty\": 0.1, \"unit\": \"mm\" } }",
    ] {
        let (value, uncertainty) = reported(text).unwrap();
        assert_eq!((value, plain.1), (plain.0, None));
        assert!((uncertainty.unwrap() - 0.0001).abs() < 1e-15, "{text}");
    }
    assert_eq!(
        reported("wall = { value = \"2 mm\", uncertainty = \"-1 mm\" }").unwrap_err(),
        "line 1: wall, uncertainty: an uncertainty must lie between 0 mm and 50 mm, found `-1 mm`"
    );
    assert_eq!(
        reported("wall = { value = \"2 mm\", uncertainty = \"1 g\" }").unwrap_err(),
        "line 1: wall, uncertainty: `1 g` is not a length: give it in `m`, `cm`, `mm`, `um`, `[in_i]`"
    );
    let bare = read("aw = { value = 0.8, uncertainty = 0.25 }", |table| table.optional("aw").reported::<WaterActivity>());
    assert_eq!(bare.unwrap().unwrap().1, Some(0.25));
}

#[test]
fn every_fault_is_found_in_the_order_of_the_lines() {
    let faults = read("casts = 2.5\nwal = \"2 mm\"\nkeep = \"3 mm\"\nkind = true\n", |table| {
        let keep = table.optional("keep").measure::<Duration>();
        let wall = table.required("wall", "`wall = \"2 mm\"`").measure::<Thickness>();
        let _ = (table.optional("casts").whole(1..=9), table.optional("kind").text());
        keep.zip(wall)
    });
    assert_eq!(
        faults.unwrap_err(),
        "document: `wall` is missing: add `wall = \"2 mm\"`\n\
         line 1: casts: expected a whole number from 1 to 9, found `2.5`\n\
         line 2: document: `wal` is not a key here: did you mean `wall`?\n\
         line 3: keep: `3 mm` is not a time: give it in `s`, `min`, `h`, `d`, `wk`\n\
         line 4: kind: expected a text in quotes, found `true`"
    );
}

#[test]
fn keys_must_be_known_and_stand_once() {
    let none = |table: &TableReader<'_>| {
        let _ = (table.optional("shell"), table.optional("cap"));
        Some(())
    };
    assert_eq!(read("mould = 1", none).unwrap_err(), "line 1: document: `mould` is not a key here: use one of `shell`, `cap`");
    assert_eq!(read("{\n\"cap\": 1,\n\"cap\": 2}", none).unwrap_err(), "line 3: document: `cap` stands here twice: keep one");
    assert!(read("cap = 1\ncap = 2", none).unwrap_err().starts_with("line 2: document: this is not TOML at column 1: duplicate key"));
}

#[test]
fn lines_are_known_in_both_forms() {
    let wall = |table: &TableReader<'_>| table.optional("shell").table(|shell| shell.optional("wall").measure::<Thickness>());
    let toml = "# first\n[shell]\n# third\nwall = 2\n";
    let json = "{\n  \"shell\": {\n\n    \"wall\": 2\n  }\n}\n";
    for text in [toml, json, &format!("\u{feff}{toml}"), &toml.replace('\n', "\r\n")] {
        assert!(read(text, wall).unwrap_err().starts_with("line 4: shell, wall: `2` has no unit"), "{text}");
    }
    let listed = |table: &TableReader<'_>| Some(table.optional("all").list("one").filter_map(Field::text).count());
    for text in ["all = [\n\"a\",\n1,\n]", "{\"all\": [\n\"a\",\n1\n]}"] {
        assert_eq!(read(text, listed).unwrap_err(), "line 3: all, one 2: expected a text in quotes, found `1`", "{text}");
    }
}

#[test]
fn deep_nesting_is_a_fault_and_no_overflow() {
    for (open, close) in [("[", "]"), ("{a=", "}")] {
        let text = format!("a = {}1{}", open.repeat(100_000), close.repeat(100_000));
        assert!(read(&text, |_| Some(())).unwrap_err().contains("recur"), "{open}");
    }
    let headers = format!("[{}]", vec!["a"; 100_000].join("."));
    assert!(read(&headers, |_| Some(())).unwrap_err().contains("recur"));
    let json = format!("{{\"a\":{}", "[".repeat(100_000));
    assert!(read(&json, |_| Some(())).unwrap_err().contains("recur"));
    let unclosed = format!("a = {}", "[{a=".repeat(100_000));
    assert!(read(&unclosed, |_| Some(())).is_err());
}

#[test]
fn messages_stay_short_and_on_one_line() {
    let long = format!("wall = \"\"\"2\n{}\"\"\"", "x".repeat(10_000));
    let message = thickness(&long).unwrap_err();
    assert!(message.lines().count() == 1 && message.len() < 200, "{message}");
    let key = format!("\"{}\\n\" = 1", "k".repeat(30));
    let message = read(&key, |_| Some(())).unwrap_err();
    assert_eq!(message, format!("line 1: document: `{}\\n` is not a key here", "k".repeat(30)));
}

#[test]
fn many_faults_are_counted_and_not_all_told() {
    let text: String = (0..2000).map(|number| format!("key{number} = 1\n")).collect();
    let faults = Faults::default();
    Tree::parse(&text).unwrap().whole(&faults).table(|table| {
        let _ = table.optional("kez");
        Some(())
    });
    let error = faults.or(()).unwrap_err();
    assert_eq!((error.faults.len(), error.more), (500, 1500));
    assert!(error.to_string().ends_with("\nand 1500 more"));
}
