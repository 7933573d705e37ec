//! Once warm, assessing and judging a piece allocate nothing.
#![allow(
    unsafe_code,
    reason = "counting allocations takes a global allocator, which is unsafe to implement; the library itself forbids it"
)]
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use cordial::assess::{Assessment, assess_into};
use cordial::engine::Findings;
use cordial::{Document, rules};
use std::alloc::{GlobalAlloc, Layout, System};
use std::sync::atomic::{AtomicUsize, Ordering};

struct Counting;

static ALLOCATIONS: AtomicUsize = AtomicUsize::new(0);

// SAFETY: every call is passed on to the system's allocator unchanged.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        ALLOCATIONS.fetch_add(1, Ordering::Relaxed);
        // SAFETY: as the caller promises.
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        // SAFETY: as the caller promises.
        unsafe { System.dealloc(pointer, layout) }
    }
}

#[global_allocator]
static COUNTING: Counting = Counting;

#[test]
fn warm_assessing_and_judging_allocate_nothing() {
    let document = Document::parse(include_str!("../examples/data/winter-box.toml")).unwrap();
    let rules = rules::built_in();
    let bounds: Vec<_> = document.pieces().iter().map(|piece| rules.bounds(piece).unwrap()).collect();
    let (mut assessment, mut findings) = (Assessment::default(), Findings::default());
    let mut run = || {
        for (piece, bounds) in document.pieces().iter().zip(&bounds) {
            assess_into(piece, &mut assessment);
            rules.judge(&assessment, bounds, &mut findings);
        }
    };
    run();
    let before = ALLOCATIONS.load(Ordering::Relaxed);
    run();
    assert_eq!(ALLOCATIONS.load(Ordering::Relaxed) - before, 0);
}
