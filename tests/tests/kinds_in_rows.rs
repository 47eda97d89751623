//! All that a kind is stands in its row: no other file of the program names one, but for the lot, its sides and the pool.

use std::collections::BTreeSet;

use rules_core::vocabulary::Vocabulary;

use crate::common::sources;

/// The kinds without which there is no plan.
const EVERYWHERE: [&str; 3] = ["lot", "lot-line", "pool"];

/// Words that mean something else where they stand: a part of the file's path, the word, what it means there.
const OTHER_MEANINGS: &[(&str, &str, &str)] = &[
    ("src/sides.rs", "road", "what lies beyond a side of the lot"),
    (
        "check/value/approaches.rs",
        "road",
        "what a side of the lot faces",
    ),
    (
        "check/value/approaches.rs",
        "building",
        "a wall that a door is in",
    ),
    (
        "check/value/approaches.rs",
        "barrier-stretch",
        "a wall that a door is in",
    ),
    (
        "check/value/holes.rs",
        "barrier-stretch",
        "a wall that a door is in",
    ),
    ("check/world/special.rs", "applicant", "the owner of a pipe"),
    ("drawing/shade.rs", "zone", "a class of the drawing"),
    (
        "report/example.rs",
        "gate",
        "a report made up to be looked at",
    ),
    ("grammar/", "zone", "a key of the rule language"),
    ("schema/", "zone", "a key of the rule language"),
    (
        "several/sight.rs",
        "events",
        "whose facts stand under `dates`",
    ),
    ("ruleset/words/verbs.rs", "works", "a verb"),
    ("ruleset/words/steps.rs", "building", "what somebody does"),
    ("vocabulary/matter.rs", "road", "a matter"),
    ("vocabulary/kind.rs", "road", "a part of a form"),
    ("web/src/view/form/", "road", "a part of the form"),
    ("web/src/acts/", "answers", "a section of a plan"),
    ("web/src/view/form/", "answers", "a section of a plan"),
    ("web/src/plan.rs", "events", "a section of a plan"),
    ("web/src/plan.rs", "applicant", "a section of a plan"),
    ("web/src/plan.rs", "works", "a section of a plan"),
    ("web/src/plan.rs", "answers", "a section of a plan"),
    ("web/src/plan.rs", "zone", "a section of a plan"),
];

/// The texts in quotes on a line that is no comment, each up to its first full stop: `gate` of `gate.latch`.
fn quoted(line: &str) -> impl Iterator<Item = &str> {
    let code = line.trim_start();
    let texts = code.split('"').skip(1).step_by(2);
    texts
        .filter(move |_| !code.starts_with("//"))
        .filter_map(|text| text.split('.').next())
}

#[test]
fn no_file_names_a_kind_but_the_one_with_its_row() {
    let vocabulary = Vocabulary::standard();
    let kinds: BTreeSet<String> = vocabulary
        .kinds()
        .map(|(_, kind)| kind.name.clone())
        .filter(|name| !EVERYWHERE.contains(&name.as_str()))
        .collect();
    let folders = ["rules-core/src", "cli/src", "web/src", "web/page/script"];
    let all = folders.into_iter().flat_map(sources);
    let all: Vec<_> = all
        .map(|(path, text)| (path.to_string_lossy().into_owned(), text))
        .filter(|(path, _)| !path.contains("vocabulary/table/"))
        .collect();
    assert!(all.len() > 300, "only {} files were looked at", all.len());
    let mut named = Vec::new();
    for (path, text) in &all {
        let excused = |word: &str| {
            let mut rows = OTHER_MEANINGS.iter();
            rows.any(|(place, other, _)| path.contains(place) && *other == word)
        };
        for (number, line) in text.lines().enumerate() {
            let words = quoted(line).filter(|word| kinds.contains(*word) && !excused(word));
            named.extend(words.map(|word| format!("{path}:{}: {word}", number + 1)));
        }
    }
    assert!(named.is_empty(), "{}", named.join("\n"));
}
