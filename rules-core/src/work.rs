//! Counts the work done, in steps, so that no input can keep the program busy for ever.
//!
//! A step is one requirement or value examined, or a handful of corners: some fifty nanoseconds. Rules, plans and
//! geometry all count here, separately in each thread. Passing the count around instead would make the geometry know
//! about rules and plans.

use std::cell::Cell;

thread_local! {
    /// Counted in corners; several corners make a step.
    static TAKEN: Cell<u64> = const { Cell::new(0) };
    /// The count at which work must stop.
    static LAST: Cell<u64> = const { Cell::new(u64::MAX) };
}

/// The most steps for reading or judging. The largest plan that anybody drew, under the longest rule set, takes some
/// hundred thousand.
pub const MOST_STEPS: u64 = 20_000_000;
/// This many corners of an outline, gone through once, make one step.
const CORNERS_A_STEP: u64 = 8;

/// Counts some steps.
pub(crate) fn step(by: u64) {
    take(by.saturating_mul(CORNERS_A_STEP));
}

/// Counts one step, and more for each thing gone through.
pub(crate) fn step_through(count: usize) {
    step(1);
    corners(count);
}

/// Counts corners gone through once.
pub(crate) fn corners(count: usize) {
    take(u64::try_from(count).unwrap_or(u64::MAX));
}

fn take(by: u64) {
    TAKEN.set(TAKEN.get().saturating_add(by));
}

/// Whether the limit on steps is exceeded. Results from then on are worthless, and [`bounded`] discards them.
pub(crate) fn is_spent() -> bool {
    TAKEN.get() > LAST.get()
}

/// Counts a step, and says whether the limit is exceeded.
pub(crate) fn step_is_too_many() -> bool {
    step(1);
    is_spent()
}

/// Runs `act` and counts the steps it takes.
pub fn counted<T>(act: impl FnOnce() -> T) -> (T, u64) {
    let before = TAKEN.get();
    let done = act();
    (done, TAKEN.get().saturating_sub(before) / CORNERS_A_STEP)
}

/// Runs `act` in at most [`MOST_STEPS`]; `None` if they are not enough.
pub(crate) fn bounded<T>(act: impl FnOnce() -> T) -> Option<T> {
    let outer = OuterLimit(LAST.get());
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

/// The previous limit, which is restored when this is dropped, even after a panic.
struct OuterLimit(u64);

impl Drop for OuterLimit {
    fn drop(&mut self) {
        LAST.set(self.0);
    }
}
