//! The rule writer's desk: what may be written, faults at their lines, what the file says, its cases, the comparison
//! with the rules in force, and files.

use std::fs;
use std::path::PathBuf;

use browser_checks::{Form, Key, Outcome, Trouble};
use serde_json::{Value, json};

/// With the example home and its rules on the desk.
fn at_the_desk() -> Result<Form, Trouble> {
    let form = Form::with_example()?;
    form.click("#menu-desk")?;
    form.read("#desk-faults", "No faults")?;
    Ok(form)
}

/// Chooses so many letters of the text from the first place of a word on; gives its line.
fn choose(form: &Form, word: &str, letters: usize) -> Result<Value, Trouble> {
    form.run(
        "const area = document.getElementById('rules-text');
         const at = area.value.indexOf(arguments[0]);
         area.focus(); area.setSelectionRange(at, at + arguments[1]);
         return area.value.slice(0, at).split('\\n').length;",
        json!([word, letters]),
    )
}

/// What is chosen in the text.
fn chosen(form: &Form) -> Result<String, Trouble> {
    let script = "const area = document.getElementById('rules-text'); return area.value.slice(area.selectionStart, area.selectionEnd);";
    let chosen = form.run(script, json!([]))?;
    Ok(chosen.as_str().unwrap_or_default().to_owned())
}

/// Waits until the text holds some words.
fn holds(form: &Form, words: &str) -> Outcome {
    let script = "return document.getElementById('rules-text').value.includes(arguments[0]);";
    form.until(&format!("“{words}” in the text"), script, &json!([words]))
}

fn file(name: &str, text: &str) -> Result<PathBuf, Trouble> {
    let file = std::env::temp_dir().join(format!("{}-{name}", std::process::id()));
    fs::write(&file, text)?;
    Ok(file)
}

#[test]
fn a_broken_rule_file_is_marked_at_its_lines() -> Outcome {
    let form = at_the_desk()?;
    form.read("#desk-said", "Pool to rear lot line")?;
    form.read("#desk-verdict", "does not comply")?;
    let line = choose(&form, "at-least: 6 m", 8)?;
    form.type_text("at-leest")?;
    form.see(&format!("#gutter .fault[data-line='{line}']"))?;
    form.read("#marks u.fault", "at-leest")?;
    form.read("#desk-faults", "Did you mean at-least?")?;
    form.read("#desk-said", "This is what it said before them.")?;
    form.click(&format!("#desk-faults [data-line='{line}']"))?;
    assert_eq!(chosen(&form)?, "at-leest");
    form.type_text("at-least")?;
    form.read("#desk-faults", "No faults")?;
    choose(&form, "at-least: 6 m", 13)?;
    form.type_text("at-least: 21 m")?;
    form.read("#desk-said", "at least 21\u{a0}m")?;
    form.click("#desk-back")?;
    form.read(
        "#finding-front-line[data-outcome=fail]",
        "Pool to front lot line",
    )
}

/// By keyboard alone: the list opens while a word is typed or when it is asked for, and writes what is chosen.
#[test]
fn what_may_stand_at_the_cursor_is_offered_and_explained() -> Outcome {
    let form = at_the_desk()?;
    choose(&form, "at-least: 6 m", 8)?;
    form.type_text("at-m")?;
    form.read("#offers [role=option]", "at-most")?;
    form.press(Key::Down)?;
    form.see("#offers [aria-selected=true]")?;
    let active =
        "return document.getElementById('rules-text').getAttribute('aria-activedescendant');";
    assert_eq!(form.run(active, json!([]))?, json!("offer-0"));
    form.press(Key::Enter)?;
    holds(&form, "at-most: 6 m")?;
    form.read("#desk-help", "No more than this; exactly this passes.")?;
    form.read("#desk-faults", "looks like a slip")?;
    choose(&form, "each: front-lines", 0)?;
    form.read("#desk-help", "It is judged for each of these.")?;
    form.click("#offers-ask")?;
    form.see("#offers [aria-selected=true]")?;
    form.press(Key::Escape)?;
    let closed = "return document.querySelector('#offers').hidden;";
    form.until("the list to be closed", closed, &json!([]))
}

#[test]
fn the_sentence_of_the_rule_under_the_cursor_is_marked_and_leads_back() -> Outcome {
    let form = at_the_desk()?;
    choose(&form, "clause: By-law 7, s. 10(1)", 0)?;
    form.see("#said-rules-front-line[aria-current=true]")?;
    form.click("#said-rules-rear-line button")?;
    form.see("#said-rules-rear-line[aria-current=true]")?;
    let line = "const area = document.getElementById('rules-text'); return area.value.slice(area.selectionStart).split('\\n')[0];";
    assert_eq!(form.run(line, json!([]))?, json!("id: rear-line"));
    form.run(
        "window.print = () => window.dispatchEvent(new Event('beforeprint'));",
        json!([]),
    )?;
    form.click("#sign-print")?;
    form.read("#print", "Right? (initials)")?;
    form.read("#print", "Pool to rear lot line")
}

#[test]
fn cases_turn_red_as_one_types_and_more_are_made() -> Outcome {
    let form = at_the_desk()?;
    form.read("#desk-counts .good", "as expected")?;
    choose(&form, "at-least: 6 m", 13)?;
    form.type_text("at-least: 7 m")?;
    form.see("#desk-cases li.bad")?;
    form.read("#desk-cases li.bad", "front-line")?;
    form.click("#cases-make")?;
    form.read("#desk-made", "just-outside")?;
    form.click("#cases-add")?;
    form.click("#file-cases")?;
    holds(&form, "just-outside")?;
    form.read("#desk-faults", "No faults")?;
    form.click("#desk-cases li.bad button")?;
    let line = "const area = document.getElementById('rules-text'); return area.value.slice(area.selectionStart).split('\\n')[0].startsWith('case: ');";
    assert_eq!(form.run(line, json!([]))?, json!(true));
    Ok(())
}

/// A rule file with a case of its own, which names only the first of its two rules.
const SMALL: &str = "\
ruleset: small
title: Small
edition: \"1\"
authority: nobody
rules:
  - {id: deep, title: Depth, clause: s. 1, require: {fact: pool.depth, at-most: 2 m}}
  - {id: tall, title: Tall, clause: By-law 7 s. 99, require: {fact: pool.depth, at-most: 3 m}}
cases:
  - case: one
    title: One
    plan:
      plan: p
      title: P
      unit: m
      lot: {corners: {a: [0, 0], b: [30, 0], c: [30, 30], d: [0, 30]}}
      pool: {id: pool, water: [[5, 5], [9, 5], [9, 9]], depth: 1.5 m}
    expect: {deep: pass}
";

#[test]
fn a_clause_that_no_case_touches_is_named() -> Outcome {
    let form = at_the_desk()?;
    let small = file("small.yaml", SMALL)?;
    form.hand_file("#rules-file", &small.display().to_string())?;
    form.read("#desk-untouched", "By-law 7 s. 99")?;
    form.read("#desk-counts", "1 as expected")
}

#[test]
fn the_rules_are_compared_with_those_in_force_over_the_plans_that_are_open() -> Outcome {
    let form = at_the_desk()?;
    choose(&form, "at-least: 6 m", 13)?;
    form.type_text("at-least: 60 m")?;
    form.read("#desk-said", "at least 60\u{a0}m")?;
    form.choose("#compare-with", "eldermere")?;
    form.read("#compare-summary", "of 1 plan")?;
    form.read("#compare-changes", "before:")?;
    form.read("#compare-changes", "60 m")?;
    let home = siting_home();
    let plan = file("second.yaml", &home)?;
    form.hand_file("#plan-files", &plan.display().to_string())?;
    form.read("#compare-summary", "of 2 plans")?;
    form.read("#compare-plans", "second.yaml")?;
    form.reload()?;
    form.ready()?;
    form.click("#menu-desk")?;
    form.read("#compare-summary", "of 2 plans")?;
    form.click("#plan-close-0")?;
    form.read("#compare-summary", "of 1 plan")?;
    let force = file("force.yaml", &in_force())?;
    form.hand_file("#compare-file", &force.display().to_string())?;
    form.read("#compare-changes", "Of itself")
}

fn siting_home() -> String {
    let home = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../rulesets/eldermere/home.yaml"
    );
    fs::read_to_string(home).expect("the home of the example")
}

fn in_force() -> String {
    "ruleset: before\ntitle: Before\nedition: \"1\"\nauthority: The office\nrules:\n  - {id: front-line, title: Front, clause: s. 1, require: {distance: {from: pool.water, to: lot-line}, at-least: 1 m}}\n".to_owned()
}

#[test]
fn what_is_typed_is_kept_and_a_file_is_saved_and_opened() -> Outcome {
    let form = at_the_desk()?;
    choose(&form, "at-least: 6 m", 13)?;
    form.type_text("at-least: 61 m")?;
    form.read("#desk-said", "at least 61\u{a0}m")?;
    form.reload()?;
    form.ready()?;
    form.click("#menu-desk")?;
    holds(&form, "at-least: 61 m")?;
    let folder = std::env::temp_dir().join(format!("siting-desk-{}", std::process::id()));
    fs::create_dir_all(&folder)?;
    form.browser(
        "Browser.setDownloadBehavior",
        json!({"behavior": "allow", "downloadPath": folder.display().to_string()}),
    )?;
    form.click("#desk-save")?;
    let saved = folder.join("eldermere.yaml");
    for _ in 0..200 {
        if saved.is_file() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    assert!(fs::read_to_string(&saved)?.contains("at-least: 61 m"));
    form.choose("#desk-from", "norway")?;
    form.hand_file("#rules-file", &saved.display().to_string())?;
    holds(&form, "at-least: 61 m")
}

#[test]
fn a_narrow_desk_is_no_wider_than_its_window() -> Outcome {
    let form = at_the_desk()?;
    form.screen(390, 800)?;
    choose(&form, "at-least: 6 m", 8)?;
    form.type_text("at-")?;
    form.see("#offers")?;
    let wide = form.run("return document.documentElement.scrollWidth;", json!([]))?;
    assert!(wide.as_u64().is_some_and(|wide| wide <= 390), "{wide}");
    Ok(())
}

#[test]
fn the_edition_that_governs_is_named_and_where_nobody_knows_it_each_that_may() -> Outcome {
    let form = Form::with_editions()?;
    // The example's application is of March 2026.
    form.read("#edition", "Edition 2026-01 governs this plan.")?;
    assert_eq!(form.outcome("rear-line")?, "fail");
    form.forget_application()?;
    form.read(
        "#editions",
        "It is not known which of these editions governs",
    )?;
    form.read("#editions", "If it is edition 2027-01")?;
    assert_eq!(form.outcome("rear-line")?, "unknown");
    Ok(())
}
