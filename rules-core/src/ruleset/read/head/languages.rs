//! Texts for people that a file writes in several languages: one of them is read, so that nobody behind the reader sees
//! that there were others.

use crate::faults::Code;
use crate::ruleset::read::Reader;
use crate::ruleset::read::head::files::File;
use crate::text::{Entry, Node, cut_texts_told};

/// In which a text is looked for where nobody asked for another, or where that one is missing.
const ENGLISH: &str = "en";

/// Whether this is the name of a language: `nb`, `fr`, `fr-CA`.
pub fn is_language(tag: &str) -> bool {
    let (language, region) = tag.split_once('-').unwrap_or((tag, "XX"));
    let small =
        (2..=3).contains(&language.len()) && language.bytes().all(|b| b.is_ascii_lowercase());
    small && region.len() == 2 && region.bytes().all(|b| b.is_ascii_uppercase())
}

/// What a text says in the language that is wanted; else in English, in the file's own language, or in its first.
pub(crate) fn picked<'n>(node: &'n Node, wanted: Option<&str>, file: &File) -> Option<&'n str> {
    let Some(entries) = node.as_map() else {
        return node.text();
    };
    let own = file.node.get("language").and_then(Node::text);
    let order = [wanted, Some(ENGLISH), own].into_iter().flatten();
    let found = order.filter_map(|tag| entries.iter().find(|entry| entry.key == tag));
    found.chain(entries).next()?.value.text()
}

impl<'a> Reader<'a> {
    /// The text after a key that is for people: as it stands, or in one of its languages.
    pub(crate) fn said(&mut self, entry: &'a Entry) -> Option<&'a str> {
        self.said_here(&entry.value, &entry.key)
    }

    /// As [`said`](Self::said), of a text that stands after this word.
    pub(crate) fn said_here(&mut self, node: &'a Node, after: &str) -> Option<&'a str> {
        let entries = node.as_map().unwrap_or_default();
        if entries.is_empty() {
            return self.text_of(node, after);
        }
        self.are_languages(entries, after)?;
        let file = self.files.get(self.file)?;
        picked(node, self.language, file)
    }

    fn are_languages(&mut self, entries: &'a [Entry], after: &str) -> Option<()> {
        if cut_texts_told(entries, self.faults()) {
            return None;
        }
        for entry in entries {
            self.text(entry)?;
            if !is_language(&entry.key) {
                let message = format!(
                    "After `{after}`, a text is expected, or one for each language; `{}` is not the short name of a language.",
                    entry.key
                );
                self.fault(Code::NotALanguage, entry.key_span, message)
                    .help("Write the text alone, or languages by their short names, as in `{en: …, nb: …, fr: …}`.");
                return None;
            }
        }
        Some(())
    }
}
