//! The water that two neighbours trade: how much, which way, how fast.
#![cfg(feature = "documents")]
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use cordial::assess::{Exchange, assess, exchange};
use cordial::models::water::Fate;
use cordial::units::quantity::{gram, second};
use cordial::{Document, check};

/// A wafer under a ganache: its mass and what lies on it are to be said.
fn box_of(wafer: &str, barrier: &str) -> Document {
    Document::parse(&format!(
        r#"
        format = 1
        [[piece]]
        name = "wafer under ganache"
        mould = {{ shape = "box", width = "25 mm", length = "25 mm", depth = "15 mm" }}
        shell = {{ chocolate = "dark-couverture-64", thickness = "1.5 mm", casts = 1, temper = "tempered" }}
        [[piece.layer]]
        name = "wafer"
        kind = "crisp"
        mass = "{wafer}"
        {barrier}
        recipe = [{{ ingredient = "wafer-flake", mass = "100 g" }}]
        measured = {{ water_activity = 0.2, density = "300 kg/m3" }}
        [[piece.layer]]
        name = "ganache"
        fill_to = "2 mm"
        recipe = [{{ ingredient = "cream-35", mass = "100 g" }}, {{ ingredient = "dark-couverture-64", mass = "150 g" }}]
        [piece.cap]
        "#
    ))
    .unwrap()
}

fn trade(wafer: &str, barrier: &str) -> Exchange {
    let document = box_of(wafer, barrier);
    let piece = document.pieces().first().unwrap();
    exchange(piece, &assess(piece), 0).unwrap()
}

fn hours(exchange: &Exchange) -> (f64, f64) {
    let time = exchange.half_time.unwrap();
    (time.least.get::<second>() / 3600.0, time.most.get::<second>() / 3600.0)
}

#[test]
fn what_one_takes_up_the_other_gives_off() {
    let trade = trade("0.6 g", "");
    assert_eq!((trade.lower.fate(), trade.upper.fate()), (Fate::Softens, Fate::Dries));
    assert!((trade.lower.gain.value + trade.upper.gain.value).get::<gram>().abs() < 1e-12);
    assert!(!trade.film);
}

/// Twice as deep, four times as long: Crank's slab. 0.6 g of 300 kg/m3 stand 4.13 mm deep on 22 mm by 22 mm, so half is in after
/// 0.1967 (4.13 mm)^2 / D.
#[test]
fn a_wafer_softens_within_hours_or_days() {
    let (soon, late) = hours(&trade("0.6 g", ""));
    let slab = |diffusivity: f64| 0.1967 * (0.6 / 300.0 / 22.0_f64.powi(2) * 1e6_f64).powi(2) * 1e-6 / diffusivity / 3600.0;
    assert!((soon / slab(7.5e-10) - 1.0).abs() < 0.01, "{soon}");
    assert!((late / slab(0.5e-10) - 1.0).abs() < 0.01, "{late}");
    let (deeper, _) = hours(&trade("1.2 g", ""));
    assert!((deeper / soon - 4.0).abs() < 1e-6);
}

#[test]
fn a_film_slows_it_and_moves_no_less() {
    let (bare, filmed) = (trade("0.6 g", ""), trade("0.6 g", r#"barrier = "cocoa-butter""#));
    assert!(filmed.film && filmed.lower.gain == bare.lower.gain);
    let ((soon, late), (soon_filmed, late_filmed)) = (hours(&bare), hours(&filmed));
    assert!(soon_filmed > 2.0 * soon && late_filmed > 10.0 * late, "{soon_filmed} {late_filmed}");
}

#[test]
fn nothing_is_told_of_what_is_not_there() {
    let document = box_of("0.6 g", "");
    let piece = document.pieces().first().unwrap();
    assert_eq!(exchange(piece, &assess(piece), 1), None);
    let mut bare = piece.clone();
    bare.layers.last_mut().unwrap().recipe = None;
    assert_eq!(exchange(&bare, &assess(&bare), 0), None);
    bare.layers = piece.layers.clone();
    bare.mould = None;
    assert_eq!(exchange(&bare, &assess(&bare), 0), None);
}

#[test]
fn the_report_says_how_much_and_how_fast() {
    let report = check(box_of("0.6 g", "").pieces().first().unwrap()).unwrap();
    let text = report.to_text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("mg of water would go from ganache into wafer, half of it within"), "{text}");
    let json = report.to_json();
    let exchange = json.pointer("/pieces/0/assessment/layers/0/exchange_with_above/half_time/unit");
    assert_eq!(exchange.and_then(|unit| unit.as_str()), Some("h"));
}
