//! The rule writer's desk: a fault is marked at its line while somebody types, and the rest follows when it is mended.

use browser_checks::{Form, Outcome};
use serde_json::json;

#[test]
fn a_broken_rule_file_is_marked_at_its_lines() -> Outcome {
    let form = Form::with_example()?;
    form.click("#menu-desk")?;
    form.read("#desk-faults", "No faults")?;
    form.read("#desk-said", "Pool to rear lot line")?;
    form.read("#desk-verdict", "does not comply")?;
    let line = form.run(
        "const area = document.getElementById('rules-text');
         const at = area.value.indexOf('at-least: 6 m');
         area.focus(); area.setSelectionRange(at, at + 8);
         return area.value.slice(0, at).split('\\n').length;",
        json!([]),
    )?;
    form.type_text("at-leest")?;
    form.see(&format!("#gutter .fault[data-line='{line}']"))?;
    form.read("#desk-faults", "at-least")?;
    form.click(&format!("#desk-faults [data-line='{line}']"))?;
    let chosen = form.run("const area = document.getElementById('rules-text'); return area.value.slice(area.selectionStart, area.selectionEnd);", json!([]))?;
    assert!(
        chosen.as_str().unwrap_or_default().contains("at-leest"),
        "{chosen}"
    );
    form.run("document.getElementById('rules-text').focus();", json!([]))?;
    form.type_text("      at-least: 21 m")?;
    form.read("#desk-faults", "No faults")?;
    form.click("#desk-back")?;
    form.read(
        "#finding-front-line[data-outcome=fail]",
        "Pool to front lot line",
    )
}

/// The example's rules amended: from 2027 on one metre to the rear line is enough.
const AMENDED: &str = "\
ruleset: eldermere-2027
title: Eldermere, private pools, as amended
edition: \"2027-01\"
authority: Eldermere building office
notice: Eldermere is an invented place.
earlier: eldermere
in-force: {from: 2027-01-01, by: applied}
rules:
  - id: rear-line
    title: Pool to rear lot line
    clause: By-law 7 as amended, s. 10(3)
    each: lot-line
    where: {fact: lot-line.faces, is: rear}
    require: {distance: {from: pool.water, to: lot-line}, at-least: 1 m}
    remedy: Move the pool away from the rear line.
";

#[test]
fn the_edition_that_governs_is_named_and_where_nobody_knows_it_each_that_may() -> Outcome {
    let form = Form::with_example()?;
    let file = std::env::temp_dir().join("eldermere-2027.yaml");
    std::fs::write(&file, AMENDED)?;
    form.click("#menu-desk")?;
    form.see("#rules-text")?;
    form.hand_file("#rules-file", &file.display().to_string())?;
    form.read("#desk-faults", "No faults")?;
    form.click("#desk-back")?;
    // The example's application is of March 2026.
    form.read("#edition", "Edition 2026-01 governs this plan.")?;
    assert_eq!(form.outcome("rear-line")?, "fail");
    form.click("#head-where")?;
    form.run(
        "const day = document.getElementById('at-dates_applied'); day.value = '';
         day.dispatchEvent(new Event('change', {bubbles: true}));",
        json!([]),
    )?;
    form.read(
        "#editions",
        "It is not known which of these editions governs",
    )?;
    form.read("#editions", "If it is edition 2027-01")?;
    assert_eq!(form.outcome("rear-line")?, "unknown");
    Ok(())
}
