//! What is neither from the law nor from an office's page is marked where it is used, and summed up once.

use super::tried_tests::tried;
use super::*;
use crate::report::text::{Style, render};

const SOURCES: &str = "sources:
  act: {title: The Act, grade: law}
  page: {title: A page, grade: authority}
  archive: {title: An archive, grade: copy}
  blog: {title: A blog, grade: restatement}
  seller: {title: A seller, grade: trade}
  memory: {title: From memory, grade: memory}
";

fn reported(body: &str) -> Report {
    let rules = format!("ruleset: r\ntitle: R\nedition: '1'\nauthority: the office\n{body}");
    tried(&rules, None, "1.5 m")
}

fn rule(id: &str, more: &str) -> String {
    format!(
        "  - {{id: {id}, title: T, clause: s. 1, require: {{fact: pool.depth, at-most: 2 m}}{more}}}\n"
    )
}

fn mark(body: &str) -> Option<String> {
    reported(body)
        .rules
        .into_iter()
        .find(|rule| rule.id == "a")
        .unwrap()
        .mark
}

#[test]
fn a_rule_says_where_its_figures_are_from() {
    for (source, expected) in [
        ("act", None),
        ("page", None),
        ("[memory, page]", None),
        ("archive", Some("from a copy of the law")),
        ("blog", Some("from a restatement")),
        ("seller", Some("from the trade")),
        ("memory", Some("from memory, to be checked")),
        (
            "[{id: act, value: 2 m}, {id: memory, value: the depth}]",
            Some("from memory, to be checked (the depth)"),
        ),
        (
            "[{id: act, value: 2 m}, {id: act, value: x}, {id: blog, value: y}, {id: seller, value: z}, {id: seller, value: u}]",
            Some("from a restatement (y); from the trade (z; u)"),
        ),
        (
            "[{id: archive, value: y}, {id: archive, value: z}]",
            Some("from a copy of the law"),
        ),
    ] {
        let body = format!(
            "{SOURCES}rules:\n{}",
            rule("a", &format!(", source: {source}"))
        );
        assert_eq!(mark(&body).as_deref(), expected, "{source}");
    }
    let unsourced = format!("{SOURCES}rules:\n{}", rule("a", ""));
    assert_eq!(
        mark(&unsourced).as_deref(),
        Some("from memory, to be checked")
    );
    // A file that names no sources says nothing of its figures, unless it marks them.
    assert_eq!(mark(&format!("rules:\n{}", rule("a", ""))), None);
    let marked = rule("a", ", provenance: from-memory");
    assert_eq!(
        mark(&format!("rules:\n{marked}")).as_deref(),
        Some("from memory, to be checked")
    );
}

#[test]
fn a_rule_is_marked_for_the_terms_that_it_names() {
    let terms = "terms:\n  most-deep: {means: 2 m, source: seller}\n  other: {means: 3 m, source: memory}\n";
    let named = "rules:\n  - {id: a, title: T, clause: c, require: {fact: pool.depth, at-most: most-deep}, source: act}\n  - {id: b, title: T, clause: c, require: {fact: pool.depth, at-most: other}, source: act}\n";
    let mark = mark(&format!("{SOURCES}{terms}{named}"));
    assert_eq!(mark.as_deref(), Some("from the trade (most deep)"));
}

#[test]
fn classes_papers_and_steps_are_marked() {
    let body = format!(
        "{SOURCES}decide:\n  - {{id: class, title: Class, source: blog, table: {{rows: [{{otherwise: small}}]}}}}\n\
         documents:\n  - {{id: map, title: A map, needed: always, source: seller}}\n\
         do:\n  - {{id: tell, what: Tell them, before: dig, by: 3 days, source: memory}}\n\
         rules:\n{}",
        rule("a", ", source: [act, page, archive]")
    );
    let report = reported(&body);
    assert_eq!(
        report.decisions[0].mark.as_deref(),
        Some("from a restatement")
    );
    assert_eq!(report.documents[0].mark.as_deref(), Some("from the trade"));
    assert_eq!(
        report.duties[0].mark.as_deref(),
        Some("from memory, to be checked")
    );
    let text: String = render(&report, Style::default()).into();
    for line in [
        "Class: Small. (from a restatement)",
        "(from the trade)",
        "(from memory, to be checked)",
    ] {
        let words: Vec<&str> = text.split_whitespace().collect();
        assert!(words.join(" ").contains(line), "{line}\n{text}");
    }
}

#[test]
fn the_foot_sums_up_what_is_second_hand() {
    let rules = [
        rule(
            "a",
            ", source: [{id: act, value: one}, {id: archive, value: two}, {id: seller, value: three}]",
        ),
        rule("b", ", source: memory"),
        rule("c", ", source: [blog, page]"),
    ];
    let report = reported(&format!("{SOURCES}rules:\n{}", rules.concat()));
    let sentence = "Of the 5 values of these rules, 3 are neither from the law nor from an office's page: 1 from a copy of \
                    the law, 1 from the trade and 1 from memory. Each is marked where it is used.";
    assert_eq!(report.second_hand.as_ref().unwrap().sentence, sentence);
    let text: String = render(
        &report,
        Style {
            width: 1000,
            ..Style::default()
        },
    )
    .into();
    let foot = text.lines().rev().nth(1).unwrap();
    assert_eq!(foot, sentence);
    assert!(
        text.contains("(s. 1, from memory, to be checked)\n"),
        "{text}"
    );
    let good = rule("a", ", source: [act, page]");
    let others = rule("b", ", source: [act, archive, blog, seller, memory]");
    assert_eq!(
        reported(&format!("{SOURCES}rules:\n{good}{others}")).second_hand,
        None
    );
}
