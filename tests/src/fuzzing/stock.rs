//! The trees, keys and words that cases are made of.

use std::collections::BTreeMap;
use std::io;

use rules_core::text::{self, Content, Node};
use rules_core::vocabulary::{Answer, Vocabulary};

use crate::random_plans::{self, Random};
use crate::{large, pages, random_rules};

/// Amounts as people write them, right and wrong.
const AMOUNTS: &[&str] = &[
    "0 mm",
    "1 mm",
    "3 m",
    "1.2 m ± 20 mm",
    "4 ft 6 in",
    "10 km",
    "0.000000001 mm",
    "170141183460469231731687303715884105727 m",
    "-1 m",
    "40 %",
    "0 %",
    "2 months",
    "400 days",
    "2024-02-29",
    "9999-12-31",
    "45 deg",
    "1:2",
    "50 dB",
    "3 m2",
    "1e3",
    "none",
    "yes",
    "no",
    "unknown",
    "refer",
    "not-checked",
    "all-shown",
    "12",
    "",
];

/// Everything to make cases from.
pub struct Stock {
    /// The bundled rule sets, by name.
    pub bundled: BTreeMap<String, String>,
    vocabulary: Vocabulary,
    plans: Vec<Node>,
    rules: Vec<Node>,
    /// The values found after each key, anywhere.
    values: BTreeMap<String, Vec<Node>>,
    keys: Vec<String>,
    words: Vec<String>,
}

impl Stock {
    /// Reads the bundled rule sets and all files written for tests.
    ///
    /// # Errors
    /// What the file system says.
    pub fn new() -> io::Result<Self> {
        let bundled = pages::of_rule_sets("rules.yaml")?;
        let home = std::fs::read_to_string(pages::root().join("rulesets/eldermere/home.yaml"))?;
        let vocabulary = Vocabulary::standard();
        let small = [
            large::small_plan(),
            large::pools(3),
            large::buildings(4),
            large::spots(5),
            large::trees_and_wells(2, 2),
        ];
        let few = [
            large::laughs(2),
            large::doubling(3),
            large::nested_each(3, "lot-line"),
            large::each_pair(),
            large::on_foot(),
            large::covered(),
            large::enclosed(),
            large::on_ground(),
            large::questions(2),
            large::papers(3),
            large::long_table(3),
        ];
        let read = |text: &String| text::read(text).ok();
        let plans: Vec<Node> = small.iter().chain([&home]).filter_map(read).collect();
        let rules: Vec<Node> = few
            .iter()
            .chain(bundled.values())
            .filter_map(read)
            .collect();
        let mut stock = Stock {
            words: words(&vocabulary),
            bundled,
            vocabulary,
            values: BTreeMap::new(),
            keys: Vec::new(),
            plans,
            rules,
        };
        let (mut values, trees) = (BTreeMap::new(), stock.plans.iter().chain(&stock.rules));
        trees.for_each(|tree| collect(tree, &mut values));
        stock.keys = values.keys().cloned().collect();
        stock.values = values;
        Ok(stock)
    }

    /// A plan: one from the stock, or a random one.
    pub(super) fn plan(&self, random: &mut Random, seed: u64) -> Node {
        let made = random
            .once_in(2)
            .then(|| text::read(&random_plans::plan(seed)).ok());
        made.flatten().unwrap_or_else(|| any(&self.plans, random))
    }

    /// A rule file: one from the stock, or a random one.
    pub(super) fn rules(&self, random: &mut Random, seed: u64) -> Node {
        let file = random_rules::rule_set(seed, &self.vocabulary);
        let made = (!random.once_in(3)).then(|| text::read(&file).ok());
        made.flatten().unwrap_or_else(|| any(&self.rules, random))
    }

    /// A value found after this key somewhere; else one found after any key.
    pub(super) fn value(&self, key: &str, random: &mut Random) -> Node {
        let own = self.values.get(key).filter(|_| !random.once_in(8));
        let other = || self.values.get(&any(&self.keys, random));
        match own.or_else(other) {
            Some(list) => any(list, random),
            None => scalar(""),
        }
    }

    pub(super) fn key(&self, random: &mut Random) -> String {
        any(&self.keys, random)
    }

    pub(super) fn word(&self, random: &mut Random) -> Node {
        match random.once_in(3) {
            true => scalar(random.pick(AMOUNTS)),
            false => scalar(&any(&self.words, random)),
        }
    }
}

/// One of a list, which must not be empty.
pub(super) fn any<T: Clone>(list: &[T], random: &mut Random) -> T {
    let last = i64::try_from(list.len()).unwrap_or(1) - 1;
    let at = usize::try_from(random.within(0, last)).unwrap_or(0);
    list.get(at).cloned().expect("some of these")
}

pub(super) fn scalar(text: &str) -> Node {
    Node {
        span: text::Span::default(),
        content: Content::Scalar {
            text: text.to_owned(),
            quoted: false,
        },
    }
}

/// The names of all kinds, outlines and facts, and the words that answer them.
fn words(vocabulary: &Vocabulary) -> Vec<String> {
    let mut words = Vec::new();
    for (_, kind) in vocabulary.kinds() {
        words.push(kind.name.clone());
        let outlines = kind.outlines.iter().map(|id| &vocabulary.outline(*id).name);
        words.extend(outlines.map(|name| format!("{}.{name}", kind.name)));
        for fact in kind.facts.iter().map(|id| vocabulary.fact(*id)) {
            words.push(format!("{}.{}", kind.name, fact.name));
            if let Answer::Word { words: own, .. } = &fact.answer {
                words.extend(own.iter().map(ToString::to_string));
            }
        }
    }
    words
}

fn collect(tree: &Node, values: &mut BTreeMap<String, Vec<Node>>) {
    match &tree.content {
        Content::List(items) => items.iter().for_each(|item| collect(item, values)),
        Content::Map(entries) => {
            for entry in entries {
                let own = values.entry(entry.key.clone()).or_default();
                own.push(entry.value.clone());
                collect(&entry.value, values);
            }
        }
        Content::Empty | Content::Scalar { .. } => {}
    }
}
