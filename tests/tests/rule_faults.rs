//! What is said of each kind of fault and of each kind of slip in a rule file: a small file for each, and beside it the
//! words, which somebody has read. `tests/rule-faults/CODE.yaml` has the fault CODE, as has `CODE--other.yaml`.
//!
//! `BLESS=1` writes down what is said now; read the difference before keeping it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use outside_checks::cases::{try_node, unexercised};
use rules_core::asked::unasked;
use rules_core::faults::{Code, GROUPS};
use rules_core::text::{Fault, Faults};
use rules_core::{Refusal, read_rules};

use crate::common::sources;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("rule-faults")
}

/// The files of a folder with that ending, by their names without it.
fn files(folder: &Path, ending: &str) -> BTreeMap<String, String> {
    let entries = fs::read_dir(folder).expect("the folder is there");
    let paths = entries.map(|entry| entry.expect("it can be listed").path());
    let wanted = paths.filter(|path| path.extension().is_some_and(|it| it == ending));
    wanted
        .map(|path| {
            let name = path.file_stem().expect("a name").to_string_lossy();
            (
                name.into_owned(),
                fs::read_to_string(&path).expect("a text"),
            )
        })
        .collect()
}

/// What is wrong with a file and what looks like a slip in it, and both as they are shown.
fn said(code: &str, text: &str, bases: &BTreeMap<String, String>) -> (Vec<Fault>, String) {
    let find = |name: &str| match name.strip_prefix('m') {
        Some(number) if number.parse::<u8>().is_ok() => bases.get("many").map(String::as_str),
        _ => bases.get(name).map(String::as_str),
    };
    let mut all = Vec::new();
    let mut note = |faults: &Faults| all.extend(faults.list.iter().cloned());
    let refusal = match read_rules(text, &find) {
        Err(mut refusal) => {
            let files = refusal
                .rules
                .iter_mut()
                .filter(|_| code != Code::ScopeMissing.word());
            files.for_each(|file| {
                file.slips
                    .list
                    .retain(|fault| fault.code != Code::ScopeMissing)
            });
            refusal
        }
        Ok(mut read) => {
            if code != Code::ScopeMissing.word() {
                let files = read.warnings.iter_mut();
                files.for_each(|file| {
                    file.faults
                        .list
                        .retain(|fault| fault.code != Code::ScopeMissing)
                });
            }
            let untried = read.cases.as_ref().map(|cases| {
                let tried = try_node(&read.rule_set, cases);
                tried.map_or_else(|faults| faults, |tried| unexercised(&read.rule_set, &tried))
            });
            let untried = untried.unwrap_or_default();
            note(&untried);
            let shown = untried.show("rules.yaml", text);
            let refusal = Refusal {
                plan: None,
                rules: read.warnings,
            };
            refusal.rules.iter().for_each(|file| note(&file.faults));
            return (all, refusal.show("", "rules.yaml") + &shown);
        }
    };
    for file in &refusal.rules {
        note(&file.faults);
        note(&file.slips);
    }
    let shown = refusal.show("", "rules.yaml");
    let slips = refusal.show_slips("rules.yaml");
    (
        all,
        if slips.is_empty() {
            shown
        } else {
            format!("{shown}\n{slips}")
        },
    )
}

#[test]
fn each_kind_of_fault_says_what_somebody_has_read() {
    let (faulty, bases) = (
        files(&folder(), "yaml"),
        files(&folder().join("base"), "yaml"),
    );
    let bless = std::env::var_os("BLESS").is_some();
    let mut wrong = String::new();
    for (name, text) in &faulty {
        let code = name.split("--").next().unwrap_or(name);
        let (faults, shown) = said(code, text, &bases);
        let codes = words(&faults);
        if !codes.contains(code) {
            wrong += &format!("{name}: it is {codes:?}\n{shown}\n");
        }
        wrong += &kept(&folder(), name, &shown, bless);
    }
    assert!(wrong.is_empty(), "{wrong}");
}

fn words(faults: &[Fault]) -> BTreeSet<&'static str> {
    faults.iter().map(|fault| fault.code.word()).collect()
}

/// What is said of a file that is not what is kept beside it.
fn kept(folder: &Path, name: &str, shown: &str, bless: bool) -> String {
    let path = folder.join(format!("{name}.txt"));
    if bless {
        fs::write(&path, shown).expect("it can be written");
    }
    match fs::read_to_string(&path) {
        Ok(kept) if kept == shown => String::new(),
        _ => format!("{name} says now:\n{shown}\n"),
    }
}

/// Slips that somebody makes who copies a bylaw into a file for the first time: none passes in silence, and each is told
/// with its place and with what to write.
#[test]
fn each_slip_is_told_with_its_place_and_its_cure() {
    let bases = files(&folder().join("base"), "yaml");
    let folder = folder().join("slips");
    let bless = std::env::var_os("BLESS").is_some();
    let slips = files(&folder, "yaml");
    assert!(slips.len() > 150, "{}", slips.len());
    let mut wrong = String::new();
    for (name, text) in &slips {
        let (faults, shown) = said("", text, &bases);
        let told = |fault: &Fault| fault.span.is_some() && fault.help.is_some();
        if shown.is_empty() || !faults.iter().all(told) {
            wrong += &format!("{name} is told without a place or a cure:\n{shown}\n");
        }
        wrong += &kept(&folder, name, &shown, bless);
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// What rules leave unasked: `tests/rule-faults/asked/`, a file for each sort of question, and the questions beside it.
#[test]
fn each_sort_of_question_says_what_somebody_has_read() {
    let folder = folder().join("asked");
    let bless = std::env::var_os("BLESS").is_some();
    let mut wrong = String::new();
    for (name, text) in files(&folder, "yaml") {
        let read =
            read_rules(&text, &|_| None).unwrap_or_else(|bad| panic!("{}", bad.show("", &name)));
        let shown = unasked(&read.rule_set).join("\n") + "\n";
        let kept = folder.join(format!("{name}.txt"));
        if bless {
            fs::write(&kept, &shown).expect("it can be written");
        }
        match fs::read_to_string(&kept) {
            Ok(kept) if kept == shown && shown.len() > 1 => {}
            _ => wrong += &format!("{name} asks now:\n{shown}\n"),
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// Faults that no small file shows, and where they are shown instead.
const ELSEWHERE: &[(&str, &str)] = &[
    (
        "not-utf8",
        "bytes that are no text: rules-core/src/text/hostile_tests.rs",
    ),
    (
        "too-long",
        "a file of a megabyte: rules-core/src/text/hostile_tests.rs",
    ),
    (
        "too-many",
        "a file of many thousand values: rules-core/src/text/hostile_tests.rs",
    ),
    (
        "not-yaml",
        "what the YAML reader refuses and nothing else explains: rules-core/src/text/read_tests.rs",
    ),
    (
        "too-much-work",
        "a rule that asks many thousand things: `a_rule_may_be_too_much_to_look_through` below",
    ),
    (
        "not-writable",
        "of what is written, not of what is read: rules-core/src/text/write_tests.rs",
    ),
];

/// The words of the kinds of fault that a text names.
fn codes(text: &str) -> impl Iterator<Item = &'static str> {
    let named = text.split("Code::").skip(1);
    let names = named.filter_map(|rest| rest.split(|c: char| !c.is_alphanumeric()).next());
    let names: BTreeSet<&str> = names.collect();
    let all = GROUPS.iter().flat_map(|group| group.codes);
    let told = all.filter(move |code| names.contains(format!("{code:?}").as_str()));
    told.map(|code| code.word()).collect::<Vec<_>>().into_iter()
}

#[test]
fn no_kind_of_fault_is_left_out() {
    let parts = ["ruleset", "text", "cases"].map(|part| format!("rules-core/src/{part}"));
    let texts: Vec<_> = parts.iter().flat_map(|part| sources(part)).collect();
    let all: BTreeSet<_> = texts.iter().flat_map(|(_, text)| codes(text)).collect();
    assert!(all.len() > 100, "{all:?}");
    let faulty = files(&folder(), "yaml");
    let shown: BTreeSet<_> = faulty
        .keys()
        .filter_map(|name| name.split("--").next())
        .collect();
    let elsewhere: BTreeSet<_> = ELSEWHERE.iter().map(|(code, _)| *code).collect();
    let missing: Vec<_> = all
        .iter()
        .filter(|code| !shown.contains(*code) && !elsewhere.contains(*code))
        .collect();
    assert!(
        missing.is_empty(),
        "no file in tests/rule-faults shows {missing:?}"
    );
    let stale: Vec<_> = shown
        .union(&elsewhere)
        .filter(|code| !all.contains(**code))
        .collect();
    assert!(stale.is_empty(), "nobody says {stale:?} any more");
}

#[test]
fn a_rule_may_be_too_much_to_look_through() {
    let head = "ruleset: town\ntitle: Town\nedition: '1'\nauthority: the town\ndocuments: [{id: letter, title: Letter}]\n";
    let rule = "rules:\n  - id: one\n    title: One\n    clause: s. 1\n    require:\n";
    let asked = "      - {have: letter}\n".repeat(15_000);
    let (faults, shown) = said("", &format!("{head}{rule}{asked}"), &BTreeMap::new());
    assert_eq!(words(&faults), ["too-much-work"].into());
    assert!(shown.contains("this rule takes too many steps"), "{shown}");
    assert!(shown.contains("- id: one"), "{shown}");
}

/// A word that is not ours is answered by the one that means the same, never by one that is stricter or laxer.
#[test]
fn words_that_are_not_ours_lead_to_those_that_mean_the_same() {
    let words = [
        ("at-least", "min minimum not-less-than no-less-than"),
        ("at-most", "max maximum up-to not-more-than no-more-than"),
        (
            "more-than",
            "over above greater-than exceeds longer-than after",
        ),
        ("less-than", "under below smaller-than fewer-than before"),
        ("is", "equals equal-to exactly one-of"),
    ];
    for (right, wrong) in words {
        for wrong in wrong.split(' ') {
            let text = format!(
                "ruleset: town\ntitle: Town\nedition: \"1\"\nauthority: the town\nrules:\n  - id: one\n    title: One\n    clause: s. 1\n    require: {{fact: pool.depth, {wrong}: 1 m}}\n"
            );
            let refusal = read_rules(&text, &|_| None).expect_err(wrong);
            let told: Vec<Option<String>> = refusal.rules[0]
                .faults
                .list
                .iter()
                .map(|fault| fault.help.as_ref().map(ToString::to_string))
                .collect();
            let expected = format!("Write `{right}`.");
            assert_eq!(told, [Some(expected)], "{wrong}");
        }
    }
}

/// The word that a fault offers, put in the place of what is underlined, mends it. What could not be looked at before may
/// then be at fault, too.
#[test]
fn what_is_offered_mends_the_fault() {
    let bases = files(&folder().join("base"), "yaml");
    let mut mended = 0;
    let mut wrong = String::new();
    for (name, text) in files(&folder().join("slips"), "yaml") {
        let (before, _) = said("", &text, &bases);
        for fault in &before {
            let (Some(span), Some(meant)) = (fault.span, offered(fault)) else {
                continue;
            };
            let cured = [&text[..span.start], meant, &text[span.end..]].concat();
            let (after, shown) = said("", &cured, &bases);
            mended += 1;
            let is_still = |it: &Fault| {
                let at = |fault: &Fault| fault.span.map(|span| span.start);
                it.message == fault.message && at(it) == at(fault)
            };
            if after.iter().any(is_still) {
                wrong += &format!("{name}, with `{meant}`:\n{shown}\n");
            }
        }
    }
    assert!(wrong.is_empty() && mended > 40, "{mended}\n{wrong}");
}

/// The word that was probably meant.
fn offered(fault: &Fault) -> Option<&str> {
    fault.help.as_ref()?.meant.as_deref()
}
