//! A row of words, one of which can be chosen.

use crate::view::keyed::{El, el};

/// One of the words.
pub struct Word {
    /// Its value.
    pub value: String,
    /// As people say it.
    pub said: String,
    /// Whether it is chosen now.
    pub chosen: bool,
    /// Whether it cannot be chosen as things are.
    pub barred: bool,
}

impl Word {
    /// A word that can always be chosen.
    pub fn new(value: &str, said: String, chosen: bool) -> Self {
        Self {
            value: value.to_owned(),
            said,
            chosen,
            barred: false,
        }
    }
}

/// The row; each button does the act, and its id is the row's with the value behind it. `path` is where the answer goes
/// in the plan, if it goes there.
pub fn radios(
    id: &str,
    act: &'static str,
    path: Option<&str>,
    words: impl IntoIterator<Item = Word>,
) -> El {
    let one = |word: Word| {
        let end = if word.value.is_empty() {
            "open"
        } else {
            &word.value
        };
        let radio = el("input")
            .set("type", "radio")
            .set("name", id.to_owned())
            .id(format!("{id}-{end}"))
            .set("value", word.value.clone())
            .does(act)
            .is("checked", word.chosen)
            .is("disabled", word.barred);
        let radio = match path {
            Some(path) => radio.set("data-path", path.to_owned()),
            None => radio,
        };
        el("label").class("tick").with(radio).with(word.said)
    };
    el("div").class("row").each(words.into_iter().map(one))
}

/// A question that a row of words answers: the words that ask it, and what comes below them.
pub fn asked_in_a_row(id: &str, ask: String, row: El) -> El {
    let ask_id = format!("{id}-ask");
    el("div")
        .class("question")
        .set("role", "radiogroup")
        .set("aria-labelledby", ask_id.clone())
        .with(el("p").class("ask").id(ask_id).with(ask))
        .with(row)
}

/// A box to tick.
pub fn tick(id: String, act: &'static str, path: &str, ticked: bool, said: String) -> El {
    let box_ = el("input")
        .set("type", "checkbox")
        .id(id)
        .does(act)
        .set("data-path", path.to_owned())
        .is("checked", ticked);
    el("label").class("tick").with(box_).with(said)
}

/// A field or a list below the words that ask for it.
pub fn labelled(id: &str, ask: &str, field: El) -> El {
    let label = el("label").class("ask").set("for", id.to_owned());
    el("div")
        .class("question")
        .with(label.with(ask))
        .with(field)
}
