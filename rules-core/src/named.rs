//! Words of a plan that name the rule set they belong to: `florida/counts-on-barrier`.

use std::borrow::Cow;
use std::collections::BTreeSet;

use crate::faults::Code;
use crate::ruleset::OF;
use crate::text::{Content, Entry, Faults, Node};

/// A plan as a rule set reads it when it is the only one in use.
pub(crate) fn read_alone<'n>(document: &'n Node, rule_set: &str) -> Cow<'n, Node> {
    if !any_entry(document, &|entry| owner(entry) == Some(rule_set)) {
        return Cow::Borrowed(document);
    }
    let mut own = document.clone();
    keep_own(&mut own, rule_set, &[rule_set]);
    Cow::Owned(own)
}

/// Of the words that name a rule set in use, keeps only those of `own`, without the name.
pub(crate) fn keep_own(node: &mut Node, own: &str, in_use: &[&str]) {
    let is_anothers =
        |entry: &Entry| owner(entry).is_some_and(|id| id != own && in_use.contains(&id));
    match &mut node.content {
        Content::Map(entries) => entries.retain_mut(|entry| {
            let stays = !is_anothers(entry);
            unname(entry, own);
            keep_own(&mut entry.value, own, in_use);
            stays
        }),
        Content::List(items) => items.retain_mut(|item| {
            let entries = item.as_map().unwrap_or_default();
            let kind = entries.iter().find(|entry| entry.key == "kind");
            let stays = !kind.is_some_and(is_anothers);
            keep_own(item, own, in_use);
            stays
        }),
        Content::Empty | Content::Scalar { .. } => {}
    }
}

/// The rule set that an entry names, in front of its key or of its kind.
fn owner(entry: &Entry) -> Option<&str> {
    let kind = (entry.key == "kind").then(|| entry.value.text()).flatten();
    let (rule_set, _) = kind.unwrap_or(&entry.key).split_once(OF)?;
    Some(rule_set)
}

/// Removes the name of a rule set from an entry's word.
fn unname(entry: &mut Entry, rule_set: &str) {
    let bare = |word: &str| Some(word.strip_prefix(rule_set)?.strip_prefix(OF)?.to_owned());
    if let Some(key) = bare(&entry.key) {
        entry.key = key;
    }
    if let (true, Content::Scalar { text, .. }) = (entry.key == "kind", &mut entry.value.content)
        && let Some(kind) = bare(text)
    {
        *text = kind;
    }
}

fn any_entry(node: &Node, is_it: &dyn Fn(&Entry) -> bool) -> bool {
    match &node.content {
        Content::Map(entries) => {
            let mut entries = entries.iter();
            entries.any(|entry| is_it(entry) || any_entry(&entry.value, is_it))
        }
        Content::List(items) => items.iter().any(|item| any_entry(item, is_it)),
        Content::Empty | Content::Scalar { .. } => false,
    }
}

/// Faults for words that occur twice in one map for a rule set: once with its name and once without.
pub(crate) fn said_twice(read: &Node) -> Faults {
    let mut faults = Faults::default();
    each_map(read, &mut |entries| {
        let mut seen = BTreeSet::new();
        for entry in entries.iter().filter(|entry| !seen.insert(&entry.key)) {
            let message = format!("`{}` is said twice here for one rule set.", entry.key);
            faults.add(Code::SaidTwice, entry.key_span, message).help(
                "Keep one of the two: the one with the name of the rule set, or the one without.",
            );
        }
    });
    faults
}

fn each_map(node: &Node, see: &mut dyn FnMut(&[Entry])) {
    match &node.content {
        Content::Map(entries) => {
            see(entries);
            entries.iter().for_each(|entry| each_map(&entry.value, see));
        }
        Content::List(items) => items.iter().for_each(|item| each_map(item, see)),
        Content::Empty | Content::Scalar { .. } => {}
    }
}
