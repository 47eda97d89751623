//! Sources, grades and languages of rule files, and the calendar of their steps.

use super::{Checked, FileFaults, Grade, Provenance, RuleSet, Sort, read, read_in};
use crate::quantity::{CalendarDate, Unit};
use crate::vocabulary::Vocabulary;

const HEAD: &str = "ruleset: r\ntitle: R\nedition: '1'\nauthority: the office\n";
const SOURCES: &str = "\
sources:
  act: {title: The Act, at: https://law.example, grade: law, read: 2026-03-01, again: 2027-03-01}
  blog: {title: A blog, at: https://blog.example, grade: trade, read: 2026-01-10}
  memory: {title: From memory, grade: memory}
";

fn check(body: &str) -> Result<Checked, Vec<FileFaults>> {
    read(&format!("{HEAD}{body}"), &|_| None, Vocabulary::standard())
}

fn rules(body: &str) -> RuleSet {
    check(body)
        .unwrap_or_else(|files| panic!("{body}{files:?}"))
        .rule_set
}

fn codes(body: &str) -> Vec<&'static str> {
    let files = match check(body) {
        Ok(checked) => checked.warnings,
        Err(files) => files,
    };
    let list = files.iter().flat_map(|file| &file.faults.list);
    list.map(|fault| fault.code.word())
        .filter(|code| *code != "scope-missing")
        .collect()
}

fn rule(more: &str) -> String {
    format!(
        "rules:\n  - {{id: depth, title: Depth, clause: s. 1, require: {{fact: pool.depth, at-most: 2 m}}{more}}}\n"
    )
}

#[test]
fn a_rule_is_known_as_well_as_its_sources() {
    for (source, grade) in [
        (", source: act", Grade::Law),
        (", source: [blog, act]", Grade::Law),
        (", source: {id: blog, clause: page 3}", Grade::Trade),
        // Several values: the one that is known worst.
        (
            ", source: [{id: act, value: the depth}, {id: memory, value: the place}]",
            Grade::Memory,
        ),
        (
            ", source: [{id: act, value: the depth}, {id: memory, value: the depth}]",
            Grade::Law,
        ),
        ("", Grade::Memory),
    ] {
        let set = rules(&format!("{SOURCES}{}", rule(source)));
        assert_eq!(set.grade(&set.rules[0]), Some(grade), "{source}");
        let from_memory = set.rules[0].provenance == Provenance::FromMemory;
        assert_eq!(from_memory, grade == Grade::Memory, "{source}");
    }
    let old = rules(&rule(", provenance: from-memory"));
    assert_eq!(
        (old.grade(&old.rules[0]), old.rules[0].provenance),
        (None, Provenance::FromMemory)
    );
}

#[test]
fn beside_sources_the_mark_says_only_that_they_disagree() {
    let marked = |mark: &str| {
        format!(
            "{SOURCES}{}",
            rule(&format!(
                ", source: [act, blog, memory], provenance: {mark}"
            ))
        )
    };
    let set = rules(&marked("contradicted"));
    assert_eq!(set.rules[0].provenance, Provenance::Contradicted);
    assert_eq!(set.grade(&set.rules[0]), Some(Grade::Law));
    for mark in ["confirmed", "from-memory"] {
        assert_eq!(codes(&marked(mark)), ["mark-and-grade"]);
    }
}

#[test]
fn a_source_is_named_and_each_rule_names_one() {
    assert_eq!(
        codes(&format!(
            "{SOURCES}{}",
            rule(", source: [act, blog, memory]")
        )),
        [""; 0]
    );
    assert_eq!(
        codes(&format!("{SOURCES}{}", rule(", source: [act, blog]"))),
        ["unused-source"]
    );
    assert!(codes(&format!("{SOURCES}{}", rule(""))).contains(&"no-source"));
    assert_eq!(
        codes(&format!("{SOURCES}{}", rule(", source: acts"))),
        ["unknown-source"]
    );
    let early = "sources:\n  act: {title: A, grade: law, read: 2026-03-01, again: 2026-03-01}\n";
    assert_eq!(
        codes(&format!("{early}{}", rule(", source: act"))),
        ["again-order"]
    );
}

#[test]
fn the_oldest_and_the_newest_day_of_reading() {
    let set = rules(&format!(
        "{SOURCES}{}",
        rule(", source: [act, blog, memory]")
    ));
    let day = |day: Option<i128>| day.map(|day| CalendarDate::from_day_number(day).to_string());
    let (oldest, newest) = set.read_between().expect("days");
    assert_eq!(day(Some(oldest)).as_deref(), Some("2026-01-10"));
    assert_eq!(day(Some(newest)).as_deref(), Some("2026-03-01"));
}

#[test]
fn terms_papers_and_questions_name_their_sources() {
    let body = format!(
        "{SOURCES}terms:\n  deep: {{means: {{fact: pool.depth, more-than: 2 ft}}, source: act}}\n  far: {{means: 3 m, source: blog}}\n\
         rules:\n  - {{id: far, title: Far, clause: s. 1, when: {{meets: deep}}, require: {{distance: {{from: pool.water, to: lot-line}}, at-least: far}}, source: act}}\n\
         questions:\n  - {{id: q, ask: Q?, answer: yes-no, source: {{id: memory, clause: page 1}}}}\n\
         decide:\n  - {{id: c, source: act, table: {{by: q, rows: [{{is: yes, then: a}}, {{otherwise: b}}]}}}}\n\
         documents:\n  - {{id: d, title: D, needed: always, source: act}}\n\
         do:\n  - {{id: s, what: S, source: blog}}\n"
    );
    assert_eq!(codes(&body), [""; 0]);
    let set = rules(&body);
    let sources = [
        &set.terms[0].cited,
        &set.terms[1].cited,
        &set.questions[0].cited,
        &set.decisions[0].cited,
        &set.documents[0].cited,
        &set.duties[0].cited,
    ];
    let named = sources.map(|cited| set.sources[cited[0].source].id.as_str());
    assert_eq!(named, ["act", "blog", "memory", "act", "act", "blog"]);
    assert_eq!(set.questions[0].cited[0].clause.as_deref(), Some("page 1"));
}

#[test]
fn a_file_can_name_the_sources_of_the_files_below() {
    let base = format!(
        "ruleset: base\ntitle: B\nedition: '1'\nauthority: a\n{SOURCES}{}",
        rule(", source: [act, blog, memory]")
    );
    let own = format!(
        "{HEAD}builds-on: [base]\nrules:\n  - {{id: two, title: T, clause: c, require: {{fact: pool.depth, at-least: 1 m}}, source: act}}\n  - {{id: three, title: T, clause: c, require: {{fact: pool.fill-depth, at-least: 1 m}}}}\n"
    );
    let set = read(&own, &|_| Some(&base), Vocabulary::standard())
        .expect("good")
        .rule_set;
    let grades: Vec<_> = set.rules.iter().map(|rule| set.grade(rule)).collect();
    // The third is of a file that names no sources of its own, as old files do.
    assert_eq!(grades, [Some(Grade::Law), Some(Grade::Law), None]);
}

#[test]
fn the_head_says_for_whom_it_is() {
    let set = rules(&format!(
        "place: Hazelbrook\ncountry: Eldermere\nsort: place\nfinding-the-authority: Look.\ncosts: 40 crowns\nlasts: three years\n\
         belongs-with: [barrier-model, digging]\nlanguage: nb\n{}",
        rule("")
    ));
    let about = set.about;
    assert_eq!(
        (about.place.as_deref(), about.sort),
        (Some("Hazelbrook"), Some(Sort::Place))
    );
    assert_eq!(about.belongs_with, ["barrier-model", "digging"]);
    assert_eq!(
        (about.costs.as_deref(), about.language.as_deref()),
        (Some("40 crowns"), Some("nb"))
    );
    assert_eq!(
        codes(&format!("sort: town\n{}", rule(""))),
        ["unknown-word"]
    );
    assert_eq!(
        codes(&format!("language: Norwegian\n{}", rule(""))),
        ["not-a-language"]
    );
}

const BOTH: &str = "\
ruleset: r
title: {nb: Tittel, en: Title}
edition: '1'
authority: {nb: Kommunen}
language: nb
questions:
  - {id: q, ask: {nb: Hva?, fr: Quoi?}, answer: yes-no}
rules:
  - {id: one, title: {en: Depth, nb: Dybde}, clause: {nb: § 1, en: s. 1}, require: {fact: q, is: yes}, remedy: {nb: Gjør det.}}
decide:
  - {id: c, title: {en: C, nb: K}, table: {by: q, rows: [{is: yes, then: {en: free, nb: fritt}}, {otherwise: refer}]}}
documents:
  - {id: d, title: {en: Letter, nb: Brev}, from: {en: you}, needed: always}
do:
  - {id: s, what: {en: Go, nb: Gå}, who: {en: you, nb: du}}
cautions:
  - {id: x, says: {en: Mind., nb: Pass på.}}
";

fn told(language: Option<&str>) -> Vec<String> {
    let set = read_in(language, BOTH, &|_| None, Vocabulary::standard())
        .expect("good")
        .rule_set;
    let class = format!("{:?}", set.decisions[0].table.rows[0].then);
    vec![
        set.title,
        set.layers[0].title.clone(),
        set.authority,
        set.questions[0].ask.clone(),
        set.rules[0].title.clone(),
        set.rules[0].clause.clone(),
        set.rules[0].remedy.clone().unwrap_or_default(),
        class,
        set.documents[0].title.clone(),
        set.duties[0].who.clone().unwrap_or_default(),
        set.cautions[0].says.clone(),
    ]
}

#[test]
fn texts_are_read_in_the_language_that_is_wanted() {
    let norwegian = [
        "Tittel",
        "Tittel",
        "Kommunen",
        "Hva?",
        "Dybde",
        "§ 1",
        "Gjør det.",
        "Give(\"fritt\")",
        "Brev",
        "du",
        "Pass på.",
    ];
    let english = [
        "Title",
        "Title",
        "Kommunen",
        "Hva?",
        "Depth",
        "s. 1",
        "Gjør det.",
        "Give(\"free\")",
        "Letter",
        "you",
        "Mind.",
    ];
    assert_eq!(told(Some("nb")), norwegian);
    assert_eq!(told(None), english);
    assert_eq!(told(Some("en")), english);
    // French there is for one question only.
    let mut french = english;
    french[3] = "Quoi?";
    assert_eq!(told(Some("fr")), french);
}

#[test]
fn only_languages_stand_before_the_texts() {
    let titled = |title: &str| rule("").replace("Depth", title);
    assert_eq!(codes(&titled("{english: Depth}")), ["not-a-language"]);
    assert_eq!(codes(&titled("{en: [Depth]}")), ["not-a-text"]);
    assert_eq!(codes(&titled("{}")), ["not-a-text"]);
}

#[test]
fn steps_are_counted_in_working_days() {
    let steps = "do:\n  - {id: a, what: Hand it in, after: apply, by: 3 working days, takes: 1 working day}\n";
    let set = rules(&format!(
        "calendar: {{holidays: [01-01, easter+1, 2026-05-15, monday from 09-01], moved: {{sunday: monday}}}}\n{}{steps}",
        rule("")
    ));
    let by = set.duties[0].by.as_ref().expect("a time");
    assert_eq!((by.range.low, by.unit), (3, Unit::WORKING_DAY));
    assert_eq!(set.working_days.holidays.as_ref().map(Vec::len), Some(4));
    assert_eq!(codes(&format!("{}{steps}", rule(""))), ["no-holidays"]);
    for (wrong, code) in [
        ("calendar: {holidays: [13-01]}\n", "bad-holiday"),
        ("calendar: {holidays: [easter + monday]}\n", "bad-holiday"),
        ("calendar: {holidays: [mayday from 05-01]}\n", "bad-holiday"),
        (
            "calendar: {weekend: [monday, tuesday, wednesday, thursday, friday, saturday, sunday]}\n",
            "no-working-day",
        ),
        ("calendar: {weekend: [caturday]}\n", "unknown-word"),
        (
            "do:\n  - {id: a, after: apply, by: 2.5 working days}\n",
            "bad-working-days",
        ),
        (
            "do:\n  - {id: a, after: apply, by: 5000 working days}\n",
            "bad-working-days",
        ),
        (
            "do:\n  - {id: a, after: apply, every: 3 working days}\n",
            "bad-amount",
        ),
    ] {
        assert!(
            codes(&format!("{}{wrong}", rule(""))).contains(&code),
            "{wrong}: {:?}",
            codes(&format!("{}{wrong}", rule("")))
        );
    }
    // A rule's bounds know no calendar.
    let bound = rule("").replace(
        "{fact: pool.depth, at-most: 2 m}",
        "{fact: pool.standing-time, at-most: 3 working days}",
    );
    assert_eq!(codes(&bound), ["bad-amount"]);
}
