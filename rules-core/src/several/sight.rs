//! What each of several rule sets sees of a plan.

use std::collections::{BTreeMap, BTreeSet};

use crate::faults::Code;
use crate::named::keep_own;
use crate::plan;
use crate::ruleset::{Meant, PAPERS, RuleSet, clashes, with_name};
use crate::text::{Content, Entry, Fault, Faults, Node, Span};
use crate::unknown_keys::{below, take_out};

/// What each rule set sees of a plan: everything except words that it does not know and another rule set does. A word
/// that none of them knows stays, so that it is reported.
pub(super) fn sights(document: &Node, sets: &[RuleSet]) -> Vec<Node> {
    let in_use: Vec<&str> = sets.iter().map(|rules| rules.id.as_str()).collect();
    let own = in_use.iter().map(|id| {
        let mut own = document.clone();
        keep_own(&mut own, id, &in_use);
        own
    });
    let mut sights: Vec<Node> = own.collect();
    // After each pass, whatever is measured or drawn from something left out becomes foreign, too.
    while leave_out_what_others_know(&mut sights, sets) {}
    sights
}

fn leave_out_what_others_know(sights: &mut [Node], sets: &[RuleSet]) -> bool {
    let each = sights.iter().zip(sets);
    let foreign: Vec<BTreeSet<Span>> = each.map(|(sight, rules)| foreign(sight, rules)).collect();
    let each = sights.iter().zip(&foreign);
    let known: BTreeSet<Span> = each
        .flat_map(|(sight, foreign)| known(sight, foreign))
        .collect();
    let mut some = false;
    for (sight, foreign) in sights.iter_mut().zip(&foreign) {
        let others = foreign.intersection(&known).copied().collect();
        let mut gone = Vec::new();
        take_out(sight, "", &others, &mut gone);
        some |= !gone.is_empty();
    }
    some
}

/// The words that a rule set does not know.
fn foreign(sight: &Node, rules: &RuleSet) -> BTreeSet<Span> {
    let read = plan::read_document(sight, &rules.vocabulary);
    let faults = read.err().unwrap_or_default();
    let foreign = |fault: &Fault| {
        let unknown = fault.code.is_foreign_word() || fault.code == Code::UnknownThing;
        fault.span.filter(|_| unknown)
    };
    let words = faults.list.iter().filter_map(foreign);
    words.chain(papers_of_others(sight, rules)).collect()
}

/// The papers that no edition of a rule set asks for. The reader accepts them, since somebody may have them for another
/// purpose.
fn papers_of_others(sight: &Node, rules: &RuleSet) -> Vec<Span> {
    let editions = std::iter::successors(Some(rules), |rules| rules.earlier.as_deref());
    let own: Vec<&str> = (editions.flat_map(|edition| &edition.documents))
        .map(|document| document.id.as_str())
        .collect();
    let stated = sight.get(PAPERS).and_then(Node::as_map).unwrap_or_default();
    let others = stated
        .iter()
        .filter(|entry| !own.contains(&entry.key.as_str()));
    others.map(|entry| entry.key_span).collect()
}

/// The words that a rule set knows: all except those that are foreign to it and everything below those.
fn known(sight: &Node, foreign: &BTreeSet<Span>) -> BTreeSet<Span> {
    let mut rest = sight.clone();
    take_out(&mut rest, "", foreign, &mut Vec::new());
    words_of(&rest)
}

/// The places of the words of a part.
fn words_of(node: &Node) -> BTreeSet<Span> {
    let mut spans = BTreeSet::new();
    note_words(node, &mut spans);
    spans
}

fn note_words(node: &Node, spans: &mut BTreeSet<Span>) {
    match &node.content {
        Content::Map(entries) => {
            for entry in entries {
                spans.insert(entry.key_span);
                note_words(&entry.value, spans);
            }
        }
        Content::List(items) => items.iter().for_each(|item| note_words(item, spans)),
        Content::Scalar { .. } => {
            spans.insert(node.span);
        }
        Content::Empty => {}
    }
}

/// Faults for words of a plan that several rule sets use for different things, where the plan does not say which one is
/// meant.
pub(super) fn refuse_clashes(document: &Node, sets: &[RuleSet]) -> Faults {
    let sets: Vec<&RuleSet> = sets.iter().collect();
    let clashes = clashes(&sets);
    let mut faults = Faults::default();
    if clashes.is_empty() {
        return faults;
    }
    for (word, span) in words(document) {
        if let Some(meant) = clashes.get(&word) {
            refuse(&mut faults, &word, span, meant);
        }
    }
    faults
}

fn refuse(faults: &mut Faults, word: &str, span: Span, meant: &[Meant<'_>]) {
    let (_, own) = word.split_once('.').unwrap_or(("", word));
    let asked: Vec<String> = (meant.iter())
        .map(|one| format!("`{}`: \"{}\"", one.rule_set, one.says))
        .collect();
    let names: Vec<String> = (meant.iter())
        .map(|one| format!("`{}`", with_name(one.rule_set, own)))
        .collect();
    let message = format!(
        "Several rule sets use `{own}`, each for something of its own. {}.",
        asked.join("; ")
    );
    faults
        .add(Code::SayWhichRuleSet, span, message)
        .help(format!(
            "Write the rule set that is meant in front: {}; or one line for each.",
            names.join(" or ")
        ));
}

/// The kinds, facts and papers that a plan names, each with its place.
fn words(document: &Node) -> Vec<(String, Span)> {
    let mut words = Vec::new();
    for entry in document.as_map().unwrap_or_default() {
        match entry.key.as_str() {
            "inventory" => keys(&entry.value, None, &mut words),
            PAPERS => keys(&entry.value, Some(PAPERS), &mut words),
            "dates" => keys(&entry.value, Some("events"), &mut words),
            "things" => listed(&entry.value, &mut words),
            kind => {
                words.push((kind.to_owned(), entry.key_span));
                let one = std::slice::from_ref(&entry.value);
                let each = entry.value.as_list().unwrap_or(one).iter();
                each.for_each(|node| keys(node, Some(kind), &mut words));
            }
        }
    }
    let sides = document.get("lot").and_then(|lot| lot.get("sides"));
    let sides = sides.and_then(Node::as_list).unwrap_or_default().iter();
    sides.for_each(|side| keys(side, Some("lot-line"), &mut words));
    words
}

fn listed(things: &Node, words: &mut Vec<(String, Span)>) {
    for thing in things.as_list().unwrap_or_default() {
        let Some(kind) = thing.get("kind") else {
            continue;
        };
        let name = kind.text().unwrap_or_default();
        words.push((name.to_owned(), kind.span));
        keys(thing, Some(name), words);
    }
}

fn keys(node: &Node, of: Option<&str>, words: &mut Vec<(String, Span)>) {
    let word = |entry: &Entry| match of {
        Some(of) => format!("{of}.{}", entry.key),
        None => entry.key.clone(),
    };
    let entries = node.as_map().unwrap_or_default().iter();
    words.extend(entries.map(|entry| (word(entry), entry.key_span)));
}

/// What only some of the rule sets read: for each group of readers (by their places), the paths of those parts of the
/// plan.
pub(super) type ReadBySome = BTreeMap<Vec<usize>, Vec<String>>;

/// The parts of a plan that only some of the rule sets read. `sights` is what each of them sees.
pub(super) fn read_by_some(document: &Node, sights: &[Node]) -> ReadBySome {
    let written: Vec<BTreeSet<Span>> = sights.iter().map(words_of).collect();
    let mut all = ReadBySome::new();
    note_read(document, "", &written, &mut all);
    all
}

fn note_read(node: &Node, path: &str, written: &[BTreeSet<Span>], all: &mut ReadBySome) {
    let mut part = |name: &str, word: Option<Span>, part: &Node| {
        let path = below(path, name);
        let reads = |written: &BTreeSet<Span>| word.is_none_or(|word| written.contains(&word));
        let readers = written.iter().enumerate();
        let readers: Vec<usize> = readers
            .filter(|(_, it)| reads(it))
            .map(|(at, _)| at)
            .collect();
        match readers.len() == written.len() {
            true => note_read(part, &path, written, all),
            false => all.entry(readers).or_default().push(path),
        }
    };
    match &node.content {
        Content::Map(entries) => {
            let entries = entries.iter();
            entries.for_each(|entry| part(&entry.key, Some(entry.key_span), &entry.value));
        }
        Content::List(items) => {
            for (place, item) in (1..).zip(items) {
                let id = item.get("id").and_then(Node::text).map(str::to_owned);
                let name = id.unwrap_or_else(|| u32::to_string(&place));
                part(&name, words_of(item).first().copied(), item);
            }
        }
        Content::Empty | Content::Scalar { .. } => {}
    }
}
