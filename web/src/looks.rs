//! What the page shows, besides the plan and its rules.

use std::cell::RefCell;
use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// What is shown.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(rename_all = "camelCase")]
pub struct Looks {
    /// The short name of the page's language.
    pub language: Option<String>,
    /// The unit of a bare figure.
    pub unit: String,
    /// Which part of the form is open.
    pub open: Option<String>,
    /// Which of the three views a narrow page shows.
    pub view: String,
    /// Whether the desk of the rule writer is open.
    pub desk: bool,
    /// Whether a narrow page shows the whole menu.
    pub menu: bool,
    /// The rule shown on the drawing.
    pub selected: Option<String>,
    /// The id of the chosen thing.
    pub thing: Option<String>,
    /// Whether the ground is shaded where the pool may not be.
    pub shade: bool,
    /// The day the steps are counted from.
    pub start: Option<String>,
    /// How the lot is given.
    pub lot_mode: String,
    /// Whether it is shown where the pool could go.
    pub room: bool,
    /// Whether places are looked for with the pool turned, too.
    pub room_turned: bool,
    /// The ids of what moves with the pool when it takes a place.
    pub room_with: BTreeSet<String>,
}

/// The parts that the browser keeps.
const KEPT: [&str; 6] = ["language", "unit", "open", "start", "lotMode", "shade"];

impl Default for Looks {
    fn default() -> Self {
        Self {
            language: None,
            unit: "m".to_owned(),
            open: Some("where".to_owned()),
            view: "form".to_owned(),
            desk: false,
            menu: false,
            selected: None,
            thing: None,
            shade: false,
            start: None,
            lot_mode: "rectangle".to_owned(),
            room: false,
            room_turned: false,
            room_with: BTreeSet::new(),
        }
    }
}

thread_local! {
    static LOOKS: RefCell<Looks> = RefCell::default();
}

/// Does something with what is shown.
pub fn with_looks<T>(doing: impl FnOnce(&mut Looks) -> T) -> T {
    LOOKS.with_borrow_mut(doing)
}

impl Looks {
    /// Makes the changes; if one of them is of the wrong type, makes none.
    fn merge(&mut self, patch: Map<String, Value>) {
        let mut all = self.all();
        all.extend(patch);
        if let Ok(next) = serde_json::from_value(Value::Object(all)) {
            *self = next;
        }
    }

    fn all(&self) -> Map<String, Value> {
        match serde_json::to_value(self) {
            Ok(Value::Object(all)) => all,
            _ => Map::new(),
        }
    }

    /// The parts to keep.
    pub fn to_keep(&self) -> Map<String, Value> {
        let all = self.all().into_iter();
        all.filter(|(key, _)| KEPT.contains(&key.as_str()))
            .collect()
    }

    /// Restores what was kept.
    pub fn take_up(&mut self, kept: &str) {
        let Ok(Value::Object(kept)) = serde_json::from_str(kept) else {
            return;
        };
        let said = kept.into_iter();
        let said = said.filter(|(key, value)| KEPT.contains(&key.as_str()) && !value.is_null());
        self.merge(said.collect());
    }
}
