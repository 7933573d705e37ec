//! All findings at once: a piece is put right, and the document with it.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::assess::{Part, assess};
use cordial::engine::{Findings, RuleSet, Verdict};
use cordial::piece::{Allowance, Knob, KnobKind, Piece, Process, Turn};
use cordial::remedy::{Remedy, remedies, repair};
use cordial::{Document, check, rules};
use std::collections::BTreeMap;

const BOX: &str = include_str!("../examples/data/winter-box.toml");

/// The head of the winter box (its chocolates) with one of its pieces.
fn one_piece(index: usize) -> String {
    let mut parts = BOX.split("[[piece]]");
    let head = parts.next().unwrap();
    format!("{head}[[piece]]{}", parts.nth(index).unwrap())
}

#[test]
fn failing_pieces_are_put_right_and_written_back() {
    for index in [0, 5] {
        let text = one_piece(index);
        let document = Document::parse(&text).unwrap();
        let piece = &document.pieces()[0];
        assert_eq!(check(piece).unwrap().verdict(), Verdict::Fail);
        let repair = repair(piece, &rules::built_in(), |_| true).unwrap();
        assert!(repair.left.iter().all(|(_, _, verdict)| *verdict < Verdict::Fail), "{:?}", repair.left);

        let written = Document::rewritten(&text, 0, piece, &repair.turns).unwrap();
        let again = Document::parse(&written).unwrap_or_else(|error| panic!("{error}\n{written}"));
        assert!(check(&again.pieces()[0]).unwrap().verdict() < Verdict::Fail, "{written}");
        for comment in text.lines().filter(|line| line.trim_start().starts_with('#')) {
            assert!(written.contains(comment), "lost: {comment}");
        }
        let changed = written.lines().filter(|line| !text.contains(*line)).count();
        assert!(changed <= 3 * repair.turns.len(), "more lines changed than knobs turned:\n{written}");
    }
}

/// The whole winter box: every failing piece put right in turn, in one document that is written out, read again and checked.
#[test]
fn the_winter_box_written_out_again_holds_no_failure() {
    let (mut text, document, rules) = (BOX.to_owned(), Document::parse(BOX).unwrap(), rules::built_in());
    let failing = |text: &str| {
        let document = Document::parse(text).unwrap_or_else(|error| panic!("{error}\n{text}"));
        let failing = document.pieces().iter().filter(|piece| check(piece).unwrap().verdict() == Verdict::Fail);
        failing.map(|piece| piece.name.clone()).collect::<Vec<_>>()
    };
    assert!(failing(BOX).len() >= 4, "{:?}", failing(BOX));
    for (index, piece) in document.pieces().iter().enumerate() {
        let repair = repair(piece, &rules, |_| true).unwrap();
        text = Document::rewritten(&text, index, piece, &repair.turns).unwrap();
    }
    let file = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("repaired-winter-box.toml");
    std::fs::write(&file, &text).unwrap();
    assert_eq!(failing(&std::fs::read_to_string(&file).unwrap()), [""; 0], "{text}");
}

#[test]
fn what_is_pinned_stays() {
    let text = one_piece(0);
    let document = Document::parse(&text).unwrap();
    let pinned = |knob: Knob| knob.kind() != KnobKind::FillDepth;
    let repair = repair(&document.pieces()[0], &rules::built_in(), pinned).unwrap();
    assert!(repair.turns.iter().all(|(knob, _)| knob.kind() != KnobKind::FillDepth));
    assert!(repair.left.iter().any(|(rule, _, verdict)| rule.id == "headroom-outside-window" && *verdict == Verdict::Fail));
}

/// What the maker accepts is not mended; a failure cannot be accepted.
#[test]
fn what_is_accepted_stays() {
    let text = one_piece(0);
    let document = Document::parse(&text).unwrap();
    let (mut piece, rules) = (document.pieces()[0].clone(), rules::built_in());
    let left = |piece: &Piece| repair(piece, &rules, |_| false).unwrap().left;
    let plain = left(&piece);
    let report = check(&piece).unwrap();
    let mut doubted: Vec<_> = report.findings.iter().filter(|found| found.counts() && found.verdict >= Verdict::Caution).collect();
    doubted.sort_by_key(|found| (found.rule.id, found.part));
    let mut told = plain.clone();
    told.sort_by_key(|(rule, part, _)| (rule.id, *part));
    let told: Vec<_> = told.iter().map(|(rule, part, verdict)| (rule.id, *part, *verdict)).collect();
    let doubted: Vec<_> = doubted.iter().map(|found| (found.rule.id, found.part, found.verdict)).collect();
    assert_eq!(told, doubted, "each once");
    // One accepted caution leaves the others.
    let caution = plain.iter().find(|(.., verdict)| *verdict == Verdict::Caution).map(|(rule, ..)| rule.id).unwrap();
    piece.allow.push(Allowance { rule: caution.to_owned(), reason: "a trial".into() });
    let others: Vec<_> = left(&piece).iter().map(|(rule, ..)| rule.id).collect();
    assert_eq!(others, plain.iter().map(|(rule, ..)| rule.id).filter(|id| *id != caution).collect::<Vec<_>>());
    for (rule, ..) in &plain {
        piece.allow.push(Allowance { rule: rule.id.to_owned(), reason: "a trial".into() });
    }
    let accepted = left(&piece);
    assert!(plain.iter().any(|(.., verdict)| *verdict == Verdict::Caution));
    assert!(!accepted.is_empty() && accepted.iter().all(|(.., verdict)| *verdict == Verdict::Fail), "{accepted:?}");
    assert_eq!(accepted.len(), plain.iter().filter(|(.., verdict)| *verdict == Verdict::Fail).count());
}

#[test]
fn only_toml_is_written_again() {
    let document = Document::parse(BOX).unwrap();
    assert!(Document::rewritten("{ \"format\": 1 }", 0, &document.pieces()[0], &[]).is_err());
}

/// A colder store would please whoever wants 14 °C, but how much sucrose dissolves below 15 °C is not known.
#[test]
fn what_can_no_longer_be_judged_is_told() {
    let text = r#"
        format = 1
        [[piece]]
        name = "syrup"
        storage = { temperature = "16 Cel", humidity = "50 %RH" }
        limits = { "storage.max" = { value = "14 Cel", reason = "a cool cellar" } }
        [[piece.layer]]
        name = "syrup"
        recipe = [{ ingredient = "sugar", mass = "60 g" }, { ingredient = "water", mass = "40 g" }]
        "#;
    let report = check(&Document::parse(text).unwrap().pieces()[0]).unwrap();
    assert!(report.of("sucrose-would-grain").next().is_some());
    let warm = report.of("storage-off").next().unwrap();
    let colder = warm.remedies.iter().find(|advice| advice.remedy.knob == Knob::Process(Process::StorageTemperature));
    let colder = colder.unwrap_or_else(|| panic!("{}", report.to_full_text()));
    let upset = colder.remedy.upsets.iter().find(|upset| upset.rule == "sucrose-would-grain");
    assert!(upset.is_some_and(|upset| upset.verdict.is_none()), "{:?} {}", colder.remedy.upsets, colder.text);
    assert!(colder.brief.contains("the sucrose would crystallise (can no longer be judged, syrup)"), "{}", colder.brief);
}

fn judged(rules: &RuleSet, piece: &Piece) -> Findings {
    let mut findings = Findings::default();
    rules.judge(&assess(piece), &rules.bounds(piece).unwrap(), &mut findings);
    findings
}

/// The worst verdict of each rule on each part.
fn verdicts(findings: &Findings) -> BTreeMap<(&'static str, Part), Verdict> {
    let mut worst = BTreeMap::new();
    for reading in &findings.readings {
        let verdict = worst.entry((reading.rule.id, reading.part)).or_insert(reading.verdict);
        *verdict = reading.verdict.max(*verdict);
    }
    worst
}

/// Every remedy of the winter box, found again the slow way.
#[test]
fn remedies_are_what_turning_the_knob_by_hand_finds() {
    let rules = rules::built_in();
    let document = Document::parse(BOX).unwrap();
    let (mut seen, mut harmful) = (0, 0);
    for piece in document.pieces() {
        let before = judged(&rules, piece);
        let was = verdicts(&before);
        let cards: BTreeMap<_, _> = before.readings.iter().map(|reading| (reading.rule.id, reading.rule)).collect();
        let targets: Vec<_> =
            was.iter().filter(|(_, verdict)| **verdict > Verdict::Pass).map(|((id, part), _)| (cards[id], *part)).collect();
        let found = remedies(piece, &rules, &rules.bounds(piece).unwrap(), &before, &targets);
        assert_eq!(found.len(), targets.len());
        for ((card, part), remedies) in targets.iter().zip(&found) {
            for remedy in remedies {
                let place = format!("{}, {} on {part:?}: {remedy:?}", piece.name, card.id);
                assert_eq!(Some(remedy.from), remedy.knob.get(piece), "{place}");
                let now = verdicts(&judged(&rules, &remedy.knob.set(piece, remedy.to).unwrap()));
                // It mends what it is for.
                let allowed = if was[&(card.id, *part)] > Verdict::Note { Verdict::Note } else { Verdict::Pass };
                assert!(now.get(&(card.id, *part)).is_none_or(|left| *left <= allowed), "{place}");
                // It names all that gets worse, and nothing else.
                let worse = now.iter().filter(|(at, verdict)| **verdict > *was.get(at).unwrap_or(&Verdict::Pass));
                let judged = remedy.upsets.iter().filter_map(|upset| Some(((upset.rule, upset.part), upset.verdict?)));
                assert_eq!(judged.collect::<BTreeMap<_, _>>(), worse.map(|(at, verdict)| (*at, *verdict)).collect(), "{place}");
                let told = &remedy.upsets;
                (seen, harmful) = (seen + 1, harmful + usize::from(!told.is_empty()));
            }
            // Those that harm nothing come first, and of those as harmless the smallest.
            let rank = |remedy: &Remedy| {
                let harm = remedy
                    .upsets
                    .iter()
                    .map(|upset| upset.verdict.unwrap_or(Verdict::Caution))
                    .filter(|verdict| *verdict > Verdict::Note)
                    .max();
                (harm.unwrap_or(Verdict::Pass), remedy.change(piece))
            };
            assert!(remedies.windows(2).all(|pair| rank(&pair[0]) <= rank(&pair[1])), "{}, {}", piece.name, card.id);
        }
    }
    assert!(seen > 40 && harmful > 5 && harmful < seen, "{harmful} of {seen} remedies upset something");
}

/// A choice counts as half; a number by where it stands, or by a tenth of its range where it stands near nothing.
#[test]
fn a_change_is_measured_against_where_the_knob_stands() {
    let document = Document::parse(BOX).unwrap();
    let piece = &document.pieces()[0];
    let change = |knob: Knob, to: f64| Remedy { knob, from: knob.get(piece).unwrap(), to, upsets: Vec::new() }.change(piece);
    for knob in Knob::all(piece) {
        let (from, (least, most)) = (knob.get(piece).unwrap(), knob.range(piece));
        if knob.word(from).is_some() {
            assert!((change(knob, from + 1.0) - 0.5).abs() < 1e-12, "{knob:?}");
        } else {
            let whole = from.abs().max((most - least) / 10.0);
            assert!((change(knob, from + 0.3 * whole) - 0.3).abs() < 1e-9 && (change(knob, from - whole) - 1.0).abs() < 1e-9, "{knob:?}");
        }
    }
}

/// Of a repair no turn can be left out, and none of a number taken back by a step of the scale, without something getting worse.
#[test]
fn a_repair_holds_nothing_needless() {
    let rules = rules::built_in();
    let document = Document::parse(BOX).unwrap();
    let mut turned = 0;
    for piece in document.pieces() {
        let unknown_before: Vec<_> = judged(&rules, piece).unknown.iter().map(|unknown| (unknown.rule.id, unknown.part)).collect();
        let badness = |turns: &[(Knob, f64)]| {
            let piece = turns.iter().try_fold(piece.clone(), |piece, (knob, to)| knob.set(&piece, *to))?;
            let accepted = |id: &str| piece.allow.iter().any(|allowed| allowed.rule == id);
            let found = judged(&rules, &piece);
            // What could be judged and no longer can counts as a caution.
            let lost = found.unknown.iter().filter(|unknown| !unknown_before.contains(&(unknown.rule.id, unknown.part))).count();
            let open: Vec<_> = verdicts(&found)
                .into_iter()
                .filter(|((id, _), verdict)| *verdict == Verdict::Fail || *verdict == Verdict::Caution && !accepted(id))
                .collect();
            let fails = open.iter().filter(|(_, verdict)| *verdict == Verdict::Fail).count();
            Some((fails, open.len() - fails + lost))
        };
        let repair = repair(piece, &rules, |_| true).unwrap();
        let (before, after) = (badness(&[]).unwrap(), badness(&repair.turns).unwrap());
        assert!(after < before || repair.turns.is_empty() && after == before, "{}: {before:?} to {after:?}", piece.name);
        assert!(repair.left.len() <= after.0 + after.1, "{}", piece.name);
        assert_eq!(repair.left.iter().filter(|(_, _, verdict)| *verdict == Verdict::Fail).count(), after.0, "{}", piece.name);
        for (index, (knob, to)) in repair.turns.iter().enumerate() {
            let mut without = repair.turns.clone();
            without.remove(index);
            assert!(badness(&without).is_none_or(|badness| badness > after), "{}: {knob:?} is needless", piece.name);
            if let (Turn::Continuous { step }, Some(from)) = (knob.turns(piece), knob.get(piece)) {
                let mut less = repair.turns.clone();
                let back = to - step.copysign(to - from);
                less[index].1 = back;
                // Halving finds the least where the way is even; elsewhere it may stop one step short of it.
                let needless = (back - from).abs() > step && badness(&less).is_some_and(|badness| badness <= after);
                assert!(!needless || (to - from).abs() > 256.0 * step, "{}: {knob:?} could be a step smaller than {to}", piece.name);
            }
            turned += 1;
        }
    }
    assert!(turned > 5, "{turned}");
}
