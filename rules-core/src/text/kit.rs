//! What every reader of a [`Node`] needs: keys taken one by one, and what to say of those that nobody took.

use super::{Content, Entry, Fault, Faults, Help, Node, Span};
use crate::faults::Code;

/// Words longer than this are never guessed at.
const LONGEST_GUESSED: usize = 64;

impl Node {
    /// The text of a word, a number or a sentence; `None` for a list, a map or nothing.
    pub fn text(&self) -> Option<&str> {
        match &self.content {
            Content::Scalar { text, .. } => Some(text),
            _ => None,
        }
    }

    /// The entries of a map, in the order as written.
    pub fn as_map(&self) -> Option<&[Entry]> {
        match &self.content {
            Content::Map(entries) => Some(entries),
            _ => None,
        }
    }

    /// The items of a list.
    pub fn as_list(&self) -> Option<&[Node]> {
        match &self.content {
            Content::List(items) => Some(items),
            _ => None,
        }
    }

    /// What a map says under a key; `None` also where this is no map.
    pub fn get(&self, key: &str) -> Option<&Node> {
        let entry = self.as_map()?.iter().find(|entry| entry.key == key)?;
        Some(&entry.value)
    }

    /// Whether nothing is written here.
    pub fn is_empty(&self) -> bool {
        self.content == Content::Empty
    }

    /// What this is, in words for a sentence: `a list`, `a text`, …
    pub fn describe(&self) -> &'static str {
        match &self.content {
            Content::Empty => "nothing",
            Content::Scalar { .. } => "a single value",
            Content::List(_) => "a list",
            Content::Map(_) => "keys with values",
        }
    }
}

/// Takes the keys of one map, and at the end says which keys nobody knows.
#[derive(Debug)]
pub struct MapReader<'a> {
    what: &'a str,
    span: Span,
    entries: &'a [Entry],
    known: Vec<&'a str>,
    refused: Vec<&'a str>,
    missing: Vec<&'a str>,
}

impl<'a> MapReader<'a> {
    /// Begins to read a map. `what` names the thing in a sentence, as in `a gate`.
    ///
    /// A node that is no map gives a fault `not-a-map`, and `None`.
    pub fn new(node: &'a Node, what: &'a str, faults: &mut Faults) -> Option<Self> {
        let Some(entries) = node.as_map() else {
            faults
                .add(
                    Code::NotAMap,
                    node.span,
                    format!(
                        "{} stands here, where {what} is expected.",
                        capitalised(node.describe())
                    ),
                )
                .help("Write it as keys with values, one `key: value` on each line.");
            return None;
        };
        Some(Self {
            what,
            span: node.span,
            entries,
            known: Vec::new(),
            refused: Vec::new(),
            missing: Vec::new(),
        })
    }

    /// Where the whole map stands.
    pub fn span(&self) -> Span {
        self.span
    }

    /// Says that a key is known here, and gives its entry if it is written.
    pub fn take(&mut self, key: &'a str) -> Option<&'a Entry> {
        if !self.known.contains(&key) {
            self.known.push(key);
        }
        self.entries.iter().find(|entry| entry.key == key)
    }

    /// Keys of which somebody else says why they are wrong here.
    pub(crate) fn refuse(&mut self, keys: impl IntoIterator<Item = &'a str>) {
        self.refused.extend(keys);
    }

    /// As [`take`](Self::take); a key after which nothing stands is a fault `empty-value`, and one that is missing will be
    /// a fault `missing-key` [at the end](Self::finish).
    pub fn need(&mut self, key: &'a str, faults: &mut Faults) -> Option<&'a Entry> {
        let Some(entry) = self.take(key) else {
            self.missing.push(key);
            return None;
        };
        if entry.value.is_empty() {
            let message = format!("Nothing is written after `{key}`.");
            faults
                .add(Code::EmptyValue, entry.key_span, message)
                .help("Write it behind the `:`, or on the next lines, further in.");
            return None;
        }
        Some(entry)
    }

    /// Ends the reading: every key that was never taken is a fault `unknown-key`, and every one that had to be written and
    /// is not a fault `missing-key`, unless it is only misspelt.
    pub fn finish(self, faults: &mut Faults) {
        for entry in self.unknown() {
            let message = format!("`{}` is not a key of {}.", brief(&entry.key), self.what);
            let help = Help::near(self.meant_by(entry).map(str::to_owned), self.list());
            faults
                .add(Code::UnknownKey, entry.key_span, message)
                .help(help);
        }
        self.tell_missing(faults);
    }

    /// Ends the reading of a map whose other keys were read before: of those that nobody knows nothing is said again.
    pub(crate) fn finish_again(self, faults: &mut Faults) {
        self.tell_missing(faults);
    }

    fn tell_missing(&self, faults: &mut Faults) {
        for key in self.missing.iter().filter(|key| !self.misspells([**key])) {
            let message = format!(
                "{} needs the key `{key}`, which is not written.",
                capitalised(self.what)
            );
            let help = format!("Write `{key}: …` beside its other keys.");
            let fault = faults.add(Code::MissingKey, self.head(), message);
            fault.of(self.span).help(help);
        }
    }

    /// The entries whose keys nobody knows here.
    fn unknown(&self) -> impl Iterator<Item = &'a Entry> {
        let named = |entry: &&Entry| {
            let key = entry.key.as_str();
            self.known.contains(&key) || self.refused.contains(&key)
        };
        self.entries.iter().filter(move |entry| !named(entry))
    }

    /// Whether one of some keys is written, but not as it is spelt: [`finish`](Self::finish) says so.
    pub(crate) fn misspells<'k>(&self, keys: impl IntoIterator<Item = &'k str>) -> bool {
        let meant: Vec<_> = (self.unknown())
            .filter_map(|entry| self.meant_by(entry))
            .collect();
        keys.into_iter().any(|key| meant.contains(&key))
    }

    /// Says that keys are known here which are not taken.
    pub(crate) fn know(&mut self, keys: impl IntoIterator<Item = &'a str>) {
        self.known.extend(keys);
    }

    /// The place to underline where something is missing from the map: its first key.
    fn head(&self) -> Span {
        self.entries
            .first()
            .map_or(self.span, |entry| entry.key_span)
    }

    /// Which of the keys that are not written an unknown key was meant to be, where one is close.
    fn meant_by(&self, entry: &Entry) -> Option<&'a str> {
        let written = |known: &&str| self.entries.iter().any(|entry| entry.key == **known);
        let free = self.known.iter().copied().filter(|known| !written(known));
        closest(&entry.key, free)
    }

    fn list(&self) -> String {
        let known: Vec<_> = self
            .known
            .iter()
            .map(|known| format!("`{known}`"))
            .collect();
        match known.is_empty() {
            true => "No keys are expected here.".to_owned(),
            false => format!("The keys here are {}.", known.join(", ")),
        }
    }
}

/// Among no more words than this is looked for what was meant.
const MOST_TRIED: usize = 500;

/// Which of some words a mistyped word was meant to be, where one is close.
///
/// Close is one slip (a letter wrong, missing, too many or two swapped) in up to four letters, two in up to eight,
/// three in more. Of a very long list only the first words are tried. Capitals, and `_` or a space for `-`, do not count. Of two equally close, the first is taken.
pub fn closest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let word = folded(word);
    let allowed = match word.chars().count() {
        0 => return None,
        1..=4 => 1,
        5..=8 => 2,
        9..=LONGEST_GUESSED => 3,
        _ => return None,
    };
    let slips = |candidate: &&str| strsim::damerau_levenshtein(&word, &folded(candidate));
    let close = candidates
        .into_iter()
        .take(MOST_TRIED)
        .map(|candidate| (slips(&candidate), candidate));
    let near =
        close.filter(|&(slips, candidate)| slips <= allowed && slips < candidate.chars().count());
    near.min_by_key(|&(slips, _)| slips)
        .map(|(_, candidate)| candidate)
}

/// Which of some words was meant; where none is close, something else to say.
pub(crate) fn meant_or<'c>(
    word: &str,
    candidates: impl IntoIterator<Item = &'c str>,
    otherwise: impl Into<String>,
) -> Help {
    match closest(word, candidates) {
        Some(meant) => Help::near(Some(meant.to_owned()), ""),
        None => Help::near(None, otherwise),
    }
}

/// Which of some words was meant, if one is close, and what there is to say in any case.
pub(crate) fn meant_and<'c>(
    word: &str,
    candidates: impl IntoIterator<Item = &'c str>,
    says: impl Into<String>,
) -> Help {
    Help::near(closest(word, candidates).map(str::to_owned), says)
}

fn folded(word: &str) -> String {
    word.trim().to_lowercase().replace(['_', ' '], "-")
}

/// Reads `yes`, `no`, `true` or `false`, in quotes or not.
///
/// # Errors
/// For anything else, one fault `not-yes-or-no`.
pub fn yes_no(node: &Node) -> Result<bool, Fault> {
    match node.text() {
        Some("yes" | "true") => Ok(true),
        Some("no" | "false") => Ok(false),
        other => {
            let found = other.map_or_else(
                || node.describe().to_owned(),
                |text| format!("`{}`", brief(text)),
            );
            let message = format!("`yes` or `no` is expected here, not {found}.");
            let mut fault = Fault::new(Code::NotYesOrNo, Some(node.span), message);
            let words = ["yes", "no", "true", "false"];
            let written = other.unwrap_or_default();
            fault.help(meant_or(written, words, "Write `yes` or `no`."));
            Err(fault)
        }
    }
}

/// A word as it may stand in a sentence: on one line, and not too long.
pub(super) fn brief(word: &str) -> String {
    const LONGEST: usize = 40;
    let plain = word.chars().map(|c| if c.is_control() { ' ' } else { c });
    let mut short: String = plain.take(LONGEST).collect();
    if word.chars().nth(LONGEST).is_some() {
        short.push('…');
    }
    short
}

/// The text with a capital first letter.
pub fn capitalised(text: &str) -> String {
    let mut rest = text.chars();
    let first = rest.next().map(|c| c.to_uppercase().to_string());
    first.unwrap_or_default() + rest.as_str()
}
