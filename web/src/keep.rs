//! What the browser keeps of the page, so that a reload finds it; with two windows open, of each its own.
//!
//! The last that was kept stands under one key. Before a window writes there, it looks whether another one wrote meanwhile; that
//! one's plan is then set aside under its own name, and nothing of it is lost.

use std::cell::RefCell;

use serde_json::Value;
use web_sys::Storage;

use crate::compared::with_comparing;
use crate::files::{record, same_plan, take_up};
use crate::looks::with_looks;
use crate::written::written;

const KEPT: &str = "siting/1";
const ASIDE: &str = "siting/1/aside/";
/// What the rules at the desk are compared with; too much for the record of the plan.
const COMPARED: &str = "siting/1/compared";

/// What became of keeping the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kept {
    /// It is kept.
    Yes,
    /// The browser keeps nothing.
    Refused,
    /// It is kept; another window had kept something else in the meantime, which is now set aside.
    Other,
}

thread_local! {
    /// This window's name among others that show the same page.
    pub static HERE: String = js_sys::Math::random().to_string();
    /// What this window wrote or read last.
    static LAST: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// What the browser keeps for the page, if it keeps anything.
pub fn storage() -> Option<Storage> {
    web_sys::window()?.local_storage().ok().flatten()
}

/// Restores what was kept, if anything.
pub fn restore() {
    let kept = storage().and_then(|storage| storage.get_item(KEPT).ok().flatten());
    if let Some(kept) = kept {
        take_up(&kept);
        with_looks(|looks| looks.take_up(&kept));
        LAST.set(Some(kept));
    }
    let compared = storage().and_then(|storage| storage.get_item(COMPARED).ok().flatten());
    let compared = compared.and_then(|kept| serde_json::from_str(&kept).ok());
    with_comparing(|comparing| *comparing = compared.unwrap_or_default());
}

/// Keeps what the rules are compared with. Returns whether it could.
fn keep_compared(storage: &Storage) -> bool {
    let now = with_comparing(|comparing| written(comparing));
    let known = storage.get_item(COMPARED).ok().flatten();
    known.as_ref() == Some(&now) || storage.set_item(COMPARED, &now).is_ok()
}

/// Keeps the plan and what is shown, for this window.
pub fn keep() -> Kept {
    let now = HERE.with(|here| record(here));
    let Some(storage) = storage() else {
        return Kept::Refused;
    };
    let stored = storage.get_item(KEPT).ok().flatten();
    let theirs = LAST.with_borrow(|last| of_another(stored, last.as_deref(), &now));
    if let Some(theirs) = &theirs
        && storage
            .set_item(&format!("{ASIDE}{}", by(theirs)), theirs)
            .is_err()
    {
        return Kept::Refused;
    }
    if storage.set_item(KEPT, &now).is_err() || !keep_compared(&storage) {
        return Kept::Refused;
    }
    LAST.set(Some(now));
    theirs.map_or(Kept::Yes, |_| Kept::Other)
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
pub fn open_aside(key: &str) -> bool {
    let kept = storage().and_then(|storage| storage.get_item(key).ok().flatten());
    kept.is_some_and(|kept| crate::files::open_record(&kept))
}

/// Forgets a plan that was set aside.
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
