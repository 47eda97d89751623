//! `siting steps`: the days of a project.

use crate::common::*;

#[test]
fn the_help_is_as_expected() {
    for arguments in [&["help", "steps"][..], &["steps", "--help"]] {
        let output = run(arguments);
        assert_eq!(status(&output), 0);
        golden("help-steps.txt", &stdout(&output));
    }
}

#[test]
fn the_steps_of_the_example() {
    let arguments = ["steps", PLAN, "--rules", RULES, "--start", "2026-03-02"];
    let text = run(&arguments);
    assert_eq!(status(&text), 0, "{}", stderr(&text));
    golden("steps.txt", &stdout(&text));
    let json = run(&[&arguments[..], &["--format", "json"]].concat());
    golden("steps.json", &stdout(&json));
    let steps: serde_json::Value = serde_json::from_str(&stdout(&json)).unwrap();
    assert_eq!(steps["steps"]["steps"][0]["earliest"], "2026-03-02");
}

/// A pool that needs no permit waits for nobody.
#[test]
fn who_needs_no_permit_digs_at_once() {
    let folder = scratch("steps");
    let plan = std::fs::read_to_string(PLAN).unwrap();
    let shallow = plan.replace("  depth: 1.5 m\n", "  depth: 600 mm\n");
    assert_ne!(plan, shallow);
    let plan = write(&folder, "shallow.yaml", &shallow);
    let output = run(&["steps", &plan, "-r", "eldermere", "-s", "2026-03-02"]);
    golden("steps-no-permit.txt", &stdout(&output));
}

#[test]
fn faults_and_slips_are_said_in_plain_words() {
    let circle = "ruleset: c\ntitle: C\nedition: '1'\nauthority: nobody\nrules: []\ndo:\n  - {id: dig, before: fill}\n  - {id: \
                  fill, before: dig}\n";
    let output = with_input(
        &["steps", PLAN, "-r", "-", "-s", "2026-03-02"],
        circle.as_bytes(),
    );
    assert_eq!(status(&output), 3);
    golden("steps-circle.txt", &stderr(&output));
    let cases: [(&[&str], &str); 4] = [
        (&["steps", PLAN, "-r", RULES], "Starting on which day?"),
        (
            &["steps", PLAN, "-r", RULES, "-s", "2026-02-30"],
            "`2026-02-30` is not a day of the calendar.",
        ),
        (&["steps", PLAN, "-s", "2026-03-02"], "By which rules?"),
        (&["steps", "-r", RULES], "siting steps my-plan.yaml"),
    ];
    trouble_is_told(&cases);
}
