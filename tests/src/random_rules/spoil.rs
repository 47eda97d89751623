//! Spoiling one thing in a file.

use rules_core::text::{Content, Node, to_json};

use crate::random_plans::Random;

/// Words of rule files, to be put where they do not belong.
const WORDS: [&str; 14] = [
    "gate",
    "pool.depth",
    "pool.water",
    "3 m",
    "40 %",
    "yes",
    "none",
    "holds",
    "small",
    "edge",
    "letter",
    "refer",
    "2026-01-01",
    "12",
];

/// The same file as JSON, with one key lost or misspelt, or one value changed for another.
pub fn spoilt(seed: u64, root: &Node) -> String {
    let mut random = Random::new(seed);
    let mut root = root.clone();
    let count = i64::try_from(parts(&root)).unwrap_or(1);
    let mut left = random.within(1, count - 1);
    spoil(&mut root, &mut left, &mut random);
    to_json(&root).to_string()
}

/// How many values there are.
fn parts(node: &Node) -> usize {
    1 + match &node.content {
        Content::List(items) => items.iter().map(parts).sum(),
        Content::Map(entries) => entries.iter().map(|entry| parts(&entry.value)).sum(),
        _ => 0,
    }
}

/// Passes `left` values and spoils the next one.
fn spoil(node: &mut Node, left: &mut i64, random: &mut Random) {
    match &mut node.content {
        Content::List(items) => {
            for item in items {
                if *left > 0 && at(left) {
                    replace(item, random);
                }
                spoil(item, left, random);
            }
        }
        Content::Map(entries) => {
            let mut lost = None;
            for (place, entry) in entries.iter_mut().enumerate() {
                if *left > 0 && at(left) {
                    match random.within(0, 3) {
                        0 => lost = Some(place),
                        1 => entry.key.push('s'),
                        2 => {
                            entry.key = random
                                .pick(&[
                                    "at-least", "at-most", "is", "each", "when", "where", "of",
                                    "from",
                                ])
                                .to_owned()
                        }
                        _ => replace(&mut entry.value, random),
                    }
                }
                spoil(&mut entry.value, left, random);
            }
            if let Some(place) = lost {
                entries.remove(place);
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
    let scalar = |text: &str| Content::Scalar {
        text: text.to_owned(),
        quoted: true,
    };
    node.content = match random.within(0, 4) {
        0 => Content::Empty,
        1 => Content::List(vec![node.clone()]),
        _ => scalar(random.pick(&WORDS)),
    };
}
