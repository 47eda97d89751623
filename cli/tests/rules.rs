//! `siting rules`: what a clerk sees of a rule file.

use crate::common::*;

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
        &["rules", "try", "--help"],
        &["rules", "compare", "-h"],
        &["rules", "sources", "--help"],
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
            let place = format!(": {name}");
            let code = format!("  {name}: ");
            let is_of = |line: &str| line.ends_with(&place) || line.starts_with(&code);
            assert!(listed.lines().any(is_of), "{name}: {listed}");
            count += 1;
        }
    }
    assert!(count > 10);
    assert!(listed.lines().all(|line| line.chars().count() <= 80));
    for heading in [
        "Places",
        "Codes that places adopt",
        "Topics, whatever the place",
        "Examples",
    ] {
        assert!(listed.contains(&format!("\n\n{heading}\n\n")), "{heading}");
    }
    assert!(
        listed.contains("19 rules, 30 more from barrier-model.\n"),
        "{listed}"
    );
    assert!(
        !listed.contains("\nOthers\n"),
        "each has a `sort`: {listed}"
    );
}

#[test]
fn the_list_can_be_narrowed_down_and_asked_about_a_day() {
    let list = |on: &str| {
        let output = run(&["rules", "list", "new brunswick", "--on", on]);
        assert_eq!(status(&output), 0);
        stdout(&output)
    };
    let late = list("2099-01-01");
    let entry = "Places\n\nCanada\n  New Brunswick: new-brunswick\n      ";
    assert!(late.contains(entry), "{late}");
    assert!(
        !late.contains("Ontario") && !late.contains("Codes"),
        "{late}"
    );
    assert!(late.contains(" to be read"), "{late}");
    assert!(!list("2020-01-01").contains(" to be read"));
}

#[test]
fn the_sources_of_a_rule_set_are_listed() {
    let sources = "sources:\n  bylaw: {title: Bylaw 13, at: 'https://hazelbrook.example/13', grade: law, read: 2026-02-01, again: 2027-02-01}\n  \
                   seller: {title: A fence seller, grade: trade, read: 2026-02-02}\n";
    let rules = depth_rules("hazelbrook", "").replace("rules:\n", &format!("{sources}rules:\n"));
    let rules = rules.replace(
        "clause: s. 1\n",
        "clause: s. 1\n    source: [bylaw, {id: seller, value: the place}]\n",
    );
    let output = with_input(
        &["rules", "sources", "-", "--on", "2027-02-02"],
        rules.as_bytes(),
    );
    assert_eq!(status(&output), 0, "{}", stderr(&output));
    golden("rules-sources.txt", &stdout(&output));
}

#[test]
fn a_rule_file_in_order_says_so() {
    let output = run(&["rules", "check", RULES]);
    assert_eq!(status(&output), 0);
    assert!(stdout(&output).contains("nothing is wrong with it (31 rules).\n"));
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
    let page = stdout(&run(&["rules", "read", "eldermere", "--format", "page"]));
    assert!(page.starts_with("<!DOCTYPE html>"), "{page}");
    assert!(page.contains("the written rule stands") && page.contains("Signature"));
    // Each rule has a row of its own with its clause, and nothing is fetched from elsewhere.
    assert!(
        page.contains("<th scope=\"row\">By-law 7, s. 10(1)<p>Pool to front lot line</p></th>")
    );
    assert!(!page.contains("src=") && !page.contains("href="));
}

#[test]
fn slips_on_the_command_line_are_said_in_plain_words() {
    let cases: [(&[&str], &str); 11] = [
        (&["rules", "compare", "eldermere"], "Which two rule sets?"),
        (&["rules", "try"], "Which rules?"),
        (
            &["rules", "try", "eldermere", "--cases", "none.yaml"],
            "There is no file `none.yaml`.",
        ),
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
        (
            &["rules", "list", "atlantis"],
            "No rule set has “atlantis” in it.",
        ),
        (
            &["rules", "list", "--on", "soon"],
            "`soon` is not a day of the calendar.",
        ),
        (&["rules", "sources"], "Which rules?"),
    ];
    trouble_is_told(&cases);
}

#[test]
fn the_cases_of_a_bundled_rule_set_are_tried() {
    let output = run(&["rules", "try", "quebec", "--edges"]);
    assert_eq!(status(&output), 0);
    golden("rules-try.txt", &stdout(&output));
}

#[test]
fn an_outcome_that_no_rule_comes_to_is_a_fault_of_the_cases() {
    let folder = scratch("no-outcome");
    let inside = format!(
        "{}cases:\n{}",
        depth_rules("small", ""),
        depth_cases("passes")
    );
    let rules = write(&folder, "small.yaml", &inside);
    for command in ["try", "check"] {
        let output = run(&["rules", command, &rules]);
        assert_eq!(status(&output), 3);
        assert!(
            stderr(&output).contains("Did you mean `pass`?"),
            "{}",
            stderr(&output)
        );
    }
}

#[test]
fn a_companion_that_does_not_come_with_the_program_is_asked_about() {
    let text = "\
ruleset: companion
title: Companion
edition: '1'
authority: Small office
belongs-with: [electrical-code]
rules:
  - {id: depth, title: Depth, clause: s. 1, require: {fact: pool.depth, at-most: 2 m}}
";
    let output = with_input(&["rules", "check", "-"], text.as_bytes());
    assert_eq!(status(&output), 0, "{}", stderr(&output));
    assert!(
        stdout(&output).contains("Is `electric-model` meant?"),
        "{}",
        stdout(&output)
    );
}

/// Cases of the small rule set about the depth of the pool.
fn depth_cases(expected: &str) -> String {
    format!(
        "- case: deep\n  title: A deep pool\n  expect: {{depth: {expected}}}\n  plan:\n    plan: p\n    title: P\n    \
         unit: m\n    lot: {{corners: {{a: [0, 0], b: [30, 0], c: [30, 30], d: [0, 30]}}}}\n    pool: {{id: pool, \
         water: [[5, 5], [9, 5], [9, 9]], depth: 2.5 m}}\n"
    )
}

#[test]
fn a_case_that_comes_out_otherwise_is_told() {
    let folder = scratch("cases");
    let inside = format!(
        "{}cases:\n{}",
        depth_rules("small", ""),
        depth_cases("pass")
    );
    let rules = write(&folder, "small.yaml", &inside);
    let output = run(&["rules", "try", &rules]);
    assert_eq!(status(&output), 1, "{}", stderr(&output));
    golden("rules-try-otherwise.txt", &stdout(&output));

    let good = write(
        &folder,
        "good.yaml",
        &format!("cases:\n{}", depth_cases("fail")),
    );
    let output = run(&["rules", "try", &rules, "--cases", &good]);
    assert_eq!(status(&output), 0, "{}", stdout(&output));

    write(
        &folder,
        "beside/cases.yaml",
        "cases: [{case: a, titel: A}]\n",
    );
    let beside = write(&folder, "beside/rules.yaml", &depth_rules("beside", ""));
    for command in ["try", "check"] {
        let output = run(&["rules", command, &beside]);
        assert_eq!(status(&output), 3);
        assert!(stderr(&output).contains("titel"), "{}", stderr(&output));
    }
}

#[test]
fn a_case_on_each_side_of_each_limit_is_written_out_to_be_kept() {
    let folder = scratch("made-cases");
    let text = format!(
        "{}cases:\n{}",
        depth_rules("small", ""),
        depth_cases("fail")
    );
    let rules = write(&folder, "small.yaml", &text);
    let output = run(&["rules", "cases", &rules]);
    assert_eq!(status(&output), 0, "{}", stderr(&output));
    let made = stdout(&output);
    for (place, outcome) in [
        ("just-inside", "pass"),
        ("at-the-limit", "pass"),
        ("just-outside", "fail"),
    ] {
        let (_, case) = made
            .split_once(&format!("case: depth-1-{place}"))
            .expect(place);
        let expected = format!("expect: {{depth: {outcome}}}");
        assert_eq!(case.find("expect:"), case.find(&expected), "{made}");
    }
    let kept = write(&folder, "made.yaml", &format!("cases:\n{made}"));
    let output = run(&["rules", "try", &rules, "--cases", &kept]);
    assert_eq!(status(&output), 0, "{}", stdout(&output));
    assert!(stdout(&output).contains("All 3 cases come out as expected."));
}

#[test]
fn a_new_edition_is_compared_with_the_old_one() {
    let folder = scratch("compare");
    let rules = std::fs::read_to_string(RULES).unwrap();
    let (head, _) = rules.split_once("  - id: rear-line").unwrap();
    let (_, rest) = rules.split_once("  - id: street-side-line").unwrap();
    let new = format!("{head}  - id: street-side-line{rest}");
    let new = new
        .replace("setback: 3 m", "setback: 1.5 m")
        .replace("at-least: 1.2 m}", "at-least: 1.3 m}")
        .replace("      - {rule: rear-line, outcome: marginal}\n", "")
        .replace("    takes: 6 weeks", "    takes: 8 weeks");
    // Nothing asks for the consent at the rear any more; that is a slip, not a fault.
    let new = write(&folder, "new.yaml", &new);
    let output = run(&["rules", "compare", "eldermere", &new]);
    assert_eq!(status(&output), 0, "{}", stderr(&output));
    golden("rules-compare.txt", &stdout(&output));
    let with_plan = run(&["rules", "compare", RULES, &new, PLAN]);
    let (_, of_plan) = stdout(&with_plan)
        .split_once("home.yaml: ")
        .map(|(a, b)| (a.to_owned(), b.to_owned()))
        .unwrap();
    golden("rules-compare-plan.txt", &of_plan);

    let as_json = run(&["rules", "compare", RULES, &new, PLAN, "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&stdout(&as_json)).expect("JSON");
    assert_eq!(json["same"], false);
    assert_eq!(json["summary"]["plans"], 1);
    let plans = folder.join("plans");
    std::fs::create_dir_all(&plans).unwrap();
    std::fs::copy(PLAN, plans.join("home.yaml")).unwrap();
    let of_folder = run(&["rules", "compare", RULES, &new, &plans.to_string_lossy()]);
    assert!(
        stdout(&of_folder).contains("of 1 plan newly fail"),
        "{}",
        stdout(&of_folder)
    );

    let same = run(&["rules", "compare", RULES, "eldermere"]);
    assert_eq!(stdout(&same), "Both say the same.\n");
    let bad = write(&folder, "plan.yaml", "plan: x\n");
    let refused = run(&["rules", "compare", RULES, RULES, &bad]);
    assert_eq!(status(&refused), 3);
    assert!(stderr(&refused).contains("`lot`"), "{}", stderr(&refused));
}
