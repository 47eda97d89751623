//! Whatever a file, a name or an argument says, nothing hidden comes out of any command: no control, no mark of direction,
//! no line end that is not the command's own; and JSON gives every text back as it was.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::process::Output;

use crate::common::*;
use rules_core::report::Report;
use rules_core::text::{Content, Node, read, to_json_text};
use rules_core::{judge_texts, read_rules, steps_texts};

/// A colour, the title of a window, an end of a line with a forged one behind it, controls, separators, directions, a space
/// without width, a mark of byte order, and a tag that nobody sees.
const HOSTILE: &str = " \u{1b}[31m\u{1b}]0;x\u{7}\nFORGED\r\u{7f}\u{9b}2J\u{85}\u{2028}\u{2029}\u{202e}\u{2066}\u{200f}\u{61c}\u{200b}\u{2060}\u{feff}\u{e0041}";

/// What the command itself marks a line with where colour is asked for.
const MARKS: [&str; 6] = ["1", "2", "1;31", "1;32", "1;33", "0"];

fn is_hidden(c: char) -> bool {
    c.is_control() && c != '\n'
        || matches!(c, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
        || u32::from(c) > 0xe0000
}

fn nothing_hidden(what: &str, output: &Output) {
    for text in [stdout(output), stderr(output)] {
        let plain = MARKS.iter().fold(text.clone(), |text, code| {
            text.replace(&format!("\u{1b}[{code}m"), "")
        });
        let found = plain.char_indices().find(|(_, c)| is_hidden(*c));
        assert_eq!(found, None, "{what}: {text:?}");
    }
    nothing_forged(what, &stderr(output));
    assert!(status(output) <= 4, "{what}");
}

/// A line end in a text begins no line of the command's own. (Where paragraphs are wrapped, any word may begin a line.)
fn nothing_forged(what: &str, text: &str) {
    let forged = text
        .lines()
        .find(|line| line.trim_start().starts_with("FORGED"));
    assert_eq!(forged, None, "{what}: {text:?}");
}

/// Gives a changed text to the leaves that are chosen, each told by its number and its place without numbers.
fn changed(node: &Node, change: &dyn Fn(usize) -> bool) -> (Node, Vec<String>) {
    fn walk(node: &mut Node, path: &str, change: &dyn Fn(usize) -> bool, paths: &mut Vec<String>) {
        match &mut node.content {
            Content::Scalar { text, quoted } => {
                if change(paths.len()) {
                    text.push_str(HOSTILE);
                    *quoted = true;
                }
                paths.push(path.to_owned());
            }
            Content::List(items) => items
                .iter_mut()
                .for_each(|item| walk(item, &format!("{path}[]"), change, paths)),
            Content::Map(entries) => entries.iter_mut().for_each(|entry| {
                walk(
                    &mut entry.value,
                    &format!("{path}.{}", entry.key),
                    change,
                    paths,
                );
            }),
            Content::Empty => {}
        }
    }
    let (mut node, mut paths) = (node.clone(), Vec::new());
    walk(&mut node, "", change, &mut paths);
    (node, paths)
}

/// A document with hostile texts wherever they are let in, and one for each place where they are not.
struct Made {
    accepted: String,
    places: BTreeSet<String>,
    refused: BTreeMap<String, String>,
}

fn made(text: &str, is_read: &dyn Fn(&str) -> bool) -> Made {
    let node = read(text).unwrap();
    let (_, paths) = changed(&node, &|_| false);
    let alone = |leaf: usize| to_json_text(&changed(&node, &|at| at == leaf).0);
    let mut tried: BTreeMap<&str, bool> = BTreeMap::new();
    let mut refused = BTreeMap::new();
    for (leaf, path) in paths.iter().enumerate() {
        if !tried.contains_key(path.as_str()) {
            let text = alone(leaf);
            let good = is_read(&text);
            tried.insert(path, good);
            if !good {
                refused.insert(path.clone(), text);
            }
        }
    }
    let hostile = |leaf: usize| tried.get(paths[leaf].as_str()) == Some(&true);
    let accepted = to_json_text(&changed(&node, &hostile).0);
    assert!(is_read(&accepted), "{accepted}");
    let places = tried.iter().filter(|(_, good)| **good);
    Made {
        accepted,
        places: places.map(|(path, _)| (*path).to_owned()).collect(),
        refused,
    }
}

/// Beside the example's own texts, those that it has no use for.
const MORE_TEXTS: &str = "
kinds:
  - id: swing
    said: a swing
    ask: Is there a swing?
    facts:
      - {id: height, said: height of the swing, answer: length, ask: How high is it?, how: Measure it.}
      - {id: colour, said: colour of the swing, answer: [red, blue], ask: Which colour?, how: Look at it.}
";

fn hostile_rules() -> Made {
    let text = fs::read_to_string(RULES).unwrap() + MORE_TEXTS;
    let text = text.replacen("    remedy:", "    note: Ask first.\n    remedy:", 1);
    made(&text, &|text| {
        read_rules(text, &|name| siting_rulesets::rules(name)).is_ok()
    })
}

fn hostile_plan(rules: &str) -> Made {
    let text = fs::read_to_string(PLAN).unwrap();
    made(&text, &|text| {
        judge_texts(text, rules, &|name| siting_rulesets::rules(name)).is_ok()
    })
}

/// The commands that a help names under `Commands:`.
fn commands_of(help: &[&str]) -> BTreeSet<String> {
    let help = stdout(&run(help));
    let list = help.split("Commands:\n").nth(1).unwrap();
    let list = list.split("\n\n").next().unwrap();
    let lines = list
        .lines()
        .filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    let words = lines.filter_map(|line| line.split_whitespace().next());
    words.map(str::to_owned).collect()
}

#[test]
fn every_command_in_every_format_shows_what_hides() {
    let folder = scratch("hostile");
    let rules = hostile_rules();
    let plan = hostile_plan(&rules.accepted);
    for needed in [
        ".title",
        ".edition",
        ".authority",
        ".notice",
        ".questions[].ask",
        ".questions[].how",
        ".cautions[].says",
        ".do[].what",
        ".do[].who",
        ".documents[].title",
        ".documents[].from",
        ".documents[].form",
        ".rules[].title",
        ".rules[].clause",
        ".rules[].remedy",
        ".rules[].note",
        ".decide[].title",
        ".decide[].clause",
        ".kinds[].said",
        ".kinds[].facts[].said",
    ] {
        assert!(
            rules.places.contains(needed),
            "{needed}: {:?}",
            rules.places
        );
    }
    assert!(plan.places.contains(".title"), "{:?}", plan.places);
    let rules = write(&folder, "rules.yaml", &rules.accepted);
    let plan = write(&folder, "plan.yaml", &plan.accepted);
    write(&folder, "cases.yaml", &hostile_cases());
    let out = folder.join("no-such-folder").join(format!("form{HOSTILE}"));
    let lines: Vec<Vec<&str>> = vec![
        vec![],
        vec!["help"],
        vec!["check", &plan, "--rules", &rules],
        vec!["check", &plan, "--rules", &rules, "--colour", "always"],
        vec!["check", &plan, "--rules", &rules, "--format", "json"],
        vec!["steps", &plan, "--rules", &rules, "--start", "2026-03-02"],
        vec![
            "steps",
            &plan,
            "--rules",
            &rules,
            "--start",
            "2026-03-02",
            "--format",
            "json",
        ],
        vec!["place", &plan, "--rules", &rules],
        vec!["place", &plan, "--rules", &rules, "--format", "json"],
        vec![
            "place", &plan, "--rules", &rules, "--finest", "2000", "--format", "svg",
        ],
        vec!["draw", &plan, "--rules", &rules],
        vec!["rules", "list"],
        vec!["rules", "check", &rules],
        vec!["rules", "read", &rules],
        vec!["rules", "read", &rules, "--format", "markdown"],
        vec!["rules", "read", &rules, "--format", "page"],
        vec!["rules", "sources", &rules],
        vec!["rules", "try", &rules, "--edges"],
        vec!["rules", "cases", &rules],
        vec!["rules", "compare", RULES, &rules, &plan],
        vec!["rules", "compare", &rules, RULES, PLAN],
        vec!["form", "--out", out.to_str().unwrap()],
    ];
    let said: BTreeSet<&str> = lines
        .iter()
        .filter_map(|line| line.first().copied())
        .collect();
    assert_eq!(
        said,
        commands_of(&["--help"])
            .iter()
            .map(String::as_str)
            .collect()
    );
    let of_rules = lines.iter().filter(|line| line.first() == Some(&"rules"));
    let of_rules: BTreeSet<&str> = of_rules.filter_map(|line| line.get(1).copied()).collect();
    assert_eq!(
        of_rules,
        commands_of(&["rules", "--help"])
            .iter()
            .map(String::as_str)
            .collect()
    );
    for line in lines {
        let output = run(&line);
        nothing_hidden(&format!("{line:?}"), &output);
        if line.first() == Some(&"rules") {
            nothing_forged(&format!("{line:?}"), &stdout(&output));
        }
        let wanted = line.contains(&rules.as_str());
        let shows = stdout(&output).contains("‹U+") || stdout(&output).contains("\\u001b");
        assert_eq!(
            shows,
            wanted,
            "{line:?}: {}{}",
            stdout(&output),
            stderr(&output)
        );
    }
}

/// A case that does not come out as it says, so that its texts are printed.
fn hostile_cases() -> String {
    let plan = to_json_text(&read(&fs::read_to_string(PLAN).unwrap()).unwrap());
    let expected = "expect: {rear-line: pass}";
    let cases = read(&format!(
        "cases: [{{case: a, title: A, plan: {plan}, {expected}}}]"
    ));
    to_json_text(&changed(&cases.unwrap(), &|leaf| leaf == 1).0)
}

#[test]
fn what_is_refused_is_shown_too() {
    let folder = scratch("hostile-refused");
    let rules = hostile_rules();
    let plan = hostile_plan(&fs::read_to_string(RULES).unwrap());
    assert!(rules.refused.len() > 40 && plan.refused.len() > 40);
    for (path, text) in &rules.refused {
        let file = write(&folder, "rules.yaml", text);
        for format in ["text", "json"] {
            let output = run(&["check", PLAN, "--rules", &file, "--format", format]);
            nothing_hidden(path, &output);
            assert_eq!(status(&output), 3, "{path}");
        }
        nothing_hidden(path, &run(&["rules", "check", &file]));
    }
    for (path, text) in &plan.refused {
        let file = write(&folder, "plan.yaml", text);
        for format in ["text", "json"] {
            let output = run(&["check", &file, "--rules", RULES, "--format", format]);
            nothing_hidden(path, &output);
            assert_eq!(status(&output), 3, "{path}");
        }
    }
}

#[test]
fn a_key_and_raw_bytes_are_shown_too() {
    let hostile = serde_json::to_string(HOSTILE).unwrap();
    let raw = HOSTILE.replace('\n', "");
    for text in [
        format!("plan: x\n{hostile}: 1\n"),
        format!("plan: x\ntitle: {raw}\n"),
        format!("plan: x\nlot: {{corners: {{{hostile}: [0, 0]}}}}\n"),
    ] {
        for format in ["text", "json"] {
            let arguments = ["check", "-", "--rules", RULES, "--format", format];
            let output = with_input(&arguments, text.as_bytes());
            nothing_hidden(&text, &output);
            assert_eq!(status(&output), 3);
        }
    }
}

#[test]
fn json_gives_every_text_back() {
    let folder = scratch("hostile-json");
    let rules_text = hostile_rules().accepted;
    let plan_text = hostile_plan(&rules_text).accepted;
    let rules = write(&folder, "rules.yaml", &rules_text);
    let plan = write(&folder, "plan.yaml", &plan_text);
    let output = run(&["check", &plan, "--rules", &rules, "--format", "json"]);
    let answer: serde_json::Value = serde_json::from_str(&stdout(&output)).unwrap();
    let report: Report = serde_json::from_value(answer["report"].clone()).unwrap();
    let made = judge_texts(&plan_text, &rules_text, &|name| {
        siting_rulesets::rules(name)
    })
    .unwrap();
    assert_eq!(report, made);
    assert!(report.plan.title.ends_with(HOSTILE));
    assert!(
        report
            .rules
            .iter()
            .filter(|rule| rule.layer != "built-in")
            .all(|rule| rule.title.ends_with(HOSTILE))
    );
    let output = run(&[
        "steps",
        &plan,
        "--rules",
        &rules,
        "--start",
        "2026-03-02",
        "-f",
        "json",
    ]);
    let answer: serde_json::Value = serde_json::from_str(&stdout(&output)).unwrap();
    let made = steps_texts(
        &plan_text,
        &rules_text,
        &|name| siting_rulesets::rules(name),
        20_514,
    )
    .unwrap();
    assert_eq!(answer["steps"], serde_json::to_value(made).unwrap());
}

#[test]
fn names_and_words_of_the_command_line_are_shown_too() {
    let folder = scratch("hostile-names");
    let name = format!("x{}", HOSTILE.replace('/', ""));
    let (missing, broken, good) = (
        folder.join(format!("{name}-missing")),
        folder.join(format!("{name}-broken")),
        folder.join(format!("{name}-good")),
    );
    fs::write(&broken, "plan: [\n").unwrap();
    fs::copy(RULES, &good).unwrap();
    let [missing, broken, good] = [&missing, &broken, &good].map(|path| path.to_str().unwrap());
    let option = format!("--{HOSTILE}");
    let word = HOSTILE;
    let lines: Vec<Vec<&str>> = vec![
        vec![word],
        vec![&option],
        vec!["help", word],
        vec!["check", missing, "--rules", RULES],
        vec!["check", broken, "--rules", RULES],
        vec!["check", PLAN, "--rules", missing],
        vec!["check", PLAN, "--rules", broken],
        vec!["check", PLAN, PLAN, word],
        vec!["check", &option],
        vec!["check", PLAN, "--format", word],
        vec!["check", PLAN, "--colour", word],
        vec!["steps", PLAN, "--rules", RULES, "--start", word],
        vec!["rules", word],
        vec!["rules", "check", missing],
        vec!["rules", "check", broken],
        vec!["rules", "check", good],
        vec!["rules", "read", broken],
        vec!["rules", "try", good],
        vec!["rules", "try", RULES, "--cases", missing],
        vec!["rules", "try", RULES, "--cases", broken],
        vec!["rules", "compare", good, broken],
        vec!["rules", "compare", RULES, good, broken],
        vec!["form", word],
        vec!["form", "--serve", word],
    ];
    for line in lines {
        let output = run(&line);
        nothing_hidden(&format!("{line:?}"), &output);
        assert!(
            !stdout(&output).is_empty() || !stderr(&output).is_empty(),
            "{line:?}"
        );
    }
}
