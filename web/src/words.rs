//! The page's own words: one table a language.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

type Table = BTreeMap<String, String>;

/// The languages by their short names; the first has all words.
const TABLES: [(&str, &str); 3] = [
    ("en", include_str!("../page/words/en.json")),
    ("nb", include_str!("../page/words/nb.json")),
    ("fr", include_str!("../page/words/fr.json")),
];

thread_local! {
    static NOW: Cell<Option<usize>> = const { Cell::new(None) };
    static READ: RefCell<[Option<Table>; 3]> = const { RefCell::new([None, None, None]) };
}

/// Changes the language, if the page has it. Returns whether it is now another.
pub fn choose(language: &str) -> bool {
    let known = TABLES.iter().position(|(name, _)| *name == language);
    let other = known.is_some() && known != NOW.get();
    NOW.set(known.or_else(|| NOW.get()));
    other
}

/// The short name of the language that was chosen.
pub fn chosen() -> Option<&'static str> {
    Some(TABLES.get(NOW.get()?)?.0)
}

/// The short name of the page's language.
pub fn tongue() -> String {
    chosen().unwrap_or("en").to_owned()
}

/// The languages: for each its short name, and its own name.
pub fn languages() -> impl Iterator<Item = (&'static str, String)> {
    let tables = TABLES.iter().enumerate();
    tables.map(|(at, (name, _))| (*name, in_table(at, "language").unwrap_or_default()))
}

/// The words under this key, in English if the language has none; `None` if English has none either.
pub fn word(key: &str) -> Option<String> {
    in_table(NOW.get().unwrap_or(0), key).or_else(|| in_table(0, key))
}

fn in_table(at: usize, key: &str) -> Option<String> {
    READ.with_borrow_mut(|read| {
        let table = read.get_mut(at)?.get_or_insert_with(|| table(at));
        table.get(key).cloned()
    })
}

fn table(at: usize) -> Table {
    let text = TABLES.get(at).map_or("{}", |(_, text)| text);
    // A test reads all of them.
    serde_json::from_str(text).unwrap_or_default()
}

/// The words under this key.
pub fn t(key: &str) -> String {
    word(key).unwrap_or_else(|| key.to_owned())
}

/// The same, with something in place of each `{name}`.
pub fn fill(key: &str, with: &[(&str, &str)]) -> String {
    let put =
        |words: String, (name, what): &(&str, &str)| words.replace(&format!("{{{name}}}"), what);
    with.iter().fold(t(key), put)
}

/// The words for a number of things.
pub fn count(key: &str, number: usize) -> String {
    let many = if number == 1 { "one" } else { "many" };
    fill(&format!("{key}.{many}"), &[("n", &number.to_string())])
}

/// A name without its article and with a capital, for a heading.
pub fn heading(said: &str) -> String {
    let articles = ["a ", "an ", "the "].into_iter();
    let bare = articles
        .filter_map(|article| said.strip_prefix(article))
        .next();
    let mut letters = bare.unwrap_or(said).chars();
    let first = letters
        .next()
        .map(|letter| letter.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}
