//! Where rule sets are listed, how old they are, and what their values rest on.

use super::{Shelf, listed, sources_listed, tally};
use crate::ruleset::{Grade, RuleSet, read};
use crate::vocabulary::{Matter, Vocabulary};

const RULE: &str =
    "{id: depth, title: Depth, clause: s. 1, require: {fact: pool.depth, at-most: 2 m}";

fn set(name: &str, more: &str) -> RuleSet {
    let text =
        format!("ruleset: {name}\ntitle: {name}\nedition: '1'\nauthority: the office\n{more}");
    let bases = |name: &str| (name == "base").then_some(BASE);
    match read(&text, &bases, Vocabulary::standard()) {
        Ok(checked) => checked.rule_set,
        Err(files) => panic!("{}", files[0].faults.show(name, &text)),
    }
}

const BASE: &str = "\
ruleset: base
title: Base
edition: '1'
authority: the office
sort: code
rules:
  - {id: fill, title: T, clause: c, require: {fact: pool.fill-depth, at-least: 1 m}}
";

fn place(name: &str, place: &str, country: &str, more: &str) -> RuleSet {
    let about = format!("sort: place\nplace: \"{place}\"\ncountry: {country}\n");
    set(name, &format!("{about}rules:\n  - {RULE}}}\n{more}"))
}

const DATED: &str = "sources:
  act: {title: The Act, at: 'https://law.example', grade: law, read: 2026-03-01, again: 2027-03-01}
  page: {title: A page, grade: authority, read: 2026-01-10, note: It is old.}
  memory: {title: From memory, grade: memory}
";

fn dated() -> RuleSet {
    let sources = "source: [{id: act, clause: s. 1, value: 2 m}, {id: page, value: 2 m}, {id: memory, value: the depth}]";
    set(
        "dated",
        &format!("builds-on: [base]\n{DATED}rules:\n  - {RULE}, {sources}}}\n"),
    )
}

/// 2027-03-01, the day after which the act must be read again, in days since 1970-01-01.
const LAST_DAY: i128 = 20_878;

fn shown(sets: &[RuleSet], words: &[&str], on: Option<i128>) -> String {
    let words = words.iter().map(|word| (*word).to_owned()).collect();
    listed(sets, &Shelf { words, on }).into()
}

#[test]
fn places_are_grouped_by_country_with_a_province_before_its_towns() {
    let sets = [
        place("b", "Ashford, Norland", "Westria", ""),
        place("a", "Eldermere", "Eldermere", ""),
        place("c", "Norland", "Westria", ""),
        set("model", &format!("sort: code\nrules:\n  - {RULE}}}\n")),
        set("loose", &format!("rules:\n  - {RULE}}}\n")),
    ];
    let list = shown(&sets, &[], None);
    let (_, list) = list.split_once("\n\n").unwrap();
    assert_eq!(
        list,
        "Places

Eldermere: a
      1 rule.

Westria
  Norland: c
      1 rule.
  Ashford, Norland: b
      1 rule.

Codes that places adopt

  model: model
      1 rule.

Others

  loose: loose
      1 rule.
"
    );
}

#[test]
fn only_rule_sets_with_all_the_words_are_listed() {
    let others = Matter::ALL.iter().filter(|it| **it != Matter::Noise);
    let others: String = others
        .map(|it| format!("    - {{matter: {}, ask: somebody}}\n", it.id()))
        .collect();
    let noise = "scope:\n  holds: [noise]\n  leaves-out:\n";
    let rule = "{id: n, title: T, clause: c, each: equipment, require: {fact: equipment.sound-power, at-most: 50 dB}}";
    let sets = [
        place("b", "Ashford", "Westria", ""),
        set("hush", &format!("{noise}{others}rules:\n  - {rule}\n")),
    ];
    let has = |words: &[&str]| {
        let list = shown(&sets, words, None);
        [list.contains("Ashford: b"), list.contains("hush: hush")]
    };
    assert_eq!(has(&[]), [true, true]);
    assert_eq!(has(&["westria"]), [true, false]);
    assert_eq!(has(&["NOISE"]), [false, true]);
    assert_eq!(has(&["westria", "noise"]), [false, false]);
    assert_eq!(shown(&sets, &["westria", "noise"], None), "");
}

#[test]
fn a_set_shows_what_it_builds_on_and_how_old_it_is() {
    let size = "1 rule, 1 more from base, read 2026-01-10 to 2026-03-01";
    let list = |on| shown(&[dated()], &[], on);
    for on in [None, Some(LAST_DAY)] {
        assert!(
            list(on).contains(&format!("      {size}.\n")),
            "{}",
            list(on)
        );
    }
    let late = list(Some(LAST_DAY + 1));
    let late: Vec<&str> = late.split_whitespace().collect();
    assert!(
        late.join(" ")
            .ends_with(&format!("{size}, 1 source due to be read again."))
    );
}

#[test]
fn each_source_is_listed_with_what_rests_on_it() {
    let list = |on| String::from(sources_listed(&dated(), on));
    let expected = |again: &str| {
        format!(
            "dated, edition 1

The law (law)

  The Act
    https://law.example
    Read on 2026-03-01; {again} 2027-03-01.
    - rule `depth`, s. 1: 2 m

A page of the office that applies it (authority)

  A page
    Read on 2026-01-10.
    Note: It is old.
    - rule `depth`, s. 1: 2 m

Nobody looked it up (memory)

  From memory
    Nobody noted when it was read.
    - rule `depth`, s. 1: the depth

In all

  2 values: 1 from the law and 1 from memory.
"
        )
    };
    assert_eq!(list(None), expected("due to be read again after"));
    assert_eq!(list(Some(LAST_DAY)), expected("due to be read again after"));
    assert_eq!(list(Some(LAST_DAY + 1)), expected("overdue since"));
}

/// A rule may have its own day for the next comparison, besides those of its sources.
#[test]
fn a_rule_can_be_due_for_comparison_on_its_own_day() {
    let rule = format!("{RULE}, source: act, again: 2027-03-01}}");
    let set = set("dated", &format!("{DATED}rules:\n  - {rule}\n"));
    let said = |on| {
        let list = String::from(sources_listed(&set, on));
        let words: Vec<&str> = list.split_whitespace().collect();
        words.join(" ")
    };
    let before = said(Some(LAST_DAY));
    assert!(
        before.contains("`depth`, s. 1; to be compared again after 2027-03-01 "),
        "{before}"
    );
    let late = said(Some(LAST_DAY + 1));
    assert!(
        late.contains("`depth`, s. 1; overdue since 2027-03-01 "),
        "{late}"
    );
}

/// Of several sources for one value, the best counts. A rule without a source, in a file that has some, is from memory.
#[test]
fn values_are_counted_by_their_best_source() {
    let set = set(
        "two",
        &format!(
            "{DATED}rules:\n  - {RULE}, source: [memory, page, act]}}\n  - {{id: fill, title: T, clause: c, require: {{fact: pool.fill-depth, at-least: 1 m}}}}\n"
        ),
    );
    let counted = tally(&set.sourced_values());
    let some: Vec<_> = counted
        .into_iter()
        .filter(|(_, number)| *number > 0)
        .collect();
    assert_eq!(some, [(Grade::Law, 1), (Grade::Memory, 1)]);
    let list: String = sources_listed(&set, None).into();
    assert!(
        list.contains("No source is named, so it counts as from memory\n\n    - rule `fill`\n"),
        "{list}"
    );
    let none: String = sources_listed(&place("p", "P", "Q", ""), None).into();
    assert!(
        none.ends_with("  No value in it names a source.\n"),
        "{none}"
    );
}
