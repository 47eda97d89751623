//! The plans of the bundled cases, each with one key left out in turn.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use rules_core::plan::{Plan, read_document};
use rules_core::ruleset::{RuleSet, read};
use rules_core::text::{self, Content, Node, to_json_text};
use rules_core::vocabulary::Vocabulary;

use crate::cases::changed_base;
use crate::soundness::less::Possible;

/// Keys that are never left out, and why: the reader needs them, or they say nothing about the site but state the
/// owner's design or the file's way of writing.
const KEPT: [(&str, &str); 4] = [
    ("plan", "the file's own name"),
    ("title", "the file's own title"),
    ("unit", "the file's units"),
    ("north", "the file's own directions"),
];

/// Rule sets that are slow because of their ways through barriers. When time is short, only one in this many of their
/// deletions is tried, different ones for each case.
const SLOW: [(&str, usize); 2] = [("barrier-model", 10), ("model-municipality", 25)];

/// The result of all deletions.
#[derive(Debug, Default)]
pub struct Found {
    /// Plans judged.
    pub judged: usize,
    /// Plans that can no longer be read.
    pub unreadable: usize,
    /// Plans that came out with fewer possible outcomes than before, in words.
    pub more: Vec<String>,
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../rulesets")
}

/// One file of every rule set that has it, by folder.
fn texts(file: &str) -> BTreeMap<String, String> {
    let entries = fs::read_dir(folder()).expect("the folder of rule sets");
    let text = |path: PathBuf| {
        let text = fs::read_to_string(path.join(file)).ok()?;
        Some((path.file_name()?.to_string_lossy().into_owned(), text))
    };
    entries
        .filter_map(|entry| text(entry.expect("a folder").path()))
        .collect()
}

fn rule_set(name: &str, files: &BTreeMap<String, String>) -> RuleSet {
    let bases = |base: &str| files.get(base).map(String::as_str);
    match read(&files[name], &bases, Vocabulary::standard()) {
        Ok(checked) => checked.rule_set,
        Err(_) => panic!("{name} does not read clean"),
    }
}

/// The plans of all cases of a file, by the cases' ids.
fn plans(cases: &str) -> Vec<(String, Node)> {
    let root = text::read(cases).expect("a file of cases");
    let list = root.get("cases").and_then(Node::as_list);
    list.unwrap_or_default()
        .iter()
        .map(|case| plan(&root, case))
        .collect()
}

fn plan(root: &Node, case: &Node) -> (String, Node) {
    let id = case.get("case").and_then(Node::text).unwrap_or_default();
    let base = case
        .get("plan")
        .or_else(|| root.get("base"))
        .expect("a plan");
    let change = case
        .get("change")
        .map_or_else(|| "{}".to_owned(), to_json_text);
    let under = format!("{{\"base\": {}}}", to_json_text(base));
    let laid = changed_base(&under, &change).expect("a change that fits");
    let mut plan = text::read(&laid).expect("what was written");
    for gone in case
        .get("without")
        .and_then(Node::as_list)
        .unwrap_or_default()
    {
        leave_out(&mut plan, gone.text().unwrap_or_default());
    }
    (id.to_owned(), plan)
}

fn leave_out(plan: &mut Node, id: &str) {
    if let Some(Content::List(things)) = value_of(plan, "things").map(|node| &mut node.content) {
        things.retain(|thing| thing.get("id").and_then(Node::text) != Some(id));
    }
}

fn value_of<'n>(node: &'n mut Node, key: &str) -> Option<&'n mut Node> {
    match &mut node.content {
        Content::Map(entries) => entries
            .iter_mut()
            .find(|entry| entry.key == key)
            .map(|entry| &mut entry.value),
        _ => None,
    }
}

/// A step down into a part of a document.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Step {
    Key(String),
    Item(usize),
}

/// A document with one statement left out.
struct Shorter {
    what: String,
    document: Node,
}

/// All documents with one statement less.
fn shorter(plan: &Node, vocabulary: &Vocabulary) -> Vec<Shorter> {
    let mut all = Vec::new();
    let mut paths = Vec::new();
    walk(plan, &mut Vec::new(), vocabulary, &mut paths);
    for path in paths {
        let mut document = plan.clone();
        let what = said(&path);
        // Leaving out a thing also leaves out the statement that all of its kind are shown.
        if let [Step::Key(list), Step::Item(place)] = &path[..]
            && list == "things"
        {
            let things = plan.get("things").and_then(Node::as_list);
            let thing = things.and_then(|things| things.get(*place));
            let kind = thing
                .and_then(|thing| thing.get("kind"))
                .and_then(Node::text);
            remove(
                &mut document,
                &[
                    Step::Key("inventory".to_owned()),
                    Step::Key(kind.unwrap_or_default().to_owned()),
                ],
            );
        }
        remove(&mut document, &path);
        all.push(Shorter { what, document });
    }
    all
}

fn said(path: &[Step]) -> String {
    let words = path.iter().map(|step| match step {
        Step::Key(key) => key.clone(),
        Step::Item(place) => place.to_string(),
    });
    words.collect::<Vec<_>>().join(".")
}

fn remove(node: &mut Node, path: &[Step]) {
    match (&mut node.content, path) {
        (Content::Map(entries), [Step::Key(key)]) => entries.retain(|entry| entry.key != *key),
        (Content::List(items), [Step::Item(place)]) if *place < items.len() => {
            items.remove(*place);
        }
        (Content::Map(entries), [Step::Key(key), rest @ ..]) => {
            if let Some(entry) = entries.iter_mut().find(|entry| entry.key == *key) {
                remove(&mut entry.value, rest);
            }
        }
        (Content::List(items), [Step::Item(place), rest @ ..]) => {
            if let Some(item) = items.get_mut(*place) {
                remove(item, rest);
            }
        }
        _ => {}
    }
}

/// The path of everything that can be left out.
fn walk(node: &Node, at: &mut Vec<Step>, vocabulary: &Vocabulary, paths: &mut Vec<Vec<Step>>) {
    match &node.content {
        Content::Map(entries) => {
            for entry in entries {
                at.push(Step::Key(entry.key.clone()));
                if !is_kept(at) {
                    if !is_design(at, vocabulary) {
                        paths.push(at.clone());
                    }
                    if !is_drawn(at, vocabulary) {
                        walk(&entry.value, at, vocabulary, paths);
                    }
                }
                at.pop();
            }
        }
        Content::List(items) => {
            for (place, item) in items.iter().enumerate() {
                at.push(Step::Item(place));
                if matches!(&at[..at.len() - 1], [Step::Key(list)] if list == "things" || list == "measured")
                {
                    paths.push(at.clone());
                }
                walk(item, at, vocabulary, paths);
                at.pop();
            }
        }
        Content::Empty | Content::Scalar { .. } => {}
    }
}

fn is_kept(at: &[Step]) -> bool {
    let [Step::Key(key)] = at else {
        return false;
    };
    KEPT.iter().any(|(kept, _)| kept == key)
}

/// The pool, its name and its outlines are the owner's proposal.
fn is_design(at: &[Step], vocabulary: &Vocabulary) -> bool {
    match at {
        // Things are left out one at a time, together with the inventory of their kind.
        [Step::Key(key)] => key == "pool" || key == "things",
        [Step::Key(pool), .., Step::Key(key)] if pool == "pool" => {
            key == "id" || is_outline(key, vocabulary)
        }
        _ => false,
    }
}

fn is_outline(key: &str, vocabulary: &Vocabulary) -> bool {
    let mut kinds = vocabulary.kinds();
    kinds.any(|(kind, _)| vocabulary.outline_named(kind, key).is_some())
}

/// The drawing of an outline counts as one statement.
fn is_drawn(at: &[Step], vocabulary: &Vocabulary) -> bool {
    match at {
        [.., Step::Item(_), Step::Key(key)] | [Step::Key(_), Step::Key(key)] => {
            key == "corners" || is_outline(key, vocabulary)
        }
        _ => false,
    }
}

/// One case of a rule set.
struct Case {
    name: String,
    rules: usize,
    plan: Node,
    /// Try every `n`-th deletion, starting from this one.
    every: (usize, usize),
}

/// Judges the plans of all bundled cases, and each of them with one statement left out in turn. In a hurry, slow rule
/// sets try only some of the deletions. `only` names a rule set.
pub fn run(in_a_hurry: bool, only: Option<&str>) -> Found {
    let files = texts("rules.yaml");
    let mut sets: Vec<RuleSet> = Vec::new();
    let mut cases = Vec::new();
    for (name, text) in texts("cases.yaml") {
        let rules = sets.len();
        sets.push(rule_set(&name, &files));
        if only.is_some_and(|only| only != name) {
            continue;
        }
        let slow = SLOW.iter().find(|(slow, _)| in_a_hurry && *slow == name);
        let nth = slow.map_or(1, |(_, nth)| *nth);
        let named = plans(&text).into_iter().enumerate();
        cases.extend(named.map(|(place, (id, plan))| Case {
            name: format!("{name}, {id}"),
            rules,
            plan,
            every: (nth, place % nth),
        }));
    }
    let (next, found) = (AtomicUsize::new(0), Mutex::new(Found::default()));
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                while let Some(case) = cases.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let one = case.run(&sets[case.rules]);
                    if let Ok(mut found) = found.lock() {
                        found.judged += one.judged;
                        found.unreadable += one.unreadable;
                        found.more.extend(one.more);
                    }
                }
            });
        }
    });
    let mut found = found.into_inner().expect("no thread broke off");
    found.more.sort();
    found
}

impl Case {
    fn run(&self, rules: &RuleSet) -> Found {
        let vocabulary = &rules.vocabulary;
        let mut found = Found::default();
        let read = |document: &Node| -> Option<Plan> { read_document(document, vocabulary).ok() };
        let Some(plan) = read(&self.plan) else {
            return found;
        };
        let before = Possible::of(&plan, rules);
        let (nth, first) = self.every;
        for shorter in shorter(&self.plan, vocabulary)
            .into_iter()
            .skip(first)
            .step_by(nth)
        {
            let Some(plan) = read(&shorter.document) else {
                found.unreadable += 1;
                continue;
            };
            found.judged += 1;
            let after = Possible::of(&plan, rules);
            if let Some(place) = before.beyond(&after) {
                let what = match place {
                    Some(rule) => format!(
                        "{} {:?} and then {:?}",
                        rules.rules[rule].id, before.rules[rule], after.rules[rule]
                    ),
                    None => format!("{:?} and then {:?}", before.verdict, after.verdict),
                };
                found
                    .more
                    .push(format!("{} without {}: {what}", self.name, shorter.what));
            }
        }
        found
    }
}
