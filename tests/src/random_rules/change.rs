//! One thing in a file changed for another that may well stand in its place.

use rules_core::text::{Content, Node, to_json};

use crate::random_plans::Random;

/// Words of which each may take the place of the others beside it.
const ALIKE: [&[&str]; 9] = [
    &["yes", "no"],
    &["passes", "fails", "refer"],
    &[
        "pool.water",
        "pool.coping",
        "pool.shell",
        "pool.excavation",
        "edge",
    ],
    &["building", "well", "gate", "barrier-stretch"],
    &["in-space", "plumb", "level"],
    &["anywhere", "all-along"],
    &["pool.depth", "pool.excavation-depth", "much", "small"],
    &["fail", "unknown", "marginal", "pass"],
    &["A letter", "Another letter"],
];
/// Keys of which each may take the place of the others beside it.
const KEYS: [&[&str]; 4] = [
    &["at-least", "at-most", "more-than", "less-than"],
    &["all-of", "any-of"],
    &["when", "unless"],
    &["require", "should"],
];

/// The same file as JSON, with one thing in it changed; `None` where there is nothing to change.
pub fn changed(seed: u64, root: &Node) -> Option<String> {
    let mut random = Random::new(seed);
    let mut root = root.clone();
    let places = i64::try_from(count(&root))
        .ok()
        .filter(|places| *places > 0)?;
    let mut left = random.within(1, places);
    change(&mut root, &mut left, &mut random);
    Some(to_json(&root).to_string())
}

/// How many things can be changed.
fn count(node: &Node) -> usize {
    let own = usize::from(is_changeable(node));
    own + match &node.content {
        Content::List(items) => items.iter().map(count).sum(),
        Content::Map(entries) => entries
            .iter()
            .map(|entry| usize::from(others(&KEYS, &entry.key).is_some()) + count(&entry.value))
            .sum(),
        _ => 0,
    }
}

fn is_changeable(node: &Node) -> bool {
    match &node.content {
        Content::Scalar { text, .. } => others(&ALIKE, text).is_some() || figure(text).is_some(),
        Content::List(items) => items.len() > 1,
        _ => false,
    }
}

fn others(all: &[&'static [&'static str]], word: &str) -> Option<&'static [&'static str]> {
    all.iter().find(|alike| alike.contains(&word)).copied()
}

/// Another of the words beside this one.
fn other(all: &[&'static [&'static str]], word: &str, random: &mut Random) -> Option<&'static str> {
    let alike = others(all, word)?;
    let place = i64::try_from(alike.iter().position(|one| *one == word)?).ok()?;
    let many = i64::try_from(alike.len()).ok()?;
    let place = (place + random.within(1, many - 1)) % many;
    alike.get(usize::try_from(place).ok()?).copied()
}

/// The first figure of an amount, and what stands behind it.
fn figure(text: &str) -> Option<(u64, &str)> {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    let (digits, rest) = text.split_at_checked(end)?;
    Some((digits.parse().ok()?, rest))
}

/// Goes through what can be changed until `left` are passed, and changes that one.
fn change(node: &mut Node, left: &mut i64, random: &mut Random) {
    if is_changeable(node) && at(left) {
        return replace(node, random);
    }
    match &mut node.content {
        Content::List(items) => items.iter_mut().for_each(|item| change(item, left, random)),
        Content::Map(entries) => {
            for entry in entries {
                if others(&KEYS, &entry.key).is_some() && at(left) {
                    let key = other(&KEYS, &entry.key, random);
                    entry.key = key.unwrap_or("is").to_owned();
                }
                change(&mut entry.value, left, random);
            }
        }
        _ => {}
    }
}

fn at(left: &mut i64) -> bool {
    *left -= 1;
    *left == 0
}

fn replace(node: &mut Node, random: &mut Random) {
    match &mut node.content {
        Content::List(items) => {
            let last = i64::try_from(items.len()).unwrap_or(1) - 1;
            let place = usize::try_from(random.within(0, last)).unwrap_or(0);
            items.remove(place);
        }
        Content::Scalar { text, .. } => {
            let word = other(&ALIKE, text, random).map(str::to_owned);
            let more = figure(text).map(|(figure, rest)| format!("{}{rest}", figure + 1));
            *text = word.or(more).unwrap_or_default();
        }
        _ => {}
    }
}
