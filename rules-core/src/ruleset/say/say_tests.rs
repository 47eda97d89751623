//! What a clerk reads of a rule.

use super::*;
use crate::ruleset::read;
use crate::vocabulary::Vocabulary;

/// The lines of the last rule of a file, as Markdown.
#[track_caller]
fn said(body: &str) -> String {
    let text = format!(
        "ruleset: eldermere\ntitle: Eldermere\nedition: \"1\"\nauthority: the office\n{body}"
    );
    let set = match read(&text, &|_| None, Vocabulary::standard()) {
        Ok(checked) => checked.rule_set,
        Err(files) => panic!("{}", files[0].faults.show("rules", &text)),
    };
    let last = read_back(&set).group(Sort::Rules).last().cloned();
    let only = ReadBack {
        title: String::new(),
        head: Vec::new(),
        groups: vec![Group {
            sort: Sort::Rules,
            said: last.into_iter().collect(),
        }],
    };
    let text = only.to_markdown();
    text.split_once("### One (s. 1)\n\n").unwrap().1.to_owned()
}

fn rule(parts: &str) -> String {
    said(&format!(
        "rules:\n  - id: one\n    title: One\n    clause: s. 1\n    {parts}\n"
    ))
}

#[test]
fn a_limit_has_an_example_on_each_side() {
    assert_eq!(
        rule("require: {distance: {from: pool.water, to: lot-line}, at-least: 1200 mm}"),
        "For each pool, the distance from the water's edge to the nearest lot line must be at least 1200 mm (1200 mm passes, 1199 mm fails).\n",
    );
    assert_eq!(
        rule("should: {distance: {from: pool.water, to: lot-line}, more-than: 4 ft 6 in}"),
        "For each pool, the distance from the water's edge to the nearest lot line should be more than 4 ft 6 in (4 ft 6-1/8 in passes, 4 ft 6 in fails).\n\nThis is advice and does not bind.\n",
    );
    assert_eq!(
        rule(
            "each: barrier-opening\n    require: {fact: barrier-opening.width, less-than: 100 mm}"
        ),
        "For each opening in the barrier, the width of the opening must be less than 100 mm (99 mm passes, 100 mm fails).\n",
    );
}

#[test]
fn what_is_turned_round_has_its_examples_turned_round() {
    assert_eq!(
        rule("each: gate\n    require: {not: {fact: gate.width, at-least: 3 m}}"),
        "For each gate, the clear width of the gate must not be at least 3 m (2.99 m passes, 3 m fails).\n",
    );
    assert_eq!(
        rule("each: gate\n    require: {not: {fact: gate.self-closing, is: no}}"),
        "For each gate, the gate must close by itself.\n",
    );
}

#[test]
fn a_list_names_each_member() {
    assert_eq!(
        rule(
            "when: {fact: pool.depth, more-than: 600 mm}\n    require:\n      any-of:\n        - {fact: pool.founded, is: no}\n        \
             - [{fact: pool.volume, at-most: 10 m3}, refer]"
        ),
        "For each pool where the greatest depth of the water is more than 600 mm, at least one of these must hold:\n\n\
         - the pool does not stand on foundations.\n\
         - all of these hold:\n  - the volume of the water is at most 10 m³ (10 m³ is enough, 10.01 m³ is not).\n  - the authority decides.\n",
    );
}

#[test]
fn a_table_is_said_row_by_row() {
    assert_eq!(
        rule(
            "require:\n      distance: {from: pool.water, to: lot-line}\n      at-least: {table: {by: pool.built-on, \
             rows: [{less-than: 2001-01-01, then: 1 m}, {otherwise: refer}]}}"
        ),
        "For each pool, the distance from the water's edge to the nearest lot line must be at least what the first of these that applies gives:\n\n\
         - where the day on which the pool was built is before 2001-01-01, 1 m (1 m passes, 0.99 m fails).\n\
         - otherwise, the authority decides.\n",
    );
}

#[test]
fn reliefs_and_terms_are_named() {
    assert_eq!(
        said(
            "terms: {rear-lines: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}\ndocuments: [{id: consent, title: Consent}]\n\
             rules:\n  - id: one\n    title: One\n    clause: s. 1\n    unless: {fact: lot.in-association, is: yes}\n    \
             require: {distance: {from: pool.water, to: rear-lines}, at-least: 3 m}\n    \
             relief: [{id: by-consent, leave: yes, require: {have: consent}}]\n    provenance: from-memory\n"
        ),
        "For each pool, the distance from the water's edge to the nearest of the rear lines must be at least 3 m (3 m passes, 2.99 m fails).\n\n\
         It does not apply where the lot belongs to an owners' association.\n\n\
         Instead with the authority's leave (by consent): it is enough that this document is in hand: Consent.\n\n\
         Its values are from memory and have to be checked.\n",
    );
}

#[test]
fn the_least_that_can_be_has_no_example_below_it() {
    assert_eq!(
        rule("require: {area: {of: pool.water, in: lot.flag-handle}, at-most: 0 m2}"),
        "For each pool, the area within the water's edge that lies inside the strip that leads to the road must be at most 0 m².\n",
    );
    assert_eq!(
        rule("each: gate\n    require: {fact: gate.width, at-least: 0 mm}"),
        "For each gate, the clear width of the gate must be at least 0 mm.\n",
    );
}

#[test]
fn every_rule_of_the_tried_clauses_is_said_in_whole_lines() {
    let text = include_str!("../../../../tests/tried-clauses/rules.yaml");
    let set = read(text, &|_| None, Vocabulary::standard())
        .unwrap()
        .rule_set;
    let back = read_back(&set);
    assert_eq!(
        (
            back.group(Sort::Rules).len(),
            back.group(Sort::Decisions).len()
        ),
        (set.rules.len(), set.decisions.len())
    );
    let plain = back.to_text();
    assert!(
        plain
            .lines()
            .filter(|line| line.starts_with("- "))
            .all(|line| line.ends_with(['.', ':']))
    );
    assert!(!plain.contains(" is is ") && !plain.contains("  is "));
    assert_eq!(
        back.to_markdown().matches("\n### ").count(),
        back.groups
            .iter()
            .map(|group| group.said.len())
            .sum::<usize>()
    );
}

/// Forty terms, each of which names the one before it twice: written out they would be 2^40 tests.
#[test]
fn terms_that_name_each_other_are_gone_through_once() {
    let mut terms = "terms:\n  t0: {fact: pool.depth, at-most: 2 m}\n".to_owned();
    for at in 1..40 {
        let before = at - 1;
        terms += &format!(
            "  t{at}: [{{meets: t{before}}}, {{any-of: [{{meets: t{before}}}, {{fact: pool.volume, at-most: {at} m3}}]}}]\n"
        );
    }
    let text = said(&format!(
        "{terms}rules:\n  - {{id: one, title: One, clause: s. 1, require: {{meets: t39}}}}\n"
    ));
    assert_eq!(text, "For each pool, “t39” must hold.\n");
}
