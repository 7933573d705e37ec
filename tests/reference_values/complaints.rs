//! Faulty files are refused, each with a fault that says where and what.

use crate::walk::{Folder, Walk};

/// The faults of one file in a laboratory's own folder, apart.
fn faults_of(folder: Folder, text: &str) -> Vec<String> {
    let mut walk = Walk::new(folder);
    walk.file("file.toml", text);
    walk.finish().faults
}

/// A file of one row.
fn file(row: &str) -> String {
    format!(
        "source = \"oiml-table-iva\"\nknown = \"seen\"\n[[table]]\nquantity = \"ethanol-water-density\"\ncount = 1\nrows = [\n{{ {row} }},\n]\n"
    )
}

const GOOD: &str = r#"strength = "40 %vol", at = "20 Cel", value = "948.05 kg/m3", tolerance = "0.01 kg/m3", reason = "printed to 0.01""#;

fn assert_refused(text: &str, says: &str) {
    let faults = faults_of(Folder::BuiltIn, text);
    assert!(faults.len() == 1 && faults.iter().all(|fault| fault.contains(says)), "{text}\nshould say `{says}`, says {faults:#?}");
}

#[test]
fn a_good_row_passes() {
    assert_eq!(faults_of(Folder::BuiltIn, &file(GOOD)), [""; 0]);
    let fahrenheit = GOOD.replace("20 Cel", "68 [degF]").replace("948.05 kg/m3", "0.94805 kg/L").replace("0.01 kg/m3", "0.00001 kg/L");
    assert_eq!(faults_of(Folder::BuiltIn, &file(&fahrenheit)), [""; 0]);
}

#[test]
fn a_faulty_row_is_named() {
    for (good, faulty, says) in [
        ("948.05", "948.08", "file.toml:7: found 948.045"),
        ("strength =", "strenght =", "file.toml:7: `strength` lacks"),
        ("reason =", "bar = \"1A\", reason =", "file.toml:7: nothing reads `bar`"),
        ("reason = \"printed to 0.01\"", "note = \"\"", "file.toml:7: `reason` lacks"),
        ("tolerance = \"0.01 kg/m3\", ", "", "say `tolerance`, `relative` or `in_band = true`"),
        ("tolerance =", "relative = \"1 %\", tolerance =", "say `tolerance`, `relative` or `in_band = true`"),
        ("tolerance = \"0.01 kg/m3\"", "in_band = true", "this model states no band"),
        ("0.01 kg/m3", "0.01 Pa", "is not a density"),
        ("948.05 kg/m3", "948.05", "is not a ratio"),
        ("20 Cel", "45 Cel", "is known from -20 Cel to 40 Cel"),
        ("20 Cel", "20 mm", "`at`: `20 mm` is not a temperature"),
        ("value = \"948.05 kg/m3\", tolerance = \"0.01 kg/m3\"", "is = \"light\"", "no word can be expected"),
        (
            "value = \"948.05 kg/m3\", tolerance = \"0.01 kg/m3\"",
            "between = [\"949 kg/m3\", \"950 kg/m3\"]",
            "expected 949 kg/m3 to 950 kg/m3",
        ),
        ("strength =", "quantity = \"colour\", strength =", "nothing runs the quantity `colour`"),
        ("strength =", "source = \"hearsay\", strength =", "no source is called `hearsay`"),
        ("strength =", "source = \"own\", strength =", "no source is called `own`"),
        ("strength =", "source = \"recalled\", strength =", "is recalled, so its rows are `memory`, not `seen`"),
        ("strength =", "known = \"heard\", strength =", "`heard` is not a standing of evidence"),
        ("strength =", "context = \"\", strength =", "`context` says why nothing runs the row"),
        ("strength =", "disagrees = \"it floats\", strength =", "says what the model `gives`"),
        ("strength =", "gives = \"948.1 kg/m3\", disagrees = \"it floats\", strength =", "no longer disagrees: found 948.045"),
    ] {
        let text = file(&GOOD.replace(good, faulty));
        assert_ne!(text, file(GOOD));
        assert_refused(&text, says);
    }
}

#[test]
fn a_disagreement_is_pinned() {
    let noted = |gives| {
        file(&GOOD.replace("948.05", "950").replace("strength =", &format!("gives = \"{gives}\", disagrees = \"a slip\", strength =")))
    };
    assert_eq!(faults_of(Folder::BuiltIn, &noted("948.05 kg/m3")), [""; 0]);
    assert_refused(&noted("948.2 kg/m3"), "disagrees otherwise than noted: found 948.0 kg/m3, noted 948.2 kg/m3");
}

#[test]
fn a_faulty_file_is_named() {
    let good = file(GOOD);
    assert_refused(&good.replace("count = 1", "count = 2"), "file.toml:3: 1 rows stand here, `count` says 2");
    assert_refused(&good.replace("count = 1\n", ""), "`count` says nothing");
    assert_refused("source = \"own\"\n", "file.toml: holds no `[[table]]`");
    assert_refused(&format!("{good}[table.cavity]\nshape = \"box\"\n"), "file.toml:9: nothing reads the table `cavity`");
    assert_refused(&good.replace("known =", "knwon = \"seen\"\nknown ="), "nothing reads `knwon`");
    assert_refused(&good.replace("source = \"oiml-table-iva\"\n", ""), "`source` lacks");
    assert_refused(&good.replace("},\n]", "},"), "file.toml: TOML parse error");
    let twice = good.replace("strength =", "id = \"one\", strength =");
    let twice = twice.replace("count = 1", "count = 2").replace("rows = [", &format!("rows = [{{ id = \"one\", {GOOD} }},"));
    assert_refused(&twice, "the row `one` stands at file.toml:6 too");
}

#[test]
fn a_class_is_judged_as_a_whole() {
    let class = |count, root_mean_square, worst| {
        let of_a_class = file(&GOOD.replace("tolerance = \"0.01 kg/m3\"", "class = \"spirits\"").replace("948.05", "948.55"));
        format!(
            "{of_a_class}[[class]]\nname = \"spirits\"\ncount = {count}\nroot_mean_square = \"{root_mean_square} kg/m3\"\nworst = \"{worst} kg/m3\"\nreason = \"a trial\"\n"
        )
    };
    assert_eq!(faults_of(Folder::BuiltIn, &class(1, 0.51, 0.51)), [""; 0]);
    assert_refused(&class(1, 0.49, 0.51), "`spirits` misses by 0.5");
    assert_refused(&class(1, 0.51, 0.49), "at file.toml:7, 0.49 kg/m3 at most");
    assert_refused(&class(2, 0.51, 0.51), "`spirits` has 1 rows, not 2");
    assert_refused(class(1, 1.0, 1.0).split("[[class]]").next().unwrap(), "the class `spirits` has rows but no limits");
}

#[test]
fn a_laboratory_names_its_own_values() {
    let own = file(GOOD).replace("\"oiml-table-iva\"", "\"own\"");
    let faults = faults_of(Folder::Own, &own);
    assert!(faults.len() == 1 && faults.iter().all(|fault| fault.contains("`reference` lacks")), "{faults:?}");
    let own = own.replace("known = \"seen\"", "known = \"declared\"\nreference = \"bench book 7, page 12\"");
    assert_eq!(faults_of(Folder::Own, &own), [""; 0]);
}

#[test]
fn a_piece_is_checked() {
    let piece = |row: &str| {
        format!(
            "format = 1\n[[piece]]\nname = \"spirit\"\n[[piece.layer]]\nname = \"filling\"\nmeasured = {{ water_activity = 0.95 }}\n\
            [published]\nsource = \"winkler-2009\"\nknown = \"seen\"\ncount = 1\nrows = [{{ {row}, reason = \"it spoiled\" }}]\n"
        )
    };
    let good = r#"part = "filling", rule = "filling-not-shelf-stable", is = "fail""#;
    assert_eq!(faults_of(Folder::BuiltIn, &piece(good)), [""; 0]);
    assert_refused(&piece(&good.replace("fail", "pass")), "file.toml:11: found fail, expected pass");
    assert_refused(&piece(&good.replace("filling-not", "feeling-not")), "no rule is called `feeling-not-shelf-stable`");
    let limited = |limit: &str| piece(&good.replace("rule =", &format!("limit = \"{limit}\", rule =")));
    assert_eq!(faults_of(Folder::BuiltIn, &limited("activity.ambient")), [""; 0]);
    assert_refused(&limited("activity.ambient-in-spirit"), "found silent, expected fail");
    assert_refused(&limited("activity.chilled"), "`filling-not-shelf-stable` has no limit `activity.chilled`");
    assert_refused(&piece(&good.replace("part = \"filling\"", "part = \"crust\"")), "found silent, expected fail");
    assert_refused(&piece(&good.replace("part =", "piece = \"brandy\", part =")), "no piece is called `brandy`");
    assert_refused(
        &piece(r#"part = "filling", quantity = "water", value = "20 %", tolerance = "1 %""#),
        "`water` is not assessed on `filling`",
    );
    assert_refused(&piece(good).replace("name = \"spirit\"", "nmae = \"spirit\""), "file.toml: ");
    assert_refused(piece(good).split("[published]").next().unwrap(), "`[published]` lacks");
}
