//! Files of ours, each spoilt in one place, which the schemas must refuse.

use std::fs;

use outside_checks::pages::root;
use rules_core::vocabulary::Vocabulary;
use rules_core::{plan, ruleset};

use super::{validator, wrong};

/// What is wrong, what stands in the file, and what stands there instead.
type Slip = (&'static str, &'static str, &'static str);

const PLAN: &str = "rules-core/src/plan/read/quarry-lane.yaml";
const IN_PLAN: [Slip; 22] = [
    ("no short name", "plan: quarry-lane-8\n", ""),
    (
        "capitals in the short name",
        "plan: quarry-lane-8",
        "plan: Quarry Lane 8",
    ),
    ("a misspelt key at the top", "things:\n", "thing:\n"),
    ("a unit that is none of length", "unit: m\n", "unit: kg\n"),
    ("an angle in metres", "north: 4 deg", "north: 4 m"),
    (
        "a source of a sort that there is not",
        "by: survey,",
        "by: surveyor,",
    ),
    (
        "a source without a sort",
        "{id: tape, by: tape,",
        "{id: tape,",
    ),
    (
        "a misspelt kind",
        "kind: overhead-line",
        "kind: overhead-wire",
    ),
    (
        "a thing without an id",
        "{kind: railway, id: branch-line,",
        "{kind: railway,",
    ),
    ("a misspelt fact", "fill-depth:", "filling-depth:"),
    ("a misspelt outline", "  coping:", "  copping:"),
    (
        "a word that a fact does not know",
        "faces: front",
        "faces: forward",
    ),
    ("a depth in volts", "depth: 1.5 m\n", "depth: 1.5 V\n"),
    (
        "a depth in words",
        "excavation-depth: 1.9 m ± 0.1 m",
        "excavation-depth: deep",
    ),
    (
        "yes, where an amount belongs",
        "volume: 52 m3",
        "volume: yes",
    ),
    (
        "none, of what there always is",
        "fill-depth: 1.55 m",
        "fill-depth: none",
    ),
    (
        "half a range",
        "{from: 1.24 m, to: 1.31 m}",
        "{from: 1.24 m}",
    ),
    (
        "a range of what does not vary",
        "width: 1 m, height",
        "width: {from: 1 m, to: 2 m}, height",
    ),
    (
        "a point with three figures",
        "line: [[10, 17],",
        "line: [[10, 17, 3],",
    ),
    (
        "an area of two corners",
        "    wall: [[8, 8], [22, 8], [22, 19], [16, 19], [16, 17], [8, 17]]",
        "    wall: [[8, 8], [22, 8]]",
    ),
    (
        "an outline moved without its corners",
        "from: water, corners: square}\n  shell",
        "from: water}\n  shell",
    ),
    (
        "an inventory word that there is not",
        "well: not-checked",
        "well: unchecked",
    ),
];

const RULES: &str = "rulesets/model-municipality/rules.yaml";
const IN_RULES: [Slip; 22] = [
    (
        "no authority",
        "authority: Eldermere building office ",
        "# ",
    ),
    ("a misspelt key at the top", "\nquestions:", "\nquestion:"),
    (
        "a rule without a clause",
        "    clause: Bylaw __, s. __(4)\n",
        "",
    ),
    (
        "a misspelt key of a rule",
        "    remedy: Move the pool in from the rear.",
        "    remedies: Move the pool in from the rear.",
    ),
    ("a day that is none", "from: 2026-01-01", "from: January"),
    ("no day that decides", ", by: applied}", "}"),
    (
        "a list where a map belongs",
        "terms:\n",
        "terms: [a]\nterm:\n",
    ),
    (
        "`over` for `more-than`",
        "more-than: 1000 sq ft",
        "over: 1000 sq ft",
    ),
    (
        "`min` for `at-least`",
        "      at-least: front-distance",
        "      min: front-distance",
    ),
    (
        "a measure without a bound",
        "      at-least: rear-distance\n",
        "",
    ),
    (
        "a bound in another dimension",
        "less-than: 24 in",
        "less-than: 24 kg/m2",
    ),
    (
        "a bound without a unit",
        "at-most: 5000 gal",
        "at-most: 5000",
    ),
    (
        "a distance to nothing",
        "{from: pool-edge, to: lot-line}\n            at-least",
        "{from: pool-edge}\n            at-least",
    ),
    (
        "a way of measuring that there is not",
        "distance: {from: equipment, to: lot-line}",
        "distance: {from: equipment, to: lot-line, measured: flat}",
    ),
    (
        "a word that a fact does not know",
        "is: street-side",
        "is: street-sides",
    ),
    (
        "a bound on what is answered with yes or no",
        "{fact: equipment.enclosed, is: yes}",
        "{fact: equipment.enclosed, at-least: 1 m}",
    ),
    (
        "two measures in one",
        "{count: rear-lines, at-least: 1}",
        "{count: rear-lines, fact: pool.depth, at-least: 1}",
    ),
    (
        "a share where there is an area",
        "more-than: 1000 sq ft",
        "more-than: 40 kV",
    ),
    (
        "a relief without a name",
        "      - id: holder-consents\n        leave",
        "      - leave",
    ),
    (
        "a document that is needed at some time",
        "needed: always",
        "needed: sometimes",
    ),
    (
        "`where` without `each`",
        "    each: easement\n",
        "    where: {fact: easement.purpose, is: utility}\n",
    ),
    ("a time in metres", "by: 14 days", "by: 14 m"),
];

const CASES: &str = "rulesets/model-municipality/cases.yaml";
const IN_CASES: [Slip; 8] = [
    (
        "a case without a name",
        "  - case: consent\n    title",
        "  - title",
    ),
    (
        "an outcome that there is not",
        "expect: {side-line: refer}",
        "expect: {side-line: maybe}",
    ),
    ("a misspelt key", "    all-others: fail", "    others: fail"),
    (
        "a verdict that there is not",
        "verdict: does-not-comply",
        "verdict: rejected",
    ),
    (
        "a misspelt fact of the base",
        "in-association: yes",
        "in-the-association: yes",
    ),
    (
        "a change of a key that plans do not have",
        "change: {answers:",
        "change: {answer:",
    ),
    (
        "a thing of the base without an id",
        "{kind: easement, id: strip,",
        "{kind: easement,",
    ),
    (
        "a document in a state that there is not",
        "yard-designation: refused",
        "yard-designation: lost",
    ),
];

fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).expect("the file")
}

fn spoilt(path: &str, slip: &Slip) -> String {
    let (what, old, new) = slip;
    let text = text(path);
    assert!(
        text.contains(old),
        "{what}: `{old}` does not stand in {path}"
    );
    text.replacen(old, new, 1)
}

fn taken(schema: &str, path: &str, slips: &[Slip]) -> Vec<String> {
    let validator = validator(schema);
    let slips = slips
        .iter()
        .filter(|slip| wrong(&validator, &spoilt(path, slip)).is_empty());
    slips.map(|slip| format!("{path}: {}", slip.0)).collect()
}

#[test]
fn spoilt_files_are_refused() {
    let mut all = taken("plan.json", PLAN, &IN_PLAN);
    all.extend(taken("rule-set.json", RULES, &IN_RULES));
    all.extend(taken("cases.json", CASES, &IN_CASES));
    assert!(all.is_empty(), "these are taken:\n{}", all.join("\n"));
}

fn reads(rules: &str, barrier: &str) -> bool {
    let bases = |name: &str| (name == "barrier-model").then_some(barrier);
    ruleset::read(rules, &bases, Vocabulary::standard()).is_ok()
}

#[test]
fn the_reader_refuses_them_too() {
    let vocabulary = Vocabulary::standard();
    let barrier = text("rulesets/barrier-model/rules.yaml");
    let plans = IN_PLAN
        .iter()
        .filter(|slip| plan::read(&spoilt(PLAN, slip), &vocabulary).is_ok());
    let rules = IN_RULES
        .iter()
        .filter(|slip| reads(&spoilt(RULES, slip), &barrier));
    let taken: Vec<_> = plans.chain(rules).map(|slip| slip.0).collect();
    assert_eq!(taken, [""; 0]);
}
