//! How much was done, counted in steps: no input may keep the program at work without end.
//!
//! A step is a requirement or a value looked at, or a handful of corners: some fifty nanoseconds. Rules, plans and geometry
//! all count here, each thread for itself: were the count handed from one to the other, the geometry would have to know
//! about rules and plans.

use std::cell::Cell;

thread_local! {
    /// Counted in corners, of which several are a step.
    static TAKEN: Cell<u64> = const { Cell::new(0) };
    /// When so many were taken, no more are to be.
    static LAST: Cell<u64> = const { Cell::new(u64::MAX) };
}

/// Beyond so many steps nothing more is read or judged. The largest plan that anybody drew, under the longest rule set,
/// takes some hundred thousand.
pub const MOST_STEPS: u64 = 20_000_000;
/// So many corners of an outline, gone through once, are one step.
const CORNERS_A_STEP: u64 = 8;

/// Counts so many steps.
pub(crate) fn step(by: u64) {
    take(by.saturating_mul(CORNERS_A_STEP));
}

/// Counts a step, and more for so many things gone through.
pub(crate) fn step_through(count: usize) {
    step(1);
    corners(count);
}

/// Counts so many corners gone through once.
pub(crate) fn corners(count: usize) {
    take(u64::try_from(count).unwrap_or(u64::MAX));
}

fn take(by: u64) {
    TAKEN.set(TAKEN.get().saturating_add(by));
}

/// Whether more steps were taken than there may be. What is found from there on is worth nothing: whoever set the bound
/// gives nothing out.
pub(crate) fn is_spent() -> bool {
    TAKEN.get() > LAST.get()
}

/// Counts a step, and says whether more were taken than there may be.
pub(crate) fn step_is_too_many() -> bool {
    step(1);
    is_spent()
}

/// Does something, and counts the steps that it takes.
pub fn counted<T>(act: impl FnOnce() -> T) -> (T, u64) {
    let before = TAKEN.get();
    let done = act();
    (done, TAKEN.get().saturating_sub(before) / CORNERS_A_STEP)
}

/// Does something in no more than [`MOST_STEPS`]; `None` where they do not suffice.
pub(crate) fn bounded<T>(act: impl FnOnce() -> T) -> Option<T> {
    let outer = Bound(LAST.get());
    LAST.set(
        outer
            .0
            .min(TAKEN.get().saturating_add(MOST_STEPS * CORNERS_A_STEP)),
    );
    let done = act();
    let spent = is_spent();
    drop(outer);
    (!spent).then_some(done)
}

/// A bound that holds again when this is dropped, also where something panics.
struct Bound(u64);

impl Drop for Bound {
    fn drop(&mut self) {
        LAST.set(self.0);
    }
}
