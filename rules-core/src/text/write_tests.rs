//! What is written reads back, and the tree agrees with a second reader of YAML.

use serde_json::{Value, json};

use super::*;

/// A seeded row of numbers: SplitMix64 (Steele, Lea, Flood 2014; constants from memory).
pub(super) struct Dice(pub u64);

impl Dice {
    pub(super) fn below(&mut self, bound: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((z ^ (z >> 31)) % u64::try_from(bound).unwrap()).unwrap()
    }
}

/// Well-formed texts of many kinds.
pub(super) const TEXTS: &[&str] = &[
    "a: 1\nb: two\nc: [1, 2, three]\n",
    "lot:\n  sides:\n    - {id: s1, faces: front}\n    - {id: s2, faces: rear}\n",
    "lot:\n  sides:\n  - id: s1\n    faces: front\n  - id: s2\n",
    "note: |\n  first line\n  second line\n\n  after a gap\nnext: >-\n  folded\n  together\n",
    "quotes: 'it''s'\nmore: \"tab\\t and \\u00e9 and \\\"\"\n",
    "{\"pool\": {\"depth\": \"1.5 m\", \"ring\": [[0, 0], [8.5, 0], [8.5, 4], [0, 4]]}}",
    "{\n  \"a\": [true, false, null],\n  \"b\": -1.5e3\n}\n",
    "# comment\na: x # another\n\nb:\n  # inside\n  c: y\n",
    "a:\nb: ~\nc: ''\nd: null\n",
    "plain: words that go on\n  over a second line\nurl: http://example.org/a#b\n",
    "empty-list: []\nempty-map: {}\nnested: [[], {}, [{}]]\n",
    "grün: Straße 😀\r\nzwei: \"€\"\r\n",
    "height: 4' 6\"\nlength: 3.2 m\nyes: no\n",
    "list:\n- - a\n  - b\n- - c\n-\n- d\n",
    "? a\n: b\n? c\n",
    "---\na: 1\n...\n",
    "pairs: [a: 1, b: 2]\n",
];

/// The tree with every scalar as text, for comparing.
fn ours(node: &Node) -> Value {
    match &node.content {
        Content::Empty => Value::Null,
        Content::Scalar { text, .. } => Value::String(text.clone()),
        Content::List(items) => items.iter().map(ours).collect(),
        Content::Map(entries) => entries
            .iter()
            .map(|entry| (entry.key.clone(), ours(&entry.value)))
            .collect(),
    }
}

/// The other reader turns words into numbers and truths; only their value can be compared.
fn same(ours: &Value, theirs: &serde_yaml::Value) -> bool {
    use serde_yaml::Value as Y;
    match (ours, theirs) {
        (Value::Null, Y::Null) => true,
        (Value::String(a), Y::String(b)) => a == b,
        (Value::String(a), Y::Bool(b)) => a.to_lowercase() == b.to_string(),
        (Value::String(a), Y::Number(b)) => a.parse::<f64>().ok() == b.as_f64(),
        (Value::Array(a), Y::Sequence(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b))
        }
        (Value::Object(a), Y::Mapping(b)) => {
            let key = |key: &Y| match key {
                Y::String(text) => text.clone(),
                Y::Null => "~".to_owned(),
                other => serde_yaml::to_string(other).unwrap().trim().to_owned(),
            };
            a.len() == b.len()
                && b.iter()
                    .all(|(k, b)| a.get(&key(k)).is_some_and(|a| same(a, b)))
        }
        _ => false,
    }
}

#[test]
fn the_tree_agrees_with_a_second_reader() {
    for text in TEXTS {
        let tree = read(text).unwrap_or_else(|faults| panic!("{}", faults.show("x", text)));
        let theirs: serde_yaml::Value = serde_yaml::from_str(text).unwrap();
        assert!(
            same(&ours(&tree), &theirs),
            "{text:?}\n{tree:?}\n{theirs:?}"
        );
    }
}

fn any_value(dice: &mut Dice, depth: usize) -> Value {
    let word = |dice: &mut Dice| WORDS[dice.below(WORDS.len())].to_owned();
    match dice.below(if depth == 0 { 4 } else { 8 }) {
        0 => Value::Null,
        1 => json!(dice.below(2) == 0),
        2 => json!(f64::from(u32::try_from(dice.below(2000)).unwrap()) / 8.0 - 100.0),
        3 => Value::String(word(dice)),
        4 | 5 => (0..dice.below(4))
            .map(|_| any_value(dice, depth - 1))
            .collect(),
        _ => (0..dice.below(4))
            .map(|_| (word(dice), any_value(dice, depth - 1)))
            .collect(),
    }
}

const WORDS: &[&str] = &[
    "a",
    "no",
    "yes",
    "true",
    "null",
    "~",
    "",
    " ",
    " lead",
    "trail ",
    "a: b",
    "a #b",
    "#c",
    "- d",
    "-",
    "?",
    "1.5",
    "1_000",
    "0x1f",
    "1e3",
    ".inf",
    "it's",
    "\"q\"",
    "two\nlines",
    "two\nlines\n",
    "\nfirst gap",
    "  indented\nthen not",
    "tab\there",
    "\ttab",
    "end\n\n",
    "é€😀",
    "back\\slash",
    "[x",
    "{y",
    "a, b",
    "&a",
    "*a",
    "!t",
    "%p",
    "@at",
    "`t",
    "|",
    ">",
    "=",
    "2026-01-01",
    "12:30",
    "---",
    "...",
    "a\r\nb",
    "\u{85}",
    "\u{2028}",
    "x\u{7}y",
    "\u{0}",
    "\u{a0}",
];

fn has_words(value: &Value) -> Value {
    match value {
        Value::Null => Value::Null,
        Value::Array(items) => items.iter().map(has_words).collect(),
        Value::Object(map) => map
            .iter()
            .map(|(key, value)| (key.clone(), has_words(value)))
            .collect(),
        Value::String(text) => Value::String(text.clone()),
        other => Value::String(other.to_string()),
    }
}

#[test]
fn what_is_written_reads_back() {
    let mut dice = Dice(7);
    for _ in 0..2_000 {
        let value = json!({ "top": any_value(&mut dice, 4) });
        let yaml = write(&value);
        let odd = |c| matches!(c, '\u{85}' | '\u{2028}' | '\u{a0}');
        assert!(yaml.is_ok() || value.to_string().contains(odd), "{value}");
        let json = [
            value.to_string(),
            serde_json::to_string_pretty(&value).unwrap(),
        ];
        for text in yaml.into_iter().chain(json) {
            let tree =
                read(&text).unwrap_or_else(|faults| panic!("{value}\n{}", faults.show("x", &text)));
            let (found, meant) = (ours(&tree), has_words(&value));
            assert_eq!(found, meant, "{text:?}");
            // The second reader takes U+0085 and U+2028 for line breaks, as YAML 1.1 does; we follow YAML 1.2.
            if !text.contains(odd) {
                let theirs: serde_yaml::Value = serde_yaml::from_str(&text).unwrap();
                assert!(same(&found, &theirs), "{text:?}");
            }
        }
    }
}

#[test]
fn plain_numbers_become_numbers_for_programs() {
    let tree = read("a: 1.5\nb: '1.5'\nc: true\nd: yes\ne:\nf: 1 m\n").unwrap();
    let meant = json!({"a": 1.5, "b": "1.5", "c": true, "d": "yes", "e": null, "f": "1 m"});
    assert_eq!(to_json(&tree), meant);
}
