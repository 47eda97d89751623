//! `siting rules`: what a clerk sees of a rule file.

mod common;

use common::*;

/// A rule file with a slip of each of several sorts.
const BROKEN: &str = "\
ruleset: broken
title: Broken
edition: '1'
authority: Small office
terms:
  pool-edge: pool.watr
rules:
  - id: rear
    title: Pool to rear lot line
    clause: s. 1
    each: {kind: lot-line, where: {fact: lot-line.faces, is: reer}}
    require: {distance: {from: pool.water, to: lot-line}, at-least: 3 m}
  - id: depth
    title: Depth
    require: {fact: pool.dept, at-most: 2 m}
  - id: weight
    title: Weight
    clause: s. 4
    require: {fact: pool.depth, at-most: 3 kg}
  - id: latch
    title: Latch
    clause: s. 3
    each: gate
    require: {fact: gate.latch-height, at-leest: 1.4 m}
";

#[test]
fn the_help_is_as_expected() {
    for arguments in [
        &["help", "rules"][..],
        &["rules"],
        &["rules", "--help"],
        &["rules", "list", "-h"],
        &["rules", "check", "-h"],
        &["rules", "read", "--help"],
    ] {
        let output = run(arguments);
        assert_eq!(status(&output), 0);
        golden("help-rules.txt", &stdout(&output));
    }
}

#[test]
fn every_bundled_rule_set_is_listed() {
    let output = run(&["rules", "list"]);
    assert_eq!(status(&output), 0);
    let listed = stdout(&output);
    let folders = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../rulesets")).unwrap();
    let mut count = 0;
    for folder in folders.map(|entry| entry.unwrap()) {
        if folder.path().join("rules.yaml").is_file() {
            let name = folder.file_name().into_string().unwrap();
            assert!(listed.lines().any(|line| line == name), "{name}: {listed}");
            count += 1;
        }
    }
    assert!(count > 10);
    let eldermere = "eldermere\n    Eldermere, private pools, edition 2026-01\n    Eldermere building office; 28 rules\n";
    assert!(listed.contains(eldermere), "{listed}");
    assert!(
        listed.contains("16 rules, and 26 of barrier-model\n"),
        "{listed}"
    );
}

#[test]
fn a_rule_file_in_order_says_so() {
    let output = run(&["rules", "check", RULES]);
    assert_eq!(status(&output), 0);
    assert!(stdout(&output).ends_with("nothing is wrong with it (28 rules).\n"));
    assert_eq!(stderr(&output), "");
}

#[test]
fn all_faults_of_a_broken_file_are_shown_in_one_run() {
    let output = with_input(&["rules", "check", "-"], BROKEN.as_bytes());
    assert_eq!(status(&output), 3);
    golden("rules-check-broken.txt", &stderr(&output));
    assert_eq!(stdout(&output), "");
    for wrong in ["watr", "reer", "3 kg", "pool.dept", "at-leest"] {
        assert!(stderr(&output).contains(wrong), "{wrong} is not told of");
    }
    let read = with_input(&["rules", "read", "-"], BROKEN.as_bytes());
    assert_eq!(status(&read), 3);
    assert_eq!(stderr(&read), stderr(&output));
}

#[test]
fn what_looks_like_a_slip_is_shown_and_is_no_fault() {
    let text = "\
ruleset: slip
title: Slip
edition: '1'
authority: Small office
terms: {never: 3 m}
rules:
  - {id: depth, title: Depth, clause: s. 1, require: {fact: pool.depth, at-most: 2 m}}
";
    let output = with_input(&["rules", "check", "-"], text.as_bytes());
    assert_eq!(status(&output), 0, "{}", stderr(&output));
    golden("rules-check-slip.txt", &stdout(&output));
}

#[test]
fn a_rule_file_is_read_back() {
    let text = run(&["rules", "read", "eldermere"]);
    assert_eq!(status(&text), 0);
    golden("rules-read.txt", &stdout(&text));
    let markdown = run(&["rules", "read", "eldermere", "--format", "markdown"]);
    golden("rules-read.md", &stdout(&markdown));
}

#[test]
fn slips_on_the_command_line_are_said_in_plain_words() {
    let cases: [(&[&str], &str); 6] = [
        (&["rules", "chek"], "Did you mean `check`?"),
        (&["rules", "check"], "Which rules?"),
        (&["rules", "read"], "Which rules?"),
        (
            &["rules", "read", "eldermere", "-f", "markdwn"],
            "Did you mean `markdown`?",
        ),
        (
            &["rules", "check", "eldermeer"],
            "There is no rule file `eldermeer`.",
        ),
        (&["rules", "list", "all"], "`all` is one word too many."),
    ];
    for (arguments, expected) in cases {
        let output = run(arguments);
        assert_eq!(status(&output), 4, "{arguments:?}");
        assert!(
            stderr(&output).contains(expected),
            "{arguments:?}: {}",
            stderr(&output)
        );
        assert_eq!(stdout(&output), "", "{arguments:?}");
    }
}
