//! Rule files that are right, and what is read from them.

use super::*;
use crate::quantity::{Dimension, parse};
use crate::vocabulary::Vocabulary;

const HEAD: &str =
    "ruleset: eldermere\ntitle: Eldermere\nedition: \"1\"\nauthority: Eldermere building office\n";
const TRIED: &str = include_str!("../../../tests/tried-clauses/rules.yaml");

pub(super) fn whole(body: &str) -> String {
    format!("{HEAD}{body}")
}

pub(super) fn check(body: &str) -> Result<Checked, Vec<FileFaults>> {
    read(&whole(body), &|_| None, Vocabulary::standard())
}

fn rules(body: &str) -> RuleSet {
    match check(body) {
        Ok(checked) => checked.rule_set,
        Err(files) => panic!(
            "{}",
            files
                .iter()
                .map(|file| file.faults.show("rules", &whole(body)))
                .collect::<String>()
        ),
    }
}

fn rule(body: &str) -> (Vocabulary, Rule) {
    let mut set = rules(&format!(
        "rules:\n  - id: one\n    title: One\n    clause: s. 1\n{body}"
    ));
    (set.vocabulary, set.rules.remove(0))
}

fn test_of(requirement: &Requirement) -> &Test {
    match requirement {
        Requirement::Test(test) => test,
        other => panic!("not a test: {other:?}"),
    }
}

fn stated(value: &Value) -> (i128, Dimension) {
    match value {
        Value::Stated(stated) => (stated.range.low, stated.dimension),
        other => panic!("not stated: {other:?}"),
    }
}

/// Sixty sorts of published clauses, from our own notes of them.
#[test]
fn the_sixty_tried_clauses_read_clean() {
    let checked = match read(TRIED, &|_| None, Vocabulary::standard()) {
        Ok(checked) => checked,
        Err(files) => panic!(
            "{}",
            files
                .iter()
                .map(|file| file.faults.show("rules.yaml", TRIED))
                .collect::<String>()
        ),
    };
    // They are clauses of many places, of which none says what else it holds.
    let warned = checked.warnings.iter().flat_map(|file| &file.faults.list);
    let warned: Vec<_> = warned.map(|slip| slip.code.word()).collect();
    assert_eq!(warned, ["scope-missing"]);
    let set = checked.rule_set;
    let clauses = set.rules.iter().map(|rule| rule.clause.as_str());
    let clauses = clauses.chain(
        set.decisions
            .iter()
            .filter_map(|decision| decision.clause.as_deref()),
    );
    let numbered =
        clauses.filter_map(|clause| clause.strip_prefix("Trial ")?.parse::<usize>().ok());
    let mut numbers: Vec<_> = numbered.chain([42]).collect(); // 42 is a duty
    numbers.sort_unstable();
    assert_eq!(numbers, (1..=60).collect::<Vec<_>>());
}

#[test]
fn a_distance_with_a_limit() {
    let (vocabulary, rule) = rule(
        "    require: {distance: {from: pool.water, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}, at-least: 10 ft}\n",
    );
    let test = test_of(&rule.require);
    let [Bound::AtLeast(limit)] = &test.bounds[..] else {
        panic!("{:?}", test.bounds)
    };
    assert_eq!(stated(limit), (3_048_000_000, Dimension::Length)); // 1 ft = 0.3048 m exactly: international foot of 1959
    let Value::Distance(distance) = &test.value else {
        panic!()
    };
    assert_eq!(
        vocabulary.outline_path(distance.from.parts[0].outline),
        "pool.water"
    );
    let Which::All(lines) = &distance.to.parts[0].which else {
        panic!()
    };
    assert!(lines.filter.is_some());
    assert_eq!(distance.how, Measured::Level);
}

#[test]
fn a_rule_that_speaks_of_the_pool_is_about_one_pool() {
    let (vocabulary, rule) = rule(
        "    when: {fact: pool.depth, more-than: 600 mm}\n    require: {distance: {from: pool.water, to: lot-line}, at-least: 1 m}\n",
    );
    let pool = vocabulary.kind_named("pool").unwrap();
    assert!(rule.about_pool && rule.each.is_none());
    let depth = test_of(rule.when.as_ref().unwrap());
    assert_eq!(
        vocabulary.fact_path(match depth.value {
            Value::Fact(id) => id,
            _ => panic!(),
        }),
        "pool.depth"
    );
    let Value::Distance(distance) = &test_of(&rule.require).value else {
        panic!()
    };
    assert_eq!(distance.from.parts[0].which, Which::Bound(pool));
}

#[test]
fn a_rule_for_each_gate_may_be_about_the_pool_too() {
    let (vocabulary, about) = rule(
        "    each: gate\n    require: {fact: gate.latch-height, at-least: pool.height-above-ground}\n",
    );
    assert!(about.about_pool);
    assert_eq!(
        about.each.unwrap().kind,
        vocabulary.kind_named("gate").unwrap()
    );
    let (_, gates_only) =
        rule("    each: gate\n    require: {fact: gate.latch-height, at-least: 1 m}\n");
    assert!(!gates_only.about_pool);
}

#[test]
fn what_each_pool_must_keep_chooses_among_the_pools() {
    let (vocabulary, rule) = rule(
        "    when: {fact: pool.depth, more-than: 1 m}\n    each: pool\n    require: {fact: pool.volume, at-most: 50 m3}\n",
    );
    assert!(!rule.about_pool && rule.when.is_none());
    let each = rule.each.unwrap();
    assert_eq!(each.kind, vocabulary.kind_named("pool").unwrap());
    assert!(each.filter.is_some());
}

#[test]
fn an_area_is_that_of_one_pool_unless_it_says_all() {
    let pools = |of: &str| {
        let (_, rule) = rule(&format!(
            "    require: {{area: {{of: {of}}}, at-most: 50 m2}}\n"
        ));
        let Value::Area(area) = &test_of(&rule.require).value else {
            panic!()
        };
        (
            rule.about_pool,
            matches!(area.of.parts[0].which, Which::All(_)),
        )
    };
    assert_eq!(pools("pool.water"), (true, false));
    assert_eq!(pools("{each: pool.water}"), (true, false));
    assert_eq!(pools("{all: pool.water}"), (false, true));
}

#[test]
fn the_kind_under_each_is_the_one() {
    let (vocabulary, rule) = rule(
        "    each: equipment\n    require: {distance: {from: equipment, to: {kind: equipment, where: {fact: equipment.use, is: pump}}}, at-least: 1 m}\n",
    );
    let Value::Distance(distance) = &test_of(&rule.require).value else {
        panic!()
    };
    let kind = vocabulary.kind_named("equipment").unwrap();
    assert_eq!(distance.from.parts[0].which, Which::Bound(kind));
    assert!(matches!(&distance.to.parts[0].which, Which::All(all) if all.filter.is_some()));
}

#[test]
fn a_term_may_come_after_its_use_and_is_shared() {
    let set = rules(
        "rules:\n  - id: one\n    title: One\n    clause: s. 1\n    require: {value: gap, at-least: least}\n\
         terms:\n  gap: {distance: {from: pool.water, to: lines}}\n  lines: {kind: lot-line}\n  least: 4 ft 6 in\n",
    );
    let test = test_of(&set.rules[0].require);
    assert!(matches!(&test.value, Value::Named { term, .. } if term.name == "gap"));
    let [Bound::AtLeast(Value::Named { term, value, .. })] = &test.bounds[..] else {
        panic!()
    };
    let inches = parse("54 in", None, None).unwrap().range.low;
    assert_eq!((term.name.as_str(), stated(value).0), ("least", inches));
}

#[test]
fn both_spellings_of_otherwise_give_the_same() {
    let table = |last: &str| {
        let (_, rule) = rule(&format!(
            "    require:\n      distance: {{from: pool.water, to: lot-line}}\n      at-least: {{table: {{by: lot.area, rows: [{{less-than: 1 ha, then: 3 m}}, {last}]}}}}\n"
        ));
        let [Bound::AtLeast(Value::Table(table))] = &test_of(&rule.require).bounds[..] else {
            panic!()
        };
        let last = table.rows.last().unwrap().clone();
        (
            last.test,
            match last.then {
                Then::Give(value) => Some(stated(&value)),
                Then::Refer => None,
            },
        )
    };
    assert_eq!(
        table("{otherwise: 6 m}"),
        table("{otherwise: yes, then: 6 m}")
    );
    assert_eq!(table("{otherwise: refer}").1, None);
}

#[test]
fn days_and_months_agree() {
    let set = rules(
        "decide:\n  - {id: route, table: {by: pool.standing-time, rows: [{at-most: 60 days, then: none}, {otherwise: permit}]}}\n",
    );
    let RowTest::Bounds(bounds) = &set.decisions[0].table.rows[0].test else {
        panic!()
    };
    let [Bound::AtMost(limit)] = &bounds[..] else {
        panic!()
    };
    assert_eq!(stated(limit), (60, Dimension::Days));
    assert_eq!(set.decisions[0].title, "Route");
}

#[test]
fn a_condition_of_a_document_holds_for_any_pool() {
    let set = rules(
        "documents:\n  - {id: plan, title: Plan, needed: {when: {fact: pool.depth, more-than: 2 m}}}\n",
    );
    let when = set.documents[0].when.as_ref().unwrap();
    assert!(when.about_pool);
    assert!(matches!(test_of(&when.requirement).value, Value::Fact(_)));
}

#[test]
fn unused_things_are_warned_of() {
    let checked = check(
        "terms: {spare: 3 m}\ndocuments: [{id: paper, title: Paper}]\nquestions: [{id: idle, ask: Idle?, answer: yes-no}]\n",
    );
    let warnings = checked.unwrap().warnings;
    let codes: Vec<_> = warnings[0]
        .faults
        .list
        .iter()
        .map(|fault| fault.code.word())
        .collect();
    let expected = [
        "unused-term",
        "unused-document",
        "unused-question",
        "no-rules",
        "scope-missing",
    ];
    assert_eq!(codes, expected);
}

#[test]
fn a_table_in_disguise_is_warned_of() {
    let body = "rules:\n  - id: one\n    title: One\n    clause: s. 1\n    each: barrier-stretch\n    require:\n      any-of:\n\
        \x20       - [{fact: barrier-stretch.ground, is: soft}, {fact: barrier-stretch.gap-below, at-most: 2 in}]\n\
        \x20       - [{fact: barrier-stretch.ground, is: solid}, {fact: barrier-stretch.gap-below, at-most: 4 in}]\n";
    let warnings = check(body).unwrap().warnings;
    assert_eq!(warnings[0].faults.list[0].code.word(), "use-a-table");
}
