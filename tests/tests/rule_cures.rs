//! What is told about a slip can be typed: the words that the message gives, in the place that it names, make a rule file
//! of which nothing is told any more.

use std::fs;
use std::path::{Path, PathBuf};

use rules_core::faults::Code;
use rules_core::read_rules;

/// A slip of `tests/rule-faults/slips`, what is written there, what somebody writes in its place, and the part of it that
/// the message gives.
type Cure = (&'static str, &'static str, &'static str, &'static str);

const CURES: &[Cure] = &[
    (
        "any-of-empty",
        "[]",
        "[{fact: pool.depth, at-most: 2 m}]",
        "[{fact: pool.depth, at-most: 2 m}]",
    ),
    (
        "rule-must-not",
        "must-not: {fact: pool.depth, more-than: 2 m}",
        "require: {fact: pool.depth, at-most: 2 m}",
        "require: {fact: pool.depth, at-most: 2 m}",
    ),
    (
        "rule-prohibit",
        "forbid: {fact: pool.depth, more-than: 2 m}",
        "require: {fact: pool.depth, at-most: 2 m}",
        "require: {fact: pool.depth, at-most: 2 m}",
    ),
    ("quote-open", "\"A", "\"A\"", "\"A\""),
    (
        "relief-map",
        "relief: {id: r, require: {have: letter}}",
        "relief: [{id: r, require: {have: letter}}]",
        "relief: [{id: r, require: {have: letter}}]",
    ),
    (
        "sum-of-text",
        "sum: pool.depth plus 1 m",
        "sum: [pool.depth, 1 m]",
        "sum: [pool.depth, 1 m]",
    ),
    (
        "two-facts-in-one",
        "{fact: pool.depth, at-most: 2 m, count: gate, at-least: 1}",
        "[{fact: pool.depth, at-most: 2 m}, {count: gate, at-least: 1}]",
        "[{fact: pool.depth, at-most: 2 m}, {count: gate, at-least: 1}]",
    ),
    (
        "head-title-colon",
        "title: Town: private pools",
        "title: \"Town: private pools\"",
        "title: \"Town: private pools\"",
    ),
    (
        "clause-colon",
        "clause: Bylaw 12: s. 4",
        "clause: \"Bylaw 12: s. 4\"",
        "clause: \"Bylaw 12: s. 4\"",
    ),
    (
        "clause-brackets",
        "clause: [4](2)",
        "clause: \"[4](2)\"",
        "clause: \"[4](2)\"",
    ),
    (
        "remedy-colon",
        "remedy: Don't dig deeper: ask us first.",
        "remedy: \"Don't dig deeper: ask us first.\"",
        "remedy: \"Don't dig deeper: ask us first.\"",
    ),
    (
        "brace-comma-missing",
        "title: A clause: C",
        "title: A, clause: C",
        "title: A, clause: …",
    ),
    (
        "apostrophe",
        "'The neighbour's line'",
        "\"The neighbour's line\"",
        "\"The neighbour's line\"",
    ),
    (
        "quote-first-word",
        "\"Small\" pools",
        "'\"Small\" pools'",
        "'\"Small\" pools'",
    ),
    ("rule-equals-sign", "title = A", "title: A", "title: A"),
    (
        "rule-no-space-after-colon",
        "clause:C",
        "clause: C",
        "clause: C",
    ),
    (
        "bound-turned",
        "is: at-least 1.5 m",
        "at-least: 1.5 m",
        "at-least: 1.5 m",
    ),
    (
        "number-comparison-in-value",
        "is: at most 2 m",
        "at-most: 2 m",
        "at-most: 2 m",
    ),
    ("number-glued-comparison", "\"<= 2 m\"", "2 m", "2 m"),
    (
        "bound-is-for-amount-list",
        "[2 m, 3 m]",
        "{largest-of: [2 m, 3 m]}",
        "{largest-of: [2 m, 3 m]}",
    ),
    (
        "rule-bare-fact",
        "fact: pool.depth, at-most: 2 m}",
        "require: {fact: pool.depth, at-most: 2 m}}",
        "require: {fact: pool.depth, at-most: 2 m}",
    ),
    (
        "where-word",
        "where: rear",
        "where: {fact: lot-line.faces, is: rear}",
        "{fact: lot-line.faces, is: rear}",
    ),
    (
        "where-without-each",
        "where:",
        "each: gate, where:",
        "each: gate",
    ),
    (
        "each-rear-line",
        "rules:",
        "terms: {rear-line: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}\nrules:",
        "rear-line: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}",
    ),
    (
        "misspelt-each-term",
        "rules:",
        "terms: {side-lines: {kind: lot-line, where: {fact: lot-line.faces, is: side}}}\nrules:",
        "side-lines: {kind: lot-line, where: {fact: lot-line.faces, is: side}}",
    ),
    (
        "fact-yes-no-bare",
        "{gate.self-closing: yes}",
        "{fact: gate.self-closing, is: yes}",
        "{fact: gate.self-closing, is: yes}",
    ),
    (
        "where-fact-as-key",
        "{lot-line.faces: rear}",
        "{fact: lot-line.faces, is: rear}",
        "{fact: lot-line.faces, is: rear}",
    ),
    (
        "in-beside-area",
        "area: {of: {each: pool.water}}, in: {not: rear-yard}",
        "area: {of: {each: pool.water}, in: {not: rear-yard}}",
        "area: {of: {each: pool.water}, in: {not: rear-yard}}",
    ),
    (
        "question-not-fact",
        "unless: house-on-rock",
        "unless: {fact: house-on-rock, is: yes}",
        "{fact: house-on-rock, is: yes}",
    ),
    (
        "require-fact-alone",
        "require: gate.self-closing",
        "require: {fact: gate.self-closing, is: yes}",
        "{fact: gate.self-closing, is: yes}",
    ),
    (
        "count-where-beside",
        "count: tree\n      where: {fact: tree.protected, is: yes}",
        "count: {kind: tree, where: {fact: tree.protected, is: yes}}",
        "count: {kind: tree, where: {fact: tree.protected, is: yes}}",
    ),
    (
        "answer-list-words",
        "sand, clay or rock",
        "[sand, clay, rock]",
        "[sand, clay, rock]",
    ),
    (
        "question-answer-yes",
        "answer: yes}",
        "answer: yes-no}",
        "yes-no",
    ),
    (
        "question-answer-text",
        "answer: text",
        "answer: [granite, chalk]",
        "[granite, chalk]",
    ),
    (
        "outline-with-blank",
        "pool water",
        "pool.water",
        "pool.water",
    ),
    (
        "fact-possessive",
        "gate's height",
        "gate.height",
        "gate.height",
    ),
    (
        "date-us-braces",
        "from: June 1, 2026",
        "from: 2026-06-01",
        "from: 2026-06-01",
    ),
    ("table-no-then", ", 1 m}", ", then: 1 m}", "then: 1 m"),
    (
        "enclosure-no-from",
        "{of: pool.water}",
        "{of: pool.water, from: [street, neighbour-lot], made-of: barrier-stretch}",
        "made-of: barrier-stretch",
    ),
    (
        "in-force-no-by",
        "{from: 2026-06-01}",
        "{from: 2026-06-01, by: applied}",
        "by: applied",
    ),
    (
        "zone-by-missing",
        "{around: pool.water}",
        "{around: pool.water, by: 3 m}",
        "by: 3 m",
    ),
    (
        "distance-as-fact",
        "fact: pool.distance",
        "distance: {from: pool.water, to: lot-line}",
        "distance: {from: pool.water, to: lot-line}",
    ),
    (
        "outline-as-fact",
        "fact: pool.water",
        "area: {of: {each: pool.water}}",
        "area: {of: {each: pool.water}}",
    ),
    ("unit-dotted-feet", "6 ft.", "6 ft", "6 ft"),
    (
        "distance-is-amount",
        "distance: 3 m",
        "distance: {from: pool.water, to: lot-line}\n      at-least: 3 m",
        "distance: {from: pool.water, to: lot-line}",
    ),
    (
        "from-to-beside-distance",
        "from: pool.water\n      to: lot-line\n      distance: 3 m",
        "distance: {from: pool.water, to: lot-line}\n      at-least: 3 m",
        "distance: {from: pool.water, to: lot-line}",
    ),
    ("rule-key-outdented", "\n   clause", "\n    clause", "title"),
    ("condition-of-pool", "of: pool, ", "", "of: pool"),
    (
        "unless-of-gate",
        "unless: {fact: gate.use, is: vehicle}, each: gate",
        "each: gate, where: {not: {fact: gate.use, is: vehicle}}",
        "where: {not: {fact: gate.use, is: vehicle}}",
    ),
    (
        "answer-with-bang",
        "{fact: septic-part.part, is: !tank}",
        "{not: {fact: septic-part.part, is: tank}}",
        "{not: {fact: septic-part.part, is: tank}}",
    ),
    (
        "each-septic-tank",
        "rules:",
        "terms:\n  septic-tank: {kind: septic-part, where: {fact: septic-part.part, is: tank}}\nrules:",
        "septic-tank: {kind: septic-part, where: {fact: septic-part.part, is: tank}}",
    ),
    (
        "farthest-to",
        "{from: pool.water, to: lot-line, farthest: to}",
        "{from: lot-line, to: pool.water, farthest: from}",
        "{from: lot-line, to: pool.water, farthest: from}",
    ),
    (
        "paper-of-term",
        "clause: C, require",
        "clause: C, each: side-lines, require",
        "each: side-lines",
    ),
    ("amount-two-units-slash", "10 ft / 3 m", "10 ft", "10 ft"),
    ("amount-semicolon", "10 ft;", "10 ft", "10 ft"),
    ("amount-comma-at-end", "\"10 ft,\"", "10 ft", "10 ft"),
    (
        "amount-feet-and-inches",
        "4 feet and 6 inches",
        "4 feet 6 inches",
        "4 feet 6 inches",
    ),
    (
        "amount-feet-comma-inches",
        "4 ft., 6 in.",
        "4 ft 6 in",
        "4 ft 6 in",
    ),
    ("amount-letter-o", "1O ft", "10 ft", "10 ft"),
    ("amount-letter-l", "l0 ft", "10 ft", "10 ft"),
    ("amount-min-dot", "min. 10 ft", "10 ft", "10 ft"),
    ("amount-approx", "approx. 10 ft", "10 ft", "10 ft"),
    (
        "amount-words-and-figure",
        "ten (10) feet",
        "10 feet",
        "10 feet",
    ),
    ("amount-lin-ft", "10 lin. ft", "10 ft", "10 ft"),
    ("amount-decimal-alone", ".5 in", "0.5 in", "0.5 in"),
    ("amount-inch-hyphen", "54-inch", "54 inch", "54 inch"),
    (
        "amount-sign-before",
        "at-least: >10 ft",
        "at-least: 10 ft",
        "at-least: 10 ft",
    ),
    ("amount-in-brackets", "[10 ft]", "10 ft", "10 ft"),
    (
        "amount-sum-of-list",
        "largest-of: 6 ft, pool.depth",
        "largest-of: [6 ft, pool.depth]",
        "largest-of: [6 ft, pool.depth]",
    ),
    ("item-without-dash", "    id: other", "  - id: other", "- "),
    ("brace-too-many", "lot-line}}", "lot-line}", "}"),
    (
        "title-hyphen",
        "title: - Pool",
        "title: Pool",
        "title: Pool to lot line",
    ),
    ("comment-slashes", "// Part 3", "# Part 3", "# Part 3"),
    (
        "heading-in-list",
        "Part 3: sewage",
        "# Part 3: sewage",
        "# Part 3: sewage",
    ),
    (
        "brace-semicolon-keys",
        "from: pool.water; to",
        "from: pool.water, to",
        "from: pool.water, to: …",
    ),
    (
        "parentheses",
        "distance: (from: pool.water, to: lot-line)",
        "distance: {from: pool.water, to: lot-line}",
        "distance: {from: pool.water, to: lot-line}",
    ),
    (
        "where-bare-fact",
        "{part: tank}",
        "{fact: septic-part.part, is: tank}",
        "{fact: septic-part.part, is: tank}",
    ),
    (
        "where-in-one-line",
        "septic-part.part is tank",
        "{fact: septic-part.part, is: tank}",
        "{fact: septic-part.part, is: tank}",
    ),
    (
        "answer-not",
        "{fact: septic-part.part, is: not tank}",
        "{not: {fact: septic-part.part, is: tank}}",
        "{not: {fact: septic-part.part, is: tank}}",
    ),
    (
        "answers-no-comma",
        "[tank field]",
        "[tank, field]",
        "is: [tank, field]",
    ),
    (
        "fact-is-term",
        "{fact: deep, is: yes}",
        "{meets: deep}",
        "{meets: deep}",
    ),
    (
        "meets-question",
        "{meets: corner-lot}",
        "{fact: corner-lot, is: yes}",
        "{fact: corner-lot, is: yes}",
    ),
    (
        "height-of-kind",
        "height: barrier-stretch,",
        "fact: barrier-stretch.height-outside,",
        "fact: barrier-stretch.height-outside",
    ),
    (
        "duty-by-whom",
        "by: the applicant",
        "who: the applicant",
        "who: the applicant",
    ),
    ("except-list", "except:", "relief:", "relief"),
    (
        "table-otherwise-none",
        "otherwise: none",
        "otherwise: refer",
        "refer",
    ),
    ("since-month", "January 2026", "2026-01-01", "2026-01-01"),
    (
        "own-fact-with-kind",
        "id: pool.lawful",
        "id: lawful",
        "lawful",
    ),
    ("term-capitals", "Pool-Edge:", "pool-edge:", "pool-edge"),
    (
        "letter-above",
        "Dear colleague,\n\nhere is the file.\n",
        "",
        "ruleset",
    ),
];

fn slips() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("rule-faults/slips")
}

fn text(name: &str, ending: &str) -> String {
    let path = slips().join(format!("{name}.{ending}"));
    fs::read_to_string(&path).unwrap_or_else(|_| panic!("{} is there", path.display()))
}

/// What is told of a rule file, but that it says nothing of its scope, or of what may be none.
fn told(text: &str) -> String {
    let mut read = match read_rules(text, &|_| None) {
        Ok(read) => read,
        Err(refusal) => return refusal.show("", "rules.yaml"),
    };
    let mut shown = String::new();
    for file in &mut read.warnings {
        let other = [Code::ScopeMissing, Code::NoneUnsaid];
        file.faults
            .list
            .retain(|fault| !other.contains(&fault.code));
        shown += &file.faults.show("rules.yaml", text);
    }
    shown
}

#[test]
fn what_is_told_can_be_typed_and_mends_the_slip() {
    let mut wrong = String::new();
    for (name, from, to, given) in CURES {
        let (slip, message) = (text(name, "yaml"), text(name, "txt"));
        if !message.contains(&format!("`{given}`")) {
            wrong += &format!("{name}: `{given}` is not in the message:\n{message}\n");
        }
        if !slip.contains(from) {
            wrong += &format!("{name}: it has no {from:?}\n");
        }
        let left = told(&slip.replacen(from, to, 1));
        if !left.is_empty() {
            wrong += &format!("{name}, with {to:?}:\n{left}\n");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
