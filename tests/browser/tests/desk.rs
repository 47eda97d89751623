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
