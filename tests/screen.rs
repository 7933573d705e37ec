//! Screening says the same as checking one by one, whatever the order, the threads and the size of the blocks.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop at the first surprise")]

use cordial::assess::{Part, Quantity, assess};
use cordial::engine::{Findings, Verdict};
use cordial::piece::Knob;
use cordial::screen::{Axis, Plan, Row, Screen};
use cordial::{Document, Piece, rules};

fn pieces() -> Vec<Piece> {
    Document::parse(include_str!("../examples/data/winter-box.toml")).unwrap().pieces().to_vec()
}

/// What a row must hold, found the long way.
fn check(row: &Row, piece: Option<&Piece>) {
    let Some(piece) = piece else { return assert!(row.found.is_none()) };
    let (rules, assessment, mut findings) = (rules::built_in(), assess(piece), Findings::default());
    rules.judge(&assessment, &rules.bounds(piece).unwrap(), &mut findings);
    let found = row.found.as_ref().unwrap();
    let accepted = |rule: &str| piece.allow.iter().any(|allowed| allowed.rule == rule);
    let counts = findings.readings.iter().filter(|reading| reading.verdict == Verdict::Fail || !accepted(reading.rule.id));
    assert_eq!(found.verdict, counts.map(|reading| reading.verdict).max().unwrap_or(Verdict::Pass));
    assert_eq!(found.unknown, !findings.unknown.is_empty());
    assert_eq!(found.estimates[0], assessment.part(Part::Layer(0)).unwrap().get(Quantity::WaterActivity));
    let headroom = findings.readings.iter().find(|reading| reading.limit.key == "headroom.min").map(|reading| reading.margin);
    assert_eq!(found.marks[0].map(|mark| mark.margin), headroom);
}

fn screen<'a>(piece: &'a Piece) -> Screen<'a> {
    Screen::new(piece, &rules::built_in())
        .unwrap()
        .with_estimate(Part::Layer(0), Quantity::WaterActivity)
        .with_margin("headroom.min")
        .unwrap()
}

#[test]
fn rows_of_a_plan_are_what_checking_says() {
    for piece in pieces() {
        let knobs: Vec<Knob> = Knob::all(&piece).collect();
        // Pairs near and far apart, those that add something and those that share a recipe among them.
        for (first, second) in knobs.iter().zip(knobs.iter().skip(1).chain(knobs.iter().rev())) {
            let axes = vec![Axis::of(*first, &piece), Axis::of(*second, &piece)];
            let plan = Plan::sample(axes, 4).unwrap();
            for row in screen(&piece).rows(&plan) {
                let turned = first.set(&piece, row.settings[0]).and_then(|piece| second.set(&piece, row.settings[1]));
                check(&row, turned.as_ref());
            }
        }
    }
}

#[test]
fn rows_of_given_settings_are_those_of_a_plan() {
    let piece = &pieces()[1];
    let screen = screen(piece);
    // More than a block.
    let axes = vec![Axis::of(Knob::FillDepth(0), piece), Axis::of(Knob::WallThickness, piece)];
    let (knobs, plan) = ([axes[0].knob, axes[1].knob], Plan::sample(axes, 5000).unwrap());
    let told = |row: &Row| (row.index, row.settings.clone(), row.found.as_ref().map(|found| (found.verdict, found.estimates.clone())));
    let given: Vec<_> = screen.turned(&knobs, (0..plan.count()).map(|index| plan.settings(index))).map(|row| told(&row)).collect();
    assert_eq!(given, screen.rows(&plan).map(|row| told(&row)).collect::<Vec<_>>());
}

#[test]
fn given_settings_that_do_not_fit_make_no_piece_and_spoil_no_other() {
    let piece = &pieces()[1];
    let knobs = [Knob::FillDepth(0), Knob::WallThickness];
    let settings = [vec![0.002, 0.001], vec![0.003], vec![0.003, f64::NAN], vec![0.003, 0.001, 0.001], vec![], vec![0.002, 0.0015]];
    let rows: Vec<Row> = screen(piece).turned(&knobs, &settings).collect();
    assert_eq!(rows.len(), settings.len());
    for (row, settings) in rows.iter().zip(&settings) {
        let fits = settings.len() == 2 && settings[1].is_finite();
        let turned = || knobs[0].set(piece, settings[0]).and_then(|piece| knobs[1].set(&piece, settings[1]));
        check(row, if fits { turned() } else { None }.as_ref());
    }
    // No knob at all: the piece as described, once for each.
    for row in screen(piece).turned(&[], [[]; 2]) {
        check(&row, Some(piece));
    }
}

#[test]
fn rows_of_pieces_are_what_checking_says() {
    let pieces = pieces();
    let rows: Vec<Row> = screen(&pieces[0]).pieces(pieces.iter().cycle().take(20).cloned()).collect();
    assert_eq!(rows.len(), 20);
    for (row, piece) in rows.iter().zip(pieces.iter().cycle()) {
        check(row, Some(piece));
    }
}

#[test]
fn a_run_goes_on_where_another_stopped_and_blocks_do_not_show() {
    let piece = &pieces()[1];
    let plan = Plan::sample(vec![Axis::of(Knob::FillDepth(0), piece), Axis::of(Knob::WallThickness, piece)], 9000).unwrap();
    let screen = screen(piece);
    let told = |row: &Row| (row.index, row.settings.clone(), row.found.as_ref().map(|found| (found.verdict, found.marks.clone())));
    let all: Vec<_> = screen.rows(&plan).map(|row| told(&row)).collect();
    assert!(all.iter().enumerate().all(|(place, (index, ..))| place as u64 == *index) && all.len() == 9000);
    let rest: Vec<_> = screen.rows(&plan).from(4500).map(|row| told(&row)).collect();
    assert_eq!(rest, all[4500..]);
    assert_eq!(screen.rows(&plan).from(9000).count() + screen.rows(&plan).from(u64::MAX).count(), 0);
}

#[test]
fn a_limit_nobody_has_is_refused() {
    let piece = &pieces()[0];
    let refused = Screen::new(piece, &rules::built_in()).unwrap().with_margin("headroom.most");
    assert_eq!(refused.err().unwrap().to_string(), "no limit is called `headroom.most`: `cargo run --example rule_book` lists them");
}
