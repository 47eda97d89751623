//! Hiding what a rule set does not know in a plan drawn for another one.
//!
//! A rule set may ask for facts and kinds of its own. Another rule set does not know them, and the reader would refuse
//! the plan as if they were typing slips. A person who switches rule sets in the form has not mistyped them and must
//! not lose them, so they are hidden while the rules in use do not know them.

use std::collections::BTreeSet;

use crate::plan;
use crate::text::{Content, Fault, Node, Span};
use crate::vocabulary::Vocabulary;

/// Removes from a document what this vocabulary has no word for, but keeps anything close to one of its words. Returns
/// the paths of what it removed, such as `answers.slope-surveyed` or `things.3`, as they were before.
pub fn hide_unknown_keys(document: &mut Node, vocabulary: &Vocabulary) -> Vec<String> {
    let Err(faults) = plan::read_document(document, vocabulary) else {
        return Vec::new();
    };
    let foreign: BTreeSet<Span> = faults.list.iter().filter_map(foreign).collect();
    let mut gone = Vec::new();
    if !foreign.is_empty() {
        take_out(document, "", &foreign, &mut gone);
    }
    gone
}

fn foreign(fault: &Fault) -> Option<Span> {
    let is_foreign = fault.code.is_foreign_word() && !fault.is_slip_of_the_pen();
    fault.span.filter(|_| is_foreign)
}

/// Removes what is foreign: an entry with a foreign key or word, a thing of a foreign kind, and what is measured or
/// drawn from something foreign.
pub(crate) fn take_out(
    node: &mut Node,
    path: &str,
    foreign: &BTreeSet<Span>,
    gone: &mut Vec<String>,
) {
    match &mut node.content {
        Content::Map(entries) => entries.retain_mut(|entry| {
            let own = foreign.contains(&entry.key_span) || is_word(&entry.value, foreign);
            let path = below(path, &entry.key);
            stays(&mut entry.value, (path, own), foreign, gone)
        }),
        Content::List(items) => {
            let mut places = 0..;
            items.retain_mut(|item| {
                let path = below(path, &places.next().unwrap_or_default().to_string());
                stays(item, (path, false), foreign, gone)
            });
        }
        Content::Empty | Content::Scalar { .. } => {}
    }
}

/// Whether a part of the document stays. If it does, foreign things inside it are removed.
fn stays(
    part: &mut Node,
    (path, is_foreign): (String, bool),
    foreign: &BTreeSet<Span>,
    gone: &mut Vec<String>,
) -> bool {
    let is_foreign = is_foreign || rests_on_foreign(part, foreign);
    match is_foreign {
        true => gone.push(path),
        false => take_out(part, &path, foreign, gone),
    }
    !is_foreign
}

/// Whether a map means nothing without its foreign word.
fn rests_on_foreign(part: &Node, foreign: &BTreeSet<Span>) -> bool {
    const WHOLE: [&str; 4] = ["kind", "from", "to", "same-as"];
    let mut words = WHOLE.iter().filter_map(|key| part.get(key));
    words.any(|word| is_word(word, foreign))
}

fn is_word(node: &Node, foreign: &BTreeSet<Span>) -> bool {
    node.text().is_some() && foreign.contains(&node.span)
}

/// The path of something below a key.
pub(crate) fn below(path: &str, key: &str) -> String {
    match path {
        "" => key.to_owned(),
        _ => format!("{path}.{key}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::{read, to_json_text};

    const PLAN: &str = "\
plan: p
title: P
unit: m
lot: {corners: {a: [0, 0], b: [20, 0], c: [20, 30], d: [0, 30]}}
pool: {id: pool, greatest-width: 4 m, water: {rectangle: {at: [5, 5], length: 8, width: 4}}}
inventory: {moon-gate: none, well: none}
answers: {slope-surveyed: yes}
things:
  - {kind: moon-gate, id: m}
  - {kind: gate, id: g, latch-shielded: yes, latch-height: 1.5 m}
";

    /// What another rule set asked for is hidden, and the rest can be judged.
    #[test]
    fn foreign_words_are_taken_out() {
        let vocabulary = &Vocabulary::standard();
        let mut document = read(PLAN).unwrap();
        let gone = hide_unknown_keys(&mut document, vocabulary);
        let expected = [
            "pool.greatest-width",
            "inventory.moon-gate",
            "answers.slope-surveyed",
            "things.0",
            "things.1.latch-shielded",
        ];
        assert_eq!(gone, expected);
        let plan = plan::read_document(&document, vocabulary).unwrap();
        assert!(plan.things.iter().any(|thing| thing.id == "g"));
        assert_eq!(
            hide_unknown_keys(&mut document, vocabulary),
            Vec::<String>::new()
        );
    }

    /// A typing slip stays, so that the reader reports it.
    #[test]
    fn slips_are_left_to_the_reader() {
        let mut document = read(&PLAN.replace("latch-height", "latch-hieght")).unwrap();
        let gone = hide_unknown_keys(&mut document, &Vocabulary::standard());
        assert!(
            !gone.contains(&"things.1.latch-hieght".to_owned()),
            "{gone:?}"
        );
        assert!(to_json_text(&document).contains("latch-hieght"));
        assert!(plan::read_document(&document, &Vocabulary::standard()).is_err());
    }
}
