//! Editions of a rule set: what is read of them, and what is wrong with them.

use super::*;
use crate::text::Lines;
use crate::vocabulary::Vocabulary;

const OLD: &str = r#"
ruleset: town-2019
title: Town
edition: "2019"
authority: the town
in-force: {from: 2019-05-01, by: applied}
questions:
  - {id: lawful, ask: Was it lawful?, answer: yes-no}
  - {id: gone, ask: Is it gone?, answer: yes-no}
kinds:
  - id: view
    said: a view
    ask: Is there a view?
    outlines: [{id: region, said: the view, shape: area}]
    facts: [{id: height, said: height in the view, ask: How high?, answer: length}]
terms: {edge: pool.water}
rules:
  - {id: rear, title: Rear, clause: T 1, require: {distance: {from: edge, to: lot-line}, at-least: 2 m}}
  - {id: old, title: Old, clause: T 2, unless: {fact: lawful, is: yes}, require: {fact: gone, is: no}}
"#;

const HEAD: &str = "ruleset: town\ntitle: Town\nedition: \"2026\"\nauthority: the town\n";

fn new(body: &str) -> String {
    format!("{HEAD}{body}")
}

fn editions(body: &str) -> Result<Checked, Vec<FileFaults>> {
    let bases = |name: &str| (name == "town-2019").then_some(OLD);
    read(&new(body), &bases, Vocabulary::standard())
}

/// The one fault of the newer file: its code, what it underlines, its sentence.
#[track_caller]
fn fault(body: &str) -> (&'static str, String, String) {
    let text = new(body);
    let files = editions(body).expect_err("a fault");
    assert_eq!(files.len(), 1, "{files:?}");
    let [fault] = &files[0].faults.list[..] else {
        panic!("{}", files[0].faults.show("town", &text))
    };
    let under = Lines::new(&text).underlined(fault.span.unwrap()).to_owned();
    (fault.code.word(), under, fault.message.clone())
}

const FROM: &str = "earlier: town-2019\nin-force: {from: 2026-01-01, by: applied}\n";

#[test]
fn an_earlier_edition_is_read_whole_and_shares_the_words() {
    let body = format!(
        "{FROM}questions:\n  - {{id: lawful, ask: Was it built lawfully?, answer: yes-no}}\n  - {{id: fresh, ask: Is it fresh?, answer: yes-no}}\n\
         kinds:\n  - {{id: view, said: a view, ask: Is there one?, facts: [{{id: width, said: width of the view, ask: How wide?, answer: length}}]}}\n\
         terms: {{edge: pool.coping}}\n\
         rules:\n  - {{id: rear, title: Rear, clause: T 1, unless: {{fact: lawful, is: yes}}, require: {{distance: {{from: edge, to: lot-line}}, at-least: 3 m}}}}\n\
         \x20 - {{id: new, title: New, clause: T 3, require: {{fact: fresh, is: yes}}}}\n"
    );
    let set = editions(&body).unwrap().rule_set;
    let old = set.earlier.as_deref().expect("the earlier edition");
    assert_eq!((set.rules.len(), old.rules.len()), (2, 2));
    assert_eq!((set.layers.len(), old.layers.len()), (1, 1));
    assert_eq!(set.vocabulary, old.vocabulary);
    let answers = set.vocabulary.kind_named("answers").unwrap();
    let lawful = set.vocabulary.fact_named(answers, "lawful").unwrap();
    assert_eq!(set.vocabulary.fact(lawful).ask, "Was it built lawfully?");
    for question in ["gone", "fresh"] {
        assert!(set.vocabulary.fact_named(answers, question).is_some());
    }
    // Each edition has its own terms.
    let edge = |set: &RuleSet| set.terms[0].meaning.clone();
    assert_ne!(edge(&set), edge(old));
}

#[test]
fn an_edition_needs_its_day() {
    let (code, under, message) = fault("earlier: town-2019\nrules: []\n");
    assert_eq!((code, under.as_str()), ("no-edition-day", "town-2019"));
    assert_eq!(
        message,
        "There is an earlier edition, and nothing says from which day on this one counts."
    );
    let same = "earlier: town-2019\nin-force: {from: 2019-05-01, by: applied}\nrules: []\n";
    assert_eq!(fault(same).0, "edition-order");
    let another = same.replace("applied", "complete");
    assert!(
        editions(&another).is_ok(),
        "days of two sorts are not compared"
    );
}

#[test]
fn a_question_keeps_its_answers_from_edition_to_edition() {
    let body = format!(
        "{FROM}questions: [{{id: lawful, ask: Was it lawful?, answer: [yes, no, perhaps]}}]\nrules: []\n"
    );
    let (code, _, message) = fault(&body);
    assert_eq!(code, "changed-word");
    assert_eq!(
        message,
        "The earlier edition has `lawful` too, and with other answers."
    );
    let twice = format!(
        "{FROM}questions:\n  - {{id: lawful, ask: Was it lawful?, answer: yes-no}}\n  - {{id: lawful, ask: Was it lawful?, answer: yes-no}}\nrules: []\n"
    );
    assert_eq!(fault(&twice).0, "duplicate-id");
}

#[test]
fn editions_that_are_not_there_or_go_round() {
    let (code, under, _) =
        fault("earlier: town-2018\nin-force: {from: 2026-01-01, by: applied}\nrules: []\n");
    assert_eq!((code, under.as_str()), ("unknown-base", "town-2018"));
    let own = new(&FROM.replace("town-2019", "town"));
    let files = read(&own, &|_| Some(own.as_str()), Vocabulary::standard()).unwrap_err();
    assert!(
        files
            .iter()
            .flat_map(|file| &file.faults.list)
            .any(|fault| fault.code.word() == "base-ring"),
        "{files:?}"
    );
}

#[test]
fn what_is_wrong_with_both_editions_is_said_in_one_run() {
    let broken = OLD.replace("gone, is: no", "going, is: no");
    let text = new(&format!(
        "{FROM}rules: [{{id: one, title: One, require: refer}}]\n"
    ));
    let files = read(&text, &|_| Some(broken.as_str()), Vocabulary::standard()).unwrap_err();
    let said: Vec<_> = files
        .iter()
        .map(|file| (file.name.as_deref(), file.faults.list[0].code.word()))
        .collect();
    assert_eq!(
        said,
        [(None, "missing-key"), (Some("town-2019"), "unknown-value")]
    );
}
