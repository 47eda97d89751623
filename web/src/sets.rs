//! The rule sets that come along.

use std::cell::RefCell;

use rules_core::text::{Node, read};
use serde::Serialize;
use siting_rulesets::{RuleSetTexts, all};

use crate::words;
use crate::written::written;

/// What a rule set says of itself.
#[derive(Debug, Serialize)]
pub struct Head {
    /// Its name.
    pub id: &'static str,
    /// What it is called.
    pub title: String,
    /// Which edition.
    pub edition: String,
    /// Who decides.
    pub authority: String,
    /// What every report under these rules must say.
    pub notice: Option<String>,
    builds_on: Vec<String>,
    has_cases: bool,
    has_home: bool,
}

/// All rule sets that come along, in the order of their names, in the language that was asked for: `[{"id", "title", "edition", "authority", "notice",
/// "builds_on", "has_cases", "has_home"}, …]`.
pub fn rule_sets() -> String {
    heads(|heads| written(&heads))
}

thread_local! {
    static HEADS: RefCell<Vec<Head>> = const { RefCell::new(Vec::new()) };
}

/// Does something with the heads of all rule sets, in the order of their names.
pub fn heads<T>(doing: impl FnOnce(&[Head]) -> T) -> T {
    HEADS.with_borrow_mut(|heads| {
        if heads.is_empty() {
            heads.extend(all().iter().filter_map(head));
        }
        doing(heads)
    })
}

/// Forgets them when the language changes.
pub fn forget_heads() {
    HEADS.take();
}

fn head(set: &RuleSetTexts) -> Option<Head> {
    let root = read(head_of(set.rules)).ok()?;
    let language = words::chosen();
    let text = |key| picked(root.get(key)?, language).map(str::to_owned);
    Some(Head {
        id: set.name,
        title: text("title")?,
        edition: text("edition")?,
        authority: text("authority")?,
        notice: text("notice"),
        builds_on: names(root.get("builds-on")),
        has_cases: set.cases.is_some() || set.rules.contains("\ncases:"),
        has_home: set.home.is_some(),
    })
}

/// A text, or the one in the language that is wanted where there are several; else the English one, else the first.
fn picked<'n>(node: &'n Node, language: Option<&str>) -> Option<&'n str> {
    let Some(languages) = node.as_map() else {
        return node.text();
    };
    let wanted = language.and_then(|language| node.get(language));
    let first = || languages.first().map(|entry| &entry.value);
    wanted.or_else(|| node.get("en")).or_else(first)?.text()
}

/// The keys at the head of a rule file that are read.
const HEAD: [&str; 5] = ["title", "edition", "authority", "notice", "builds-on"];

/// What a rule file says of itself: all before the first other key under which a block stands. The rest is long, and nobody
/// asks for it until the rule set is chosen.
fn head_of(rules: &str) -> &str {
    let lines = rules.split_inclusive('\n');
    let opens_block = |line: &&str| {
        let line = line.trim_end();
        let key = line.strip_suffix(':').unwrap_or("title");
        !line.starts_with([' ', '#']) && !HEAD.contains(&key)
    };
    let long: usize = lines
        .take_while(|line| !opens_block(line))
        .map(str::len)
        .sum();
    rules.get(..long).unwrap_or(rules)
}

fn names(node: Option<&Node>) -> Vec<String> {
    let items = node.and_then(Node::as_list).unwrap_or_default();
    let names = items.iter().filter_map(Node::text);
    names.map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::{HEAD, all, head_of, read};

    /// The head says of each bundled rule set what its whole file says.
    #[test]
    fn the_head_is_enough() {
        for set in all() {
            let [head, whole] =
                [head_of(set.rules), set.rules].map(|text| read(text).expect("it reads"));
            for key in HEAD {
                let said = |root: &super::Node| root.get(key).map(rules_core::text::to_json_text);
                assert_eq!(said(&head), said(&whole), "{} {key}", set.name);
            }
            assert_eq!(
                whole.get("cases").is_some(),
                set.rules.contains("\ncases:"),
                "{}",
                set.name
            );
        }
    }
}
