//! How the reader takes texts, words and ids out of what a file says, and notes what is wrong with them.

use super::lists::as_list;
use super::value::flipped;
use crate::faults::Code;
use crate::grammar::Keys;
use crate::ruleset::read::Reader;
use crate::text::{Entry, Fault, Faults, MapReader, Node, Span, in_short, yes_no};

impl<'a> Reader<'a> {
    pub(super) fn faults(&mut self) -> &mut Faults {
        &mut self.faults
    }

    pub(crate) fn has_fault(&self, code: Code) -> bool {
        self.faults.list.iter().any(|fault| fault.code == code)
    }

    pub(crate) fn fault(
        &mut self,
        code: Code,
        span: Span,
        message: impl Into<String>,
    ) -> &mut Fault {
        self.faults().add(code, span, message)
    }

    pub(crate) fn warning(
        &mut self,
        code: Code,
        span: Span,
        message: impl Into<String>,
    ) -> &mut Fault {
        self.warnings.add(code, span, message)
    }

    // Small parts that many things have.

    pub(super) fn map(&mut self, node: &'a Node, what: &'a str) -> Option<MapReader<'a>> {
        MapReader::new(node, what, self.faults())
    }

    /// The entries of a map's keys, in the order of its declaration.
    pub(super) fn keys<const N: usize>(
        &mut self,
        node: &'a Node,
        declared: &Keys<N>,
    ) -> Option<[Option<&'a Entry>; N]> {
        let mut map = declared.begun(node, self.faults())?;
        map.unindented(self.faults());
        let entries = map.keys(&declared.keys, self.faults());
        map.finish(self.faults());
        Some(entries)
    }

    /// What stands after a key, if it is written: outside, whether it could be read.
    pub(super) fn if_written<T>(
        &mut self,
        written: Option<&'a Entry>,
        read: impl FnOnce(&mut Self, &'a Node) -> Option<T>,
    ) -> Option<Option<T>> {
        flipped(written.map(|entry| read(self, &entry.value)))
    }

    /// What stands after a key; that it is missing was said before.
    pub(super) fn written<T>(
        &mut self,
        written: Option<&'a Entry>,
        read: impl FnOnce(&mut Self, &'a Node) -> Option<T>,
    ) -> Option<T> {
        self.if_written(written, read)?
    }

    pub(super) fn finish(&mut self, mut map: MapReader<'a>) {
        map.unindented(self.faults());
        map.finish(self.faults());
    }

    /// The text for people that stands after a key.
    pub(super) fn told(&mut self, written: Option<&'a Entry>) -> Option<String> {
        written
            .and_then(|entry| self.said(entry))
            .map(str::to_owned)
    }

    pub(super) fn text(&mut self, entry: &'a Entry) -> Option<&'a str> {
        self.text_of(&entry.value, &entry.key)
    }

    /// The text that stands after a word.
    pub(super) fn text_of(&mut self, node: &'a Node, after: &str) -> Option<&'a str> {
        let text = node.text();
        if text.is_none() {
            let message = format!(
                "After `{after}`, a text is expected, not {}.",
                node.describe()
            );
            self.fault(Code::NotAText, node.span, message)
                .help(in_place_of_list(node, after));
        }
        text
    }

    /// Whether `yes` stands after a key.
    pub(super) fn is_yes(&mut self, written: Option<&'a Entry>) -> bool {
        written.and_then(|entry| self.yes_no(&entry.value)) == Some(true)
    }

    pub(super) fn yes_no(&mut self, node: &Node) -> Option<bool> {
        match yes_no(node) {
            Ok(answer) => Some(answer),
            Err(fault) => {
                self.faults().list.push(fault);
                None
            }
        }
    }

    /// The items of a list; anything else is a fault.
    pub(super) fn items(&mut self, node: &'a Node, key: &str) -> &'a [Node] {
        if let Some(items) = node.as_list() {
            return items;
        }
        if !node.is_empty() {
            let message = format!(
                "After `{key}`, a list is expected, not {}.",
                node.describe()
            );
            self.fault(Code::NotAList, node.span, message)
                .help(as_list(node, key));
        }
        &[]
    }

    /// One word, or a list of words.
    pub(super) fn words(&mut self, node: &'a Node) -> Vec<(&'a str, Span)> {
        let nodes = node.as_list().unwrap_or(std::slice::from_ref(node));
        let mut words = Vec::new();
        for node in nodes {
            match node.text() {
                Some(word) => words.push((word, node.span)),
                None => {
                    self.fault(
                        Code::NotAWord,
                        node.span,
                        format!("A word is expected here, not {}.", node.describe()),
                    );
                }
            }
        }
        words
    }

    /// A short name, as every rule, term and document has one.
    pub(super) fn id(&mut self, written: Option<&'a Entry>) -> Option<&'a str> {
        let entry = written?;
        let id = self.text(entry)?;
        self.check_id(id, entry.value.span).then_some(id)
    }

    pub(super) fn check_id(&mut self, id: &str, span: Span) -> bool {
        let good = is_short_name(id);
        if !good {
            // `pool.lawful-before` is named under its kind already.
            let last = id.rsplit('.').next().filter(|last| is_short_name(last));
            let help = format!(
                "A short name begins with a letter and has small letters, digits and `-` only: write, say, `{}`.",
                last.map_or_else(|| as_short_name(id), str::to_owned)
            );
            self.fault(Code::BadId, span, format!("`{id}` cannot be a short name."))
                .help(help);
        }
        good
    }
}

/// What to write in place of something that is not a text.
fn in_place_of_list(node: &Node, after: &str) -> String {
    match (after, node.as_list()) {
        ("fact", Some(_)) => "Write a test for each of them, in a list: `[{fact: …, at-most: …}, {fact: …, at-most: …}]`.".to_owned(),
        (_, Some([one])) if one.text().is_some() => {
            format!("Take out the brackets: `{after}: {}`.", in_short(one))
        }
        ("have", Some(papers)) => {
            let each = papers.iter().map(|it| format!("{{have: {}}}", in_short(it)));
            format!("Ask for each of them, in a list: `[{}]`.", each.collect::<Vec<_>>().join(", "))
        }
(_, Some([_, rest @ ..])) if after != "id" && rest.iter().all(|it| it.text().is_some()) => format!(
            "Write one text. If this is one text in several languages, put the short name of its language before each: `{after}: {{en: …, fr: …}}`. A text that begins with a bracket needs quotes."
        ),
        (_, Some(_)) => "A text that begins with a bracket needs quotes.".to_owned(),
        (_, None) => format!("Write it after the `:`, as in `{after}: …`."),
    }
}

/// Whether a text is a short name.
pub(super) fn is_short_name(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_lowercase())
        && text
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

/// The short name closest to a text.
pub(super) fn as_short_name(text: &str) -> String {
    let plain = |c: char| match c.to_ascii_lowercase() {
        c if c.is_ascii_lowercase() || c.is_ascii_digit() => c,
        _ => '-',
    };
    let name: String = text.chars().take(40).map(plain).collect();
    let name = name
        .split('-')
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join("-");
    match name.starts_with(|c: char| c.is_ascii_lowercase()) {
        true => name,
        false if name.is_empty() => "rear-line".to_owned(),
        false => format!("s-{name}"),
    }
}

/// Names in backquotes, joined as in a sentence: `a`, `b` and `c`. At most the first hundred.
pub(super) fn listed<'w>(words: impl IntoIterator<Item = &'w str>) -> String {
    const MOST: usize = 100;
    let words = words.into_iter().map(|word| format!("`{word}`"));
    let mut words: Vec<_> = words.take(MOST + 1).collect();
    if words.len() > MOST {
        words.truncate(MOST);
        return format!("{}, …", words.join(", "));
    }
    match words.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => "none".to_owned(),
    }
}
