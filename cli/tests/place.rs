//! `siting place`: where the pool could go.

use crate::common::*;

#[test]
fn the_help_is_as_expected() {
    for arguments in [&["help", "place"][..], &["place", "--help"]] {
        let output = run(arguments);
        assert_eq!(status(&output), 0);
        golden("help-place.txt", &stdout(&output));
    }
}

/// The example home: nothing fits there as drawn.
#[test]
fn the_places_of_the_example() {
    let arguments = ["place", PLAN, "--rules", RULES, "--finest", "400"];
    let text = run(&arguments);
    let shown = stdout(&text);
    assert!(shown.lines().all(|line| line.chars().count() <= 80));
    assert!(!shown.to_lowercase().contains("approved"));
    let json = run(&[&arguments[..], &["--format", "json"]].concat());
    assert_eq!(status(&json), status(&text));
    let json: serde_json::Value = serde_json::from_str(&stdout(&json)).unwrap();
    let places = json["placement"]["options"].as_array().unwrap();
    for place in places {
        let rules = place["rules"].as_array().unwrap();
        assert!(rules.iter().all(|rule| rule["outcome"] != "fail"));
    }
}

#[test]
fn slips_are_said_in_plain_words() {
    let cases: [(&[&str], &str); 5] = [
        (&["place", PLAN], "By which rules?"),
        (&["place", "-r", RULES], "siting place my-plan.yaml"),
        (
            &["place", PLAN, "-r", RULES, "--turns", "0"],
            "`--turns` takes a whole number from 1 to 64.",
        ),
        (
            &["place", PLAN, "-r", RULES, "--pool", "pond"],
            "There is no pool `pond` drawn here; there is `pool`.",
        ),
        (
            &["place", PLAN, "-r", RULES, "--with", "hedge"],
            "There is no `hedge` on this plan.",
        ),
    ];
    trouble_is_told(&cases);
}
