//! All that a kind is stands in its row: no other file of the program names one, but for the lot, its sides and the pool.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use rules_core::vocabulary::Vocabulary;

/// The kinds without which there is no plan.
const EVERYWHERE: [&str; 3] = ["lot", "lot-line", "pool"];

/// Words that mean something else where they stand: a part of the file's path, the word, what it means there.
const OTHER_MEANINGS: &[(&str, &str, &str)] = &[
    ("check/aims.rs", "road", "what a side of the lot faces"),
    ("check/aims.rs", "building", "a wall that a door is in"),
    (
        "check/aims.rs",
        "barrier-stretch",
        "a wall that a door is in",
    ),
    ("check/special.rs", "applicant", "the owner of a pipe"),
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
    ("vocabulary/matter.rs", "road", "a matter"),
    ("vocabulary/model.rs", "road", "a part of a form"),
    ("page/script/", "road", "a part of the form"),
    ("page/script/", "lot", "a section of a plan"),
    ("page/script/", "applicant", "a section of a plan"),
    ("page/script/", "works", "a section of a plan"),
    ("page/script/", "answers", "a section of a plan"),
    ("page/script/", "zone", "a section of a plan"),
];

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().and_then(|name| name.to_str());
        let name = name.expect("a name");
        if name.contains("tests") {
            continue;
        }
        if path.is_dir() {
            files(&path, found);
        } else if name.ends_with(".rs") || name.ends_with(".js") {
            found.push(path);
        }
    }
}

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
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut all = Vec::new();
    for folder in ["rules-core/src", "cli/src", "web/src", "web/page/script"] {
        files(&root.join(folder), &mut all);
    }
    all.retain(|file| !file.to_string_lossy().contains("vocabulary/table/"));
    assert!(all.len() > 300, "only {} files were looked at", all.len());
    let mut named = Vec::new();
    for file in &all {
        let text = fs::read_to_string(file).expect("a text");
        let path = file.to_string_lossy();
        let excused = |word: &str| {
            let mut rows = OTHER_MEANINGS.iter();
            rows.any(|(place, other, _)| path.contains(place) && *other == word)
        };
        let code = text
            .lines()
            .take_while(|line| line.trim() != "#[cfg(test)]");
        for (number, line) in code.enumerate() {
            let words = quoted(line).filter(|word| kinds.contains(*word) && !excused(word));
            named.extend(words.map(|word| format!("{path}:{}: {word}", number + 1)));
        }
    }
    assert!(named.is_empty(), "{}", named.join("\n"));
}
