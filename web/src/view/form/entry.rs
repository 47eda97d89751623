//! What was typed about a lot before there is one.

use std::cell::RefCell;

/// What is being entered.
#[derive(Debug)]
pub struct Entry {
    /// Width and depth of a lot, one of them still missing.
    pub half: [String; 2],
    /// The sides in a row: how long each is, and the corner at its end.
    pub walk: Vec<[String; 2]>,
    /// Why no lot can be made from it.
    pub wrong: Option<String>,
    /// By how many millimetres the last side misses the first corner.
    pub closing: Option<i128>,
}

impl Entry {
    /// A side that nobody has measured yet, with a square corner.
    pub fn side() -> [String; 2] {
        [String::new(), "90".to_owned()]
    }
}

impl Default for Entry {
    fn default() -> Self {
        Self {
            half: Default::default(),
            walk: vec![Self::side(); 4],
            wrong: None,
            closing: None,
        }
    }
}

thread_local! {
    static ENTRY: RefCell<Entry> = RefCell::default();
}

/// Does something with what is being entered.
pub fn with_entry<T>(doing: impl FnOnce(&mut Entry) -> T) -> T {
    ENTRY.with_borrow_mut(doing)
}
