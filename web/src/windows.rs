//! Several windows with this page: each is told of the others, and nothing that another one kept is lost.

use std::cell::Cell;

use web_sys::StorageEvent;

use crate::browser::listen;
use crate::keep::{HERE, Kept, keep, set_aside, storage};
use crate::view::boxes::notice;
use crate::view::menu::{offer_aside, tell_nothing_is_kept};
use crate::words::t;

/// Who opens the page calls this, and who hears it answers.
const HELLO: &str = "siting/hello";
const HEARD: &str = "siting/heard";

thread_local! {
    static IS_TOLD: Cell<bool> = const { Cell::new(false) };
}

/// Keeps the plan, and says what became of it where there is something to say.
pub fn keep_and_tell() {
    let kept = keep();
    match kept {
        Kept::Yes => {}
        Kept::Other => offer_set_aside(),
        Kept::Refused => tell_refused(),
    }
    if kept != Kept::Refused {
        IS_TOLD.set(false);
    }
}

fn tell_refused() {
    if !IS_TOLD.replace(true) {
        tell_nothing_is_kept();
    }
}

fn offer_set_aside() {
    if let Some(key) = set_aside().first() {
        offer_aside(key);
    }
}

/// Calls the other windows, listens to them, and offers what they left.
pub fn watch() {
    if let Some(window) = web_sys::window() {
        listen(&window, "storage", |event| hear(&event));
    }
    call(HELLO);
    offer_set_aside();
}

fn hear(event: &StorageEvent) {
    let by_another = event
        .new_value()
        .is_some_and(|by| !by.is_empty() && by != here());
    if let (true, Some(key)) = (by_another, event.key()) {
        if key == HELLO {
            call(HEARD);
        }
        if [HELLO, HEARD].contains(&key.as_str()) {
            notice(&t("keep.two"), Vec::new());
        }
    }
}

fn here() -> String {
    HERE.with(String::clone)
}

fn call(key: &str) {
    let called = storage().is_some_and(|storage| {
        storage.set_item(key, &here()).is_ok() && storage.remove_item(key).is_ok()
    });
    // Where nothing is kept, no window takes anything from another.
    if !called {
        tell_refused();
    }
}
