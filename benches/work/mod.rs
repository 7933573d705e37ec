//! What the benches share: pieces of one, three and eight layers, formulations for four simple checks, and ratios of times.
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "no bench uses all of it; a bench may stop at the first surprise"
)]

pub mod four_checks;

use cordial::piece::{Amount, Document, Knob, Piece, Turn};
use cordial::screen::{Axis, Plan};
use cordial::units::Checked;
use std::time::{Duration, Instant};

pub const BOX: &str = include_str!("../../examples/data/winter-box.toml");

/// The pieces of the winter box.
pub fn pieces() -> Vec<Piece> {
    Document::parse(BOX).unwrap().pieces().to_vec()
}

/// The piece of the winter box with most layers, cut down or stacked up to so many; where the layers come round again, all are poured less.
pub fn piece_of(layers: usize) -> Piece {
    let mut piece = pieces().into_iter().max_by_key(|piece| piece.layers.len()).unwrap();
    let rounds = layers.div_ceil(piece.layers.len());
    piece.layers = piece.layers.iter().cycle().take(layers).cloned().collect();
    for layer in &mut piece.layers {
        layer.amount = layer.amount.map(|amount| match amount {
            Amount::Volume(volume) => Amount::Volume(Checked::nearest(volume.base() / rounds as f64)),
            Amount::Mass(mass) => Amount::Mass(Checked::nearest(mass.base() / rounds as f64)),
            depth @ Amount::FillTo(_) => depth,
        });
    }
    piece
}

/// Every knob of a piece that can be turned again and again, and two settings of each.
pub fn knobs(piece: &Piece) -> Vec<(Knob, [f64; 2])> {
    let settings = |knob: Knob| {
        let stands = knob.get(piece).unwrap();
        let (least, most) = knob.range(piece);
        match knob.turns(piece) {
            Turn::Whole => [if stands > least { least } else { most }, stands],
            Turn::Continuous { .. } => [stands + 0.01 * (most - stands), stands],
        }
    };
    Knob::all(piece).filter(|knob| !knob.builds_on()).map(|knob| (knob, settings(knob))).collect()
}

/// So many candidates of two knobs: the first ingredient of the first layer, and the wall.
pub fn plan(piece: &Piece, count: u64) -> Plan {
    Plan::sample([Knob::IngredientMass(0, 0), Knob::WallThickness].map(|knob| Axis::of(knob, piece)).to_vec(), count).unwrap()
}

/// The shortest time of each of several jobs, which take turns so that a busy machine troubles all of them alike.
pub fn shortest(rounds: usize, jobs: &mut [&mut dyn FnMut()]) -> Vec<Duration> {
    let mut times = vec![Duration::MAX; jobs.len()];
    for _ in 0..rounds {
        for (shortest, job) in times.iter_mut().zip(jobs.iter_mut()) {
            let start = Instant::now();
            job();
            *shortest = start.elapsed().min(*shortest);
        }
    }
    times
}
