//! Files that build on others.

use super::*;
use crate::faults::Code;
use crate::quantity::show_exactly;
use crate::text::Lines;
use crate::vocabulary::Vocabulary;

pub(super) const BASE: &str = r#"
ruleset: model
title: Model rules
edition: "1"
authority: the model office
terms:
  pool-edge: pool.water
  least: 3 m
documents:
  - {id: consent, title: Consent}
rules:
  - id: rear
    title: Rear line
    clause: M 1
    changes: minimum
    require: {distance: {from: pool-edge, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}, at-least: 3 m}
    relief:
      - {id: with-consent, require: {have: consent}}
  - id: side
    title: Side line
    clause: M 2
    require: {distance: {from: pool-edge, to: lot-line}, at-least: least}
  - id: fence
    title: Fence in the sight triangle
    clause: M 3
    changes: ceiling
    each: barrier-stretch
    require: {fact: barrier-stretch.height-outside, at-most: 30 in}
  - id: wires
    title: Wires
    clause: M 4
    each: overhead-line
    require:
      table:
        by: overhead-line.voltage
        rows:
          - {id: low, at-most: 750 V, then: {distance: {from: pool.water, to: overhead-line.path}, at-least: 3 m}}
          - {id: high, otherwise: refer}
"#;

pub(super) fn local(body: &str) -> String {
    format!(
        "ruleset: town\ntitle: Town\nedition: \"1\"\nauthority: the town\nbuilds-on: [model]\n{body}"
    )
}

pub(super) fn layered(body: &str) -> Result<Checked, Vec<FileFaults>> {
    read(
        &local(body),
        &|name| (name == "model").then_some(BASE),
        Vocabulary::standard(),
    )
}

#[track_caller]
pub(super) fn set(body: &str) -> RuleSet {
    layered(body)
        .map(|checked| checked.rule_set)
        .unwrap_or_else(|files| {
            panic!(
                "{}",
                files
                    .iter()
                    .map(|file| file.faults.show("town", &local(body)))
                    .collect::<String>()
            )
        })
}

pub(super) fn ids(set: &RuleSet) -> Vec<(&str, usize)> {
    set.rules
        .iter()
        .map(|rule| (rule.id.as_str(), rule.layer))
        .collect()
}

/// The one fault of the local file: its code and what it underlines.
#[track_caller]
pub(super) fn fault(body: &str) -> (&'static str, String) {
    let files = layered(body).expect_err("a fault");
    let text = local(body);
    assert_eq!(
        files
            .iter()
            .map(|file| file.name.as_deref())
            .collect::<Vec<_>>(),
        [None]
    );
    let [fault] = &files[0].faults.list[..] else {
        panic!("{}", files[0].faults.show("town", &text))
    };
    (
        fault.code.word(),
        Lines::new(&text).underlined(fault.span.unwrap()).to_owned(),
    )
}

/// What looks like a slip, but for the scope that none of these small files has.
pub(super) fn warnings(body: &str) -> Vec<&'static str> {
    let warnings = layered(body).unwrap().warnings;
    let codes = warnings.iter().flat_map(|file| &file.faults.list);
    codes
        .map(|fault| fault.code.word())
        .filter(|code| *code != "scope-missing")
        .collect()
}

pub(super) const REAR: &str = "title: Rear line\n    clause: T 1\n    require: {distance: {from: pool-edge, to: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}, at-least: LIMIT}\n    relief:\n      - {id: with-consent, require: {have: consent}}\n";

pub(super) fn rear(edit: &str, limit: &str) -> String {
    format!("rules:\n  - {edit}\n    {}", REAR.replace("LIMIT", limit))
}

#[test]
fn the_rules_of_the_base_come_first_and_know_their_file() {
    let set = set("rules:\n  - {id: more, title: More, clause: T 9, require: refer}\n");
    assert_eq!(
        ids(&set),
        [
            ("rear", 1),
            ("side", 1),
            ("fence", 1),
            ("wires", 1),
            ("more", 0)
        ]
    );
    assert_eq!(
        set.layers
            .iter()
            .map(|layer| layer.id.as_str())
            .collect::<Vec<_>>(),
        ["town", "model"]
    );
    let side = set.rules.iter().find(|rule| rule.id == "side").unwrap();
    assert!(
        Lines::new(BASE)
            .underlined(side.span)
            .starts_with("id: side")
    );
}

#[test]
fn a_rule_is_withdrawn_or_only_where_something_holds() {
    let gone = set("rules:\n  - {withdraws: side, clause: T 2}\n");
    assert_eq!(ids(&gone), [("rear", 1), ("fence", 1), ("wires", 1)]);
    let partly = set("rules:\n  - {withdraws: side, when: {fact: lot.in-association, is: yes}}\n");
    assert!(partly.rules[1].unless.is_some());
    assert_eq!(
        fault("rules:\n  - {withdraws: rear}\n"),
        ("laxer", "rear".to_owned())
    );
    assert_eq!(
        fault("rules:\n  - {withdraws: sides}\n"),
        ("unknown-rule", "sides".to_owned())
    );
}

#[test]
fn a_replaced_rule_stays_where_the_condition_does_not_hold() {
    let set = set(&rear(
        "id: rear-town\n    replaces: rear\n    when: {fact: lot.in-association, is: yes}",
        "4 m",
    ));
    assert_eq!(
        ids(&set),
        [
            ("rear", 1),
            ("side", 1),
            ("fence", 1),
            ("wires", 1),
            ("rear-town", 0)
        ]
    );
    let town = set.rules.last().unwrap();
    assert_eq!(set.rules[0].unless, town.when);
    assert!(town.when.is_some());
}

#[test]
fn a_minimum_may_be_made_stricter_only() {
    assert_eq!(
        set(&rear("id: rear\n    replaces: rear", "4 m"))
            .rules
            .last()
            .unwrap()
            .layer,
        0
    );
    assert_eq!(
        fault(&rear("id: rear\n    replaces: rear", "2 m")),
        ("laxer", "rear".to_owned())
    );
    assert_eq!(
        fault(&rear("id: rear-town\n    tightens: rear", "2 m")),
        ("laxer", "rear".to_owned())
    );
    assert_eq!(
        warnings(&rear("id: rear-town\n    tightens: rear", "10 ft")),
        [""; 0]
    ); // 3.048 m
    assert_eq!(
        warnings(&rear("id: rear-town\n    tightens: rear", "pool.depth")),
        ["not-compared"]
    );
    assert_eq!(
        fault("rules:\n  - {adds-to: rear, relief: {id: far, require: refer}}\n").0,
        "laxer"
    );
}

#[test]
fn a_ceiling_may_be_made_laxer_only() {
    let fence = |limit: &str| {
        format!(
            "rules:\n  - id: fence\n    replaces: fence\n    title: F\n    clause: T 3\n    each: barrier-stretch\n    require: {{fact: barrier-stretch.height-outside, at-most: {limit}}}\n"
        )
    };
    assert_eq!(fault(&fence("24 in")), ("stricter", "fence".to_owned()));
    assert_eq!(warnings(&fence("36 in")), [""; 0]);
}

#[test]
fn one_changed_term_runs_through_all_rules() {
    let set = set("terms:\n  least: {replaces: least, with: 5 m}\n");
    let Requirement::Test(test) = &set.rules[1].require else {
        panic!()
    };
    let [Bound::AtLeast(Value::Named { value, .. })] = &test.bounds[..] else {
        panic!()
    };
    assert!(matches!(&**value, Value::Stated(stated) if stated.range.low == 5_000_000_000));
    // In a rule that is a minimum, another meaning could lower it.
    assert_eq!(
        fault("terms:\n  pool-edge: {replaces: pool-edge, with: pool.coping}\n"),
        ("laxer", "pool-edge".to_owned())
    );
    assert_eq!(
        fault("terms:\n  pool-edge: pool.coping\n"),
        ("duplicate-id", "pool-edge".to_owned())
    );
}

#[test]
fn a_term_can_depend_on_a_condition() {
    let set = set(
        "terms:\n  least: {replaces: least, with: 5 m, when: {fact: lot.in-association, is: yes}}\n",
    );
    let Requirement::Test(test) = &set.rules[1].require else {
        panic!()
    };
    let [Bound::AtLeast(Value::Named { value, .. })] = &test.bounds[..] else {
        panic!()
    };
    let Value::Table(table) = &**value else {
        panic!("{value:?}")
    };
    let amounts: Vec<_> = table
        .rows
        .iter()
        .map(|row| match &row.then {
            Then::Give(Value::Stated(stated)) => show_exactly(stated.range.low, stated.unit),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(amounts, ["5 m", "3 m"]);
}

/// A relief that is closed in one case and withdrawn in another is closed in either.
#[test]
fn a_relief_with_an_unless_is_withdrawn_in_one_more_case() {
    let (one, other) = (
        "{fact: lot.in-association, is: yes}",
        "{fact: lot.level-ground, is: yes}",
    );
    let consent = |unless: &str| {
        format!("{{id: with-consent, unless: {unless}, require: {{have: consent}}}}")
    };
    let base = BASE.replace(
        "{id: with-consent, require: {have: consent}}",
        &consent(one),
    );
    let read = |text: &str| {
        let find = |name: &str| (name == "model").then_some(base.as_str());
        super::read(text, &find, Vocabulary::standard()).map(|checked| checked.rule_set)
    };
    let withdrawn = read(&local(&format!(
        "rules:\n  - {{withdraws: rear/with-consent, when: {other}}}\n"
    )));
    let by_hand = base.replace(
        &consent(one),
        &consent(&format!("{{any-of: [{one}, {other}]}}")),
    );
    let reliefs = |set: &RuleSet| set.rules[0].reliefs[0].when.clone();
    assert!(reliefs(&withdrawn.clone().unwrap()).is_some());
    assert_eq!(
        reliefs(&withdrawn.unwrap()),
        reliefs(&read(&by_hand).unwrap())
    );
}

#[test]
fn a_fault_that_an_edit_makes_is_shown_in_the_file_of_the_edit() {
    let body = "rules:\n  - {replaces: wires/high, with: {id: high, otherwise: {fact: gate.latch-hight, at-least: 3 m}}}\n";
    assert_eq!(fault(body), ("unknown-fact", "gate.latch-hight".to_owned()));
}

/// What a rule takes from a term of its base is shown where it stands, not at the same place of the rule's own file.
#[test]
fn a_slip_in_a_term_is_shown_in_the_file_of_the_term() {
    let table = "table: {by: {area: {of: lot.boundary}}, rows: [{less-than: 500 m2, then: 40 %}, {otherwise: 35 %}]}";
    let area = "area: {of: building.roof, share-of: lot.boundary}";
    let term = format!("terms:\n  small: {{{area}, at-most: {{{table}}}}}\n");
    let base = BASE.replace("terms:\n", &term);
    let rule = "rules:\n  - {id: own, title: Own, clause: T 9, require: {meets: small}}\n";
    let find = |name: &str| (name == "model").then_some(base.as_str());
    let read = read(&local(rule), &find, Vocabulary::standard()).unwrap();
    let slips = read.warnings.iter().flat_map(|file| {
        let slips = file.faults.list.iter();
        slips.map(|slip| (file.name.as_deref(), slip))
    });
    let mut jumps = slips.filter(|(_, slip)| slip.code == Code::LimitJumps);
    let (file, slip) = jumps.next().unwrap();
    assert_eq!(file, Some("model"));
    let shown = Lines::new(&base).underlined(slip.span.unwrap()).to_owned();
    assert!(shown.contains("less-than: 500 m2"), "{shown}");
    assert_eq!(jumps.next(), None);
}

#[test]
fn rules_that_cannot_both_hold_are_shown() {
    let body = "rules:\n  - {id: barrier, title: B, clause: T 4, each: barrier-stretch, require: {fact: barrier-stretch.height-outside, at-least: 48 in}}\n";
    assert_eq!(warnings(body), ["clash"]);
}

#[test]
fn files_that_build_on_each_other() {
    let ring = |name: &str| match name {
        "one" => Some("ruleset: one\nbuilds-on: [two]\n"),
        "two" => Some("ruleset: two\nbuilds-on: [one]\n"),
        _ => None,
    };
    let faults = read(
        "ruleset: town\nbuilds-on: [one]\n",
        &ring,
        Vocabulary::standard(),
    )
    .unwrap_err();
    assert_eq!(faults[0].name.as_deref(), Some("two"));
    assert_eq!(faults[0].faults.list[0].code.word(), "base-ring");
    let shared = local("").replace("[model]", "[other, model]");
    let other = local("").replace("ruleset: town", "ruleset: other");
    let both = |name: &str| match name {
        "other" => Some(other.as_str()),
        "model" => Some(BASE),
        _ => None,
    };
    let set = read(&shared, &both, Vocabulary::standard())
        .unwrap()
        .rule_set;
    assert_eq!(set.rules.len(), 4);
    assert_eq!(
        set.layers
            .iter()
            .map(|layer| layer.id.as_str())
            .collect::<Vec<_>>(),
        ["town", "other", "model"]
    );
}
