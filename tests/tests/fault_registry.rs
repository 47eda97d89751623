//! Every kind of fault has its row in the registry and nowhere else a name; nothing is decided by looking into a sentence.

use rules_core::faults::GROUPS;

use crate::common::sources;

/// The parts of the program that tell faults.
const FOLDERS: [&str; 3] = ["rules-core/src", "cli/src", "web/src"];

/// Words that mean something else where they stand: a part of the file's path, the word, what it means there.
const OTHER_MEANINGS: &[(&str, &str, &str)] = &[
    ("compare/effect.rs", "stricter", "what a change comes to"),
    ("compare/effect.rs", "laxer", "what a change comes to"),
    ("stricter/words.rs", "stricter", "what a change comes to"),
    ("stricter/words.rs", "laxer", "what a change comes to"),
    (
        "grammar/rules.rs",
        "comment",
        "what people write for `note`",
    ),
    ("text/syntax.rs", "tab", "a word of the parser"),
    ("text/syntax.rs", "indentation", "a word of the parser"),
    ("text/syntax.rs", "directive", "a word of the parser"),
    ("text/syntax.rs", "tag", "a word of the parser"),
    ("text/syntax.rs", "anchor", "a word of the parser"),
    ("grammar/papers.rs", "one-for-all", "a key of a document"),
    ("read/papers/", "one-for-all", "a key of a document"),
];

/// What looks into a text for words.
const LOOKS: [&str; 12] = [
    ".contains(\"",
    ".starts_with(\"",
    ".ends_with(\"",
    ".strip_prefix(\"",
    ".strip_suffix(\"",
    ".trim_start_matches(\"",
    ".find(\"",
    ".split(\"",
    ".split_once(\"",
    ".replace(\"",
    ".replacen(\"",
    ".code == \"",
];

/// Where somebody may look for words all the same: a part of the file's path, what is looked for, and why.
const MAY_LOOK: &[(&str, &str, &str)] = &[
    ("quantity/parse.rs", "at least ", "the grammar of amounts"),
    ("names/own.rs", " or ", "a list as people write it"),
    ("names/chosen.rs", "yard", "a name as somebody wrote it"),
    (
        "names/unknown_facts.rs",
        "yard",
        "a name as somebody wrote it",
    ),
    (
        "plan/read/fact.rs",
        "between ",
        "a range as people write it",
    ),
    ("text/cut.rs", "000", "thousands as people write them"),
    ("cures/lines.rs", "{id: ", "an item as somebody wrote it"),
    (
        "ruleset/words/",
        "neighbour-",
        "a word of the plan, as said",
    ),
    (
        "ruleset/words/",
        "ground that ",
        "how the name of a fact begins",
    ),
    ("ruleset/words/", " or ", "a clause that has to be quoted"),
    ("ruleset/words/", " and ", "a clause that has to be quoted"),
    ("quantity/parse.rs", "at most ", "the grammar of amounts"),
    ("/working_days.rs", "easter", "the grammar of holidays"),
    ("/working_days.rs", " from ", "the grammar of holidays"),
    (
        "world/special.rs",
        "-and-",
        "a word of the plan that is made of two",
    ),
    ("head/scope.rs", " and ", "a list of names, joined by `or`"),
    (
        "check/value/ground.rs",
        "yes",
        "an answer, among those that are possible",
    ),
    (
        "unasked/pools.rs",
        "the pool",
        "a question of a rule file, of which somebody is only asked whether it is meant so",
    ),
    (
        "shelf/list.rs",
        "The ",
        "countries stand in the order of their names",
    ),
    (
        "report/sentences.rs",
        "As drawn, ",
        "two sentences are made one",
    ),
    (
        "report/sentences.rs",
        "it must be ",
        "two sentences are made one",
    ),
    ("words/requirements.rs", " not", "a verb without its `not`"),
    (
        "words/requirements.rs",
        " is",
        "a verb that stands there already",
    ),
    (
        "words/requirements.rs",
        " are",
        "a verb that stands there already",
    ),
    (
        "session/files.rs",
        "ruleset:",
        "the name of somebody's own rules, also where the rest cannot be read yet",
    ),
    (
        "quantity/meant.rs",
        "hour",
        "a word in an amount that cannot be read",
    ),
    ("read/head/files.rs", ".yaml", "the ending of a file's name"),
    (
        "rule/bounds.rs",
        " or ",
        "two answers in one that is not known",
    ),
    (
        "rule/bounds.rs",
        " and ",
        "two answers in one that is not known",
    ),
    (
        "rule/wording.rs",
        "-than",
        "a key that compares and is not ours",
    ),
    ("words/values.rs", "the ", "an article"),
    ("words/days.rs", "the ", "an article"),
    ("words/nouns.rs", "ss", "the plural of a noun"),
    ("cli/src/form.rs", "200", "a status of HTTP"),
    (
        "view/form/field.rs",
        "answers.",
        "where an answer stands in a plan",
    ),
    ("acts/form.rs", "part-head", "a class of the page"),
    (
        "web/src/sets.rs",
        "\\ncases:",
        "a file is not read only to know whether it has cases",
    ),
    (
        "desk/cases.rs",
        "\\ncases:",
        "a key of a rule file, as somebody wrote it",
    ),
    ("acts/desk/mod.rs", ".yaml", "the end of a file's name"),
    ("acts/desk/cursor.rs", "<style>", "a page, taken apart"),
    ("acts/desk/cursor.rs", "</style>", "a page, taken apart"),
    (
        "web/src/acts/menu.rs",
        "missing ",
        "an answer of the page's own that carries a name",
    ),
    ("web/src/link.rs", "#plan=", "the part of an address"),
];

/// The lines of the program that are neither comment nor test, each with its file and number.
fn lines() -> Vec<(String, usize, String)> {
    let mut lines = Vec::new();
    for (path, text) in FOLDERS.into_iter().flat_map(sources) {
        let path = path.to_string_lossy().into_owned();
        let numbered = text.lines().zip(1..);
        let code = numbered.filter(|(line, _)| !line.trim_start().starts_with("//"));
        let own = code.filter(|_| !path.contains("src/faults/"));
        lines.extend(own.map(|(line, number)| (path.clone(), number, line.to_owned())));
    }
    assert!(
        lines.len() > 20_000,
        "only {} lines were looked at",
        lines.len()
    );
    lines
}

#[test]
fn every_row_is_used_and_every_code_is_told_by_its_row() {
    let lines = lines();
    let codes = GROUPS.iter().flat_map(|group| group.codes);
    for code in codes.clone() {
        let name = format!("Code::{code:?}");
        let is_used = |line: &str| {
            let mut after = line.split(name.as_str()).skip(1);
            after.any(|rest| !rest.starts_with(char::is_alphanumeric))
        };
        assert!(
            lines.iter().any(|(_, _, line)| is_used(line)),
            "nobody tells `{code}`"
        );
    }
    let words: Vec<&str> = codes.map(|code| code.word()).collect();
    let mut typed = Vec::new();
    for (path, number, line) in &lines {
        let excused = |word: &str| {
            let mut rows = OTHER_MEANINGS.iter();
            rows.any(|(place, other, _)| path.contains(place) && *other == word)
        };
        let quoted = line.split('"').skip(1).step_by(2);
        let found = quoted.filter(|word| words.contains(word) && !excused(word));
        typed.extend(found.map(|word| format!("{path}:{number}: \"{word}\"")));
    }
    assert!(typed.is_empty(), "a code is typed:\n{}", typed.join("\n"));
}

#[test]
fn every_row_has_a_code_and_a_sentence_of_its_own() {
    let codes: Vec<_> = GROUPS.iter().flat_map(|group| group.codes).collect();
    assert!(codes.len() > 200);
    for (place, code) in codes.iter().enumerate() {
        let (word, says) = (code.word(), code.says());
        assert!(word.split('-').all(|part| !part.is_empty()), "{word}");
        assert!(says.ends_with('.') && says.chars().count() < 160, "{says}");
        let others = codes.iter().skip(place + 1);
        others.for_each(|other| assert_ne!((word, says), (other.word(), other.says())));
        let mut others = codes.iter().skip(place + 1);
        assert!(
            others.all(|other| other.word() != word),
            "{word} stands twice"
        );
    }
}

#[test]
fn nothing_is_decided_by_looking_into_a_sentence() {
    let mut found = Vec::new();
    let mut excuses: Vec<_> = MAY_LOOK.iter().map(|row| (row, false)).collect();
    for (path, number, line) in lines() {
        let looks = LOOKS.iter().flat_map(|look| line.split(look).skip(1));
        for rest in looks {
            let word = rest.split('"').next().unwrap_or_default();
            if word.chars().filter(|c| c.is_alphabetic()).count() < 2
                && !word.starts_with(char::is_numeric)
            {
                continue;
            }
            let mut rows = excuses.iter_mut();
            let excuse =
                rows.find(|((place, looked, _), _)| path.contains(place) && word == *looked);
            match excuse {
                Some((_, used)) => *used = true,
                None => found.push(format!("{path}:{number}: \"{word}\"")),
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    let idle: Vec<_> = excuses.iter().filter(|(_, used)| !used).collect();
    assert!(idle.is_empty(), "nobody needs {idle:?}");
}
