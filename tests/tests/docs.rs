//! What the guides show is true: every snippet is read by the program, and says what the guide says.
//!
//! Snippets of YAML on one page are pieces of one file. A word behind `yaml` says of which: `local` is a file that builds
//! on others, `plan` a plan, `amended` a later edition, `sourced` a file that says where it was read, `cases` a file of
//! cases, `named` words with the name of their rule set in front, `slip` a piece that is refused or warned about; its message follows as `text said`.

use std::collections::BTreeMap;
use std::fs;

use outside_checks::cases::try_cases;
use outside_checks::pages::{of_rule_sets, root};
use outside_checks::read;
use rules_core::check::Outcome;
use rules_core::ruleset::Grade;
use rules_core::{RulesText, check, judge_texts, judge_together_in, plan, read_rules};

/// A piece of a page: what stands behind the fence, and the text.
type Snippet = (String, String);

fn page(name: &str) -> String {
    fs::read_to_string(root().join("docs").join(name)).expect("the page")
}

fn snippets(page: &str) -> Vec<Snippet> {
    let mut all: Vec<Snippet> = Vec::new();
    let mut inside = false;
    for line in page.lines() {
        match (line.strip_prefix("```"), inside) {
            (Some(of), false) => all.push((of.trim().to_owned(), String::new())),
            (None, true) => {
                let text = &mut all.last_mut().expect("an open snippet").1;
                text.push_str(line);
                text.push('\n');
            }
            _ => {}
        }
        inside ^= line.starts_with("```");
    }
    all
}

/// The pieces of one file put together: lists and maps under one key of the top become one.
fn joined<'s>(pieces: impl Iterator<Item = &'s str>) -> String {
    let mut keys: BTreeMap<String, String> = BTreeMap::new();
    let mut order = Vec::new();
    for piece in pieces {
        let mut key = String::new();
        for line in piece.lines() {
            if line.starts_with(|c: char| c.is_ascii_lowercase()) {
                key = line.split(':').next().unwrap_or_default().to_owned();
                if keys.contains_key(&key) {
                    continue;
                }
                order.push(key.clone());
            }
            let text = keys.entry(key.clone()).or_default();
            text.push_str(line);
            text.push('\n');
        }
    }
    order.iter().map(|key| keys[key].as_str()).collect()
}

fn of_sort(snippets: &[Snippet], sort: &str) -> String {
    joined(
        snippets
            .iter()
            .filter(|snippet| snippet.0 == sort)
            .map(|snippet| snippet.1.as_str()),
    )
}

#[test]
fn the_rule_file_of_the_guide_is_clean_and_its_cases_come_out() {
    let snippets = snippets(&page("rule-sets.md"));
    let rules = read::clean(&of_sort(&snippets, "yaml"));
    assert!(rules.rules.len() >= 7);
    let tried = try_cases(&rules, &of_sort(&snippets, "yaml cases")).expect("cases");
    let wrong: Vec<_> = tried.iter().flat_map(|case| &case.wrong).collect();
    assert_eq!((tried.len(), wrong), (16, Vec::<&String>::new()));
}

#[test]
fn the_first_rule_alone_is_a_file() {
    let snippets = snippets(&page("rule-sets.md"));
    let pieces = snippets
        .iter()
        .filter(|snippet| snippet.0 == "yaml")
        .take(3);
    let rules = read::clean(&joined(pieces.map(|snippet| snippet.1.as_str())));
    assert_eq!(rules.rules.len(), 1);
}

/// The small plan beside the first rule comes out as the guide says, and the other way where it says so.
#[test]
fn the_first_plan_comes_out_as_the_guide_says() {
    let snippets = snippets(&page("rule-sets.md"));
    let pieces = snippets.iter().filter(|snippet| snippet.0 == "yaml");
    let rules = joined(pieces.take(3).map(|snippet| snippet.1.as_str()));
    let plan = of_sort(&snippets, "yaml plan");
    let verdict = |plan: &str| {
        let report = judge_texts(plan, &rules, &|_| None);
        let report = report.unwrap_or_else(|bad| panic!("{}", bad.show("plan", "rules")));
        report.rules[0].outcome
    };
    assert_eq!(verdict(&plan), Outcome::Fail);
    assert!(plan.contains("at: [10, 34]"));
    let moved = plan.replace("at: [10, 34]", "at: [10, 30]");
    assert_eq!(verdict(&moved), Outcome::Pass);
}

#[test]
fn the_file_that_changes_a_model_is_clean() {
    let text = of_sort(&snippets(&page("rule-sets.md")), "yaml local");
    let rules = read::local(&text);
    assert!(
        rules
            .rules
            .iter()
            .any(|rule| rule.id == "height-here" && rule.layer == 0)
    );
    assert!(
        rules
            .rules
            .iter()
            .any(|rule| rule.id == "height" && rule.layer == 1)
    );
}

#[test]
fn the_file_that_names_its_sources_is_clean() {
    let rules = read::clean(&of_sort(&snippets(&page("rule-sets.md")), "yaml sourced"));
    let grades = rules.rules.iter().map(|rule| rules.grade(rule));
    assert_eq!(grades.collect::<Vec<_>>(), [Some(Grade::Law)]);
    let (oldest, newest) = rules.read_between().expect("a day");
    assert_eq!((oldest, newest), (20_485, 20_485)); // 2026-02-01
}

/// The file of the guide, under the name that it has once it is amended, is the edition before.
#[test]
fn the_amended_file_has_the_first_one_before_it() {
    let snippets = snippets(&page("rule-sets.md"));
    let first =
        of_sort(&snippets, "yaml").replace("ruleset: hazelbrook", "ruleset: hazelbrook-2019");
    let bases = |name: &str| (name == "hazelbrook-2019").then_some(first.as_str());
    let amended = of_sort(&snippets, "yaml amended");
    let rules = read::layered(&amended, &bases);
    let earlier = rules.earlier.as_ref().expect("the edition before");
    assert_eq!(
        (rules.rules.len(), earlier.id.as_str()),
        (1, "hazelbrook-2019")
    );
}

#[test]
fn every_slip_of_the_guide_is_told_as_the_guide_says() {
    let head = "ruleset: guide\ntitle: G\nedition: e\nauthority: a\n";
    let snippets = snippets(&page("rule-sets.md"));
    let mut wrong = String::new();
    let mut slips = 0;
    for pair in snippets.windows(2).filter(|pair| pair[0].0 == "yaml slip") {
        slips += 1;
        assert_eq!(
            pair[1].0, "text said",
            "a slip without its message:\n{}",
            pair[0].1
        );
        let text = format!("{head}{}", pair[0].1);
        let told = match read_rules(&text, &|_| None) {
            Ok(read) => read::warnings(&read),
            Err(bad) => bad.show("plan", "guide"),
        };
        if let Some(line) = pair[1].1.lines().find(|line| !told.contains(*line)) {
            wrong += &format!(
                "---\n{}is not reported by `{line}`, but by\n{told}\n",
                pair[0].1
            );
        }
    }
    assert!(slips >= 12 && wrong.is_empty(), "\n{wrong}");
}

#[test]
fn the_plan_of_the_guide_can_be_judged() {
    let text = of_sort(&snippets(&page("site-plan.md")), "yaml");
    let rules = of_sort(&snippets(&page("rule-sets.md")), "yaml");
    let report = judge_texts(&text, &rules, &|_| None);
    let report = report.unwrap_or_else(|refused| panic!("{}", refused.show("plan", "rules")));
    assert!(report.rules.len() >= 7);
}

/// Words that name their rule set are read by that one, and a plain word that two of them use is refused.
#[test]
fn the_words_of_the_guide_that_name_their_rule_set_are_understood() {
    let guide = snippets(&page("site-plan.md"));
    let files = of_rule_sets("rules.yaml").expect("the rule sets");
    let text = |name: &str| files.get(name).map(String::as_str);
    let sets = ["florida", "barrier-model"].map(|name| RulesText {
        name,
        text: text(name).expect("a rule set"),
        bases: &text,
    });
    let plain = of_sort(&guide, "yaml")
        .lines()
        .fold(String::new(), |kept, line| {
            let own = ["answers:", "documents:"]
                .iter()
                .any(|key| line.starts_with(key));
            if own { kept } else { kept + line + "\n" }
        });
    let named = format!("{plain}{}", of_sort(&guide, "yaml named"));
    let report = judge_together_in(None, &named, &sets);
    let report = report.unwrap_or_else(|refused| panic!("{}", refused.show("plan", "rules")));
    let read: Vec<String> = (report.read_by_some.iter())
        .map(|one| format!("{}: {}", one.rule_sets.join(" "), one.parts.join(" ")))
        .collect();
    let expected = [
        "florida: answers.florida/suction-protected documents.florida/site-plan",
        "barrier-model: answers.barrier-model/suction-protected",
    ];
    assert_eq!(read, expected);
    let clash = judge_together_in(None, &named.replace("florida/suction", "suction"), &sets);
    let clash = clash
        .expect_err("a word of two rule sets")
        .show("plan", "rules");
    assert!(
        clash.contains("`florida/suction-protected` or `barrier-model/suction-protected`"),
        "{clash}"
    );
}

/// The ways of drawing and of doubting that the guide's tables list.
#[test]
fn what_the_tables_of_the_plan_guide_list_can_be_written() {
    let guide = page("site-plan.md");
    let text = of_sort(&snippets(&guide), "yaml");
    let rules = read::clean(&of_sort(&snippets(&page("rule-sets.md")), "yaml"));
    let vocabulary = rules.vocabulary;
    let rows: Vec<_> = guide
        .lines()
        .filter(|line| line.starts_with("| "))
        .collect();
    let mut tried = 0;
    for row in rows {
        for written in row.split('`').skip(1).step_by(2) {
            let (old, new) = match written {
                _ if written.starts_with("{circle")
                    || written.starts_with("{oval")
                    || written.starts_with("{ro")
                    || written.starts_with("{l-shape")
                    || written.starts_with("{kidney")
                    || written.starts_with("{curved")
                    || written.starts_with("{parts")
                    || written.starts_with("[[") =>
                {
                    (
                        "water: {rectangle: {at: [8, 28], length: 8 m, width: 4 m}}",
                        format!("water: {written}"),
                    )
                }
                "{one-of: [soft, solid]}" => (
                    "gap-below: 40 mm",
                    format!("gap-below: 40 mm, ground: {written}"),
                ),
                "none" => (
                    "vertical-gap: 90 mm",
                    format!("vertical-gap: 90 mm, opening: {written}"),
                ),
                _ => (
                    "height-outside: {from: 1.25 m, to: 1.31 m}",
                    format!("height-outside: {written}"),
                ),
            };
            assert!(text.contains(old), "{old}");
            let mut changed = text.replacen(old, &new, 1);
            if written.starts_with("{curved") {
                changed = changed.replace(
                    "from: water, corners: square",
                    "from: water, corners: round",
                );
            }
            if let Err(faults) = plan::read(&changed, &vocabulary) {
                let faults: Vec<_> = faults.list.iter().map(|fault| &fault.message).collect();
                panic!("{written}: {faults:?}");
            }
            tried += 1;
        }
    }
    assert!(tried >= 12);
}

#[test]
fn the_clerks_model_still_judges_the_plan_of_the_guide() {
    let text = of_sort(&snippets(&page("site-plan.md")), "yaml");
    let rules = read::bundled("model-municipality");
    let text = text.replace("answers: {house-on-rock: no}\n", "");
    let plan = read::plan(&text, &rules);
    let found = check::check(&plan, &rules)
        .expect("not too much work")
        .rules
        .len();
    assert_eq!(found, rules.all_rules().count());
}
