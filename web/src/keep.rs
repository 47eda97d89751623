//! What the browser keeps of the page, so that a reload finds it; with two windows open, of each its own.
//!
//! The last that was kept stands under one key. Before a window writes there, it looks whether another one wrote meanwhile; that
//! one's plan is then set aside under its own name, and nothing of it is lost.

use std::cell::RefCell;

use serde_json::Value;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::Storage;

use crate::files::{record, same_plan, take_up};

const KEPT: &str = "siting/1";
const ASIDE: &str = "siting/1/aside/";

thread_local! {
    /// What this window wrote or read last.
    static LAST: RefCell<Option<String>> = const { RefCell::new(None) };
}

fn storage() -> Option<Storage> {
    web_sys::window()?.local_storage().ok().flatten()
}

/// Takes up what was kept: its text, for what was looked at; nothing where there is none.
#[wasm_bindgen]
pub fn restore() -> Option<String> {
    let kept = storage()?.get_item(KEPT).ok().flatten()?;
    take_up(&kept);
    LAST.set(Some(kept.clone()));
    Some(kept)
}

/// Keeps the plan and what is looked at (a JSON object, with the name of this window under `by`): nothing where it is kept,
/// `refused` where the browser keeps nothing, `other` where another window had kept something else meanwhile, which is now set
/// aside.
#[wasm_bindgen]
pub fn keep(looks: &str) -> String {
    let now = record(looks);
    let Some(storage) = storage() else {
        return "refused".to_owned();
    };
    let stored = storage.get_item(KEPT).ok().flatten();
    let theirs = LAST.with_borrow(|last| of_another(stored, last.as_deref(), &now));
    if let Some(theirs) = &theirs
        && storage
            .set_item(&format!("{ASIDE}{}", by(theirs)), theirs)
            .is_err()
    {
        return "refused".to_owned();
    }
    if storage.set_item(KEPT, &now).is_err() {
        return "refused".to_owned();
    }
    LAST.set(Some(now));
    theirs.map_or_else(String::new, |_| "other".to_owned())
}

/// What another window kept since this one last looked, where that is not the same plan.
fn of_another(stored: Option<String>, last: Option<&str>, now: &str) -> Option<String> {
    let stored = stored.filter(|stored| Some(stored.as_str()) != last)?;
    (!same_plan(&stored, now)).then_some(stored)
}

fn by(record: &str) -> String {
    let kept: Value = serde_json::from_str(record).unwrap_or_default();
    kept["by"].as_str().unwrap_or("0").to_owned()
}

/// The names under which plans of other windows are set aside.
#[wasm_bindgen]
pub fn set_aside() -> Vec<String> {
    let Some(storage) = storage() else {
        return Vec::new();
    };
    let keys = (0..storage.length().unwrap_or(0)).filter_map(|at| storage.key(at).ok().flatten());
    let mut found: Vec<String> = keys.filter(|key| key.starts_with(ASIDE)).collect();
    found.sort();
    found
}

/// Takes up a plan that was set aside, as a step that can be undone; gives whether it was there.
#[wasm_bindgen]
pub fn open_aside(key: &str) -> bool {
    let kept = storage().and_then(|storage| storage.get_item(key).ok().flatten());
    kept.is_some_and(|kept| crate::files::open_record(&kept))
}

/// Forgets a plan that was set aside.
#[wasm_bindgen]
pub fn forget_aside(key: &str) {
    if let Some(storage) = storage().filter(|_| key.starts_with(ASIDE)) {
        // Where it cannot be taken away it is offered once more, and that is all.
        let _ = storage.remove_item(key);
    }
}

#[cfg(test)]
mod tests {
    use super::{by, of_another};

    fn kept(title: &str, by: &str) -> String {
        format!(
            r#"{{"plan": {{"title": "{title}"}}, "rulesId": "eldermere", "rulesText": "", "by": "{by}"}}"#
        )
    }

    #[test]
    fn only_another_plan_of_another_window_is_set_aside() {
        let [mine, theirs, same] = [kept("a", "one"), kept("b", "two"), kept("a", "two")];
        assert_eq!(of_another(None, None, &mine), None);
        assert_eq!(
            of_another(Some(mine.clone()), Some(&mine), &kept("c", "one")),
            None
        );
        assert_eq!(of_another(Some(same), Some("x"), &mine), None);
        let found = of_another(Some(theirs.clone()), Some(&mine), &kept("c", "one"));
        assert_eq!(found, Some(theirs));
        assert_eq!(by(&kept("b", "two")), "two");
    }
}
