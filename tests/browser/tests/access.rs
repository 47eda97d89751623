//! Whether everybody can use the page: axe-core finds nothing, in any state, on any screen; and nothing runs off the side.

use browser_checks::{Form, Outcome, Trouble};
use serde_json::{Value, json};

/// axe-core 4.14.1, a general checker of accessibility; used here only, never shipped with the form.
const AXE: &str = include_str!("../axe/axe.min.js");

/// The screens: how wide, how high, how large the letters (in per cent), and whether it is dark.
const SCREENS: [(u32, u32, u32, &str); 5] = [
    (1280, 900, 100, "light"),
    (1280, 900, 100, "dark"),
    (1280, 900, 200, "light"),
    (360, 740, 100, "light"),
    (360, 740, 100, "dark"),
];

fn every_screen(state: &str, form: &Form) -> Outcome {
    for (width, height, letters, light) in SCREENS {
        form.screen(width, height)?;
        let wish = json!({"features": [{"name": "prefers-color-scheme", "value": light}, {"name": "prefers-reduced-motion", "value": "reduce"}]});
        form.browser("Emulation.setEmulatedMedia", wish)?;
        letters_at(form, letters)?;
        let found = violations(form)?;
        assert!(
            found.is_empty(),
            "{state}, {width} px wide, letters at {letters} %, {light}: {found:#?}"
        );
        let over = form.run(
            "return document.documentElement.scrollWidth - document.documentElement.clientWidth;",
            json!([]),
        )?;
        assert!(
            over.as_i64() <= Some(0),
            "{state}, {width} px wide, letters at {letters} %: the page runs {over} px off the side"
        );
    }
    letters_at(form, 100)?;
    form.screen(1280, 900)
}

/// The browser's own size of letters, in per cent of what is usual.
fn letters_at(form: &Form, percent: u32) -> Outcome {
    let size = 16 * percent / 100;
    let sizes = json!({"fontSizes": {"standard": size, "fixed": size}});
    form.browser("Page.setFontSizes", sizes).map(drop)
}

/// What axe finds, each with the first element at fault.
fn violations(form: &Form) -> Result<Vec<String>, Trouble> {
    form.run(
        "if (!window.axe) { (0, eval)(arguments[0]); }",
        json!([AXE]),
    )
    .or_else(|_| form.run(AXE, json!([])))?;
    let script = "const done = arguments[arguments.length - 1];
        axe.run(document, {resultTypes: ['violations']}).then(
            (found) => done(found.violations.map((one) => `${one.id}: ${one.help}: ${one.nodes[0].html} ${one.nodes[0].failureSummary}`)),
            (error) => done([String(error)]));";
    let found = form.run_later(script, json!([]))?;
    let rows = found.as_array().cloned().unwrap_or_default();
    Ok(rows
        .iter()
        .filter_map(Value::as_str)
        .map(str::to_owned)
        .collect())
}

#[test]
fn with_nothing_in_it() -> Outcome {
    every_screen("nothing chosen", &Form::fresh()?)
}

#[test]
fn every_part_of_the_form() -> Outcome {
    let form = Form::with_example()?;
    for part in [
        "where",
        "lot",
        "pool",
        "road",
        "site",
        "barrier",
        "questions",
        "sure",
    ] {
        form.run("const head = document.getElementById(`head-${arguments[0]}`); if (head.getAttribute('aria-expanded') === 'false') head.click();", json!([part]))?;
        every_screen(part, &form)?;
    }
    Ok(())
}

#[test]
fn each_view_of_a_narrow_page_and_a_finding_chosen() -> Outcome {
    let form = Form::with_example()?;
    form.click("#choose-rear-line")?;
    for view in ["sheet", "result"] {
        form.run(
            "document.getElementById(`view-${arguments[0]}`).click();",
            json!([view]),
        )?;
        every_screen(view, &form)?;
    }
    Ok(())
}

#[test]
fn other_rules_and_a_side_of_the_lot() -> Outcome {
    let form = Form::with_example()?;
    form.click("#head-where")?;
    form.choose("#rules", "norway")?;
    form.click("#left-out summary")?;
    every_screen("answers for other rules", &form)?;
    form.tab_to("#drawing [data-path='rear']")?;
    form.see("#drawing [data-handle='corner']")?;
    every_screen("a side of the lot chosen", &form)
}

#[test]
fn a_slip_of_the_pen() -> Outcome {
    let form = Form::with_example()?;
    form.click("#head-pool")?;
    form.fill("#at-pool_depth", "deep")?;
    form.see("#at-pool_depth-wrong")?;
    every_screen("a wrong entry", &form)
}

#[test]
fn the_desk_with_and_without_faults() -> Outcome {
    let form = Form::with_example()?;
    form.click("#menu-desk")?;
    form.see("#rules-text")?;
    every_screen("the desk", &form)?;
    form.run("const area = document.getElementById('rules-text'); area.value = area.value.replace('at-least: 6 m', 'at-leest: 6 m');
        area.dispatchEvent(new Event('input', {bubbles: true}));", json!([]))?;
    form.see("#gutter .fault")?;
    every_screen("the desk with a fault", &form)
}

#[test]
fn the_map_of_where_the_pool_could_go() -> Outcome {
    let form = Form::with_example()?;
    form.run("document.getElementById('view-sheet').click();", json!([]))?;
    form.click("#sheet-room")?;
    crate::room::found(&form)?;
    every_screen("the map of places", &form)?;
    form.click("#room-rules-0 > summary")?;
    form.click("#room-more > summary")?;
    form.run("document.getElementById('room-turned').click(); document.getElementById('room-stopped').click();", json!([]))?;
    every_screen("a search that was stopped", &form)
}

#[test]
fn the_boxes() -> Outcome {
    let form = Form::with_example()?;
    for name in ["print", "share", "anew"] {
        form.click(&format!("#menu-{name}"))?;
        form.see("#box")?;
        every_screen(name, &form)?;
        form.click("#box-close")?;
    }
    Ok(())
}

#[test]
fn in_the_other_language() -> Outcome {
    let form = Form::with_example()?;
    form.choose("#language", "nb")?;
    form.read("#name", "Basseng hjemme")?;
    every_screen("Bokmål", &form)
}

/// What the library says only in English is marked so on a page in another language; all else is in that language.
#[test]
fn words_of_another_language_are_marked() -> Outcome {
    let form = Form::with_example()?;
    form.choose("#language", "nb")?;
    form.click("#choose-rear-line")?;
    form.click("#head-pool")?;
    form.read("#finding-rear-line", "Measured from")?;
    let script = "return document.querySelector(arguments[0]).closest('[lang]').lang;";
    for (css, language) in [
        ("#finding-rear-line .details p", "en"),
        ("#finding-rear-line .witness", "en"),
        ("#finding-rear-line [data-cell=measured]", "en"),
        ("#finding-rear-line dt", "nb"),
        ("#next-question .missing p", "en"),
        ("#next-question h2", "nb"),
        ("#at-pool_depth-ask", "en"),
        ("#what-next li", "nb"),
        ("#verdict-word", "nb"),
        ("#group-fail h3", "nb"),
    ] {
        assert_eq!(form.run(script, json!([css]))?, json!(language), "{css}");
    }
    Ok(())
}

/// The verdict is in the page's language wherever it stands.
#[test]
fn the_verdict_is_in_the_language_of_the_page() -> Outcome {
    const VERDICT: &str = "Planen oppfyller ikke reglene";
    let form = Form::with_example()?;
    form.choose("#language", "nb")?;
    form.read("#verdict-word", VERDICT)?;
    form.run("window.dispatchEvent(new Event('beforeprint'));", json!([]))?;
    form.read("#print .verdict", VERDICT)?;
    form.click("#menu-desk")?;
    form.read("#desk-verdict", VERDICT)
}

/// A plan of which nobody said when it was applied for may be governed by more than one edition.
#[test]
fn the_list_of_editions() -> Outcome {
    let form = Form::with_editions()?;
    every_screen("the edition that governs", &form)?;
    form.forget_application()?;
    every_screen("editions that may govern", &form)?;
    form.choose("#language", "nb")?;
    form.read("#editions", "Planen oppfyller ikke reglene")
}

/// Who listens to the page, or goes through it with the keys, gets the questions as they are asked; the drawing comes after
/// them. Who looks at a narrow page has the verdict above the questions.
#[test]
fn the_questions_come_before_the_drawing() -> Outcome {
    let form = Form::sized(390, 844)?;
    let order =
        "return [...document.querySelectorAll('main > section')].map((section) => section.id);";
    assert_eq!(
        form.run(order, json!([]))?,
        json!(["form", "sheet", "result", "desk"])
    );
    form.run("document.getElementById('skip').focus();", json!([]))?;
    form.tab_to("main *")?;
    let first = "return document.activeElement.closest('main > section').id;";
    assert_eq!(form.run(first, json!([]))?, json!("form"));
    let above = "const top = (id) => document.getElementById(id).getBoundingClientRect().top; return top('verdict') < top('form');";
    assert_eq!(form.run(above, json!([]))?, json!(true));
    Ok(())
}
