//! Files that change parts of the file they build on: members of a list, rows of a table, reliefs.

use super::layer_tests::*;
use super::*;
use crate::vocabulary::Vocabulary;

#[test]
fn parts_of_a_rule_are_changed_by_their_ids() {
    let without = set("rules:\n  - {withdraws: rear/with-consent}\n");
    assert_eq!(without.rules[0].reliefs, []);
    let partly = set(
        "rules:\n  - {withdraws: rear/with-consent, when: {fact: lot.in-association, is: yes}}\n",
    );
    assert!(matches!(
        &partly.rules[0].reliefs[0].when,
        Some(Requirement::Not(_))
    ));
    let row = set(
        "rules:\n  - {replaces: wires/high, with: {id: high, otherwise: {distance: {from: pool.water, to: overhead-line.path}, at-least: 9 m}}}\n",
    );
    let Requirement::Table(table) = &row.rules[3].require else {
        panic!()
    };
    assert!(matches!(
        table.rows[1].then,
        Then::Give(Requirement::Test(_))
    ));
    assert_eq!(
        fault("rules:\n  - {withdraws: wires/middle}\n"),
        ("unknown-part", "wires/middle".to_owned())
    );
}

#[test]
fn a_member_of_a_list_is_withdrawn_by_its_id() {
    let base = BASE.replace(
        "    require: {distance: {from: pool-edge, to: lot-line}, at-least: least}",
        "    require:\n      any-of:\n        - {id: far, distance: {from: pool-edge, to: lot-line}, at-least: least}\n        - {id: paper, have: consent}",
    );
    let text = local("rules:\n  - {withdraws: side/paper}\n");
    let set = read(&text, &|_| Some(base.as_str()), Vocabulary::standard())
        .unwrap()
        .rule_set;
    assert!(matches!(&set.rules[1].require, Requirement::Any(members) if members.len() == 1));
}

const WHEN: &str = "when: {fact: lot.in-association, is: yes}";

#[test]
fn a_row_is_replaced_where_a_condition_holds() {
    let set = set(&format!(
        "rules:\n  - {{replaces: wires/low, {WHEN}, with: {{id: low, at-most: 750 V, then: refer}}}}\n"
    ));
    let Requirement::Table(table) = &set.rules[3].require else {
        panic!()
    };
    let Then::Give(Requirement::Table(either)) = &table.rows[0].then else {
        panic!("{:?}", table.rows[0])
    };
    assert_eq!(either.rows[0].then, Then::Refer);
    assert!(matches!(
        either.rows[1].then,
        Then::Give(Requirement::Test(_))
    ));
    let other = format!(
        "rules:\n  - {{replaces: wires/low, {WHEN}, with: {{id: low, at-most: 600 V, then: refer}}}}\n"
    );
    assert_eq!(fault(&other).0, "edit-when");
    let gone = format!("rules:\n  - {{withdraws: wires/low, {WHEN}}}\n");
    assert_eq!(fault(&gone).0, "edit-when");
    let term = format!("terms:\n  least: {{withdraws: least, {WHEN}}}\n");
    assert_eq!(fault(&term).0, "edit-when");
}

#[test]
fn a_member_of_a_list_is_changed_where_a_condition_holds() {
    let base = BASE.replace(
        "    require: {distance: {from: pool-edge, to: lot-line}, at-least: least}",
        "    require:\n      any-of:\n        - {id: far, distance: {from: pool-edge, to: lot-line}, at-least: least}\n        - {id: paper, have: consent}",
    );
    let members = |edit: &str| {
        let text = local(&format!("rules:\n  - {{{edit}, {WHEN}}}\n"));
        let set = read(&text, &|_| Some(base.as_str()), Vocabulary::standard())
            .unwrap()
            .rule_set;
        match &set.rules[1].require {
            Requirement::Any(members) => members.clone(),
            other => panic!("{other:?}"),
        }
    };
    let withdrawn = members("withdraws: side/paper");
    assert!(
        matches!(&withdrawn[1], Requirement::All(both) if matches!(both[0], Requirement::Not(_)))
    );
    let replaced = members("replaces: side/paper, with: {fact: pool.depth, at-most: 1 m}");
    assert!(matches!(&replaced[1], Requirement::Table(table) if table.rows.len() == 2));
}
