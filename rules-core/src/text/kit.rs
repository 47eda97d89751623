//! What every reader of a [`Node`] needs: keys taken one by one, and what to say of those that nobody took.

use super::cut::CutTexts;
use super::{Entry, Fault, Faults, Help, Node, Span};
use super::{in_short, read};
use crate::faults::Code;

/// Words longer than this are never guessed at.
const LONGEST_GUESSED: usize = 64;

/// Takes the keys of one map, and at the end says which keys nobody knows.
#[derive(Debug)]
pub struct MapReader<'a> {
    what: &'a str,
    span: Span,
    entries: &'a [Entry],
    known: Vec<&'a str>,
    refused: Vec<&'a str>,
    missing: Vec<(&'a str, &'static str)>,
    /// How such a map is written; empty where nobody said.
    example: &'a str,
    /// Words that people write instead of our keys, each with the key.
    others: &'a [(&'a str, &'a str)],
}

impl<'a> MapReader<'a> {
    /// Begins to read a map. `what` names the thing in a sentence, as in `a gate`.
    ///
    /// A node that is no map gives a fault `not-a-map`, and `None`.
    pub fn new(node: &'a Node, what: &'a str, faults: &mut Faults) -> Option<Self> {
        let Some(entries) = node.as_map() else {
            let message = format!(
                "There is {} here, where {what} is expected.",
                node.describe()
            );
            let fault = faults.add(Code::NotAMap, node.span, message);
            fault.help("Write it as keys with values, one `key: value` on each line.");
            return None;
        };
        Some(Self {
            what,
            span: node.span,
            entries,
            known: Vec::new(),
            refused: Vec::new(),
            missing: Vec::new(),
            example: "",
            others: &[],
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

    /// Sets the words that people write instead of our keys.
    pub(crate) fn instead_of(&mut self, others: &'a [(&'a str, &'a str)]) {
        self.others = others;
    }

    /// Sets how such a map is written.
    pub(crate) fn as_in(&mut self, example: &'a str) {
        self.example = example;
    }

    /// As [`take`](Self::take); a key with an empty value is a fault `empty-value`, and a missing one will be a fault
    /// `missing-key` [at the end](Self::finish), with the sentence `means` for whoever left it out.
    pub fn need(
        &mut self,
        key: &'a str,
        means: &'static str,
        faults: &mut Faults,
    ) -> Option<&'a Entry> {
        let Some(entry) = self.take(key) else {
            self.missing.push((key, means));
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
        let cut = CutTexts::in_entries(self.entries);
        for entry in self.unknown() {
            if self.meant_by(entry).is_none() && cut.told(entry, faults) {
                continue;
            }
            let message = format!("`{}` is not a key of {}.", brief(&entry.key), self.what);
            let meant = self.meant_by(entry).map(str::to_owned);
            let parts = self.with_part(&entry.key).filter(|_| meant.is_none());
            let help = Help::near(meant, parts.unwrap_or_else(|| self.list()));
            faults
                .add(Code::UnknownKey, entry.key_span, message)
                .help(help);
        }
        if !self.says_missing_otherwise() {
            self.tell_missing(faults);
        }
    }

    /// Whether so many keys are unknown that they probably are the missing ones, in other words.
    fn says_missing_otherwise(&self) -> bool {
        let missing = (self.missing.iter()).filter(|(key, _)| !self.misspells([*key]));
        let known = |entry: &&Entry| self.known.contains(&entry.key.as_str());
        let foreign = |entry: &&Entry| !entry.value.is_empty() && self.meant_by(entry).is_none();
        let others = self.entries.iter().filter(|entry| !known(entry));
        others.filter(foreign).count() >= missing.count()
    }

    /// Ends the reading of a map whose other keys were read before: of those that nobody knows nothing is said again.
    pub(crate) fn finish_again(self, faults: &mut Faults) {
        self.tell_missing(faults);
    }

    fn tell_missing(&self, faults: &mut Faults) {
        let missing = (self.missing.iter()).filter(|(key, _)| !self.misspells([*key]));
        for (key, means) in missing {
            let message = format!(
                "{} needs the key `{key}`, which is not written.",
                capitalised(self.what)
            );
            let example = read(self.example)
                .ok()
                .and_then(|it| it.get(key).map(in_short));
            let example = example.unwrap_or_else(|| "…".to_owned());
            let help = format!(
                "Write it beside its other keys, as in `{key}: {example}`{}",
                said_of(means)
            );
            let fault = faults.add(Code::MissingKey, self.head(), message);
            fault.of(self.span).help(help);
        }
    }

    /// The entries whose keys nobody took.
    pub(crate) fn unknown_entries(&self) -> Vec<&'a Entry> {
        self.unknown().collect()
    }

    /// Whether there is an unknown key.
    pub(crate) fn has_unknown(&self) -> bool {
        self.unknown().next().is_some()
    }

    /// Reports unknown keys right after a key without a value: they probably belong under it.
    pub(crate) fn unindented(&mut self, faults: &mut Faults) {
        let unknown: Vec<Span> = self.unknown().map(|entry| entry.key_span).collect();
        let is_unknown = |entry: &Entry| unknown.contains(&entry.key_span);
        let open = self.entries.windows(2).position(|pair| {
            matches!(pair, [one, next] if one.value.is_empty() && !is_unknown(one) && is_unknown(next))
        });
        let Some((open, after)) =
            open.and_then(|at| Some((self.entries.get(at)?, self.entries.get(at + 1..)?)))
        else {
            return;
        };
        let under: Vec<&str> = after
            .iter()
            .take_while(|entry| is_unknown(entry))
            .map(|entry| entry.key.as_str())
            .collect();
        let place = Span {
            end: open.value.span.end.max(open.key_span.end),
            ..open.key_span
        };
        let list = under
            .iter()
            .map(|key| format!("`{}`", brief(key)))
            .collect::<Vec<_>>()
            .join(", ");
        let key = brief(&open.key);
        let (is, lines) = match under.len() {
            1 => ("is", "line"),
            _ => ("are", "lines"),
        };
        let message = format!(
            "There is nothing under `{key}`: {list} on the next {lines} {is} not indented further than it."
        );
        faults
            .add(Code::NotIndented, open.key_span, message)
            .because_of(place)
            .help(format!(
                "Put two more spaces before each line that belongs to `{key}`."
            ));
        self.refused.extend(under);
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
        for key in keys {
            if !self.known.contains(&key) {
                self.known.push(key);
            }
        }
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
        let free = || (self.known.iter().copied()).filter(|known| !written(known));
        let others = self.others.iter();
        let same = others.filter(|(other, _)| *other == folded(&entry.key));
        let same = same.map(|(_, key)| *key);
        let same: Vec<_> = same
            .filter(|key| free().any(|known| known == *key))
            .collect();
        // Of two, the second is for a list.
        let same = match entry.value.as_list() {
            Some(_) => same.last(),
            None => same.first(),
        };
        same.copied().or_else(|| closest(&entry.key, free()))
    }

    /// The keys of which a word is the first part: `height-outside` and `height-inside` for `height`.
    fn with_part(&self, word: &str) -> Option<String> {
        const MOST: usize = 6;
        let begins = |known: &&&str| {
            known
                .strip_prefix(word)
                .is_some_and(|rest| rest.starts_with('-'))
        };
        let found = self.known.iter().filter(begins);
        let found: Vec<_> = found.map(|known| format!("`{known}`")).collect();
        (1..=MOST)
            .contains(&found.len())
            .then(|| format!("Write {}.", found.join(" or ")))
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

/// What a key means, as the end of a sentence.
fn said_of(means: &str) -> String {
    let mut rest = means.chars();
    match rest.next() {
        Some(first) => format!(": {}{}", first.to_lowercase(), rest.as_str()),
        None => ".".to_owned(),
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

/// The name among some that shares at least half of its words with another: `barrier-needed` for `barrier-required`.
/// Where two share as many, none is meant.
pub(crate) fn of_same_words<'c>(
    name: &str,
    candidates: impl IntoIterator<Item = &'c str>,
) -> Option<&'c str> {
    let name = folded(name);
    let words: Vec<&str> = name.split('-').filter(|word| word.len() > 2).collect();
    let shared = |candidate: &str| {
        let own = candidate.split('-').filter(|word| word.len() > 2);
        let (all, same) = own.fold((0, 0), |(all, same), word| {
            (all + 1, same + usize::from(words.contains(&word)))
        });
        (same > 0 && same * 2 >= words.len().max(all)).then_some(same)
    };
    let found = candidates.into_iter().take(MOST_TRIED);
    let mut found: Vec<_> = found.filter_map(|it| Some((shared(it)?, it))).collect();
    found.sort_by_key(|other| std::cmp::Reverse(other.0));
    match found.as_slice() {
        [(_, only)] => Some(only),
        [(most, best), (next, _), ..] if most > next => Some(best),
        _ => None,
    }
}

/// Whether a word of at least five letters is one typing error away from another.
pub(crate) fn is_one_slip_off(word: &str, other: &str) -> bool {
    word.chars().count() > 4 && strsim::damerau_levenshtein(word, other) == 1
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
