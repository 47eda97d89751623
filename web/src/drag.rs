//! A drag: where it begins, and what each step of it shows.

use std::cell::Cell;

use rules_core::edit::Change;

use crate::browser::tell;
use crate::check::{begin_with, followed};
use crate::view;
use crate::view::drawing::options_of_drag;

thread_local! {
    /// Whether the library knows where the next drag begins.
    static BEGUN: Cell<bool> = const { Cell::new(false) };
}

/// The next drag begins with what is now shown.
pub fn begin_anew() {
    BEGUN.set(false);
}

fn begin_once() {
    if !BEGUN.replace(true) {
        // A plan that cannot be judged cannot be dragged either: then no step shows anything.
        let _ = begin_with(options_of_drag());
    }
}

/// One step of a drag, shown on the page. Returns whether the plan can be changed that way.
pub fn step(change: &Change) -> bool {
    let clock = web_sys::window().and_then(|window| window.performance());
    // A browser that keeps no such marks shows the step all the same.
    let _ = clock.as_ref().map(|clock| clock.mark("step begins"));
    begin_once();
    let Ok(step) = followed(change) else {
        return false;
    };
    view::follow(&step.verdict, &step.counts, step.rules);
    view::drawing::follow(step.layers);
    let _ = clock.map(|clock| clock.measure_with_start_mark("drag step", "step begins"));
    tell("drag-stepped");
    true
}

/// A step that nobody sees, so that the real ones run smoothly: the first one reads the plan, and browsers speed up
/// code that is called often.
pub fn warm_up(change: &Change) {
    begin_once();
    // Nobody needs the result.
    let _ = followed(change);
}
