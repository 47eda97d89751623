//! The command as a person or another program meets it: what it prints and how it ends.

use std::fs;
use std::path::Path;
use std::process::Stdio;

use rules_core::vocabulary::Matter;

use crate::common::*;

/// The example's plan with another depth, and without the answers to questions that only its own rules ask.
fn plan_with_depth(depth: &str) -> String {
    let plan = fs::read_to_string(PLAN).unwrap();
    let stated = "  depth: 1.5 m\n";
    assert!(
        plan.contains(stated),
        "the example's pool is no longer 1.5 m deep"
    );
    let mut in_answers = false;
    let kept = plan.replace(stated, depth);
    let kept = kept.split_inclusive('\n').filter(|line| {
        in_answers = line.starts_with("answers:") || (in_answers && line.starts_with(' '));
        !in_answers
    });
    kept.collect()
}

#[test]
fn help_is_as_expected() {
    for arguments in [&["--help"][..], &["-h"], &["help"]] {
        let output = run(arguments);
        assert_eq!(status(&output), 0);
        golden("help.txt", &stdout(&output));
    }
    golden("help-check.txt", &stdout(&run(&["help", "check"])));
    golden("help-check.txt", &stdout(&run(&["check", "--help"])));
    assert_eq!(
        stdout(&run(&["--version"])),
        format!("siting {}\n", env!("CARGO_PKG_VERSION"))
    );
}

#[test]
fn the_example_is_reported_as_expected() {
    let output = run(&[]);
    golden("example.txt", &stdout(&output));
    assert_eq!(stderr(&output), "");
    // The example was shown; what it found stands in the text.
    assert_eq!(status(&output), 0);
    let json = run(&["check", PLAN, "--rules", "eldermere", "--format", "json"]);
    golden("example.json", &stdout(&json));
    assert_eq!(status(&json), 1);
}

#[test]
fn a_path_and_a_bundled_name_give_the_same() {
    let by_name = run(&["check", PLAN, "--rules", "eldermere"]);
    let by_path = run(&["check", PLAN, "-r", RULES]);
    assert_eq!(stdout(&by_name), stdout(&by_path));
    let by_input = with_input(&["check", "-", "-r", RULES], &fs::read(PLAN).unwrap());
    assert_eq!(stdout(&by_name), stdout(&by_input));
}

/// A plan that complies, and says who answered for each matter.
fn plan_with_all_answered() -> String {
    let plan = plan_with_depth("  depth: 2 m\n");
    let mut answered = false;
    let others = plan.split_inclusive('\n').filter(|line| {
        answered = line.starts_with("answered:") || (answered && line.starts_with(' '));
        !answered
    });
    let answers = Matter::ALL.iter().map(|matter| matter.id());
    let answers = answers.map(|id| format!("  {id}: {{by: the office, on: 2026-03-02}}\n"));
    let (others, answers): (String, String) = (others.collect(), answers.collect());
    format!("{others}answered:\n{answers}")
}

#[test]
fn nothing_stands_against_a_plan_only_where_nothing_is_left_to_ask() {
    let folder = scratch("all-answered");
    let rules = write(&folder, "small.yaml", &depth_rules("small", ""));
    let plan = write(&folder, "plan.yaml", &plan_with_all_answered());
    let output = run(&["check", &plan, "--rules", &rules]);
    assert_eq!(status(&output), 0, "{}{}", stdout(&output), stderr(&output));
}

#[test]
fn the_status_is_the_verdict() {
    let folder = scratch("status");
    let rules = write(&folder, "small.yaml", &depth_rules("small", ""));
    let cases = [
        ("  depth: 2 m\n", 2),
        ("  depth: 2.001 m\n", 1),
        ("", 2),
        ("  depth: 2 feets\n", 3),
    ];
    for (depth, expected) in cases {
        let plan = write(&folder, "plan.yaml", &plan_with_depth(depth));
        let output = run(&["check", &plan, "--rules", &rules]);
        assert_eq!(
            status(&output),
            expected,
            "{depth}: {}{}",
            stdout(&output),
            stderr(&output)
        );
    }
}

#[test]
fn the_faults_of_both_files_are_shown() {
    let folder = scratch("faults");
    let rules = write(&folder, "bad.yaml", "ruleset: bad\nrulez: []\n");
    let plan = write(&folder, "plan.yaml", &plan_with_depth("  depth: 2 feets\n"));
    let output = run(&["check", &plan, "--rules", &rules]);
    assert_eq!(status(&output), 3);
    let shown = stderr(&output);
    assert!(
        shown.contains("feets") && shown.contains("rulez"),
        "{shown}"
    );
    assert_eq!(stdout(&output), "");
    let json = run(&["check", &plan, "--rules", &rules, "-f", "json"]);
    assert_eq!(status(&json), 3);
    let answer: serde_json::Value = serde_json::from_str(&stdout(&json)).unwrap();
    assert!(!answer["refused"]["plan"].as_array().unwrap().is_empty());
    assert!(
        !answer["refused"]["rules"][0]["faults"]
            .as_array()
            .unwrap()
            .is_empty()
    );
}

#[test]
fn bytes_that_are_no_text_are_a_fault_with_its_place() {
    let output = with_input(&["check", "-", "--rules", RULES], b"plan: x\ntitle: \xff\n");
    assert_eq!(status(&output), 3);
    assert!(stderr(&output).contains("line 2"), "{}", stderr(&output));
}

#[test]
fn a_rule_set_builds_on_a_file_beside_it() {
    let folder = scratch("bases");
    write(&folder, "ground/rules.yaml", &depth_rules("ground", ""));
    let beside = write(&folder, "local/beside.yaml", &depth_rules("beside", ""));
    assert!(Path::new(&beside).is_file());
    let plan = write(&folder, "plan.yaml", &plan_with_depth("  depth: 3 m\n"));
    for base in ["ground", "beside"] {
        let top = format!(
            "ruleset: top\ntitle: Top\nedition: '1'\nauthority: Top office\nbuilds-on: [{base}]\nrules: []\n"
        );
        let top = write(&folder, "local/top.yaml", &top);
        let output = run(&["check", &plan, "--rules", &top]);
        assert_eq!(status(&output), 1, "{}{}", stdout(&output), stderr(&output));
        assert!(
            stdout(&output).contains(&format!("rule `depth` in {base}, line 6")),
            "{}",
            stdout(&output)
        );
    }
}

#[test]
fn anything_else_is_said_in_plain_words() {
    let cases: [(&[&str], &str); 11] = [
        (
            &["check", "no-such-plan.yaml", "--rules", RULES],
            "There is no file `no-such-plan.yaml`.",
        ),
        (
            &["check", PLAN, "--rules", "eldermeer"],
            "There is no rule file `eldermeer`.",
        ),
        (&["check", PLAN], "By which rules?"),
        (&["check", "--rules", RULES], "Which plan?"),
        (
            &["check", PLAN, PLAN, "--rules", RULES],
            "is one word too many.",
        ),
        (
            &["check", PLAN, "--rulez", RULES],
            "Did you mean `--rules`?",
        ),
        (
            &["check", PLAN, "--rules"],
            "A value is missing after `--rules`.",
        ),
        (
            &["check", PLAN, "--rules", RULES, "--format", "jsn"],
            "Did you mean `json`?",
        ),
        (&["chek"], "Did you mean `check`?"),
        (
            &["check", "-", "--rules", "-"],
            "cannot both come from standard input",
        ),
        (
            &["check", PLAN, "--rules", "-", "--rules", "-"],
            "Only one rule set can come from standard input",
        ),
    ];
    trouble_is_told(&cases);
    let folder = run(&["check", env!("CARGO_MANIFEST_DIR"), "--rules", RULES]);
    assert_eq!(status(&folder), 4);
}

const TOWN: &str = "ruleset: town
title: Town
edition: '1'
authority: the town
rules:
  - {id: depth, title: Depth, clause: s. 1, require: {fact: pool.depth, at-most: LIMIT}}
";

/// The example's own words stay, though the town knows none of them, and the worst of the two verdicts holds.
#[test]
fn several_rule_sets_make_one_report() {
    let folder = scratch("several");
    let town = |limit: &str| {
        let path = folder.join(format!("town-{limit}.yaml"));
        fs::write(&path, TOWN.replace("LIMIT", limit)).unwrap();
        path.to_string_lossy().into_owned()
    };
    let plan = folder.join("plan.yaml");
    let deep = fs::read_to_string(PLAN).unwrap();
    fs::write(&plan, deep.replace("  depth: 1.5 m\n", "  depth: 2 m\n")).unwrap();
    let plan = plan.to_string_lossy();
    let alone = run(&["check", &plan, "--rules", RULES]);
    for (limit, expected) in [("3m", status(&alone)), ("1m", 1)] {
        let both = run(&["check", &plan, "--rules", RULES, "--rules", &town(limit)]);
        assert_eq!((status(&both), stderr(&both)), (expected, String::new()));
        let text = stdout(&both);
        for line in [
            "- eldermere: ",
            "- town: Town, edition 1 (the town)",
            "eldermere: `answers.",
        ] {
            assert!(text.contains(line), "{line}: {text}");
        }
    }
    let once = run(&["check", &plan, "--rules", RULES, "--rules", RULES]);
    assert_eq!(stdout(&once), stdout(&alone), "one file is one rule set");
}

/// Each file at fault is told under its own name.
#[test]
fn the_faults_of_several_rule_sets_are_told_file_by_file() {
    let folder = scratch("several-broken");
    let broken = ["one.yaml", "two.yaml"].map(|name| {
        let path = folder.join(name);
        fs::write(&path, format!("rules: [] # {name}\n")).unwrap();
        path.to_string_lossy().into_owned()
    });
    let output = run(&["check", PLAN, "--rules", &broken[0], "--rules", &broken[1]]);
    assert_eq!(status(&output), 3);
    for file in &broken {
        assert!(
            stderr(&output).contains(&format!("in {file}")),
            "{}",
            stderr(&output)
        );
    }
}

#[test]
fn colour_is_printed_only_where_it_is_asked_for() {
    let coloured = |arguments: &[&str], no_color: &str| {
        let mut command = siting(&["check", PLAN, "--rules", RULES]);
        command.args(arguments).env("NO_COLOR", no_color);
        stdout(&command.output().unwrap()).contains('\u{1b}')
    };
    assert!(!coloured(&[], ""));
    assert!(coloured(&["--colour", "always"], ""));
    assert!(!coloured(&["--colour", "never"], ""));
    assert!(!coloured(&["--colour", "auto"], "1"));
}

#[test]
fn nobody_listening_is_no_accident() {
    let mut command = siting(&["check", PLAN, "--rules", RULES]);
    command.stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(
        status(&output),
        status(&run(&["check", PLAN, "--rules", RULES]))
    );
    assert_eq!(stderr(&output), "");
}

const BEHIND_A_HOUSE: &str = "\
plan: home
title: A pool behind a house
unit: m
sources: [{id: survey, by: survey, accuracy: 20 mm, shift: 0 mm}]
lot:
  source: survey
  corners: {a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}
  sides:
    - {id: street, from: a, to: b, faces: front, beyond: road}
    - {id: east, from: b, to: c, faces: side, beyond: neighbour-lot}
    - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
    - {id: west, from: d, to: a, faces: side, beyond: neighbour-lot}
pool:
  id: pool
  source: survey
  water: {rectangle: {at: [10, 34], length: 8 m, width: 4 m}}
  depth: 1.5 m
";

#[test]
fn a_report_is_in_the_language_that_is_asked_for() {
    let report = |more: &[&str]| {
        let arguments = [&["check", "-", "--rules"], more].concat();
        let output = with_input(&arguments, BEHIND_A_HOUSE.as_bytes());
        assert_eq!(status(&output), 2, "{}", stderr(&output));
        stdout(&output)
    };
    let norwegian = report(&["norway", "--language", "nb"]);
    for line in [
        "etter Norge, private svømmebasseng, nasjonale regler, utgave ",
        "\nIkke avgjort ennå.\n",
        "\nSpørsmål å svare på\n",
        "regel `road` i norway",
        "fra en kopi av loven",
    ] {
        assert!(norwegian.contains(line), "{line}\n{norwegian}");
    }
    let french = report(&["quebec", "-l", "fr"]);
    for line in [
        "\nPas encore décidé.\n",
        "\nDocuments à réunir\n",
        "\nQue faire maintenant\n",
    ] {
        assert!(french.contains(line), "{line}\n{french}");
    }
    // Two rule sets together.
    let both = report(&["quebec", "--rules", "digging", "-l", "fr"]);
    assert!(
        both.contains("\nselon ces ensembles de règles réunis :\n"),
        "{both}"
    );
    assert_eq!(report(&["norway", "--language", "en"]), report(&["norway"]));
    trouble_is_told(&[(
        &["check", PLAN, "--rules", "norway", "--language", "Norsk"],
        "`Norsk` is not the short name of a language.",
    )]);
}
